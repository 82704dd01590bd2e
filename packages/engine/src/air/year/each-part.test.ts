import { expect, test } from 'vitest'
import { dewOrFrostC } from '../../weather/index.ts'
import { doorFlowM3s } from '../flow/index.ts'
import { sampleBox } from './sample-boxes.ts'
import { heldHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxModel, HourSeries } from './types.ts'
import { yearOf } from './year-of.ts'

const NONE = new Float64Array(288)
const HOURS = 48
const LAST = HOURS - 1
const bare = sampleBox(0)
/** Nothing goes on in it; tests add the one part they are about. */
const IDLE: BoxModel = {
  ...bare,
  ...{ openings: [], leakM3SAt1Pa: 1e-9, gearHeatW: NONE, waterKgS: NONE, doorOpenS: new Float64Array(24), winterMonths: [] },
  floor: { ...bare.floor, dryKgPerM2: 0 },
}
type Held = Parameters<typeof heldHours>[1]
const surrounds = (box: BoxModel, of: Held) => surroundingsOf(box, heldHours(HOURS, of), { stepsPerHour: 4 })
const ran = (box: BoxModel, of: Held): HourSeries => yearOf(box, surrounds(box, of), { firstRunHours: 0, startC: of.airC }).series
const vent = (heightM: number, more: Partial<BoxModel['openings'][number]> = {}): BoxModel['openings'][number] => ({
  ...{ id: `at ${heightM}`, side: 'left', areaM2: 0.04, heightM, dischargeRatio: 0.6, winterFrac: 1 },
  ...more,
})

test('steel under a floor gives off heat over all of its developed area, as a fin in the air below', () => {
  const floor = bare.faces.findIndex((f) => f.side === 'floor')
  const at = (developedRatio: number) => {
    const faces = IDLE.faces.map((f, i) => (i === floor ? { ...f, developedRatio } : f))
    const { faceC, outsideFaceC } = ran({ ...IDLE, faces, holds: { fromC: 20, toC: 20 } }, { airC: 0 })
    return { inC: faceC[LAST * 6 + floor]!, outC: outsideFaceC[LAST * 6 + floor]! }
  }
  // What passes the wood leaves at 6 W/m²K over the area of the steel: the wood's own resistance is the same from either.
  const [flat, fin] = [at(1), at(8)]
  const woodW = ({ inC, outC }: typeof flat, ratio: number) => (6 * ratio * outC) / (inC - outC)
  expect(woodW(fin, 8) / woodW(flat, 1)).toBeCloseTo(1, 2)
  expect(fin.inC).toBeLessThan(flat.inC - 0.5)
})

test('a run without lead begins in the air of its first hour, not of its last', () => {
  const hours = heldHours(HOURS, { airC: -20 })
  hours.columns.airC!.fill(15, HOURS / 2)
  const { airC } = yearOf(IDLE, surroundingsOf(IDLE, hours, { stepsPerHour: 4 }), { firstRunHours: 0 }).series
  expect(airC[1]).toBeLessThan(-15)
})

test('one hole alone swaps by its own height (Brown and Solvason) and by wind, 0.025·A·V (ASHRAE), both on Cd·A', () => {
  const box = { ...IDLE, openings: [vent(1.2)], holds: { fromC: 20, toC: 20 } }
  const side = Math.sqrt(0.6 * 0.04)
  const at = (airC: number, windMPerS: number) => {
    const sur = surrounds(box, { airC, windMPerS })
    return {
      kg: ran(box, { airC, windMPerS }).inflowKg[LAST]!,
      perM3: (3600 * sur.pressurePa[0]!) / (287.042 * (airC + 273.15)),
      sur,
    }
  }
  const cold = at(0, 0)
  expect(cold.kg / (cold.perM3 * doorFlowM3s(side, side, 1, 20, 10))).toBeCloseTo(1, 2)
  const windy = at(20, 5)
  expect(windy.kg / (windy.perM3 * 0.025 * 0.6 * 0.04 * 5 * windy.sur.boxWindRatio)).toBeCloseTo(1, 2)
})

test('in the months of its winter position a vent passes the share that stays open', () => {
  const pair = [vent(0.3, { winterFrac: 0.25 }), vent(2.1, { winterFrac: 0.25 })]
  const box = { ...IDLE, openings: pair, holds: { fromC: 20, toC: 20 } }
  const kg = (winterMonths: number[]) => ran({ ...box, winterMonths }, { airC: 0 }).inflowKg[LAST]!
  expect(kg([0]) / kg([])).toBeCloseTo(0.25, 2)
  expect(kg([6])).toBeCloseTo(kg([]), 9)
})

test('the watts of a fan that blows in warm the room, those of one that blows out do not; both count as used', () => {
  const fan = (blows: 'in' | 'out'): NonNullable<BoxModel['fan']> => ({
    ...{ side: 'left', heightM: 1, blows, freeFlowM3S: 1e-9, shutPressurePa: 10, powerW: 120, onAboveC: -50, drierKgPerKg: null },
    solar: null,
  })
  const cooled = (blows: 'in' | 'out') => ran({ ...IDLE, fan: fan(blows), holds: { fromC: 10, toC: 10 } }, { airC: 10 })
  expect(cooled('in').coolerWh[LAST]).toBeCloseTo(120, 3)
  expect(cooled('out').coolerWh[LAST]).toBeCloseTo(0, 3)
  expect(cooled('in').fanWh[LAST]).toBeCloseTo(120, 6)
  expect(cooled('out').fanWh[LAST]).toBeCloseTo(120, 6)
})

test('a fan runs above its temperature, or while the air outside is drier by its margin, and else stands still', () => {
  const fan: NonNullable<BoxModel['fan']> = {
    ...{ side: 'left', heightM: 1, blows: 'out', freeFlowM3S: 0.05, shutPressurePa: 50, powerW: 20 },
    ...{ onAboveC: 30, drierKgPerKg: 0.0005, solar: null },
  }
  const on = (holdsC: number, waterKgPerH: number) =>
    ran(
      {
        ...{ ...IDLE, fan, leakM3SAt1Pa: 0.001, waterKgS: new Float64Array(288).fill(waterKgPerH / 3600) },
        holds: { fromC: holdsC, toC: holdsC },
      },
      { airC: 20, vapourPa: 800 },
    ).fanWh.reduce((sum, one) => sum + one, 0)
  expect(on(25, 0)).toBe(0)
  expect(on(31, 0)).toBeGreaterThan(19 * HOURS)
  expect(on(25, 0.5)).toBeGreaterThan(0)
})

test('a heater with watts enough holds room or gear in the middle of its band, and the gear its margin over the dew point', () => {
  const heater = (more: Partial<NonNullable<BoxModel['heater']>>): NonNullable<BoxModel['heater']> => ({
    ...{ at: 'room', powerW: 20_000, onBelowC: 5, deadBandK: 2, dewMarginK: null },
    ...more,
  })
  const cold = { airC: -10, vapourPa: 200 }
  expect(ran({ ...IDLE, heater: heater({}) }, cold).airC[LAST]).toBeCloseTo(6, 6)
  expect(ran({ ...IDLE, heater: heater({ at: 'cabinet' }) }, cold).gearC[LAST]).toBeCloseTo(6, 6)
  // Nothing to hold off while it is warm; a damp room warms the gear to three kelvin over its dew point.
  const damp = { ...IDLE, heater: heater({ at: 'cabinet', onBelowC: -40, dewMarginK: 3 }) }
  const run = ran(damp, { airC: 8, vapourPa: 1050 })
  expect(run.gearC[LAST]! - dewOrFrostC(run.vapourPa[LAST]!)).toBeCloseTo(3, 2)
  expect(run.heaterWh[LAST]).toBeGreaterThan(0)
  expect(ran(damp, { airC: 8, vapourPa: 500 }).heaterWh[LAST]).toBe(0)
  // With too few watts all of them, and it is colder.
  const weak = ran({ ...IDLE, heater: heater({ powerW: 300 }) }, cold)
  expect(weak.heaterWh[LAST]).toBeCloseTo(300, 6)
  expect(weak.airC[LAST]!).toBeLessThan(5)
})

test('what falls from the roof lands on gear by its share of the roof, on none under a hood; the rest on the floor', () => {
  const wet = {
    ...IDLE,
    faces: IDLE.faces.map((f) => (f.side === 'roof' ? { ...f, holdsKgPerM2: 0.02 } : f)),
    waterKgS: new Float64Array(288).fill(0.5 / 3600),
    holds: { fromC: 20, toC: 20 },
  }
  const weather = { airC: 5, vapourPa: 600, infraredWPerM2: 240 }
  const under = (hooded: boolean) => ran({ ...wet, below: [{ id: 'panel', areaM2: 1.39, hooded }] }, weather)
  const open = under(false)
  const roofKg = open.fellKg.reduce((sum, kg, j) => (j % 6 === 4 ? sum + kg : sum), 0)
  const sum = (of: Float64Array) => of.reduce((all, one) => all + one, 0)
  expect(roofKg).toBeGreaterThan(0.5)
  expect(sum(open.fellOnGearKg) / roofKg).toBeCloseTo(1.39 / 13.9, 6)
  expect(sum(under(true).fellOnGearKg)).toBe(0)
})
