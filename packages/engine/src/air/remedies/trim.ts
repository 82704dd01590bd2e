import { type Allowed, ask, counts, failsByClause, judged, type SearchTask, type State } from './asking.ts'
import { KINDS } from './kinds.ts'
import { CHOICES } from './menu.ts'
import { airOf, firstOf, helping, key, optionAt, type Picks, strongest } from './sets.ts'

/** A set in which nothing fails. */
export interface Held {
  readonly picks: Picks
  readonly firstMoney: number
  readonly energyKWh: number
  readonly money: number
}

export const CENT = 0.005

/**
 * A set that holds, found from the other end: the strongest sets are tried, and what the first that holds can spare is taken from it, the
 * dearest first. Each step is judged by the cheap runs and the year in which little air passes; the whole is confirmed at the end, else the
 * step before it.
 */
export function trimmed(task: SearchTask, state: State, givenUp: Allowed): Held | null {
  const all = KINDS.flatMap((kind) => strongest(task.menu, kind))
  const tried = new Set<string>()
  const start = all.find((picks) => {
    if (tried.has(key(picks)) || state.hours >= task.mostH || failsByClause(state, picks, givenUp).length > 0) return false
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
      if (state.hours >= task.mostH || failsByClause(state, picks, givenUp).length > 0) continue
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
export function sparing(task: SearchTask, state: State, held: Held, givenUp: Allowed): Held {
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
  for (const picks of helping(task.menu, state.ways, held.picks, 'energy')) {
    const first = firstOf(task, picks)
    if (first >= held.money - CENT || state.hours >= task.mostH || failsByClause(state, picks, givenUp).length > 0) continue
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
