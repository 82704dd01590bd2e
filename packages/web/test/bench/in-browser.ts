import type { Browser, BrowserContext, CDPSession, Page } from 'playwright-core'
import { drag, longestTaskMs, middleOf, slowed } from '../stories/six-sides.ts'
import { answered } from '../story.ts'

const DESK = { viewport: { width: 1440, height: 900 } }
export const SLOWED = 4
/** Slow 4G as the browser's own tools set it: 1.44 Mbit/s down, 0.675 up, 562.5 ms a request. Provenance: memory */
const SLOW_4G = { offline: false, latency: 562.5, downloadThroughput: 1_440_000 / 8, uploadThroughput: 675_000 / 8 }

/** Notes when the first thing of the box is on the page. Runs before anything of the app. */
function noteFirstThing(): void {
  const seen = new MutationObserver(() => {
    if (document.querySelector('[data-choose]') === null) return
    seen.disconnect()
    requestAnimationFrame(() => performance.mark('drawn'))
  })
  seen.observe(document, { childList: true, subtree: true })
}

const cdp = (page: Page): Promise<CDPSession> => page.context().newCDPSession(page)

async function drawnAt(page: Page): Promise<{ readonly ms: number; readonly kB: number }> {
  await page.locator('[data-choose]').first().waitFor({ state: 'attached', timeout: 120_000 })
  await page.waitForTimeout(100)
  return page.evaluate(() => {
    const ms = performance.getEntriesByName('drawn')[0]!.startTime
    const parts = [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')]
    const before = (parts as PerformanceResourceTiming[]).filter((part) => part.responseEnd <= ms)
    return { ms, kB: before.reduce((sum, part) => sum + part.encodedBodySize, 0) / 1000 }
  })
}

/** The very first visit over a slow line: when the box is drawn, and what was loaded until then. */
export async function firstVisit(browser: Browser, address: string): Promise<{ readonly ms: number; readonly kB: number }> {
  const context = await browser.newContext(DESK)
  await context.addInitScript(noteFirstThing)
  const page = await context.newPage()
  const session = await cdp(page)
  await session.send('Network.enable')
  await session.send('Network.emulateNetworkConditions', SLOW_4G)
  await page.goto(address, { waitUntil: 'commit' })
  const drawn = await drawnAt(page)
  await context.close()
  return drawn
}

/** Return visits of one browser, as fast as the machine is: when the box is drawn. */
export async function returnVisits(browser: Browser, address: string, rounds: number): Promise<readonly number[]> {
  const context = await browser.newContext(DESK)
  await context.addInitScript(noteFirstThing)
  const first = await context.newPage()
  await first.goto(address)
  await answered(first)
  // What was answered is kept when it has been looked at.
  await first.waitForTimeout(2000)
  await first.close()
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    const page = await context.newPage()
    await page.goto(address)
    times.push((await drawnAt(page)).ms)
    await page.close()
  }
  await context.close()
  return times
}

async function inTheYard(browser: Browser, address: string): Promise<{ readonly context: BrowserContext; readonly page: Page }> {
  const context = await browser.newContext({ ...DESK, serviceWorkers: 'block' })
  await timeWorkers(context)
  await context.addInitScript(noteRoundTrips)
  const page = await context.newPage()
  await page.goto(`${address}#/job/groomer-yard-us/box/yard/yard?box=yard&thing=receptacle+G4H`)
  await answered(page)
  return { context, page }
}

export async function longestTasksDragging(browser: Browser, address: string, rounds: number): Promise<readonly number[]> {
  const { context, page } = await inTheYard(browser, address)
  await slowed(page, SLOWED)
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    const from = await middleOf(page, 'machine G4')
    const to = [from[0] + 60, from[1] + 40] as const
    times.push(
      await longestTaskMs(browser, page, async () => {
        await drag(page, from, to, 30)
        await drag(page, to, from, 30)
        await page.keyboard.press('Escape')
      }),
    )
    await page.mouse.up()
  }
  await context.close()
  return times
}

/** What workers took by their own clock, ms: a page's processor is slowed by the browser, a worker's is not. */
const TIMED = `{
  const post = self.postMessage.bind(self)
  let began = 0
  self.addEventListener('message', () => { began = performance.now() })
  self.postMessage = (message) => post(message.kind === 'answer' ? { ...message, tookMs: performance.now() - began } : message)
}
`

/** Has every worker tell what each answer took it. A part that is kept on the device could not be had so: such a browser keeps none. */
async function timeWorkers(context: BrowserContext): Promise<void> {
  await context.route(/\/assets\/(worker|scribe)-[^/]*\.js$/, async (route) => {
    const response = await route.fetch()
    await route.fulfill({ response, body: TIMED + (await response.text()) })
  })
}

interface Trips {
  trips?: number[]
  /** Calls that run. */
  running?: number
}

function noteRoundTrips(): void {
  const told: Trips = globalThis as Trips
  told.trips = []
  told.running = 0
  const began = new Set<string>()
  const Plain = globalThis.Worker
  globalThis.Worker = class extends Plain {
    readonly #name: string
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options)
      this.#name = options?.name ?? ''
      this.addEventListener('message', ({ data }) => {
        if (data.kind !== 'work') told.running = (told.running ?? 0) - 1
        if (data.kind === 'answer' && began.delete(`${this.#name} ${data.id}`)) told.trips?.push(data.tookMs ?? Number.NaN)
      })
    }
    override postMessage(message: unknown, rest?: Transferable[] | StructuredSerializeOptions): void {
      const { id, call } = message as { readonly id: number; readonly call: string }
      told.running = (told.running ?? 0) + 1
      if (['edit', 'judge', 'stand'].includes(call)) began.add(`${this.#name} ${id}`)
      super.postMessage(message, rest as StructuredSerializeOptions)
    }
  }
}

/**
 * A machine is put elsewhere by keys, again and again, each time when the plan before has come: from the key to the rule's new verdicts. The page
 * runs on a processor slowed four times; what the workers took is counted four times.
 */
export async function editsToVerdicts(browser: Browser, address: string, rounds: number): Promise<readonly number[]> {
  const { context, page } = await inTheYard(browser, address)
  await slowed(page, SLOWED)
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    await page.locator('.box-sheet:not(.stale)').waitFor({ timeout: 120_000 })
    // The judge takes over what was planned.
    do await page.waitForTimeout(500)
    while ((await page.evaluate(() => (globalThis as { running?: number }).running)) !== 0)
    await page.locator('[data-choose="machine G4"]').focus()
    await page.keyboard.press('m')
    await page.keyboard.press(round % 2 === 0 ? 'ArrowDown' : 'ArrowUp')
    await page.waitForTimeout(300)
    const ms = page.evaluate(
      (slowed) =>
        new Promise<number>((resolve) => {
          const told = globalThis as { trips?: number[] }
          const rule = document.querySelector('.rule')!
          let began = 0
          let old = false
          addEventListener(
            'keydown',
            ({ timeStamp }) => {
              began = timeStamp
              told.trips = []
            },
            { capture: true, once: true },
          )
          const seen = new MutationObserver(() => {
            if (rule.classList.contains('stale')) old = true
            else if (old) {
              seen.disconnect()
              const workers = (told.trips ?? []).reduce((sum, trip) => sum + trip, 0)
              requestAnimationFrame(() => resolve(performance.now() - began + (slowed - 1) * workers))
            }
          })
          seen.observe(rule, { attributes: true })
        }),
      SLOWED,
    )
    await page.waitForTimeout(50)
    await page.keyboard.press('Enter')
    times.push(await ms)
  }
  await context.close()
  return times.slice(1)
}
