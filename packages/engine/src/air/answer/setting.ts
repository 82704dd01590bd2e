import type { AirDesign, BoxDesign, BoxWanted, YearSeason } from '../../job/index.ts'
import { judgeEnds, type Verdict } from '../../kernel/index.ts'
import { daysWords } from '../facts/stay.ts'
import type { AirEnd, AirShort, AirYear } from '../result.ts'
import type { GearPart } from './gear.ts'
import type { BoxRuns } from './runs.ts'
import type { Counted, Outside } from './year.ts'

/** One box, all that was run and counted of it, and what it is built with. */
export interface AirSetting {
  readonly box: string
  readonly wanted: BoxWanted | undefined
  /** Null: nobody has said what it is built with against heat and damp. */
  readonly air: AirDesign
  readonly designs: readonly BoxDesign[]
  readonly runs: BoxRuns
  readonly outside: Outside
  readonly counted: Readonly<Record<AirEnd, Counted>>
  readonly shorts: readonly AirShort[]
  readonly parts: readonly GearPart[]
  /** When anything is plugged in; null: all year. */
  readonly season: YearSeason | null
  /** Days of the year on which it stands here; null: all of them. */
  readonly standing: YearSeason | null
  /** Paths of assumed values the runs rest on. */
  readonly assumed: readonly string[]
}

/** “the year”, “its season, 5 January to 5 April,”, or “its stay, …”: that in which its gear is judged. */
export const spanWords = ({ season, standing }: Pick<AirSetting, 'season'> & Partial<Pick<AirSetting, 'standing'>>): string =>
  season !== null ? `its season, ${daysWords(season)},` : standing ? `its stay, ${daysWords(standing)},` : 'the year'

/** “the year”, or “its months here”: that in which water, mould and rust are counted. */
export const countedWords = ({ standing }: Pick<AirSetting, 'standing'>): string =>
  standing === null ? 'the year' : 'its months here'
/** “a year”, or “in its months here”. */
export const eachWords = ({ standing }: Pick<AirSetting, 'standing'>): string =>
  standing === null ? 'a year' : 'in its months here'

/** The same question asked at both ends: what fails at one only is unknown. */
export const atBoth = (setting: AirSetting, verdict: (year: AirYear, end: AirEnd) => Verdict): Verdict =>
  judgeEnds(verdict(setting.counted.tight.year, 'tight'), verdict(setting.counted.leaky.year, 'leaky'))

/** The end at which this is larger; the tight one where they are equal. */
export const worseEnd = (setting: AirSetting, of: (year: AirYear) => number): AirEnd =>
  of(setting.counted.leaky.year) > of(setting.counted.tight.year) ? 'leaky' : 'tight'

/** An upper limit with a margin in its own unit. What is not a number is unknown. */
export function judgeMost(value: number, limit: number, margin: number): Verdict {
  if (Number.isNaN(value) || Number.isNaN(limit)) return 'unknown'
  return value > limit + SAME ? 'fails' : value > limit - margin ? 'tight' : 'holds'
}

/** A lower limit with a margin in its own unit. */
export const judgeLeast = (value: number, limit: number, margin: number): Verdict => judgeMost(-value, -limit, margin)

/** Sums of printed figures differ in the last bits; no verdict hangs on them. */
const SAME = 1e-9

/** What is said where the ends disagree, and nothing where they do not. */
export const apart = (verdict: Verdict): string =>
  verdict === 'unknown'
    ? ' It holds at one end and fails at the other: what nobody measured (how tight the box is, how cold the sky) decides.'
    : ''
