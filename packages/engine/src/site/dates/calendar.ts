import { Fault, weekdayOf } from '../../kernel/index.ts'
import type { DaySpan } from './season.ts'

/**
 * How much of a day's work is done on each day from `baseD` on: 1 a full day, 0 none, between where a crew is booked for a part. Times are
 * days since 1 January 1970 with their fraction; work is counted from the first day.
 */
export interface Calendar {
  readonly name: string
  readonly baseD: number
  /** Work done before each day; one entry more than days. */
  readonly doneDays: Float64Array
}

export interface CalendarRules {
  readonly name: string
  readonly within: DaySpan
  /** Monday 0 … Sunday 6. */
  readonly weekdays: readonly number[]
  readonly free: ReadonlySet<number>
  readonly closed: readonly DaySpan[]
  /** Share of the crew that is booked elsewhere. */
  readonly booked?: readonly (DaySpan & { readonly shareFrac: number })[]
}

/** @throws Fault `dates/calendar-range` */
export function calendar(rules: CalendarRules): Calendar {
  const { fromD, toD } = rules.within
  const count = toD - fromD + 1
  if (!(Number.isInteger(count) && count > 0 && count < 40_000)) throw new Fault('dates/calendar-range', rules.within)
  const rate = new Float64Array(count)
  for (let i = 0; i < count; i += 1) {
    const day = fromD + i
    rate[i] = rules.weekdays.includes(weekdayOf(day)) && !rules.free.has(day) ? 1 : 0
  }
  for (const span of rules.closed)
    for (let d = Math.max(span.fromD, fromD); d <= Math.min(span.toD, toD); d += 1) rate[d - fromD] = 0
  for (const span of rules.booked ?? [])
    for (let d = Math.max(span.fromD, fromD); d <= Math.min(span.toD, toD); d += 1)
      rate[d - fromD] = Math.max(0, rate[d - fromD]! - span.shareFrac)
  const doneDays = new Float64Array(count + 1)
  for (let i = 0; i < count; i += 1) doneDays[i + 1] = doneDays[i]! + rate[i]!
  return { name: rules.name, baseD: fromD, doneDays }
}

/** Work done up to a moment. */
export function workAtDays(of: Calendar, atD: number): number {
  const t = atD - of.baseD
  const last = of.doneDays.length - 1
  if (t <= 0) return 0
  if (t >= last) return of.doneDays[last]!
  const day = Math.floor(t)
  return of.doneDays[day]! + (t - day) * (of.doneDays[day + 1]! - of.doneDays[day]!)
}

/** The first moment at which so much work is done; Infinity when the calendar ends before. */
export function reachedD(of: Calendar, workDays: number): number {
  const done = of.doneDays
  const last = done.length - 1
  if (workDays <= 0) return of.baseD
  if (workDays > done[last]! + EXACT) return Infinity
  let low = 0
  let high = last
  // done[low] < work ≤ done[high]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (done[middle]! < workDays - EXACT) low = middle
    else high = middle
  }
  return of.baseD + low + Math.min(1, (workDays - done[low]!) / (done[high]! - done[low]!))
}

/** The last moment at which no more than so much work is done: a start put off until then costs nothing. */
export function leftD(of: Calendar, workDays: number): number {
  const done = of.doneDays
  const last = done.length - 1
  if (workDays < -EXACT) return -Infinity
  if (workDays >= done[last]! - EXACT) return of.baseD + last
  let low = 0
  let high = last
  // done[low] ≤ work < done[high]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (done[middle]! <= workDays + EXACT) low = middle
    else high = middle
  }
  return of.baseD + low + Math.max(0, (workDays - done[low]!) / (done[high]! - done[low]!))
}

/** When work can begin: the moment itself, or the next morning on which any is done. */
export const beginsD = (of: Calendar, atD: number): number => Math.max(atD, leftD(of, workAtDays(of, atD)))

/** Sums of days differ in the last bits; no date hangs on them. */
const EXACT = 1e-9
