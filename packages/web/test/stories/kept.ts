import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { APP_FOLDER } from '../../../../scripts/app-build.mjs'
import { HEADERS, serve } from '../../../../scripts/app-server.mjs'
import { writeKept } from '../../kept.ts'
import { answered, holds, type Story, same } from '../story.ts'

const built = join(import.meta.dirname, '../../../..', APP_FOLDER)
const G4C = '#/job/groomer-yard-us?box=yard&thing=receptacle+G4C'
/** A browser says so when nobody answers its asking for the next build. */
const AWAY = /ERR_CONNECTION_REFUSED|Failed to load resource|script resource/

export const stories: readonly Story[] = [
  {
    name: 'without its server the app starts as it was, plans a job, shows a sheet, keeps an act; the policy stays',
    run: async ({ open }) => {
      const served = await serve(built, 0)
      const page = await open({ app: served.address, hash: G4C, expected: AWAY })
      await answered(page)
      await page.getByRole('button', { name: 'Pin cord, 10 AWG' }).click()
      await page.getByText('pinned by the desk').waitFor({ timeout: 60_000 })
      await keptWhole(page)
      same(await page.getByText('no network, kept here').count(), 0, 'with its server there is nothing to say')
      await served.close()
      const again = await page.reload()
      same(again?.fromServiceWorker(), true, 'the page came from the device')
      same(again?.headers()['content-security-policy'], HEADERS['Content-Security-Policy'], 'the policy')
      await page.locator('header').getByText('no network, kept here').waitFor()
      await answered(page)
      await page.getByText('pinned by the desk').waitFor()
      // Never opened while the server was there: another job, its plan, a sheet of its paper.
      await page.goto(`${served.address}#/job/two-machines`)
      await answered(page)
      await page.goto(`${served.address}#/job/two-machines/paper`)
      await page.locator('.paper-list .sheets button').first().click()
      await page.locator('.paper-page').waitFor({ timeout: 60_000 })
      await page.goto(`${served.address}${G4C}`)
      await page.getByRole('button', { name: 'Take the pin out' }).click()
      await page.getByRole('button', { name: 'Undo: took the pin out of cord' }).waitFor()
    },
  },
  {
    name: 'a new build is there at the next start and whole without the server; the page of the one before goes on and says so; jobs stay',
    run: async ({ open, beside }) => {
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-build-'))
      cpSync(built, folder, { recursive: true })
      const served = await serve(folder, 0)
      try {
        const old = await open({ app: served.address, hash: G4C, expected: AWAY })
        await answered(old)
        await old.getByRole('button', { name: 'Pin cord, 10 AWG' }).click()
        await old.getByText('pinned by the desk').waitFor({ timeout: 60_000 })
        await keptWhole(old)
        anotherBuild(folder)
        const fresh = await beside(old)
        await fresh.getByRole('button', { name: 'Sheet of calls' }).waitFor()
        await answered(fresh)
        await fresh.getByText('pinned by the desk').waitFor()
        const strip = old.locator('.strip', { hasText: 'A newer build' })
        await strip.waitFor()
        same(await fresh.locator('.strip').count(), 0, 'the new page has nothing to say')
        // The page of the build before finds its own parts, which its server no longer has.
        await old.evaluate(() => {
          window.location.hash = '#/call'
        })
        await old.locator('h1', { hasText: 'Call sheet' }).waitFor()
        await served.close()
        await strip.getByRole('button').click()
        await old.locator('h1', { hasText: 'Sheet of calls' }).waitFor()
        same(await builds(old), 2, 'this build and the one before')
        await old.goto(`${served.address}${G4C}`)
        await old.getByText('pinned by the desk').waitFor({ timeout: 60_000 })
      } finally {
        await served.close()
        rmSync(folder, { recursive: true, force: true })
      }
    },
  },
  {
    name: 'a build one of whose files is not as listed is not kept at all',
    run: async ({ open }) => {
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-build-'))
      cpSync(built, folder, { recursive: true })
      rmSync(join(folder, 'icon.svg.br'), { force: true })
      writeFileSync(join(folder, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>')
      const served = await serve(folder, 0)
      try {
        const page = await open({ app: served.address, expected: /integrity|digest|SubResource/i })
        await answered(page)
        const became = await page.evaluate(async () => {
          const { installing, active } = await navigator.serviceWorker.register('/keeper.js')
          const keeper = (installing ?? active)!
          while (keeper.state !== 'redundant' && keeper.state !== 'activated')
            await new Promise((done) => keeper.addEventListener('statechange', done, { once: true }))
          return keeper.state
        })
        same(became, 'redundant', 'what becomes of a keeper whose build is not whole')
        same(await builds(page), 0, 'builds kept')
      } finally {
        await served.close()
        rmSync(folder, { recursive: true, force: true })
      }
    },
  },
]

async function keptWhole(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null)
}

const builds = (page: Page): Promise<number> =>
  page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('plugstead.build.')).length)

/** What a change of one word makes of a built folder: other names wherever the content is another, the old ones gone. */
function anotherBuild(folder: string): void {
  const assets = join(folder, 'assets')
  const texts = readdirSync(assets).filter((name) => name.endsWith('.js'))
  const main = texts.filter((name) => readFileSync(join(assets, name), 'utf8').includes('Call sheet'))
  holds(main.length > 0, 'the words are in some part')
  const renamed = new Map(texts.map((name) => [name, name.replace(/\.js$/, '2.js')]))
  for (const name of readdirSync(assets).filter((name) => name.endsWith('.js.br'))) rmSync(join(assets, name))
  for (const name of ['index.html.br', 'keeper.js.br']) rmSync(join(folder, name), { force: true })
  const told = (path: string): void => {
    let text = readFileSync(path, 'utf8').replaceAll('Call sheet', 'Sheet of calls')
    for (const [was, is] of renamed) text = text.replaceAll(was, is)
    writeFileSync(path, text)
  }
  for (const name of texts) told(join(assets, name))
  told(join(folder, 'index.html'))
  for (const [was, is] of renamed) renameSync(join(assets, was), join(assets, is))
  writeKept(folder)
}
