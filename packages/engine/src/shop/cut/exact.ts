import { power } from '../../kernel/index.ts'

/** Finest decimal place that is read. */
const PLACES_MOST = 6

/** Digits behind the point of a number as it is written; null: finer than a millionth, or not a number. */
export function decimalPlaces(value: number): number | null {
  for (let places = 0; places <= PLACES_MOST; places += 1) if (Number(value.toFixed(places)) === value) return places
  return null
}

/** Whole numbers for values written in decimals: each is `whole · unit` exactly. */
export interface Whole {
  /** Of any value of the list. */
  of(value: number): number
  /** The value of a whole number, as a person would write it. */
  value(whole: number): number
}

/**
 * The coarsest unit in which every value is a whole number: no comparison of lengths then depends on a last bit.
 * Null: a value is finer than a millionth.
 */
export function wholeNumbers(values: readonly number[]): Whole | null {
  const places = values.map(decimalPlaces)
  if (places.includes(null)) return null
  const factor = power(10, Math.max(0, ...places.map((n) => n ?? 0)))
  const raw = (value: number): number => Math.round(value * factor)
  const unit = values.reduce((divisor, value) => greatestDivisor(divisor, raw(value)), 0) || 1
  return { of: (value) => raw(value) / unit, value: (whole) => (whole * unit) / factor }
}

function greatestDivisor(a: number, b: number): number {
  let [x, y] = [a, b]
  while (y !== 0) [x, y] = [y, x % y]
  return x
}
