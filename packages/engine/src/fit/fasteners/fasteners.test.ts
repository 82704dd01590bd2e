import { describe, expect, test } from 'vitest'
import { ecBolt, ecBoltBearing } from './bolt.ts'
import { ecScrewBearing, screwPullOut, screwShear, sheetBearing, sheetPullOver } from './screw.ts'
import { fillet, weldToLay } from './weld.ts'

const sheet = { dMm: 4.83, t1Mm: 1.6, t2Mm: 1.6, fu1MPa: 480, fu2MPa: 360 }

describe('screws, AISI S100', () => {
  test('a thick far sheet stops the tilting; between, on a line; never weaker for a thicker sheet', () => {
    const at = (t2Mm: number) => screwShear({ ...sheet, t2Mm })
    expect(at(1.6).nominalN).toBeCloseTo(Math.min(4.2 * Math.sqrt(1.6 ** 3 * 4.83) * 360, 2.7 * 1.6 * 4.83 * 360), 6)
    expect(at(4).tiltingN).toBeNull()
    expect(at(4).nominalN).toBeCloseTo(2.7 * 1.6 * 4.83 * 480, 6)
    const middle = at(1.6 * 1.75)
    const bearing = Math.min(2.7 * 1.6 * 4.83 * 480, 2.7 * 2.8 * 4.83 * 360)
    const thin = Math.min(4.2 * Math.sqrt(2.8 ** 3 * 4.83) * 360, bearing)
    expect(middle.nominalN).toBeCloseTo((thin + bearing) / 2, 6)
    let last = 0
    for (let t = 0.5; t < 6; t += 0.1) {
      expect(at(t).nominalN).toBeGreaterThanOrEqual(last - 1e-9)
      last = at(t).nominalN
    }
    expect(at(2).allowedN).toBeCloseTo(at(2).nominalN / 3, 9)
  })
  test('pull-out 0.85, pull-over 1.5 with a washer of 19 mm at most, bearing 2.7: all over three', () => {
    expect(screwPullOut({ dMm: 5.49, tMm: 2, fuMPa: 400 }).allowedN).toBeCloseTo((0.85 * 2 * 5.49 * 400) / 3, 9)
    expect(sheetPullOver({ washerMm: 12, tMm: 2, fuMPa: 400 }).allowedN).toBeCloseTo((1.5 * 2 * 12 * 400) / 3, 9)
    expect(sheetPullOver({ washerMm: 50, tMm: 2, fuMPa: 400 })).toEqual(sheetPullOver({ washerMm: 19, tMm: 2, fuMPa: 400 }))
    expect(sheetBearing({ dMm: 10, tMm: 2, fuMPa: 400 }).allowedN).toBeCloseTo((2.7 * 2 * 10 * 400) / 3, 9)
  })
  test('what is not above nought is a fault', () => {
    for (const bad of [{ dMm: 0 }, { t2Mm: Number.NaN }, { fu1MPa: -1 }])
      expect(() => screwShear({ ...sheet, ...bad })).toThrow('fit/fastener-range')
    expect(() => sheetPullOver({ washerMm: 0, tMm: 1, fuMPa: 1 })).toThrow('fit/fastener-range')
  })
})

describe('Eurocode', () => {
  test('screw bearing: the slope up to 2.1, and 2.1 on a far sheet 2.5 times as thick unless the near one is under 1 mm', () => {
    const at = (tMm: number, t1Mm: number) => ecScrewBearing({ dMm: 5.5, tMm, t1Mm, fuMPa: 480 }).alpha
    expect(at(1.6, 1.6)).toBeCloseTo(3.2 * Math.sqrt(1.6 / 5.5), 9)
    expect(at(3, 3)).toBe(2.1)
    expect(at(1.6, 4)).toBe(2.1)
    expect(at(0.8, 4)).toBeCloseTo(3.2 * Math.sqrt(0.8 / 5.5), 9)
    expect(at(1.6, 2.8)).toBeCloseTo((3.2 * Math.sqrt(1.6 / 5.5) + 2.1) / 2, 9)
  })
  test('bolt bearing: end distance and thin sheet', () => {
    const at = (over: object) => ecBoltBearing({ dMm: 10, tMm: 2, endMm: 40, fuMPa: 480, ...over })
    expect(at({}).alphaB).toBe(1)
    expect(at({ endMm: 15 }).alphaB).toBeCloseTo(0.5, 9)
    expect(at({ tMm: 1 }).kt).toBeCloseTo(0.92, 9)
    expect(at({ tMm: 1.25 }).kt).toBeCloseTo(1, 9)
    expect(() => at({ tMm: 0.7 })).toThrow('fit/fastener-range')
    expect(() => ecBolt({ areaMm2: 58, fubMPa: 400, dmMm: 0, plateMm: 2, fuMPa: 480 })).toThrow('fit/fastener-range')
  })
  test('weld: what is laid carries the force when its ends count nothing, and a shorter one does not', () => {
    for (const designForceN of [0, 900, 7000]) {
      const { runMm, perMmN, throatMm } = weldToLay({ designForceN, thinnerMm: 1.9, runs: 2 })
      expect(throatMm).toBeCloseTo(1.33, 9)
      expect(2 * (runMm - 2 * throatMm) * perMmN).toBeCloseTo(designForceN, 6)
      expect(perMmN).toBeCloseTo((360 / (Math.sqrt(3) * 0.8 * 1.25)) * 1.33, 9)
    }
    expect(() => weldToLay({ designForceN: -1, thinnerMm: 2, runs: 2 })).toThrow('fit/fastener-range')
    expect(() => fillet({ fuMPa: 0, bw: 0.8, throatMm: 3 })).toThrow('fit/fastener-range')
  })
})
