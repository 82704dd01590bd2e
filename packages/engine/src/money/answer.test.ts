import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readShop } from '../assess/index.ts'
import { type MoneyTold, readJob } from '../job/index.ts'
import { plan } from '../plan/index.ts'
import { billFor, windowPeakKW } from '../power/supply/index.ts'
import { wholeCents } from './cents.ts'
import { answerMoney, askedParts, type MoneyInputs, nothingDecided } from './index.ts'

const root = join(import.meta.dirname, '../../../..')
const text = (path: string) => readFileSync(join(root, path), 'utf8')
const read = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
if (!read.ok) throw new Error(JSON.stringify(read.problems))
const shop = read.value
const given = readJob(text('examples/two-machines.yaml'))
if (!given.ok) throw new Error('the example cannot be read')
const job = given.value
const { results } = plan(job, shop).assessment
const policy = shop.money!

const base: MoneyInputs = {
  ...{ job, prices: shop.prices, policy, shop: results.shop, haul: results.haul, supply: results.supply },
  ...{ needs: results.needs, meter: { billFor, windowPeakKW } },
}
const told = (over: Partial<MoneyTold>, more: Partial<MoneyInputs['job']['money']> = {}): MoneyInputs => ({
  ...base,
  job: { ...job, money: { ...job.money, ...more, told: { ...job.money.told!, ...over } } },
})
const answer = (inputs: MoneyInputs = base) => answerMoney(inputs)
const finding = (inputs: MoneyInputs, code: string) => answer(inputs).findings.find((f) => f.code === code)
const cents = (all: readonly number[]) => all.reduce((sum, money) => sum + wholeCents(money), 0)

test('a job that names no currency is priced in the shop’s, to the cent as one that names it', () => {
  const named = answer(told({}, { currency: shop.prices.currency })).result.price
  const unnamed = answer({
    ...base,
    job: { ...job, money: { ...job.money, currency: 'XXX' }, tariff: { ...job.tariff, currency: 'XXX' } },
  })
  expect(unnamed.result.currency).toBe(shop.prices.currency)
  expect(unnamed.result.price).toEqual(named)
  expect(named.costMoney).toBeGreaterThan(0)
})

describe('the cost', () => {
  const { result } = answer()

  test('is the sum of its groups, each the sum of its lines, to the cent', () => {
    for (const g of result.groups)
      expect(wholeCents(g.money)).toBe(cents(result.lines.filter((l) => l.group === g.group).map((l) => l.money ?? 0)))
    expect(wholeCents(result.price.costMoney)).toBe(cents(result.groups.map((g) => g.money)))
    const exact = result.lines.reduce((sum, l) => sum + l.likelyMoney!, 0)
    expect(wholeCents(result.price.costMoney)).toBe(wholeCents(exact))
    expect(result.price.isFloor).toBe(false)
  })

  test('takes material from the bill and hours from the hours sheet', () => {
    const [box] = results.shop.boxes
    const material = result.lines.filter((l) => /^material\/(steel|raceway|wire|gear|cords|earth)$/.test(l.id))
    expect(cents(material.map((l) => l.likelyMoney!))).toBe(wholeCents(box!.bill.totalMoney))
    const hours = result.lines.filter((l) => l.group === 'labour').reduce((sum, l) => sum + l.quantity, 0)
    expect(hours).toBeCloseTo(box!.hours.total.middle, 9)
  })

  test('price, margin, tax and total add up to the cent, and the price holds the margin', () => {
    const { price } = result
    expect(wholeCents(price.priceMoney!)).toBe(wholeCents(price.costMoney) + wholeCents(price.marginMoney!))
    expect(wholeCents(price.totalMoney!)).toBe(wholeCents(price.priceMoney!) + wholeCents(price.tax!.money))
    expect(price.marginMoney! / (price.priceMoney! - price.passedMoney)).toBeCloseTo(price.marginFrac!, 6)
    // A fee is passed through: it raises the price by itself and nothing more.
    expect(price.passedMoney).toBe(2400)
  })

  test('what the customer is asked for sums to the price to the cent, at any margin', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.85, noNaN: true }), (marginFrac) => {
        const { result: r } = answer(told({ marginFrac }))
        expect(cents(askedParts(r).map((p) => p.money))).toBe(wholeCents(r.price.priceMoney!))
      }),
      { seed: 4, numRuns: 30 },
    )
  })

  test('the job’s own figures win over the shop’s', () => {
    const line = (inputs: MoneyInputs, id: string) => answer(inputs).result.lines.find((l) => l.id === id)!
    expect(line(told({ usedBoxMoney: 5000 }), 'box/20 ft standard').money).toBe(5000)
    expect(line(told({ haulMoney: 777 }), 'haul/one way').money).toBe(777)
    expect(line(told({ welderPerHMoney: 100 }), 'hours/welder').unitMoney).toBe(100)
    expect(line(told({ helperPerHMoney: 50 }), 'hours/helper').unitMoney).toBe(50)
    expect(line(told({}, { electricianPerHMoney: 99 }), 'hours/electrician').unitMoney).toBe(99)
    expect(line(told({ overheadPerHMoney: 31 }), 'overhead/painter').unitMoney).toBe(31)
    expect(answer(told({ marginFrac: 0.3 })).result.price).toMatchObject({ marginFrac: 0.3, marginFrom: 'the job' })
    expect(finding(told({ marginFrac: 0.1 }), 'money/margin')?.verdict).toBe('tight')
  })

  test('every part of the shop’s page moves the price', () => {
    const price = (over: Partial<typeof policy>) => answer({ ...base, policy: { ...policy, ...over } }).result.price
    const now = answer().result.price
    expect(price({ consumablesFrac: 0 }).costMoney).toBeLessThan(now.costMoney)
    expect(price({ warrantyFrac: 0 }).costMoney).toBeLessThan(now.costMoney)
    expect(price({ risks: [] }).costMoney).toBeLessThan(now.costMoney)
    for (const service of policy.services.filter((s) => s.per !== 'crane call'))
      expect(price({ services: policy.services.filter((s) => s !== service) }).costMoney, service.id).toBeLessThan(now.costMoney)
    expect(price({ marginFrac: 0.4 }).priceMoney).toBeGreaterThan(now.priceMoney!)
    expect(price({ tax: null })).toMatchObject({ tax: null, totalMoney: now.priceMoney })
  })

  test('a crane is paid where the box hangs from a hook, and not where a truck tips it off', () => {
    const by = (unload: 'tilt-bed' | 'top slings, inclined') => {
      const boxes = results.haul.boxes.map((b) => ({ ...b, design: { ...b.design, unload } }))
      return answer({ ...base, haul: { boxes } }).result.lines.map((l) => l.what)
    }
    expect(by('tilt-bed')).not.toContain('crane at the place')
    expect(by('top slings, inclined')).toEqual(expect.arrayContaining(['crane at the place', 'wind holds the crane for a day']))
  })

  test('what packs and waste add is a line of its own', () => {
    const id = results.shop.boxes[0]!.bill.lines.find((l) => l.per === 'm')!.id
    const row = { ...shop.prices.rows[id]!, packCount: 1000 }
    const prices = { ...shop.prices, rows: { ...shop.prices.rows, [id]: row } }
    const line = answer({ ...base, prices }).result.lines.find((l) => l.id === 'material/packs and waste')!
    const counted = results.shop.boxes[0]!.bill.lines.filter((l) => l.id === id).map((l) => 1000 - l.quantity)
    expect(line.likelyMoney).toBeCloseTo(counted.reduce((a, b) => a + b, 0) * row.money, 6)
  })
})

describe('what is missing', () => {
  test('a price that is not there makes the sum a floor that says so', () => {
    const { 'service/engineer': _, ...rows } = shop.prices.rows
    const { findings, result } = answer({ ...base, prices: { ...shop.prices, rows } })
    expect(result.price.isFloor).toBe(true)
    expect(findings.find((f) => f.code === 'money/cost')).toMatchObject({ verdict: 'unknown', said: /at least/ })
    expect(findings.find((f) => f.code === 'money/price-missing')?.said).toContain('service/engineer')
    expect(result.price.costMoney).toBeLessThan(answer().result.price.costMoney)
  })

  test('another currency stands beside and is in no sum, whatever it amounts to', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (money) => {
        const prices = {
          ...shop.prices,
          rows: { ...shop.prices.rows, 'service/engineer': { ...shop.prices.rows['service/engineer']!, money, currency: 'EUR' } },
        }
        const { result, findings } = answer({ ...base, prices })
        const engineer = result.lines.find((l) => l.id === 'service/engineer')!
        expect(engineer.money).toBeNull()
        // The warranty on it stands beside with it.
        expect(result.beside).toHaveLength(1)
        expect(result.beside[0]!.money).toBeCloseTo(money * (1 + policy.warrantyFrac), 1)
        expect(result.price.costMoney).toBe(withoutEngineer)
        expect(findings.find((f) => f.code === 'money/currency')).toMatchObject({ subject: 'EUR', verdict: 'unknown' })
      }),
      { seed: 5, numRuns: 20 },
    )
  })
  const withoutEngineer = answer({
    ...base,
    policy: { ...policy, services: policy.services.filter((s) => s.id !== 'service/engineer') },
  }).result.price.costMoney

  test('a job in another currency than the table has no whole price', () => {
    const { result } = answer({ ...base, job: { ...job, money: { ...job.money, currency: 'CAD' } } })
    expect(result.beside.map((b) => b.currency)).toEqual(['USD'])
    expect(result.lines.filter((l) => l.currency === 'USD' && l.money !== null)).toEqual([])
    expect(result.price.isFloor).toBe(true)
  })

  test('no margin told by anybody: a cost and no price; no tax told: without it, said', () => {
    const bare = { ...base, policy: nothingDecided }
    expect(finding(bare, 'money/margin')).toMatchObject({ verdict: 'unknown' })
    expect(answer(bare).result.price.priceMoney).toBeNull()
    expect(finding({ ...base, policy: { ...policy, tax: null } }, 'money/tax')).toMatchObject({ verdict: 'unknown' })
    expect(finding(bare, 'money/rent')).toMatchObject({ verdict: 'unknown' })
  })

  test('a box that was not laid out leaves everything unknown', () => {
    const { findings, result, workings } = answer({ ...base, shop: { boxes: [] } })
    expect(findings.find((f) => f.code === 'money/cost')?.verdict).toBe('unknown')
    expect(result.rent).toBeNull()
    expect(workings).toEqual([])
  })

  test('old prices are tight, undated ones unknown, and without a day their age is not judged', () => {
    const on = (orderDate: string | null, prices = shop.prices) =>
      finding({ ...base, prices, job: { ...job, needs: { ...job.needs, orderDate } } }, 'money/price-age')
    expect(on('2026-10-01')?.verdict).toBe('holds')
    expect(on('2027-10-01')?.verdict).toBe('tight')
    expect(on(null)?.verdict).toBe('unknown')
    expect(finding({ ...base, today: '2026-10-01' }, 'money/price-age')?.verdict).toBe('holds')
    expect(finding({ ...base, today: '2027-10-01' }, 'money/price-age')?.verdict).toBe('tight')
    const id = 'hour/painter'
    const undated = { ...shop.prices, rows: { ...shop.prices.rows, [id]: { ...shop.prices.rows[id]!, date: '' } } }
    expect(on('2026-10-01', undated)).toMatchObject({ verdict: 'unknown', said: /hour\/painter/ })
  })
})

describe('the spread', () => {
  test('low, middle and high are in order and the mean is the closed one', () => {
    const { spread, lossFrac, overCostFrac } = answer().result
    expect(spread!.lowMoney).toBeLessThan(spread!.middleMoney)
    expect(spread!.middleMoney).toBeLessThan(spread!.highMoney)
    expect(Math.abs(spread!.meanMoney - spread!.closedMeanMoney)).toBeLessThan(
      (5 * spread!.closedDeviationMoney) / Math.sqrt(spread!.drawsCount),
    )
    expect(lossFrac).toBeLessThanOrEqual(overCostFrac!)
  })

  test('a chance of loss over what the shop takes fails', () => {
    expect(finding(told({ marginFrac: 0 }), 'money/spread')?.verdict).toBe('fails')
    expect(finding({ ...told({ marginFrac: 0 }), policy: { ...policy, lossChanceFrac: 1 } }, 'money/spread')?.verdict).toBe(
      'holds',
    )
  })
})

describe('budget, options, and what else the customer could do', () => {
  test('a budget is held against the price with tax', () => {
    const total = answer().result.price.totalMoney!
    expect(finding(told({ budgetMoney: total - 1 }), 'money/budget')?.verdict).toBe('fails')
    expect(finding(told({ budgetMoney: total + 1 }), 'money/budget')?.verdict).toBe('tight')
    expect(finding(told({ budgetMoney: 2 * total }), 'money/budget')?.verdict).toBe('holds')
  })

  test('options stand at their own price and move no sum', () => {
    const none = answer({ ...base, policy: { ...policy, options: [] } }).result
    const { options, price } = answer().result
    expect(options.map((o) => o.what)).toEqual(policy.options.map((o) => o.what))
    for (const o of options) expect(o.priceMoney).toBeGreaterThan(o.costMoney!)
    expect(none.price).toEqual(price)
  })

  test('every way is worth its own list of flows, and dearer energy makes each dearer', () => {
    const c = answer().result.comparison!
    for (const way of c.ways)
      expect(way.paidMoney).toBeCloseTo(
        way.flows.reduce((a, f) => a + f.money, 0),
        6,
      )
    expect(c.ways.map((w) => w.presentMoney)).toEqual(c.ways.map((w) => w.presentMoney).toSorted((a, b) => a - b))
    const buy = c.ways.find((w) => w.id === 'buy')!
    const { price } = answer().result
    // The box with its tax, and the fee of the utility without: bought once, on the first day.
    const first = buy.flows.filter((f) => f.atMonths === 0).reduce((a, f) => a + f.money, 0)
    expect(first).toBeCloseTo(price.totalMoney! - price.passedMoney * price.tax!.frac, 6)
  })

  test('bought, rented, or both: as the caller asks', () => {
    expect(answer(told({ buyOrRent: 'buy' })).result.rent).toBeNull()
    expect(answer(told({ buyOrRent: 'buy' })).result.comparison!.ways.map((w) => w.id)).not.toContain('rent')
    expect(answer(told({ rentPeriodDays: 365.25 / 12 })).result.rent!.periodsPerYearCount).toBe(12)
    expect(answer(told({ rentWanted: 'by the season', seasonDays: 140 })).result.rent!.periodsOutCount).toBe(5)
    expect(answer(told({ rentWanted: '36 months', seasonDays: 140 })).result.rent!.periodsOutCount).toBeCloseTo(8.45, 9)
  })

  test('three winters from one list of flows: only energy of heaters moves, in proportion to their hours', () => {
    const winters = { mildH: 400, middleH: 600, hardH: 900 }
    const c = answer(told({ winters })).result.comparison!
    expect(c.winters).toEqual(winters)
    for (const way of c.ways) {
      const i = c.interestFrac
      const moved = way.flows.reduce((sum, f) => sum + (f.winterMoney ?? 0) / (1 + i) ** (f.atMonths / 12), 0)
      expect(way.winters!.middleMoney).toBeCloseTo(way.presentMoney, 6)
      // A third fewer hours, half as many more.
      expect(way.winters!.mildMoney).toBeCloseTo(way.presentMoney - moved / 3, 6)
      expect(way.winters!.hardMoney).toBeCloseTo(way.presentMoney + moved / 2, 6)
      for (const f of way.flows) expect(f.winterMoney ?? 0).toBeLessThanOrEqual(Math.abs(f.money) + 1e-9)
    }
    expect(c.ways.some((w) => w.winters!.hardMoney > w.presentMoney)).toBe(true)
    // Half of what the machines draw is no heater's: then half of energy runs with the winter, and the fixed sum never does.
    const [needs] = results.needs.boxes
    const rows = needs!.rows.map((r) => ({ ...r, kind: 'heater' as const, energyPerYearKWh: 100 }))
    const mixed = [...rows, ...rows.map((r) => ({ ...r, kind: 'electronic' as const }))]
    const half = answer({ ...told({ winters }), needs: { ...results.needs, boxes: [{ ...needs!, rows: mixed }] } })
    const bill = results.supply.boxes[0]!.chosenRow!.bill!
    const middle = (of: readonly { readonly money: { readonly low: number; readonly high: number } | null }[]) =>
      of.reduce((sum, l) => sum + (l.money === null ? 0 : (l.money.low + l.money.high) / 2), 0)
    const energyFrac = middle(bill.lines.filter((l) => l.what === 'energy')) / middle(bill.lines)
    const month = half.result.comparison!.ways.find((w) => w.id === 'buy')!.flows.find((f) => f.winterMoney !== undefined)!
    expect(energyFrac).toBeLessThan(1)
    expect(month.winterMoney! / month.money).toBeCloseTo(energyFrac / 2, 9)
    const same = answer(told({ winters: { mildH: 600, middleH: 600, hardH: 600 } })).result.comparison!
    for (const way of same.ways) expect(way.winters!.hardMoney).toBeCloseTo(way.winters!.mildMoney, 9)
    const wrong = answer(told({ winters: { mildH: 700, middleH: 600, hardH: 900 } })).result.comparison!
    expect(wrong.winters).toBeNull()
    expect(wrong.lacking.map((l) => l.what)).toContain('mild, usual and hard winter')
    expect(answer().result.comparison!.ways.every((w) => w.winters === null)).toBe(true)
  })

  test('the deposit comes back: without interest a rented box costs rate, haul and energy', () => {
    const { comparison, rent, price } = answer().result
    const way = comparison!.ways.find((w) => w.id === 'rent')!
    const tax = 1 + price.tax!.frac
    const own = rent!.periodsAskedCount * rent!.rateMoney * tax + 2 * rent!.haulEachWayMoney! * tax
    const fed = comparison!.ways.find((w) => w.id === 'buy')!.flows.slice(1)
    expect(way.paidMoney).toBeCloseTo(own + fed.reduce((a, f) => a + f.money, 0), 4)
  })

  test('timers save what the hours of the night would have cost', () => {
    const habit = answer().result.comparison!.habits.find((h) => h.id === 'timers')!
    const perKWh = job.tariff.blocks[0]!.moneyPerKWh
    expect(habit.monthMoney).toBeCloseTo((habit.otherEnergyKWh - habit.energyKWh) * perKWh, 6)
    expect(habit.otherEnergyKWh).toBeGreaterThan(habit.energyKWh)
  })
})
