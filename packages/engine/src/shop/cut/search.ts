import { decreasing } from './first-fit.ts'
import { barsWith, type Pieces } from './knapsack.ts'
import type { Budget, CutTask, Use } from './model.ts'
import { type Column, relaxed } from './relaxation.ts'

export interface Search {
  /** A plan within the target; null: none was found. */
  readonly uses: readonly Use[] | null
  /** True: every other way was ruled out, so null means that there is none. */
  readonly complete: boolean
}

/** More ways to cut one bar than this are not looked at one by one. */
const BRANCHES_MOST = 20_000

interface Node {
  readonly demand: Int32Array
  readonly limits: readonly number[]
  /** What the rest may cost at most. */
  readonly target: number
  readonly start: readonly Column[]
}

/**
 * Looks for a plan that costs at most `target`: depth first, one bar at a time, always the bar that holds the longest piece left. Each
 * node is judged by the linear relaxation of what is left; a bar is tried only where its reduced cost fits under the target.
 * A way to cut that was tried and failed is not tried again further down, nor a rest of pieces that failed before.
 * @source branching on the bar of one piece after Martello and Toth, Knapsack Problems, 1990, ch. 8; fixing by reduced cost: common practice. Provenance: memory
 */
export function search(task: CutTask, target: number, limits: readonly number[], scale: number, budget: Budget): Search {
  const failed = new Set<string>()
  const excluded = new Set<string>()
  let complete = true

  const visit = (node: Node): readonly Use[] | null => {
    if (budget.left <= 0) {
      complete = false
      return null
    }
    const { demand, target: room, limits: left } = node
    const active = [...demand.keys()].filter((i) => demand[i]! > 0)
    if (active.length === 0) return []
    const key = `${demand.join(',')}|${left.join(',')}|${room}`
    if (failed.has(key)) return null
    const quick = fitted(task, demand, left, room)
    if (quick !== null) return quick

    const pieces = piecesOf(task, demand, active)
    const stocks = task.stocks.map((stock, j) => ({ ...stock, limit: left[j]! }))
    const start = node.start.map(({ stock, counts }) => ({ stock, counts: Int32Array.from(active, (i) => counts[i]!) }))
    const lp = relaxed(stocks, pieces, start, scale, budget)
    if (lp === null) {
      complete = false
      return null
    }
    const gap = room * scale - lp.boundScaled
    if (gap < 0) return fail(key)

    const wide = (counts: Int32Array): Int32Array => {
      const all = new Int32Array(demand.length)
      active.forEach((i, at) => {
        all[i] = counts[at]!
      })
      return all
    }
    const parts = lp.parts.map(({ column, times }) => ({ stock: column.stock, counts: wide(column.counts), times }))
    const rounded = roundedDown(task, node, parts)
    if (rounded !== null) return rounded

    const weight = new Map(parts.map(({ stock, counts, times }) => [`${stock}:${counts.join(',')}`, times]))
    const branches: { key: string; stock: number; counts: Int32Array; times: number; cost: number }[] = []
    for (let j = 0; j < stocks.length; j += 1) {
      const { capacity, capacity2, cost, limit } = stocks[j]!
      if (limit === 0 || cost > room) continue
      const due = cost * scale + lp.rent[j]!
      const ways = barsWith(
        pieces,
        lp.worth,
        { item: 0, capacity, capacity2, least: due - gap, most: BRANCHES_MOST },
        budget,
      )
      if (ways === null) {
        complete = false
        continue
      }
      for (const way of ways) {
        const counts = wide(way)
        const name = `${j}:${counts.join(',')}`
        if (excluded.has(name)) continue
        let worth = 0
        for (let i = 0; i < way.length; i += 1) worth += way[i]! * lp.worth[i]!
        branches.push({ key: name, stock: j, counts, times: weight.get(name) ?? 0, cost: due - worth })
      }
    }
    branches.sort((a, b) => b.times - a.times || a.cost - b.cost || (a.key < b.key ? -1 : 1))

    const shut: string[] = []
    let found: readonly Use[] | null = null
    for (const { key: name, stock, counts } of branches) {
      const rest = Int32Array.from(demand, (d, i) => d - counts[i]!)
      const child = visit({
        demand: rest,
        limits: left.map((limit, j) => (j === stock ? limit - 1 : limit)),
        target: room - task.stocks[stock]!.cost,
        start: parts.map(({ stock: j, counts: c }) => ({ stock: j, counts: c.map((count, i) => Math.min(count, rest[i]!)) })),
      })
      if (child !== null) {
        found = [{ pattern: { stock, counts: [...counts] }, times: 1 }, ...child]
        break
      }
      if (budget.left <= 0) break
      excluded.add(name)
      shut.push(name)
    }
    for (const name of shut) excluded.delete(name)
    return found ?? (budget.left <= 0 ? null : fail(key))
  }
  const fail = (key: string): null => {
    if (complete) failed.add(key)
    return null
  }

  const uses = visit({ demand: Int32Array.from(task.items, (item) => item.demand), limits, target, start: [] })
  return { uses, complete: uses !== null || complete }
}

function piecesOf(task: CutTask, demand: Int32Array, active: readonly number[]): Pieces {
  return {
    size: Float64Array.from(active, (i) => task.items[i]!.size),
    size2: Float64Array.from(active, (i) => task.items[i]!.size2),
    demand: Int32Array.from(active, (i) => demand[i]!),
  }
}

/** What the plain rules make of it, when that is within the target. */
function fitted(task: CutTask, demand: Int32Array, limits: readonly number[], target: number): readonly Use[] | null {
  for (const fit of ['best', 'first'] as const) {
    const uses = cheapest(task, demand, limits, fit)
    if (uses !== null && sum(task, uses) <= target) return uses
  }
  return null
}

/** The plain rule with new bars of the cheapest length first, and of the shortest that does. */
export function cheapest(
  task: CutTask,
  demand: ArrayLike<number>,
  limits: readonly number[],
  fit: 'first' | 'best',
): readonly Use[] | null {
  const { stocks } = task
  const ways =
    stocks.length === 1
      ? [() => 0]
      : [(j: number) => stocks[j]!.cost / stocks[j]!.capacity, (j: number) => stocks[j]!.cost, (j: number) => -stocks[j]!.capacity]
  let best: readonly Use[] | null = null
  for (const way of ways) {
    const uses = decreasing(task, demand, limits, fit, way)
    if (uses !== null && (best === null || sum(task, uses) < sum(task, best))) best = uses
  }
  return best
}

const sum = (task: CutTask, uses: readonly Use[]): number =>
  uses.reduce((all, { pattern, times }) => all + times * task.stocks[pattern.stock]!.cost, 0)

/** The whole bars of the fractional plan, and the plain rule for the rest. */
function roundedDown(
  task: CutTask,
  { demand, limits, target }: Node,
  parts: readonly { readonly stock: number; readonly counts: Int32Array; readonly times: number }[],
): readonly Use[] | null {
  const rest = demand.slice()
  const left = [...limits]
  const uses: Use[] = []
  for (const { stock, counts, times } of parts) {
    let whole = Math.min(Math.floor(times + 1e-6), left[stock]!)
    for (let i = 0; i < rest.length; i += 1) if (counts[i]! > 0) whole = Math.min(whole, Math.floor(rest[i]! / counts[i]!))
    if (whole < 1) continue
    uses.push({ pattern: { stock, counts: [...counts] }, times: whole })
    left[stock] = left[stock]! - whole
    for (let i = 0; i < rest.length; i += 1) rest[i] = rest[i]! - whole * counts[i]!
  }
  if (uses.length === 0) return null
  const tail = fitted(task, rest, left, target - sum(task, uses))
  return tail === null ? null : [...uses, ...tail]
}
