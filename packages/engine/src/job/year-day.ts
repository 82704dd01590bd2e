/** A day of any year. 29 February is read as 1 March where it begins something and as 28 February where it ends it, in a year without it. */
export interface YearDay {
  readonly month: number
  readonly day: number
}

export const MONTH_NAMES: readonly string[] = [
  ...['january', 'february', 'march', 'april', 'may', 'june'],
  ...['july', 'august', 'september', 'october', 'november', 'december'],
]
export const MONTH_LAST = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/** `15 October`; null when it is no day of a year. */
export function yearDay(text: string): YearDay | null {
  const match = /^(\d{1,2})\.? ([A-Za-z]+)$/.exec(text.trim())
  const month = match === null ? -1 : MONTH_NAMES.indexOf(match[2]!.toLowerCase())
  const day = Number(match?.[1] ?? 0)
  return month < 0 || day < 1 || day > MONTH_LAST[month]! ? null : { month: month + 1, day }
}

/** A season that comes every year, both days in it; `to` before `from`: over new year. */
export interface YearSeason {
  readonly from: YearDay
  readonly to: YearDay
}

/** Season between two days as written; undefined where one is not written, or is no day of a year. */
export function yearSeason(from: string | undefined, to: string | undefined): YearSeason | undefined {
  const [begins, ends] = [yearDay(from ?? ''), yearDay(to ?? '')]
  return begins === null || ends === null ? undefined : { from: begins, to: ends }
}

const rank = ({ month, day }: YearDay): number => month * 100 + day

/** Does a day of the year lie in a season? */
export function inSeason({ from, to }: YearSeason, day: YearDay): boolean {
  const [a, b, d] = [rank(from), rank(to), rank(day)]
  return a <= b ? d >= a && d <= b : d >= a || d <= b
}
