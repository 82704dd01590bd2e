import { dayNumberD, type Finding, isoDay, isoOrNull, source, type Verdict, type Working } from '../../kernel/index.ts'
import { actsOf } from './acts.ts'
import { workAtDays } from './calendar.ts'
import { type Chain, type ChainAsked, type ChainDesign, type ChainJob, chainOf, type StandingHours } from './chain.ts'
import { type Conditions, conditionsOf } from './conditions.ts'
import { draws, quantileOf } from './draws.ts'
import { holidays } from './holidays.ts'
import {
  actFinding,
  chanceFinding,
  closedFindings,
  crewFinding,
  deadlineFindings,
  found,
  type Judged,
  lackFindings,
  readyFinding,
  readyVerdict,
  startFinding,
} from './judge.ts'
import { driving } from './network.ts'
import type { ChainTask, Chance, DatesResult, ShopCrew } from './result.ts'
import { type Calendars, calendarsOf, firstDay, lastDay, officeDays, type Scheduled, scheduled, USUAL_PLACE } from './schedule.ts'
import { nextD, yearDay } from './season.ts'
import type { ShopWork } from './shop-days.ts'
import { normalFrac, triangularMoments } from './three-point.ts'
import { chainWorking, chanceWorking, latestWorking } from './workings.ts'

export interface DatesInputs {
  readonly job: ChainJob
  readonly design: ChainDesign
  /** Boxes as the shop builds them. */
  readonly shop: readonly ShopWork[]
  readonly crew?: ShopCrew
  /** Hours of what must be changed on the box that stands. */
  readonly changes?: StandingHours
  /** Day on which it is asked; absent: the day of the order. */
  readonly today?: string
  /** Draws of the chance of being late. */
  readonly drawsCount?: number
}

export interface DatesAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: DatesResult
  readonly assumed: readonly { readonly path: string; readonly said: string; readonly source: string }[]
}

export const DRAWS_COUNT = 10_000
const SEED = 20_270_710
/** How far the calendars run: back for latest days, on for what comes late. */
const BACK_D = 500
const ON_D = 5 * 365

/**
 * By when, and what must start today? Forward from today and back from the day needed, on working days, with holidays and closed times.
 * Without a day of the order the chain is counted on a calendar that rests on weekends only: what is late there is late on every day.
 */
export function answerDates(inputs: DatesInputs): DatesAnswer {
  const { job } = inputs
  const order = isoOrNull(job.needs.orderDate)
  const begins = inputs.today === undefined ? order : order !== null && order > inputs.today ? order : inputs.today
  const needed = neededOf(job, begins)
  if (begins === null && (needed.day === null || needed.afterDays !== null)) return relative(inputs, needed)
  return begins === null ? backward(inputs, needed) : dated(inputs, begins, needed)
}

interface Needed {
  readonly day: string | null
  readonly afterDays: number | null
  readonly from: string
}

/** The day told, else so long after the order, else the first day of the next season. */
function neededOf(job: ChainJob, begins: string | null): Needed {
  const told = isoOrNull(job.needs.neededBy)
  if (told !== null) return { day: told, afterDays: null, from: 'needs.needed-by' }
  const after = job.needs.daysToNeed ?? null
  if (after !== null)
    return {
      day: begins === null ? null : isoDay(dayNumberD(begins) + after),
      afterDays: after,
      from: `needs.needed-by: ${after} days after order`,
    }
  const season = yearDay(job.dates?.season.from ?? '')
  if (season !== null && begins !== null)
    return {
      day: isoDay(nextD(season, dayNumberD(begins))),
      afterDays: null,
      from: 'needs.season.from: the first day of the next season',
    }
  return { day: null, afterDays: null, from: 'nobody said' }
}

const placeOf = (job: ChainJob): string =>
  job.dates?.holidays ?? (job.rules.overlays.includes('uk') ? 'gb-eng' : USUAL_PLACE[job.rules.set])

interface Made {
  readonly chain: Chain
  readonly ask: ChainAsked
  readonly conditions: Conditions
  readonly calendars: Calendars
  readonly scheduled: Scheduled
}

function made(
  inputs: DatesInputs,
  asked: { fromD: number; neededD: number | null; frost: 'low' | 'high'; interim?: string },
): Made {
  const { job } = inputs
  const crew = inputs.crew ?? {}
  const ask: ChainAsked = { ...askOf(inputs), crew, fromD: asked.fromD }
  const given = chainOf(ask)
  const within = { fromD: asked.fromD - BACK_D, toD: asked.fromD + ON_D }
  const conditions = conditionsOf(job, within, asked.frost)
  const calendars = calendarsOf({ within, place: placeOf(job), closed: conditions.closed, crew })
  const at = scheduled(given.tasks, calendars, asked.fromD, asked.neededD)
  return { chain: { ...given, tasks: at.tasks }, ask, conditions, calendars, scheduled: at }
}

const askOf = ({ job, design, shop, changes }: DatesInputs): Pick<ChainAsked, 'job' | 'design' | 'shop' | 'changes'> => ({
  ...{ job, design, shop },
  ...(changes === undefined ? {} : { changes }),
})

function dated(inputs: DatesInputs, today: string, needed: Needed): DatesAnswer {
  const { job } = inputs
  const fromD = dayNumberD(today)
  const neededD = needed.day === null ? null : dayNumberD(needed.day)
  const all = made(inputs, { fromD, neededD, frost: 'high' })
  const { chain, conditions, calendars, scheduled: at } = all
  const critical = driving(at.net, at.passed, at.end)
  const margin = (liveD: number): number => officeDays(calendars, liveD, neededD! + 1)
  const marginDays = neededD === null || !Number.isFinite(at.liveD) ? null : margin(at.liveD)
  const interimMarginDays = neededD === null || at.interimD === null || !Number.isFinite(at.interimD) ? null : margin(at.interimD)
  const ends = at.interimEnd === null ? [at.end] : [at.end, at.interimEnd]
  // What nobody laid out has no hours: its chain is a floor, and no chance is drawn of a floor.
  const drawn = chain.workKnown
    ? draws({
        ...{ net: at.net, fromD, count: inputs.drawsCount ?? DRAWS_COUNT, seed: SEED, ends },
        byD: neededD === null ? null : neededD + 1,
      })
    : null
  const chance: Chance | null =
    drawn === null
      ? null
      : {
          ...{ drawsCount: drawn.count, seed: drawn.seed, lateFrac: drawn.lateFrac, withoutInterimFrac: drawn.firstLateFrac },
          pertFrac: neededD === null ? null : pertFrac(at, critical, neededD + 1),
          halfBy: lastDay(quantileOf(drawn.endsD, 0.5)),
          eightInTenBy: lastDay(quantileOf(drawn.endsD, 0.8)),
          nineInTenBy: lastDay(quantileOf(drawn.endsD, 0.9)),
        }
  const rows = rowsOf(all, { critical, today, nineInTenD: drawn?.nineInTenD ?? null, calendars })
  const orderAt = chain.tasks.findIndex((t) => t.id === 'order')
  const result: DatesResult = {
    ...resultOf(all, needed, rows),
    ...{ today, chance, marginDays, earliest: lastDay(at.liveD), earliestAlone: lastDay(at.alone[at.end]!.finishD) },
    interimFrom: at.interimD === null ? null : lastDay(at.interimD),
    orderBy: at.kept === null ? null : orderBy(at.kept[orderAt]!.startD, today),
    leastDays: null,
    acts: chain.workKnown ? actsOf({ ask: all.ask, chain, scheduled: at, critical, calendars, fromD }) : [],
    holidays: { place: calendars.place, days: holidaysFrom(calendars.place, today, lastDay(at.liveD) ?? today) },
  }
  const judged: Judged = {
    result,
    chain,
    conditions,
    scheduled: at,
    calendars,
    other: otherEnd(inputs, fromD, neededD),
    interimMarginDays,
  }
  const rests = source(needed.from, 'told')
  const findings = [
    ...(needed.day === null
      ? [
          found({
            code: 'dates/missing',
            subject: 'needs.needed-by',
            verdict: 'unknown',
            provenance: 'told',
            said: 'Nobody said by when it is needed.',
          }),
        ]
      : [readyFinding(judged)]),
    ...chanceFinding(judged),
    ...interimFinding(judged),
    ...startFinding(judged),
    ...crewFinding(judged),
    ...closedFindings(judged),
    ...deadlineFindings(judged),
    ...doneAhead(chain, today),
    ...actFinding(judged),
    ...lackFindings(judged),
  ]
  return {
    findings,
    workings: [
      chainWorking({ rows, today, needed: needed.day, marginDays, neededRests: rests }),
      ...(needed.day === null ? [] : [latestWorking(rows, needed.day, rests)]),
      ...(chance === null || chance.lateFrac === null ? [] : [chanceWorking(chance, needed.day!, chain, at, critical)]),
    ],
    result,
    assumed: assumedOf(job, all),
  }
}

/** The order may go out as late as this; null: even today is too late. */
const orderBy = (startD: number, today: string): string | null => {
  const day = firstDay(startD)
  return day === null || day < today ? null : day
}

/** The verdict where frost goes least deep; null where its depth was told or nothing freezes. */
function otherEnd(inputs: DatesInputs, fromD: number, neededD: number | null): Verdict | null {
  const { low, high } = inputs.job.site.frostDepthM
  if (neededD === null || low === high || inputs.job.site.meanCByMonth === null) return null
  const { scheduled: at, calendars } = made(inputs, { fromD, neededD, frost: 'low' })
  const margin = (d: number): number => officeDays(calendars, d, neededD + 1)
  return Number.isFinite(at.liveD) ? readyVerdict(margin(at.liveD), at.interimD === null ? null : margin(at.interimD)) : 'fails'
}

const holidaysFrom = (place: string, from: string, to: string): DatesResult['holidays']['days'] => {
  const years = Array.from(
    { length: Number(to.slice(0, 4)) - Number(from.slice(0, 4)) + 1 },
    (_, i) => Number(from.slice(0, 4)) + i,
  )
  return years.flatMap((y) => holidays(place, y)).filter((h) => h.date >= from && h.date <= to)
}

function interimFinding({ result, interimMarginDays, scheduled: at }: Judged): readonly Finding[] {
  if (result.interim === null || at.interimD === null) return []
  const inTime = interimMarginDays !== null && interimMarginDays >= -1e-6
  const gap = Number.isFinite(at.liveD) && Number.isFinite(at.interimD) ? Math.round(at.liveD - at.interimD) : null
  return [
    found({
      ...{ code: 'dates/interim', provenance: 'common practice', workings: ['job/dates-chain'] },
      verdict: result.needed === null ? 'unknown' : inTime ? (interimMarginDays < 5 ? 'tight' : 'holds') : 'fails',
      said: `${result.interim} can feed from ${result.interimFrom ?? 'no day'}${gap === null ? '' : gap > 0 ? `, ${gap} days before the supply for the stay` : ', no sooner than the supply for the stay'}; it is hired, brought and tested in a chain of its own, and waits for the box and its inspection as well.`,
      ...(interimMarginDays === null
        ? {}
        : {
            demand: { symbol: 'margin', value: interimMarginDays, unit: 'working days' },
            limit: { symbol: 'needed', value: 0, unit: 'working days' },
          }),
    }),
  ]
}

const doneAhead = (chain: Chain, today: string): readonly Finding[] =>
  chain.tasks
    .filter((t) => t.doneD !== undefined && t.doneD - 1 > dayNumberD(today))
    .map((t) =>
      found({
        ...{ code: 'dates/done-ahead', subject: t.id, verdict: 'unknown' as const, provenance: 'told' as const },
        said: `${t.id} is told as done on ${isoDay(t.doneD! - 1)}, which is after today, ${today}: the day it is planned for is “not-before”.`,
      }),
    )

/** By mean and variance along the driving chain; five working days are seven of the calendar. */
function pertFrac(at: Scheduled, critical: ReadonlySet<number>, byD: number): number | null {
  if (!Number.isFinite(at.liveD)) return null
  const groups = new Map<string, { mean: number; spread: number }>()
  for (const i of critical) {
    const a = at.net[i]!
    if (a.doneD !== undefined || a.takesDays === 0) continue
    const { startD, finishD } = at.passed[i]!
    const stretch = Math.max(
      1,
      a.calendar.name.includes('every day') || a.calendar.name.includes('weekends')
        ? 1
        : Math.min(7 / 5, (finishD - startD) / a.takesDays || 1),
    )
    const m = triangularMoments(a.span)
    const name = a.together ?? a.id
    const before = groups.get(name) ?? { mean: 0, spread: 0 }
    groups.set(name, {
      mean: before.mean + (m.mean - a.takesDays) * stretch,
      spread: before.spread + Math.sqrt(m.variance) * stretch,
    })
  }
  const all = [...groups.values()]
  const mean = at.liveD + all.reduce((sum, g) => sum + g.mean, 0)
  const sigma = Math.sqrt(all.reduce((sum, g) => sum + g.spread ** 2, 0))
  return sigma === 0 ? (mean > byD ? 1 : 0) : 1 - normalFrac((byD - mean) / sigma)
}

interface RowsAsked {
  readonly critical: ReadonlySet<number>
  readonly today: string | null
  readonly nineInTenD: Float64Array | null
  readonly calendars: Calendars
}

function rowsOf({ chain, scheduled: at, calendars }: Made, { critical, today, nineInTenD }: RowsAsked): readonly ChainTask[] {
  return chain.tasks.map((t, i) => {
    const p = at.passed[i]!
    const own = at.own[i]!
    const kept = at.kept?.[i] ?? null
    const cal = at.net[i]!.calendar
    const done = t.doneD === undefined ? null : isoDay(t.doneD - 1)
    const latestStart = kept === null || done !== null ? null : firstDay(kept.startD)
    const slack =
      Number.isFinite(own.startD) && Number.isFinite(p.startD) && today !== null
        ? workAtDays(cal, own.startD) - workAtDays(cal, p.startD)
        : null
    return {
      ...{ id: t.id, what: t.what, group: t.group, who: t.who, after: t.after, calendar: cal.name },
      takes: t.takes,
      spread: t.takes.high <= t.takes.low || done !== null ? 'none' : t.spreadTold === true ? 'told' : 'assumed',
      start: today === null ? null : firstDay(p.startD),
      finish: today === null ? done : lastDay(p.finishD),
      latestStart,
      latestFinish: kept === null || done !== null ? null : lastDay(kept.finishD),
      slackDays: done !== null || slack === null ? null : Math.max(0, Math.round(slack * 1e6) / 1e6),
      critical: critical.has(i),
      nineInTen: nineInTenD === null ? null : lastDay(nineInTenD[i]!),
      done,
      crew: today === null || t.crew === undefined || done !== null ? null : crewWait(at, i, t.crew),
      must: done !== null ? 'done' : today === null || latestStart === null ? 'not known' : mustOf(latestStart, today, calendars),
      ...{ rests: t.rests, assumed: t.assumed },
    }
  })
}

/** How long a task waits for its crew alone, all else it waits for being done, and at what that crew is. */
function crewWait(at: Scheduled, i: number, trade: string): ChainTask['crew'] {
  const { after, id } = at.tasks[i]!
  const { calendar, notBeforeD } = at.net[i]!
  const finishOf = (other: string): number => at.passed[at.tasks.findIndex((t) => t.id === other)]!.finishD
  const readyD = Math.max(notBeforeD ?? -Infinity, ...after.map(finishOf))
  const { startD } = at.passed[i]!
  const waitsDays = Number.isFinite(startD) ? workAtDays(calendar, startD) - workAtDays(calendar, readyD) : 0
  const behind = (at.behind.get(id) ?? []).filter((other) => !after.includes(other) && finishOf(other) > readyD + 1e-6)
  const tenth = Math.round(Math.max(0, waitsDays) * 10) / 10
  return { trade, waitsDays: behind.length === 0 ? 0 : tenth, behind }
}

function mustOf(latestStart: string, today: string, calendars: Calendars): ChainTask['must'] {
  if (latestStart < today) return 'past'
  if (latestStart === today) return 'today'
  return officeDays(calendars, dayNumberD(today), dayNumberD(latestStart)) <= 5 ? 'soon' : 'later'
}

const resultOf = ({ chain, conditions }: Made, needed: Needed, rows: readonly ChainTask[]) => ({
  ...{
    needed: needed.day,
    neededFrom: needed.from,
    interim: chain.interim?.what ?? null,
    chain: rows,
    closed: conditions.closed,
  },
  critical: rows.filter((r) => r.critical).map((r) => r.id),
  mustStart: rows.filter((r) => r.must === 'past' || r.must === 'today').map((r) => r.id),
})

function assumedOf(job: ChainJob, { chain, conditions, calendars }: Made): DatesAnswer['assumed'] {
  const place = calendars.place
  return [
    ...(job.dates?.holidays != null
      ? []
      : [
          {
            path: 'facts.site.holidays',
            said: place === 'none' ? 'no public holiday is counted: nobody said where' : `holidays of ${place}`,
            source: place === 'none' ? 'every weekday is worked: an early end' : 'the country of the rule set',
          },
        ]),
    ...chain.assumed,
    ...conditions.assumed,
  ]
}

/** No day of an order: only the latest days are known. */
function backward(inputs: DatesInputs, needed: Needed): DatesAnswer {
  const neededD = dayNumberD(needed.day!)
  const all = made(inputs, { fromD: neededD - 3 * 365, neededD, frost: 'high' })
  const rows = rowsOf(all, { critical: new Set(), today: null, nineInTenD: null, calendars: all.calendars })
  const orderDay = firstDay(all.scheduled.kept![all.chain.tasks.findIndex((t) => t.id === 'order')]!.startD)
  const result: DatesResult = {
    ...resultOf(all, needed, rows),
    ...{
      today: null,
      earliest: null,
      earliestAlone: null,
      interimFrom: null,
      marginDays: null,
      orderBy: orderDay,
      leastDays: null,
      chance: null,
      acts: [],
    },
    holidays: {
      place: all.calendars.place,
      days: orderDay === null ? [] : holidaysFrom(all.calendars.place, orderDay, needed.day!),
    },
  }
  const findings = [
    found({
      ...{
        code: 'dates/today',
        verdict: 'unknown',
        provenance: 'told',
        workings: ['job/dates-latest'],
        decides: 'whoever orders',
      },
      said: `Nobody said when the order goes out. To be live by ${needed.day} it goes out on ${orderDay ?? 'no day of three years'} at the latest, everything as likely. Write needs.order-placed, or ask with --today.`,
    }),
    ...lackFindings(all),
  ]
  return {
    findings,
    workings: [latestWorking(rows, needed.day!, source(needed.from, 'told'))],
    result,
    assumed: assumedOf(inputs.job, all),
  }
}

/** Neither day is known: counted on a calendar that rests on weekends only. What is late there is late whenever the order goes out. */
function relative(inputs: DatesInputs, needed: Needed): DatesAnswer {
  const { job } = inputs
  const fromD = dayNumberD('2001-01-01')
  const ask: ChainAsked = { ...askOf(inputs), crew: { ...inputs.crew, closed: [], booked: [] }, fromD: null }
  const given = chainOf(ask)
  const within = { fromD: fromD - BACK_D, toD: fromD + ON_D }
  const bare = { closed: [], deadlines: [], unread: [], assumed: [] }
  const calendars = calendarsOf({ within, place: 'none', closed: [], crew: { ...ask.crew, holidays: 'none' } })
  const at = scheduled(given.tasks, calendars, fromD, null)
  const chain = { ...given, tasks: at.tasks }
  const liveDays = Math.ceil(Math.min(at.liveD, at.interimD ?? Infinity) - fromD - 1e-6) - 1
  const critical = driving(at.net, at.passed, at.end)
  const all: Made = { chain, ask, conditions: bare, calendars, scheduled: at }
  const rows = rowsOf(all, { critical, today: null, nineInTenD: null, calendars })
  const late = needed.afterDays !== null && liveDays > needed.afterDays
  const result: DatesResult = {
    ...resultOf(all, needed, rows),
    ...{
      today: null,
      earliest: null,
      earliestAlone: null,
      interimFrom: null,
      marginDays: null,
      orderBy: null,
      leastDays: liveDays,
      chance: null,
      acts: [],
    },
    holidays: { place: placeOf(job), days: [] },
  }
  const by = at.interimD !== null && at.interimD < at.liveD ? `, then fed by ${chain.interim?.what}` : ''
  return {
    findings: [
      found({
        ...{ code: late ? 'dates/ready' : 'dates/today', verdict: late ? 'fails' : 'unknown', provenance: 'common practice' },
        said: `${needed.afterDays === null ? 'Nobody said by when it is needed, nor when the order goes out' : `Needed ${needed.afterDays} days after the order, and nobody said when that goes out`}. On a calendar that rests on weekends only it is live ${liveDays} days after the order${by}; holidays, closed roads and frost only add to that.`,
        ...(needed.afterDays === null
          ? {}
          : {
              demand: { symbol: 'live after', value: liveDays, unit: 'd' },
              limit: { symbol: 'needed after', value: needed.afterDays, unit: 'd' },
            }),
        assumed: [...new Set(rows.filter((r) => r.critical).flatMap((r) => r.assumed))],
      }),
      ...lackFindings(all),
    ],
    workings: [],
    result,
    assumed: assumedOf(job, { ...all, calendars: { ...calendars, place: placeOf(job) } }),
  }
}
