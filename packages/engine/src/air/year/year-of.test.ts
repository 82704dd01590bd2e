import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exp } from '../../kernel/index.ts'
import { saturationOverIcePa, saturationOverLiquidPa, type WeatherHours } from '../../weather/index.ts'
import { woodMoisturePct } from '../water/index.ts'
import { finer } from './finer.fixture.ts'
import { plainHours } from './plain-year.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxModel } from './types.ts'
import { yearOf } from './year-of.ts'

const none = new Float64Array(288)
const still = (box: BoxModel): BoxModel => ({
  ...box,
  openings: [],
  leakM3SAt1Pa: 0,
  gearHeatW: none,
  airHeatW: none,
  waterKgS: none,
  doorOpenS: new Float64Array(24),
})
const dry = (box: BoxModel): BoxModel => ({ ...box, waterKgS: none, floor: { ...box.floor, dryKgPerM2: 0 } })
const shut = (box: BoxModel): BoxModel => ({ ...box, doorOpenS: new Float64Array(24) })
const withColumns = (hours: WeatherHours, columns: Partial<WeatherHours['columns']>): WeatherHours => ({
  ...hours,
  columns: { ...hours.columns, ...columns },
})

const rms = (one: Float64Array, other: Float64Array, from = 0): number => {
  let sum = 0
  for (let i = from; i < one.length; i++) sum += (one[i]! - other[i]!) * (one[i]! - other[i]!)
  return Math.sqrt(sum / (one.length - from))
}
const most = (one: Float64Array, other: Float64Array, from = 0): number => {
  let worst = 0
  for (let i = from; i < one.length; i++) worst = Math.max(worst, Math.abs(one[i]! - other[i]!))
  return worst
}

describe('the books (conservation, case close-01)', () => {
  test('energy and water close in every step, bare and foamed, from 2 to 60 steps an hour', () => {
    const hours = sampleHours(24 * 30)
    for (const foam of [0, 0.05]) {
      for (const stepsPerHour of [2, 4, 12, 20, 60]) {
        const box = sampleBox(foam)
        const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour }))
        expect(run.energyResidualFrac).toBeLessThan(1e-9)
        expect(run.waterResidualFrac).toBeLessThan(1e-9)
        expect(Math.abs(run.waterInKg - run.waterOutKg - run.waterStoredKg)).toBeLessThan(1e-9 * run.waterInKg)
      }
    }
  })

  test('with every part in use: fan, heater, second roof, snow, rain, frost, drips on a floor', () => {
    const plain = sampleHours(24 * 40, -2)
    const hours = withColumns(plain, {
      snowM: Float64Array.from({ length: plain.hoursCount }, (_, h) => Math.max(0, 0.3 - Math.abs(h - 300) / 1000)),
      rainMm: Float64Array.from({ length: plain.hoursCount }, (_, h) => (h % 50 < 5 ? 1 : 0)),
    })
    const base = sampleBox(0)
    const roofed = {
      ...base,
      faces: base.faces.map((f) => (f.side === 'roof' ? { ...f, shade: { coversFrac: 0.9, absorptanceFrac: 0.5 } } : f)),
      waterKgS: new Float64Array(288).fill(0.5 / 3600),
    }
    const fan = {
      side: 'right',
      heightM: 2,
      blows: 'out',
      freeFlowM3S: 0.1,
      shutPressurePa: 60,
      powerW: 40,
      onAboveC: 5,
      drierKgPerKg: 0.0005,
      solar: null,
    } as const
    for (const at of ['room', 'cabinet'] as const) {
      for (const solar of [null, { ratedWPerM2: 750, startsAtFrac: 0.15 }]) {
        const box: BoxModel = {
          ...roofed,
          fan: { ...fan, solar },
          heater: { at, powerW: 500, onBelowC: 3, deadBandK: 1, dewMarginK: 3 },
        }
        const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 }))
        expect(run.energyResidualFrac).toBeLessThan(1e-9)
        expect(run.waterResidualFrac).toBeLessThan(1e-9)
        expect(run.heaterKWh).toBeGreaterThan(10)
        expect(Math.max(...run.series.heaterWh)).toBeLessThanOrEqual(500 + 1e-9)
        expect(run.fanKWh > 0).toBe(solar === null)
      }
    }
  })
})

describe('against what is known otherwise', () => {
  test('all equal, no sun, wind or source: nothing happens', () => {
    const n = 24 * 10
    const at = (value: number) => new Float64Array(n).fill(value)
    const T = 283.15
    const hours = withColumns(sampleHours(n), {
      airC: at(10),
      vapourPa: at(600),
      windMPerS: at(0),
      globalWPerM2: at(0),
      beamWPerM2: at(0),
      diffuseWPerM2: at(0),
      infraredWPerM2: at(5.670374e-8 * T * T * T * T),
    })
    for (const foam of [0, 0.05]) {
      const box = { ...dry(sampleBox(foam)), gearHeatW: none, doorOpenS: new Float64Array(24) }
      const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 }))
      for (const list of [run.series.airC, run.series.faceC, run.series.outsideFaceC, run.series.gearC])
        for (const t of list) expect(Math.abs(t - 10)).toBeLessThan(1e-9)
      for (const pv of run.series.vapourPa) expect(Math.abs(pv - 600)).toBeLessThan(1e-6)
      expect(Math.max(...run.series.filmKgPerM2)).toBe(0)
    }
  })

  test('gear in air that is held cools as the closed form of a lumped body', () => {
    const n = 48
    const at = (value: number) => new Float64Array(n).fill(value)
    const hours = withColumns(sampleHours(n), {
      airC: at(0),
      vapourPa: at(50),
      windMPerS: at(0),
      globalWPerM2: at(0),
      beamWPerM2: at(0),
      diffuseWPerM2: at(0),
      infraredWPerM2: at(315.6),
    })
    const box = { ...still(dry(sampleBox(0))), holds: { fromC: 5, toC: 5 } }
    const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 }), { firstRunHours: 0, startC: 40, startVapourPa: 50 })
    const tau = box.gear.heatJPerK / box.gear.toAirWPerK
    for (let h = 0; h < n; h++) {
      const exact = 5 + 35 * exp((-3600 * (h + 1)) / tau)
      expect(Math.abs(run.series.gearC[h]! - exact)).toBeLessThan(0.12)
    }
  })

  test('the order of the step is two: half the step, a quarter of the error, in smooth weather', () => {
    const box = { ...dry(sampleBox(0.05)), leakM3SAt1Pa: 0, openings: [], doorOpenS: new Float64Array(24), toldInflowM3S: 0.01 }
    const hours = withColumns(sampleHours(24 * 6), {
      windMPerS: new Float64Array(144).fill(3),
      vapourPa: new Float64Array(144).fill(40),
      globalWPerM2: new Float64Array(144),
      beamWPerM2: new Float64Array(144),
      diffuseWPerM2: new Float64Array(144),
    })
    const first = { firstRunHours: 0, startC: -15, startVapourPa: 40 }
    const coarse = surroundingsOf(box, hours, { stepsPerHour: 2 })
    const run = (parts: number) => yearOf(box, finer(coarse, parts), first).series
    const true_ = run(64)
    const errors = [1, 2, 4, 8].map((parts) => rms(run(parts).gearC, true_.gearC, 24))
    for (let i = 1; i < errors.length; i++) expect(Math.log2(errors[i - 1]! / errors[i]!)).toBeGreaterThan(1.7)
    expect(errors[1]).toBeLessThan(0.005)
  })

  test('a second road, written plainly and taken in steps of seconds, goes to the same place', () => {
    for (const foam of [0, 0.05]) {
      for (const box of [shut(dry(sampleBox(foam))), shut(sampleBox(foam))]) {
        const wet = box.floor.dryKgPerM2 > 0
        const hours = wet
          ? sampleHours(24 * 4, 6)
          : withColumns(sampleHours(24 * 4, 6), { vapourPa: new Float64Array(96).fill(30) })
        const sur = surroundingsOf(box, hours, { stepsPerHour: 4 })
        const start = { airC: sur.airC[0]!, vapourPa: sur.vapourPa[0]! }
        const woodFrac = woodMoisturePct(sur.earlierC, Math.min(sur.earlierFrac, 0.97)) / 100
        const plain = plainHours(box, sur, { ...start, woodFrac }, 10)
        const first = { firstRunHours: 0, startC: start.airC, startVapourPa: start.vapourPa }
        // Equations: the kernel in steps of 15 s. Step: the kernel as it is used.
        const fine = yearOf(box, finer(sur, 60), first).series
        const used = yearOf(box, sur, first).series
        const from = 24
        expect(rms(fine.airC, plain.airC, from)).toBeLessThan(wet ? 0.006 : 0.001)
        expect(rms(fine.faceC, plain.faceC, 6 * from)).toBeLessThan(wet ? 0.012 : 0.001)
        expect(rms(fine.gearC, plain.gearC, from)).toBeLessThan(0.003)
        expect(rms(fine.filmKgPerM2, plain.filmKgPerM2, 6 * from)).toBeLessThan(1e-4)
        expect(rms(used.airC, plain.airC, from)).toBeLessThan(foam > 0 ? (wet ? 0.03 : 0.005) : 0.1)
        expect(rms(used.gearC, plain.gearC, from)).toBeLessThan(0.02)
        expect(most(used.gearC, plain.gearC, from)).toBeLessThan(wet ? 0.1 : 0.03)
      }
    }
  }, 240_000)

  test('twice as fine a step changes hours wet, frosted and hot by less than 1 %', () => {
    const hours = sampleHours(24 * 120)
    for (const foam of [0, 0.05]) {
      const box = sampleBox(foam)
      const counts = [4, 8].map((stepsPerHour) => {
        const { series } = yearOf(box, surroundingsOf(box, hours, { stepsPerHour }))
        let [wet, frosted, warm] = [0, 0, 0]
        for (let h = 0; h < hours.hoursCount; h++) {
          if (series.bareFilmKgPerM2[h * 6 + 4]! > 0.002) wet++
          if (series.frostKgPerM2[h * 6 + (foam > 0 ? 0 : 4)]! > 0.0005) frosted++
          if (series.airC[h]! > 5) warm++
        }
        return [wet, frosted, warm]
      })
      for (const [i, count] of counts[0]!.entries())
        expect(Math.abs(count - counts[1]![i]!)).toBeLessThanOrEqual(0.01 * hours.hoursCount)
    }
  })
})

describe('fog', () => {
  // A tight box in deep cold with wet things in it. Source: saturation over water, ASHRAE Handbook, Fundamentals (Hyland and Wexler).
  const n = 24 * 20
  const hours = withColumns(sampleHours(n, -25), { vapourPa: new Float64Array(n).fill(20) })
  const box = shut({ ...sampleBox(0.05), openings: [], leakM3SAt1Pa: 0.001, waterKgS: new Float64Array(288).fill(0.3 / 3600) })
  const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 }))

  test('air holds hardly more than it can over water at the end of any hour, and may hold more than it can over ice', () => {
    let [overIce, overWater] = [0, 0]
    for (let h = 0; h < n; h++) {
      const pv = run.series.vapourPa[h]!
      const t = run.series.airC[h]!
      overWater = Math.max(overWater, pv / saturationOverLiquidPa(t))
      if (t < -5) overIce = Math.max(overIce, pv / saturationOverIcePa(t))
    }
    expect(overWater).toBeLessThan(1.1)
    expect(overWater).toBeGreaterThan(0.99)
    expect(overIce).toBeGreaterThan(1.05)
  })

  test('what leaves the air as fog lies on the floor, and the books close', () => {
    expect(run.energyResidualFrac).toBeLessThan(1e-9)
    expect(run.waterResidualFrac).toBeLessThan(1e-9)
    expect(Math.abs(run.waterInKg - run.waterOutKg - run.waterStoredKg)).toBeLessThan(1e-9 * run.waterInKg)
    expect(run.series.filmKgPerM2[(n - 1) * 6 + 5]!).toBeGreaterThan(0.1)
  })
})

describe('as it must be', () => {
  test('a lighter roof is never hotter at noon', () => {
    const hours = sampleHours(24 * 60, 12)
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        (light, more) => {
          const painted = (absorptanceFrac: number): BoxModel => {
            const box = sampleBox(0)
            return { ...box, faces: box.faces.map((f) => (f.side === 'roof' ? { ...f, absorptanceFrac } : f)) }
          }
          const sur = surroundingsOf(sampleBox(0), hours, { stepsPerHour: 4 })
          const one = yearOf(painted(light), sur).series.outsideFaceC
          const other = yearOf(painted(Math.min(0.97, light + more)), sur).series.outsideFaceC
          for (let day = 0; day < 60; day++) {
            const noon = (day * 24 + 12) * 6 + 4
            expect(one[noon]!).toBeLessThanOrEqual(other[noon]! + 0.02)
          }
        },
      ),
      { seed: 5, numRuns: 8 },
    )
  })

  test('a box turned about sees what its sides see', () => {
    // Doors to the south in place of north: left and right, blind end and door end change places, and nothing inside is otherwise.
    const hours = withColumns(sampleHours(24 * 20), { vapourPa: new Float64Array(480).fill(30) })
    const box = shut(dry({ ...sampleBox(0), openings: [] }))
    const turned = { ...box, doorFacesDeg: 180 }
    const one = yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 })).series
    const other = yearOf(turned, surroundingsOf(turned, hours, { stepsPerHour: 4 })).series
    const swap = [1, 0, 3, 2, 4, 5]
    expect(most(one.airC, other.airC)).toBeLessThan(1e-6)
    for (let h = 0; h < hours.hoursCount; h++)
      for (let d = 0; d < 6; d++) expect(Math.abs(one.faceC[h * 6 + d]! - other.faceC[h * 6 + swap[d]!]!)).toBeLessThan(1e-6)
  })

  test('the sun in a mirror: east and west change places when noon is the middle', () => {
    const n = 24 * 2
    const hours = sampleHours(n)
    const light = Float64Array.from({ length: n }, (_, h) => Math.max(0, 200 - 60 * Math.abs((h % 24) - 11.5)))
    const even = { ...hours, columns: { ...hours.columns, beamWPerM2: light, diffuseWPerM2: light } }
    // A place whose clock stands so that the sun's noon of the first day is 12:00 within seconds.
    const box = sampleBox(0)
    const at = (longitudeDeg: number) =>
      surroundingsOf(box, { ...even, place: { ...even.place, longitudeDeg } }, { stepsPerHour: 4 }).sunWPerM2
    let best = 90
    let worst = Number.POSITIVE_INFINITY
    for (let lon = -2; lon <= 2; lon += 0.01) {
      const sun = at(lon)
      const gap = Math.abs(sun[38 * 6]! - sun[58 * 6 + 1]!)
      if (gap < worst) [worst, best] = [gap, lon]
    }
    const sun = at(best)
    for (let k = 0; k <= 96; k++) {
      const mirror = 96 - k
      expect(Math.abs(sun[k * 6]! - sun[mirror * 6 + 1]!)).toBeLessThan(6)
      expect(Math.abs(sun[k * 6 + 4]! - sun[mirror * 6 + 4]!)).toBeLessThan(6)
    }
    expect(Math.max(...sun)).toBeGreaterThan(200)
  })

  test('what is not a number stops the run with its hour', () => {
    const hours = sampleHours(72)
    const box = sampleBox(0)
    const bad = { ...box, faces: box.faces.map((f, i) => (i === 4 ? { ...f, absorptanceFrac: Number.NaN } : f)) }
    expect(() => yearOf(bad, surroundingsOf(box, hours, { stepsPerHour: 4 }))).toThrow('air/not-a-number')
    const gap = withColumns(hours, { airC: Float64Array.from(hours.columns.airC!, (x, i) => (i === 9 ? Number.NaN : x)) })
    expect(() => surroundingsOf(box, gap, { stepsPerHour: 4 })).toThrow('air/weather-gap')
    expect(() => surroundingsOf(box, withColumns(hours, { beamWPerM2: null }), { stepsPerHour: 4 })).toThrow('air/weather-column')
  })
})
