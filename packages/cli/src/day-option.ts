import { isoOrNull } from '@plugstead/engine/kernel'
import type { Given } from './command-line.ts'
import { Unreadable } from './problem.ts'

/** The day of `--date` or `--today`, as the calendar has it; null without one. @throws Unreadable */
export function dayOption(given: Given, name: 'date' | 'today' = 'date'): string | null {
  const day = given.options[name]
  if (typeof day !== 'string') return null
  if (isoOrNull(day) === null)
    throw new Unreadable({
      ...{ code: 'command-line/value', found: `--${name} ${day}`, wanted: 'a day with its year, 2027-07-10' },
      mend: 'Write year, month and day with dashes.',
    })
  return day
}
