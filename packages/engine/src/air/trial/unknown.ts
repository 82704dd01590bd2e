import { exp, Fault, log } from '../../kernel/index.ts'

/** What a fit looks for: a stated quantity of the box between two ends, and where the search begins. */
export interface Unknown {
  readonly id: string
  /** Words: “leakage of the shell”. */
  readonly said: string
  /** Of `low`, `high` and what is found. */
  readonly unit: string
  /** `ratio`: it is known to a factor, and low is above 0. `even`: to a difference. */
  readonly spread: 'ratio' | 'even'
  readonly low: number
  readonly high: number
  readonly start: { readonly value: number }
  /** Half-width of its 95 % band beyond which it is not told: a factor for `ratio`, a difference for `even`. */
  readonly toldWithin: { readonly value: number }
}

/** Place between the ends, 0 to 1. @throws Fault `air/unknown-range` */
export function placeOf(unknown: Unknown, value: number): number {
  const { low, high, spread } = unknown
  if (!(high > low) || (spread === 'ratio' && !(low > 0)) || !(value >= low && value <= high))
    throw new Fault('air/unknown-range', { id: unknown.id, value })
  return spread === 'even' ? (value - low) / (high - low) : log(value / low) / log(high / low)
}

/** The value at a place; places beyond 0 and 1 lie outside the ends. */
export function valueAt(unknown: Unknown, place: number): number {
  const { low, high, spread } = unknown
  return spread === 'even' ? low + place * (high - low) : low * exp(place * log(high / low))
}
