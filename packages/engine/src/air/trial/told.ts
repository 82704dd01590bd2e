import type { Fitted } from './fit.ts'
import { meanOf, meanWeight } from './fit.ts'
import { inverseOf, type Matrix, product, zeros } from './matrix.ts'
import { type Unknown, valueAt } from './unknown.ts'

/** One unknown as the log tells it, or does not. */
export interface Told {
  readonly unknown: Unknown
  readonly value: number
  /** Ends of its 95 % band; beyond the ends of the search they are cut there. */
  readonly low: number
  readonly high: number
  readonly told: boolean
  /** In a sentence; empty where it is told. */
  readonly why: string
  /** Of the readings that bear on it, as many as if each stood alone. */
  readonly effectiveCount: number
  /** The unknown it can hardly be told from, and how closely both go together; null: none. */
  readonly with: { readonly id: string; readonly correlationRatio: number } | null
}

/** Whole days that the band needs: their sums are what is taken as independent. */
export const LEAST_DAYS = 5
/** Two unknowns that go together more closely than this are said to be told only together. */
const TOGETHER = 0.95
/** Rise of the misfit, in its own measure, from the best to an end below which the curve is called flat. */
const FLAT_RISE = 0.02

/**
 * What the log tells of each unknown, with a band of 95 %: J the slopes, H = JᵀWJ, band from H⁻¹·S·H⁻¹. S is the spread of the sums
 * JᵀWr over whole days, neighbours counted in with half weight: readings that hang together for hours or a day count as the few they
 * are worth. A sensor’s constant error comes in with its stated spread. The larger of this and the plain H⁻¹ is told.
 * @source Newey and West, Econometrica 55 (1987) 703 (weights of neighbours); Liang and Zeger, Biometrika 73 (1986) 13 (sums by group). Provenance: memory
 */
export function toldUnknowns(fit: Fitted): readonly Told[] {
  const { unknowns } = fit
  const size = unknowns.length
  const normal = zeros(size)
  const within = zeros(size)
  const shared = zeros(size)
  const days = new Map<number, number[]>()
  let squares = 0
  let count = 0
  for (const { paired, spread, rests, slopes } of fit.sensors) {
    const n = rests.length
    const even = 1 / (spread.value * spread.value)
    const accuracy = paired.sensor.accuracy.value
    const weight = meanWeight(n, spread.value, accuracy)
    const means = slopes.map(meanOf)
    const mean = meanOf(rests)
    for (let i = 0; i < n; i++) {
      const day = Math.floor((paired.hours[i] as number) / 24)
      const sums = days.get(day) ?? new Array<number>(size).fill(0)
      days.set(day, sums)
      const rest = (rests[i] as number) - mean
      squares += rest * rest * even
      count += 1
      for (let k = 0; k < size; k++) {
        const a = (slopes[k]?.[i] as number) - (means[k] as number)
        sums[k] = (sums[k] as number) + even * a * rest
        for (let m = 0; m < size; m++) {
          const both = even * a * ((slopes[m]?.[i] as number) - (means[m] as number))
          ;(within[k] as number[])[m] = (within[k]?.[m] as number) + both
          ;(normal[k] as number[])[m] = (normal[k]?.[m] as number) + both
        }
      }
    }
    for (let k = 0; k < size; k++)
      for (let m = 0; m < size; m++) {
        const both = (means[k] as number) * (means[m] as number)
        ;(normal[k] as number[])[m] = (normal[k]?.[m] as number) + n * weight * both
        // Of a mean’s sum n·w·r̄: its spread is n²·w²·τ², the constant error alone.
        ;(shared[k] as number[])[m] = (shared[k]?.[m] as number) + n * n * weight * weight * accuracy * accuracy * both
      }
  }
  const inverse = inverseOf(normal)
  const scale = squares / Math.max(1, count - size)
  const spreadOfDays = sandwichOf(days, size)
  const plain = inverse === null ? null : product(product(inverse, sum(scaled(within, scale), shared)), inverse)
  const robust = inverse === null ? null : product(product(inverse, sum(spreadOfDays, shared)), inverse)
  const t = studentT(days.size - size)
  return unknowns.map((unknown, k) => {
    const flat = Math.max(fit.ends[k]?.lowRatio ?? 0, fit.ends[k]?.highRatio ?? 0) - fit.restRatio < FLAT_RISE * fit.restRatio
    const variances = [plain, robust].map((m) => m?.[k]?.[k] ?? Number.POSITIVE_INFINITY)
    const half = t * Math.sqrt(Math.max(...variances))
    const at = fit.places[k] as number
    const low = valueAt(unknown, Math.max(0, at - half))
    const high = valueAt(unknown, Math.min(1, at + half))
    const pair = inverse === null ? null : closest(inverse, k)
    const told = judged(unknown, { at, half, flat, days: days.size })
    return {
      unknown,
      value: fit.values[k] as number,
      low,
      high,
      told: told === '',
      why: told,
      effectiveCount: count * Math.min(1, (plain?.[k]?.[k] ?? 0) / Math.max(...variances)),
      with:
        pair === null || pair.correlationRatio < TOGETHER
          ? null
          : { id: unknowns[pair.m]?.id ?? '', correlationRatio: pair.correlationRatio },
    }
  })
}

function judged(
  unknown: Unknown,
  { at, half, flat, days }: { readonly at: number; readonly half: number; readonly flat: boolean; readonly days: number },
): string {
  if (days < LEAST_DAYS) return `${days} days of readings: at least ${LEAST_DAYS} are needed.`
  if (flat) return 'The curve is flat: from one end of its range to the other the run fits the log as well.'
  const value = valueAt(unknown, at)
  const high = valueAt(unknown, at + half)
  const wide = unknown.spread === 'ratio' ? high / value > unknown.toldWithin.value : high - value > unknown.toldWithin.value
  if (wide || !Number.isFinite(half)) return 'The log tells it too loosely to be of use.'
  if (at <= 0 || at >= 1)
    return `The fit ran to the ${at <= 0 ? 'low' : 'high'} end of its range: something else is wrong with the run, or with the log.`
  return ''
}

/** Σ over days of g·gᵀ, with the next two days at two thirds and one third, scaled for the few days there are. */
function sandwichOf(days: ReadonlyMap<number, readonly number[]>, size: number): Matrix {
  const out = zeros(size)
  const few = days.size / Math.max(1, days.size - 1)
  for (const [day, own] of days)
    for (const [lag, weight] of [1, 2 / 3, 1 / 3].entries()) {
      const other = days.get(day + lag)
      if (other === undefined) continue
      for (let k = 0; k < size; k++)
        for (let m = 0; m < size; m++) {
          const both =
            lag === 0
              ? (own[k] as number) * (own[m] as number)
              : (own[k] as number) * (other[m] as number) + (other[k] as number) * (own[m] as number)
          ;(out[k] as number[])[m] = (out[k]?.[m] as number) + few * weight * both
        }
    }
  return out
}

const scaled = (a: Matrix, by: number): Matrix => a.map((row) => row.map((v) => v * by))
const sum = (a: Matrix, b: Matrix): Matrix => a.map((row, i) => row.map((v, j) => v + (b[i]?.[j] as number)))

function closest(inverse: Matrix, k: number): { readonly m: number; readonly correlationRatio: number } | null {
  let best: { m: number; correlationRatio: number } | null = null
  for (let m = 0; m < inverse.length; m++) {
    if (m === k) continue
    const ratio = Math.abs(inverse[k]?.[m] as number) / Math.sqrt((inverse[k]?.[k] as number) * (inverse[m]?.[m] as number))
    if (best === null || ratio > best.correlationRatio) best = { m, correlationRatio: ratio }
  }
  return best
}

/**
 * Half-width of 95 % of a mean of few, in its standard deviations: 1.960 + 2.372/ν + 2.82/ν² + 2.6/ν³, within 1 % from ν = 3 up.
 * @source Abramowitz and Stegun 26.7.5, at 97.5 %. Provenance: memory; tried against the table in the test
 */
export function studentT(freeCount: number): number {
  const v = Math.max(1, freeCount)
  return 1.95996 + 2.37227 / v + 2.8225 / (v * v) + 2.55585 / (v * v * v)
}
