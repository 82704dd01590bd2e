import type { Problem } from '../../kernel/index.ts'

type Words = Pick<Problem, 'found' | 'wanted' | 'mend'>

const cut = (text: string): string => (text.length > 60 ? `“${text.slice(0, 57)}…”` : `“${text}”`)

/** Every reason for which a logger’s file or its mapping is refused. A code exists once. */
export const LOG_PROBLEMS = {
  'log/empty': (): Words => ({
    found: 'nothing',
    wanted: 'a logger’s list: a line of headings, then one line for each reading',
    mend: 'Export the log again as CSV. Perhaps the logger was never started.',
  }),
  'log/not-a-log': (what: string): Words => ({
    found: what,
    wanted: 'a logger’s list: a line of headings, then one line for each reading',
    mend: 'This looks like another kind of file. Choose the list that the logger exported; in the terminal it goes under --measured, weather under --weather, the job first.',
  }),
  'log/no-heading': (first: string): Words => ({
    found: `no line, among the first 60, with a heading for the time and one for a sensor; the first is ${cut(first)}`,
    wanted: 'headings such as “time, air high (C), roof (C), humidity (%)”',
    mend: 'Write the headings into the file, or name the columns in a mapping (docs/air-trial.md).',
  }),
  'log/column-absent': (name: string, there: readonly string[]): Words => ({
    found: `no column headed ${cut(name)}`,
    wanted: `one of: ${there.join(', ')}`,
    mend: 'Write the heading in the mapping as it stands in the file.',
  }),
  'log/unit-unknown': (heading: string): Words => ({
    found: `the heading ${cut(heading)} without a unit`,
    wanted: 'C, F or % in brackets: “roof (C)”',
    mend: 'Add the unit to the heading, or write “unit: C” for this column in the mapping. It is never guessed.',
  }),
  'log/unit-wrong': (heading: string, unit: string): Words => ({
    found: `the unit ${cut(unit)} in the heading ${cut(heading)}`,
    wanted: 'C or F for a temperature, % for humidity',
    mend: 'Name the unit it is written in, or give the column another place in the mapping.',
  }),
  'log/twice': (name: string): Words => ({
    found: `two sensors called ${cut(name)}`,
    wanted: 'a name of its own for each sensor',
    mend: 'Number them: “roof 1 (C)”, “roof 2 (C)”.',
  }),
  'log/day-order': (stamp: string): Words => ({
    found: `the day in ${cut(stamp)}, which can be read in two ways`,
    wanted: 'a day that can be read in one way: 2027-02-01',
    mend: 'Export it year first, or write “dates: day first” or “dates: month first” under “time” in the mapping.',
  }),
  'log/time': (stamp: string): Words => ({
    found: stamp === '' ? 'no time' : `${cut(stamp)}, which is no day and time`,
    wanted: 'a day and a time: 2027-02-01 13:10, or 2027-02-01T13:10-09:00',
    mend: 'Mend the line, or take it away. Notes of the logger belong above the headings.',
  }),
  'log/time-back': (stamp: string, before: string): Words => ({
    found: `${cut(stamp)}, which is not after the line before it (${cut(before)})`,
    wanted: 'one reading after the other',
    mend: 'A clock that was set back for winter does this. Log in standard time or with the zone in the stamp; else take the hour that stands twice away.',
  }),
  'log/number': (heading: string, cell: string): Words => ({
    found: `${cut(cell)} in the column ${cut(heading)}`,
    wanted: 'a number, or nothing where there was no reading',
    mend: 'Mend the cell or empty it. A number that stands for “no reading” is named under “missing” in the mapping.',
  }),
  'log/range': (heading: string, count: number, of: number, example: string): Words => ({
    found: `${count} of ${of} readings of ${cut(heading)} that cannot be, such as ${example}`,
    wanted: 'temperatures of −90 to 120 °C, humidity of 0 to 105 %',
    mend: 'Look whether the unit is right. A number that stands for “no reading” is named under “missing” in the mapping.',
  }),
  'log/step': (step: string): Words => ({
    found: `readings ${step} apart`,
    wanted: '1 to 60 minutes apart',
    mend: 'Set the logger to 10 minutes, or mean the list to minutes first.',
  }),
  'log/short': (hours: number): Words => ({
    found: `${hours} hours of readings`,
    wanted: 'at least 24 hours, for a fit at least 5 days',
    mend: 'Log longer. Two weeks with sun, cloud and a cold night tell most.',
  }),
  'log/many': (more: number): Words => ({
    found: `${more} more lines with the same kinds of trouble`,
    wanted: 'a list without them',
    mend: 'Mend the first ones and read it again.',
  }),
  'log/mapping': (what: string, wanted: string): Words => ({
    found: what,
    wanted,
    mend: 'The keys of a mapping stand in docs/air-trial.md.',
  }),
  'log/apart': (log: string, weather: string): Words => ({
    found: `a log of ${log}, and weather of ${weather}`,
    wanted: 'weather of the hours in which the log was kept',
    mend: 'Fetch the observed weather of those days. A typical or made year tells what is usual, not what was.',
  }),
} as const

export type LogProblemCode = keyof typeof LOG_PROBLEMS

/** One problem with its place. */
export function logProblem<C extends LogProblemCode>(
  code: C,
  place: { readonly line?: number; readonly path?: string },
  ...args: Parameters<(typeof LOG_PROBLEMS)[C]>
): Problem {
  const words = LOG_PROBLEMS[code] as (...given: unknown[]) => Words
  return { code, ...place, ...words(...args) }
}
