import type { Budget } from './model.ts'

/** Σ of·x ≥ least, in whole numbers. */
export interface Row {
  readonly of: Float64Array
  readonly least: number
}

const CUTS_MOST = 12
const DIVISOR_MOST = 120
/** A cut that is missed by less than this is not worth a row. */
const LEAST_OFF = 0.02

/**
 * Rows that every whole plan meets and this fractional one does not: rows weighed by the fractions that a basic column of the simplex
 * method shows, summed, and both sides rounded up. The weights are read as fractions with a common divisor, so that the rounding is exact.
 * @source Gomory, Bulletin of the American Mathematical Society 64 (1958); Chvátal, Discrete Mathematics 4 (1973). Provenance: memory
 */
export function roundedCuts(
  rows: readonly Row[],
  times: Float64Array,
  weighings: readonly Float64Array[],
  budget: Budget,
): readonly Row[] {
  const found = new Map<string, { readonly cut: Row; readonly off: number }>()
  for (const weights of weighings)
    for (const sign of [1, -1]) {
      const parts = weights.map((w) => sign * w - Math.floor(sign * w + 1e-7))
      const divisor = commonDivisor(parts)
      if (divisor === null) continue
      const whole = parts.map((w) => Math.round(w * divisor))
      const of = times.map((_, p) => Math.ceil(rows.reduce((sum, row, r) => sum + whole[r]! * row.of[p]!, 0) / divisor))
      const least = Math.ceil(rows.reduce((sum, row, r) => sum + whole[r]! * row.least, 0) / divisor)
      const off = least - of.reduce((sum, n, p) => sum + n * times[p]!, 0)
      if (off > LEAST_OFF) found.set(of.join(), { cut: { of, least }, off })
      budget.left -= rows.length * times.length
    }
  return [...found.values()]
    .sort((a, b) => b.off - a.off)
    .slice(0, CUTS_MOST)
    .map(({ cut }) => cut)
}

/** The least number that makes whole numbers of all these fractions; null: it is too large. */
function commonDivisor(parts: Float64Array): number | null {
  for (let divisor = 2; divisor <= DIVISOR_MOST; divisor += 1)
    if (parts.every((w) => Math.abs(w * divisor - Math.round(w * divisor)) < 1e-6)) return divisor
  return null
}
