import { dayNumberD, Fault, isoDay, weekdayOf } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

/** Places whose holidays are known as rules; `none`: every weekday is worked. */
export const HOLIDAY_PLACES: readonly string[] = [...new Set<string>(tables.holidays.rows.map(([place]) => place)), 'none']

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

/**
 * Easter Sunday of the Gregorian calendar.
 * @source Anonymous Gregorian computus, as in Meeus, Astronomical Algorithms, 2nd ed., chapter 8. Provenance: memory
 */
export function easterD(year: number): number {
  if (!Number.isInteger(year) || year < 1583 || year > 4099) throw new Fault('dates/year-range', year)
  const a = year % 19
  const b = Math.floor(year / 100)
  const c = year % 100
  const d = Math.floor(b / 4)
  const e = b % 4
  const f = Math.floor((b + 8) / 25)
  const g = Math.floor((b - f + 1) / 3)
  const h = (19 * a + b - d - g + 15) % 30
  const i = Math.floor(c / 4)
  const k = c % 4
  const l = (32 + 2 * e + 2 * i - h - k) % 7
  const m = Math.floor((a + 11 * h + 22 * l) / 451)
  const month = Math.floor((h + l - 7 * m + 114) / 31)
  const day = ((h + l - 7 * m + 114) % 31) + 1
  return dayNumberD(`${year}-${two(month)}-${two(day)}`)
}

const two = (n: number): string => String(n).padStart(2, '0')

/** The day a rule names in a year: `12-25`, `Monday 3 of 01`, `Monday last of 05`, `Monday before 05-25`, `easter -2`. */
export function ruleD(rule: string, year: number): number {
  const fixed = /^(\d{2})-(\d{2})$/.exec(rule)
  if (fixed) return dayNumberD(`${year}-${rule}`)
  const easter = /^easter ([+-]\d+)$/.exec(rule)
  if (easter) return easterD(year) + Number(easter[1])
  const before = /^(\w+) before (\d{2}-\d{2})$/.exec(rule)
  if (before) {
    const limit = dayNumberD(`${year}-${before[2]}`) - 1
    return limit - ((weekdayOf(limit) - WEEKDAYS.indexOf(before[1]!) + 7) % 7)
  }
  const nth = /^(\w+) (\d|last) of (\d{2})$/.exec(rule)
  if (!nth) throw new Fault('dates/holiday-rule', rule)
  const wanted = WEEKDAYS.indexOf(nth[1]!)
  const first = dayNumberD(`${year}-${nth[3]}-01`)
  if (nth[2] !== 'last') return first + ((wanted - weekdayOf(first) + 7) % 7) + 7 * (Number(nth[2]) - 1)
  const next = nth[3] === '12' ? dayNumberD(`${year + 1}-01-01`) : dayNumberD(`${year}-${two(Number(nth[3]) + 1)}-01`)
  return next - 1 - ((weekdayOf(next - 1) - wanted + 7) % 7)
}

export interface Holiday {
  readonly date: string
  readonly name: string
}

/**
 * Days on which nobody works at a place, in a year, as they are kept: a holiday that falls on a weekend moves as its row says. A day
 * moved out of the year (New Year's Day kept on 31 December) belongs to the year it is kept in.
 * @throws Fault `dates/holiday-place`
 */
export function holidays(place: string, year: number): readonly Holiday[] {
  if (!HOLIDAY_PLACES.includes(place)) throw new Fault('dates/holiday-place', place)
  const kept = [year - 1, year, year + 1].flatMap((y) => keptIn(place, y))
  return kept.filter((h) => h.date.startsWith(`${year}-`)).toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
}

function keptIn(place: string, year: number): readonly Holiday[] {
  const rows = tables.holidays.rows.filter(([one]) => one === place)
  const taken = new Set(rows.map(([, , rule]) => ruleD(rule, year)).filter((day) => weekdayOf(day) < 5))
  return rows.map(([, name, rule, shift]) => {
    const day = ruleD(rule, year)
    if (weekdayOf(day) < 5 || shift === 'none') return { date: isoDay(day), name }
    if (shift === 'nearest') return { date: isoDay(weekdayOf(day) === 5 ? day - 1 : day + 1), name }
    let next = day + 1
    while (weekdayOf(next) > 4 || taken.has(next)) next += 1
    taken.add(next)
    return { date: isoDay(next), name }
  })
}
