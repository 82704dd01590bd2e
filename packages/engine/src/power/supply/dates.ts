import { Fault } from '../../kernel/index.ts'

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const
const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
const daysIn = (year: number, month: number): number => (DAYS_IN_MONTH[month - 1] ?? 0) + (month === 2 && isLeap(year) ? 1 : 0)

/**
 * Days from 1 January of year 1 (Gregorian, day 0) to an ISO date. No clock, no time zone.
 * @throws Fault `supply/date` for anything that is not a real `YYYY-MM-DD`
 */
export function dayNumber(date: string): number {
  if (isoOrNull(date) === null) throw new Fault('supply/date', date)
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number)
  const before = year - 1
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400)
  return before * 365 + leapDays + (DAYS_BEFORE_MONTH[month - 1] ?? 0) + (month > 2 && isLeap(year) ? 1 : 0) + day - 1
}

/** The text when it is a real ISO date, else null: a job may name its day in words. */
export function isoOrNull(text: string | null): string | null {
  if (text === null) return null
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  const [year, month, day] = match ? [Number(match[1]), Number(match[2]), Number(match[3])] : [0, 0, 0]
  return year >= 1 && month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month) ? text : null
}

export function isoDate(days: number): string {
  let year = Math.floor(days / 366) + 1
  while (dayNumber(`${pad(year + 1, 4)}-01-01`) <= days) year++
  let rest = days - dayNumber(`${pad(year, 4)}-01-01`)
  let month = 1
  while (rest >= daysIn(year, month)) rest -= daysIn(year, month++)
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(rest + 1, 2)}`
}

/** An ISO date a whole number of days on; a part of a day counts whole. */
export const plusDays = (date: string, days: number): string => isoDate(dayNumber(date) + Math.ceil(days))

/** Days from one ISO date to another; negative when it lies before. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from)

const pad = (value: number, width: number): string => String(value).padStart(width, '0')
