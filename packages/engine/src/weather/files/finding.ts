import type { Finding, Verdict } from '../../kernel/index.ts'

/** Above this share of the rows that were judged the record is not what it says; below, they are named and it serves. Common practice. */
const FAILS_FRAC = 0.25

export const rowsVerdict = (bad: number, judged: number): Verdict => (bad > FAILS_FRAC * judged ? 'fails' : 'tight')

/** Something that does not hold in a weather file, with where it stands. */
export const weatherFinding = (code: `weather/${string}`, verdict: Verdict, said: string): Finding => ({
  code,
  question: 'air',
  subject: 'weather file',
  verdict,
  basis: 'physics',
  said,
  provenance: 'common practice',
  assumed: [],
  workings: [],
  mends: [],
})

const SHOWN = 8

/** “lines 3, 17 and 40”, “lines 3, 4, 5, …, 12 (200 in all)”. */
export function linesText(lines: readonly number[]): string {
  const known = lines.filter((line) => line > 0)
  if (known.length === 0) return 'no line of its own'
  if (known.length === 1) return `line ${known[0]}`
  if (known.length <= SHOWN) return `lines ${known.slice(0, -1).join(', ')} and ${known[known.length - 1]}`
  return `lines ${known.slice(0, SHOWN - 1).join(', ')}, …, ${known[known.length - 1]} (${known.length} in all)`
}

/** “lines 3 to 40”, “lines 3 to 40 and 61 to 90”: each run of hours that is marked, by the lines it begins and ends with. */
export function spansText(lineOf: Int32Array, marked: (hour: number) => boolean): string {
  const spans: string[] = []
  for (let from = 0; from < lineOf.length; from++) {
    if (!marked(from)) continue
    let to = from
    while (to + 1 < lineOf.length && marked(to + 1)) to++
    const lines = lineOf.subarray(from, to + 1).filter((line) => line > 0)
    if (lines.length > 0) spans.push(`${lines[0]} to ${lines[lines.length - 1]}`)
    from = to
  }
  return spans.length === 0 ? 'no line of its own' : `lines ${spans.join(', ').replace(/, ([^,]*)$/, ' and $1')}`
}

export const rowsText = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`
