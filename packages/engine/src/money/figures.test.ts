import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Fault } from '../kernel/index.ts'
import { agedRows, daysFrom } from './ages.ts'
import { partsInCents, wholeCents } from './cents.ts'
import { boughtOnTop } from './cost.ts'
import { paidMoney, paybackMonth, presentMoney } from './flows.ts'
import { annuityFrac, capitalRecoveryFrac, presentFrac, recoveryMoney, returnFrac, sinkingFundFrac } from './interest.ts'
import { marginOfMarkUpFrac, markUpFrac, priceFrom } from './margin.ts'
import { periodsPerYear, type RentInputs, rentFor } from './rent.ts'
import { type Drawn, spreadOf } from './simulate.ts'
import { triangleMean, triangleVariance } from './triangle.ts'

const codeOf = (act: () => unknown): string => {
  try {
    act()
  } catch (thrown) {
    if (thrown instanceof Fault) return thrown.code
  }
  return 'nothing thrown'
}
const SEED = 20260101
const amount = fc.double({ min: -1e6, max: 1e6, noNaN: true })

describe('cents', () => {
  test('half a cent goes away from zero although no double is half a cent', () => {
    // By hand: 1.005 is held as 1.00499999999999989…
    expect([1.005, 2.675, -1.005, 0.125, 1.0049].map(wholeCents)).toEqual([101, 268, -101, 13, 100])
    expect(wholeCents(-0.001)).toBe(0)
    expect(codeOf(() => wholeCents(Number.NaN))).toBe('money/not-finite')
  })

  test('parts sum to the rounded whole, each at most a cent off', () => {
    fc.assert(
      fc.property(fc.array(amount, { maxLength: 60 }), (exact) => {
        const parts = partsInCents(exact)
        let sum = 0
        for (const money of exact) sum += money
        expect(parts.reduce((a, b) => a + b, 0)).toBe(wholeCents(sum))
        for (const [i, part] of parts.entries()) expect(Math.abs(part - exact[i]! * 100)).toBeLessThan(1.0001)
      }),
      { seed: SEED },
    )
  })

  test('three thirds of a dollar make a dollar', () => expect(partsInCents([1 / 3, 1 / 3, 1 / 3])).toEqual([33, 34, 33]))
})

describe('margin and mark-up', () => {
  test('are the same money seen from the price and from the cost', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.95, noNaN: true }), fc.double({ min: 1, max: 1e6, noNaN: true }), (m, cost) => {
        const price = priceFrom(cost, m)
        expect((price - cost) / price).toBeCloseTo(m, 9)
        expect(price).toBeCloseTo(cost * (1 + markUpFrac(m)), 4)
        expect(marginOfMarkUpFrac(markUpFrac(m))).toBeCloseTo(m, 9)
      }),
      { seed: SEED },
    )
  })

  test('a margin of the whole price is no price', () => {
    for (const m of [1, -0.01, Number.NaN]) expect(codeOf(() => priceFrom(100, m))).toBe('money/margin-range')
  })
})

describe('interest', () => {
  const rate = fc.double({ min: 0.001, max: 0.5, noNaN: true })
  const periods = fc.integer({ min: 1, max: 240 })

  test('a loan paid by the recovery is paid: the balance carried period by period ends at nothing', () => {
    fc.assert(
      fc.property(rate, fc.integer({ min: 1, max: 60 }), (interestFrac, periodsCount) => {
        const payment = capitalRecoveryFrac({ interestFrac, periodsCount })
        let balance = 1
        for (let n = 0; n < periodsCount; n += 1) balance = balance * (1 + interestFrac) - payment
        expect(Math.abs(balance)).toBeLessThan(1e-9 * (1 + interestFrac) ** periodsCount)
      }),
      { seed: SEED },
    )
  })

  test('annuity, recovery and present worth agree', () => {
    fc.assert(
      fc.property(rate, periods, (interestFrac, periodsCount) => {
        const term = { interestFrac, periodsCount }
        const sum = Array.from({ length: periodsCount }, (_, n) => presentFrac(interestFrac, n + 1)).reduce((a, b) => a + b, 0)
        expect(annuityFrac(term)).toBeCloseTo(sum, 6)
        const saved = sinkingFundFrac(term) * annuityFrac(term) * (1 + interestFrac) ** periodsCount
        if (periodsCount <= 30) expect(saved).toBeCloseTo(1, 6)
      }),
      { seed: SEED },
    )
  })

  test('without interest the cost is spread evenly, and near none it is nearly so', () => {
    expect(capitalRecoveryFrac({ interestFrac: 0, periodsCount: 10 })).toBe(0.1)
    expect(capitalRecoveryFrac({ interestFrac: 1e-12, periodsCount: 10 })).toBeCloseTo(0.1, 9)
    expect(recoveryMoney({ interestFrac: 0, periodsCount: 10, costMoney: 1000, residualMoney: 200 })).toBe(80)
  })

  test('is asked only of a term', () => {
    for (const bad of [
      { interestFrac: -0.1, periodsCount: 10 },
      { interestFrac: 0.1, periodsCount: 0 },
      { interestFrac: Number.NaN, periodsCount: 1 },
    ])
      expect(codeOf(() => capitalRecoveryFrac(bad))).toBe('money/term-range')
    expect(codeOf(() => presentFrac(0.1, -1))).toBe('money/term-range')
  })

  test('the return of a loan is its interest; payments of one sign have none', () => {
    fc.assert(
      fc.property(rate, fc.integer({ min: 1, max: 40 }), (interestFrac, periodsCount) => {
        const payment = capitalRecoveryFrac({ interestFrac, periodsCount })
        expect(returnFrac([-1, ...Array.from({ length: periodsCount }, () => payment)])).toBeCloseTo(interestFrac, 6)
      }),
      { seed: SEED },
    )
    expect(returnFrac([1, 2, 3])).toBeNull()
  })
})

describe('flows', () => {
  const flow = (month: number, money: number) => ({ atMonths: month, what: '', money })

  test('are worth their plain sum without interest, and less the later they come', () => {
    const flows = [flow(0, 100), flow(12, 100), flow(24, 100)]
    expect(presentMoney(flows, 0)).toBe(300)
    // By hand: 100 + 100/1.1 + 100/1.21
    expect(presentMoney(flows, 0.1)).toBeCloseTo(100 + 90.90909090909 + 82.64462809917, 8)
    expect(presentMoney([flow(6, 100)], 0.21)).toBeCloseTo(100 / 1.1, 9)
    expect(paidMoney(flows)).toBe(300)
  })

  test('pay back in the month from which on they never cost more', () => {
    const dear = [flow(0, 1000)]
    const other = Array.from({ length: 24 }, (_, i) => flow(i + 1, 100))
    expect(paybackMonth(dear, other)).toBe(10)
    expect(paybackMonth(other, dear)).toBeNull()
    expect(paybackMonth(dear, dear)).toBe(0)
    expect(paybackMonth([...dear, flow(20, 1100)], other)).toBe(21)
    expect(paybackMonth([...dear, flow(20, 5000)], other)).toBeNull()
  })
})

describe('the spread of a sum', () => {
  const triangle = fc
    .tuple(...[0, 1, 2].map(() => fc.double({ min: 0, max: 10_000, noNaN: true })))
    .map((three) => three.toSorted((a, b) => a - b) as [number, number, number])
  const thing = fc.tuple(triangle, fc.constantFrom(1, 1, 0.3, 0.05)).map(
    ([[lowMoney, likelyMoney, highMoney], chanceFrac]): Drawn => ({
      ...{ what: '', chanceFrac },
      triangle: { lowMoney, likelyMoney, highMoney },
    }),
  )

  test('comes to the closed mean and deviation, and its ends are in order', () => {
    fc.assert(
      fc.property(fc.array(thing, { minLength: 1, maxLength: 8 }), fc.integer({ min: 1, max: 1e6 }), (things, seed) => {
        const s = spreadOf(things, { drawsCount: 4000, seed })
        // Five standard errors of the mean: once in two million.
        expect(Math.abs(s.meanMoney - s.closedMeanMoney)).toBeLessThanOrEqual(
          (5 * s.closedDeviationMoney) / Math.sqrt(s.drawsCount) + 1e-6,
        )
        if (things.every((t) => t.chanceFrac === 1))
          expect(Math.abs(s.deviationMoney - s.closedDeviationMoney)).toBeLessThanOrEqual(0.08 * s.closedDeviationMoney + 1e-6)
        expect(s.lowMoney).toBeLessThanOrEqual(s.middleMoney)
        expect(s.middleMoney).toBeLessThanOrEqual(s.highMoney)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  test('has the quantiles of one triangle', () => {
    // Of (0, 0, 1) the share below x is 1 − (1 − x)²: a tenth lies below 1 − √0.9.
    const one: Drawn = { what: '', chanceFrac: 1, triangle: { lowMoney: 0, likelyMoney: 0, highMoney: 1 } }
    const s = spreadOf([one], { drawsCount: 200_000, seed: 3, above: [0.5] })
    expect(s.lowMoney).toBeCloseTo(1 - Math.sqrt(0.9), 2)
    expect(s.middleMoney).toBeCloseTo(1 - Math.sqrt(0.5), 2)
    expect(s.highMoney).toBeCloseTo(1 - Math.sqrt(0.1), 2)
    expect(s.aboveFrac[0]).toBeCloseTo(0.25, 2)
    expect(triangleMean(one.triangle)).toBeCloseTo(s.meanMoney, 2)
    expect(triangleVariance(one.triangle)).toBeCloseTo(s.deviationMoney ** 2, 2)
  })

  test('is the same for the same seed, another for another, and refuses what is no triangle', () => {
    const things: Drawn[] = [{ what: '', chanceFrac: 0.5, triangle: { lowMoney: 1, likelyMoney: 2, highMoney: 5 } }]
    const at = (seed: number) => spreadOf(things, { drawsCount: 1000, seed })
    expect(at(7)).toEqual(at(7))
    expect(at(8).meanMoney).not.toBe(at(7).meanMoney)
    const bad: Drawn[] = [{ what: '', chanceFrac: 1, triangle: { lowMoney: 3, likelyMoney: 2, highMoney: 5 } }]
    expect(codeOf(() => spreadOf(bad, { drawsCount: 1000, seed: 1 }))).toBe('money/triangle')
    expect(codeOf(() => spreadOf(things, { drawsCount: 3, seed: 1 }))).toBe('money/draws')
  })
})

describe('rent', () => {
  const policy = {
    ...{ lifeYears: 10, residualFrac: 0.25, insuranceFrac: 0.02, upkeepFrac: 0.03, useFrac: 0.65, offSeasonFrac: 0 },
    ...{ turnRound: 'x', depositPeriodsCount: 1, minimumPeriodsCount: 3 },
  }
  const base: RentInputs = {
    ...{ policy, costMoney: 42_000, cordsMoney: 500, haulMoney: 1450, turnRoundMoney: 340, interestFrac: 0.09 },
    ...{ marginFrac: 0.2, periodDays: 28, stayMonths: 12, seasonDays: null, isFloor: false },
  }
  const rate = (over: Partial<RentInputs> = {}) => rentFor({ ...base, ...over }).rateMoney
  const ruled = (over: Partial<typeof policy>) => rate({ policy: { ...policy, ...over } })

  test('13 periods of 28 days, 12 months, 52 weeks', () => {
    expect([28, 365.25 / 12, 7, 365].map(periodsPerYear)).toEqual([13, 12, 52, 1])
  })

  test('rises with cost, interest, upkeep, insurance, turn-round and margin; falls with residual, use and life', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.5, noNaN: true }), (d) => {
        expect(rate({ costMoney: 42_000 * (1 + d) })).toBeGreaterThan(rate())
        expect(rate({ interestFrac: 0.09 + d })).toBeGreaterThan(rate())
        expect(rate({ turnRoundMoney: 340 * (2 + d) })).toBeGreaterThan(rate())
        expect(rate({ marginFrac: 0.2 + d })).toBeGreaterThan(rate())
        expect(ruled({ upkeepFrac: 0.03 + d })).toBeGreaterThan(rate())
        expect(ruled({ insuranceFrac: 0.02 + d })).toBeGreaterThan(rate())
        expect(ruled({ residualFrac: 0.25 + d })).toBeLessThan(rate())
        expect(ruled({ lifeYears: 10 + 20 * d })).toBeLessThan(rate())
        expect(ruled({ useFrac: 0.65 + d * 0.6 })).toBeLessThan(rate({ turnRoundMoney: 340 }))
      }),
      { seed: SEED, numRuns: 40 },
    )
  })

  test('a season carries the idle periods, unless some of them are let elsewhere', () => {
    const season = rentFor({ ...base, seasonDays: 140 })
    expect(season.periodsOutCount).toBe(5)
    expect(season.hiresPerYearCount).toBe(1)
    // Nothing but the spread over 5 instead of 8.45 periods, and one hire a year.
    expect(season.rateMoney).toBeCloseTo(season.yearMoney / 5 / 0.8, 2)
    const elsewhere = rentFor({ ...base, seasonDays: 140, policy: { ...policy, offSeasonFrac: 0.5 } })
    expect(elsewhere.periodsOutCount).toBe(9)
    expect(elsewhere.rateMoney).toBeLessThan(season.rateMoney)
  })

  test('asks started periods, never fewer than the least; deposit is periods, cords and the way back', () => {
    const r = rentFor(base)
    expect(r.periodsAskedCount).toBe(14) // 365.25/28 = 13.04
    expect(rentFor({ ...base, stayMonths: 1 }).periodsAskedCount).toBe(3)
    expect(rentFor({ ...base, stayMonths: 36, seasonDays: 140 }).periodsAskedCount).toBe(15)
    expect(r.depositMoney).toBeCloseTo(r.rateMoney + 500 + 1450, 2)
    expect(r.haulEachWayMoney).toBeCloseTo(1450 / 0.8, 2)
    expect(rentFor({ ...base, haulMoney: null }).isFloor).toBe(true)
    expect(ruled({ depositPeriodsCount: 2 })).toBe(rate())
    expect(rentFor({ ...base, policy: { ...policy, depositPeriodsCount: 2 } }).depositMoney).toBeCloseTo(
      2 * r.rateMoney + 1950,
      2,
    )
  })

  test('without margin a life of rent earns the interest that it was reckoned with', () => {
    expect(rentFor({ ...base, marginFrac: 0 }).returnFrac).toBeCloseTo(0.09, 4)
    expect(rentFor(base).returnFrac).toBeGreaterThan(0.09)
  })
})

describe('prices', () => {
  test('are old from the day after the last allowed; undated ones are named', () => {
    const rows = [
      { id: 'a', date: '2026-09-15' },
      { id: 'b', date: '' },
      { id: 'c', date: '2026-12-24' },
    ]
    // By the calendar: 15 September to 13 January is 120 days.
    expect(daysFrom('2026-09-15', '2027-01-13')).toBe(120)
    expect(agedRows(rows, { day: '2027-01-13', oldAfterDays: 120 }).map((r) => r.id)).toEqual(['b'])
    expect(agedRows(rows, { day: '2027-01-14', oldAfterDays: 120 })).toEqual([
      { id: 'b', date: '', days: null },
      { id: 'a', date: '2026-09-15', days: 121 },
    ])
  })

  test('packs and waste: what is bought on top of what is counted', () => {
    expect(boughtOnTop(100, {})).toBe(0)
    expect(boughtOnTop(100, { wasteFrac: 0.05 })).toBeCloseTo(5, 9)
    expect(boughtOnTop(101, { packCount: 100 })).toBe(99)
    expect(boughtOnTop(100.00000000000001, { packCount: 100 })).toBeCloseTo(0, 9)
    expect(boughtOnTop(96, { packCount: 100, wasteFrac: 0.05 })).toBe(104)
  })
})
