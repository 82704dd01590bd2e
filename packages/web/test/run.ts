/**
 * The app in a real browser: builds it, serves it, runs every story, ends with `N passed, N failed`. Words after the command choose the stories
 * whose names hold them.
 */
import { mkdirSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { APP_FOLDER, buildApp } from '../../../scripts/app-build.mjs'
import { serve } from '../../../scripts/app-server.mjs'
import { launched } from './browser.ts'
import type { Opening, Stage, Story } from './story.ts'

/**
 * The browser asks the network for a part while the service worker still wakes, then takes the same bytes from that; or the machine is so
 * busy that a part is run some seconds after it came.
 */
const OWN_HURRY =
  /preload for .* not used because it is a cross-world service worker resource mismatch|was preloaded using link preload but not used within a few seconds/

const root = join(import.meta.dirname, '../../..')
const pictures = join(import.meta.dirname, 'pictures')
mkdirSync(pictures, { recursive: true })

const unbuilt = buildApp(root, process.execPath)
if (unbuilt !== null) {
  console.log(unbuilt)
  console.log('0 passed, 1 failed')
  process.exit(1)
}
const { address, close } = await serve(join(root, APP_FOLDER), 0)
const browser = await launched()
const wanted = process.argv.slice(2)
let passed = 0
let failed = 0
for (const story of await stories()) {
  if (wanted.length > 0 && !wanted.some((word) => story.name.includes(word))) continue
  const started = Date.now()
  const first = await told(story)
  // A browser on a loaded machine misses a moment now and then: what fails twice is broken, and what fails once is named.
  const error = first === null ? null : await told(story)
  if (error === null) passed += 1
  else failed += 1
  console.log(
    `${error === null ? 'passed' : 'FAILED'}  ${story.name}  ${((Date.now() - started) / 1000).toFixed(1)} s${first !== null && error === null ? ', at the second try' : ''}`,
  )
  for (const wrong of [first, error])
    if (wrong !== null)
      console.log(
        `    ${String(wrong instanceof Error ? wrong.message : wrong)
          .split('\n')
          .slice(0, 30)
          .join('\n    ')}`,
      )
}
await browser.close()
await close()
if (passed + failed === 0) {
  console.log('no story ran')
  failed = 1
}
console.log(`${passed} passed, ${failed} failed`)
process.exit(failed === 0 ? 0 : 1)

/** Runs a story in contexts of its own; what went wrong, or null. */
async function told({ name, run }: Story): Promise<unknown> {
  const contexts: BrowserContext[] = []
  const wrong: string[] = []
  let error: unknown = null
  try {
    await run(stage(contexts, wrong))
    if (wrong.length > 0) error = new Error(`the browser said: ${wrong.join('; ')}`)
  } catch (thrown) {
    error = thrown
    const page = contexts.at(-1)?.pages().at(-1)
    await page?.screenshot({ path: join(pictures, `failed-${name.replace(/[^\w]+/g, '-').slice(0, 60)}.png`) }).catch(() => {})
  }
  for (const context of contexts) await context.close().catch(() => {})
  return error
}

async function stories(): Promise<readonly Story[]> {
  const folder = join(dirname(import.meta.filename), 'stories')
  const modules = await Promise.all(
    readdirSync(folder)
      .filter((name) => name.endsWith('.ts'))
      .sort()
      .map((name) => import(join(folder, name)) as Promise<{ readonly stories: readonly Story[] }>),
  )
  return modules.flatMap((module) => module.stories)
}

function stage(contexts: BrowserContext[], wrong: string[]): Stage {
  const watched = (page: Page, expected: RegExp | undefined, app: string): Page => {
    page.setDefaultTimeout(90_000)
    page.on('console', (message) => {
      const said = message.text()
      if (!['error', 'warning'].includes(message.type()) || OWN_HURRY.test(said) || expected?.test(said) === true) return
      wrong.push(said)
    })
    page.on('pageerror', (error) => {
      if (expected?.test(error.message) !== true) wrong.push(error.message)
    })
    page.on('request', (request) => {
      if (!request.url().startsWith(app) && !request.url().startsWith('blob:'))
        wrong.push(`asked another address: ${request.url()}`)
    })
    return page
  }
  return {
    browser,
    app: address,
    pictures,
    open: async ({ hash = '', app = address, before, expected, ...how }: Opening = {}) => {
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...how })
      contexts.push(context)
      await before?.(context)
      const page = watched(await context.newPage(), expected, app)
      await page.goto(`${app}${hash}`)
      return page
    },
    beside: async (page) => {
      const other = watched(await page.context().newPage(), undefined, new URL('/', page.url()).href)
      await other.goto(page.url())
      return other
    },
  }
}
