import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Fault } from '../kernel/index.ts'
import { beamOfGlobalWPerM2, clearnessFrac, diffuseFrac, globalOfCloudWPerM2, LEAST_UP_RATIO } from './index.ts'

const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (thrown) {
    return (thrown as Fault).code
  }
  return 'nothing thrown'
}

test('the three pieces of the split meet to half a thousandth, and clearer air has less sky light', () => {
  for (const joint of [0.22, 0.8]) expect(Math.abs(diffuseFrac(joint) - diffuseFrac(joint + 1e-9))).toBeLessThan(5e-4)
  expect(diffuseFrac(0)).toBe(1)
  expect(diffuseFrac(1)).toBe(0.165)
  for (let k = 0.01; k < 1; k += 0.01) expect(diffuseFrac(k)).toBeLessThanOrEqual(diffuseFrac(k - 0.01) + 5e-4)
})

test('beam and sky make the global again; the beam is never more than outside the air, nor negative', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1200, noNaN: true }), fc.double({ min: -0.2, max: 1, noNaN: true }), (global, up) => {
      const beam = beamOfGlobalWPerM2(global, 1361, up)
      const diffuse = global - beam * Math.max(0, up)
      expect(beam).toBeGreaterThanOrEqual(0)
      expect(beam).toBeLessThanOrEqual(1361)
      expect(diffuse).toBeGreaterThanOrEqual(-1e-9)
      if (up < LEAST_UP_RATIO) expect(beam).toBe(0)
      else expect(diffuse).toBeGreaterThanOrEqual(0.164 * global)
    }),
    { seed: 4, numRuns: 2000 },
  )
})

test('cloud to sun: nothing with the sun near the horizon, a quarter under a closed sky', () => {
  expect(globalOfCloudWPerM2(-0.3, 0)).toBe(0)
  expect(globalOfCloudWPerM2(0.03, 0.5)).toBe(0)
  expect(globalOfCloudWPerM2(1, 0)).toBe(880)
  expect(globalOfCloudWPerM2(1, 1)).toBeCloseTo(220, 9)
  // Half covered: 1 − 0.75·0.5^3.4.
  expect(globalOfCloudWPerM2(0.5, 0.5) / globalOfCloudWPerM2(0.5, 0)).toBeCloseTo(1 - 0.75 * 0.5 ** 3.4, 12)
})

test('negative light, no light outside and clouds of more than the whole sky are refused', () => {
  expect(codeOf(() => diffuseFrac(-0.1))).toBe('weather/clearness-range')
  expect(codeOf(() => clearnessFrac(-5, 1361, 0.5))).toBe('weather/light-range')
  expect(codeOf(() => beamOfGlobalWPerM2(500, 0, 0.5))).toBe('weather/light-range')
  expect(codeOf(() => beamOfGlobalWPerM2(Number.NaN, 1361, 0.5))).toBe('weather/light-range')
  expect(codeOf(() => globalOfCloudWPerM2(0.5, 1.1))).toBe('weather/cloud-range')
  expect(clearnessFrac(300, 1361, -0.1)).toBe(0)
})
