import type { AirDesign } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { AirTried } from '../result.ts'
import { type Allowed, ask, counts, failsByClause, judged, type SearchTask, type State, stillFails } from './asking.ts'
import { newHeap } from './heap.ts'
import type { Ask } from './judge.ts'
import { KINDS, type Kind } from './kinds.ts'
import { CHOICES } from './menu.ts'
import { airOf, firstOf, helping, key, optionAt, type Picks, strongest, type Ways, waysOf } from './sets.ts'
import { CENT, type Held, sparing, trimmed } from './trim.ts'

export interface Found extends AirTried {
  readonly air: AirDesign
}

interface Node {
  readonly id: string
  readonly picks: Picks
  readonly money: number
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
    ways: waysOf(task.menu),
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

interface Round {
  readonly held: Held | null
  readonly nearest: Picks
  /** Kind that ended most ways; null: none did. */
  readonly stuck: Kind | null
  readonly spent: boolean
  readonly passed: number
}

function searchRound(task: SearchTask, state: State, givenUp: Allowed): Round {
  const heap = newHeap<Node>((a, b) => a.money - b.money || (a.id < b.id ? -1 : 1))
  const seen = new Set<string>()
  const ended = new Map<Kind, number>()
  let held: Held | null = null
  let nearest: { readonly picks: Picks; readonly by: number } | null = null
  let [passed, spent] = [0, false]
  const push = (picks: Picks) => {
    const id = key(picks)
    if (seen.has(id)) return
    seen.add(id)
    heap.push({ id, picks, money: firstOf(task, picks) })
  }
  const expand = (picks: Picks, kind: Kind | 'energy'): number => {
    let count = 0
    for (const next of helping(task.menu, state.ways, picks, kind)) {
      count += 1
      push(next)
    }
    return count
  }
  push(CHOICES.map(() => 0))
  for (let node = heap.pop(); node !== null; node = heap.pop()) {
    if (held !== null && node.money >= held.money - CENT) break
    const { picks } = node
    const fails = failsByClause(state, picks, givenUp)
    if (fails.length > 0) {
      passed += 1
      follow(task, state.ways, picks, fails, expand, ended)
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
        state.ways,
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
/** Of the hours that may be run, so many go into the search in order of cost; the rest trims a set that holds, where none was found. */
const SEEK_SHARE = 0.6

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

/** Goes on from a failed set by the kind with the fewest ways out; a kind without any ends the way. */
function follow(
  task: SearchTask,
  ways: Ways,
  picks: Picks,
  kinds: readonly Kind[],
  expand: (picks: Picks, kind: Kind) => number,
  ended: Map<Kind, number>,
): void {
  const out = kinds.map((kind) => ({ kind, count: [...helping(task.menu, ways, picks, kind)].length }))
  const least = out.reduce((a, b) => (b.count < a.count ? b : a))
  if (least.count === 0) ended.set(least.kind, (ended.get(least.kind) ?? 0) + 1)
  else expand(picks, least.kind)
}
