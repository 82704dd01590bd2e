import type { Problem } from '../kernel/index.ts'

/** Most that is read: a job is a page or two; what is larger is not one. */
export const LIMIT_BYTES = 96_000
/** Deepest nesting of lists and maps: a job needs eight. */
export const LIMIT_DEPTH = 24
/** Most keys and values a document may hold. */
export const LIMIT_VALUES = 20_000
/** Most plugs in one job. */
export const LIMIT_PLUGS = 2_000
/** Version of the document that this program writes, and the highest it reads. */
export const JOB_VERSION = 1

type Words = Pick<Problem, 'found' | 'wanted' | 'mend'>

const cut = (text: string): string => (text.length > 60 ? `“${text.slice(0, 57)}…”` : `“${text}”`)

/** What a value looks like to a person: text in quotes, the rest by its kind. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return cut(value)
  if (value === null || value === undefined) return 'nothing'
  if (Array.isArray(value)) return `a list of ${value.length}`
  if (typeof value === 'object') return 'a group of keys'
  return `${value}`
}

/** Every reason for which a job document is refused. A code exists once; words are made here. */
export const PROBLEMS = {
  'job/empty': (): Words => ({
    found: 'nothing',
    wanted: 'a job document',
    mend: 'Start one with “plugstead new”, or write “plugstead: 1” as its first line.',
  }),
  'job/binary': (at: number): Words => ({
    found: `bytes that are not text (the first at byte ${at})`,
    wanted: 'text in UTF-8',
    mend: 'Save the document as plain text in UTF-8. Perhaps the wrong file was named.',
  }),
  'job/two-byte-text': (): Words => ({
    found: 'text in UTF-16, two bytes a letter',
    wanted: 'text in UTF-8',
    mend: 'Save it again as plain text and choose UTF-8 where the editor asks for the encoding: “Unicode” alone often means UTF-16.',
  }),
  'job/too-large': (bytes: number, mostBytes: number = LIMIT_BYTES): Words => ({
    found: `${(bytes / 1e6).toFixed(2)} MB`,
    wanted: `a document of at most ${mostBytes / 1000} kB`,
    mend: 'Keep photos and drawings beside the document and name them under “attachments”.',
  }),
  'job/too-deep': (): Words => ({
    found: `lists or maps nested more than ${LIMIT_DEPTH} deep`,
    wanted: `at most ${LIMIT_DEPTH} levels`,
    mend: 'Look at the brackets and the indentation of this line.',
  }),
  'job/too-many-values': (): Words => ({
    found: `more than ${LIMIT_VALUES} keys and values`,
    wanted: `at most ${LIMIT_VALUES}`,
    mend: 'Give alike machines one row with a “count”, or split the job.',
  }),
  'job/tab': (): Words => ({
    found: 'a tab before the first word of the line',
    wanted: 'spaces there',
    mend: 'Put two spaces for each step in: editors show a tab at different widths, so it says nothing of the step.',
  }),
  'job/not-yaml': (what: string): Words => ({
    found: what,
    wanted: 'YAML 1.2 or JSON',
    mend: 'Mend the punctuation or the indentation at this place. A file that was cut off ends like this.',
  }),
  'job/alias': (name: string): Words => ({
    found: `the alias ${cut(name)}`,
    wanted: 'values written out',
    mend: 'Write the value out where the alias stands: a job is read line by line by people.',
  }),
  'job/yaml-tag': (tag: string): Words => ({
    found: `the tag ${cut(tag)}`,
    wanted: 'plain text, numbers, lists and maps',
    mend: 'Take the tag (the word after “!”) away.',
  }),
  'job/yaml-directive': (what: string): Words => ({
    found: what,
    wanted: 'YAML 1.2 without directives',
    mend: 'Take the line that begins with “%” away: YAML 1.1 would read “no” and “12:30” as something else.',
  }),
  'job/several-documents': (): Words => ({
    found: 'a second document behind “---”',
    wanted: 'one job in a file',
    mend: 'Put the second job into a file of its own.',
  }),
  'job/text-runs-on': (text: string): Words => ({
    found: `text without quotes that runs on over the next line: ${cut(text.replace(/\s*\n\s*/g, ' / '))}`,
    wanted: 'text on one line, in quotes, or behind “>-”',
    mend: 'If the next line is meant to stand by itself, give it the indentation of its neighbours; else put the whole text in quotes.',
  }),
  'job/duplicate-key': (key: string): Words => ({
    found: `the key ${cut(key)} for the second time`,
    wanted: 'each key once',
    mend: 'Keep one of the two.',
  }),
  'job/key-kind': (): Words => ({
    found: 'a key that is not a plain word',
    wanted: 'a word followed by a colon',
    mend: 'Write the key as a word, without brackets or quotes.',
  }),
  'job/not-a-job': (first: string): Words => ({
    found: first,
    wanted: 'a job document: a map with the key “plugstead”',
    mend: 'This looks like another program’s file. A job begins with “plugstead: 1”.',
  }),
  'job/list': (first: string): Words => ({
    found: `lines with values between commas, such as ${cut(first)}`,
    wanted: 'a job document: a map with the key “plugstead”',
    mend: 'This looks like a list out of a spreadsheet. A price list is read by “plugstead prices”.',
  }),
  'job/newer-version': (found: string): Words => ({
    found: `version ${found}`,
    wanted: `version 1 to ${JOB_VERSION}`,
    mend: 'This job was saved by a later version of the program. Update it, or ask for an older save. The file was not changed.',
  }),
  'job/unknown-key': (key: string, near: string | null, known: readonly string[], empty = false): Words => ({
    found: `the key ${cut(key)}`,
    wanted: `one of: ${known.join(', ')}`,
    mend:
      near !== null
        ? `Did you mean “${near}”?`
        : empty
          ? 'If it is the rest of the text before it, put the whole text in quotes: between braces a comma ends a text.'
          : 'Take it away, or write it as a comment behind “#”.',
  }),
  'job/missing': (what: string): Words => ({
    found: 'nothing',
    wanted: what,
    mend: 'Write it; without it this part of the document cannot be read.',
  }),
  'job/wrong-kind': (value: unknown, wanted: string, mend: string): Words => ({ found: shown(value), wanted, mend }),
  'job/unit-missing': (value: unknown, wanted: string, mend: string): Words => ({
    found: `the bare number ${value}`,
    wanted,
    mend,
  }),
  'job/not-finite': (value: unknown): Words => ({
    found: `${value}`,
    wanted: 'a finite number',
    mend: 'Write a plain number with its unit, or take the line away if it is not known.',
  }),
  'job/odd-number': (written: string): Words => ({
    found: cut(written),
    wanted: 'a plain decimal number',
    mend: 'Write plain digits with a decimal point: leading zeros, 0x…, 0o… and exponents are read differently by different programs.',
  }),
  'job/out-of-range': (found: string, range: string): Words => ({
    found,
    wanted: range,
    mend: 'Look at the sign, the decimal point and the unit.',
  }),
  'job/not-a-choice': (found: string, near: string | null, all: readonly string[]): Words => ({
    found,
    wanted: `one of: ${all.join(', ')}`,
    mend: near === null ? 'Write one of these words.' : `Did you mean “${near}”?`,
  }),
  'job/window': (found: string): Words => ({
    found,
    wanted: 'two times of day, “10:30 to 16:30”, or “all day”',
    mend: 'Write hours and minutes of a 24-hour clock; an end before the start crosses midnight.',
  }),
  'job/clock': (found: string): Words => ({
    found,
    wanted: 'a time of day such as “16:30”',
    mend: 'Write hours and minutes of a 24-hour clock, in quotes if an editor changes it.',
  }),
  'job/date': (found: string): Words => ({
    found,
    wanted: 'a date with its year, “2027-11-01”',
    mend: 'Write year, month and day with dashes: a date without a year moves by a day in a leap year.',
  }),
  'job/year-day': (found: string): Words => ({
    found,
    wanted: 'a day of every year, “15 October”, or a date, “2027-10-15”',
    mend: 'Write the day, a blank and the month in full; 29 February is read as 28 February or 1 March in a year without it.',
  }),
  'job/tag-duplicate': (tag: string, first: string): Words => ({
    found: `the tag ${cut(tag)}, already taken by ${first}`,
    wanted: 'a tag of its own for each plug, box, offer and phase',
    mend: 'Give one of the two another tag.',
  }),
  'job/count-mismatch': (found: string, wanted: string): Words => ({
    found,
    wanted,
    mend: 'Give one value for all, or as many values as there are machines in the row.',
  }),
  'job/too-many-plugs': (count: number): Words => ({
    found: `${count} plugs`,
    wanted: `at most ${LIMIT_PLUGS} in one job`,
    mend: 'Look at “count”, or split the job.',
  }),
  'job/no-such': (found: string, what: string, near: string | null, all: readonly string[]): Words => ({
    found: cut(found),
    wanted:
      all.length === 0 ? `${what} (none is written)` : `${what}: ${all.slice(0, 12).join(', ')}${all.length > 12 ? ', …' : ''}`,
    mend: near === null ? `Write the name of ${what} as it stands in this document.` : `Did you mean “${near}”?`,
  }),
  'job/currency-mixed': (found: string, wanted: string): Words => ({
    found: `money in ${found}`,
    wanted: `one currency in a job; this one is in ${wanted}`,
    mend: 'Convert the figure, and say the rate in a comment.',
  }),
  'job/attachment-path': (found: string): Words => ({
    found: cut(found),
    wanted: 'a path below the folder of the job document',
    mend: 'Copy the file beside the job and write its relative path, with “/” between folders and without “..”.',
  }),
  'job/months': (found: string): Words => ({
    found: cut(found),
    wanted: 'months of the stay, counted from 1: “1 to 12”',
    mend: 'Write first and last month as whole numbers.',
  }),
  'job/phases-overlap': (found: string): Words => ({
    found,
    wanted: 'phases that follow each other',
    mend: 'Let each phase begin in the month after the one before ends.',
  }),
  'job/circle': (found: string): Words => ({
    found,
    wanted: 'boxes fed in a tree',
    mend: 'Let one of these boxes have a supply of its own.',
  }),
  'job/system-unknown': (found: string, near: string | null, all: readonly string[]): Words => ({
    found: cut(found),
    wanted: `one of: ${all.join('; ')}`,
    mend: near === null ? 'Write voltage, phases and wires as the supply’s plate has them.' : `Did you mean “${near}”?`,
  }),
} as const satisfies Record<string, (...args: never[]) => Words>

export type ProblemCode = keyof typeof PROBLEMS

/** A problem by its code, with the words the catalogue makes. */
export function problem<C extends ProblemCode>(code: C, ...args: Parameters<(typeof PROBLEMS)[C]>): Problem {
  const words = PROBLEMS[code] as (...all: Parameters<(typeof PROBLEMS)[C]>) => Words
  return { code, ...words(...args) }
}

/** The known word that is nearest to a mistyped one; null when none is near. Edit distance ≤ a third of its length, at least 1. */
export function nearest(word: string, known: readonly string[]): string | null {
  const lower = word.toLowerCase().replaceAll('_', '-').slice(0, 60)
  let best: string | null = null
  let least = Math.max(1, Math.floor(lower.length / 3)) + 1
  for (const candidate of known) {
    const far = editDistance(lower, candidate.toLowerCase(), least)
    if (far < least) {
      least = far
      best = candidate
    }
  }
  return best
}

/** Letters to change, insert, drop or swap; `limit` or more is returned as `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit
  let before: number[] = []
  let above = Array.from({ length: b.length + 1 }, (_, i) => i)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      let cost = Math.min(
        (above[j] as number) + 1,
        (row[j - 1] as number) + 1,
        (above[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1),
      )
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] as number) + 1)
      row.push(cost)
    }
    before = above
    above = row
  }
  return Math.min(above[b.length] as number, limit)
}
