import { expect, test } from 'vitest'
import { drawsOf } from './draws.ts'
import { dailyResiduals, MEAN_MEMORY } from './residuals.ts'
import { correlation, lagOne } from './statistics.fixture.ts'

const DAYS = 60_000

/** A sun of its own memory, spread 1. */
function sunOf(seed: number): Float64Array {
  const draws = drawsOf(seed).clearness
  const out = new Float64Array(DAYS)
  let x = draws.normal()
  for (let d = 0; d < DAYS; d++) {
    x = 0.25 * x + Math.sqrt(1 - 0.25 * 0.25) * draws.normal()
    out[d] = x
  }
  return out
}
const spread = (of: Float64Array) => Math.sqrt(of.reduce((sum, v) => sum + v * v, 0) / of.length)

test('residuals have spread 1, the memory of the matrices and what is carried, and the sun taken out as the correlations say', () => {
  const sun = sunOf(3)
  const { mean, range } = dailyResiduals(sun, drawsOf(4).temperature)
  expect(spread(mean)).toBeCloseTo(1, 1)
  expect(spread(range)).toBeCloseTo(1, 1)
  // Two memories in a row, 0.705 and 0.2: (a + b)/(1 + a·b).
  expect(lagOne(mean)).toBeCloseTo((MEAN_MEMORY + 0.2) / (1 + MEAN_MEMORY * 0.2), 1)
  expect(Math.abs(correlation(mean, sun))).toBeLessThan(0.03)
  expect(Math.abs(correlation(range, sun))).toBeLessThan(0.03)
})

test('normal draws have mean 0 and spread 1, and each part its own stream', () => {
  const { wind, cloud } = drawsOf(1)
  const [a, b] = [new Float64Array(DAYS), new Float64Array(DAYS)]
  for (let i = 0; i < DAYS; i++) {
    a[i] = wind.normal()
    b[i] = cloud.normal()
  }
  expect(Math.abs(a.reduce((x, y) => x + y, 0) / DAYS)).toBeLessThan(0.02)
  expect(spread(a)).toBeCloseTo(1, 2)
  expect(Math.abs(correlation(a, b))).toBeLessThan(0.015)
  // Beyond two spreads: 4.55 % of a normal distribution.
  expect(a.filter((v) => Math.abs(v) > 2).length / DAYS).toBeCloseTo(0.0455, 2)
})
