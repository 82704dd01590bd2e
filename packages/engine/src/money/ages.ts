import type { Price } from '../parts/index.ts'
import type { AgedRow } from './result.ts'

const DAY_MS = 86_400_000

/** Rows that were used and are older on a day than the shop lets prices be, or that nobody dated; oldest first. A day is `2026-11-02`. */
export function agedRows(
  rows: readonly Pick<Price, 'id' | 'date'>[],
  { day, oldAfterDays }: { readonly day: string; readonly oldAfterDays: number },
): readonly AgedRow[] {
  return rows
    .map(({ id, date }): AgedRow => ({ id, date, days: date === '' ? null : daysFrom(date, day) }))
    .filter((row) => row.days === null || row.days > oldAfterDays)
    .toSorted((a, b) => (b.days ?? Infinity) - (a.days ?? Infinity) || (a.id < b.id ? -1 : 1))
}

/** Whole days between two dates without a clock: both are midnights of one meridian. */
export const daysFrom = (date: string, day: string): number => Math.round((Date.parse(day) - Date.parse(date)) / DAY_MS)

/** The day so many days after a day. */
export const dayAfterDays = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10)
