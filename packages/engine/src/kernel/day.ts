import { Fault } from './fault.ts'

const DAY_MS = 86_400_000

/** Days since 1 January 1970 of a calendar day in ISO 8601, `2028-02-29`. @throws Fault `kernel/no-day` */
export function dayNumberD(iso: string): number {
  if (isoOrNull(iso) === null) throw new Fault('kernel/no-day', iso)
  return Math.round(Date.UTC(Number(iso.slice(0, 4)), Number(iso.slice(5, 7)) - 1, Number(iso.slice(8, 10))) / DAY_MS)
}

/** The calendar day of a whole number of days since 1 January 1970. @throws Fault `kernel/no-day` */
export function isoDay(dayD: number): string {
  if (!Number.isInteger(dayD) || Math.abs(dayD) > 3_000_000) throw new Fault('kernel/no-day', dayD)
  return new Date(dayD * DAY_MS).toISOString().slice(0, 10)
}

/** Monday 0 … Sunday 6. */
export const weekdayOf = (dayD: number): number => (((dayD + 3) % 7) + 7) % 7

export const yearOf = (dayD: number): number => Number(isoDay(dayD).slice(0, 4))

export const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0

/** The text when it is a real ISO date, else null: a job may name its day in words. */
export function isoOrNull(text: string | null): string | null {
  const match = text === null ? null : /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  if (text === null || match === null) return null
  const at = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]))
  return Number(match[1]) >= 100 && new Date(at).toISOString().slice(0, 10) === text ? text : null
}

/** An ISO date a whole number of days on; a part of a day counts whole. */
export const plusDays = (date: string, days: number): string => isoDay(dayNumberD(date) + Math.ceil(days))

/** Days from one ISO date to another; negative when it lies before. */
export const daysBetween = (from: string, to: string): number => dayNumberD(to) - dayNumberD(from)
