import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'

/** One browser test: what a person does, and what must then be so. Throws when it is not. */
export interface Story {
  readonly name: string
  readonly run: (at: Stage) => Promise<void>
}

/** What a story acts on. Everything it opens is closed after it. */
export interface Stage {
  readonly browser: Browser
  /** Address of the app, with a stroke at its end. */
  readonly app: string
  /** A page of a fresh browser: nothing kept, nothing remembered. Anything wrong that its console says fails the story. */
  readonly open: (how?: Opening) => Promise<Page>
  /** Another tab beside a page. */
  readonly beside: (page: Page) => Promise<Page>
  /** Folder for pictures. */
  readonly pictures: string
}

export interface Opening extends BrowserContextOptions {
  readonly hash?: string
  /** Another address than that of the app: a server of the story's own. */
  readonly app?: string
  readonly before?: (context: BrowserContext) => Promise<unknown>
  /** Console messages that belong to the story. */
  readonly expected?: RegExp
}

export const WIDTHS = [
  { name: 'phone', viewport: { width: 390, height: 844 }, hasTouch: true },
  { name: 'tablet', viewport: { width: 1024, height: 768 }, hasTouch: true },
  { name: 'desk', viewport: { width: 1440, height: 900 } },
] as const

/** The box is drawn, and the numbers are of the text shown. */
export async function answered(page: Page): Promise<void> {
  await page.locator('.box-sheet:not(.stale) [data-choose]').first().waitFor({ state: 'attached', timeout: 60_000 })
}

export function same(is: unknown, wanted: unknown, what: string): void {
  const [a, b] = [JSON.stringify(is), JSON.stringify(wanted)]
  if (a === b) return
  let at = 0
  while (at < (a?.length ?? 0) && a?.[at] === b?.[at]) at++
  const from = Math.max(0, at - 120)
  throw new Error(`${what}, from letter ${at} on: ${a?.slice(from, at + 120)}, wanted ${b?.slice(from, at + 120)}`)
}

export function holds(so: boolean, what: string): void {
  if (!so) throw new Error(what)
}
