import { describe, expect, test } from 'vitest'
import type { Job } from '../job/index.ts'
import { plan } from '../plan/index.ts'
import { modelThing, newThing, pricedThing, standingThing, type Work } from './price.ts'
import { callAt, jobAt, shopAt, YARD } from './shops.fixture.ts'
import { termsOf } from './terms.ts'
import type { ChangesNeeded, Price } from './types.ts'

const shop = shopAt('shop')
const yardShop = shopAt(YARD)
const wanted = (job: Job, buyOrRent: 'buy' | 'rent'): Job => ({
  ...job,
  money: { ...job.money, told: { ...job.money.told!, buyOrRent } },
})
const call = callAt('CL5')
const NONE: Work = {
  ...{ changes: null, testFirst: false, place: { currency: 'USD', lines: [], totalMoney: 0, missing: [] } },
}
const CHANGES: ChangesNeeded = {
  ...{ parts: [], hours: { low: 8, middle: 10, high: 15 }, hoursAreFloor: true, materialMoney: 900, labourMoney: 1060 },
  ...{ moneyIsFloor: true, days: 2, stillFails: [], staysUnknown: [], lacking: ['price of a frame'], uncounted: ['cord exits'] },
}
const line = (price: Price, what: string) => price.lines.find((l) => l.what.startsWith(what))

describe('a box that stands is priced by what stands', () => {
  const worth = (is: 'book value' | 'price asked') => ({ money: 11_400, currency: 'USD', is, on: '2026-09-01', by: 'the books' })
  const body = (is: 'book value' | 'price asked') => ({ ...yardShop.stock!.yard[0]!.body, worth: worth(is) })
  const sale = termsOf(wanted(call, 'buy'), shop)
  const rent = termsOf(wanted(call, 'rent'), shop)
  const own = (terms: typeof sale, is: 'book value' | 'price asked') =>
    pricedThing(standingThing(null, body(is), null, terms), NONE, terms).price

  test('sale: the book value with the margin of 24 % on it, a price asked as it is', () => {
    expect(line(own(sale, 'book value'), 'price of')?.money).toBeCloseTo(15_000, 6)
    expect(line(own(sale, 'price asked'), 'price of')?.money).toBe(11_400)
  })

  test('rent: recovery over its life, insurance and upkeep over the periods out, the margin on it, started periods', () => {
    // P 11 400, S 25 %, n 10, no interest told: (P − S)/n = 855; 5 % of P a year: 570; 65 % of 13 periods of 28 days; 24 % of the price.
    const rate = Math.round(((855 + 570) / (0.65 * 13) / 0.76) * 100) / 100
    // 47 days: two periods begun, and three are the least.
    expect(rent.periodsCount).toBe(3)
    expect(line(own(rent, 'book value'), 'rent of')?.money).toBeCloseTo(3 * rate, 6)
    expect(own(rent, 'book value').isPriced).toBe(true)
  })

  test('a rent of its sheet stands as it is, by the day where the shop has told no least', () => {
    const terms = termsOf(wanted(call, 'rent'), yardShop)
    const box = yardShop.stock!.yard[0]!
    const priced = pricedThing(standingThing(box, box.body, 'CL5', terms), NONE, terms).price
    expect(terms.periodsCount).toBeCloseTo(47 / 28, 9)
    expect(line(priced, 'rent of')?.money).toBeCloseTo((47 / 28) * 890, 6)
    expect(line(priced, 'haul')?.money).toBeCloseTo(2 * 18 * 4.6, 6)
  })

  test('a box that is sold goes one way, one that is rented comes back and is turned round', () => {
    // 1450 one way by the table, with the margin.
    const way = 1450 / 0.76
    expect(line(own(sale, 'book value'), 'haul')?.money).toBeCloseTo(way, 6)
    expect(line(own(rent, 'book value'), 'haul')?.money).toBeCloseTo(2 * way, 6)
    expect(line(own(sale, 'book value'), 'turn-round')).toBeUndefined()
    expect(line(own(rent, 'book value'), 'turn-round')?.money).toBe(320)
  })

  test('without worth and rent it is not cheap: it has no price, and says what nobody said', () => {
    const { worth: _none, ...bare } = body('book value')
    const priced = pricedThing(standingThing(null, bare, null, sale), NONE, sale)
    for (const price of [priced.price, priced.priceBeside]) {
      expect(price.isPriced).toBe(false)
      expect(price.isFloor).toBe(true)
      expect(price.lines[0]?.from).toMatch(/nobody said/)
    }
  })

  test('worth in another currency is never added', () => {
    const foreign = { ...body('book value'), worth: { ...worth('book value'), currency: 'CAD' } }
    expect(pricedThing(standingThing(null, foreign, null, sale), NONE, sale).price.isPriced).toBe(false)
  })

  test('parts and hours of the changes are in the price with their margin; what nobody can count is named and in no sum', () => {
    const thing = standingThing(null, body('price asked'), null, sale)
    const bare = pricedThing(thing, NONE, sale).price
    const changed = pricedThing(thing, { ...NONE, changes: CHANGES }, sale).price
    expect(changed.totalMoney - bare.totalMoney).toBeCloseTo((900 + 1060) / 0.76, 1)
    expect(changed.lacking).toEqual(expect.arrayContaining(['hours of cord exits', 'price of a frame']))
    expect(changed.isFloor).toBe(true)
  })
})

test('one hour costs what it costs everywhere: the job’s rate, else the row of the table, with the shop’s overhead', () => {
  expect(termsOf(call, shop).ratePerHMoney).toBe(82 + 24)
  expect(termsOf({ ...call, money: { ...call.money, electricianPerHMoney: 100 } }, shop).ratePerHMoney).toBe(124)
})

describe('a new plan', { timeout: 240_000 }, () => {
  const job = jobAt('examples/groomer-yard-us.yaml')
  const fresh = plan(job, shop)

  test('is asked the same lines as a model and a box that stands, by each kind of price', () => {
    for (const kind of ['buy', 'rent'] as const) {
      const terms = termsOf(wanted(job, kind), shop)
      const things = [
        modelThing(shop.stock!.models[0]!, terms),
        newThing(fresh, NONE.place, terms),
        standingThing(null, yardShop.stock!.yard[0]!.body, null, terms),
      ]
      const prices = things.map((t) => pricedThing(t, NONE, terms).price)
      expect(new Set(prices.map((p) => String(p.lines.slice(1).map((l) => l.what)))).size).toBe(1)
      expect(new Set(prices.map((p) => p.is)).size).toBe(1)
    }
  })

  test('for sale costs what money asks for it, its way and the crane apart', () => {
    const { money } = fresh.assessment.results
    const terms = termsOf(wanted(job, 'buy'), shop)
    const priced = pricedThing(newThing(fresh, NONE.place, terms), NONE, terms).price
    const apart = money.lines.filter((l) => l.group === 'haul' || l.id === 'service/crane call')
    const asked = apart.reduce((a, l) => a + l.money!, 0) / (1 - money.price.marginFrac!)
    expect(line(priced, 'price of')!.money! + asked + money.price.passedMoney).toBeCloseTo(money.price.priceMoney!, 1)
  })
})
