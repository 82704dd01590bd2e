import { Fault } from '../../kernel/index.ts'

export interface LetThrough {
  /** Plausible least and sure most, A²s. */
  readonly lowA2s: number
  readonly highA2s: number
  readonly basis: 'class 3 limit' | 'unlimited' | 'tested with its wire'
}

/**
 * Most a class 3 breaker lets through, A²s: `[family, up to rating, up to kA, limit]`.
 * @source EN 60898-1 Annex ZA, energy limiting class 3. Provenance: memory
 */
const CLASS_3: readonly (readonly [string, number, number, number])[] = [
  ['B', 16, 3, 15_000],
  ['B', 16, 6, 35_000],
  ['B', 16, 10, 70_000],
  ['B', 32, 3, 18_000],
  ['B', 32, 6, 45_000],
  ['B', 32, 10, 90_000],
  ['C', 16, 3, 17_000],
  ['C', 16, 6, 42_000],
  ['C', 16, 10, 84_000],
  ['C', 32, 3, 22_000],
  ['C', 32, 6, 55_000],
  ['C', 32, 10, 110_000],
]

/**
 * Joule integral a breaker lets through when its magnetic part opens it.
 *
 *   most: I²·t with t its slowest magnetic time, or the class limit where the family has one;  least: I² over half a cycle, and of a
 *   current-limiting one nothing, since its class says only the most
 *
 * @throws Fault `faults/withstand-range`
 */
export function letThrough(task: {
  readonly family: string
  readonly ratingA: number
  readonly currentA: number
  readonly magneticS: number
  readonly frequencyHz: number
}): LetThrough {
  const { family, ratingA, currentA, magneticS, frequencyHz } = task
  if (!(ratingA > 0 && currentA >= 0 && magneticS >= 0 && frequencyHz > 0)) throw new Fault('faults/withstand-range', task)
  const i2 = currentA * currentA
  const half = i2 / (2 * frequencyHz)
  const whole = i2 * Math.max(magneticS, 1 / (2 * frequencyHz))
  const curve = family === 'IEC 60898 B' ? 'B' : family === 'IEC 60898 C' ? 'C' : undefined
  const row = curve === undefined ? undefined : CLASS_3.find(([c, a, kA]) => c === curve && ratingA <= a && currentA <= kA * 1000)
  if (row !== undefined && row[3] < whole) return { lowA2s: 0, highA2s: row[3], basis: 'class 3 limit' }
  return { lowA2s: half, highA2s: whole, basis: 'unlimited' }
}
