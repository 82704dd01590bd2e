import { isoOrNull } from '@plugstead/engine/kernel'
import type { Given } from './command-line.ts'
import { Unreadable } from './problem.ts'

/**
 * The day in `--today`; absent when nobody gave one.
 * @throws Unreadable when it is no day
 */
export function todayOf(given: Given): string | undefined {
  const { today } = given.options
  if (typeof today !== 'string') return undefined
  if (isoOrNull(today) !== null) return today
  throw new Unreadable({
    ...{ code: 'command-line/value', found: `--today ${today}`, wanted: 'a day with its year, 2027-07-10' },
    mend: 'Write year, month and day with dashes.',
  })
}
