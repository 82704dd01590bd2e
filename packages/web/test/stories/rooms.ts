import type { Page } from 'playwright-core'
import { holds, type Story, same, WIDTHS } from '../story.ts'
import { axeFindings } from './looks.ts'

const ROOMS = ['needs', 'supply', 'dates', 'circuits', 'reach', 'faults', 'fit', 'skin', 'haul', 'shop', 'money'] as const
const room = (name: string): string => `#/job/groomer-yard-us/room/${name}`

/** The room's sheet is laid out of the text that is shown. */
async function roomShown(page: Page): Promise<void> {
  await page.locator('.room:not(.stale) .room-sheets h3').first().waitFor({ state: 'attached', timeout: 60_000 })
}

async function goToRoom(page: Page, name: string): Promise<void> {
  await page.evaluate((to) => {
    window.location.hash = to
  }, room(name))
  await page.locator('.room > h2', { hasText: name }).waitFor()
  await roomShown(page)
}

export const stories: readonly Story[] = [
  {
    name: 'rooms: every sheet of every room is laid out, and has its facts as a table or in words',
    run: async ({ open }) => {
      const page = await open({ hash: room('needs') })
      await roomShown(page)
      for (const one of ROOMS) {
        await goToRoom(page, one)
        const names = page.locator('.room-names button')
        for (let i = 0; i < (await names.count()); i++) {
          await names.nth(i).click()
          const said = await names.nth(i).textContent()
          await page.locator('.room h3', { hasText: said ?? '' }).waitFor({ state: 'attached' })
          const found = await axeFindings(page)
          holds(found.length === 0, `${one}, ${said}: ${found.join(' | ')}`)
        }
        if ((await names.count()) > 0) await names.first().click()
        await page.locator('.room table, .room dl').first().waitFor()
        if (one !== 'circuits' && one !== 'money') await page.locator('.room .picture svg').first().waitFor()
      }
    },
  },
  {
    name: 'rooms: on a phone a drawing of steel is moved under the finger, and never shrinks to a dot among its words',
    run: async ({ open }) => {
      const page = await open({ ...WIDTHS[0], hash: room('haul') })
      await roomShown(page)
      for (const one of ['fit', 'skin', 'haul', 'shop']) {
        await goToRoom(page, one)
        const shares = await page
          .locator('.room .picture')
          .first()
          .evaluate((picture) => {
            const svg = picture.querySelector('svg')!
            const drawn = [...svg.querySelectorAll('.scene path, .scene circle, .scene polyline, .scene polygon')].map((e) =>
              e.getBoundingClientRect(),
            )
            const wide = Math.max(...drawn.map((r) => r.right)) - Math.min(...drawn.map((r) => r.left))
            return {
              drawn: wide / svg.getBoundingClientRect().width,
              there: svg.getBoundingClientRect().width / picture.clientWidth,
            }
          })
        holds(shares.drawn > 0.6, `${one}: only ${Math.round(100 * shares.drawn)} % of the picture's width is drawn`)
        holds(shares.there > 1.2, `${one}: ${shares.there} of the room`)
      }
    },
  },
  {
    name: 'rooms: a thing in the one-line hangs its tag, is dyed in picture and table, and folds back to the room’s tag',
    run: async ({ open }) => {
      const page = await open({ hash: room('reach') })
      await roomShown(page)
      await page.locator('[data-place="receptacle G4C"]').focus()
      await page.keyboard.press('Enter')
      await page.locator('.tag h2', { hasText: 'G4C' }).waitFor()
      holds((await page.locator('.room .dyed').count()) > 0, 'dyed in the picture')
      holds((await page.locator('.room .dyed-row').count()) > 0, 'dyed in the table')
      await page.keyboard.press('Escape')
      await page.locator('.tag h2', { hasText: 'reach' }).waitFor()
    },
  },
  {
    name: 'rooms: a number in a chart and a row of a table unfold their derivation, with what would change it, nearest first',
    run: async ({ open }) => {
      const page = await open({ hash: room('needs') })
      await roomShown(page)
      await page.locator('[data-place="yard/staging"]').first().focus()
      await page.keyboard.press('Enter')
      await page.locator('.leaf tbody tr').first().waitFor()
      await page.keyboard.press('Escape')
      await goToRoom(page, 'reach')
      await page.locator('.how[data-working="G4C/drop"]').first().click()
      await page.locator('.leaf tr.judgement').waitFor()
      await page.locator('.turning[aria-busy="false"]').waitFor({ timeout: 60_000 })
      const said = await page.locator('.turning li').allTextContents()
      holds(
        said.some((line) => /^cord of G4C: 30.m now, tight at 40\.\d+.m$/u.test(line)),
        said.join(' | '),
      )
      await page.screenshot({ path: 'packages/web/test/pictures/room-working-desk-light.png' })
    },
  },
  {
    name: 'rooms: a mend is tried at once, taken back, tried again and kept; then a pin holds it and undo lets it go',
    run: async ({ open, pictures }) => {
      const page = await open({ hash: room('faults') })
      await roomShown(page)
      const strip = page.getByRole('group', { name: /8 AWG cord instead of 12 AWG/ }).first()
      await strip.getByRole('button', { name: 'Try it' }).click()
      await strip.getByRole('button', { name: 'Keep' }).waitFor({ timeout: 60_000 })
      holds(/then holds; money \+/.test((await strip.textContent()) ?? ''), (await strip.textContent()) ?? '')
      await page.screenshot({ path: `${pictures}/room-mend-desk-light.png` })
      const undo = page.locator('.undo')
      same(await undo.isDisabled(), true, 'nothing is written while it is tried')
      await strip.getByRole('button', { name: 'Take back' }).click()
      await strip.getByRole('button', { name: 'Try it' }).click()
      await strip.getByRole('button', { name: 'Keep' }).click({ timeout: 60_000 })
      await page.getByRole('button', { name: /Undo: kept the mend: 8 AWG cord/ }).waitFor()
      await page.locator('.room:not(.stale)').waitFor({ timeout: 60_000 })
      await page.keyboard.press('Control+z')
      await page.locator('.room:not(.stale)').waitFor({ timeout: 60_000 })
      await page
        .getByRole('group', { name: /8 AWG cord instead of 12 AWG/ })
        .first()
        .waitFor()
    },
  },
  {
    name: 'rooms: a mend that a pin forbids names the pin, and takes it out when asked',
    run: async ({ open }) => {
      const page = await open({ hash: `${room('faults')}?box=yard&thing=receptacle+LD1` })
      await roomShown(page)
      await page.getByRole('button', { name: 'Pin cord, 12 AWG' }).click()
      await page.getByLabel('Why? It may stay empty.').fill('two reels lie in the shed')
      await page.getByRole('button', { name: 'Keep the reason' }).click()
      await page.getByText('pinned by the desk: “two reels lie in the shed”').waitFor({ timeout: 60_000 })
      await page.locator('.room:not(.stale)').waitFor({ timeout: 60_000 })
      const strip = page.locator('.mend', { hasText: 'The pin on cords.LD1.size, by the desk, forbids it' }).first()
      await strip.waitFor({ timeout: 60_000 })
      same(await strip.getByRole('button', { name: 'Try it' }).count(), 0, 'not tried against a pin')
      await strip.getByRole('button', { name: 'Unpin it' }).click()
      await page.locator('.mend', { hasText: 'Trying it says' }).first().waitFor({ timeout: 60_000 })
    },
  },
  {
    name: 'rooms: what nobody told stands in chalk with who can tell; told, it is assumed no more; what cannot be read is refused in words',
    run: async ({ open }) => {
      const page = await open({ hash: room('faults') })
      await roomShown(page)
      const fact = page.locator('.facts-told li', { hasText: 'X/R' }).first()
      await fact.getByText('whoever supplies can tell').waitFor()
      await fact.getByRole('button', { name: /^Tell/ }).click()
      await fact.getByRole('textbox').fill('warm')
      await fact.getByRole('button', { name: 'Tell' }).click()
      await page.locator('.problems').waitFor()
      await page.getByRole('button', { name: /^Undo: told/ }).click()
      await page.locator('.problems').waitFor({ state: 'detached', timeout: 60_000 })
    },
  },
  {
    name: 'rooms: a hundred findings are cut, worst first, and the rest stands behind one line',
    run: async ({ open }) => {
      const page = await open({ hash: room('faults') })
      await roomShown(page)
      const tag = page.locator('.tag')
      const verdicts = await tag.locator('.findings .verdict').allTextContents()
      same(verdicts.length, 12, 'so many at first')
      same(verdicts[0]?.trim(), 'unknown', 'worst first')
      await tag.getByRole('button', { name: /more like these/ }).click()
      const open_ = await tag.locator('.findings .verdict').count()
      holds(open_ > 30, `all that do not hold: ${open_}`)
      await tag.getByRole('button', { name: /more hold/ }).click()
      const all = await tag.locator('.findings .verdict').count()
      holds(all > open_ + 20, `all of them: ${all}`)
    },
  },
  {
    name: 'rooms: US units change the figures of a sheet at a touch, and its column says so',
    run: async ({ open }) => {
      const page = await open({ hash: room('reach') })
      await roomShown(page)
      const heads = page.locator('.wide-table th')
      holds((await heads.allTextContents()).includes('m'), 'metres')
      await page.getByRole('button', { name: 'Hands and eyes' }).click()
      await page.getByText('US', { exact: true }).click()
      await page.getByRole('button', { name: 'Done' }).click()
      holds((await heads.allTextContents()).includes('ft'), 'feet')
      const row = page.locator('.wide-table', { hasText: 'SEOOW' }).locator('tr', { hasText: 'G4C' }).first()
      holds(/98\.4/.test((await row.textContent()) ?? ''), (await row.textContent()) ?? '')
    },
  },
]
