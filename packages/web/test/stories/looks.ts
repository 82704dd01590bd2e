import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { goToPlace, PLACES } from '../places.ts'
import { answered, holds, type Story, WIDTHS } from '../story.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8')
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
        for (const place of PLACES) {
          const { name } = place
          await goToPlace(page, place).catch((thrown) => {
            throw new Error(`${name}: ${thrown}`)
          })
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
