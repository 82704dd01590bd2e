import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { assess, readShop } from '../assess/index.ts'
import { readJob } from '../job/index.ts'
import { plan } from './index.ts'

const text = (path: string): string => readFileSync(new URL(`../../../../${path}`, import.meta.url), 'utf8')
const read = readJob(text('examples/moved-box-airstrip-ca.yaml'))
const shopRead = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
if (!read.ok || !shopRead.ok) throw new Error('examples')
const shop = shopRead.value
/** In the currency of the shop, so that nothing stands beside. */
const job = { ...read.value, money: { ...read.value.money, currency: 'USD' } }

describe('a box that stands', () => {
  const found = plan(job, shop)
  const { money, dates } = found.assessment.results
  const [list] = found.changeList
  const of = (id: string) => money.lines.find((l) => l.id === id)

  test('costs what it is worth and what its change list asks: no container, no bill and no hours of building it anew', () => {
    expect(of('box/as it stands')?.money).toBe(11_200)
    expect(of('material/changes')?.money).toBe(list!.money)
    // 112 CAD an hour in the document, here taken in one currency, and 31 of overhead.
    expect(of('hours/changes')?.money).toBeCloseTo(list!.hours.middle * 112, 1)
    expect(of('overhead/changes')?.money).toBeCloseTo(list!.hours.middle * 31, 1)
    expect(money.lines.filter((l) => /^(box\/20|material\/(?!changes|packs)|hours\/(?!changes))/.test(l.id))).toEqual([])
    expect(money.lines.some((l) => l.id === 'service/blasting')).toBe(false)
  })

  test('what nobody can count is named, and the price is a floor', () => {
    expect(money.price.isFloor).toBe(true)
    const named = money.lacking.map((l) => l.what).join('; ')
    for (const what of list!.hours.uncounted) expect(named).toContain(what)
  })

  test('is in the shop for the hours of its change list', () => {
    const work = dates.chain.find((t) => t.id === 'shop-work')!
    // Two electricians of 7.5 h.
    expect(work.takes.likely).toBeCloseTo(list!.hours.middle / 15, 9)
  })

  test('judged without a plan its changes are not known, and it says so; judged with what the plan knew, the same comes out', () => {
    const bare = assess(job, found.design, shop).results.money
    expect(bare.lacking.map((l) => l.what)).toContain('changes of orchard-box')
    expect(bare.price.isFloor).toBe(true)
    expect(assess(job, found.design, shop, found.beside)).toEqual(found.assessment)
  })

  test('without its worth the price is a floor that names it', () => {
    const { worth: _none, ...body } = job.builtBody!
    const { money: bare } = assess({ ...job, builtBody: body }, found.design, shop, found.beside).results
    expect(bare.lines.find((l) => l.id === 'box/as it stands')?.money).toBeNull()
    expect(bare.lacking.map((l) => l.what)).toContain('orchard-box as it stands')
  })
})
