import type { Leg } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'

/** A circuit to be put on a leg. */
export interface BalanceItem {
  readonly id: string
  /** Sets of legs it may take; one set: it is fixed. */
  readonly options: readonly (readonly Leg[])[]
  /** Current at each quarter hour as staged, A. */
  readonly profileA: readonly number[]
  /** Everything on, A. */
  readonly allOnA: number
}

export interface BalanceTask {
  readonly legs: readonly Leg[]
  /** In an order that does not hang on names: ties fall by it. */
  readonly items: readonly BalanceItem[]
  /** What a leg may carry with everything on. Infinity where an interlock holds the sum. */
  readonly allOnLimitA: number
}

export interface Balanced {
  readonly legsOf: Readonly<Record<string, readonly Leg[]>>
  /** Everything on, over the limit; 0 when it is kept. */
  readonly overA: number
  /** Largest leg of the day. */
  readonly peakA: number
  /** No assignment has a lower peak (among those with the least `overA`, when proven). */
  readonly boundA: number
  /** Sum over the day and the legs of current², A²: with fixed totals it orders assignments as the imbalance does. */
  readonly sumOfSquaresA2: number
  readonly proven: boolean
  readonly triedCount: number
}

/** Nodes of the search before it gives up and states its gap. Counted work, never the clock. */
const NODES = 20_000

/**
 * Legs for each circuit so that, in this order: everything on stays within the limit (or exceeds it least), the worst leg of the day is
 * least, and the sum of squares of the imbalance over the day is least. Currents are whole milliamperes inside, so no choice hangs on
 * last bits. Branch and bound from a greedy start mended by moves and swaps; where the nodes run out the best found stands, with a bound.
 *
 *   bound = max over t of max(ΣI_t / legs, I_k,t · ⌈k/legs⌉ for the k-th largest)
 *
 * @throws Fault `circuits/balance-options` when a circuit has no legs to choose from
 */
export function balancedLegs(task: BalanceTask, nodes = NODES): Balanced {
  const grid = gridOf(task)
  const greedy = improved(grid, greedyStart(grid))
  const search = branchAndBound(grid, greedy, nodes)
  const best = search.best
  const rootBound = Math.max(...rootBounds(grid))
  return {
    legsOf: Object.fromEntries(task.items.map((item, i) => [item.id, item.options[best.choice[grid.place[i] ?? 0] ?? 0] ?? []])),
    overA: best.over / MILLI,
    peakA: best.peak / MILLI,
    boundA: (search.proven ? best.peak : Math.min(rootBound, best.peak)) / MILLI,
    sumOfSquaresA2: best.squares / MILLI / MILLI,
    proven: search.proven || (best.over === 0 && best.peak <= rootBound),
    triedCount: search.tried,
  }
}

/** No assignment of legs has a lower peak than this: by energy at each moment, and by how many of the largest must share a leg. */
export const peakBoundA = (task: BalanceTask): number => Math.max(...rootBounds(gridOf(task))) / MILLI

const MILLI = 1000

/** Distinct moments only: two quarter hours at which the same circuits run are one column with weight two. */
interface Grid {
  readonly legs: number
  readonly count: number
  readonly slots: number
  readonly weight: readonly number[]
  /** Index of an item of the task in the search order, and options as leg numbers, in search order. */
  readonly place: readonly number[]
  readonly options: readonly (readonly (readonly number[])[])[]
  /** Current of item i at slot s, mA: `i·slots + s`. */
  readonly current: Float64Array
  readonly allOn: Float64Array
  /** ΣI over the legs at a slot once everything is placed. */
  readonly total: Float64Array
  readonly totalAllOn: number
  readonly limit: number
  /** Item has the same options and currents as the one before it. */
  readonly twin: readonly boolean[]
}

function gridOf(task: BalanceTask): Grid {
  for (const item of task.items) if (item.options.length === 0) throw new Fault('circuits/balance-options', item.id)
  const milli = task.items.map((item) => ({
    profile: item.profileA.map((a) => Math.round(a * MILLI)),
    allOn: Math.round(item.allOnA * MILLI),
    options: item.options.map((legs) => legs.map((leg) => task.legs.indexOf(leg))),
  }))
  const order = milli
    .map((_, i) => i)
    .sort((a, b) => {
      const x = milli[a]!,
        y = milli[b]!
      const free = (x.options.length > 1 ? 1 : 0) - (y.options.length > 1 ? 1 : 0)
      return free || y.allOn - x.allOn || Math.max(0, ...y.profile) - Math.max(0, ...x.profile) || a - b
    })
  const place = new Array<number>(order.length)
  order.forEach((original, position) => {
    place[original] = position
  })
  const columns = new Map<string, { readonly at: number; weight: number }>()
  const profiles = order.map((i) => milli[i]!.profile)
  const length = Math.max(0, ...profiles.map((p) => p.length))
  let last: { readonly at: number; weight: number } | undefined
  for (let t = 0; t < length; t++) {
    if (last !== undefined && sameMoment(profiles, t - 1, t)) {
      last.weight++
      continue
    }
    const key = profiles.map((p) => p[t] ?? 0).join()
    last = columns.get(key)
    if (last === undefined) {
      last = { at: t, weight: 1 }
      columns.set(key, last)
    } else last.weight++
  }
  const distinct = [...columns.values()]
  const slots = distinct.length
  const current = new Float64Array(order.length * slots)
  distinct.forEach((column, s) => {
    profiles.forEach((p, i) => {
      current[i * slots + s] = p[column.at] ?? 0
    })
  })
  const options = order.map((i) => milli[i]!.options)
  const total = new Float64Array(slots)
  let totalAllOn = 0
  const allOn = new Float64Array(order.length)
  order.forEach((original, i) => {
    const legs = options[i]![0]!.length
    allOn[i] = milli[original]!.allOn
    totalAllOn += legs * allOn[i]!
    for (let s = 0; s < slots; s++) total[s]! += legs * current[i * slots + s]!
  })
  const twin = order.map((_, i) => {
    if (i === 0 || allOn[i] !== allOn[i - 1] || options[i]!.join('|') !== options[i - 1]!.join('|')) return false
    for (let s = 0; s < slots; s++) if (current[i * slots + s] !== current[(i - 1) * slots + s]) return false
    return true
  })
  const limit = Number.isFinite(task.allOnLimitA) ? Math.round(task.allOnLimitA * MILLI) : Infinity
  return {
    legs: task.legs.length,
    count: order.length,
    slots,
    weight: distinct.map((c) => c.weight),
    place,
    options,
    current,
    allOn,
    total,
    totalAllOn,
    limit,
    twin,
  }
}

function sameMoment(profiles: readonly (readonly number[])[], a: number, b: number): boolean {
  for (const p of profiles) if (p[a] !== p[b]) return false
  return true
}

interface State {
  readonly choice: Int32Array
  readonly over: number
  readonly peak: number
  readonly squares: number
}

interface Load {
  /** Leg l at slot s, mA: `l·slots + s`. */
  readonly at: Float64Array
  readonly allOn: Float64Array
}

const emptyLoad = (grid: Grid): Load => ({ at: new Float64Array(grid.legs * grid.slots), allOn: new Float64Array(grid.legs) })

function put(grid: Grid, load: Load, item: number, option: number, sign: 1 | -1): void {
  for (const leg of grid.options[item]![option]!) {
    load.allOn[leg]! += sign * grid.allOn[item]!
    for (let s = 0; s < grid.slots; s++) load.at[leg * grid.slots + s]! += sign * grid.current[item * grid.slots + s]!
  }
}

function overOf(grid: Grid, load: Load): number {
  let worst = 0
  for (const a of load.allOn) worst = Math.max(worst, a)
  return Math.max(0, worst - grid.limit)
}

function peakOf(load: Load): number {
  let worst = 0
  for (const a of load.at) worst = Math.max(worst, a)
  return worst
}

function squaresOf(grid: Grid, load: Load): number {
  let sum = 0
  for (let l = 0; l < grid.legs; l++) {
    for (let s = 0; s < grid.slots; s++) {
      const a = load.at[l * grid.slots + s]!
      sum += grid.weight[s]! * a * a
    }
  }
  return sum
}

const stateOf = (grid: Grid, load: Load, choice: Int32Array): State => ({
  choice: Int32Array.from(choice),
  over: overOf(grid, load),
  peak: peakOf(load),
  squares: squaresOf(grid, load),
})

const better = (a: Omit<State, 'choice'>, b: Omit<State, 'choice'>): boolean =>
  a.over !== b.over ? a.over < b.over : a.peak !== b.peak ? a.peak < b.peak : a.squares < b.squares

function greedyStart(grid: Grid): State {
  const load = emptyLoad(grid)
  const choice = new Int32Array(grid.count)
  for (let i = 0; i < grid.count; i++) {
    let best: Omit<State, 'choice'> | null = null
    for (let o = 0; o < grid.options[i]!.length; o++) {
      put(grid, load, i, o, 1)
      const here = { over: overOf(grid, load), peak: peakOf(load), squares: squaresOf(grid, load) }
      put(grid, load, i, o, -1)
      if (best === null || better(here, best)) {
        best = here
        choice[i] = o
      }
    }
    put(grid, load, i, choice[i]!, 1)
  }
  return stateOf(grid, load, choice)
}

/** Moves of one circuit and swaps of two until none helps, or eight rounds. */
function improved(grid: Grid, start: State): State {
  const load = emptyLoad(grid)
  const choice = Int32Array.from(start.choice)
  for (let i = 0; i < grid.count; i++) put(grid, load, i, choice[i]!, 1)
  let best = start
  const tryWith = (change: () => void, undo: () => void): boolean => {
    change()
    const here = { over: overOf(grid, load), peak: peakOf(load), squares: squaresOf(grid, load) }
    if (better(here, best)) {
      best = { choice: Int32Array.from(choice), ...here }
      return true
    }
    undo()
    return false
  }
  const set = (i: number, o: number) => {
    put(grid, load, i, choice[i]!, -1)
    choice[i] = o
    put(grid, load, i, o, 1)
  }
  for (let round = 0, moved = true; moved && round < 8; round++) {
    moved = false
    for (let i = 0; i < grid.count; i++) {
      const options = grid.options[i]!.length
      for (let o = 0; o < options; o++) {
        const old = choice[i]!
        if (
          o !== old &&
          tryWith(
            () => set(i, o),
            () => set(i, old),
          )
        )
          moved = true
      }
      for (let k = i + 1; k < grid.count; k++) {
        const a = choice[i]!,
          b = choice[k]!
        if (
          a === b ||
          options < 2 ||
          grid.options[k]!.length !== options ||
          grid.options[i]![0]!.length !== grid.options[k]![0]!.length
        )
          continue
        if (
          tryWith(
            () => {
              set(i, b)
              set(k, a)
            },
            () => {
              set(i, a)
              set(k, b)
            },
          )
        )
          moved = true
      }
    }
  }
  return best
}

function rootBounds(grid: Grid): number[] {
  const bounds = [0]
  for (let s = 0; s < grid.slots; s++) {
    bounds.push(Math.ceil(grid.total[s]! / grid.legs))
    const here: number[] = []
    for (let i = 0; i < grid.count; i++)
      for (let n = 0; n < grid.options[i]![0]!.length; n++) here.push(grid.current[i * grid.slots + s]!)
    here.sort((a, b) => b - a)
    here.forEach((a, k) => {
      bounds.push(a * Math.ceil((k + 1) / grid.legs))
    })
  }
  return bounds
}

function branchAndBound(
  grid: Grid,
  start: State,
  nodes: number,
): { readonly best: State; readonly proven: boolean; readonly tried: number } {
  const load = emptyLoad(grid)
  const choice = new Int32Array(grid.count)
  const left = Float64Array.from(grid.total)
  let best = start
  let tried = 0
  let open = true
  let evenPeak = 0
  for (let s = 0; s < grid.slots; s++) evenPeak = Math.max(evenPeak, Math.ceil(grid.total[s]! / grid.legs))
  /** Can what is placed still end better than the best? Cheapest bound first. */
  const hopeful = (): boolean => {
    let allOn = Math.ceil(grid.totalAllOn / grid.legs)
    for (let l = 0; l < grid.legs; l++) if (load.allOn[l]! > allOn) allOn = load.allOn[l]!
    const over = Math.max(0, allOn - grid.limit)
    if (over !== best.over) return over < best.over
    let peak = evenPeak
    for (let k = 0; k < load.at.length; k++) if (load.at[k]! > peak) peak = load.at[k]!
    if (peak !== best.peak) return peak < best.peak
    let squares = 0
    for (let s = 0; s < grid.slots; s++) {
      squares += grid.weight[s]! * filledSquares(grid, load, s, left[s]!)
      if (squares * (1 - 1e-12) >= best.squares) return false
    }
    return true
  }
  const visit = (i: number): void => {
    if (i === grid.count) {
      const here = { over: overOf(grid, load), peak: peakOf(load), squares: squaresOf(grid, load) }
      if (better(here, best)) best = { choice: Int32Array.from(choice), ...here }
      return
    }
    const options = grid.options[i]!
    const legs = options[0]!.length
    const from = grid.twin[i] ? choice[i - 1]! : 0
    for (let s = 0; s < grid.slots; s++) left[s]! -= legs * grid.current[i * grid.slots + s]!
    const seen: number[] = []
    for (let o = from; o < options.length && open; o++) {
      const leg = options[o]![0]!
      if (legs === 1 && options.length > 1) {
        if (seen.some((other) => sameLoad(grid, load, other, leg))) continue
        seen.push(leg)
      }
      if (++tried > nodes) {
        open = false
        break
      }
      put(grid, load, i, o, 1)
      choice[i] = o
      if (hopeful()) visit(i + 1)
      put(grid, load, i, o, -1)
    }
    for (let s = 0; s < grid.slots; s++) left[s]! += legs * grid.current[i * grid.slots + s]!
  }
  visit(0)
  return { best, proven: open, tried }
}

/** Two legs that carry the same at every moment may be exchanged: what is left to place has the same choice of both. */
function sameLoad(grid: Grid, load: Load, a: number, b: number): boolean {
  if (load.allOn[a] !== load.allOn[b]) return false
  for (let s = 0; s < grid.slots; s++) if (load.at[a * grid.slots + s] !== load.at[b * grid.slots + s]) return false
  return true
}

/** Least Σ I² that the rest can give at a slot: it fills the lower legs first, like water. One to three legs. */
function filledSquares(grid: Grid, load: Load, s: number, rest: number): number {
  const n = grid.legs
  let a = load.at[s]!
  if (n === 1) return (a + rest) * (a + rest)
  let b = load.at[grid.slots + s]!
  if (b < a) [a, b] = [b, a]
  if (n === 2) {
    if (rest <= b - a) return (a + rest) * (a + rest) + b * b
    const half = (a + b + rest) / 2
    return 2 * half * half
  }
  let c = load.at[2 * grid.slots + s]!
  if (c < b) [b, c] = [c, b]
  if (b < a) [a, b] = [b, a]
  if (rest <= b - a) return (a + rest) * (a + rest) + b * b + c * c
  if (rest <= 2 * c - a - b) {
    const half = (a + b + rest) / 2
    return 2 * half * half + c * c
  }
  const third = (a + b + c + rest) / 3
  return 3 * third * third
}
