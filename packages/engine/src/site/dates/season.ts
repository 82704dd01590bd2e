import { MONTH_LAST, type YearDay } from '../../job/index.ts'
import { dayNumberD, Fault, isLeapYear, yearOf } from '../../kernel/index.ts'

export { MONTH_LAST, MONTH_NAMES as MONTHS, type YearDay, yearDay } from '../../job/index.ts'

/** The day in a year. `end`: the last day of something, so that 29 February falls back. */
export function inYearD(of: YearDay, year: number, end = false): number {
  if (of.month === 2 && of.day === 29 && !isLeapYear(year)) return dayNumberD(end ? `${year}-02-28` : `${year}-03-01`)
  return dayNumberD(`${year}-${two(of.month)}-${two(of.day)}`)
}

const two = (n: number): string => String(n).padStart(2, '0')

/** The first such day on or after another. */
export function nextD(of: YearDay, fromD: number): number {
  const here = inYearD(of, yearOf(fromD))
  return here >= fromD ? here : inYearD(of, yearOf(fromD) + 1)
}

/** Both days belong to it. */
export interface DaySpan {
  readonly fromD: number
  readonly toD: number
}

/**
 * Every time between two days in which a season of the year falls, first and last day inclusive. A season whose last day stands before its
 * first runs over new year.
 * @throws Fault `dates/span`
 */
export function yearly(from: YearDay, to: YearDay, within: DaySpan): readonly DaySpan[] {
  if (!(within.fromD <= within.toD)) throw new Fault('dates/span', within)
  const over = to.month < from.month || (to.month === from.month && to.day < from.day)
  const spans: DaySpan[] = []
  for (let year = yearOf(within.fromD) - 1; year <= yearOf(within.toD); year += 1) {
    const span = { fromD: inYearD(from, year), toD: inYearD(to, over ? year + 1 : year, true) }
    if (span.toD >= span.fromD && span.toD >= within.fromD && span.fromD <= within.toD)
      spans.push({ fromD: Math.max(span.fromD, within.fromD), toD: Math.min(span.toD, within.toD) })
  }
  return spans
}

export const dayBefore = (of: YearDay): YearDay =>
  of.day > 1
    ? { month: of.month, day: of.day - 1 }
    : { month: of.month === 1 ? 12 : of.month - 1, day: MONTH_LAST[(of.month + 10) % 12]! }

export const dayAfter = (of: YearDay): YearDay =>
  of.day < MONTH_LAST[of.month - 1]!
    ? { month: of.month, day: of.day + 1 }
    : { month: of.month === 12 ? 1 : of.month + 1, day: 1 }
