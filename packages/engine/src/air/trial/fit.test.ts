import { describe, expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { sensorErrors } from './errors.ts'
import { fitted, ROUNDS_COUNT } from './fit.ts'
import type { SensorPlace } from './log.ts'
import { inverseOf, product } from './matrix.ts'
import { type PairedLog, pairedLog } from './pair.ts'
import { hangingTogether, studentT, toldUnknowns } from './told.ts'
import { madeLog, TOY_UNKNOWNS, toyOutside, toyRun } from './toy.fixture.ts'
import { placeOf, valueAt } from './unknown.ts'

const RUN = { firstDay: 1, firstHour: 0, year: 2027, hoursCount: 24 * 40 }
const TRUTH = [0.012, 0.72, 450]
const PLACES: readonly SensorPlace[] = ['air', 'roof', 'panel', 'humidity']
const outside = toyOutside(RUN.hoursCount, 5)
const truth = toyRun(outside, TRUTH)

function paired(given: Partial<Parameters<typeof madeLog>[2]> = {}, places = PLACES, series = truth): PairedLog {
  const made = pairedLog(madeLog(series, places, { seed: 1, fromHour: 240, hours: 21 * 24, ...given }), RUN)
  if (!made.ok) throw new Error(JSON.stringify(made.problems))
  return made.value
}

describe('small matrices', () => {
  test('an inverse times its matrix is one', () => {
    const a = [
      [4, 1, 0.5],
      [1, 3, -1],
      [0.5, -1, 2],
    ]
    const one = product(inverseOf(a) ?? [], a)
    for (const [i, row] of one.entries()) for (const [j, v] of row.entries()) expect(v).toBeCloseTo(i === j ? 1 : 0, 12)
  })
  test('one with a direction that nothing tells has none', () => {
    expect(
      inverseOf([
        [1, 1],
        [1, 1],
      ]),
    ).toBeNull()
  })
})

test('half-widths of a mean of few are those of the printed table', () => {
  // Student's t, two-sided 95 %: any statistics handbook, e.g. Abramowitz and Stegun table 26.10. Provenance: memory
  for (const [free, t] of [
    [3, 3.182],
    [5, 2.571],
    [10, 2.228],
    [20, 2.086],
    [60, 2.0],
  ] as const)
    expect(Math.abs(studentT(free) / t - 1)).toBeLessThan(0.01)
})

test('places and values of an unknown are each other’s inverse, and what lies outside is a fault', () => {
  for (const u of TOY_UNKNOWNS) {
    expect(valueAt(u, placeOf(u, u.start.value))).toBeCloseTo(u.start.value, 10)
    expect([valueAt(u, 0), valueAt(u, 1)]).toEqual([u.low, expect.closeTo(u.high, 10)])
    expect(() => placeOf(u, u.high * 1.01)).toThrow('air/unknown-range')
  }
})

describe('pairing', () => {
  test('a log of the run itself, at any step and moment, has no error to speak of', () => {
    for (const stepMin of [5, 10, 60]) {
      const log = paired({ noiseK: 0, stepK: 0, offsets: false, stepMin }, ['air', 'roof', 'wall', 'floor', 'panel'])
      for (const error of sensorErrors(truth, log)) {
        expect(Math.abs(error.bias)).toBeLessThan(1e-9)
        expect(error.rms).toBeLessThan(1e-9)
      }
    }
  })

  test('bias, scatter, worst hour and swing of a made error are found', () => {
    const log = paired({ noiseK: 0, stepK: 0, offsets: false }, ['air'])
    const own = log.sensors[0]!
    const logged = own.logged.map((v, i) => v - 2 + (i === 100 ? 10 : 0))
    const [error] = sensorErrors(truth, { ...log, sensors: [{ ...own, logged }] })
    expect(error?.bias).toBeCloseTo(2 - 10 / own.hours.length, 9)
    expect(error?.rms).toBeCloseTo(Math.sqrt((4 * (own.hours.length - 1) + 64) / own.hours.length), 9)
    expect(error?.worst.hour).toBe(own.hours[100])
    expect(error?.swing?.correlationRatio).toBeGreaterThan(0.98)
  })

  test('a swing of half the size, turned over, is said with its size and sign', () => {
    const log = paired({ noiseK: 0, stepK: 0, offsets: false }, ['air'])
    const own = log.sensors[0]!
    const [error] = sensorErrors(truth, { ...log, sensors: [{ ...own, logged: own.logged.map((v) => -2 * v) }] })
    expect(error?.swing?.correlationRatio).toBeCloseTo(-1, 9)
    expect(error?.swing?.sizeRatio).toBeCloseTo(0.5, 9)
  })

  test('air high and low are laid beside the run each, and fitted by their mean', () => {
    const log = paired({}, ['air high', 'air low', 'roof'])
    expect(log.sensors.map(({ sensor, fits }) => [sensor.place, fits])).toEqual([
      ['air high', false],
      ['air low', false],
      ['roof', true],
      ['air', true],
    ])
  })

  test('a log of other days is refused with both spans', () => {
    const log = madeLog(truth, PLACES, { seed: 1, fromHour: 240, hours: 48 })
    const read = pairedLog(log, { ...RUN, year: 2024 })
    expect(read.ok ? null : [read.problems[0]?.code, read.problems[0]?.found]).toEqual([
      'log/apart',
      'a log of 2027-01-11 to 2027-01-12, and weather of 2024-01-01 to 2024-02-09',
    ])
  })

  test('what of a log lies outside the run is counted', () => {
    const log = madeLog(truth, PLACES, { seed: 1, fromHour: 24 * 38, hours: 48, stepMin: 30 })
    const read = pairedLog(log, { ...RUN, hoursCount: 24 * 39 })
    expect(read.ok ? read.value.notes : []).toEqual(['48 of its 96 readings lie outside the hours of the run.'])
  })

  test('beside weather of no year it is laid by day and hour, and that is said', () => {
    const made = madeLog(truth, PLACES, { seed: 1, fromHour: 240, hours: 96, noiseK: 0, stepK: 0, offsets: false })
    const read = pairedLog(made, { ...RUN, year: null })
    if (!read.ok) throw new Error('not read')
    expect([read.value.byCalendar, read.value.firstHour, read.value.lastHour]).toEqual([true, 240, 335])
    expect(read.value.notes[0]).toContain('no certain year')
  })
})

describe('the fit on a made log with known truth', () => {
  test('without noise it finds the truth, in a counted number of runs', () => {
    const log = paired({ noiseK: 0, stepK: 0, offsets: false })
    let runs = 0
    const fit = fitted(
      TOY_UNKNOWNS,
      (values) => {
        runs += 1
        return toyRun(outside, values)
      },
      log,
    )
    for (const [k, value] of fit.values.entries()) expect(value / (TRUTH[k] as number)).toBeCloseTo(1, 3)
    expect([runs, fit.runsCount]).toEqual([1 + 6 + ROUNDS_COUNT * (3 + 6) + 6, runs])
  })

  test.each([
    ['noise, constant errors and steps of half a degree', {}, 0.9],
    ['and a slow error of the run itself, of 0.5 K', { restK: 0.5 }, 0.85],
  ] as const)(
    '%s: the band of 95 % holds the truth in at least the stated share of 30 (10 seeds, three unknowns)',
    (_, given, least) => {
      let held = 0
      let told = 0
      for (let seed = 1; seed <= 10; seed++) {
        const all = toldUnknowns(fitted(TOY_UNKNOWNS, (values) => toyRun(outside, values), paired({ ...given, seed })))
        for (const [k, { low, high, told: is }] of all.entries()) {
          if (low <= (TRUTH[k] as number) && high >= (TRUTH[k] as number)) held += 1
          if (is) told += 1
        }
      }
      expect(held / 30).toBeGreaterThanOrEqual(least)
      expect(told).toBeGreaterThan(26)
    },
  )

  test('readings that hang together count as the few they are worth', () => {
    const [own] = paired({ offsets: false, noiseK: 0, stepK: 0 }, ['panel']).sensors
    const random = seeded(3)
    const noise = Float64Array.from({ length: 600 }, () => random.next() - 0.5)
    const countsOf = (heldHours: number) => {
      const logged = own!.logged.map((v, i) => v + (noise[Math.floor(i / heldHours)] as number))
      const log = { ...paired({}, ['panel']), sensors: [{ ...own!, logged }] }
      return toldUnknowns(fitted(TOY_UNKNOWNS.slice(2), ([gear]) => toyRun(outside, [0.012, 0.72, gear as number]), log))
    }
    const [each] = countsOf(1)
    const [held] = countsOf(4)
    expect(each?.effectiveCount).toBeGreaterThan(300)
    expect(held?.effectiveCount).toBeLessThan(250)
  })

  test('a series each of whose hours keeps four fifths of the one before hangs together nine times', () => {
    // (1 + 0.8)/(1 − 0.8)
    const random = seeded(8)
    let now = 0
    const rests = Float64Array.from({ length: 20_000 }, () => {
      now = 0.8 * now + random.next() - 0.5
      return now
    })
    const [hours, all] = [Int32Array.from(rests, (_, i) => i), new Float64Array(rests.length).fill(1)]
    expect(hangingTogether(hours, rests, all)).toBeGreaterThan(8.4)
    expect(hangingTogether(hours, rests, all)).toBeLessThan(9.6)
    expect(
      hangingTogether(
        hours,
        rests.map((_, i) => (i % 2 === 0 ? 1 : -1)),
        all,
      ),
    ).toBe(1)
  })

  test('an error of the run that returns every day, and hides in every day’s sum, still widens the band', () => {
    const [own] = paired({ offsets: false, noiseK: 0.05, stepK: 0 }, ['panel']).sensors
    const logged = own!.logged.map((v, i) => v + Math.sin((2 * Math.PI * own!.hours[i]!) / 24))
    const log = { ...paired({}, ['panel']), sensors: [{ ...own!, logged }] }
    const [gear] = toldUnknowns(fitted(TOY_UNKNOWNS.slice(2), ([kg]) => toyRun(outside, [0.012, 0.72, kg as number]), log))
    expect(gear?.effectiveCount).toBeLessThan(60)
  })

  test('what moves nothing but the level is told no better than the sensor’s constant error lets it be', () => {
    const level = { ...TOY_UNKNOWNS[1]!, id: 'level', low: -5, high: 5, start: { value: 0 }, toldWithin: { value: 3 } }
    const moved = (v: readonly number[]) => ({ ...truth, airC: truth.airC.map((t) => t + v[0]!) })
    const [told] = toldUnknowns(fitted([level], moved, paired({ offsets: false }, ['air'])))
    // Half-width of a normal of 0.5 K at 95 %, wider for the 20 days: 0.98 to 1.1 K.
    expect((told!.high - told!.low) / 2).toBeGreaterThan(0.95)
    expect((told!.high - told!.low) / 2).toBeLessThan(1.1)
  })

  test('a door that stood open for some hours neither pulls anything out of its band nor widens it', () => {
    const log = paired({ offsets: false })
    const sensors = log.sensors.map((s) => ({
      ...s,
      logged: s.logged.map((v, i) => (i % 25 === 7 ? v - (s.sensor.place === 'humidity' ? 0.3 : 12) : v)),
    }))
    for (const [k, { low, high }] of toldUnknowns(
      fitted(TOY_UNKNOWNS, (v) => toyRun(outside, v), { ...log, sensors }),
    ).entries()) {
      expect(low).toBeLessThanOrEqual(TRUTH[k]!)
      expect(high).toBeGreaterThanOrEqual(TRUTH[k]!)
      expect(high / low).toBeLessThan(1.05)
    }
  })

  test('what the log cannot tell is said, with the reason, and no number is given out as told', () => {
    // The roof alone, and no panel: the gear's mass moves nothing that was logged.
    const log = paired({ hours: 144, noiseK: 1 }, ['floor'])
    const all = toldUnknowns(fitted(TOY_UNKNOWNS, (v) => toyRun(outside, v), log))
    expect(all.map(({ told }) => told)).toEqual([false, false, false])
    for (const t of all.filter(({ told }) => !told)) expect(t.why).toMatch(/flat|too loosely|end of its range/)
  })

  test('an unknown that nothing depends on is flat', () => {
    const [, , gear] = toldUnknowns(fitted(TOY_UNKNOWNS, ([a, b]) => toyRun(outside, [a as number, b as number, 300]), paired()))
    expect([gear?.told, gear?.why]).toEqual([false, expect.stringContaining('flat')])
  })

  test('boxes drawn anywhere in the range: the band of 95 % holds the truth in at least 27 of 30 (10 boxes, three unknowns)', () => {
    const random = seeded(77)
    const between = (u: (typeof TOY_UNKNOWNS)[number]) => valueAt(u, 0.25 + 0.5 * random.next())
    let held = 0
    for (let box = 1; box <= 10; box++) {
      const drawn = TOY_UNKNOWNS.map(between)
      const log = paired({ seed: box }, PLACES, toyRun(outside, drawn))
      for (const [k, { low, high }] of toldUnknowns(fitted(TOY_UNKNOWNS, (v) => toyRun(outside, v), log)).entries())
        if (low <= drawn[k]! && high >= drawn[k]!) held += 1
    }
    expect(held).toBeGreaterThanOrEqual(27)
  })

  test('two unknowns of which only the product shows: neither is told, and each names the other', () => {
    // Colour of the roof, and how much of it lies in the shade.
    const shade = { ...TOY_UNKNOWNS[1]!, id: 'shade', low: 0.2, high: 1.4, start: { value: 0.8 } }
    const run = ([leak, colour, gear, lit]: readonly number[]) => toyRun(outside, [leak!, colour! * lit!, gear!])
    const all = toldUnknowns(fitted([...TOY_UNKNOWNS, shade], run, paired()))
    expect(all.map(({ told }) => told)).toEqual([true, false, true, false])
    expect(all.map((one) => one.with?.id ?? null)).toEqual([null, 'shade', null, 'absorptance'])
  })

  test('an unknown that runs to an end is not told', () => {
    const log = paired({}, PLACES, toyRun(outside, [0.012, 0.72, 450]))
    const narrow = TOY_UNKNOWNS.with(1, { ...TOY_UNKNOWNS[1]!, high: 0.6 })
    const told = toldUnknowns(fitted(narrow, (v) => toyRun(outside, v), log))
    expect(told[1]).toMatchObject({ told: false, why: expect.stringContaining('high end') })
  })

  test('a run that gives no number is a fault, not a fit', () => {
    expect(() => fitted(TOY_UNKNOWNS, () => toyRun(outside, [Number.NaN, 0.5, 300]), paired())).toThrow('air/fit-no-number')
    expect(() => fitted(TOY_UNKNOWNS, () => truth, { ...paired(), sensors: [] })).toThrow('air/fit-nothing')
  })

  test('fewer than five days tell nothing', () => {
    const told = toldUnknowns(fitted(TOY_UNKNOWNS, (v) => toyRun(outside, v), paired({ hours: 72 })))
    expect(told.every((t) => !t.told && t.why.includes('5 are needed'))).toBe(true)
  })

  test('same log, same answer', () => {
    const once = () => JSON.stringify(toldUnknowns(fitted(TOY_UNKNOWNS, (v) => toyRun(outside, v), paired())))
    expect(once()).toBe(once())
  })
})
