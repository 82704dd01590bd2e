import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'

import { answered, holds, type Story, same, WIDTHS } from '../story.ts'
import { axeFindings } from './looks.ts'

const root = join(import.meta.dirname, '../../../..')
const YARD = 'examples/shops/four-box-yard-us'

/** First sound plan: at most this long after the first key, with at most so many answers. */
const MOST_S = 240
const MOST_ANSWERS = 8

const looks: readonly Story[] = WIDTHS.flatMap(({ name: width, ...how }) =>
  (['light', 'sunlight', 'dark'] as const).map(
    (theme): Story => ({
      name: `call: looks, ${width}, ${theme}: a call in hand and a full day, axe finds nothing, nothing runs out of the page`,
      run: async ({ open, pictures }) => {
        const page = await open({
          ...how,
          hash: '#/call',
          before: async (context) => {
            await context.clock.setFixedTime(new Date('2027-07-10T09:00:00'))
            await context.addInitScript((kept) => {
              localStorage.setItem('plugstead.hands', kept)
            }, JSON.stringify({ theme }))
          },
        })
        await page.locator('#call-where').waitFor()
        await say(page, 'Northgate, AK, US')
        await page.keyboard.type('6 groomer heater 1500 W 120 V')
        await page.keyboard.press('Enter')
        await page.keyboard.press('Enter')
        await page.locator('#call-far').fill('100 ft')
        await page.locator('#call-by').fill('in autumn')
        await page.locator('#call-by').press('Enter')
        await page.locator('#call-by-problem').waitFor()
        await looked(page, join(pictures, `call-wrong-${how.viewport.width}-${theme}.png`))
        await page.locator('#call-by').fill('2027-11-01')
        await page.locator('#call-by').press('Enter')
        await page.locator('.call-tag .price, .call-tag .short .bounded').first().waitFor({ timeout: 60_000 })
        if (width === 'phone') {
          await looked(page, join(pictures, `call-strip-${how.viewport.width}-${theme}.png`))
          await page.locator('.call-tag .short').click()
        }
        await page.locator('[data-ranked]').first().waitFor({ timeout: 60_000 })
        await looked(page, join(pictures, `call-said-${how.viewport.width}-${theme}.png`))
        if (width === 'phone') await page.locator('.call-tag .short').click()
        await page.getByRole('button', { name: 'Keep this call' }).click()
        await page.waitForURL(/#\/job\//)
        await page.evaluate(() => {
          window.location.hash = '#/today'
        })
        await page.locator('[data-part="answer"] .of-job').first().waitFor({ timeout: 60_000 })
        await page.waitForFunction(() => document.querySelectorAll('[data-part="due"] .of-job').length > 1, undefined, {
          timeout: 240_000,
        })
        await looked(page, join(pictures, `today-full-${how.viewport.width}-${theme}.png`))
      },
    }),
  ),
)

async function looked(page: Page, picture: string): Promise<void> {
  await page.screenshot({ path: picture })
  const found = await axeFindings(page)
  holds(found.length === 0, `${picture}: ${found.join(' | ')}`)
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
  holds(over <= 0, `${picture}: ${over} px run out of the page`)
}

export const stories: readonly Story[] = [
  ...looks,
  {
    name: 'call: by keyboard alone from a blank sheet to a sound plan with price and ring-back, kept, six sides, its offer from the line to ring back',
    run: async ({ open }) => {
      const page = await open({ hash: '#/call' })
      await page.locator('#call-where').waitFor()
      same(await page.evaluate(() => document.activeElement?.id), 'call-where', 'the first field has the cursor')
      const started = Date.now()
      let told = 0
      await say(page, 'Northgate, AK, US')
      await page.keyboard.type('6 groomer heater 1500 W 120 V')
      await page.keyboard.press('Enter')
      await page.keyboard.type('1 compressor 3 hp 240 V')
      await page.keyboard.press('Enter')
      await page.keyboard.press('Enter')
      same(await page.evaluate(() => document.activeElement?.id), 'call-when', 'an empty line goes on')
      told = 2
      await say(page, '')
      await say(page, '100 ft')
      await say(page, 'pole 40 m, 120/240 V')
      told += 2
      const tag = page.locator('.call-tag')
      await tag.getByText('Nothing fails.').waitFor({ timeout: MOST_S * 1000 })
      await tag.locator('.price .bounded').waitFor()
      await page.waitForFunction(() => document.querySelector('.call-tag .stale') === null, undefined, { timeout: MOST_S * 1000 })
      const tookS = (Date.now() - started) / 1000
      console.log(`    first sound plan after ${tookS.toFixed(1)} s of typing and thinking, ${told} answers`)
      holds(tookS <= MOST_S && told <= MOST_ANSWERS, `${tookS} s, ${told} answers`)
      holds(/…/.test((await tag.locator('.price .bounded').textContent()) ?? ''), 'a price has both its ends')
      // The ranking comes last of all that the tag says.
      await tag.locator('[data-ranked]').first().waitFor({ timeout: 60_000 })
      const typed = ['where', 'machines', 'far', 'power']
      same(await page.locator('.ask.is-told').count(), typed.length, 'what was typed is told')
      for (let i = 0; i < 6; i++) await page.keyboard.press('Enter')
      same(await page.evaluate(() => document.activeElement?.id), 'call-keep', 'the last answer leads to the act')
      await page.keyboard.press('Enter')
      await answered(page)
      holds(page.url().includes('#/job/northgate-ak-us'), page.url())
      same(await page.locator('[data-question]').count(), 16, 'questions')
      await page.goto(page.url().replace(/#.*/, '#/today'))
      await page.locator('[data-part="answer"] .of-job', { hasText: 'Northgate' }).waitFor({ timeout: 60_000 })
      await page.getByRole('button', { name: /^Offer, .*Northgate/ }).click()
      await page.locator('.leaf-of-paper .paper-head', { hasText: 'Offer' }).first().waitFor({ timeout: 60_000 })
      await page.goto(page.url().replace(/#.*/, '#/today'))
      await page.getByRole('button', { name: /^Rang back, / }).click()
      await page.locator('[data-part="answer"] .of-job').waitFor({ state: 'detached' })
    },
  },
  {
    name: 'call: wrong words are said under their field as the terminal says them, stay as typed, and the sheet survives a reload',
    run: async ({ open }) => {
      const page = await open({ hash: '#/call' })
      await page.locator('#call-where').waitFor()
      await say(page, 'Northgate')
      await page.locator('#call-where-problem').waitFor()
      const run = spawnSync(
        process.execPath,
        [
          'packages/cli/bin/plugstead.mjs',
          'new',
          '--where',
          'Northgate',
          '--machines',
          '1 heater 900 W 120 V',
          '--far',
          '30 W',
          '--json',
        ],
        { cwd: root, encoding: 'utf8' },
      )
      const { problems } = JSON.parse(run.stdout) as {
        readonly problems: readonly {
          readonly path: string
          readonly found: string
          readonly wanted: string
          readonly mend: string
        }[]
      }
      await page.locator('#call-far').fill('30 W')
      await page.locator('#call-far').press('Enter')
      for (const { path, found, wanted, mend } of problems) {
        const said = (await page.locator(`#call-${path.replace('--', '')}-problem`).textContent()) ?? ''
        for (const words of [found, wanted, mend]) holds(said.includes(words), `“${words}” in “${said}”`)
      }
      same(problems.length, 2, 'problems of the terminal')
      same(await page.locator('#call-far').inputValue(), '30 W', 'stays as typed')
      await page.reload()
      await page.locator('#call-far-problem').waitFor()
      same(await page.locator('#call-far').inputValue(), '30 W', 'after a reload')
      await page.getByRole('button', { name: 'Wipe the sheet' }).click()
      same(await page.locator('#call-far').inputValue(), '', 'wiped')
      await page.getByRole('button', { name: 'Undo' }).click()
      same(await page.locator('#call-far').inputValue(), '30 W', 'undone')
    },
  },
  {
    name: 'call: a shop of four boxes ranks in the app as in the terminal, on the sheet and for each of its calls',
    run: async ({ open }) => {
      const page = await open({ hash: '#/today' })
      await page.locator('input[type=file][webkitdirectory]').setInputFiles(join(root, YARD))
      await page.getByText('The shop in the folder four-box-yard-us').waitFor()
      await page.goto(page.url().replace(/#.*/, '#/call'))
      await page.locator('#call-where').waitFor()
      await say(page, 'Northgate, AK, US')
      await page.keyboard.type('6 groomer heater 1500 W 120 V')
      await page.keyboard.press('Enter')
      await page.keyboard.press('Enter')
      await page.locator('.call-tag [data-ranked]').first().waitFor({ timeout: 60_000 })
      const more = page.getByRole('button', { name: /do(es)? not do$/ })
      if ((await more.count()) > 0) await more.click()
      const shown = await page
        .locator('.call-tag [data-ranked]')
        .evaluateAll((rows) => rows.map((row) => row.getAttribute('data-ranked')))
      const text = await page.evaluate(async () => {
        const answers = JSON.parse(localStorage.getItem('plugstead.call') ?? '{}')
        return answers as { where: string; machines: string }
      })
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-call-'))
      const file = join(folder, 'northgate-ak-us.yaml')
      const day = await page.evaluate(() => {
        const now = new Date()
        return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-')
      })
      terminal('new', file, '--where', text.where, '--machines', text.machines, '--today', day, '--defaults')
      same(shown, ranked(file), 'the call of the sheet')
      rmSync(folder, { recursive: true })
      for (const name of ['CL1', 'CL4']) {
        const path = `${YARD}/calls/${name}.yaml`
        same(await rankedInApp(page, name, readFileSync(join(root, path), 'utf8')), ranked(path), name)
      }
      await page.goto(page.url().replace(/#.*/, '#/today'))
      await page.getByRole('button', { name: 'Back to the invented shop' }).click()
      await page.getByText('The invented shop that comes with the program').waitFor()
    },
  },
  {
    name: 'call: a folder that is no shop is refused in the terminal’s words, and the shop of before serves on',
    run: async ({ open }) => {
      const page = await open({ hash: '#/today' })
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-shop-'))
      writeFileSync(join(folder, 'shop.yaml'), 'name: Half a shop\nprises: []\n')
      await page.locator('input[type=file][webkitdirectory]').setInputFiles(folder)
      const said = (await page.locator('.problems').textContent()) ?? ''
      const run = spawnSync(process.execPath, ['packages/cli/bin/plugstead.mjs', 'models', '--shop', folder, '--json'], {
        cwd: root,
        encoding: 'utf8',
      })
      const { problems } = JSON.parse(run.stdout) as {
        readonly problems: readonly { readonly found: string; readonly mend: string }[]
      }
      holds(problems.length > 0, run.stdout)
      for (const { found, mend } of problems)
        holds(said.includes(found) && said.includes(mend), `“${found}” “${mend}” in “${said}”`)
      await page.getByText('The invented shop that comes with the program').waitFor()
      rmSync(folder, { recursive: true })
    },
  },
  {
    name: 'today: four parts from the jobs and the day; a job is dropped in, saved, removed, and put back after a reload',
    run: async ({ open }) => {
      const page = await open({
        hash: '#/today',
        before: (context) => context.clock.setFixedTime(new Date('2027-07-10T09:00:00')),
      })
      await page.getByText('10 July 2027').waitFor()
      const example = readFileSync(join(root, 'examples/two-machines.yaml'), 'utf8')
      await drop(page, 'two-machines.yaml', example)
      await answered(page)
      await page.goto(page.url().replace(/#.*/, '#/today'))
      const kept = page.locator('[data-job="two-machines"]')
      await kept.waitFor()
      for (const part of ['answer', 'cut', 'due', 'sign']) await page.locator(`[data-part="${part}"]`).waitFor()
      await page.locator('[data-part="sign"] .of-job').first().waitFor({ timeout: 120_000 })
      const files = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.yaml'))
      same(await page.locator('[data-job]').count(), files.length, 'jobs and examples, each once')
      await page.waitForFunction(() => document.querySelector('.ticks') === null, undefined, { timeout: 240_000 })
      holds((await page.locator('[data-part="due"] .of-job').count()) > 0, 'something has to start')
      holds((await page.locator('[data-part="cut"] .of-job').count()) > 0, 'a step of the shop comes up')
      const download = page.waitForEvent('download')
      await page.getByRole('button', { name: 'Save two-machines.yaml as a file' }).click()
      same(readFileSync(await (await download).path(), 'utf8'), example, 'the file')
      await page.getByRole('button', { name: /^Remove / }).click()
      await page.getByText('Removed two-machines.').waitFor()
      await page.reload()
      await page.getByRole('button', { name: 'Undo: removed two-machines' }).click()
      await page.getByRole('button', { name: 'Save two-machines.yaml as a file' }).waitFor()
    },
  },
]

/** Types an answer and goes on. */
async function say(page: Page, words: string): Promise<void> {
  if (words !== '') await page.keyboard.type(words)
  await page.keyboard.press('Enter')
}

async function drop(page: Page, name: string, text: string): Promise<void> {
  await page.evaluate(
    ([name, text]) => {
      const data = new DataTransfer()
      data.items.add(new File([text], name))
      document
        .querySelector('.ruled')
        ?.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }))
    },
    [name, text] as const,
  )
  await page.locator('.problems, .box-sheet').first().waitFor({ timeout: 60_000 })
}

function terminal(...words: readonly string[]): string {
  return spawnSync(process.execPath, ['packages/cli/bin/plugstead.mjs', ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  }).stdout
}

function ranked(file: string): readonly string[] {
  const { result } = JSON.parse(terminal('models', file, '--shop', YARD, '--json')) as {
    readonly result: { readonly ranked: readonly { readonly id: string }[] }
  }
  return result.ranked.map(({ id }) => id)
}

/** Asked of the built worker itself, as the sheet asks it. */
function rankedInApp(page: Page, call: string, text: string): Promise<readonly string[]> {
  const files = Object.fromEntries(
    (readdirSync(join(root, YARD), { recursive: true }) as string[])
      .filter((path) => path.endsWith('.yaml'))
      .map((path) => [path, readFileSync(join(root, YARD, path), 'utf8')]),
  )
  return page.evaluate(
    ([call, text, files]) =>
      new Promise<readonly string[]>((resolve, reject) => {
        const address = performance.getEntriesByType('resource').find((entry) => /\/worker-[^/]*\.js$/.test(entry.name))?.name
        if (address === undefined) return reject(new Error('the worker was not loaded'))
        const bytes = Object.fromEntries(Object.entries(files).map(([path, sheet]) => [path, new TextEncoder().encode(sheet)]))
        const worker = new Worker(address, { type: 'module' })
        worker.onmessage = ({ data }) => {
          if (data.kind === 'fault') reject(new Error(data.said))
          if (data.kind === 'answer' && data.id === 3) {
            worker.terminate()
            resolve(data.answer.map(({ id }: { readonly id: string }) => id))
          }
        }
        worker.postMessage({ id: 1, call: 'shop', asked: { name: 'four', files: bytes } })
        worker.postMessage({ id: 2, call: 'open', asked: { file: `${call}.yaml`, text } })
        worker.postMessage({ id: 3, call: 'rank', asked: { call } })
      }),
    [call, text, files] as const,
  )
}
