import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { SIDES } from '../../job/index.ts'
import { anyBox } from './random-boxes.fixture.ts'
import { sampleBox } from './sample-boxes.ts'
import { heldHours, sampleHours } from './sample-hours.ts'
import { type Surroundings, surroundingsOf } from './surroundings.ts'
import type { BoxModel } from './types.ts'
import { yearOf } from './year-of.ts'

const DAYS = 12
const ROOF = SIDES.indexOf('roof')
const NONE = new Float64Array(288)
const STEPS = { stepsPerHour: 4 }
const at = (box: BoxModel, meanC: number) => surroundingsOf(box, sampleHours(24 * DAYS, meanC), STEPS)
const sum = (of: Float64Array): number => of.reduce((all, one) => all + one, 0)
const mean = (of: Float64Array): number => sum(of) / of.length
const farthest = (one: Float64Array, other: Float64Array): number =>
  one.reduce((most, x, i) => Math.max(most, Math.abs(x - other[i]!)), 0)

describe('boxes of many kinds', () => {
  test('heat and water close in every step; water in is water out and what is left in store', () => {
    fc.assert(
      fc.property(anyBox, fc.double({ min: -25, max: 25, noNaN: true }), (any, meanC) => {
        // Not sealed: where next to nothing moves, the last bits of what is in store are a share of it.
        const box = { ...any, leakM3SAt1Pa: any.leakM3SAt1Pa + 0.001 }
        const run = yearOf(box, at(box, meanC))
        expect(run.energyResidualFrac).toBeLessThan(1e-9)
        expect(run.waterResidualFrac).toBeLessThan(1e-9)
        const moved = Math.max(run.waterInKg, run.waterOutKg, 1e-6)
        expect(Math.abs(run.waterInKg - run.waterOutKg - run.waterStoredKg)).toBeLessThan(1e-9 * moved)
        for (const kg of run.series.filmKgPerM2) expect(kg).toBeGreaterThanOrEqual(0)
        for (const w of run.series.heaterWh) expect(w).toBeLessThanOrEqual(400 + 1e-9)
      }),
      { seed: 21, numRuns: 25, endOnFailure: true },
    )
  })

  test('all equal, no sun, wind or source: nothing happens in any of them', () => {
    fc.assert(
      fc.property(anyBox, fc.double({ min: -20, max: 30, noNaN: true }), (box, airC) => {
        const hours = heldHours(48, { airC, vapourPa: 40 })
        const idle = { ...box, gearHeatW: NONE, waterKgS: NONE, heater: null, floor: { ...box.floor, dryKgPerM2: 0 } }
        const { series } = yearOf(idle, surroundingsOf(idle, hours, STEPS))
        for (const list of [series.airC, series.faceC, series.outsideFaceC, series.bareC, series.gearC])
          for (const c of list) expect(Math.abs(c - airC)).toBeLessThan(1e-8)
        for (const pa of series.vapourPa) expect(Math.abs(pa - 40)).toBeLessThan(1e-6)
      }),
      { seed: 22, numRuns: 25, endOnFailure: true },
    )
  })

  test('a lighter roof is never hotter at noon, bare or foamed, under a second roof or not', () => {
    fc.assert(
      fc.property(anyBox, fc.double({ min: 0.05, max: 0.5, noNaN: true }), (any, lighter) => {
        // What switches by what the air does may be on in one and off in the other.
        const box = { ...any, fan: null, heater: null }
        const painted = (less: number): BoxModel => ({
          ...box,
          faces: box.faces.map((f) =>
            f.side === 'roof' ? { ...f, absorptanceFrac: Math.max(0.05, f.absorptanceFrac - less) } : f,
          ),
        })
        const sur = at(box, 15)
        const [dark, light] = [yearOf(painted(0), sur).series, yearOf(painted(lighter), sur).series]
        for (let h = 12; h < 24 * DAYS; h += 24) {
          expect(light.outsideFaceC[h * 6 + ROOF]!).toBeLessThanOrEqual(dark.outsideFaceC[h * 6 + ROOF]! + 0.03)
          expect(light.airC[h]!).toBeLessThanOrEqual(dark.airC[h]! + 0.03)
        }
      }),
      { seed: 23, numRuns: 15, endOnFailure: true },
    )
  })

  test('a box in a mirror, with all that stands around it, is the box in a mirror', () => {
    const OTHER = {
      left: 'right',
      right: 'left',
      'door end': 'door end',
      'blind end': 'blind end',
      roof: 'roof',
      floor: 'floor',
    } as const
    fc.assert(
      fc.property(anyBox, (box) => {
        const turned: BoxModel = {
          ...box,
          faces: SIDES.map((side) => ({ ...box.faces[SIDES.indexOf(OTHER[side])]!, side })),
          openings: box.openings.map((o) => ({ ...o, side: OTHER[o.side] })),
          fan: box.fan === null ? null : { ...box.fan, side: OTHER[box.fan.side] },
        }
        const sur = at(box, 0)
        const swapped = <A extends Float64Array | Uint8Array>(of: A): A =>
          of.map((_, i) => of[Math.floor(i / 6) * 6 + SIDES.indexOf(OTHER[SIDES[i % 6]!])]!) as A
        const mirror: Surroundings = {
          ...sur,
          ...{ sunWPerM2: swapped(sur.sunWPerM2), windPa: swapped(sur.windPa), windward: swapped(sur.windward) },
        }
        const [one, other] = [yearOf(box, sur).series, yearOf(turned, mirror).series]
        // Sums in another order move what switches: whether a step is taken in parts, when a film ends.
        expect(farthest(one.airC, other.airC)).toBeLessThan(0.05)
        expect(mean(one.airC.map((c, h) => Math.abs(c - other.airC[h]!)))).toBeLessThan(2e-3)
        expect(farthest(swapped(one.faceC), other.faceC)).toBeLessThan(0.1)
        expect(farthest(swapped(one.filmKgPerM2), other.filmKgPerM2)).toBeLessThan(1e-3)
      }),
      { seed: 24, numRuns: 12, endOnFailure: true },
    )
  })

  test('more leaks: more air in, and the room nearer the air outside', () => {
    fc.assert(
      fc.property(anyBox, fc.double({ min: 1.3, max: 6, noNaN: true }), (any, times) => {
        const box = {
          ...any,
          fan: null,
          heater: null,
          gearHeatW: new Float64Array(288).fill(300),
          leakM3SAt1Pa: any.leakM3SAt1Pa + 0.002,
        }
        const sur = at(box, -5)
        const out = Float64Array.from({ length: 24 * DAYS }, (_, h) => sur.airC[4 * (h + 1)]!)
        const [tight, drafty] = [yearOf(box, sur).series, yearOf({ ...box, leakM3SAt1Pa: times * box.leakM3SAt1Pa }, sur).series]
        expect(sum(drafty.inflowKg)).toBeGreaterThan(sum(tight.inflowKg))
        expect(mean(drafty.airC) - mean(out)).toBeLessThan(mean(tight.airC) - mean(out))
      }),
      { seed: 25, numRuns: 15, endOnFailure: true },
    )
  })
})

describe('weather on the roof', () => {
  const box = { ...sampleBox(0), gearHeatW: NONE, waterKgS: NONE, doorOpenS: new Float64Array(24) }
  type Held = Parameters<typeof heldHours>[1]
  /** As `heldHours`, with light of no time of day: as much on every side. */
  const heldOn = (own: BoxModel, of: Held, lightWPerM2: number, columns: object = {}): Surroundings => {
    const hours = heldHours(48, of)
    const sur = surroundingsOf(own, { ...hours, columns: { ...hours.columns, ...columns } }, STEPS)
    return { ...sur, sunWPerM2: sur.sunWPerM2.map(() => lightWPerM2) }
  }
  const lastRoofC = (own: BoxModel, sur: Surroundings, startC: number) =>
    yearOf(own, sur, { firstRunHours: 0, startC }).series.outsideFaceC[47 * 6 + ROOF]!
  const roofC = (of: Held, lightWPerM2 = 0, own: BoxModel = box) => lastRoofC(own, heldOn(own, of, lightWPerM2), of.airC)

  test('rain takes a roof in the light down near the wet bulb; in dry weather it stands far over the air', () => {
    const mild = { airC: 20, vapourPa: 800 }
    const [dry, wet] = [roofC(mild, 500), roofC({ ...mild, rainMm: 2 }, 500)]
    expect(dry).toBeGreaterThan(30)
    // Wet bulb of 20 °C and 800 Pa: 10.9 °C (psychrometric chart). Light of 375 W/m² over a film of 50 W/m²K adds 7 K, a room lit from all
    // sides some more.
    expect(wet).toBeGreaterThan(10.9)
    expect(wet).toBeLessThan(Math.min(24, dry - 15))
    expect(roofC({ ...mild, rainMm: 2 })).toBeLessThan(13)
  })

  test('snow keeps the roof of a warm box from the cold sky, and by day the light from it', () => {
    const clear = { airC: -10, vapourPa: 100, infraredWPerM2: 160 }
    const warm = { ...box, gearHeatW: new Float64Array(288).fill(2000) }
    const snowM = Float64Array.from({ length: 48 }, (_, h) => (h < 4 ? 0 : 0.2))
    const snowy = (of: Held, lightWPerM2: number, own: BoxModel) => {
      const sur = heldOn(own, of, lightWPerM2, { snowM })
      expect(sur.roofSnowM[4 * 47]).toBeCloseTo(0.2, 9)
      return lastRoofC(own, sur, of.airC)
    }
    expect(snowy(clear, 0, warm)).toBeGreaterThan(roofC(clear, 0, warm) + 5)
    const bright = { airC: -10, vapourPa: 100 }
    expect(snowy(bright, 300, box)).toBeLessThan(roofC(bright, 300) - 3)
    // Only the snow meets the wind, which holds it near the air.
    expect(snowy({ ...clear, windMPerS: 5 }, 0, box)).toBeGreaterThan(snowy(clear, 0, box) + 2)
  })

  test('snow on the roof: falls as on the ground, melts 20 mm a degree and day, goes with wind over 6 m/s', () => {
    const hours = heldHours(48, { airC: 3 })
    const fallen = Float64Array.from({ length: 48 }, (_, h) => (h === 0 ? 0 : 0.3))
    const depth = (of: Partial<typeof hours.columns>) =>
      surroundingsOf(box, { ...hours, columns: { ...hours.columns, snowM: fallen, ...of } }, STEPS).roofSnowM
    expect(depth({})[4 * 25]! - depth({})[4 * 1]!).toBeCloseTo(-3 * 0.02, 6)
    const gust = Float64Array.from({ length: 48 }, (_, h) => (h === 20 ? 7 : 2))
    expect(depth({ windMPerS: gust })[4 * 19]!).toBeGreaterThan(0.2)
    expect(depth({ windMPerS: gust })[4 * 20]!).toBe(0)
  })

  test('more cloud at night is never a colder roof; the second sky is the colder one; a told sky is taken as told', () => {
    const night = { airC: 0, vapourPa: 400 }
    const under = (cloudFrac: number, options: object = {}) => {
      const hours = heldHours(48, { ...night, cloudFrac })
      const sur = surroundingsOf(box, { ...hours, columns: { ...hours.columns, infraredWPerM2: null } }, { ...STEPS, ...options })
      return yearOf(box, sur, { firstRunHours: 0, startC: 0 }).series.outsideFaceC[47 * 6 + ROOF]!
    }
    const clouds = [0, 0.25, 0.5, 0.75, 1].map((c) => under(c))
    for (const [i, c] of clouds.entries()) if (i > 0) expect(c).toBeGreaterThan(clouds[i - 1]!)
    expect(clouds[4]! - clouds[0]!).toBeGreaterThan(2)
    // The band: cover added is cover, and never more than the whole sky.
    expect(under(0.25, { cloudAddedFrac: 0.25 })).toBeCloseTo(clouds[2]!, 9)
    expect(under(0.75, { cloudAddedFrac: 0.5 })).toBeCloseTo(clouds[4]!, 9)
    expect(under(0.25, { cloudAddedFrac: -0.5 })).toBeCloseTo(clouds[0]!, 9)
    expect(under(0, { sky: 'berdahl-martin' })).toBeLessThan(clouds[0]! - 0.5)
    expect(roofC({ ...night, infraredWPerM2: 200 })).toBeLessThan(roofC({ ...night, infraredWPerM2: 260 }))
  })
})

test('a quarter turn: what met the long side meets the end, and a box that is turned right round has not moved', () => {
  const box = sampleBox(0)
  const hours = sampleHours(48, 5)
  const sun = (doorFacesDeg: number) => surroundingsOf({ ...box, doorFacesDeg }, hours, STEPS).sunWPerM2
  const [north, east] = [sun(0), sun(90)]
  expect(farthest(north, sun(360))).toBeLessThan(1e-9)
  const on = (of: Float64Array, side: (typeof SIDES)[number]) => of.filter((_, i) => i % 6 === SIDES.indexOf(side))
  // Doors look east now: they get what the side that looked east got, and so on round.
  const eastWas = SIDES.filter((s) => s !== 'roof' && s !== 'floor').find(
    (s) => farthest(on(east, 'door end'), on(north, s)) < 1e-9,
  )
  expect(['left', 'right']).toContain(eastWas)
  const morning = (of: Float64Array, side: (typeof SIDES)[number]) =>
    on(of, side)
      .slice(0, 48)
      .reduce((a, x) => a + x, 0)
  expect(morning(east, 'door end')).toBeGreaterThan(morning(east, 'blind end'))
  expect(farthest(on(east, 'roof'), on(north, 'roof'))).toBeLessThan(1e-9)
})

test('a fan on a panel: nothing under its start, cube root of the light over it, all of it from its rated light', () => {
  const base = sampleBox(0)
  const fan: NonNullable<BoxModel['fan']> = {
    ...{
      side: 'right',
      heightM: 1,
      blows: 'out',
      freeFlowM3S: 0.2,
      shutPressurePa: 1000,
      powerW: 0,
      onAboveC: -50,
      drierKgPerKg: null,
    },
    solar: { ratedWPerM2: 800, startsAtFrac: 0.15 },
  }
  const box = {
    ...base,
    fan,
    openings: [],
    floor: { ...base.floor, dryKgPerM2: 0 },
    waterKgS: NONE,
    leakM3SAt1Pa: 0.5,
    doorOpenS: new Float64Array(24),
    gearHeatW: NONE,
    holds: { fromC: 20, toC: 20 },
  }
  const kg = (light: number) => {
    const sur = surroundingsOf(box, heldHours(24, { airC: 20 }), STEPS)
    const lit = { ...sur, sunWPerM2: sur.sunWPerM2.map(() => light) }
    return yearOf(box, lit, { firstRunHours: 0, startC: 20 }).series.inflowKg[20]!
  }
  expect(kg(100)).toBeLessThan(0.01 * kg(800))
  expect(kg(1000) / kg(800)).toBeCloseTo(1, 3)
  // The curve against leaks that hardly hinder: flow goes with speed.
  expect(kg(400) / kg(800)).toBeCloseTo(0.5 ** (1 / 3), 2)
})
