import { type Fitted, meanWeight } from './fit.ts'
import type { LogSensor } from './log.ts'
import { inverseOf, type Matrix, product, zeros } from './matrix.ts'
import { type Unknown, valueAt } from './unknown.ts'
import { weightedMean } from './weighing.ts'

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
 * What the log tells of each unknown, with a band of 95 %: J the slopes, H = JᵀWJ, band from H⁻¹·S·H⁻¹, and S the largest of three: the
 * spread of readings that stand alone; the same times (1 + ρ)/(1 − ρ) of each sensor, ρ the likeness of what is left from one hour to the
 * next, so that n readings count as n·(1 − ρ)/(1 + ρ); and the spread of the sums JᵀWr over whole days, the next two days counted in. A
 * sensor’s constant error comes in with its stated spread. An error of the run that returns every day can hide in what is found: the
 * second catches some of it, none of them all.
 * @source Newey and West, Econometrica 55 (1987) 703 (weights of neighbours); Liang and Zeger, Biometrika 73 (1986) 13 (sums by group); n·(1 − ρ)/(1 + ρ): Bayley and Hammersley, Supplement to J. Royal Statistical Society 8 (1946) 184. Provenance: memory
 */
export function toldUnknowns(fit: Fitted): readonly Told[] {
  const { unknowns } = fit
  const size = unknowns.length
  const normal = zeros(size)
  const within = zeros(size)
  const shared = zeros(size)
  const days = new Map<number, number[]>()
  const hanging = zeros(size)
  const count = fit.sensors.reduce((all, { weighing }) => all + weighing.weightCount, 0)
  for (const { paired, weighing, rests, slopes } of fit.sensors) {
    const { weights, weightCount, spread, accuracy } = weighing
    const even = 1 / (spread * spread)
    const shift = weightCount * meanWeight(weighing)
    const means = slopes.map((a) => weightedMean(a, weighing))
    const mean = weightedMean(rests, weighing)
    const own = zeros(size)
    // Rests as they pull: a far one no harder than its weight lets it.
    const pulls = rests.map((r, i) => (weights[i] as number) * (r - mean))
    let squares = 0
    for (let i = 0; i < rests.length; i++) {
      const day = Math.floor((paired.hours[i] as number) / 24)
      const sums = days.get(day) ?? new Array<number>(size).fill(0)
      days.set(day, sums)
      const rest = pulls[i] as number
      squares += rest * rest * even
      for (let k = 0; k < size; k++) {
        const a = (slopes[k]?.[i] as number) - (means[k] as number)
        sums[k] = (sums[k] as number) + even * a * rest
        for (let m = 0; m < size; m++) {
          const both = even * (weights[i] as number) * a * ((slopes[m]?.[i] as number) - (means[m] as number))
          ;(own[k] as number[])[m] = (own[k]?.[m] as number) + both
          ;(normal[k] as number[])[m] = (normal[k]?.[m] as number) + both
        }
      }
    }
    const left = (squares / Math.max(1, weightCount)) * (count / Math.max(1, count - size))
    const hang = hangingTogether(paired.hours, pulls, weights)
    for (let k = 0; k < size; k++)
      for (let m = 0; m < size; m++) {
        ;(within[k] as number[])[m] = (within[k]?.[m] as number) + left * (own[k]?.[m] as number)
        ;(hanging[k] as number[])[m] = (hanging[k]?.[m] as number) + left * hang * (own[k]?.[m] as number)
        const both = (means[k] as number) * (means[m] as number)
        ;(normal[k] as number[])[m] = (normal[k]?.[m] as number) + shift * both
        // Of a mean’s sum n·w·r̄: its spread is n²·w²·τ², the constant error alone.
        ;(shared[k] as number[])[m] = (shared[k]?.[m] as number) + shift * shift * accuracy * accuracy * both
      }
  }
  const inverse = inverseOf(normal)
  const bandOf = (spread: Matrix) => (inverse === null ? null : product(product(inverse, sum(spread, shared)), inverse))
  const plain = bandOf(within)
  const all = [plain, bandOf(hanging), bandOf(sandwichOf(days, size))]
  const t = studentT(days.size - size)
  return unknowns.map((unknown, k) => {
    const flat = Math.max(fit.ends[k]?.lowRatio ?? 0, fit.ends[k]?.highRatio ?? 0) - fit.restRatio < FLAT_RISE * fit.restRatio
    const variances = all.map((m) => m?.[k]?.[k] ?? Number.POSITIVE_INFINITY)
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
  if (at <= 0 || at >= 1)
    return `The fit ran to the ${at <= 0 ? 'low' : 'high'} end of its range: something else is wrong with the run, or with the log.`
  const value = valueAt(unknown, at)
  const high = valueAt(unknown, at + half)
  const wide = unknown.spread === 'ratio' ? high / value > unknown.toldWithin.value : high - value > unknown.toldWithin.value
  if (wide || !Number.isFinite(half)) return 'The log tells it too loosely to be of use.'
  return ''
}

/** A sensor that the run misses, after the fit, by more than it could read wrong. K or fraction. */
export interface Missed {
  readonly sensor: LogSensor
  /** Standing difference, and what comes and goes; logged less ours. */
  readonly mean: number
  readonly rms: number
}

/** In its own accuracy. */
const MISSED_MEAN = 3.5
const MISSED_SCATTER = 1.5

/**
 * Sensors whose readings the fitted run misses by more than their accuracy explains. Then something else of the box, its weather or the
 * sensor’s place is wrong, and every band is too narrow.
 */
export const missedSensors = (fit: Fitted): readonly Missed[] =>
  fit.sensors.flatMap(({ paired, rests, weighing }) => {
    const mean = weightedMean(rests, weighing)
    const squares = rests.reduce((sum, r, i) => sum + (weighing.weights[i] as number) * (r - mean) * (r - mean), 0)
    const rms = Math.sqrt(squares / Math.max(1, weighing.weightCount))
    const { sensor } = paired
    const missed = Math.abs(mean) > MISSED_MEAN * sensor.accuracy.value || rms > MISSED_SCATTER * sensor.accuracy.value
    return missed ? [{ sensor, mean, rms }] : []
  })

/** Beyond this likeness of one hour to the next a log says hardly anything more with each hour. */
const MOST_ALIKE = 0.99

/** (1 + ρ)/(1 − ρ), ρ the correlation of what is left from one hour to the next, both kept; 1 where it is not alike. */
export function hangingTogether(hours: Int32Array, rests: Float64Array, weights: Float64Array): number {
  let [own, next] = [0, 0]
  for (let i = 1; i < rests.length; i++) {
    if (hours[i] !== (hours[i - 1] as number) + 1 || weights[i] === 0 || weights[i - 1] === 0) continue
    const [a, b] = [rests[i - 1] as number, rests[i] as number]
    own += (a * a + b * b) / 2
    next += a * b
  }
  const alike = own > 0 ? Math.min(MOST_ALIKE, Math.max(0, next / own)) : 0
  return (1 + alike) / (1 - alike)
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
