import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { holds, type Story, same, WIDTHS } from '../story.ts'
import { axeFindings } from './looks.ts'

const ROOM = '#/job/two-machines/room/air'
const EXAMPLES = join(import.meta.dirname, '../../../../examples/logger')
const bytes = (name: string): Buffer => readFileSync(join(EXAMPLES, name))
const LOADED = { timeout: 150_000 }

const section = (page: Page) => page.locator('.air-logger')
const list = (page: Page) => section(page).getByLabel('Give a logger’s list')
const weather = (page: Page) => section(page).getByLabel('Give the weather of those days')
const csv = (name: string, buffer: Buffer) => ({ name, mimeType: 'text/csv', buffer })
const WEATHER = [csv('weather.csv', bytes('weather.csv')), { ...csv('weather.columns.yaml', bytes('weather.columns.yaml')) }]

async function opened(page: Page): Promise<void> {
  await section(page).waitFor(LOADED)
  await page.locator('.room:not(.stale)').first().waitFor(LOADED)
}

/** Leakage as the table of what was found says it. */
const leakage = async (page: Page): Promise<string> =>
  (await section(page).locator('tr[data-unknown=leakage] td').nth(1).textContent()) ?? ''

export const stories: readonly Story[] = [
  {
    name: 'logger: a list and the weather of its days are given; errors and what was found are read, kept as measured facts and undone; at desk, tablet and phone',
    run: async ({ open, pictures }) => {
      const sizes = [WIDTHS[2], { name: 'tablet', viewport: { width: 768, height: 1024 }, hasTouch: true }]
      for (const width of [...sizes, { name: 'phone', viewport: { width: 360, height: 740 }, hasTouch: true }]) {
        const page = await open({ ...width, hash: ROOM })
        await opened(page)
        await weather(page).setInputFiles(WEATHER)
        await section(page).getByText('Weather: weather.csv.').waitFor()
        await list(page).setInputFiles(csv('log.csv', bytes('log.csv')))
        await page.locator('.air-logger[data-is=done]').waitFor(LOADED)
        same(await section(page).locator('table').first().locator('tbody tr').count(), 7, 'six sensors and the mean of the air')
        // The list was made with 340 m³/h: its head says so.
        const found = /^\D*(\d+)/.exec(await leakage(page))
        holds(Math.abs(Number(found?.[1]) / 340 - 1) < 0.05, await leakage(page))
        const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
        holds(over <= 0, `${over} px wider than the page`)
        const { viewport } = width
        await page.setViewportSize({ ...viewport, height: 3200 })
        await section(page).screenshot({ path: `${pictures}/logger-${width.name}-light.png` })
        await page.setViewportSize(viewport)
        if (width.name === 'tablet') continue
        const wrong = await axeFindings(page)
        holds(wrong.length === 0, wrong.join(' | '))
        const keep = section(page).getByRole('button', { name: 'Keep as measured' })
        await keep.click()
        await section(page).getByText('Kept as measured facts').waitFor(LOADED)
        await section(page).getByText('worked out anew since').waitFor(LOADED)
        same(await keep.isDisabled(), true, 'kept once')
        const undo = page.getByRole('button', { name: /^Undo/ }).first()
        await undo.click(LOADED)
        await page.locator('.room:not(.stale)').first().waitFor(LOADED)
        await section(page).getByRole('button', { name: 'Lay it beside the box again' }).click(LOADED)
        await page.locator('.air-logger[data-is=done]').waitFor(LOADED)
        same(await keep.isDisabled(), false, 'as before it was kept')
      }
    },
  },
  {
    name: 'logger: a list of other days, one that is none and headings without units say why; columns are named by hand; the work can be stopped',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: ROOM })
      await opened(page)
      await weather(page).setInputFiles(WEATHER)
      await list(page).setInputFiles(csv('other.csv', Buffer.from(bytes('log.csv').toString().replaceAll('2027-', '2026-'))))
      await section(page).getByText('weather of the hours in which the log was kept').waitFor(LOADED)
      await list(page).setInputFiles(csv('milk.csv', Buffer.from('{ "bring": "milk" }\n')))
      await section(page).getByText('found JSON').waitFor(LOADED)
      const bare = bytes('log.csv').toString().replace('roof (C)', 'T3')
      const head = bare.replace('humidity (%)', 'humidity').replace('wall (C)', 'wall')
      await list(page).setInputFiles(csv('bare.csv', Buffer.from(head)))
      const form = section(page).locator('.air-columns')
      await form.waitFor(LOADED)
      await form.getByLabel('What T3').selectOption('roof')
      const read = form.getByRole('button', { name: 'Read the list' })
      same(await read.isDisabled(), true, 'not before its units are said')
      for (const name of ['T3', 'wall']) await form.getByLabel(`Unit of ${name}`).selectOption('C')
      await form.getByLabel('Unit of humidity').selectOption('%')
      await form.screenshot({ path: `${pictures}/logger-columns-light.png` })
      await read.click()
      await section(page).getByRole('button', { name: 'Stop' }).click(LOADED)
      await section(page)
        .getByText(/^Stopped after \d+ of \d+ runs/)
        .waitFor()
      await section(page).getByRole('button', { name: 'Lay it beside the box again' }).click()
      await page.locator('.air-logger[data-is=done]').waitFor(LOADED)
      same(await section(page).locator('table').first().locator('tbody tr').count(), 7, 'all of its sensors')
    },
  },
]
