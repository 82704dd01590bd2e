import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Fault } from '../kernel/index.ts'
import {
  BERDAHL_MARTIN_CLOUDS,
  berdahlMartinFrac,
  blackWPerM2,
  brutsaertCloudedFrac,
  brutsaertFrac,
  clarkAllenCloudRatio,
  clarkAllenFrac,
  clarkAllenWPerM2,
  cloudedFrac,
  cloudOfClearnessFrac,
  fillCloudOfClearness,
  fixedSkyC,
  longWaveShares,
  saturationOverLiquidPa,
  skyC,
  swinbankC,
} from './index.ts'

const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (thrown) {
    return (thrown as Fault).code
  }
  return 'nothing thrown'
}

test('sky temperature undoes what a black body sends', () => {
  fc.assert(
    fc.property(fc.double({ min: -90, max: 60, noNaN: true }), (bodyC) => {
      expect(skyC(blackWPerM2(bodyC))).toBeCloseTo(bodyC, 9)
    }),
    { seed: 2 },
  )
  // σ·300⁴ = 459.3 W/m².
  expect(blackWPerM2(26.85)).toBeCloseTo(459.3, 1)
})

test('at freezing dew point the colder sky is some 6 K under the warmer one', () => {
  const sky = (frac: number) => skyC(frac * blackWPerM2(5))
  const colder = berdahlMartinFrac({ dewC: 0, midnightH: 6, pressurePa: 100_000 })
  expect(colder).toBeCloseTo(0.711, 6)
  const gap = sky(clarkAllenFrac(0)) - sky(colder)
  expect(gap).toBeGreaterThan(5)
  expect(gap).toBeLessThan(8)
})

test('four clear skies of a mild night lie within 20 K of each other, all under the air', () => {
  const vapourPa = saturationOverLiquidPa(5)
  const skies = [
    skyC(clarkAllenFrac(5) * blackWPerM2(12)),
    skyC(berdahlMartinFrac({ dewC: 5, midnightH: 0, pressurePa: 101_325 }) * blackWPerM2(12)),
    skyC(brutsaertFrac(12, vapourPa) * blackWPerM2(12)),
    swinbankC(12),
    fixedSkyC(12, 'temperate'),
  ]
  expect(Math.max(...skies)).toBeLessThan(12)
  expect(Math.max(...skies) - Math.min(...skies)).toBeLessThan(20)
})

test('cloud only warms the sky, and never past a black body', () => {
  for (let n = 0.1; n <= 1; n += 0.1) {
    expect(clarkAllenCloudRatio(n)).toBeGreaterThan(clarkAllenCloudRatio(n - 0.1))
    expect(brutsaertCloudedFrac(0.7, n)).toBeGreaterThan(brutsaertCloudedFrac(0.7, n - 0.1))
    expect(cloudedFrac(0.7, n, BERDAHL_MARTIN_CLOUDS.middle)).toBeGreaterThan(cloudedFrac(0.7, n - 0.1, 0.784))
  }
  expect(clarkAllenCloudRatio(0)).toBe(1)
  expect(cloudedFrac(0.7, 1, 1)).toBeCloseTo(1, 12)
  expect(clarkAllenWPerM2({ airC: 33, dewC: 32, cloudFrac: 1 })).toBeLessThanOrEqual(blackWPerM2(33))
})

test('what a plane sees sums to one: level only sky, a wall half ground, looking down only ground', () => {
  for (let c = -1; c <= 1; c += 0.05) {
    const { skyFrac, airFrac, groundFrac } = longWaveShares(c)
    expect(skyFrac + airFrac + groundFrac).toBeCloseTo(1, 12)
  }
  expect(longWaveShares(1)).toEqual({ skyFrac: 1, airFrac: 0, groundFrac: 0 })
  expect(longWaveShares(-1)).toEqual({ skyFrac: 0, airFrac: 0, groundFrac: 1 })
  expect(longWaveShares(0).skyFrac).toBeCloseTo(0.5 * Math.SQRT1_2, 12)
})

test('cloud from clearness: clear at 0.7, closed at 0.2, the last of the day held through the night', () => {
  expect([0.8, 0.7, 0.45, 0.2, 0].map(cloudOfClearnessFrac)).toEqual([0, 0, expect.closeTo(0.5, 12), 1, 1])
  const night = Number.NaN
  const cloud = new Float64Array(7)
  expect(fillCloudOfClearness(cloud, Float64Array.from([night, 0.2, 0.45, night, night, 0.7, night]))).toBe(true)
  expect([...cloud]).toEqual([1, 1, expect.closeTo(0.5, 12), expect.closeTo(0.5, 12), expect.closeTo(0.5, 12), 0, 0])
})

test('where no hour tells of the cloud it stays unknown', () => {
  const cloud = new Float64Array(3)
  expect(fillCloudOfClearness(cloud, new Float64Array(3).fill(Number.NaN))).toBe(false)
  expect([...cloud].every(Number.isNaN)).toBe(true)
})

test('numbers that are none, clouds of more than the whole sky and infrared under nothing are refused', () => {
  expect(codeOf(() => skyC(-1))).toBe('weather/sky-range')
  expect(codeOf(() => skyC(Number.NaN))).toBe('weather/sky-range')
  expect(codeOf(() => blackWPerM2(-300))).toBe('weather/sky-range')
  expect(codeOf(() => clarkAllenFrac(Number.NaN))).toBe('weather/sky-range')
  expect(codeOf(() => clarkAllenCloudRatio(1.2))).toBe('weather/cloud-range')
  expect(codeOf(() => brutsaertFrac(0, -1))).toBe('weather/sky-range')
  expect(codeOf(() => longWaveShares(1.01))).toBe('weather/plane-range')
})
