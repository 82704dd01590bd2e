import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { answered, holds, type Stage, type Story, same } from '../story.ts'

const JOB = '#/job/groomer-yard-us'
const YARD = `${JOB}/box/yard/yard`

/** As slow as a shop's old laptop, once the page has come to rest. */
export async function slowed(page: Page, times: number): Promise<void> {
  await page.waitForTimeout(1000)
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: times })
}

interface Task {
  readonly name: string
  readonly ph: string
  readonly pid: number
  readonly tid: number
  readonly dur?: number
  readonly tdur?: number
  readonly args?: { readonly name?: string }
}

/** Longest task of the main thread while something is done, ms by the thread's own clock: a busy machine does not count. */
export async function longestTaskMs(browser: Browser, page: Page, done: () => Promise<void>): Promise<number> {
  await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline', '__metadata'] })
  await done()
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as { readonly traceEvents: readonly Task[] }
  const main = new Set(
    traceEvents.flatMap((e) => (e.name === 'thread_name' && e.args?.name === 'CrRendererMain' ? [`${e.pid} ${e.tid}`] : [])),
  )
  const tasks = traceEvents.filter((e) => /RunTask$/.test(e.name) && e.tdur !== undefined && main.has(`${e.pid} ${e.tid}`))
  holds(tasks.length > 50, `the trace holds the tasks of the page: ${tasks.length}`)
  return Math.max(...tasks.map((e) => (e.tdur ?? 0) / 1000))
}

export const middleOf = async (page: Page, name: string): Promise<readonly [number, number]> => {
  const box = await page.locator(`[data-choose="${name}"]`).boundingBox()
  if (box === null) throw new Error(`${name} is not drawn`)
  return [box.x + box.width / 2, box.y + box.height / 2]
}

const reading = (page: Page) => page.locator('.sheet-foot .reading')
const anew = (page: Page) => page.locator('.box-sheet.stale').waitFor({ state: 'detached', timeout: 90_000 })

/** Drags step by step, a frame each, as a hand does. */
export async function drag(
  page: Page,
  from: readonly [number, number],
  to: readonly [number, number],
  steps: number,
): Promise<void> {
  await page.mouse.move(...from)
  await page.mouse.down()
  for (let i = 1; i <= steps; i++) {
    const k = i / steps
    await page.mouse.move(from[0] + (to[0] - from[0]) * k, from[1] + (to[1] - from[1]) * k)
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(done)))
  }
}

export const stories: readonly Story[] = [
  {
    name: 'six sides: a machine is dragged till its cord fails, the mend is named, the plan takes it, undo brings the cord back',
    run: async ({ open, pictures, browser }) => {
      const page = await open({ hash: YARD })
      await answered(page)
      await page.evaluate((to) => {
        window.location.hash = to
      }, `${YARD}?box=yard&thing=receptacle+G4H`)
      const cord = page.locator('.tag dl > div', { has: page.getByText('cord', { exact: true }) }).getByLabel('Choose cord')
      await cord.waitFor()
      holds((await cord.inputValue()) === '12 AWG', 'the cord of before')
      await slowed(page, 4)
      const from = await middleOf(page, 'machine G4')
      const latency: number[] = []
      const longest = await longestTaskMs(browser, page, async () => {
        await drag(page, from, [from[0] - 40, from[1] + 30], 10)
        for (let i = 1; i < 40; i++) {
          const before = await reading(page).textContent()
          const begun = Date.now()
          await page.mouse.move(from[0] - 40 - 6 * i, from[1] + 30 + 4 * i)
          await page.waitForFunction(
            (was) => (document.querySelector('.sheet-foot .reading:not(.quiet)')?.textContent ?? was) !== was,
            before,
            { polling: 'raf', timeout: 5000 },
          )
          latency.push(Date.now() - begun)
          if (/fails/.test((await reading(page).textContent()) ?? '')) break
        }
      })
      await reading(page).filter({ hasText: 'fails' }).waitFor()
      const said = (await reading(page).textContent()) ?? ''
      holds(/^ ?G4, [\d.]+.m, [\d.]+.V, [\d.]+.% lost, fails/.test(said), said)
      holds(/Would mend it: .*AWG/.test(said), said)
      await page.screenshot({ path: join(pictures, 'drag-fails-1440-light.png') })
      latency.sort((a, b) => a - b)
      const middle = latency[Math.floor(latency.length / 2)]
      console.log(
        `    at a quarter of the speed: longest task ${longest.toFixed(1)} ms; verdict ${middle} ms after the move, ${latency.at(-1)} ms at most`,
      )
      await slowed(page, 1)
      await page.mouse.up()
      const undo = page.locator('.undo')
      await page.getByRole('button', { name: /^Undo: moved G4, cord/ }).waitFor()
      await anew(page)
      const line = page.locator('.yard-table tr', { has: page.getByRole('rowheader', { name: 'G4', exact: true }) })
      holds(!/30.m/.test((await line.textContent()) ?? ''), 'the cords are longer')
      await page.waitForFunction(
        () => (document.querySelector<HTMLSelectElement>('.tag dl select')?.value ?? '12 AWG') !== '12 AWG',
      )
      holds((await cord.inputValue()) === '10 AWG', `the plan took a heavier cord: ${await cord.inputValue()}`)
      await undo.click()
      await anew(page)
      await page.waitForFunction(() => document.querySelector<HTMLSelectElement>('.tag dl select')?.value === '12 AWG')
      holds(/30.m, 30.m/.test((await line.textContent()) ?? ''), 'the cords are as they were')
    },
  },
  {
    name: 'six sides: a thing is moved on its wall by mouse, by word and by keys, and pinned by holding; each is an act that undo takes back',
    run: async ({ open, pictures, browser }) => {
      const page = await open({ hash: `${JOB}/box/yard/left` })
      await answered(page)
      await slowed(page, 4)
      const from = await middleOf(page, 'controls')
      const longest = await longestTaskMs(browser, page, () => drag(page, from, [from[0] - 60, from[1] + 8], 20))
      console.log(`    at a quarter of the speed: longest task ${longest.toFixed(1)} ms`)
      await slowed(page, 1)
      holds(/^controls, left long side, [\d.]+.m along/.test(((await reading(page).textContent()) ?? '').trim()), 'it says where')
      await page.mouse.up()
      await page.getByRole('button', { name: /^Undo: moved controls to left/ }).waitFor()
      await anew(page)
      await page.getByText('pinned by the desk: “moved by hand”').waitFor()
      // By keys: two ribs to the right, one of 10 mm back, put down.
      const place = async () => (await page.locator('.tag .at').textContent()) ?? ''
      const before = await place()
      const act = await page.locator('.undo').getAttribute('aria-label')
      await page.locator('[data-choose="controls"]').focus()
      for (const key of ['m', 'ArrowRight', 'ArrowRight', 'Shift+ArrowLeft', 'Enter']) await page.keyboard.press(key)
      await page.waitForFunction((was) => document.querySelector('.undo')?.getAttribute('aria-label') !== was, act)
      await anew(page)
      holds((await place()) !== before, 'it hangs elsewhere')
      // By word, with a touch.
      await page.locator('.tag-acts').getByRole('button', { name: 'Move', exact: true }).click()
      await page.locator('.box-sheet.acting').waitFor()
      const at = await middleOf(page, 'controls')
      await page.mouse.click(at[0] - 25, at[1])
      await anew(page)
      await page.screenshot({ path: join(pictures, 'moved-1440-light.png') })
      // Onto another thing that is pinned too: the picture says with what it clashes, and by how much. What is free makes way.
      await page.locator('[data-choose="panel"]').focus()
      for (const key of ['Enter', 'p']) await page.keyboard.press(key)
      await page.getByLabel(/^Why\?/).waitFor()
      await page.keyboard.press('Enter')
      await page.waitForFunction(() =>
        (document.querySelector('.undo')?.getAttribute('aria-label') ?? '').includes('pinned panel'),
      )
      await anew(page)
      await page.waitForTimeout(500)
      const panel = await middleOf(page, 'panel')
      await drag(page, await middleOf(page, 'controls'), panel, 8)
      await page.mouse.up()
      await page
        .locator('.sheet-foot')
        .filter({ hasText: /controls against .*mm too little/ })
        .waitFor({ timeout: 90_000 })
      await page.screenshot({ path: join(pictures, 'clash-1440-light.png') })
      await page.keyboard.press('Control+z')
      await anew(page)
      await page
        .locator('.sheet-foot')
        .filter({ hasText: /too little/ })
        .waitFor({ state: 'detached' })
    },
  },
  {
    name: 'six sides: held for 0.6 s a thing asks why, is pinned, and the pin comes out again',
    run: async ({ open }) => {
      const page = await open({ hash: `${JOB}/box/yard/left` })
      await answered(page)
      await page.mouse.move(...(await middleOf(page, 'panel')))
      await page.mouse.down()
      await page.getByLabel(/^Why\?/).waitFor({ timeout: 3000 })
      await page.mouse.up()
      await page.keyboard.type('the wall is strong here')
      await page.keyboard.press('Enter')
      await page.getByText('pinned by the desk: “the wall is strong here”').waitFor({ timeout: 90_000 })
      await anew(page)
      await page.getByRole('button', { name: 'Take the pin out' }).last().click()
      await anew(page)
      await page.getByText('the wall is strong here').waitFor({ state: 'detached' })
      // By key, without a reason.
      await page.locator('[data-choose="panel"]').focus()
      await page.keyboard.press('p')
      await page.getByLabel(/^Why\?/).waitFor()
      await page.keyboard.press('Enter')
      await page.getByText('pinned by the desk: “no reason said”').waitFor({ timeout: 90_000 })
    },
  },
  {
    name: 'six sides: the chosen design and a runner-up, then before and after an act, stand side by side as one pair',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: JOB })
      await answered(page)
      await page.getByRole('button', { name: 'Compare' }).click()
      await page.locator('.pair figure svg').nth(1).waitFor({ timeout: 60_000 })
      same(await page.locator('.pair figure').count(), 2, 'two designs')
      const names = await page.locator('.pair figcaption').allTextContents()
      holds(names[0] !== names[1], `two names: ${names.join(' and ')}`)
      holds(
        (await page.locator('.pair-table tbody tr', { hasText: 'cost' }).getByText('differs').count()) === 1,
        'they cost unlike',
      )
      await page.screenshot({ path: join(pictures, 'compare-1440-light.png') })
      await page.evaluate((to) => {
        window.location.hash = to
      }, `${JOB}?box=yard&thing=controls`)
      await answered(page)
      await page.locator('.tag-acts').getByRole('button', { name: 'Pin', exact: true }).click()
      await page.keyboard.press('Enter')
      await page.getByText('pinned by the desk').waitFor({ timeout: 90_000 })
      await anew(page)
      await page.getByRole('button', { name: 'Compare' }).click()
      await page.locator('.pair figcaption', { hasText: /^after: / }).waitFor({ timeout: 60_000 })
    },
  },
  {
    name: 'six sides: with gloves nothing is dragged or held, the same is done by words',
    run: async (at) => gloves(at),
  },
]

async function gloves({ open, pictures }: Stage): Promise<void> {
  const page = await open({
    ...{ hash: `${JOB}/box/yard/left?box=yard&thing=controls`, viewport: { width: 390, height: 844 }, hasTouch: true },
    before: (context) =>
      context.addInitScript(() => localStorage.setItem('plugstead.hands', JSON.stringify({ gloves: true, theme: 'light' }))),
  })
  await page.locator('.tag-acts').waitFor({ timeout: 90_000 })
  await page.screenshot({ path: join(pictures, 'gloves-tag-390-light.png') })
  await page.locator('.tag-acts').getByRole('button', { name: 'Move', exact: true }).click()
  await page.locator('.box-sheet.acting .drawing').waitFor()
  const put = page.getByRole('button', { name: 'Put it here' })
  const size = await put.boundingBox()
  holds((size?.height ?? 0) >= 91, `a glove needs 91 px: ${size?.height}`)
  await page.screenshot({ path: join(pictures, 'gloves-move-390-light.png') })
  await page.getByRole('button', { name: 'Leave it' }).click()
  await page.locator('.tag-acts').waitFor()
  same(await page.locator('.undo').isDisabled(), true, 'nothing was written')
}
