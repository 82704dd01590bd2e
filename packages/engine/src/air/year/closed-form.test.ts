import { describe, expect, test } from 'vitest'
import { exp } from '../../kernel/index.ts'
import { doorFlowM3s } from '../flow/index.ts'
import { finer } from './finer.fixture.ts'
import { sampleBox } from './sample-boxes.ts'
import { heldHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxModel } from './types.ts'
import { yearOf } from './year-of.ts'

const NONE = new Float64Array(288)
/** Outside of each face where it sees air alone, and inside where a fan stirs, W/m²K: films that hang on nothing. */
const [GAP, STIRRED] = [6, 4]
const SKIN_J_PER_M2K = 60_000
const START_K = 2
/** Fan that only stirs. */
const STIRS: NonNullable<BoxModel['fan']> = {
  ...{ side: 'left', heightM: 1, blows: 'out', freeFlowM3S: 1e-12, shutPressurePa: 10, powerW: 0 },
  ...{ onAboveC: -50, drierKgPerKg: null, solar: null },
}
/** Six faces alike, so that none warms another; no water; gear that holds next to nothing. What is left is skin and air. */
function lumpedBox(gearW: number, inflowM3S: number): BoxModel {
  const box = sampleBox(0)
  const steel = { what: 'steel', resistanceM2KPerW: 1e-5, heatJPerM2K: SKIN_J_PER_M2K, nodesCount: 1 }
  return {
    ...box,
    faces: box.faces.map((f) => ({ ...f, developedRatio: 1, layers: [steel], sees: 'air', absorptanceFrac: 0 })),
    ...{ openings: [], leakM3SAt1Pa: 0, fan: STIRS, toldInflowM3S: inflowM3S, waterKgS: NONE, doorOpenS: new Float64Array(24) },
    floor: { ...box.floor, dryKgPerM2: 0 },
    gear: { heatJPerK: 1, toAirWPerK: 30, areaM2: 1 },
    gearHeatW: new Float64Array(288).fill(gearW),
  }
}
const HOURS = 24
/** Outside stands at 10 °C from the first moment on; the box begins warmer. */
const outside = heldHours(HOURS, { airC: 10, vapourPa: 100 })

/** Two nodes, skin and air, as a sum of two exponentials about where they come to rest; air at the end of each hour. */
function exactAirC(box: BoxModel, gearW: number, inflowM3S: number): readonly number[] {
  const areaM2 = box.faces.reduce((sum, f) => sum + f.areaM2, 0)
  const pressurePa = surroundingsOf(box, outside, { stepsPerHour: 4 }).pressurePa[0]!
  const kgPerM3 = (pressurePa - 0.378 * 100) / (287.042 * (283.15 + START_K / 2))
  const dryKg = (box.volumeM3 * (pressurePa - 100)) / (287.042 * (283.15 + START_K / 2))
  const cp = 1006 + 1860 * ((0.621945 * 100) / (pressurePa - 100))
  const [skinJ, airJ] = [SKIN_J_PER_M2K * areaM2, dryKg * cp]
  const [out, into, swap] = [GAP * areaM2, STIRRED * areaM2, inflowM3S * kgPerM3 * cp]
  const restAir = gearW / (swap + (out * into) / (out + into))
  const restSkin = (restAir * into) / (out + into)
  // y' = M·y about the rest; slopes −a and −d, b and c across.
  const [a, b, c, d] = [(out + into) / skinJ, into / skinJ, into / airJ, (into + swap) / airJ]
  const root = Math.sqrt((a - d) * (a - d) + 4 * b * c)
  const [slow, fast] = [(-(a + d) + root) / 2, (-(a + d) - root) / 2]
  const [skin0, air0] = [START_K - restSkin, START_K - restAir]
  // air = p·e^(slow·t) + q·e^(fast·t), with air'(0) = c·skin0 − d·air0.
  const p = (c * skin0 - d * air0 - fast * air0) / (slow - fast)
  const q = air0 - p
  return Array.from({ length: HOURS }, (_, h) => {
    const t = 3600 * (h + 1)
    return 10 + restAir + p * exp(slow * t) + q * exp(fast * t)
  })
}
const ran = (box: BoxModel, parts: number, startC = 10 + START_K) =>
  yearOf(box, finer(surroundingsOf(box, outside, { stepsPerHour: 4 }), parts), { firstRunHours: 0, startC, startVapourPa: 100 })
    .series

describe('a whole box of two nodes against its closed form, textbook lumped capacity', () => {
  test.each([
    ['shut, no heat', 0, 0],
    ['outside air drawn in', 0, 0.05],
    ['heat set free, which it comes to rest on', 300, 0.02],
  ])('%s: a step of the outside air is answered as the two exponentials say', (_, gearW, inflowM3S) => {
    const box = lumpedBox(gearW, inflowM3S)
    const exact = exactAirC(box, gearW, inflowM3S)
    for (const [parts, withinK] of [
      [1, 0.003],
      [15, 0.002],
    ] as const) {
      const { airC } = ran(box, parts)
      for (const [h, wanted] of exact.entries()) expect(Math.abs(airC[h]! - wanted)).toBeLessThan(withinK)
    }
    // It is the whole curve that is met: from near the start to near the rest.
    expect(Math.abs(exact[0]! - exact[HOURS - 1]!)).toBeGreaterThan(0.5)
  })
})

describe('stiffness', () => {
  test('a body that follows the air in microseconds is where it belongs after one hour, whatever the step: no ringing (L-stable)', () => {
    const box = { ...lumpedBox(30, 0), gear: { heatJPerK: 1e-3, toAirWPerK: 3000, areaM2: 1 } }
    for (const stepsPerHour of [1, 2, 4]) {
      const sur = surroundingsOf(box, outside, { stepsPerHour })
      const run = yearOf(box, sur, { firstRunHours: 0, startC: 40, startVapourPa: 100 }).series
      for (let h = 0; h < HOURS; h++) expect(Math.abs(run.gearC[h]! - run.airC[h]! - 30 / 3000)).toBeLessThan(1e-6)
      // Going down towards the outside, never past it or back.
      for (let h = 1; h < HOURS; h++) expect(run.airC[h]!).toBeLessThan(run.airC[h - 1]! + 1e-9)
      expect(run.airC[HOURS - 1]!).toBeGreaterThan(10)
    }
  })
})

test('a door that stands open swaps what Brown and Solvason say, for its seconds', () => {
  const shut = lumpedBox(0, 0)
  const open = { ...shut, doorOpenS: Float64Array.from({ length: 24 }, (_, h) => (h === 3 ? 120 : 0)) }
  const hold = { holds: { fromC: 30, toC: 30 } }
  const [without, with_] = [ran({ ...shut, ...hold }, 1), ran({ ...open, ...hold }, 1)]
  const meanC = (30 + 10) / 2
  const m3 = 120 * doorFlowM3s(open.doorAreaM2 / open.doorHeightM, open.doorHeightM, 0.5, 20, meanC)
  const kgPerM3 = surroundingsOf(shut, outside, { stepsPerHour: 4 }).pressurePa[0]! / (287.042 * 283.15)
  expect((with_.inflowKg[3]! - without.inflowKg[3]!) / (m3 * kgPerM3)).toBeCloseTo(1, 2)
  expect(with_.inflowKg[2]! - without.inflowKg[2]!).toBeCloseTo(0, 6)
})
