import psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import { type Fault, seeded } from '../kernel/index.ts'
import {
  airKgPerM3,
  dewOrFrostC,
  enthalpyJPerKg,
  humidityRatio,
  pressureAtPa,
  ratioOfWetBulb,
  relativeFrac,
  saturationPa,
  specificVolumeM3PerKg,
  vapourKgPerM3,
  vapourOfDewPa,
  vapourOfHumidityPa,
  vapourOfRatioPa,
  wetBulbC,
} from './index.ts'

const off = (ours: number, theirs: number) => Math.abs(ours - theirs) / Math.max(Math.abs(theirs), 1e-12)
const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (thrown) {
    return (thrown as Fault).code
  }
  return 'nothing thrown'
}

/** 10,000 states: −45 to 60 °C, 2 to 100 % over what stands there, 60 to 106 kPa; a third of them below freezing. */
function states() {
  const random = seeded(5)
  return Array.from({ length: 10_000 }, () => {
    const airC = random.between(-45, 60)
    const vapourPa = random.between(0.02, 1) * saturationPa(airC)
    return { airC, vapourPa, pressurePa: random.between(60_000, 106_000) }
  })
}

// PsychroLib 2.5.0 (npm psychrolib 1.1.1, MIT), after ASHRAE Fundamentals 2017 ch. 1. Its searches stop at 0.001 K; its humidity ratio
// never falls under 1e-7; below the triple point it means ice by every humidity.
describe('against psychrolib on 10,000 states, a third below freezing', () => {
  psychrolib.SetUnitSystem!(psychrolib.SI)
  const all = states()

  test('humidity ratio, vapour pressure, enthalpy, volume and density to 1e-9', () => {
    expect(all.filter(({ airC }) => airC < 0).length).toBeGreaterThan(3000)
    let [ratio, vapour, heat, volume, density] = [0, 0, 0, 0, 0]
    for (const { airC, vapourPa, pressurePa } of all) {
      const w = humidityRatio(vapourPa, pressurePa)
      ratio = Math.max(ratio, off(w, psychrolib.GetHumRatioFromVapPres!(vapourPa, pressurePa)))
      vapour = Math.max(vapour, off(vapourOfRatioPa(w, pressurePa), psychrolib.GetVapPresFromHumRatio!(w, pressurePa)))
      heat = Math.max(heat, Math.abs(enthalpyJPerKg(airC, w) - psychrolib.GetMoistAirEnthalpy!(airC, w)))
      const state = { airC, ratio: w, pressurePa }
      volume = Math.max(volume, off(specificVolumeM3PerKg(state), psychrolib.GetMoistAirVolume!(airC, w, pressurePa)))
      density = Math.max(density, off(airKgPerM3(state), psychrolib.GetMoistAirDensity!(airC, w, pressurePa)))
    }
    expect(Math.max(ratio, vapour, volume, density)).toBeLessThan(1e-9)
    // J/kg of some 10⁴.
    expect(heat).toBeLessThan(1e-6)
  })

  test('dew or frost point to 0.001 K, where psychrolib stops', () => {
    let worst = 0
    for (const { airC, vapourPa } of all) {
      worst = Math.max(worst, Math.abs(dewOrFrostC(vapourPa) - psychrolib.GetTDewPointFromVapPres!(airC, vapourPa)))
    }
    expect(worst).toBeLessThan(0.001)
  })

  test('relative humidity over ice below freezing as psychrolib; over liquid, as stations report it, up to 36 % less there', () => {
    let [worst, gap] = [0, 0]
    for (const { airC, vapourPa } of all) {
      const theirs = psychrolib.GetRelHumFromVapPres!(airC, vapourPa)
      // Between 0 and 0.01 °C psychrolib still means ice, 1e-4 less vapour.
      worst = Math.max(worst, off(relativeFrac({ airC, vapourPa, over: 'ice' }), theirs))
      if (airC < 0) gap = Math.max(gap, 1 - relativeFrac({ airC, vapourPa, over: 'liquid' }) / theirs)
    }
    expect(worst).toBeLessThan(1.1e-4)
    expect(gap).toBeGreaterThan(0.3)
    expect(gap).toBeLessThan(0.37)
  })

  test('wet bulb to 0.001 K; where a wet and a frozen wick both stand still, ours is wet and psychrolib’s may be either', () => {
    let [worst, doubtful] = [0, 0]
    for (const { airC, vapourPa, pressurePa } of all) {
      const ratio = humidityRatio(vapourPa, pressurePa)
      // psychrolib keeps every humidity ratio at 1e-7 or more.
      if (ratio < 2e-7) continue
      const ours = wetBulbC({ airC, ratio, pressurePa })
      const theirs = psychrolib.GetTWetBulbFromHumRatio!(airC, ratio, pressurePa)
      const frozenHolds = ratioOfWetBulb({ airC, wetC: -1e-9, pressurePa }) > ratio
      if (airC > 0 && ours >= 0 && frozenHolds) {
        doubtful += 1
        if (theirs < 0) continue
      }
      worst = Math.max(worst, Math.abs(ours - theirs))
    }
    expect(worst).toBeLessThan(0.001)
    expect(doubtful).toBeGreaterThan(50)
    expect(doubtful).toBeLessThan(1000)
  })

  test('pressure at altitude to a millipascal', () => {
    for (let z = -400; z < 11_000; z += 97) {
      expect(Math.abs(pressureAtPa(z) - psychrolib.GetStandardAtmPressure!(z))).toBeLessThan(1e-3)
    }
  })
})

describe('of itself', () => {
  test('humidity and dew point over liquid and over ice give back what they were made of', () => {
    for (const { airC, vapourPa } of states().slice(0, 1000))
      for (const over of ['liquid', 'ice'] as const) {
        const share = relativeFrac({ airC, vapourPa, over })
        expect(off(vapourOfHumidityPa({ airC, relativeFrac: share, over }), vapourPa)).toBeLessThan(1e-12)
      }
    expect(vapourOfDewPa({ dewC: -20, over: 'ice' })).toBeLessThan(vapourOfDewPa({ dewC: -20, over: 'liquid' }))
    expect(vapourOfDewPa({ dewC: 12, over: 'ice' })).toBe(vapourOfDewPa({ dewC: 12, over: 'liquid' }))
  })

  test('wet bulb lies between dew point and air, and is the air itself where it is saturated', () => {
    for (const { airC, vapourPa, pressurePa } of states().slice(0, 2000)) {
      const wet = wetBulbC({ airC, ratio: humidityRatio(vapourPa, pressurePa), pressurePa })
      expect(wet).toBeLessThanOrEqual(airC + 1e-9)
      expect(wet).toBeGreaterThanOrEqual(dewOrFrostC(vapourPa) - 1e-6)
    }
    for (const airC of [-30, -5, 5, 30]) {
      expect(wetBulbC({ airC, ratio: humidityRatio(saturationPa(airC), 90_000), pressurePa: 90_000 })).toBeCloseTo(airC, 3)
    }
  })

  test('vapour in a cubic metre is its share of the density', () => {
    const state = { airC: 21, ratio: 0.009, pressurePa: 92_000 }
    const byMass = (airKgPerM3(state) * state.ratio) / (1 + state.ratio)
    // Constants of vapour and air carry six digits.
    expect(off(vapourKgPerM3(21, vapourOfRatioPa(0.009, 92_000)), byMass)).toBeLessThan(1e-5)
  })

  test('more vapour than pressure, negative water and heights past the lowest air are refused', () => {
    expect(codeOf(() => humidityRatio(90_000, 1000))).toBe('weather/pressure-range')
    expect(codeOf(() => humidityRatio(Number.NaN, 1e5))).toBe('weather/pressure-range')
    expect(codeOf(() => vapourOfRatioPa(-0.001, 1e5))).toBe('weather/pressure-range')
    expect(codeOf(() => wetBulbC({ airC: 20, ratio: -1, pressurePa: 1e5 }))).toBe('weather/pressure-range')
    expect(codeOf(() => specificVolumeM3PerKg({ airC: -300, ratio: 0, pressurePa: 1e5 }))).toBe('weather/pressure-range')
    expect(codeOf(() => vapourOfHumidityPa({ airC: 20, relativeFrac: -0.1, over: 'ice' }))).toBe('weather/humidity-range')
    expect(codeOf(() => relativeFrac({ airC: 20, vapourPa: Number.NaN, over: 'ice' }))).toBe('weather/humidity-range')
    for (const z of [-501, 11_001, Number.NaN]) expect(codeOf(() => pressureAtPa(z))).toBe('weather/elevation-range')
  })
})
