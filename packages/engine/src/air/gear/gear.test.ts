import { describe, expect, test } from 'vitest'
import { saturationPa } from '../../weather/index.ts'
import { numberIn, rowsOf } from '../shelf.ts'
import {
  aboveDewK,
  breakerHeatW,
  breakerHolds,
  cabinetHeaterW,
  cabinetWPerM2K,
  currentHeatW,
  GEAR,
  gearHeatJPerK,
  gearLimit,
  heaterWanted,
  hotRoomFrac,
  hotShareFrac,
  outsideDries,
  roomHeaterW,
  transformerHeatW,
} from './index.ts'

describe('gear in the heat', () => {
  test('the maker’s table at its columns, straight between, its rating below', () => {
    expect(breakerHolds(50, 50)).toMatchObject({ currentA: 47, by: 'table' })
    expect(breakerHolds(50, 52.5).currentA).toBeCloseTo(46, 12)
    expect(breakerHolds(50, 20).currentA).toBe(50)
    expect(breakerHolds(50, 50).rests.provenance).toBe('memory')
  })

  test('the root rule lies within 10 % of the table over its first 20 K', () => {
    for (const row of rowsOf('breaker-heat'))
      for (const t of [40, 50, 60]) {
        const table = numberIn(row, String(t)) / numberIn(row, 'rated')
        expect(Math.abs(hotShareFrac(t, 40) / table - 1)).toBeLessThan(0.1)
      }
  })

  test('a size or a heat that the table has not: the rule, and never more than the table’s last', () => {
    expect(breakerHolds(63, 50)).toMatchObject({ by: 'rule' })
    expect(breakerHolds(63, 50).currentA).toBeCloseTo(63 * Math.sqrt(55 / 65), 9)
    expect(breakerHolds(100, 71).currentA).toBeLessThanOrEqual(69)
    expect(breakerHolds(100, 110).currentA).toBe(0)
    expect(hotRoomFrac(50)).toBeCloseTo(0.92, 3)
    expect(hotShareFrac(35, 30)).toBeCloseTo(Math.sqrt(70 / 75), 12)
    expect(() => breakerHolds(0, 50)).toThrow('air/derate-range')
    expect(() => hotShareFrac(50, 105)).toThrow('air/derate-range')
  })

  test('limits: what is not said is null, and where it stands goes with it', () => {
    expect(gearLimit('miniature breaker IEC 60898-1')).toMatchObject({ leastC: -5, mostC: 40, dayMeanMostC: 35 })
    expect(gearLimit('moulded-case breaker UL 489')).toMatchObject({ leastC: -5, dayMeanMostC: null })
    expect(GEAR.map((gear) => gearLimit(gear)).every((one) => one.rests.provenance !== 'read')).toBe(true)
    expect(() => gearLimit('kettle')).toThrow('air/no-row')
  })
})

describe('heat of the gear, and for it', () => {
  test('by the square of the current', () => {
    expect(breakerHeatW(20, 20, 2)).toBe(9)
    expect(breakerHeatW(20, 10, 2)).toBe(2.25)
    expect(breakerHeatW(250, 250, 3)).toBe(120)
    expect(currentHeatW(10, 0.05, 3)).toBe(15)
    expect(transformerHeatW(100, 400, 0.5)).toBe(200)
    expect(gearHeatJPerK(300)).toBe(144_000)
    expect(() => breakerHeatW(20, Number.NaN, 1)).toThrow('air/heat-range')
  })

  test('cabinets by the makers’ rule, rooms by their loss', () => {
    const cabinet = { areaM2: 4.5, lossWPerM2K: cabinetWPerM2K('painted steel'), riseK: 10, ownHeatW: 30, outdoors: true }
    expect(cabinetHeaterW(cabinet)).toBe(465)
    expect(cabinetHeaterW({ ...cabinet, ownHeatW: 900 })).toBe(0)
    expect(roomHeaterW(3, 384.58, 25, 0.34)).toBeCloseTo(1179.2, 1)
    expect(() => roomHeaterW(-1, 1, 1, 1)).toThrow('air/heater-range')
  })

  test('when a heater is wanted, and when outside air dries', () => {
    expect(heaterWanted(4, -10, 5, null)).toBe(true)
    expect(heaterWanted(8, 6, 5, null)).toBe(false)
    expect(heaterWanted(8, 6, 5, 3)).toBe(true)
    expect(outsideDries(0.004, 0.0044, 0.0003)).toBe(true)
    expect(outsideDries(0.0042, 0.0044, 0.0003)).toBe(false)
  })
})

test('cold gear in the first warm wind takes dew: −10 °C in air of 5 °C, one degree from its dew point', () => {
  expect(aboveDewK(-10, saturationPa(4))).toBeCloseTo(-14, 4)
  expect(aboveDewK(6, saturationPa(4))).toBeCloseTo(2, 4)
})
