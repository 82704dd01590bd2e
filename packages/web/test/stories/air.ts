import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { holds, type Story, same, WIDTHS } from '../story.ts'
import { typicalYear } from '../typical-year.ts'
import { axeFindings } from './looks.ts'

/** Thirty years of one box, one worker. */
const THIRTY = { timeout: 240_000 }
const ROOM = '#/job/groomer-yard-us/room/air'
/** A plan with its year of air: a loaded machine takes its time. */
const PLANNED = { timeout: 150_000 }

/** Map, days and hour are drawn of the text that is shown. */
async function shown(page: Page): Promise<void> {
  await page.locator('.room:not(.stale) .air-vent').first().waitFor(PLANNED)
}

const week = (page: Page) => page.getByRole('slider', { name: 'Week of the year' })
const hour = (page: Page) => page.getByRole('slider', { name: 'Hour of these days' })
const days = async (page: Page): Promise<string> => (await page.locator('#air-days').textContent()) ?? ''
const moment = async (page: Page): Promise<string> => (await page.locator('#air-hour').textContent()) ?? ''

/** Waits until a head says something else, and gives what. */
async function changed(page: Page, id: string, from: string): Promise<string> {
  await page.waitForFunction(([head, was]) => document.getElementById(head!)?.textContent !== was, [id, from] as const)
  return (await page.locator(`#${id}`).textContent()) ?? ''
}

export const stories: readonly Story[] = [
  {
    name: 'air: the room opens on the worst night, with the map of the year in words beside it, and nothing that a reader stumbles over',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      holds((await page.locator('.air-brush').count()) === 1, 'the chosen week is brushed')
      await page.locator('summary', { hasText: 'by month' }).click()
      same(await page.locator('.air-room details tbody tr').count(), 12, 'months in figures')
      const said = (await week(page).getAttribute('aria-valuetext')) ?? ''
      holds(/frost under the roof in \d+.h/.test(said), said)
      holds(
        /^Map of 8760 hours/.test((await page.locator('.air-room svg title').first().textContent()) ?? ''),
        'the map says itself',
      )
      const night =
        (
          await page
            .getByRole('button', { name: /^Go to / })
            .first()
            .textContent()
        )?.replace('Go to ', '') ?? ''
      const [day, clock] = night.split(', ')
      holds((await moment(page)).includes(clock!), `${await moment(page)}, worst night ${night}`)
      holds(Number.parseInt(day!, 10) > 0, night)
      const found = await axeFindings(page)
      holds(found.length === 0, found.join(' | '))
      await page.screenshot({ path: `${pictures}/air-desk-light.png` })
    },
  },
  {
    name: 'air: week and hour are chosen by keys alone; a link in the chain goes back to its hour; both ends of how tight it is',
    run: async ({ open }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const [first, firstHour] = [await days(page), await moment(page)]
      await week(page).focus()
      await page.keyboard.press('ArrowRight')
      const second = await changed(page, 'air-days', first)
      await page.keyboard.press('Shift+ArrowRight')
      const third = await changed(page, 'air-days', second)
      await page.keyboard.press('End')
      holds(/31 Dec/.test(await changed(page, 'air-days', third)), 'the last week')
      await hour(page).focus()
      const before = await moment(page)
      await page.keyboard.press('ArrowRight')
      const after = await changed(page, 'air-hour', before)
      await page.keyboard.press('PageDown')
      await changed(page, 'air-hour', after)
      await page
        .getByRole('button', { name: /^Go to / })
        .first()
        .focus()
      await page.keyboard.press('Enter')
      await page.waitForFunction((was) => document.getElementById('air-hour')?.textContent === was, firstHour)
      same(await days(page), first, 'back at the worst night')
      const chain = await page.getByRole('button', { name: /^Go to / }).allTextContents()
      await page.getByText('leaky box', { exact: true }).click()
      await page.getByText('This end takes: most leakage').waitFor()
      same(chain.length, 2, 'a worst night and a hottest hour')
    },
  },
  {
    name: 'air: a larger vent is tried with keys, the year stands beside the one that is planned, is taken back, and another choice is kept',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const undo = page.locator('.undo')
      const vent = page.locator('.air-vent').first()
      await vent.focus()
      const size = Number(await vent.getAttribute('aria-valuenow'))
      await page.keyboard.press('ArrowUp')
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor()
      same(Number(await vent.getAttribute('aria-valuenow')), size + 50, 'the vent is larger')
      holds((await page.locator('.air-new').count()) > 0, 'figures that moved are marked')
      const took = Number(await page.locator('[data-took-ms]').getAttribute('data-took-ms'))
      console.log(`    a year with another vent: ${took} ms in the worker`)
      same(await undo.isDisabled(), true, 'nothing is written while it is tried')
      await page.screenshot({ path: `${pictures}/air-what-if-desk-light.png`, fullPage: true })
      await page.locator('.air-what-if').scrollIntoViewIfNeeded()
      const found = await axeFindings(page)
      holds(found.length === 0, found.join(' | '))
      await page.locator('.air-what-if').getByRole('button', { name: 'Take back' }).click()
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor({ state: 'detached' })
      const hood = page.locator('.air-what-if label', { hasText: 'drip hood' }).locator('select')
      const was = await hood.inputValue()
      await hood.selectOption(was === 'no' ? 'yes' : 'no')
      const keep = page.locator('.air-what-if').getByRole('button', { name: 'Keep' })
      await page.waitForFunction(() => document.querySelector('.air-what-if .one-act:not([disabled])') !== null)
      await keep.click()
      await page.getByRole('button', { name: /^Undo: kept for the air: drip hood over the gear/ }).waitFor(PLANNED)
      await shown(page)
      await page.getByText('pinned by the desk', { exact: false }).first().waitFor()
      same(await hood.inputValue(), was === 'no' ? 'yes' : 'no', 'it is planned now')
    },
  },
  {
    name: 'air: a vent is dragged larger in the section',
    run: async ({ open }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const vent = page.locator('.air-vent').first()
      await vent.scrollIntoViewIfNeeded()
      const box = await vent.boundingBox()
      if (box === null) throw new Error('no vent')
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
      await page.mouse.down()
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 26, { steps: 6 })
      await page.mouse.up()
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor()
      holds(Number(await vent.getAttribute('aria-valuenow')) > 300, (await vent.getAttribute('aria-valuetext')) ?? '')
    },
  },
  {
    name: 'air: on a phone a month is tapped, an hour is tapped, and nothing but pictures is wider than the page',
    run: async ({ open, pictures }) => {
      const page = await open({ ...WIDTHS[0], hash: ROOM })
      await shown(page)
      const first = await days(page)
      await page.locator('summary', { hasText: 'by month' }).tap()
      await page.getByRole('button', { name: 'July', exact: true }).tap()
      const july = await changed(page, 'air-days', first)
      holds(/Jul/.test(july), july)
      const before = await moment(page)
      await hour(page).tap({ position: { x: 20, y: 60 } })
      await changed(page, 'air-hour', before)
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
      holds(over <= 0, `${over} px wider than the page`)
      const found = await axeFindings(page)
      holds(found.length === 0, found.join(' | '))
      await page.screenshot({ path: `${pictures}/air-phone-light.png` })
    },
  },
  {
    name: 'air: a typical year of the place is taken, packed too, and kept over a reload; a wrong file changes nothing and says why',
    run: async ({ open }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const input = page.locator('.air-weather input[type=file]')
      await input.setInputFiles({ name: 'wrong.epw', mimeType: 'text/plain', buffer: Buffer.from('not weather\n') })
      await page.locator('.air-refused').waitFor()
      holds(
        (await page.locator('.air-weather').textContent())?.includes('A year made hour by hour') === true,
        'still the made year',
      )
      await input.setInputFiles({ name: 'cut.epw.gz', mimeType: 'application/gzip', buffer: Buffer.from([0x1f, 0x8b, 8, 0, 1]) })
      await page.getByText('a packed file that is cut off or damaged').waitFor()
      await input.setInputFiles({ name: 'falls.epw.gz', mimeType: 'application/gzip', buffer: gzipSync(typicalYear()) })
      await page.getByText('The hours of the file falls.epw.gz').waitFor(PLANNED)
      await page.reload()
      await shown(page)
      await page.getByText('The hours of the file falls.epw.gz').waitFor(PLANNED)
      await page.getByRole('button', { name: 'Back to the made year' }).click()
      await page.getByText('A year made hour by hour').waitFor(PLANNED)
    },
  },
  {
    name: 'air: the thirty years of the remedies are counted while they run; stopped, what was run by then stays and says of how many years it is',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      await page.getByRole('button', { name: 'Run the thirty years' }).click()
      const work = page.getByRole('region', { name: 'What each measure buys' })
      const count = work.locator('.air-work [role=status]')
      await count.filter({ hasText: /^[2-9] of 60 years run/ }).waitFor(PLANNED)
      await work.locator('.air-work').getByRole('button', { name: 'Stop' }).click()
      await page.getByText(/Stopped after \d+ of 60 years/).waitFor(PLANNED)
      const said = (await work.getByText(/Stopped after/).textContent()) ?? ''
      const years = Number(/after (\d+)/.exec(said)?.[1])
      holds(years >= 2 && years < 60, said)
      const table = page.getByRole('group', { name: `Each alone, mean of ${years} years` })
      holds((await table.locator('tbody tr').count()) >= 9, 'eight measures and nothing done')
      same(await page.getByText(/One on top of the other/).count(), 0, 'nothing is made up of what was not run')
      await table.scrollIntoViewIfNeeded()
      await page.screenshot({ path: `${pictures}/air-remedies-desk-light.png` })
      const found = await axeFindings(page)
      holds(found.length === 0, found.join(' | '))
    },
  },
  {
    name: 'air: in how many of thirty made years it holds is counted beside the page, can be stopped and run again, and stands in the papers',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const years = page.getByRole('region', { name: 'In how many years it holds' })
      const count = years.locator('.air-work [role=status]')
      await count.filter({ hasText: /^[1-9] of 30 years run/ }).waitFor(PLANNED)
      await years.scrollIntoViewIfNeeded()
      await page.screenshot({ path: `${pictures}/air-thirty-desk-light.png` })
      await years.getByRole('button', { name: 'Stop' }).click()
      await years.getByText(/Stopped after \d+ of 30 years: nothing is said/).waitFor(PLANNED)
      same(await page.getByText(/of 30 made years/).count(), 0, 'of some years nothing is said')
      await years.getByRole('button', { name: 'Run them from the first' }).click()
      await years.getByText(/Nothing of the air fails in \d+ of 30 made years; the goal is 27/).waitFor(THIRTY)
      const said = (await years.locator('[role=status]').textContent()) ?? ''
      holds(/^\s*(holds|tight)\./.test(said), said)
      await page.screenshot({ path: `${pictures}/air-thirty-done-desk-light.png` })
      await page.setViewportSize({ width: 390, height: 844 })
      await years.scrollIntoViewIfNeeded()
      await page.screenshot({ path: `${pictures}/air-thirty-done-phone-light.png` })
      const found = await axeFindings(page)
      holds(found.length === 0, found.join(' | '))
    },
  },
  {
    name: 'air: its sheets are among the papers, and one of them is shown as it prints',
    run: async ({ open }) => {
      const page = await open({ hash: '#/job/groomer-yard-us/paper' })
      const sheet = page.locator('.sheets button', { hasText: 'The year, hour by hour' }).first()
      await sheet.waitFor(PLANNED)
      for (const head of ['Vents', 'Short runs', 'worst night'])
        holds((await page.locator('.sheets button', { hasText: new RegExp(head, 'i') }).count()) > 0, head)
      await sheet.click()
      await page.locator('.leaf-of-paper svg').first().waitFor()
    },
  },
]
