import { join } from 'node:path'
import { answered, holds, type Story, same } from '../story.ts'
import { axeFindings } from './looks.ts'

const G4C = '#/job/groomer-yard-us?box=yard&thing=receptacle+G4C'

export const stories: readonly Story[] = [
  {
    name: 'where the browser will not store, a strip says so and offers the file',
    run: async ({ open }) => {
      const page = await open({
        before: (context) =>
          context.addInitScript(() => {
            Object.defineProperty(globalThis, 'indexedDB', {
              get: () => {
                throw new Error('refused')
              },
            })
          }),
      })
      await answered(page)
      const strip = page.locator('.strip', { hasText: 'This device will not store.' })
      await strip.waitFor()
      const download = page.waitForEvent('download')
      await strip.getByRole('button').click()
      same((await download).suggestedFilename(), 'groomer-yard-us.yaml', 'the file')
    },
  },
  {
    name: 'two tabs of one job: what one does the other shows; where both change one place, a person chooses',
    run: async ({ open, beside }) => {
      const one = await open({ hash: G4C })
      await answered(one)
      const two = await beside(one)
      await answered(two)
      await one.getByRole('button', { name: 'Pin cord, 10 AWG' }).click()
      await two.getByRole('button', { name: 'Undo: pinned cord at 10 AWG' }).waitFor()
      await two.getByText('pinned by the desk').waitFor({ timeout: 60_000 })
      // The first tab is kept from hearing: its next act meets one it has not seen.
      await answered(one)
      await one.evaluate(() => {
        BroadcastChannel.prototype.postMessage = () => {}
      })
      await two.evaluate(() => {
        BroadcastChannel.prototype.postMessage = () => {}
      })
      await two.getByRole('button', { name: 'Take the pin out' }).click()
      await two.getByRole('button', { name: 'Undo: took the pin out of cord' }).waitFor()
      await one.getByRole('button', { name: 'Take the pin out' }).click()
      const strip = one.locator('.strip', { hasText: 'Both are kept' })
      await strip.waitFor()
      await strip.getByRole('button', { name: /Leave the other/ }).click()
      await strip.waitFor({ state: 'detached' })
      await one.getByRole('button', { name: 'Pin cord, 10 AWG' }).waitFor({ timeout: 60_000 })
    },
  },
  {
    name: 'a document comes in, gets a name of its own and is answered',
    run: async ({ open }) => {
      const page = await open({ hash: '#/today' })
      await page
        .locator('input[type=file][accept]')
        .setInputFiles(join(import.meta.dirname, '../../../../examples/two-machines.yaml'))
      await answered(page)
      holds(page.url().includes('/job/two-machines'), page.url())
    },
  },
  {
    name: 'work can be stopped, what was answered before stands, and it can be asked anew',
    run: async ({ open }) => {
      const page = await open({ hash: '#/job/waterworks-extension-us' })
      await page.getByRole('button', { name: 'Stop' }).click({ timeout: 60_000 })
      await page.getByText('Stopped.').waitFor()
      await page.getByRole('button', { name: 'Answer again' }).click()
      await page.getByRole('button', { name: 'Stop' }).waitFor()
    },
  },
  {
    name: 'theme, units and gloves are set at a touch and remembered by the device',
    run: async ({ open }) => {
      const page = await open({ hash: G4C })
      await answered(page)
      await page.getByText('0.840 m up').or(page.getByText('0.84 m up')).first().waitFor()
      await page.getByRole('button', { name: 'Hands and eyes' }).click()
      await page.getByText('sunlight', { exact: true }).click()
      await page.getByText('US', { exact: true }).click()
      await page.keyboard.press('Escape')
      await page.getByText('2.76 ft up').first().waitFor()
      await page.reload()
      same(await page.evaluate(() => document.documentElement.dataset.theme), 'sunlight', 'theme after a reload')
      await answered(page)
      await page.getByText('2.76 ft up').first().waitFor()
    },
  },
  {
    name: 'gloves: a bank card laid on the glass makes millimetres true, and targets follow it',
    run: async ({ open, pictures }) => {
      for (const [width, height, usual, cardPx, target] of [
        [1024, 768, 78, 480, 85],
        [390, 844, 91, 560, 99],
      ] as const) {
        const page = await open({ hash: '#/today', viewport: { width, height }, hasTouch: true })
        const hands = page.getByRole('button', { name: 'Hands and eyes' })
        const high = async (): Promise<number> => Math.round((await hands.boundingBox())?.height ?? 0)
        await hands.click()
        await page.getByRole('radiogroup', { name: 'gloves' }).getByText('on', { exact: true }).click()
        const stop = page.getByRole('slider', { name: 'Length of the card' })
        await stop.waitFor()
        same(await high(), usual, `target of a usual screen, ${width}`)
        same(await axeFindings(page), [], 'axe, card on the glass')
        await page.screenshot({ path: join(pictures, `card-${width}.png`) })
        await stop.scrollIntoViewIfNeeded()
        const at = await stop.boundingBox()
        holds(at !== null, 'the card is drawn')
        const upright = height > width
        const end = (px: number) => (upright ? ([at!.x + 80, at!.y + px] as const) : ([at!.x + px, at!.y + 20] as const))
        await page.mouse.move(...end((upright ? at!.height : at!.width) - 3))
        await page.mouse.down()
        await page.mouse.move(...end(cardPx - 1), { steps: 4 })
        await page.mouse.up()
        await stop.press('ArrowRight')
        same(await stop.getAttribute('aria-valuenow'), String(cardPx), 'px of the card')
        await page.getByRole('button', { name: 'So long it is' }).click()
        await page.getByText('told by a card').waitFor()
        same(await high(), target, `15 mm of this glass, ${width}`)
        await page.reload()
        await hands.waitFor()
        same(await high(), target, 'after a reload')
        await hands.click()
        await page.getByRole('radiogroup', { name: 'gloves' }).getByText('off', { exact: true }).click()
        holds((await high()) < 60, 'without gloves a finger’s target')
      }
    },
  },
  {
    name: 'the first load is at most 250 kB compressed, engine and examples aside',
    run: async ({ open }) => {
      const page = await open()
      await answered(page)
      const parts = await page.evaluate(() =>
        [...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')].map((entry) => ({
          name: entry.name.split('/').at(-1) ?? '',
          size: (entry as PerformanceResourceTiming).encodedBodySize,
        })),
      )
      const page_ = parts.filter(({ name }) => !/^(worker|scribe)-/.test(name))
      const sum = page_.reduce((total, { size }) => total + size, 0)
      holds(sum > 50_000, `measured at all: ${sum}`)
      holds(sum <= 250_000, `${sum} bytes: ${JSON.stringify(page_)}`)
    },
  },
]
