import type { AirDesign } from '../../job/index.ts'
import type { AirFail } from '../result.ts'
import type { Fail } from './judge.ts'
import { KINDS, type Kind } from './kinds.ts'
import { CHOICES } from './menu.ts'
import { type Judge, type Screen, type Screens, screened } from './screens.ts'
import { airOf, key, type MenuTask, type Picks, type Ways } from './sets.ts'

/** What a kilowatt-hour of heater and fan costs, and for how many years it is paid. Null: not known, or not asked: first cost decides. */
export type EnergyPaid = { readonly moneyPerKWh: number; readonly years: number } | null

export interface SearchTask extends MenuTask {
  readonly judge: Judge
  readonly screens: Screens
  readonly energy: EnergyPaid
  /** Hours of a box that may be run; what is best by then is taken. */
  readonly mostH: number
  /** Energy counts in every set, not only in those one choice away from the one that costs least at once: proven, and dear to find. */
  readonly everySet?: boolean
}

interface Clause {
  readonly picks: Picks
  readonly kind: Kind
  readonly byRatio: number
}

/** Kinds that no set is free of: what stays is allowed up to a step more than the strongest sets leave. */
export type Allowed = ReadonlyMap<Kind, number>
export const counts = (allowed: Allowed, { kind, byRatio }: Pick<Fail, 'kind' | 'byRatio'>): boolean =>
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
  readonly ways: Ways
}

export interface Answer {
  readonly fails: readonly Fail[]
  readonly energyKWh: number
}

/** Kinds that a set is known to fail by because another one did that differs in nothing that may help. */
export function failsByClause(
  { clauses, ways }: Pick<State, 'clauses' | 'ways'>,
  picks: Picks,
  givenUp: Allowed,
): readonly Kind[] {
  const out = new Set<Kind>()
  for (const clause of clauses) {
    if (out.has(clause.kind) || !counts(givenUp, clause)) continue
    let escapes = false
    for (let i = 0; i < CHOICES.length && !escapes; i += 1)
      escapes = picks[i] !== clause.picks[i] && ways(clause.kind, i, clause.picks[i]!, picks[i]!)
    if (!escapes) out.add(clause.kind)
  }
  return [...out]
}

interface Judged extends Answer {
  /** It came as far as a year. */
  readonly whole: boolean
}

/** Runs a set until something fails: the cheap runs by how often they told, then the year at each end. */
export function judged(
  task: SearchTask,
  state: State,
  picks: Picks,
  givenUp: Allowed,
  years = task.screens.years.length,
): Judged {
  const air = airOf(task, picks)
  const order = state.screens
    .map((screen, at) => ({ screen, at, keen: ((state.kills.get(screen.id) ?? 0) + 0.5) / screen.hoursCount }))
    .toSorted((a, b) => b.keen - a.keen || a.at - b.at)
  for (const { screen } of order) {
    const { fails } = ask(task, state, picks, air, screen)
    if (fails.some((f) => counts(givenUp, f))) return { fails, energyKWh: 0, whole: false }
  }
  let energyKWh = 0
  for (const screen of task.screens.years.slice(0, years)) {
    const answer = ask(task, state, picks, air, screen)
    energyKWh = Math.max(energyKWh, answer.energyKWh)
    const wrong = answer.fails.filter((f) => counts(givenUp, f))
    if (wrong.length === 0) continue
    for (const fail of wrong) if (SHORT.has(fail.kind)) learnDays(task, state, picks, air, screen, fail)
    return { fails: answer.fails, energyKWh: 0, whole: true }
  }
  return { fails: [], energyKWh, whole: true }
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
export function ask(task: SearchTask, state: State, picks: Picks, air: AirDesign, screen: Screen): Answer {
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
