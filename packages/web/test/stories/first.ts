import { answered, holds, type Story, same } from '../story.ts'

export const stories: readonly Story[] = [
  {
    name: 'opens on the example: six sides, sixteen questions, and nothing wrong in the console',
    run: async ({ open }) => {
      const page = await open()
      await answered(page)
      same(await page.locator('[data-question]').count(), 16, 'questions')
      same(await page.locator('.things > li').count(), 5, 'sides with things on them, and the machines of the yard')
      holds((await page.locator('[data-choose]').count()) > 40, 'things are drawn')
      holds((await page.title()).startsWith('Groomer yard'), await page.title())
      const haul = (await page.locator('[data-question="haul"]').getAttribute('aria-label')) ?? ''
      holds(/^haul: (holds|tight|fails|unknown), not decided by us$/.test(haul), haul)
    },
  },
  {
    name: 'chooses the outlet of G4, reads its finding, unfolds the working, folds all the way back to today',
    run: async ({ open }) => {
      const page = await open()
      await answered(page)
      await page.locator('[data-choose="panel"]').focus()
      await page.keyboard.press('/')
      await page.keyboard.type('g4c')
      await page.keyboard.press('Enter')
      const tag = page.locator('.tag.wired')
      same(await tag.locator('h2').textContent(), 'G4C', 'the tag')
      await tag.getByRole('button', { name: /more hold/ }).click()
      const drop = tag.locator('li', { hasText: 'with everything on: 114.7' }).first()
      await drop.locator('button').click()
      const leaf = page.locator('.leaf')
      await leaf.locator('tr.judgement').waitFor()
      holds((await leaf.locator('tbody tr').count()) > 5, 'the derivation has its lines')
      holds(page.url().includes('working='), 'the address holds the working')
      await leaf.locator('h2').click()
      for (const level of ['working=', 'thing=']) {
        holds(page.url().includes(level), `${level} is in the address`)
        await page.keyboard.press('Escape')
        holds(!page.url().includes(level), `${level} is folded away`)
      }
      await page.keyboard.press('Escape')
      holds(page.url().endsWith('#/today'), 'folded back to today')
      await page.locator('h1', { hasText: 'Today' }).waitFor()
    },
  },
  {
    name: 'a pin is kept at once, survives a reload, its words stand beside Undo, and undone it is gone for good',
    run: async ({ open }) => {
      const page = await open({ hash: '#/job/groomer-yard-us?box=yard&thing=receptacle+G4C' })
      await answered(page)
      await page.getByRole('button', { name: 'Pin cord, 10 AWG' }).click()
      const undo = page.locator('.undo')
      await page.getByRole('button', { name: 'Undo: pinned cord at 10 AWG' }).waitFor()
      await page.reload()
      await answered(page)
      await page.getByText('pinned by the desk').waitFor()
      same(await undo.getAttribute('aria-label'), 'Undo: pinned cord at 10 AWG', 'undo after a reload')
      await page.keyboard.press('Control+z')
      await page.getByRole('button', { name: 'Pin cord, 10 AWG' }).waitFor()
      await page.reload()
      await answered(page)
      await page.getByRole('button', { name: 'Pin cord, 10 AWG' }).waitFor()
      same(await undo.isDisabled(), true, 'nothing is left to undo')
    },
  },
  {
    name: 'arrows go from thing to thing, brackets to what does not hold, enter unfolds the side, esc folds it',
    run: async ({ open }) => {
      const page = await open()
      await answered(page)
      const chosen = () =>
        page.locator('[data-choose]:not([data-choose^="machine "])[aria-pressed="true"]').getAttribute('data-choose')
      await page.locator('[data-choose="panel"]').focus()
      await page.keyboard.press('Enter')
      same(await chosen(), 'panel', 'enter chooses')
      await page.keyboard.press('ArrowRight')
      const right = await chosen()
      holds(right !== 'panel', 'an arrow moved on')
      same(await page.evaluate(() => document.activeElement?.getAttribute('data-choose')), right, 'focus went along')
      await page.keyboard.press(']')
      const open_ = await page.locator(`[data-choose="${await chosen()}"]`).getAttribute('aria-label')
      holds(/(tight|fails|unknown)/.test(open_ ?? ''), `does not hold: ${open_}`)
      await page.keyboard.press('Enter')
      await page.locator('.side-strip').waitFor()
      await answered(page)
      await page.keyboard.press('Escape')
      await page.locator('.side-strip').waitFor({ state: 'detached' })
    },
  },
]
