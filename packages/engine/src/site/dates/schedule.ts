import type { Job } from '../../job/index.ts'
import { dayNumberD, isoDay, yearOf } from '../../kernel/index.ts'
import { type Calendar, calendar, workAtDays } from './calendar.ts'
import type { Drawn } from './draws.ts'
import { holidays } from './holidays.ts'
import { type Crewed, latestStarts, levelled, orderOf } from './level.ts'
import { earliest, latest, type Passed } from './network.ts'
import type { ClosedTime, ShopCrew } from './result.ts'
import type { DaySpan } from './season.ts'
import type { DaysOf, Task } from './task.ts'

const WEEK = [0, 1, 2, 3, 4]
const EVERY = [0, 1, 2, 3, 4, 5, 6]

/** Kinds of closed time that stop work on each kind of days. */
const STOPS: Readonly<Record<string, readonly ClosedTime['what'][]>> = {
  'every day': [],
  'office days': ['offices'],
  'site days': ['site', 'road'],
  'digging days': ['site', 'road', 'digging'],
  'pad days': ['site', 'road', 'pads'],
  'road days': ['site', 'road'],
  'days a crew can reach it': ['road', 'offices'],
  'days a crew can dig': ['road', 'digging', 'offices'],
}

export const stopsOf = (days: DaysOf): readonly ClosedTime['what'][] => STOPS[days] ?? ['shop']

export interface Calendars {
  readonly within: DaySpan
  readonly place: string
  of(task: Pick<Task, 'days' | 'everyDay'>): Calendar
  readonly office: Calendar
}

/** Place whose holidays are kept where the job does not say: those of the country of the rule set. */
export const USUAL_PLACE: Readonly<Record<Job['rules']['set'], string>> = { us: 'us', ca: 'ca', intl: 'none' }

export function calendarsOf(asked: {
  readonly within: DaySpan
  readonly place: string
  readonly closed: readonly ClosedTime[]
  readonly crew: ShopCrew
}): Calendars {
  const { within, place, closed, crew } = asked
  const freeOf = (at: string): ReadonlySet<number> => {
    const years = Array.from({ length: yearOf(within.toD) - yearOf(within.fromD) + 1 }, (_, i) => yearOf(within.fromD) + i)
    return new Set(years.flatMap((y) => holidays(at, y).map((h) => dayNumberD(h.date))))
  }
  const free = freeOf(place)
  const none: ReadonlySet<number> = new Set()
  const shopFree = crew.holidays === undefined || crew.holidays === place ? free : freeOf(crew.holidays)
  const spans = (kinds: readonly ClosedTime['what'][]): readonly DaySpan[] =>
    closed.filter((c) => kinds.includes(c.what)).map((c) => ({ fromD: dayNumberD(c.from), toD: dayNumberD(c.to) }))
  const made = new Map<string, Calendar>()
  const of = (task: Pick<Task, 'days' | 'everyDay'>): Calendar => {
    const name = `${task.days}${task.everyDay && task.days !== 'every day' ? ', weekends counted' : ''}`
    const known = made.get(name)
    if (known !== undefined) return known
    const stops = stopsOf(task.days)
    const trade = /^shop days of the (\w+)$/.exec(task.days)?.[1]
    const every = task.everyDay || task.days === 'every day'
    const own = (crew.closed ?? []).map((c) => ({ fromD: dayNumberD(c.from), toD: dayNumberD(c.to) }))
    const one = calendar({
      name,
      within,
      weekdays: every ? EVERY : trade === undefined ? WEEK : (crew.weekdays ?? WEEK),
      free: every ? none : trade === undefined ? free : shopFree,
      closed: [...spans(stops), ...(trade === undefined ? [] : own)],
      booked: (crew.booked ?? [])
        .filter((b) => b.trade === trade)
        .map((b) => ({ fromD: dayNumberD(b.from), toD: dayNumberD(b.to), shareFrac: b.shareFrac })),
    })
    made.set(name, one)
    return one
  }
  return { within, place, of, office: of({ days: 'office days', everyDay: false }) }
}

type Behind = ReadonlyMap<string, readonly string[]>
const NOBODY: Behind = new Map()

/** The chain as a network on its calendars; `behind`: whose crew each takes over. */
function networkOf(tasks: readonly Task[], calendars: Calendars, behind: Behind = NOBODY): readonly (Drawn & Crewed)[] {
  const at = new Map(tasks.map((t, i) => [t.id, i]))
  return tasks.map((t) => ({
    id: t.id,
    after: [...new Set([...t.after, ...(behind.get(t.id) ?? [])])].map((id) => at.get(id)!),
    calendar: calendars.of(t),
    takesDays: t.takes.likely,
    span: t.takes,
    ...(t.together === undefined ? {} : { together: t.together }),
    ...(t.crew === undefined ? {} : { crews: { [t.crew]: 1 } }),
    ...(t.notBeforeD === undefined ? {} : { notBeforeD: t.notBeforeD }),
    ...(t.doneD === undefined ? {} : { doneD: t.doneD }),
  }))
}

export interface Scheduled {
  /** The tasks, each behind those it waits for, its crew among them. What stands below is in this order. */
  readonly tasks: readonly Task[]
  readonly behind: Behind
  /** If every crew could do everything at once. */
  readonly alone: readonly Passed[]
  readonly net: readonly Drawn[]
  readonly passed: readonly Passed[]
  /** Such that the end of this chain itself does not move. */
  readonly own: readonly Passed[]
  /** Such that the day needed is kept; null: not known. */
  readonly kept: readonly Passed[] | null
  readonly end: number
  readonly interimEnd: number | null
  readonly liveD: number
  readonly interimD: number | null
}

/** A task takes the whole crew of its trade: there is one of each. */
const ONE_CREW = (): number => 1

/** The end that counts, and the interim where there is one. */
const endsOf = (tasks: readonly Task[]): readonly number[] => {
  const interim = tasks.findIndex((t) => t.id === 'interim-on')
  const end = tasks.findIndex((t) => t.id === 'switch-on')
  return interim < 0 ? [end] : [end, interim]
}

/** Crews put in order by the likely times. From then on that order stands: in what is latest, in slack, and in every draw. */
export function scheduled(given: readonly Task[], calendars: Calendars, fromD: number, neededD: number | null): Scheduled {
  const free = networkOf(given, calendars)
  const early = earliest(free, fromD)
  const last = (d: number): number => (d === Infinity ? calendars.within.toD + 1 : d)
  const ends = endsOf(given)
  const rule = latestStarts(free, ends, last(early[ends[0]!]!.finishD))
  const crews = levelled(free, fromD, ONE_CREW, rule)
  const order = orderOf(free, crews.behind)
  const tasks = order.map((i) => given[i]!)
  const behind = new Map(given.map((t, i) => [t.id, crews.behind[i]!.map((p) => given[p]!.id)]))
  const net = networkOf(tasks, calendars, behind)
  const passed = earliest(net, fromD)
  const [end, interim] = endsOf(tasks) as [number, number?]
  const liveD = passed[end]!.finishD
  return {
    ...{ tasks, behind, alone: order.map((i) => early[i]!), net, passed, end, liveD },
    own: latest(net, [end], last(liveD)),
    kept: neededD === null ? null : latest(net, endsOf(tasks), neededD + 1),
    interimEnd: interim ?? null,
    interimD: interim === undefined ? null : passed[interim]!.finishD,
  }
}

/** Last day of something that is over at a moment; null: never. */
export const lastDay = (finishD: number): string | null =>
  Number.isFinite(finishD) ? isoDay(Math.ceil(finishD - DAY_TOLERANCE_D) - 1) : null
/** Day on which something begins at a moment. */
export const firstDay = (startD: number): string | null =>
  Number.isFinite(startD) ? isoDay(Math.floor(startD + DAY_TOLERANCE_D)) : null

/** A tenth of a second of a day: sums differ in the last bits. */
const DAY_TOLERANCE_D = 1e-6

/** Working days of an office from one moment to another; negative when it lies before. */
export const officeDays = (calendars: Calendars, fromD: number, toD: number): number =>
  workAtDays(calendars.office, toD) - workAtDays(calendars.office, fromD)
