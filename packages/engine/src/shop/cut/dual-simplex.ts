import type { Budget } from './model.ts'
import type { Row } from './rounded-cuts.ts'

/** How often each column is taken; or, where nothing within the limit is found, one weight a row that shows why: to be proven. */
type Answer =
  | { readonly times: Float64Array; readonly weights: null; readonly weighings: () => readonly Float64Array[] }
  | { readonly times: null; readonly weights: readonly number[] }

const SMALL = 1e-9

/**
 * Least Σ cost·x, every row met, x ≥ 0, for costs that are not negative; ends as soon as the cost passes `limit`. Null: it went astray.
 * Weights where nothing meets the rows: those of the last basis and enough of the row that cannot be met to pass twice the limit.
 * @source Lemke, The dual method of solving the linear programming problem, Naval Research Logistics Quarterly 1 (1954). Provenance: memory
 */
export function dualSimplex(cost: Float64Array, rows: readonly Row[], limit: number, budget: Budget): Answer | null {
  const [m, n] = [rows.length, cost.length]
  const w = n + 1
  // basic[r] = table[r][n] + Σ table[r][k]·free[k]; columns 0 … n-1, slacks n … n+m-1.
  const table = new Float64Array((m + 1) * w)
  rows.forEach((row, r) => {
    for (let p = 0; p < n; p += 1) table[r * w + p] = row.of[p]!
    table[r * w + n] = -row.least
  })
  table.set(cost, m * w)
  const free = Int32Array.from({ length: n }, (_, p) => p)
  const basic = Int32Array.from({ length: m }, (_, r) => n + r)
  const weightsOf = (): number[] => {
    const weights = new Array<number>(m).fill(0)
    free.forEach((v, k) => {
      if (v >= n) weights[v - n] = table[m * w + k]!
    })
    return weights
  }
  for (let pivots = 0; pivots <= 20 * (m + n); pivots += 1) {
    budget.left -= (m + 1) * w
    let out = -1
    for (let r = 0; r < m; r += 1) if (table[r * w + n]! < (out < 0 ? -1e-7 : table[out * w + n]! - SMALL)) out = r
    const value = table[m * w + n]!
    if (value > limit + 1e-6 * Math.max(1, limit)) return { times: null, weights: weightsOf() }
    if (out < 0) return { times: timesOf(), weights: null, weighings }
    let enter = -1
    for (let k = 0; k < n; k += 1) {
      const at = table[out * w + k]!
      if (at <= SMALL) continue
      const ratio = table[m * w + k]! / at
      const best = enter < 0 ? Number.POSITIVE_INFINITY : table[m * w + enter]! / table[out * w + enter]!
      if (ratio < best - SMALL || (ratio < best + SMALL && enter >= 0 && at > table[out * w + enter]! + SMALL)) enter = k
    }
    if (enter < 0) {
      const weights = weightsOf()
      const by = (3 * Math.max(1, limit)) / -table[out * w + n]!
      free.forEach((v, k) => {
        if (v >= n) weights[v - n] = weights[v - n]! - by * table[out * w + k]!
      })
      if (basic[out]! >= n) weights[basic[out]! - n] = weights[basic[out]! - n]! + by
      return { times: null, weights }
    }
    turn(out, enter)
  }
  return null

  function timesOf(): Float64Array {
    const times = new Float64Array(n)
    basic.forEach((v, r) => {
      if (v < n) times[v] = table[r * w + n]!
    })
    return times
  }

  /** Of every column that is not taken a whole number of times: what of each row's slack is in it. */
  function weighings(): readonly Float64Array[] {
    return [...basic.keys()].flatMap((r) => {
      const x = table[r * w + n]!
      if (basic[r]! >= n || Math.abs(x - Math.round(x)) < 1e-6) return []
      const weights = new Float64Array(m)
      free.forEach((v, k) => {
        if (v >= n) weights[v - n] = -table[r * w + k]!
      })
      return [weights]
    })
  }

  function turn(out: number, enter: number): void {
    const at = table[out * w + enter]!
    const o = out * w
    // free[enter] = (basic[out] − the rest of its row) / at
    for (let k = 0; k <= n; k += 1) table[o + k] = -table[o + k]! / at
    table[o + enter] = 1 / at
    for (let r = 0; r <= m; r += 1) {
      const factor = r === out ? 0 : table[r * w + enter]!
      if (factor === 0) continue
      table[r * w + enter] = 0
      for (let k = 0; k <= n; k += 1) table[r * w + k] = table[r * w + k]! + factor * table[o + k]!
    }
    ;[basic[out], free[enter]] = [free[enter]!, basic[out]!]
  }
}
