import { type Job, MONTH_LAST, MONTH_NAMES, type YearDay, type YearSeason } from '../../job/index.ts'
import { isoOrNull } from '../../kernel/index.ts'
import type { AirNote } from './note.ts'

export type StayJob = Pick<Job, 'boxes' | 'phases' | 'needs'>

/** When a box stands in this yard. */
export interface Stay {
  /** Days of the year between which it stands here; null: on all of them, or nobody can say. */
  readonly span: YearSeason | null
  /** What is judged for that, and what is not: sentences. Empty: it stands here all year and never moves. */
  readonly said: string
  /** Some of the stay it stands elsewhere, and nobody said where. */
  readonly elsewhere: boolean
  readonly notes: readonly AirNote[]
}

const YEAR = 12
const WHOLE: Stay = { span: null, said: '', elsewhere: false, notes: [] }

/**
 * Days of the year on which a box stands here: month 1 of the stay begins on the day it is needed, a phase holds the boxes it names, and of a
 * stay beyond twelve months each month counts on its own days of the year. What lies between two stretches counts with them.
 */
export function stayOf(job: StayJob, box: string): Stay {
  const at = job.boxes.findIndex((b) => b.id === box)
  const months = standsIn(job, box)
  const words = movesSaid(job.boxes[at]?.moves, months.length < Math.ceil(job.needs.stayMonths))
  const all = stayMonths(job)
  const elsewhere = months.length > 0 && all.some((m) => !months.includes(m))
  const slots = [...new Set(months.map((m) => (m - 1) % YEAR))].toSorted((a, b) => a - b)
  const away = elsewhere
    ? ` In ${monthWords(all.filter((m) => !months.includes(m)))} of the stay it stands elsewhere: ${UNKNOWN_THERE}`
    : ''
  if (slots.length === 0 || slots.length === YEAR) return { ...WHOLE, elsewhere, said: `${words}${away}`.trim() }
  const start = isoOrNull(job.needs.neededBy)
  if (start === null)
    return {
      ...WHOLE,
      elsewhere,
      said: `It stands here for ${slots.length} months of a year, but no date says which: the whole year is taken.${words}${away}`,
      notes: [
        {
          ...{ kind: 'assumed', path: 'needs.needed-by', source: 'no date says when it comes' },
          said: `${box}: stands here all year, though its months are ${slots.length}`,
          mend: 'Write the day, for example “2027-10-15”.',
        },
      ],
    }
  const { first, count } = cover(slots)
  const span = { from: dayAfterMonths(start, first), to: dayBefore(dayAfterMonths(start, first + count)) }
  const between =
    count === slots.length ? '' : ` It is away for ${count - slots.length} months between them, which are counted with them.`
  return { span, elsewhere, said: `${between}${words}${away}`.trim(), notes: [] }
}

const UNKNOWN_THERE =
  'the weather there is not told, so that time is unknown and not in this. Nor is the road: gear that comes cold into warm damp air takes dew.'

const stayMonths = (job: StayJob): readonly number[] => Array.from({ length: Math.ceil(job.needs.stayMonths) }, (_, m) => m + 1)

/** Months of the stay in which a box stands here, from 1 on: all of them where no phase is told. */
function standsIn(job: StayJob, box: string): readonly number[] {
  if (job.phases.length === 0) return stayMonths(job)
  const own = job.phases.filter((p) => p.boxes === undefined || p.boxes.includes(box))
  const months = own.flatMap((p) => Array.from({ length: p.toMonth - p.fromMonth + 1 }, (_, m) => p.fromMonth + m))
  return [...new Set(months)].toSorted((a, b) => a - b)
}

/** The shortest stretch of a year that holds all these twelfths of it. */
function cover(slots: readonly number[]): { readonly first: number; readonly count: number } {
  const gaps = slots.map((slot, i) => {
    const next = slots[(i + 1) % slots.length]!
    return { after: next, length: (next - slot - 1 + 2 * YEAR) % YEAR }
  })
  const widest = gaps.reduce((best, gap) => (gap.length > best.length ? gap : best))
  return { first: widest.after, count: YEAR - widest.length }
}

/** The same day so many months on; the last of a month that has no such day. */
function dayAfterMonths(iso: string, months: number): YearDay {
  const month = (Number(iso.slice(5, 7)) - 1 + months) % YEAR
  return { month: month + 1, day: Math.min(Number(iso.slice(8, 10)), lastOf(month)) }
}
/** Of a year that has no 29 February. */
const lastOf = (month: number): number => (month === 1 ? 28 : (MONTH_LAST[month] ?? 31))
const dayBefore = ({ month, day }: YearDay): YearDay => {
  const before = (month - 2 + YEAR) % YEAR
  return day > 1 ? { month, day: day - 1 } : { month: before + 1, day: lastOf(before) }
}

const STAYS = /^(none|no|no moves?|never|0|1|one|once|one move\b.*)$/i
const IN_MONTH = /\bmonths? \d/i

/** Moves that months tell are told by phases; any other words are not read as months, and say so. */
function movesSaid(moves: string | undefined, told: boolean): string {
  if (moves === undefined || STAYS.test(moves.trim())) return ''
  if (IN_MONTH.test(moves))
    return told ? '' : ` It moves “${moves}”; no phase takes it off this site, so it is judged here throughout.`
  return ` It moves “${moves}”, which names no months: the whole year is taken at this yard${told ? ' but for what its phases say' : ''}. What the road does to it, cold gear in warm damp air, is not in it.`
}

const monthWords = (months: readonly number[]): string =>
  months.length === 1 ? `month ${months[0]}` : `months ${months[0]} to ${months.at(-1)}`

/** Phases that run in each calendar month, January first; null: nobody can say, and any of them may. */
export function phasesByMonth(job: StayJob): readonly (readonly string[])[] | null {
  const start = isoOrNull(job.needs.neededBy)
  if (start === null || job.phases.length < 2) return null
  const first = Number(start.slice(5, 7)) - 1
  // A stay that begins within a month reaches into one calendar month more.
  const more = start.endsWith('-01') ? 0 : 1
  return Array.from({ length: YEAR }, (_, month) =>
    job.phases
      .filter((p) => {
        const length = Math.min(YEAR, p.toMonth - p.fromMonth + 1 + more)
        return (month - first - (p.fromMonth - 1) + 100 * YEAR) % YEAR < length
      })
      .map((p) => p.id),
  )
}

/** The other days of the year. */
export const restOfYear = ({ from, to }: YearSeason): YearSeason => ({ from: dayAfter(to), to: dayBefore(from) })
const dayAfter = ({ month, day }: YearDay): YearDay =>
  day < lastOf(month - 1) ? { month, day: day + 1 } : { month: (month % YEAR) + 1, day: 1 }

const named = ({ month, day }: YearDay): string => {
  const name = MONTH_NAMES[month - 1] ?? ''
  return `${day} ${name.charAt(0).toUpperCase()}${name.slice(1)}`
}
/** “1 March to 31 August”. */
export const daysWords = ({ from, to }: YearSeason): string => `${named(from)} to ${named(to)}`
