import type { AirDesign } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { AirFail, AirTried } from '../result.ts'
import { COAT_UNTOLD, opticsOf } from '../surface/optics.ts'
import { newHeap } from './heap.ts'
import type { Ask, Fail } from './judge.ts'
import { KINDS, type Kind, mayHelp } from './kinds.ts'
import { CHOICES, type Menu, type Option } from './menu.ts'
import { type Judge, type Screen, type Screens, screened } from './screens.ts'

/** What a kilowatt-hour of heater and fan costs, and for how many years it is paid. Null: not known, or not asked: first cost decides. */
export type EnergyPaid = { readonly moneyPerKWh: number; readonly years: number } | null

export interface SearchTask {
  readonly menu: Menu
  /** Set of what the menu leaves as it is. */
  readonly base: AirDesign
  readonly judge: Judge
  readonly screens: Screens
  readonly energy: EnergyPaid
  /** Hours of a box that may be run; what is best by then is taken. */
  readonly mostH: number
  /** Energy counts in every set, not only in those one choice away from the one that costs least at once: proven, and dear to find. */
  readonly everySet?: boolean
}

export interface Found extends AirTried {
  readonly air: AirDesign
}

type Picks = readonly number[]

interface Node {
  readonly picks: Picks
  readonly money: number
}

interface Held {
  readonly picks: Picks
  readonly firstMoney: number
  readonly energyKWh: number
  readonly money: number
}

interface Clause {
  readonly picks: Picks
  readonly kind: Kind
  readonly byRatio: number
}

/**
 * The set of measures that costs least among those in which nothing fails. Sets are taken in order of what they cost at once, from the one
 * that buys nothing; one that fails is followed by those that differ in one choice that may help what failed, so that every set worth trying
 * is met before a dearer one. A set that differs from a failed one in nothing that may help is passed over without a run. Cheap runs come
 * first (short runs, worst days, and days that a year was found to fail on); the whole year confirms. Where nothing holds, the kind of failure
 * that no choice mends is given up, and said.
 *
 * Ends by counted hours, never by the clock. Among sets of one cost the first by name.
 * @throws Fault `air/empty-menu`
 */
export function leastMeasures(task: SearchTask): Found {
  for (const choice of CHOICES) if (task.menu.options[choice].length === 0) throw new Fault('air/empty-menu', choice)
  const givenUp = new Map<Kind, number>()
  const state: State = {
    clauses: [],
    screens: [...task.screens.first],
    kills: new Map(),
    known: new Map(),
    hours: 0,
    runsCount: 0,
    years: 0,
    sets: new Set(),
  }
  for (const kind of KINDS) {
    const byRatio = leastReached(task, state, kind)
    if (byRatio > 0) givenUp.set(kind, byRatio + 1)
  }
  for (;;) {
    const round = searchRound(task, state, givenUp)
    const last = round.held !== null || round.stuck === null || round.spent
    if (!last) {
      const stuck = round.stuck as Kind
      const byRatio = leastReached(task, state, stuck)
      givenUp.set(stuck, givenUp.has(stuck) || byRatio === 0 ? Number.POSITIVE_INFINITY : byRatio + 1)
      continue
    }
    const held = round.held ?? (round.spent ? trimmed(task, state, givenUp) : null)
    const picks = held?.picks ?? round.nearest
    const still = held !== null && givenUp.size === 0 ? [] : stillFails(task, state, picks)
    return {
      air: airOf(task, picks),
      chosen: CHOICES.map((choice, i) => optionAt(task, choice, picks[i]!).said),
      holds: held !== null && still.length === 0,
      still,
      firstMoney: firstOf(task, picks),
      yearlyKWh: held?.energyKWh ?? null,
      overStayMoney: held === null || task.energy === null ? null : held.money,
      ...{ setsTriedCount: state.sets.size, runsCount: state.runsCount, yearsCount: state.years, hoursRunH: state.hours },
      setsPassedCount: round.passed,
      setsOnMenuCount: CHOICES.reduce((product, choice) => product * task.menu.options[choice].length, 1),
      proven: held !== null && !round.spent,
      unpriced: task.menu.unpriced,
    }
  }
}

/** Kinds that no set is free of: what stays is allowed up to a step more than the strongest sets leave. */
type Allowed = ReadonlyMap<Kind, number>
const counts = (allowed: Allowed, { kind, byRatio }: Pick<Fail, 'kind' | 'byRatio'>): boolean =>
  byRatio > (allowed.get(kind) ?? 0)

export interface State {
  readonly clauses: Clause[]
  /** First runs, and those that a failed year taught. */
  readonly screens: Screen[]
  /** How often each run found a failure: the keenest is asked first. */
  readonly kills: Map<string, number>
  /** Answers by set and run. */
  readonly known: Map<string, Answer>
  hours: number
  runsCount: number
  years: number
  readonly sets: Set<string>
}

interface Answer {
  readonly fails: readonly Fail[]
  readonly energyKWh: number
}

interface Round {
  readonly held: Held | null
  readonly nearest: Picks
  /** Kind that ended most ways; null: none did. */
  readonly stuck: Kind | null
  readonly spent: boolean
  readonly passed: number
}

const key = (picks: Picks): string => picks.join(' ')
const optionAt = (task: SearchTask, choice: (typeof CHOICES)[number], at: number): Option =>
  task.menu.options[choice][at] as Option
const firstOf = (task: SearchTask, picks: Picks): number =>
  Math.round(100 * CHOICES.reduce((sum, choice, i) => sum + optionAt(task, choice, picks[i]!).money, 0)) / 100

export const airOf = (task: Pick<SearchTask, 'menu' | 'base'>, picks: Picks): AirDesign =>
  CHOICES.reduce((air, choice, i) => ({ ...air, ...(task.menu.options[choice][picks[i]!] as Option).takes }), task.base)

function searchRound(task: SearchTask, state: State, givenUp: Allowed): Round {
  const heap = newHeap<Node>((a, b) => a.money - b.money || (key(a.picks) < key(b.picks) ? -1 : 1))
  const seen = new Set<string>()
  const ended = new Map<Kind, number>()
  let held: Held | null = null
  let nearest: { readonly picks: Picks; readonly by: number } | null = null
  let [passed, spent] = [0, false]
  const push = (picks: Picks) => {
    const id = key(picks)
    if (seen.has(id)) return
    seen.add(id)
    heap.push({ picks, money: firstOf(task, picks) })
  }
  const expand = (picks: Picks, kind: Kind | 'energy'): number => {
    let count = 0
    for (const next of helping(task, picks, kind)) {
      count += 1
      push(next)
    }
    return count
  }
  push(CHOICES.map(() => 0))
  for (let node = heap.pop(); node !== null; node = heap.pop()) {
    if (held !== null && node.money >= held.money - CENT) break
    const { picks } = node
    const fails = failsByClause(task, state, picks, givenUp)
    if (fails.length > 0) {
      passed += 1
      follow(task, picks, fails, expand, ended)
      continue
    }
    if (state.hours >= task.mostH * SEEK_SHARE) {
      spent = true
      break
    }
    const answer = judged(task, state, picks, givenUp)
    const wrong = answer.fails.filter((f) => counts(givenUp, f))
    if (wrong.length > 0) {
      const by = wrong.reduce((sum, f) => sum + 1 + f.byRatio, 0)
      if (answer.whole && (nearest === null || by < nearest.by - 1e-9)) nearest = { picks, by }
      follow(
        task,
        picks,
        wrong.map((f) => f.kind),
        expand,
        ended,
      )
      continue
    }
    const { energy } = task
    const money = node.money + (energy === null ? 0 : answer.energyKWh * energy.moneyPerKWh * energy.years)
    if (held === null || money < held.money - CENT) held = { picks, firstMoney: node.money, energyKWh: answer.energyKWh, money }
    if (energy === null) break
    if (task.everySet !== true) {
      held = sparing(task, state, held, givenUp)
      break
    }
    if (answer.energyKWh > 0) expand(picks, 'energy')
  }
  const stuck = [...ended].toSorted((a, b) => b[1] - a[1] || KINDS.indexOf(a[0]) - KINDS.indexOf(b[0]))[0]?.[0] ?? null
  return { held, nearest: nearest?.picks ?? CHOICES.map(() => 0), stuck, spent, passed }
}
const CENT = 0.005
/** Of the hours that may be run, so many go into the search in order of cost; the rest trims a set that holds, where none was found. */
const SEEK_SHARE = 0.6

/** Sets that do most against one kind: with the least and with the most of what may turn either way. */
export function strongest(menu: Menu, kind: Kind): readonly Picks[] {
  const most = (choice: (typeof CHOICES)[number], rank: (takes: Option['takes']) => number): number => {
    const options = menu.options[choice]
    return options.reduce((best, o, at) => (rank(o.takes) > rank(options[best]!.takes) ? at : best), 0)
  }
  const vents = ({ vents: of = [] }: Option['takes']): number => of.reduce((sum, v) => sum + v.widthMm * v.heightMm, 0) / 1e6
  const foamM = (t: Option['takes']): number => (t.roofFoamM ?? 0) + (t.wallFoamM ?? 0) + (t.bridgesFoamed === true ? 0.001 : 0)
  const watts = ({ heater }: Option['takes']): number => (heater == null ? 0 : heater.powerW + (heater.humidistat ? 1 : 0))
  const light = (t: Option['takes']): number => -opticsOf(t.roofPaint ?? t.wallPaint ?? COAT_UNTOLD, 3).absorptanceFrac
  const heaters: readonly number[] =
    kind === 'hot'
      ? [most('heater', (t) => -watts(t) - (t.heater?.at === 'cabinet' ? 1e6 : 0))]
      : [
          most('heater', (t) => watts(t) + (t.heater?.at === 'cabinet' ? 1e6 : 0)),
          most('heater', (t) => watts(t) + (t.heater?.at === 'room' ? 1e6 : 0)),
        ]
  const airs =
    kind === 'hot'
      ? [most('air', (t) => vents(t) + (t.fan == null ? 0 : 10 + t.fan.powerW))]
      : [
          most('air', (t) => -vents(t) - (t.winterOpenFrac ?? 1)),
          most('air', (t) => vents(t) + (t.fan?.byHumidity === true ? 10 : 0)),
        ]
  const foams = [most('foam', foamM), most('foam', (t) => -foamM(t))]
  const paint = (choice: 'roof paint' | 'wall paint') => most(choice, (t) => (kind === 'hot' ? light(t) : -light(t)))
  return heaters.flatMap((heater) =>
    airs.flatMap((air) =>
      foams.map((foam): Picks => {
        const at: Readonly<Record<(typeof CHOICES)[number], number>> = {
          ...{ 'roof paint': paint('roof paint'), 'wall paint': paint('wall paint'), air, foam, heater },
          'second roof': most('second roof', (t) => (t.secondRoof === true ? 1 : 0)),
          'drip hood': most('drip hood', (t) => (t.dripHood === true ? 1 : 0)),
          'floor paint': most('floor paint', (t) => (t.floorPainted === true ? 1 : 0)),
        }
        return CHOICES.map((choice) => at[choice])
      }),
    ),
  )
}

/** By how much a kind of failure stays whatever is done: the least of the strongest sets, each by its worst first run. 0: one is free of it. */
function leastReached(task: SearchTask, state: State, kind: Kind): number {
  let least = Number.POSITIVE_INFINITY
  for (const picks of strongest(task.menu, kind)) {
    const air = airOf(task, picks)
    let worst = 0
    for (const screen of task.screens.first) {
      if (!screen.asks.includes(ASKED_BY[kind])) continue
      const fail = ask(task, state, picks, air, screen).fails.find((f) => f.kind === kind)
      worst = Math.max(worst, fail?.byRatio ?? 0)
      if (worst >= least) break
    }
    least = Math.min(least, worst)
    if (least === 0) return 0
  }
  return least
}
const ASKED_BY: Readonly<Record<Kind, Ask>> = {
  ...{
    hot: 'hot',
    cold: 'cold',
    'room cold': 'cold',
    drip: 'wet',
    dew: 'wet',
    roof: 'roof',
    humid: 'long',
    mould: 'long',
    heater: 'long',
  },
}

/**
 * A set that holds, found from the other end: the strongest sets are tried, and what the first that holds can spare is taken from it, the
 * dearest first. Each step is judged by the cheap runs and the year in which little air passes; the whole is confirmed at the end, else the
 * step before it.
 */
function trimmed(task: SearchTask, state: State, givenUp: Allowed): Held | null {
  const all = KINDS.flatMap((kind) => strongest(task.menu, kind))
  const tried = new Set<string>()
  const start = all.find((picks) => {
    if (tried.has(key(picks)) || state.hours >= task.mostH || failsByClause(task, state, picks, givenUp).length > 0) return false
    tried.add(key(picks))
    return judged(task, state, picks, givenUp).fails.every((f) => !counts(givenUp, f))
  })
  if (start === undefined) return null
  const steps: Picks[] = [start]
  let now = start
  const dearest = CHOICES.map((choice, i) => ({ i, choice, money: optionAt(task, choice, start[i]!).money })).toSorted(
    (a, b) => b.money - a.money || a.i - b.i,
  )
  for (const { i } of dearest)
    for (let at = 0; at < now[i]!; at += 1) {
      const picks = now.with(i, at)
      if (state.hours >= task.mostH || failsByClause(task, state, picks, givenUp).length > 0) continue
      if (judged(task, state, picks, givenUp, 1).fails.some((f) => counts(givenUp, f))) continue
      now = picks
      steps.push(now)
      break
    }
  for (const picks of steps.toReversed()) {
    const answer = judged(task, state, picks, givenUp)
    if (answer.fails.some((f) => counts(givenUp, f))) continue
    const { energy } = task
    const firstMoney = firstOf(task, picks)
    return {
      ...{ picks, firstMoney, energyKWh: answer.energyKWh },
      money: firstMoney + (energy === null ? 0 : answer.energyKWh * energy.moneyPerKWh * energy.years),
    }
  }
  return null
}

/** Runs by which energy is compared: hard cold, and nights about freezing. */
const WARMED: ReadonlySet<string> = new Set(['cold spell, cold', 'clear calm nights, cold'])
/** Confirmed at most, of sets that may cost less over the stay. */
const SPARES = 2

/**
 * The set that costs least at once, or one that differs in one choice and costs less over the stay. What each would take is judged by two
 * short runs of the leaky end, in proportion; the likeliest are confirmed by the year.
 */
function sparing(task: SearchTask, state: State, held: Held, givenUp: Allowed): Held {
  const { energy } = task
  if (energy === null || held.energyKWh === 0) return held
  const perKWh = energy.moneyPerKWh * energy.years
  const runs = task.screens.first.filter((s) => WARMED.has(s.id))
  const taken = (picks: Picks): number | null => {
    let kWh = 0
    const air = airOf(task, picks)
    for (const screen of runs) {
      const answer = ask(task, state, picks, air, screen)
      if (answer.fails.some((f) => counts(givenUp, f))) return null
      kWh += answer.energyKWh
    }
    return kWh
  }
  const here = taken(held.picks) ?? 0
  if (here <= 0) return held
  const likely: { readonly picks: Picks; readonly money: number }[] = []
  for (const picks of helping(task, held.picks, 'energy')) {
    const first = firstOf(task, picks)
    if (first >= held.money - CENT || state.hours >= task.mostH || failsByClause(task, state, picks, givenUp).length > 0) continue
    const kWh = taken(picks)
    if (kWh === null) continue
    const money = first + (kWh / here) * held.energyKWh * perKWh
    if (money < held.money - 1) likely.push({ picks, money })
  }
  let best = held
  for (const { picks } of likely
    .toSorted((a, b) => a.money - b.money || (key(a.picks) < key(b.picks) ? -1 : 1))
    .slice(0, SPARES)) {
    const answer = judged(task, state, picks, givenUp)
    const firstMoney = firstOf(task, picks)
    const money = firstMoney + answer.energyKWh * perKWh
    if (answer.fails.every((f) => !counts(givenUp, f)) && money < best.money - CENT)
      best = { picks, firstMoney, energyKWh: answer.energyKWh, money }
  }
  return best
}

/** Goes on from a failed set by the kind with the fewest ways out; a kind without any ends the way. */
function follow(
  task: SearchTask,
  picks: Picks,
  kinds: readonly Kind[],
  expand: (picks: Picks, kind: Kind) => number,
  ended: Map<Kind, number>,
): void {
  const ways = kinds.map((kind) => ({ kind, count: [...helping(task, picks, kind)].length }))
  const least = ways.reduce((a, b) => (b.count < a.count ? b : a))
  if (least.count === 0) ended.set(least.kind, (ended.get(least.kind) ?? 0) + 1)
  else expand(picks, least.kind)
}

/** Sets that differ in one choice which may help. */
function* helping(task: SearchTask, picks: Picks, kind: Kind | 'energy'): Generator<Picks> {
  for (const [i, choice] of CHOICES.entries()) {
    const options = task.menu.options[choice]
    const from = options[picks[i]!]!.takes
    for (let at = 0; at < options.length; at += 1)
      if (at !== picks[i] && mayHelp(kind, choice, from, options[at]!.takes)) yield picks.with(i, at)
  }
}

/** Kinds that a set is known to fail by because another one did that differs in nothing that may help. */
function failsByClause(task: SearchTask, { clauses }: State, picks: Picks, givenUp: Allowed): readonly Kind[] {
  const out = new Set<Kind>()
  for (const clause of clauses) {
    if (out.has(clause.kind) || !counts(givenUp, clause)) continue
    const escapes = CHOICES.some(
      (choice, i) =>
        picks[i] !== clause.picks[i] &&
        mayHelp(clause.kind, choice, optionAt(task, choice, clause.picks[i]!).takes, optionAt(task, choice, picks[i]!).takes),
    )
    if (!escapes) out.add(clause.kind)
  }
  return [...out]
}

interface Judged extends Answer {
  /** It came as far as a year. */
  readonly whole: boolean
}

/** Runs a set until something fails: the cheap runs by how often they told, then the year at each end. */
function judged(task: SearchTask, state: State, picks: Picks, givenUp: Allowed, years = task.screens.years.length): Judged {
  const air = airOf(task, picks)
  const order = state.screens
    .map((screen, at) => ({ screen, at, keen: ((state.kills.get(screen.id) ?? 0) + 0.5) / screen.hoursCount }))
    .toSorted((a, b) => b.keen - a.keen || a.at - b.at)
  for (const { screen } of order) {
    const { fails } = ask(task, state, picks, air, screen)
    if (fails.some((f) => counts(givenUp, f))) return { fails, energyKWh: 0, whole: false }
  }
  const { energy } = { energy: { kWh: 0 } }
  for (const screen of task.screens.years.slice(0, years)) {
    const answer = ask(task, state, picks, air, screen)
    energy.kWh = Math.max(energy.kWh, answer.energyKWh)
    const wrong = answer.fails.filter((f) => counts(givenUp, f))
    if (wrong.length === 0) continue
    for (const fail of wrong) if (SHORT.has(fail.kind)) learnDays(task, state, picks, air, screen, fail)
    return { fails: answer.fails, energyKWh: 0, whole: true }
  }
  return { fails: [], energyKWh: energy.kWh, whole: true }
}

/** Kinds that come of days, not of months. */
const SHORT: ReadonlySet<Kind> = new Set(['hot', 'cold', 'room cold', 'drip', 'dew', 'roof'])
const LEADS_H = [168, 720, 1440] as const

/** Days of the year that show a failure join the cheap runs, if a run of them alone shows it. */
function learnDays(task: SearchTask, state: State, picks: Picks, air: AirDesign, year: Screen, fail: Fail): void {
  for (const atH of [fail.atH, ...fail.alsoAtH])
    for (const leadH of LEADS_H) {
      const days = task.screens.before(year, fail.kind, atH, leadH)
      if (state.screens.some((s) => s.id === days.id)) break
      const { fails } = ask(task, state, picks, air, days)
      if (!fails.some((f) => f.kind === fail.kind)) continue
      state.screens.push(days)
      break
    }
}

/** One run of one set, kept; what fails in it is learned. */
function ask(task: SearchTask, state: State, picks: Picks, air: AirDesign, screen: Screen): Answer {
  const id = `${key(picks)} | ${screen.id}`
  const known = state.known.get(id)
  if (known !== undefined) return known
  const { fails, run } = screened(task.judge, screen, air)
  const answer = { fails, energyKWh: run.heaterKWh + run.fanKWh }
  state.known.set(id, answer)
  state.hours += screen.hoursCount
  state.runsCount += 1
  if (screen.whole) state.years += 1
  state.sets.add(key(picks))
  if (fails.length > 0) state.kills.set(screen.id, (state.kills.get(screen.id) ?? 0) + 1)
  for (const { kind, byRatio } of fails) state.clauses.push({ picks, kind, byRatio })
  return answer
}

/** Everything that fails of a set, by every run. */
export function stillFails(task: SearchTask, state: State, picks: Picks): readonly AirFail[] {
  const air = airOf(task, picks)
  const worst = new Map<Kind, AirFail>()
  for (const screen of [...task.screens.first, ...task.screens.years])
    for (const fail of ask(task, state, picks, air, screen).fails)
      if ((worst.get(fail.kind)?.byRatio ?? -1) < fail.byRatio)
        worst.set(fail.kind, { kind: fail.kind, byRatio: fail.byRatio, in: screen.id })
  return [...worst.values()].toSorted((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind))
}
