import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { numberIn, rowsOf } from '../shelf.ts'
import {
  corrosivity,
  countsAsWet,
  criticalHumidityPct,
  DRIP_WARNING_KG_PER_M2,
  fallsKgPerM2,
  firstYearLossUm,
  floorInnerKgPerM2SPa,
  floorTopKgPerM2SPa,
  frostKgPerM3,
  frostM,
  frostWPerMK,
  mostMould,
  mouldAfterHour,
  mouldClass,
  mouldGrows,
  nightsUntil,
  ROOF_HOLDS_KG_PER_M2,
  steadyRatioKgPerKg,
  sweatStage,
  thawS,
  WALL_HOLDS_KG_PER_M2,
  WATER_SOURCES,
  waterSource,
  weeksToTraces,
  wetnessClass,
  woodHumidityFrac,
  woodMoisturePct,
  woodMoistureSlopePct,
} from './index.ts'

describe('wood and air', () => {
  test('every printed value of the Wood Handbook’s table 4-2, to its rounding', () => {
    let seen = 0
    for (const row of rowsOf('wood-moisture'))
      for (const [column, cell] of Object.entries(row).filter(([name]) => /^\d+$/.test(name))) {
        seen++
        expect(
          Math.abs(woodMoisturePct(numberIn(row, 't_C'), Number(column) / 100) - Number(cell)),
          `${row.t_C} C ${column} %`,
        ).toBeLessThan(0.075)
      }
    expect(seen).toBe(8 * 19)
  })

  test('its slope is that of its neighbours', () => {
    for (const c of [-20, 0, 21, 60])
      for (const h of [0.05, 0.4, 0.8, 0.97]) {
        const near = (woodMoisturePct(c, h + 1e-6) - woodMoisturePct(c, h - 1e-6)) / 2e-6
        expect(woodMoistureSlopePct(c, h) / near).toBeCloseTo(1, 6)
      }
  })

  test('turned round it gives the humidity back, from any start', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 60, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (c, h, start) => {
          expect(woodHumidityFrac(c, woodMoisturePct(c, h), start)).toBeCloseTo(h, 6)
        },
      ),
      { seed: 11, numRuns: 2000 },
    )
    expect(woodHumidityFrac(10, 40)).toBe(0.995)
    expect(woodHumidityFrac(10, 0)).toBeCloseTo(0, 3)
    expect(() => woodMoisturePct(Number.NaN, 0.5)).toThrow('air/wood-range')
    expect(() => woodHumidityFrac(10, -1)).toThrow('air/wood-range')
  })

  test('the top follows through its film, the rest a hundred times slower; paint holds both off', () => {
    const floor = { topM: 0.002, thicknessM: 0.028, vapourResistanceRatio: 90, paintedRatio: 1 }
    const [film, air] = [2e-8, 1.97e-10]
    const top = floorTopKgPerM2SPa(floor, film, air)
    expect(1 / top - 1 / film).toBeCloseTo((0.001 * 90) / air, -3)
    expect(floorInnerKgPerM2SPa(floor, air) / top).toBeLessThan(0.11)
    expect(floorTopKgPerM2SPa({ ...floor, paintedRatio: 10 }, film, air)).toBeLessThan(top / 5)
    expect(() => floorInnerKgPerM2SPa({ ...floor, thicknessM: 0.001 }, air)).toThrow('air/floor-range')
  })
})

describe('what hangs and falls', () => {
  test('stages of the container handbook; frost holds, water over the threshold goes', () => {
    expect([0, 0.03, 0.1, 0.2, 0.4, 0.6, 0.9].map(sweatStage)).toEqual([0, 1, 2, 3, 4, 5, 6])
    expect([ROOF_HOLDS_KG_PER_M2, WALL_HOLDS_KG_PER_M2, DRIP_WARNING_KG_PER_M2]).toEqual([0.54, 0.12, 0.25])
    expect(fallsKgPerM2(0.6, 0.54)).toBeCloseTo(0.06, 12)
    expect(fallsKgPerM2(0.5, 0.54)).toBe(0)
    expect(nightsUntil(0.54, -1e-6, 36_000)).toBe(Number.POSITIVE_INFINITY)
    expect(() => sweatStage(Number.NaN)).toThrow('air/film-range')
  })

  test('frost: lighter the colder, within what was seen', () => {
    expect(frostKgPerM3(-1)).toBe(400)
    expect(frostKgPerM3(-5)).toBeCloseTo(650 * Math.exp(-1.385), 9)
    expect(frostKgPerM3(-30)).toBe(80)
    expect(frostWPerMK(100)).toBeCloseTo(0.1014, 3)
    expect(frostM(0.15, 100)).toBeCloseTo(0.0015, 12)
    expect(() => frostKgPerM3(1)).toThrow('air/frost-range')
    expect(() => thawS({ frostKgPerM2: 1, fromC: 1, netWPerM2: 1, sheetJPerM2K: 1, fusionJPerKg: 1, iceJPerKgK: 1 })).toThrow(
      'air/frost-range',
    )
  })

  test('sources, and the room they wet', () => {
    expect(waterSource('one person')).toEqual({ low: 50, high: 100, unit: 'g/h' })
    expect(WATER_SOURCES).toHaveLength(5)
    expect(steadyRatioKgPerKg(0.001, 1e-5, 0.01)).toBeCloseTo(0.002, 12)
    expect(() => steadyRatioKgPerKg(0.001, 1e-5, 0)).toThrow('air/room-range')
  })
})

describe('what grows and rusts', () => {
  const pine = mouldClass('very sensitive')
  test('in a standing climate pine reaches 1 in the printed weeks, and stays under its largest index', () => {
    let [index, hours] = [0, 0]
    while (index < 1) {
      index = mouldAfterHour(pine, index, 20, 97, 0, 1)
      hours++
    }
    // k₂ holds the start back by less than a hundredth.
    expect(hours / 168 / weeksToTraces(20, 97)).toBeCloseTo(1, 1)
    for (let h = 0; h < 40_000; h++) index = mouldAfterHour(pine, index, 20, 97, 0, 1)
    expect(index).toBeLessThanOrEqual(mostMould(pine, 20, 97))
    expect(index).toBeGreaterThan(mostMould(pine, 20, 97) - 0.1)
  })

  test('dry: it sinks for six hours, rests to a day, then sinks for good, never below nothing', () => {
    expect(mouldAfterHour(pine, 2, 20, 50, 3, 1)).toBeCloseTo(2 - 0.00133, 12)
    expect(mouldAfterHour(pine, 2, 20, 50, 12, 1)).toBe(2)
    expect(mouldAfterHour(pine, 2, 20, 50, 40, 0.5)).toBeCloseTo(2 - 0.0003335, 12)
    expect(mouldAfterHour(pine, 0.0001, 20, 50, 1, 1)).toBe(0)
  })

  test('nothing grows in frost or under the critical humidity; bare metal is slower than plywood', () => {
    expect(mouldGrows(pine, -1, 99)).toBe(false)
    expect(mouldGrows(pine, 5, 85)).toBe(false)
    expect(mouldGrows(pine, 5, 90)).toBe(true)
    expect(mostMould(pine, 20, 70)).toBe(0)
    const hour = (name: string) => mouldAfterHour(mouldClass(name), 0, 22, 97, 0, 1)
    expect(hour('resistant')).toBeLessThan(hour('sensitive'))
    expect(criticalHumidityPct(25, 85)).toBe(85)
    expect(() => weeksToTraces(0, 90)).toThrow('air/mould-range')
  })

  test('steel and zinc of ISO 9223, on both sides of 10 °C', () => {
    const at = (airC: number) => ({ airC, relativePct: 80, sulphurMgPerM2D: 10, chlorideMgPerM2D: 10 })
    expect(firstYearLossUm('steel', at(10))).toBeCloseTo(37.92, 1)
    // Without salt: 1.77·10^0.52·exp(1.6 + f), f = −0.54 at 20 °C and −1.5 at 0 °C.
    const bare = (airC: number) => firstYearLossUm('steel', { ...at(airC), chlorideMgPerM2D: 0 })
    expect(bare(20) / bare(10)).toBeCloseTo(Math.exp(-0.54), 9)
    expect(bare(0) / bare(10)).toBeCloseTo(Math.exp(-1.5), 9)
    expect(firstYearLossUm('zinc', at(10))).toBeCloseTo(
      0.0129 * 10 ** 0.44 * Math.exp(3.68) + 0.0175 * 10 ** 0.57 * Math.exp(0.64 + 0.85),
      9,
    )
    expect(corrosivity('steel', 37.92)).toBe('C3')
    expect(corrosivity('zinc', 0.05)).toBe('C1')
    expect(corrosivity('steel', 900)).toBe('CX')
    expect(wetnessClass(304)).toBe('tau3')
    expect(wetnessClass(1506)).toBe('tau3')
    expect(countsAsWet(-1, 0.9)).toBe(false)
    expect(countsAsWet(1, 0.81)).toBe(true)
    expect(() => wetnessClass(-1)).toThrow('air/wet-range')
    expect(() => firstYearLossUm('steel', at(Number.NaN))).toThrow('air/corrosion-range')
  })
})
