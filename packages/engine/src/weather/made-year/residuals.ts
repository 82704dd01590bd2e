import type { Draws } from './draws.ts'
import { amount, listOf } from './figures.ts'

type Three = readonly [number, number, number]
const row = (matrix: string, n: number): Three => listOf('daily-residuals', { matrix, row: n }, 'values') as unknown as Three
const A: readonly [Three, Three, Three] = [row('A', 1), row('A', 2), row('A', 3)]
const B: readonly [Three, Three, Three] = [row('B', 1), row('B', 2), row('B', 3)]
const M0: readonly [Three, Three, Three] = [row('M0', 1), row('M0', 2), row('M0', 3)]
const M1: readonly [Three, Three, Three] = [row('M1', 1), row('M1', 2), row('M1', 3)]

/** Spread and lag of the daily mean (half of highest and lowest) and of the range (their difference), in units of theirs. */
const MEAN_SPREAD = Math.sqrt((1 + M0[0][1]) / 2)
const RANGE_SPREAD = Math.sqrt(2 * (1 - M0[0][1]))
const RANGE_WITH_SUN = (M0[0][2] - M0[1][2]) / RANGE_SPREAD

/** Correlation of the daily mean with that of the day before: that of the published matrices. */
export const MEAN_MEMORY = (M1[0][0] + M1[0][1] + M1[1][0] + M1[1][1]) / 4 / ((1 + M0[0][1]) / 2)
/** Of the sun from day to day, and of the daily mean with the day's sun. */
export const SUN_MEMORY = M1[2][2]
export const MEAN_WITH_SUN = (M0[0][2] + M0[1][2]) / 2 / MEAN_SPREAD

/** Weight of yesterday's mean beside what the matrices give, and what keeps the spread 1. */
const CARRIED = amount('daily mean, memory beside the published')
const CARRIED_SPREAD = Math.sqrt((1 - CARRIED * CARRIED) * ((1 - CARRIED * MEAN_MEMORY) / (1 + CARRIED * MEAN_MEMORY)))

/** Covariance of the three innovations, B·Bᵀ. */
const cov = (i: number, j: number): number => {
  const [a, b] = [B[i] as Three, B[j] as Three]
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
const [S13, S23, S33] = [cov(0, 2), cov(1, 2), cov(2, 2)]
const [C11, C12, C22] = [cov(0, 0) - (S13 * S13) / S33, cov(0, 1) - (S13 * S23) / S33, cov(1, 1) - (S23 * S23) / S33]
const L11 = Math.sqrt(C11)
const L21 = C12 / L11
const L22 = Math.sqrt(C22 - L21 * L21)

export interface DailyResiduals {
  /** Of the daily mean, spread 1. */
  readonly mean: Float64Array
  /** Of the daily range, spread 1, what the sun of the day says taken out. */
  readonly range: Float64Array
}

/**
 * Residuals of highest and lowest temperature from day to day, given the residual of the sun that is drawn already:
 *
 *   x(i) = A·x(i−1) + u,   u = B·e; u₃ = x₃(i) − (A·x(i−1))₃ is known, u₁ and u₂ are drawn from their distribution given u₃
 *
 * Solving the third row for e₃ alone would leave highest and lowest without any tie to the day's sun, for B is triangular: e₃ stands in no other row.
 * @param sun the day's clearness less the month's, over its spread; 0 where there is none
 * @source Richardson 1981, Water Resources Research 17(1); Richardson & Wright 1984 (table `daily-residuals`)
 */
export function dailyResiduals(sun: Float64Array, draws: Draws): DailyResiduals {
  const mean = new Float64Array(sun.length)
  const range = new Float64Array(sun.length)
  let x1 = draws.normal()
  let x2 = M0[0][1] * x1 + Math.sqrt(1 - M0[0][1] * M0[0][1]) * draws.normal()
  let x3 = 0
  let carried = (x1 + x2) / 2 / MEAN_SPREAD
  const left = Math.sqrt(1 - RANGE_WITH_SUN * RANGE_WITH_SUN)
  for (let d = 0; d < sun.length; d++) {
    const now = sun[d] as number
    const known = (now - (A[2][0] * x1 + A[2][1] * x2 + A[2][2] * x3)) / S33
    const e1 = draws.normal()
    const e2 = draws.normal()
    const n1 = A[0][0] * x1 + A[0][1] * x2 + A[0][2] * x3 + S13 * known + L11 * e1
    const n2 = A[1][0] * x1 + A[1][1] * x2 + A[1][2] * x3 + S23 * known + L21 * e1 + L22 * e2
    x1 = n1
    x2 = n2
    x3 = now
    carried = CARRIED * carried + (CARRIED_SPREAD * (x1 + x2)) / 2 / MEAN_SPREAD
    mean[d] = carried
    range[d] = ((x1 - x2) / RANGE_SPREAD - RANGE_WITH_SUN * now) / left
  }
  return { mean, range }
}
