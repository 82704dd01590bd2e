import { Fault } from '../../kernel/index.ts'
import type { Months } from '../normals.ts'

/** The made year has no 29 February and no number. */
export const DAYS = 365
export const HOURS = 8760
export const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/** Month, 0 to 11, of each day of the year from 0. */
export const MONTH_OF_DAY: readonly number[] = MONTH_DAYS.flatMap((days, m) => Array<number>(days).fill(m))
/** Day of the year, from 0, that each month begins on. */
export const FIRST_OF_MONTH: readonly number[] = MONTH_DAYS.map((_, m) => MONTH_OF_DAY.indexOf(m))
const MIDDLE_D = MONTH_DAYS.map((days, m) => (FIRST_OF_MONTH[m] as number) + days / 2)

/** Means over the months of 365 values, or of 8760. */
export function monthMeans(values: Float64Array): number[] {
  const each = values.length / DAYS
  if (!Number.isInteger(each)) throw new Fault('weather/year-length', values.length)
  return MONTH_DAYS.map((days, m) => {
    const from = (FIRST_OF_MONTH[m] as number) * each
    let sum = 0
    for (let i = from; i < from + days * each; i++) sum += values[i] as number
    return sum / (days * each)
  })
}

/** Straight from mid-month to mid-month, December on into January. A value a day. */
export function straightCurve(months: Months): Float64Array {
  const out = new Float64Array(DAYS)
  for (let d = 0; d < DAYS; d++) {
    const m = MONTH_OF_DAY[d] as number
    const before = d + 0.5 < (MIDDLE_D[m] as number) ? (m + 11) % 12 : m
    const after = (before + 1) % 12
    const from = MIDDLE_D[before] as number
    const span = after === 0 ? (MIDDLE_D[0] as number) + DAYS - from : (MIDDLE_D[after] as number) - from
    const f = (((d + 0.5 - from + DAYS) % DAYS) as number) / span
    out[d] = (1 - f) * (months[before] as number) + f * (months[after] as number)
  }
  return out
}

/**
 * A smooth curve through the year, a value a day, whose mean over each month is exactly the one given: a cubic through twelve mid-month
 * values (slope at each: that between its neighbours), which are solved for so that the means come out. It runs over and under the means
 * near peaks, as a season does.
 * @throws Fault `weather/no-months`
 */
export function meanKeepingCurve(means: Months): Float64Array {
  if (means.length !== 12 || !means.every(Number.isFinite)) throw new Fault('weather/no-months', means)
  kept ??= keeping()
  const out = new Float64Array(DAYS)
  for (let d = 0; d < DAYS; d++) {
    let sum = 0
    for (let m = 0; m < 12; m++) sum += (kept[12 * d + m] as number) * (means[m] as number)
    out[d] = sum
  }
  return out
}
let kept: Float64Array | undefined

/** Day by month: what a unit mean of one month alone gives on each day. */
function keeping(): Float64Array {
  const unit = Array.from({ length: 12 }, (_, m) => cubic(m))
  const means = unit.map(monthMeans)
  // Columns of `means` are months of the nodes: solve Σ node·means = the wanted month alone.
  const nodes = Array.from({ length: 12 }, (_, wanted) =>
    solved(
      Array.from({ length: 12 }, (_, month) => means.map((of) => of[month] as number)),
      Array.from({ length: 12 }, (_, month) => (month === wanted ? 1 : 0)),
    ),
  )
  const out = new Float64Array(DAYS * 12)
  for (let d = 0; d < DAYS; d++)
    for (let wanted = 0; wanted < 12; wanted++) {
      let sum = 0
      for (let n = 0; n < 12; n++) sum += (nodes[wanted]?.[n] as number) * (unit[n]?.[d] as number)
      out[12 * d + wanted] = sum
    }
  return out
}

/** The cubic with the value 1 in the middle of month `one` and 0 in the middle of the others. */
function cubic(one: number): Float64Array {
  const out = new Float64Array(DAYS)
  const at = (m: number) => (MIDDLE_D[((m % 12) + 12) % 12] as number) + DAYS * Math.floor(m / 12)
  const value = (m: number) => (((m % 12) + 12) % 12 === one ? 1 : 0)
  const slope = (m: number) => (value(m + 1) - value(m - 1)) / (at(m + 1) - at(m - 1))
  for (let d = 0; d < DAYS; d++) {
    const x = d + 0.5
    const month = MONTH_OF_DAY[d] as number
    const m = x < at(month) ? month - 1 : month
    const h = at(m + 1) - at(m)
    const u = (x - at(m)) / h
    const v = 1 - u
    out[d] = v * v * (1 + 2 * u) * value(m) + u * u * (1 + 2 * v) * value(m + 1) + h * u * v * (v * slope(m) - u * slope(m + 1))
  }
  return out
}

/** Gauss with pivots, for the one 12 by 12 system above. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length
  const a = matrix.map((row, i) => [...row, right[i] as number])
  for (let c = 0; c < n; c++) {
    let best = c
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r]?.[c] as number) > Math.abs(a[best]?.[c] as number)) best = r
    const row = a[best] as number[]
    a[best] = a[c] as number[]
    a[c] = row
    for (let r = 0; r < n; r++) {
      if (r === c) continue
      const other = a[r] as number[]
      const f = (other[c] as number) / (row[c] as number)
      for (let k = c; k <= n; k++) other[k] = (other[k] as number) - f * (row[k] as number)
    }
  }
  return a.map((row, i) => (row[n] as number) / (row[i] as number))
}
