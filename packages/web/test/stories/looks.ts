import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { answered, holds, type Story, WIDTHS } from '../story.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8')
const JOB = '#/job/groomer-yard-us'

const PLACES = [
  { name: 'net', hash: JOB },
  { name: 'thing', hash: `${JOB}?box=yard&thing=receptacle+G4C` },
  { name: 'side', hash: `${JOB}/box/yard/left?box=yard&thing=panel` },
  { name: 'working', hash: `${JOB}?box=yard&thing=receptacle+G4C&working=${encodeURIComponent('G4C/drop')}` },
  { name: 'room', hash: `${JOB}/room/faults` },
  { name: 'rule', hash: `${JOB}/rule` },
  { name: 'today', hash: '#/today' },
  { name: 'call', hash: '#/call' },
  { name: 'paper', hash: `${JOB}/paper` },
] as const

const THEMES = ['light', 'sunlight', 'dark'] as const

export const stories: readonly Story[] = WIDTHS.flatMap(({ name: width, ...how }) =>
  THEMES.map(
    (theme): Story => ({
      name: `looks: ${width}, ${theme}: axe finds nothing in any place, and nothing runs out of the page`,
      run: async ({ open, pictures }) => {
        const page = await open({
          ...how,
          before: (context) =>
            context.addInitScript((kept) => {
              localStorage.setItem('plugstead.hands', kept)
            }, JSON.stringify({ theme })),
        })
        await answered(page)
        for (const { name, hash } of PLACES) {
          await page.evaluate((to) => {
            window.location.hash = to
          }, hash)
          await settled(page)
          await page.screenshot({ path: join(pictures, `${name}-${how.viewport.width}-${theme}.png`) })
          const found = await axeFindings(page)
          holds(found.length === 0, `${name}: ${found.join(' | ')}`)
          const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
          holds(over <= 0, `${name}: ${over} px run out of the page`)
        }
      },
    }),
  ),
)

async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => !/Reading the (job|working)\./.test(document.querySelector('#page')?.textContent ?? ''))
  await page.evaluate(() => Promise.all(document.getAnimations().map((one) => one.finished)))
}

export async function axeFindings(page: Page): Promise<readonly string[]> {
  // Through the debugger, which the page's policy does not bind.
  await page.evaluate(axe)
  return page.evaluate(async () => {
    const run = (
      globalThis as unknown as {
        axe: {
          run: (options: object) => Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>
        }
      }
    ).axe
    const { violations } = await run.run({ resultTypes: ['violations'] })
    return violations.flatMap((v) =>
      v.nodes.slice(0, 3).map((n) => `${v.id}: ${n.html.slice(0, 160)} ${n.failureSummary.slice(0, 200)}`),
    )
  })
}
