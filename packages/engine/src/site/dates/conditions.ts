import { dayNumberD, isoDay, isoOrNull, type Source, source } from '../../kernel/index.ts'
import type { ChainJob } from './chain.ts'
import { figure } from './figures.ts'
import { frozenSpans } from './frost.ts'
import type { ClosedTime } from './result.ts'
import { type DaySpan, dayAfter, dayBefore, MONTH_LAST, MONTHS, type YearDay, yearDay, yearly } from './season.ts'

export interface Deadline {
  readonly said: string
  /** Last day on which it may be finished, every year. */
  readonly by: YearDay
  readonly what: 'shop' | 'tied down'
}

export interface Conditions {
  readonly closed: readonly ClosedTime[]
  readonly deadlines: readonly Deadline[]
  /** Sentences with a day or month in them that were not understood. */
  readonly unread: readonly { readonly path: string; readonly said: string }[]
  /** Months the road is open, null: all year, or not known (then it stands among the unread). */
  readonly assumed: readonly { readonly path: string; readonly said: string; readonly source: string }[]
}

const DAY = String.raw`(\d{1,2} [A-Za-z]+)`
const SUBJECTS: readonly (readonly [RegExp, ClosedTime['what']])[] = [
  [/\b(truck|lorr|road|haul|vehicle)/i, 'road'],
  [/\b(trench|dig|excavat)/i, 'digging'],
  [/\b(shop)\b/i, 'shop'],
  [/\b(work|site|crew)/i, 'site'],
]

/**
 * Times in which something rests, between two days: from `facts.closed`, from the months in which the road is open, from sentences of
 * `needs.forbidden` that say so, and from ground that freezes. Days without a year hold for every year.
 */
export function conditionsOf(job: ChainJob, within: DaySpan, frost: 'low' | 'high'): Conditions {
  const told = told1(job, within)
  const road = roadOf(job, within)
  const words = forbiddenOf(job, within, road.opens)
  const ground = frozenOf(job, within, frost)
  return {
    closed: [...told, ...road.closed, ...words.closed, ...ground.closed],
    deadlines: words.deadlines,
    unread: [...road.unread, ...words.unread],
    assumed: [...words.assumed, ...ground.assumed],
  }
}

function told1(job: ChainJob, within: DaySpan): readonly ClosedTime[] {
  return (job.dates?.closed ?? []).flatMap((row) => {
    const rests = source(`facts.closed: ${row.why ?? 'closed'}`, 'told')
    return spansOf(row.from, row.to, within).map((span) => closedTime(row.what, span, row.why ?? 'closed', rests))
  })
}

/** Days with and without a year: an end without a year is the first such day after a beginning with one. */
export function spansOf(from: string, to: string, within: DaySpan): readonly DaySpan[] {
  const [a, b] = [yearDay(from), yearDay(to)]
  if (a !== null && b !== null) return yearly(a, b, within)
  const fromD = isoOrNull(from) !== null ? dayNumberD(from) : null
  const toD = isoOrNull(to) !== null ? dayNumberD(to) : null
  if (fromD !== null && toD !== null) return clipped({ fromD, toD }, within)
  if (fromD !== null && b !== null) {
    const year = Number(from.slice(0, 4))
    const first = yearly(b, b, { fromD: dayNumberD(`${year}-01-01`), toD: dayNumberD(`${year + 1}-12-31`) }).find(
      (s) => s.toD >= fromD,
    )
    return first === undefined ? [] : clipped({ fromD, toD: first.toD }, within)
  }
  if (toD !== null && a !== null) {
    const year = Number(to.slice(0, 4))
    const last = yearly(a, a, { fromD: dayNumberD(`${year - 1}-01-01`), toD }).at(-1)
    return last === undefined ? [] : clipped({ fromD: last.fromD, toD }, within)
  }
  return []
}

const clipped = (span: DaySpan, within: DaySpan): readonly DaySpan[] =>
  span.toD < within.fromD || span.fromD > within.toD || span.toD < span.fromD
    ? []
    : [{ fromD: Math.max(span.fromD, within.fromD), toD: Math.min(span.toD, within.toD) }]

const closedTime = (what: ClosedTime['what'], span: DaySpan, said: string, rests: Source): ClosedTime => ({
  what,
  from: isoDay(span.fromD),
  to: isoDay(span.toD),
  said,
  rests,
})

interface Road {
  readonly closed: readonly ClosedTime[]
  readonly unread: Conditions['unread']
  /** First day on which it opens again; null: it does not close. */
  readonly opens: YearDay | null
}

/** “May to October”: shut from 1 November to 30 April. “all year”, with or without more behind it: never. */
function roadOf(job: ChainJob, within: DaySpan): Road {
  const said = job.yard.access.monthsOpen
  const path = 'facts.site.access.months-open'
  if (said === null) return { closed: [], unread: [], opens: null }
  const rests = source(`${path}: “${said}”`, 'told')
  const match = /^([A-Za-z]+) to ([A-Za-z]+)$/.exec(said.trim())
  const [first, last] = [1, 2].map((i) => (match === null ? -1 : MONTHS.indexOf(match[i]!.toLowerCase())))
  if (first !== undefined && last !== undefined && first >= 0 && last >= 0) {
    const opens = { month: first + 1, day: 1 }
    const end = { month: last + 1, day: MONTH_LAST[last]! }
    if ((last + 1) % 12 === first) return { closed: [], unread: [], opens: null }
    const spans = yearly(dayAfter(end), dayBefore(opens), within)
    return { closed: spans.map((s) => closedTime('road', s, `road open ${said}`, rests)), unread: [], opens }
  }
  const limits = /^all year; load limits in (.+)$/.exec(said.trim())
  if (limits) {
    const months = [...limits[1]!.matchAll(/[A-Za-z]+/g)].map(([m]) => MONTHS.indexOf(m.toLowerCase())).filter((m) => m >= 0)
    const spans = months.flatMap((m) => yearly({ month: m + 1, day: 1 }, { month: m + 1, day: MONTH_LAST[m]! }, within))
    return {
      closed: spans
        .toSorted((a, b) => a.fromD - b.fromD)
        .map((s) => closedTime('road', s, 'load limits: taken as shut to a loaded truck', rests)),
      unread: months.length === 0 ? [{ path, said }] : [],
      opens: null,
    }
  }
  return { closed: [], unread: /^all( year)?$/i.test(said.trim()) ? [] : [{ path, said }], opens: null }
}

interface Read {
  readonly closed: ClosedTime[]
  readonly deadlines: Deadline[]
  readonly unread: { path: string; said: string }[]
  readonly assumed: { path: string; said: string; source: string }[]
}

/** “… from 15 October”, “no … after 30 September”, “… before 20 September”, “… from 1 May to 30 June”. */
function forbiddenOf(job: ChainJob, within: DaySpan, opens: YearDay | null): Read {
  const out: Read = { closed: [], deadlines: [], unread: [], assumed: [] }
  for (const [i, said] of job.needs.forbidden.entries()) {
    const path = `needs.forbidden[${i}]`
    const rests = source(`${path}: “${said}”`, 'told')
    const what = SUBJECTS.find(([word]) => word.test(said))?.[1] ?? null
    const between = new RegExp(`(?:from|between) ${DAY} (?:to|and) ${DAY}`).exec(said)
    const from = new RegExp(`from ${DAY}`).exec(said)
    const after = new RegExp(`after ${DAY}`).exec(said)
    const before = new RegExp(`before ${DAY}`).exec(said)
    const [a, b] = [yearDay(between?.[1] ?? from?.[1] ?? ''), yearDay(between?.[2] ?? '')]
    const end = yearDay(after?.[1] ?? '')
    const due = yearDay(before?.[1] ?? '')
    if (due !== null && /tied down|anchor/i.test(said)) out.deadlines.push({ said, by: dayBefore(due), what: 'tied down' })
    else if (due !== null && what === 'shop') out.deadlines.push({ said, by: dayBefore(due), what: 'shop' })
    else if (what !== null && a !== null && b !== null)
      out.closed.push(...yearly(a, b, within).map((s) => closedTime(what, s, said, rests)))
    else if (what !== null && (a ?? end) !== null) {
      const begins = a ?? dayAfter(end!)
      const until = dayBefore(opens ?? { month: 1, day: 1 })
      out.closed.push(...yearly(begins, until, within).map((s) => closedTime(what, s, said, rests)))
      out.assumed.push({
        path,
        said: `“${said}” ends ${opens === null ? 'with the year' : 'when the road opens'}`,
        source: 'the sentence names no end: common practice; tell it under facts.closed',
      })
    } else if (between ?? from ?? after ?? before) {
      const day = [between, from, after, before].flatMap((m) => (m === null ? [] : [m[1]!])).find((d) => yearDay(d) !== null)
      if (day !== undefined) out.unread.push({ path, said })
    }
  }
  return out
}

function frozenOf(job: ChainJob, within: DaySpan, end: 'low' | 'high'): Pick<Conditions, 'closed' | 'assumed'> {
  const { meanCByMonth, frostDepthM } = job.site
  const paved = /asphalt|concrete|quay|rock/i.test(job.yard.ground.surface ?? '')
  const path = 'facts.site.ground.frost-depth'
  if (meanCByMonth === null || Math.min(...meanCByMonth) > 0) return { closed: [], assumed: [] }
  const depthM = frostDepthM[end]
  const rests = source('frost by degree-days on the scale of the winter’s depth, Stefan', 'memory')
  const spans = (crustM: number, thawM: number) => frozenSpans({ meanCByMonth, depthM, crustM, thawM }, within)
  const digging = spans(figure('crust'), figure('trench depth'))
  const pads = paved ? [] : spans(figure('pad crust'), figure('pad thaw'))
  return {
    closed: [
      ...digging.map((s) => closedTime('digging', s, `ground frozen, ${depthM} m in the coldest winter`, rests)),
      ...pads.map((s) => closedTime('pads', s, 'ground under the pads frozen or thawing', rests)),
    ],
    assumed: [
      {
        path: 'facts.closed',
        said: `days of frozen ground are worked out from monthly means and a depth of ${depthM} m (${path})`,
        source: 'Stefan, with crusts of common practice; a warm or cold year moves them by weeks',
      },
    ],
  }
}
