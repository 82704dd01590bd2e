import { isLeapYear } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'

export const DAY_H = 24

const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
const NAMES = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
] as const

type Calendar = Pick<WeatherHours, 'firstDay' | 'firstHour' | 'year' | 'hoursCount'>

const lengthD = (month: number, leap: boolean): number => (LENGTHS[month] ?? 31) + (leap && month === 1 ? 1 : 0)
/** A record, or hours of one, that keeps its 29 February: of a leap year, unless that day was left out of it. */
export const keepsLeapDay = (of: Calendar): boolean => of.year !== null && isLeapYear(of.year) && of.hoursCount !== 365 * DAY_H

/** Month (0 to 11), day of it and hour of the clock at so many hours after a run began. */
export function clockAt(of: Calendar, afterH: number): { readonly month: number; readonly day: number; readonly hourH: number } {
  const leap = keepsLeapDay(of)
  const year = leap ? 366 : 365
  const all = of.firstHour + afterH
  let day = (((of.firstDay - 1 + Math.floor(all / DAY_H)) % year) + year) % year
  let month = 0
  while (day >= lengthD(month, leap)) {
    day -= lengthD(month, leap)
    month += 1
  }
  return { month, day: day + 1, hourH: ((all % DAY_H) + DAY_H) % DAY_H }
}

/** “17 January, 06:00”. */
export function whenAt(of: Calendar, afterH: number): string {
  const { month, day, hourH } = clockAt(of, afterH)
  return `${day} ${NAMES[month]}, ${String(Math.floor(hourH)).padStart(2, '0')}:00`
}

/** Month of each hour of a run, 0 to 11. */
export function monthsOf(of: Calendar): Uint8Array {
  const months = new Uint8Array(of.hoursCount)
  for (let h = 0; h < months.length; h += 1)
    months[h] = h % DAY_H === 0 || (of.firstHour + h) % DAY_H === 0 ? clockAt(of, h).month : (months[h - 1] as number)
  return months
}

export interface Extreme {
  readonly value: number
  readonly atH: number
}

/** The largest, first of equals. */
export function most(values: ArrayLike<number>): Extreme {
  let at = 0
  for (let h = 1; h < values.length; h += 1) if ((values[h] as number) > (values[at] as number)) at = h
  return { value: values[at] ?? Number.NaN, atH: at }
}

export function least(values: ArrayLike<number>): Extreme {
  let at = 0
  for (let h = 1; h < values.length; h += 1) if ((values[h] as number) < (values[at] as number)) at = h
  return { value: values[at] ?? Number.NaN, atH: at }
}

/** Highest mean of 24 h in a row, and the hour at which it begins. A run shorter than that: its mean. */
export function highestDayMean(values: ArrayLike<number>): Extreme {
  const span = Math.min(DAY_H, values.length)
  let sum = 0
  for (let h = 0; h < span; h += 1) sum += values[h] as number
  let best = { value: sum / span, atH: 0 }
  for (let h = span; h < values.length; h += 1) {
    sum += (values[h] as number) - (values[h - span] as number)
    if (sum / span > best.value) best = { value: sum / span, atH: h - span + 1 }
  }
  return best
}

/** Lowest mean of 24 h in a row. */
export function lowestDayMean(values: ArrayLike<number>): Extreme {
  const { value, atH } = highestDayMean(Float64Array.from(values, (v) => -v))
  return { value: -value, atH }
}

export function meanOf(values: ArrayLike<number>): number {
  let sum = 0
  for (let h = 0; h < values.length; h += 1) sum += values[h] as number
  return sum / values.length
}

export function sumOf(values: ArrayLike<number>): number {
  let sum = 0
  for (let h = 0; h < values.length; h += 1) sum += values[h] as number
  return sum
}

/** Every sixth of a series of faces. */
export function faceOf(series: Float64Array, side: number): Float64Array {
  const own = new Float64Array(series.length / 6)
  for (let h = 0; h < own.length; h += 1) own[h] = series[h * 6 + side] as number
  return own
}

/** Plain numbers for a drawing: `scale` 10 keeps tenths. */
export function plain(values: ArrayLike<number>, scale: number, factor = 1, from = 0, to = values.length): readonly number[] {
  const out = new Array<number>(to - from)
  for (let h = from; h < to; h += 1) out[h - from] = Math.round((values[h] as number) * factor * scale) / scale || 0
  return out
}
