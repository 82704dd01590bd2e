import { fitted } from './first-fit.ts'
import { barsWith, piecesOf } from './knapsack.ts'
import { type Budget, type CutTask, costOf, type Use } from './model.ts'
import { type Column, relaxed, WHOLE } from './relaxation.ts'

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
    const many = demand.reduce((sum, d) => sum + d, 0)
    budget.left -= (many * many) >> 4
    const quick = fitted(task, demand, left, room)
    if (quick !== null) return quick

    const pieces = piecesOf(task.items, demand, active)
    const stocks = task.stocks.map((stock, j) => ({ ...stock, limit: left[j]! }))
    const start = node.start.map(({ stock, counts }) => ({ stock, counts: Int32Array.from(active, (i) => counts[i]!) }))
    const lp = relaxed(stocks, pieces, start, scale, budget, room)
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

    const shut: string[] = []
    let found: readonly Use[] | null = null
    /** True: a plan was found, or the work ran out. */
    const tried = (stock: number, counts: Int32Array): boolean => {
      const name = `${stock}:${counts.join(',')}`
      if (excluded.has(name)) return false
      const rest = Int32Array.from(demand, (d, i) => d - counts[i]!)
      const child = visit({
        demand: rest,
        limits: left.map((limit, j) => (j === stock ? limit - 1 : limit)),
        target: room - task.stocks[stock]!.cost,
        start: parts.map(({ stock: j, counts: c }) => ({ stock: j, counts: c.map((count, i) => Math.min(count, rest[i]!)) })),
      })
      if (child !== null) {
        found = [{ pattern: { stock, counts: [...counts] }, times: 1 }, ...child]
        return true
      }
      excluded.add(name)
      shut.push(name)
      return budget.left <= 0
    }
    const affordable = (j: number): boolean => left[j]! > 0 && task.stocks[j]!.cost <= room
    // The bars that the fractional plan wants, then all others.
    const longest = active[0]!
    const wanted = parts.filter(({ stock, counts }) => counts[longest]! > 0 && affordable(stock))
    let ended = wanted.some(({ stock, counts }) => tried(stock, filled(task, stock, counts, demand)))
    if (!ended) {
      const others: { stock: number; counts: Int32Array; cost: number }[] = []
      for (let j = 0; j < stocks.length; j += 1) {
        if (!affordable(j)) continue
        const { capacity, capacity2, cost } = stocks[j]!
        const due = cost * scale + lp.rent[j]!
        const ways = barsWith(pieces, lp.worth, { item: 0, capacity, capacity2, least: due - gap, most: BRANCHES_MOST }, budget)
        if (ways === null) complete = false
        for (const way of ways ?? []) {
          let worth = 0
          for (let i = 0; i < way.length; i += 1) worth += way[i]! * lp.worth[i]!
          others.push({ stock: j, counts: way, cost: due - worth })
        }
      }
      budget.left -= others.length * 4
      others.sort((a, b) => a.cost - b.cost || a.stock - b.stock || compared(b.counts, a.counts))
      ended = others.some(({ stock, counts }) => tried(stock, wide(counts)))
    }
    for (const name of shut) excluded.delete(name)
    return found ?? (ended ? null : fail(key))
  }
  const fail = (key: string): null => {
    if (complete) failed.add(key)
    return null
  }

  const uses = visit({ demand: Int32Array.from(task.items, (item) => item.demand), limits, target, start: [] })
  return { uses, complete: uses !== null || complete }
}

function compared(a: Int32Array, b: Int32Array): number {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return a[i]! - b[i]!
  return 0
}

/** The same bar with every further piece that fits, longest first. */
function filled(task: CutTask, stock: number, counts: Int32Array, demand: Int32Array): Int32Array {
  const { items, stocks } = task
  const full = counts.slice()
  let rest = stocks[stock]!.capacity
  let rest2 = stocks[stock]!.capacity2
  for (let i = 0; i < full.length; i += 1) {
    rest -= full[i]! * items[i]!.size
    rest2 -= full[i]! * items[i]!.size2
  }
  for (let i = 0; i < full.length; i += 1)
    while (full[i]! < demand[i]! && items[i]!.size <= rest && items[i]!.size2 <= rest2) {
      full[i] = full[i]! + 1
      rest -= items[i]!.size
      rest2 -= items[i]!.size2
    }
  return full
}

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
    let whole = Math.min(Math.floor(times + WHOLE), left[stock]!)
    for (let i = 0; i < rest.length; i += 1) if (counts[i]! > 0) whole = Math.min(whole, Math.floor(rest[i]! / counts[i]!))
    if (whole < 1) continue
    uses.push({ pattern: { stock, counts: [...counts] }, times: whole })
    left[stock] = left[stock]! - whole
    for (let i = 0; i < rest.length; i += 1) rest[i] = rest[i]! - whole * counts[i]!
  }
  if (uses.length === 0) return null
  const tail = fitted(task, rest, left, target - costOf(task, uses))
  return tail === null ? null : [...uses, ...tail]
}
