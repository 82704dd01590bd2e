import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { answered, holds, type Stage, type Story, same } from '../story.ts'

const root = join(import.meta.dirname, '../../../..')
const JOB = '#/job/two-machines'
const KILLS = 50
const ACTS = 50

interface KeptAct {
  readonly n: number
  readonly words: string
  readonly patch: { readonly at: number; readonly gone: string; readonly come: string }
}

interface OnDisk {
  readonly base: string
  readonly acts: readonly KeptAct[]
}

/** What the disk holds of a job, read past the app. */
function onDisk(page: Page, job = 'two-machines'): Promise<OnDisk> {
  return page.evaluate(
    (job) =>
      new Promise<OnDisk>((resolve, reject) => {
        const opening = indexedDB.open('plugstead')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const tx = opening.result.transaction(['jobs', 'acts'])
          const base = tx.objectStore('jobs').get(job)
          const acts = tx.objectStore('acts').getAll(IDBKeyRange.bound([job, 0], [job, Number.MAX_SAFE_INTEGER]))
          tx.oncomplete = () => {
            opening.result.close()
            resolve({ base: base.result.base, acts: acts.result })
          }
        }
      }),
    job,
  )
}

/** The text that a base and its acts make; every act must find what it takes away, and none may be missing. */
function textOf({ base, acts }: OnDisk): string {
  let text = base
  for (const [i, { n, patch }] of acts.entries()) {
    same(n, i + 1, 'acts follow one another')
    same(text.slice(patch.at, patch.at + patch.gone.length), patch.gone, 'what an act takes away')
    text = text.slice(0, patch.at) + patch.come + text.slice(patch.at + patch.gone.length)
  }
  return text
}

/** Things of the box that can be pinned where they hang. */
async function thingsOf(page: Page): Promise<readonly string[]> {
  const all = await page
    .locator('[data-choose]')
    .evaluateAll((buttons) => buttons.map((b) => (b as HTMLElement).dataset.choose ?? ''))
  return all.filter((name) => /^(receptacle|panel|light)/.test(name)).slice(0, 4)
}

const whyField = (page: Page) => page.locator('.why input')

/** Pins a thing where it hangs, for a reason that nobody gave before: one act. Done when the page has taken the reason. */
async function pinFor(page: Page, thing: string, why: string): Promise<void> {
  await page.evaluate(
    (to) => {
      window.location.hash = to
    },
    `${JOB}?box=yard&thing=${encodeURIComponent(thing)}&act=pin`,
  )
  await whyField(page).fill(why)
  await page.keyboard.press('Enter')
}

const undoLabel = (page: Page): Promise<string | null> => page.locator('.undo').getAttribute('aria-label')

/** Waits till the disk holds so many acts. */
async function kept(page: Page, count: number): Promise<OnDisk> {
  for (let round = 0; round < 400; round++) {
    const disk = await onDisk(page)
    if (disk.acts.length >= count) return disk
    await page.waitForTimeout(10)
  }
  throw new Error(`the disk never held ${count} acts`)
}

/** The job answered, and its drawing kept for the next time it is opened. */
async function keptDrawing(open: Stage['open']): Promise<Page> {
  const page = await open({ hash: JOB })
  await answered(page)
  await page.waitForTimeout(800)
  return page
}

export const stories: readonly Story[] = [
  {
    name: `hard: a tab killed ${KILLS} times in mid edit loses nothing that was acknowledged`,
    run: async ({ open, beside }) => {
      let page = await keptDrawing(open)
      const [thing] = await thingsOf(page)
      let acknowledged = 0
      let before = await onDisk(page)
      const crashes: number[] = []
      for (let kill = 0; kill < KILLS; kill++) {
        await page.locator('[data-choose]').first().waitFor({ state: 'attached' })
        const was = await undoLabel(page)
        // By turns a pin and its undo: either changes what the page says Undo would do.
        if (before.acts.length % 2 === 0) await pinFor(page, thing!, `kill ${kill}`)
        else await page.keyboard.press('Control+z')
        // Some are killed at once, some a moment later, and every third as soon as the page has said it.
        if (kill % 3 === 0)
          await page.waitForFunction((old) => document.querySelector('.undo')?.getAttribute('aria-label') !== old, was)
        else await page.waitForTimeout((kill * 7) % 40)
        const told = (await undoLabel(page)) !== was
        const crashed = page.waitForEvent('crash')
        const session = await page.context().newCDPSession(page)
        session.send('Page.crash').catch(() => {})
        await crashed
        const next = await beside(page)
        await page.close()
        page = next
        const now = await onDisk(page)
        textOf(now)
        if (told) acknowledged += 1
        const added = now.acts.length - before.acts.length
        holds(added === 0 || added === 1, `kill ${kill}: ${added} acts were added`)
        holds(!told || added === 1, `kill ${kill}: the page had said it, the disk has not`)
        same(JSON.stringify(now.acts.slice(0, before.acts.length)), JSON.stringify(before.acts), 'acts before')
        crashes.push(added)
        before = now
      }
      holds(acknowledged > 5, `some acts were acknowledged before the kill: ${acknowledged}`)
      const label = await undoLabel(page)
      same(label === 'Nothing to undo', before.acts.length % 2 === 0, `the app takes up what the disk holds: ${label}`)
    },
  },
  {
    name: `hard: ${ACTS} acts undone, reloaded and done again by hand make the same text`,
    run: async ({ open }) => {
      const page = await keptDrawing(open)
      const things = await thingsOf(page)
      holds(things.length === 4, `things to pin: ${things.join(', ')}`)
      const all = async (from: number): Promise<OnDisk> => {
        for (let n = 0; n < ACTS; n++) {
          await pinFor(page, things[n % 4]!, `reason ${n}`)
          await kept(page, from + n + 1)
        }
        return onDisk(page)
      }
      const first = await all(0)
      const text = textOf(first)
      holds(text !== first.base && text.includes('reason 49'), 'the acts are in the text')
      for (let n = 0; n < ACTS; n++) {
        await page.keyboard.press('Control+z')
        await kept(page, ACTS + n + 1)
      }
      same(textOf(await onDisk(page)), first.base, 'all undone')
      await page.reload()
      await page.locator('[data-choose]').first().waitFor({ state: 'attached' })
      same(await page.locator('.undo').isDisabled(), true, 'nothing is left to undo')
      const again = await all(2 * ACTS)
      same(textOf(again), text, 'done again by hand')
    },
  },
  {
    name: 'hard: two tabs that act at once keep every act of both, and end with the same text',
    run: async ({ open, beside }) => {
      const one = await keptDrawing(open)
      const two = await beside(one)
      await two.locator('[data-choose]').first().waitFor({ state: 'attached' })
      const [a, b] = await thingsOf(one)
      const ROUNDS = 8
      for (let n = 0; n < ROUNDS; n++)
        await Promise.all([pinFor(one, a!, `from the first ${n}`), pinFor(two, b!, `from the second ${n}`)])
      const disk = await kept(one, 2 * ROUNDS)
      same(disk.acts.length, 2 * ROUNDS, 'acts')
      const text = textOf(disk)
      for (const last of [`from the first ${ROUNDS - 1}`, `from the second ${ROUNDS - 1}`]) holds(text.includes(last), last)
      await answered(one)
      await answered(two)
      same(await undoLabel(one), await undoLabel(two), 'both say the same of Undo')
    },
  },
  {
    name: 'hard: by keys alone to the six sides, into every room and back, and out again',
    run: async ({ open }) => {
      const page = await open({ hash: '#/today' })
      await page.locator('h1', { hasText: 'Today' }).waitFor()
      const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.getAttribute('data-job') ?? '')
      await tabTo(page, async () => (await focused()) === 'two-machines')
      await page.keyboard.press('Enter')
      await answered(page)
      const question = (): Promise<string | null> =>
        page.evaluate(() => document.activeElement?.getAttribute('data-question') ?? null)
      await tabTo(page, async () => (await question()) !== null)
      const seen = new Set<string>()
      for (let n = 0; n < 16; n++) {
        const here = (await question()) ?? ''
        seen.add(here)
        await page.keyboard.press('Enter')
        await page.locator('main .room, main .tag').first().waitFor()
        holds(page.url().includes(`/room/${here}`), `${here} is open: ${page.url()}`)
        await page.keyboard.press('Escape')
        // The address follows the key, it does not come with it.
        await page.waitForFunction(() => !location.hash.includes('/room/'), undefined, { timeout: 10_000 })
        same(await question(), here, 'keys stay where they were')
        await page.keyboard.press('ArrowRight')
      }
      same(seen.size, 16, 'rooms')
      await page.keyboard.press('Escape')
      await page.locator('h1', { hasText: 'Today' }).waitFor()
    },
  },
  {
    name: 'hard: while the engine is on its way the page says so, the rule has names and no marks; a mistake of ours is said with its code',
    run: async ({ open }) => {
      let go = (): void => {}
      const loaded = new Promise<void>((resolve) => {
        go = resolve
      })
      const page = await open({
        hash: JOB,
        before: (context) =>
          context.route(/\/assets\/worker-[^/]*\.js$/, async (route) => {
            await loaded
            await route.fulfill({
              contentType: 'text/javascript',
              body: `onmessage = ({ data }) => postMessage({ id: data.id, kind: 'fault', code: 'plan/no-end', said: 'made by a story' })`,
            })
          }),
      })
      await page.locator('.sheet', { hasText: 'Reading the job.' }).waitFor()
      same(await page.locator('[data-question]').count(), 16, 'names in the rule')
      same(await page.locator('.rule svg').count(), 0, 'marks in the rule')
      go()
      const strip = page.locator('.strip', { hasText: 'Our mistake, not yours.' })
      await strip.waitFor()
      holds(((await strip.textContent()) ?? '').includes('plan/no-end'), 'the code to copy')
      same((await onDisk(page)).acts.length, 0, 'the job is untouched')
    },
  },
  {
    name: 'hard: a job in which nothing has to run says so, and what to do',
    run: async ({ open }) => {
      const page = await open({ hash: '#/today' })
      const two = readFileSync(join(root, 'examples/two-machines.yaml'), 'utf8')
      const none = two.replace(/^ {2}machines:$/m, '  machines: []').replace(/^ {4}- \{ tag: H[12],.*\n/gm, '')
      await page
        .locator('input[type=file][accept]')
        .setInputFiles({ name: 'none.yaml', mimeType: 'text/yaml', buffer: Buffer.from(none) })
      const empty = page.locator('.empty', { hasText: 'No machines yet. Say what has to run.' })
      await empty.waitFor()
      await empty.getByRole('button').click()
      holds(page.url().endsWith('#/call'), page.url())
    },
  },
]

async function tabTo(page: Page, there: () => Promise<boolean>): Promise<void> {
  for (let n = 0; n < 250; n++) {
    if (await there()) return
    await page.keyboard.press('Tab')
  }
  throw new Error('no number of tabs leads there')
}
