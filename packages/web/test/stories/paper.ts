import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { CAUTION } from '@plugstead/book'
import type { Download, Page } from 'playwright-core'
import { holds, type Story, same, WIDTHS } from '../story.ts'

const root = join(import.meta.dirname, '../../../..')
const NAME = 'groomer-yard-us'
const PAPER = `#/job/${NAME}/paper`
const SLOW = { timeout: 90_000 }

export const stories: readonly Story[] = [
  {
    name: 'paper: on a phone it is two touches away, by the name of the job',
    run: async ({ open }) => {
      const page = await open({ ...WIDTHS[0] })
      await page.locator('header h1 button').tap()
      await page.locator('.phone-ways button', { hasText: 'Paper' }).tap()
      await page.locator('.sheets button').first().waitFor()
    },
  },
  {
    name: 'paper: sheets by question, one shown as it prints; a reader’s set has fewer; check print adds two boxes a line',
    run: async ({ open }) => {
      const page = await open({ hash: PAPER })
      await page.locator('.leaf-of-paper').first().waitFor()
      const sheets = page.locator('.sheets button')
      const all = await sheets.count()
      holds(all > 25, `${all} sheets`)
      await page.locator('.sheets button', { hasText: 'Workings: volts' }).click()
      await page.locator('.paper-head', { hasText: 'Workings: volts' }).first().waitFor()
      holds(page.url().includes('/paper/reach-'), page.url())
      same(await page.locator('.flow .to-fill').count(), 0, 'boxes to fill in the reader’s print')
      await page.getByText('with room to follow by hand').click()
      await page.locator('.flow .to-fill').first().waitFor()
      holds((await page.locator('.flow th', { hasText: 'by hand' }).count()) > 0, 'a column to follow by hand')
      holds((await page.locator('.paper-cell', { hasText: 'check print' }).count()) > 0, 'the tag says check print')
      await page.getByText('rigger', { exact: true }).click()
      await until(async () => (await sheets.count()) < all)
      same(await page.locator('.sheets button', { hasText: 'Volts at every plug' }).count(), 0, 'volts are not the rigger’s')
      await page.getByText('Letter', { exact: true }).waitFor()
      const width = () =>
        page
          .locator('.leaf-of-paper')
          .first()
          .evaluate((one) => one.getBoundingClientRect().width)
      const letter = await width()
      await page.getByText('A4', { exact: true }).click()
      await until(async () => (await width()) < letter)
      holds(Math.abs((await width()) / letter - 210 / 215.9) < 0.002, 'A4 is as much narrower as it is')
    },
  },
  {
    name: 'paper: the PDF that the browser sets is the terminal’s, byte for byte; loaded once, kept on the device, and only when asked',
    run: async ({ open }) => {
      const page = await open({ hash: PAPER, acceptDownloads: true })
      const asked: string[] = []
      page.context().on('request', (request) => {
        if (/\.(wasm|ttf)$/.test(request.url())) asked.push(request.url())
      })
      await page.locator('.leaf-of-paper').first().waitFor()
      same(asked, [], 'nothing of the typesetter before it is asked for')
      const terminal = bookInTerminal(['--for', 'rigger', '--paper', 'a4', '--check-print'], 'rigger.pdf')
      await page.getByText('rigger', { exact: true }).click()
      await page.getByText('A4', { exact: true }).click()
      await page.getByText('with room to follow by hand').click()
      const first = await made(page)
      same(first.suggestedFilename(), `${NAME}.rigger.pdf`, 'its name')
      const bytes = readFileSync(await first.path())
      same(bytes.subarray(0, 5).toString('latin1'), '%PDF-', 'a PDF')
      same(pagesOf(bytes), pagesOf(terminal), 'pages')
      holds(pagesOf(bytes) > 5, `${pagesOf(bytes)} pages`)
      holds(bytes.equals(terminal), `the same bytes: ${bytes.length}, in the terminal ${terminal.length}`)
      await page.getByText(`${NAME}.rigger.pdf: ${pagesOf(bytes)} pages, saved.`).waitFor()
      same(asked.length, 7, 'typesetter and six faces, each once')
      const again = readFileSync(await (await made(page)).path())
      holds(again.equals(bytes), 'the same again')
      await page.reload()
      await page.locator('.leaf-of-paper').first().waitFor()
      await page.getByText('rigger', { exact: true }).click()
      await made(page)
      same(asked.length, 7, 'after a reload it comes from the device')
    },
  },
  {
    name: 'paper: without a network the typesetter is asked for in words, and nothing else is touched; with one it works again',
    run: async ({ open }) => {
      const page = await open({ hash: PAPER, expected: /ERR_INTERNET_DISCONNECTED|Failed to load resource|ERR_FAILED/ })
      await page.locator('.leaf-of-paper').first().waitFor()
      const gone = (url: URL) => /\.(wasm|ttf)$/.test(url.pathname)
      await page.context().route(gone, (route) => route.abort('internetdisconnected'))
      await page.getByRole('button', { name: 'Make the PDF' }).click()
      await page.getByText('The typesetter is not on this device yet: connect once.').waitFor(SLOW)
      await page.context().unroute(gone)
      await page.getByText('customer', { exact: true }).click()
      await made(page)
    },
  },
  {
    name: 'paper: setting a long book shows counted ticks, can be stopped, and says so',
    run: async ({ open }) => {
      const page = await open({ hash: PAPER })
      await page.locator('.leaf-of-paper').first().waitFor()
      await page.getByRole('button', { name: 'Make the PDF' }).click()
      await page
        .locator('.ticks path.full')
        .first()
        .waitFor({ state: 'attached', ...SLOW })
      await page.locator('.ticks').getByRole('button', { name: 'Stop' }).click()
      await page.getByText('Stopped. No PDF was made.').waitFor()
      same(await page.locator('.ticks').count(), 0, 'no ticks')
    },
  },
  {
    name: 'paper: every list, calendar and drawing has the bytes of the file that the terminal writes',
    run: async ({ open }) => {
      for (const name of [NAME, 'moved-box-airstrip-ca']) {
        const page = await open({ hash: `#/job/${name}/paper` })
        await page.locator('.files button').first().waitFor(SLOW)
        await page.locator('.files button[aria-expanded]').click()
        const kinds = await page
          .locator('[data-file]')
          .evaluateAll((all) => all.map((one) => one.getAttribute('data-file') ?? ''))
        const folder = mkdtempSync(join(tmpdir(), 'plugstead-paper-'))
        try {
          for (const command of ['offer', 'plan', 'dates', 'draw']) terminal([command, `examples/${name}.yaml`, '--out', folder])
          same(
            [...kinds].sort(),
            readdirSync(folder)
              .filter((file) => !file.endsWith('.offer.pdf'))
              .map((file) => file.slice(name.length + 1))
              .sort(),
            `${name}: files`,
          )
          holds(kinds.length > 20, `${kinds.length} files`)
          for (const kind of kinds) {
            const came = await handedOut(page, kind)
            same(came.name, `${name}.${kind}`, 'name')
            holds(came.bytes.equals(readFileSync(join(folder, `${name}.${kind}`))), `${name}.${kind}: the same bytes`)
          }
        } finally {
          rmSync(folder, { recursive: true })
        }
      }
    },
  },
  {
    name: 'paper: the browser’s own print of a room is a sheet: picture, findings, workings, caution strip; no rule, no tag',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: `#/job/${NAME}/room/reach` })
      await page.locator('.room').waitFor()
      await page.locator('.tag').waitFor()
      writeFileSync(join(pictures, 'room-print.pdf'), await page.pdf({ format: 'Letter' }))
      await page.emulateMedia({ media: 'print' })
      await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')))
      await page.locator('.room-print .paper-working').first().waitFor()
      for (const gone of ['.rule', '.tag', '.acts', '.wire'])
        same(await page.locator(gone).filter({ visible: true }).count(), 0, `${gone} is printed`)
      const findings = await page.locator('.room-print > table').first().locator('tr').count()
      holds(findings > 20, `${findings} findings`)
      holds((await page.locator('.room-print .paper-working tbody tr').count()) > 40, 'workings')
      same(await page.locator('.print-caution').textContent(), CAUTION, 'the caution strip')
      const colours = await page.locator('body').evaluate((body) => {
        const { color, backgroundColor } = getComputedStyle(body)
        return [color, backgroundColor]
      })
      same(colours, ['rgb(0, 0, 0)', 'rgb(255, 255, 255)'], 'black on white')
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')))
      await until(async () => (await page.locator('.room-print').count()) === 0)
    },
  },
  {
    name: 'paper: at three widths',
    run: async ({ open, pictures }) => {
      for (const [width, height] of [
        [390, 844],
        [1024, 768],
        [1440, 900],
      ] as const) {
        const page = await open({ hash: PAPER, viewport: { width, height } })
        await page.locator('.sheets button').first().waitFor()
        await page.screenshot({ path: join(pictures, `paper-list-${width}.png`) })
        for (const head of [
          'The sixteen answers',
          'Circuits',
          'One-line diagram',
          'Workings: volts',
          'What do we cut',
          'Cutting',
          'Panel',
        ]) {
          const button = page.locator('.sheets button', { hasText: head }).first()
          if ((await button.count()) === 0) continue
          await button.click()
          await page.locator('.paper-head', { hasText: head }).first().waitFor()
          await page.screenshot({ path: join(pictures, `paper-${head.replace(/\W+/g, '-')}-${width}.png`) })
          const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
          holds(over <= 0, `${head}: ${over} px run out of the page`)
          if (width === 390) await page.keyboard.press('Escape')
        }
      }
    },
  },
]

async function until(so: () => Promise<boolean>): Promise<void> {
  for (let n = 0; n < 100; n++) {
    if (await so()) return
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Error('it did not come about')
}

/** What the page hands to the browser as a file. Taken before the browser, which asks its user after ten of them. */
async function handedOut(page: Page, kind: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  await page.evaluate(() => {
    const of = globalThis as unknown as { handed?: Promise<{ name: string; base64: string }> }
    of.handed = new Promise((resolve) => {
      let blob: Blob | null = null
      URL.createObjectURL = (given) => {
        blob = given as Blob
        return 'blob:taken'
      }
      HTMLAnchorElement.prototype.click = function () {
        const reader = new FileReader()
        reader.onload = () => resolve({ name: this.download, base64: String(reader.result).split(',')[1] ?? '' })
        reader.readAsDataURL(blob!)
      }
    })
  })
  await page.locator(`[data-file="${kind}"]`).click()
  const { name, base64 } = await page.evaluate(
    () => (globalThis as unknown as { handed: Promise<{ name: string; base64: string }> }).handed,
  )
  return { name, bytes: Buffer.from(base64, 'base64') }
}

async function made(page: Page): Promise<Download> {
  const coming = page.waitForEvent('download', SLOW)
  await page.getByRole('button', { name: 'Make the PDF' }).click()
  return coming
}

function terminal(words: readonly string[]): void {
  const run = spawnSync(process.execPath, ['packages/cli/bin/plugstead.mjs', ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
  if (run.status !== 0 && run.status !== 1 && run.status !== 3) throw new Error(`${words.join(' ')}: ${run.stderr}`)
}

function bookInTerminal(words: readonly string[], kind: string): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'plugstead-paper-'))
  try {
    terminal(['book', `examples/${NAME}.yaml`, '--out', folder, ...words])
    return readFileSync(join(folder, `${NAME}.${kind}`))
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** Of the document's page tree, whose root counts all pages. */
const pagesOf = (pdf: Buffer): number =>
  Math.max(...[...pdf.toString('latin1').matchAll(/\/Count (\d+)/g)].map((m) => Number(m[1])))
