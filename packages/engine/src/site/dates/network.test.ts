import fc from 'fast-check'
import { expect, test } from 'vitest'
import { calendar } from './calendar.ts'
import { cureDays } from './cure.ts'
import { type Drawn, draws, quantileOf } from './draws.ts'
import { type Activity, driving, earliest, latest } from './network.ts'
import { pertMoments, triangularFrac, triangularMoments, triangularQuantile } from './three-point.ts'

const cal = (closed: readonly { fromD: number; toD: number }[] = [], weekdays = [0, 1, 2, 3, 4, 5, 6]) =>
  calendar({ name: 'test', within: { fromD: 0, toD: 900 }, weekdays, free: new Set(), closed })
const EVERY = cal()
const WEEK = cal([{ fromD: 40, toD: 70 }], [0, 1, 2, 3, 4])

const nets = fc
  .array(fc.tuple(fc.double({ min: 0, max: 12, noNaN: true }), fc.array(fc.nat(), { maxLength: 3 }), fc.boolean()), {
    minLength: 2,
    maxLength: 14,
  })
  .map((rows) =>
    rows.map(
      ([takesDays, after, week], i): Activity => ({
        ...{ id: `t${i}`, takesDays, calendar: week ? WEEK : EVERY },
        after: i === 0 ? [] : [...new Set(after.map((a) => a % i))],
      }),
    ),
  )
const endOf = (net: readonly Activity[], fromD: number): number => Math.max(...earliest(net, fromD).map((p) => p.finishD))

test('a later start never finishes earlier, and a longer task never ends sooner', () => {
  fc.assert(
    fc.property(
      nets,
      fc.double({ min: 0, max: 30, noNaN: true }),
      fc.double({ min: 0, max: 9, noNaN: true }),
      fc.nat(),
      (net, from, more, pick) => {
        expect(endOf(net, from + more)).toBeGreaterThanOrEqual(endOf(net, from) - 1e-9)
        const longer = net.map((a, i) => (i === pick % net.length ? { ...a, takesDays: a.takesDays + more } : a))
        expect(endOf(longer, from)).toBeGreaterThanOrEqual(endOf(net, from) - 1e-9)
      },
    ),
    { seed: 5, numRuns: 300 },
  )
})

test('no task must begin before it can, and on a calendar without gaps the driving chain has no slack', () => {
  fc.assert(
    fc.property(nets, (net) => {
      const end: Activity = { id: 'end', after: net.map((_, i) => i), takesDays: 0, calendar: EVERY }
      const whole = [...net, end]
      const early = earliest(whole, 3)
      const late = latest(whole, [net.length], early[net.length]!.finishD)
      for (const [i, p] of early.entries()) expect(late[i]!.startD).toBeGreaterThanOrEqual(p.startD - 1e-6)
      const plain = whole.map((a) => ({ ...a, calendar: EVERY }))
      const e = earliest(plain, 3)
      const l = latest(plain, [net.length], e[net.length]!.finishD)
      for (const i of driving(plain, e, net.length)) expect(l[i]!.startD).toBeCloseTo(e[i]!.startD, 6)
    }),
    { seed: 6, numRuns: 300 },
  )
})

test('started on its latest day the chain still ends in time', () => {
  fc.assert(
    fc.property(nets, (net) => {
      const end = { id: 'end', after: net.map((_, i) => i), takesDays: 0, calendar: EVERY }
      const whole: readonly Activity[] = [...net, end]
      const by = 300
      const late = latest(whole, [net.length], by)
      const held = whole.map((a, i) => ({ ...a, notBeforeD: late[i]!.startD }))
      expect(earliest(held, 0)[net.length]!.finishD).toBeLessThanOrEqual(by + 1e-6)
    }),
    { seed: 7, numRuns: 300 },
  )
})

test('a task that waits for one behind it, or takes no number of days, is our own mistake', () => {
  expect(() => earliest([{ id: 'a', after: [0], takesDays: 1, calendar: EVERY }], 0)).toThrowError(/dates\/order/)
  expect(() => earliest([{ id: 'a', after: [], takesDays: Number.NaN, calendar: EVERY }], 0)).toThrowError(/dates\/takes/)
})

const drawn = (
  id: string,
  low: number,
  likely: number,
  high: number,
  after: number[] = [],
  more: Partial<Drawn> = {},
): Drawn => ({
  ...{ id, after, calendar: EVERY, takesDays: likely, span: { low, likely, high } },
  ...more,
})
const COUNT = 40_000
/** Three standard deviations of a share of the draws, at its widest. */
const NEAR = (3 * 0.5) / Math.sqrt(COUNT)

test('two triangular tasks side by side: share by a day is the product of theirs, at nine days', () => {
  const [a, b] = [
    { low: 2, likely: 4, high: 12 },
    { low: 3, likely: 6, high: 9 },
  ]
  for (const by of [4, 5, 6, 7, 8, 8.5, 9, 10, 11]) {
    const net = [drawn('a', a.low, a.likely, a.high), drawn('b', b.low, b.likely, b.high), drawn('end', 0, 0, 0, [0, 1])]
    const late = draws({ net, fromD: 0, count: COUNT, seed: 3, ends: [2], byD: by }).lateFrac!
    expect(Math.abs(1 - late - triangularFrac(a, by) * triangularFrac(b, by)), String(by)).toBeLessThan(NEAR)
  }
})

test('two in a row: share by a day is the convolution of theirs; tasks of one told time are late together', () => {
  const [a, b] = [
    { low: 1, likely: 2, high: 6 },
    { low: 2, likely: 3, high: 4 },
  ]
  const convolved = (by: number): number => {
    let sum = 0
    const steps = 4000
    for (let i = 0; i < steps; i += 1) sum += triangularFrac(b, by - triangularQuantile(a, (i + 0.5) / steps))
    return sum / steps
  }
  const net = [drawn('a', 1, 2, 6), drawn('b', 2, 3, 4, [0])]
  const together = [drawn('a', 1, 2, 6, [], { together: 'x' }), drawn('b', 2, 4, 12, [0], { together: 'x' })]
  for (const by of [4, 5, 6, 7, 8]) {
    const late = draws({ net, fromD: 0, count: COUNT, seed: 4, ends: [1], byD: by }).lateFrac!
    expect(Math.abs(1 - late - convolved(by)), String(by)).toBeLessThan(NEAR)
    const both = draws({ net: together, fromD: 0, count: COUNT, seed: 4, ends: [1], byD: by * 2 }).lateFrac!
    expect(Math.abs(1 - both - triangularFrac({ low: 3, likely: 6, high: 18 }, by * 2)), String(by)).toBeLessThan(NEAR)
  }
})

test('of two ways to the end the earlier counts, and nine in ten is the quantile of the draws', () => {
  const net = [drawn('a', 0, 0, 10), drawn('b', 0, 0, 10)]
  const d = draws({ net, fromD: 0, count: COUNT, seed: 8, ends: [0, 1], byD: 5 })
  const one = 1 - triangularFrac({ low: 0, likely: 0, high: 10 }, 5)
  expect(Math.abs(d.firstLateFrac! - one)).toBeLessThan(NEAR)
  expect(Math.abs(d.lateFrac! - one * one)).toBeLessThan(NEAR)
  expect(quantileOf(d.endsD, 0.9)).toBeCloseTo(triangularQuantile({ low: 0, likely: 0, high: 10 }, 0.9), 1)
  expect(d.nineInTenD[0]).toBe(Math.ceil(quantileOf(d.endsD, 0.9)))
  expect(draws({ net, fromD: 0, count: 500, seed: 8, ends: [0], byD: 5 })).toEqual(
    draws({ net, fromD: 0, count: 500, seed: 8, ends: [0], byD: 5 }),
  )
})

test('mean and variance of a triangle are those of its quantiles; of PERT those of the beta distribution of shape four where it is even', () => {
  const t = { low: 2, likely: 5, high: 14 }
  const xs = Array.from({ length: 20_000 }, (_, i) => triangularQuantile(t, (i + 0.5) / 20_000))
  const mean = xs.reduce((a, b) => a + b, 0) / xs.length
  const variance = xs.reduce((a, b) => a + (b - mean) ** 2, 0) / xs.length
  expect(triangularMoments(t).mean).toBeCloseTo(mean, 4)
  expect(triangularMoments(t).variance).toBeCloseTo(variance, 2)
  expect(pertMoments({ low: 2, likely: 8, high: 14 })).toEqual({ mean: 8, variance: 4 })
})

test('paint takes twice as long ten kelvin colder, half at most when warm, and never hardens near frost', () => {
  expect(cureDays(20)).toBe(7)
  expect(cureDays(10)).toBe(14)
  expect(cureDays(35)).toBe(3.5)
  expect(cureDays(4)).toBeNull()
})
