import type { Given } from './command-line.ts'
import { Unreadable } from './problem.ts'

/** The day of `--date`, as the calendar has it; null without one. @throws Unreadable */
export function dayOption(given: Given): string | null {
  const day = given.options.date
  if (typeof day !== 'string') return null
  const at = /^\d{4}-\d{2}-\d{2}$/.test(day) ? new Date(`${day}T00:00:00Z`) : new Date(Number.NaN)
  if (Number.isNaN(at.getTime()) || !at.toISOString().startsWith(day))
    throw new Unreadable({
      ...{ code: 'command-line/date', found: `--date ${day}`, wanted: 'a day with its year, as 2027-07-10' },
      mend: 'Write year, month and day.',
    })
  return day
}
