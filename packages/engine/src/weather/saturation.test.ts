import fc from 'fast-check'
import psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import { type Fault, seeded } from '../kernel/index.ts'
import {
  dewC,
  dewOrFrostC,
  dewOrFrostCFast,
  frostC,
  saturationOverIcePa,
  saturationOverLiquidPa,
  saturationPa,
  saturationPaFast,
  saturationSlopePaPerK,
  saturationSlopePaPerKFast,
  TRIPLE_POINT_C,
} from './index.ts'

const off = (ours: number, theirs: number) => Math.abs(ours / theirs - 1)
const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (thrown) {
    return (thrown as Fault).code
  }
  return 'nothing thrown'
}
/** Every `step` kelvin between two temperatures. */
const between = (from: number, to: number, step: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step)

describe('saturation pressure', () => {
  // PsychroLib 2.5.0 (npm psychrolib 1.1.1, MIT): the same equations from another hand, with the machine's own logarithm.
  test('10,000 temperatures from −100 to 200 °C agree with psychrolib to 1e-12', () => {
    psychrolib.SetUnitSystem!(psychrolib.SI)
    const random = seeded(11)
    let worst = 0
    for (let i = 0; i < 10_000; i++) {
      const airC = random.between(-100, 200)
      worst = Math.max(worst, off(saturationPa(airC), psychrolib.GetSatVapPres!(airC)))
    }
    expect(worst).toBeLessThan(1e-12)
  })

  test('ice and liquid meet at the triple point: no step at 0 °C or 0.01 °C, in both forms', () => {
    expect(off(saturationOverIcePa(TRIPLE_POINT_C), saturationOverLiquidPa(TRIPLE_POINT_C))).toBeLessThan(1e-8)
    for (const form of [saturationPa, saturationPaFast])
      for (const at of [0, TRIPLE_POINT_C]) expect(off(form(at - 1e-9), form(at + 1e-9))).toBeLessThan(1e-8)
    // 611.657 Pa at the triple point: CIPM, ITS-90. Provenance: memory
    expect(saturationPa(TRIPLE_POINT_C)).toBeCloseTo(611.657, 2)
  })

  test('over supercooled water stands a fifth more than over ice at −20 °C, a third at −30 °C', () => {
    expect(saturationOverLiquidPa(-20) / saturationOverIcePa(-20)).toBeCloseTo(1.215, 2)
    expect(saturationOverLiquidPa(-30) / saturationOverIcePa(-30)).toBeCloseTo(1.34, 2)
  })

  test('the slope is that of the pressure itself, by differences of 0.01 K', () => {
    for (const airC of [...between(-99, -0.5, 0.37), ...between(0.5, 199, 0.73)]) {
      const byDifference = (saturationPa(airC + 0.005) - saturationPa(airC - 0.005)) / 0.01
      expect(off(saturationSlopePaPerK(airC), byDifference), String(airC)).toBeLessThan(1e-6)
    }
  })

  test('out of −100 to 200 °C, over ice in the warm, and what is no number are refused', () => {
    for (const airC of [-100.1, 200.1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(codeOf(() => saturationPa(airC))).toBe('weather/saturation-range')
      expect(codeOf(() => saturationSlopePaPerK(airC))).toBe('weather/saturation-range')
    }
    expect(codeOf(() => saturationOverIcePa(2))).toBe('weather/saturation-range')
    expect(saturationPa(-100)).toBeGreaterThan(0)
    expect(saturationPa(200)).toBeLessThan(1.6e6)
  })
})

describe('the fast form', () => {
  test('is within 1e-6 of the exact one from −99.9 to 150 °C, within 3e-8 from −40 °C up', () => {
    const worst = (from: number, to: number) =>
      Math.max(...between(from, to, 0.0137).map((airC) => off(saturationPaFast(airC), saturationPa(airC))))
    expect(worst(-99.9, 150)).toBeLessThan(1e-6)
    expect(worst(-40, 150)).toBeLessThan(3e-8)
  })

  test('its slope is within 1e-4 of the exact one, and everywhere rising', () => {
    for (const airC of between(-60, 149.9, 0.0731)) {
      const slope = saturationSlopePaPerKFast(airC)
      expect(slope).toBeGreaterThan(0)
      expect(off(slope, saturationSlopePaPerK(airC)), String(airC)).toBeLessThan(1e-4)
    }
  })

  test('refuses what lies outside its table', () => {
    for (const airC of [-99.95, 150.1, Number.NaN])
      for (const form of [saturationPaFast, saturationSlopePaPerKFast])
        expect(codeOf(() => form(airC))).toBe('weather/saturation-range')
    for (const pa of [0, 1e-4, 1e6, Number.NaN]) expect(codeOf(() => dewOrFrostCFast(pa))).toBe('weather/vapour-range')
  })
})

describe('dew and frost point', () => {
  test('undo saturation pressure to 1e-9 K, over liquid, over ice and on the right side of freezing', () => {
    fc.assert(
      fc.property(fc.double({ min: -95, max: 199, noNaN: true }), (airC) => {
        expect(Math.abs(dewC(saturationOverLiquidPa(airC)) - airC)).toBeLessThan(1e-9)
        expect(Math.abs(dewOrFrostC(saturationPa(airC)) - airC)).toBeLessThan(1e-6)
        if (airC < 0) expect(Math.abs(frostC(saturationOverIcePa(airC)) - airC)).toBeLessThan(1e-9)
        if (airC < 149) expect(Math.abs(dewOrFrostCFast(saturationPaFast(airC)) - airC)).toBeLessThan(1e-9)
      }),
      { seed: 3, numRuns: 2000 },
    )
  })

  test('frost settles before dew: the frost point lies above the dew point below freezing', () => {
    for (const pa of between(5, 600, 5)) expect(frostC(pa)).toBeGreaterThan(dewC(pa))
  })

  test('no vapour, more than can stand over ice, and no number are refused', () => {
    for (const pa of [0, -1, Number.NaN, 2e6]) expect(codeOf(() => dewC(pa))).toBe('weather/vapour-range')
    expect(codeOf(() => frostC(700))).toBe('weather/vapour-range')
    expect(codeOf(() => dewOrFrostC(Number.NaN))).toBe('weather/vapour-range')
  })
})
