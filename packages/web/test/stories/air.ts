import { readFile } from 'node:fs/promises'
import { gzipSync } from 'node:zlib'
import type { Locator, Page } from 'playwright-core'
import { holds, type Story, same, WIDTHS } from '../story.ts'
import { hoursTable, typicalYear } from '../typical-year.ts'
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
    name: 'air: the address holds the hour: a link lands there, back and forward go from jump to jump, steps between them are no steps back',
    run: async ({ open }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const first = await moment(page)
      await page.locator('summary', { hasText: 'by month' }).click()
      await page.getByRole('button', { name: 'July', exact: true }).click()
      const july = await changed(page, 'air-hour', first)
      await hour(page).focus()
      await page.keyboard.press('ArrowRight')
      await page.keyboard.press('ArrowRight')
      const stepped = await changed(page, 'air-hour', july)
      await page.waitForFunction(() => /from=\d+&hour=\d+/.test(window.location.hash))
      await page.waitForTimeout(400)
      const there = await moment(page)
      const link = await page.evaluate(() => window.location.hash)
      await page.goBack()
      await page.waitForFunction((was) => document.getElementById('air-hour')?.textContent === was, first)
      await page.goForward()
      await page.waitForFunction((was) => document.getElementById('air-hour')?.textContent === was, there)
      holds(stepped !== july, stepped)
      const other = await open({ hash: link })
      await shown(other)
      await other.waitForFunction((was) => document.getElementById('air-hour')?.textContent === was, there)
      const leaky = other.getByText('leaky box', { exact: true })
      await leaky.click()
      await other.getByText('This end takes: most leakage').waitFor()
      same(await moment(other), there, 'the other end, the same hour')
      holds((await other.evaluate(() => window.location.hash)).includes('end=leaky'), 'the end is in the address')
    },
  },
  {
    name: 'air: a larger vent is tried with keys, the year stands beside the one that is planned, is taken back, and another choice is kept',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const undo = page.locator('.undo')
      const vent = page.locator('.air-vent-size').first()
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
    name: 'air: a vent is dragged up its wall, stops at the rail, is moved by keys and by words, and grows by its bar; the year answers within a second',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const vent = page.getByRole('slider', { name: 'Height of vent low' })
      const up = async (): Promise<number> => Number(await vent.getAttribute('aria-valuenow'))
      const drag = async (of: Locator, dy: number): Promise<void> => {
        await of.scrollIntoViewIfNeeded()
        const box = await of.boundingBox()
        if (box === null) throw new Error('nothing to take hold of')
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
        await page.mouse.move(x, y)
        await page.mouse.down()
        await page.mouse.move(x, y + dy, { steps: 8 })
        await page.mouse.up()
      }
      const first = await up()
      await drag(vent, -40)
      const tookMs = page.locator('[data-took-ms]')
      await tookMs.waitFor()
      const higher = await up()
      holds(higher > first && higher % 50 === 0, `${first} mm, then ${higher} mm`)
      await page.locator('.air-what-if.trying').getByText('where the vents stand').first().waitFor()
      await page.screenshot({ path: `${pictures}/air-vent-moved-desk-light.png`, fullPage: true })
      await drag(vent, -600)
      const most = Number(await vent.getAttribute('aria-valuemax'))
      same(await up(), most, 'it stops where all of it is still on the sheet')
      await vent.focus()
      await page.keyboard.press('Home')
      same(await up(), Number(await vent.getAttribute('aria-valuemin')), 'the lowest place')
      await page.keyboard.press('ArrowUp')
      const step = await up()
      await page.keyboard.press('Shift+ArrowUp')
      same(await up(), step + 10, 'finer with shift')
      await page.getByRole('button', { name: 'vent low: Higher' }).click()
      same((await up()) % 50, 0, 'words move it by the step')
      const begun = Date.now()
      const before = await page.locator('.air-what-if').getAttribute('data-answer')
      await page.keyboard.press('Tab')
      await vent.focus()
      await page.keyboard.press('PageUp')
      await page.waitForFunction(
        (was) =>
          document.querySelector('.air-what-if')?.getAttribute('data-answer') !== was &&
          document.querySelector('.air-what-if[data-busy="no"]') !== null,
        before,
      )
      console.log(
        `    a year with a vent elsewhere: ${await tookMs.getAttribute('data-took-ms')} ms in the worker, ${Date.now() - begun} ms from the key to the figures`,
      )
      await drag(page.getByRole('slider', { name: 'Size of the vents, at vent low' }), 26)
      holds(
        Number(await page.getByRole('slider', { name: 'Size of the vents, at vent low' }).getAttribute('aria-valuenow')) > 300,
        'larger',
      )
      await page.getByRole('button', { name: 'vent low: To the left long side' }).click()
      await page.getByText('vent low: left long side').waitFor()
    },
  },
  {
    name: 'air: on a phone a vent is dragged by a finger, and the page does not move with it',
    run: async ({ open, pictures }) => {
      const page = await open({ ...WIDTHS[0], hash: ROOM })
      await shown(page)
      const vent = page.getByRole('slider', { name: 'Height of vent low' })
      await vent.scrollIntoViewIfNeeded()
      const box = await vent.boundingBox()
      if (box === null) throw new Error('no vent')
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
      const first = Number(await vent.getAttribute('aria-valuenow'))
      const top = await page.evaluate(() => window.scrollY)
      const touch = await page.context().newCDPSession(page)
      const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', dy: number) =>
        touch.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y: y + dy }] })
      await send('touchStart', 0)
      for (const dy of [-10, -20, -30, -40]) await send('touchMove', dy)
      await send('touchEnd', 0)
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor()
      holds(Number(await vent.getAttribute('aria-valuenow')) > first, 'it was lifted')
      same(await page.evaluate(() => window.scrollY), top, 'the page stands still')
      await vent.scrollIntoViewIfNeeded()
      await page.screenshot({ path: `${pictures}/air-vent-moved-phone-light.png` })
    },
  },
  {
    name: 'air: a mend is tried as the year of its box first, at once; only then is the job planned with it',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await shown(page)
      const strip = page.locator('.tag fieldset.mend', { hasText: 'foam under the roof' }).first()
      const begun = Date.now()
      await strip.getByRole('button', { name: 'Try it' }).click()
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor()
      console.log(`    a mend as a year: ${Date.now() - begun} ms from the press to the figures`)
      same(await page.locator('.room.stale').count(), 0, 'nothing is planned anew')
      await strip.getByText('The year with it stands in the room').waitFor()
      await page.screenshot({ path: `${pictures}/air-mend-tried-desk-light.png` })
      await strip.getByRole('button', { name: 'Take back' }).click()
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor({ state: 'detached' })
      await strip.getByRole('button', { name: 'Try it' }).click()
      await page.locator('.air-figures th', { hasText: 'with this' }).waitFor()
      await strip.getByRole('button', { name: 'Plan the job with it' }).click()
      await page.locator('.mend.trying').getByText('new plan').first().waitFor(PLANNED)
      await page.locator('.mend.trying').getByRole('button', { name: 'Take back' }).first().click()
      await page.locator('.mend.trying').waitFor({ state: 'detached', timeout: 60_000 })
    },
  },
  {
    name: 'air: the room in US units holds no metre, no litre and no degree Celsius',
    run: async ({ open, pictures }) => {
      for (const width of [WIDTHS[2], WIDTHS[0]]) {
        const page = await open({ ...width, hash: ROOM })
        await page.evaluate(() => localStorage.setItem('plugstead.hands', JSON.stringify({ units: 'us' })))
        await page.reload()
        await shown(page)
        // biome-ignore lint/performance/useDomNodeTextContent: what is seen, line by line
        const text = await page.locator('.air-room').innerText()
        const metric = text.match(/[^\n]*\d[\s\u202f](?:°C|C|K|mm|m|l|kg|m\/s|m³\/h)(?![\p{L}\d²³/·])[^\n]*/gu) ?? []
        same(metric, [], 'nothing metric is left')
        for (const unit of ['°F', 'mph', 'in', 'cfm']) holds(new RegExp(`\\d[\\s\u202f]${unit}\\b`, 'u').test(text), unit)
        await page.screenshot({ path: `${pictures}/air-us-${width.name}-light.png`, fullPage: true })
        await page.locator('#air-hour').scrollIntoViewIfNeeded()
        await page.screenshot({ path: `${pictures}/air-us-hour-${width.name}-light.png` })
      }
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
    name: 'air: a table of hours is given; a person says which column is what, errors name their rows, and the hours stand for the year; on a phone too',
    run: async ({ open, pictures }) => {
      for (const width of [WIDTHS[2], WIDTHS[0]]) {
        const page = await open({ ...width, hash: ROOM })
        await shown(page)
        const input = page.locator('.air-weather input[type=file]')
        const lines = hoursTable().split('\n')
        const wrong = lines.map((line, i) => (i === 200 ? line.replace(/;[^;]+;/, ';noon;') : line)).join('\n')
        await input.setInputFiles({ name: 'station 7.csv', mimeType: 'text/csv', buffer: Buffer.from(wrong) })
        const form = page.locator('.air-columns')
        await form.waitFor()
        await form.getByLabel('lines before the table').fill('1')
        await form.getByText('Temp (°F)').waitFor()
        const read = form.getByRole('button', { name: 'Read the hours' })
        same(await read.isDisabled(), true, 'not before all of it is said')
        await form.getByLabel('Unit of Dew Point').selectOption('°F')
        await form.getByText('end', { exact: true }).click()
        const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
        holds(over <= 0, `${over} px wider than the page`)
        const found = await axeFindings(page)
        holds(found.length === 0, found.join(' | '))
        await form.scrollIntoViewIfNeeded()
        await form.screenshot({ path: `${pictures}/air-columns-${width.name}-light.png` })
        const saved = page.waitForEvent('download')
        await form.getByRole('button', { name: 'Save this as a file' }).click()
        same((await saved).suggestedFilename(), 'station 7.columns.yaml', 'the name of what is saved')
        const mapping = await readFile(await (await saved).path(), 'utf8')
        await read.click()
        await page.locator('.air-refused').getByText('line 201').waitFor(PLANNED)
        await input.setInputFiles([
          { name: 'station 7.csv', mimeType: 'text/csv', buffer: Buffer.from(lines.join('\n')) },
          { name: 'station 7.columns.yaml', mimeType: 'application/yaml', buffer: Buffer.from(mapping) },
        ])
        await page.getByText('The hours of the file station 7.csv').waitFor(PLANNED)
        same(await form.count(), 0, 'nothing waits any longer')
        await page.reload()
        await shown(page)
        await page.getByText('The hours of the file station 7.csv').waitFor(PLANNED)
      }
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
    run: async ({ open, pictures }) => {
      const page = await open({ hash: '#/job/groomer-yard-us/paper' })
      const sheet = page.locator('.sheets button', { hasText: 'The year, hour by hour' }).first()
      await sheet.waitFor(PLANNED)
      for (const head of ['Vents', 'Short runs', 'worst night|wettest hours'])
        holds((await page.locator('.sheets button', { hasText: new RegExp(head, 'i') }).count()) > 0, head)
      await sheet.click()
      await page.locator('.leaf-of-paper svg').first().waitFor()
      await page
        .locator('.sheets button', { hasText: /stay dry/i })
        .first()
        .click()
      await page.waitForTimeout(1500)
      await page.locator('.leaf-of-paper svg').first().waitFor()
      await page
        .locator('.leaf-of-paper')
        .first()
        .screenshot({ path: `${pictures}/air-sheet-verdict.png` })
    },
  },
]
