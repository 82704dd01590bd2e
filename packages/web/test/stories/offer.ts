import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Download, Page } from 'playwright-core'
import { pdfWords } from '../pdf-words.ts'
import { holds, type Story, same, WIDTHS } from '../story.ts'
import { axeFindings } from './looks.ts'

const root = join(import.meta.dirname, '../../../..')
const SLOW = { timeout: 120_000 }
const DAY = '2027-03-02'
const onDay = (theme: string) => ({
  before: async (context: import('playwright-core').BrowserContext) => {
    await context.clock.setFixedTime(new Date(`${DAY}T09:00:00`))
    await context.addInitScript((kept) => localStorage.setItem('plugstead.hands', kept), JSON.stringify({ theme }))
  },
})

const looks: readonly Story[] = WIDTHS.flatMap(({ name: width, ...how }) =>
  (['light', 'dark'] as const).map(
    (theme): Story => ({
      name: `offer: looks, ${width}, ${theme}: the offer, its rent, one that is held back, the money room`,
      run: async ({ open, pictures }) => {
        const page = await open({ ...how, hash: '#/job/groomer-yard-us/paper/offer', ...onDay(theme) })
        const looked = async (what: string): Promise<void> => {
          const picture = join(pictures, `offer-${what}-${how.viewport.width}-${theme}.png`)
          await page.screenshot({ path: picture })
          const found = await axeFindings(page)
          holds(found.length === 0, `${picture}: ${found.join(' | ')}`)
          const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
          holds(over <= 0, `${picture}: ${over} px run out of the page`)
        }
        const goes = (hash: string) =>
          page.evaluate((to) => {
            window.location.hash = to
          }, hash)
        await page.locator('.leaf-of-paper').first().waitFor(SLOW)
        await looked('alone')
        await goes('#/job/groomer-yard-us/paper/rent')
        await page.locator('.paper-head', { hasText: 'Schedule of rent' }).waitFor(SLOW)
        await looked('rent')
        await goes('#/job/groomer-yard-us/room/money')
        await page.locator('.room').getByText('cost, 8 of 10 draws').waitFor(SLOW)
        await looked('room')
        await goes('#/job/fish-farm-shore-intl/paper/offer')
        await page.getByText('Not to be sent as it stands').waitFor(SLOW)
        await looked('held-back')
      },
    }),
  ),
)

export const stories: readonly Story[] = [
  ...looks,
  {
    name: 'offer: by keyboard alone from a blank call sheet to the printed offer: a PDF with the price in it, the terminal’s bytes',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: '#/call', acceptDownloads: true, ...onDay('light') })
      await page.locator('#call-where').waitFor()
      const say = async (...lines: readonly string[]): Promise<void> => {
        for (const line of lines) {
          if (line !== '') await page.keyboard.type(line)
          await page.keyboard.press('Enter')
        }
      }
      await say(
        'Northgate, AK, US',
        '6 groomer heater 1500 W 120 V',
        '1 compressor 3 hp 240 V',
        '',
        '',
        '100 ft',
        'pole 40 m, 120/240 V',
      )
      await page.locator('.call-tag .price .bounded').waitFor(SLOW)
      await tabTo(page, 'Offer')
      await page.keyboard.press('Enter')
      await page.locator('.leaf-of-paper').first().waitFor(SLOW)
      holds(page.url().endsWith('/paper/offer'), page.url())
      await page.locator('.flow').getByText('not told').first().waitFor()
      await tabTo(page, 'Tell: whom it is made to')
      await page.keyboard.press('Enter')
      await say('Alder Flats camp (invented)')
      await page.locator('.flow').getByText('Alder Flats camp (invented)').first().waitFor(SLOW)
      await page.locator('.offer-room:not(.stale)').waitFor(SLOW)
      const price = (
        (await page.locator('.flow tr', { hasText: 'together, before tax' }).locator('td').last().textContent()) ?? ''
      ).trim()
      holds(/^(at least )?\d/.test(price), `a price: “${price}”`)
      await tabTo(page, 'Make the PDF')
      const coming = page.waitForEvent('download', SLOW)
      await page.keyboard.press('Enter')
      const pdf = await saved(await coming, 'northgate-ak-us.offer.pdf')
      writeFileSync(join(pictures, 'offer.pdf'), pdf)
      same(pdf.subarray(0, 5).toString('latin1'), '%PDF-', 'a PDF')
      const words = pdfWords(pdf)
      for (const wanted of [price, 'Alder Flats camp (invented)', DAY]) holds(words.includes(wanted), `“${wanted}” in the PDF`)
      await page.getByText('northgate-ak-us.offer.pdf: 1 pages, saved.').waitFor()
      const text = await documentOf(page, 'northgate-ak-us')
      holds(text.includes('Alder Flats camp'), 'the document holds the customer')
      const own = inTerminal('northgate-ak-us', text, ['--date', DAY])
      holds(own.pdf.equals(pdf), `the terminal’s bytes: ${own.pdf.length}, here ${pdf.length}`)
      same(spaceless(price.replace('at least ', '')), own.priceMoney.toFixed(2), 'the price of the terminal')
    },
  },
  {
    name: 'offer: the rent schedule from the money room, each period with its day, behind the offer in one PDF with the terminal’s bytes',
    run: async ({ open }) => {
      const page = await open({ hash: '#/job/groomer-yard-us/room/money', acceptDownloads: true, ...onDay('light') })
      await page.getByRole('button', { name: 'Rent schedule' }).click(SLOW)
      await page.locator('.paper-head', { hasText: 'Schedule of rent' }).waitFor(SLOW)
      same(await page.locator('.paper-page').count(), 2, 'offer and schedule')
      await page.getByText('A4', { exact: true }).click()
      await page.locator('.paper-head', { hasText: 'Schedule of rent' }).waitFor(SLOW)
      const both = await made(page, 'groomer-yard-us.offer.pdf')
      const text = readFileSync(join(root, 'examples/groomer-yard-us.yaml'), 'utf8')
      holds(
        inTerminal('groomer-yard-us', text, ['--date', DAY, '--rent', '--paper', 'a4']).pdf.equals(both),
        'the terminal’s bytes',
      )
      for (const wanted of ['Schedule of rent', '2027-03-30']) holds(pdfWords(both).includes(wanted), `“${wanted}” in the PDF`)
      await page.getByText('Offer alone', { exact: true }).click()
      await page.locator('.paper-head', { hasText: 'Schedule of rent' }).waitFor({ state: 'detached' })
      await page.getByRole('button', { name: 'Make the PDF' }).waitFor()
      const alone = await made(page, 'groomer-yard-us.offer.pdf')
      holds(!pdfWords(alone).includes('Schedule of rent'), 'the offer alone')
    },
  },
  {
    name: 'offer: what the shop has not told stands as not told on the sheet and beside it, with its key and the way to the folder',
    run: async ({ open }) => {
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-silent-'))
      cpSync(join(root, 'shop'), folder, { recursive: true })
      const file = join(folder, 'shop.yaml')
      const told = readFileSync(file, 'utf8')
      const silent = told.replace(/^ {2}(deposit|tax|validity):.*\n/gm, '')
      same(told.split('\n').length - silent.split('\n').length, 3, 'three lines were taken out')
      writeFileSync(file, silent)
      const page = await open({ hash: '#/today', ...onDay('light') })
      await page.locator('input[type=file][webkitdirectory]').setInputFiles(folder)
      await page.getByText('The shop in the folder').waitFor(SLOW)
      await page.evaluate(() => {
        window.location.hash = '#/job/two-machines/paper/offer'
      })
      await page.locator('.leaf-of-paper').first().waitFor(SLOW)
      const sheet = (await page.locator('.flow').textContent()) ?? ''
      for (const words of ['not told: agreed when it is ordered', 'Without tax: not told', 'nobody told how long'])
        holds(sheet.includes(words), `“${words}” on the sheet`)
      for (const key of ['money.tax', 'money.validity', 'money.deposit'])
        await page.getByText(`in the shop’s folder: shop.yaml, ${key}`).waitFor()
      await page.getByRole('button', { name: /^Open the shop’s folder: what is paid/ }).click()
      await page.getByText('The shop in the folder').waitFor(SLOW)
      rmSync(folder, { recursive: true })
    },
  },
]

/** On with the tab key, as a person without a mouse goes, until the word is reached. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let n = 0; n < 80; n++) {
    await page.keyboard.press('Tab')
    const at = await page.evaluate(() => {
      const on = document.activeElement
      return on === null ? '' : (on.getAttribute('aria-label') ?? on.textContent ?? '').trim()
    })
    if (at === name) return
  }
  throw new Error(`the tab key does not reach “${name}”`)
}

async function made(page: Page, name: string): Promise<Buffer> {
  const coming = page.waitForEvent('download', SLOW)
  await page.getByRole('button', { name: 'Make the PDF' }).click()
  return saved(await coming, name)
}

async function saved(download: Download, name: string): Promise<Buffer> {
  same(download.suggestedFilename(), name, 'its name')
  return readFileSync(await download.path())
}

/** As Today saves it. */
async function documentOf(page: Page, job: string): Promise<string> {
  await page.evaluate(() => {
    window.location.hash = '#/today'
  })
  const download = page.waitForEvent('download', SLOW)
  await page.getByRole('button', { name: `Save ${job}.yaml as a file` }).click()
  return (await saved(await download, `${job}.yaml`)).toString('utf8')
}

const spaceless = (words: string): string => words.replace(/\s/g, '')

function inTerminal(job: string, text: string, how: readonly string[]): { readonly pdf: Buffer; readonly priceMoney: number } {
  const folder = mkdtempSync(join(tmpdir(), 'plugstead-offer-'))
  try {
    const file = join(folder, `${job}.yaml`)
    writeFileSync(file, text)
    const run = spawnSync(
      process.execPath,
      ['packages/cli/bin/plugstead.mjs', 'offer', file, '--out', folder, ...how, '--json'],
      {
        cwd: root,
        encoding: 'utf8',
        maxBuffer: 1 << 28,
      },
    )
    const { result } = JSON.parse(run.stdout) as {
      readonly result: { readonly money: { readonly price: { readonly priceMoney: number } } }
    }
    return { pdf: readFileSync(join(folder, `${job}.offer.pdf`)), priceMoney: result.money.price.priceMoney }
  } finally {
    rmSync(folder, { recursive: true })
  }
}
