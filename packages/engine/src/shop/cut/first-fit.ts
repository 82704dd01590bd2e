import { type CutTask, costOf, type Use } from './model.ts'

interface OpenBar {
  readonly stock: number
  readonly counts: number[]
  rest: number
  rest2: number
}

/** Where a piece goes: into the first open bar it fits, or into the one it leaves least of. */
export type Fit = 'first' | 'best'

/**
 * The plain rule: pieces longest first, each into an open bar, else into a new one. Of the kinds of stock that a piece fits the new bar is
 * the one given by `choose`, lowest first. Null: the stock ran out.
 */
export function decreasing(
  task: CutTask,
  demand: ArrayLike<number>,
  limits: readonly number[],
  fit: Fit,
  choose: (stock: number) => number,
): readonly Use[] | null {
  const { stocks, items } = task
  const left = [...limits]
  const order = [...stocks.keys()].sort((a, b) => choose(a) - choose(b) || a - b)
  const bars: OpenBar[] = []
  for (let i = 0; i < items.length; i += 1) {
    const { size, size2 } = items[i]!
    for (let piece = 0; piece < demand[i]!; piece += 1) {
      let into: OpenBar | undefined
      for (const bar of bars) {
        if (bar.rest < size || bar.rest2 < size2) continue
        if (into === undefined || bar.rest < into.rest) into = bar
        if (fit === 'first') break
      }
      if (into === undefined) {
        const stock = order.find((j) => left[j]! > 0 && stocks[j]!.capacity >= size && stocks[j]!.capacity2 >= size2)
        if (stock === undefined) return null
        left[stock] = left[stock]! - 1
        const { capacity, capacity2 } = stocks[stock]!
        into = { stock, counts: items.map(() => 0), rest: capacity, rest2: capacity2 }
        bars.push(into)
      }
      into.counts[i] = into.counts[i]! + 1
      into.rest -= size
      into.rest2 -= size2
    }
  }
  return bars.map(({ stock, counts }) => ({ pattern: { stock, counts }, times: 1 }))
}

/** What the plain rules make of it, when that is within the target. */
export function fitted(
  task: CutTask,
  demand: ArrayLike<number>,
  limits: readonly number[],
  target: number,
): readonly Use[] | null {
  for (const fit of ['best', 'first'] as const) {
    const uses = cheapest(task, demand, limits, fit)
    if (uses !== null && costOf(task, uses) <= target) return uses
  }
  return null
}

/** The plain rule with new bars of the cheapest length first, and of the shortest that does. */
export function cheapest(task: CutTask, demand: ArrayLike<number>, limits: readonly number[], fit: Fit): readonly Use[] | null {
  const { stocks } = task
  const ways =
    stocks.length === 1
      ? [() => 0]
      : [
          (j: number) => stocks[j]!.cost / stocks[j]!.capacity,
          (j: number) => stocks[j]!.cost,
          (j: number) => -stocks[j]!.capacity,
        ]
  let best: readonly Use[] | null = null
  for (const way of ways) {
    const uses = decreasing(task, demand, limits, fit, way)
    if (uses !== null && (best === null || costOf(task, uses) < costOf(task, best))) best = uses
  }
  return best
}
