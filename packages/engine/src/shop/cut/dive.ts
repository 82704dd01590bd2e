import { cheapest } from './first-fit.ts'
import { piecesOf } from './knapsack.ts'
import { type Budget, type CutTask, costOf, type Use } from './model.ts'
import { type Column, type Relaxed, relaxed, WHOLE } from './relaxation.ts'

/** Rounds the relaxation down, solves it again for the rest, until nothing is left; where nothing rounds to a bar, the largest part is taken as one. */
export function dived(
  task: CutTask,
  demand: ArrayLike<number>,
  limits: readonly number[],
  root: Relaxed,
  enough: number,
  budget: Budget,
): readonly Use[] | null {
  const rest = Int32Array.from(demand)
  const left = [...limits]
  const uses: Use[] = []
  let best: readonly Use[] | null = null
  let parts = root.parts.map(({ column, times }) => ({ stock: column.stock, counts: column.counts, times }))
  for (;;) {
    let took = false
    for (const { stock, counts, times } of parts) {
      let whole = Math.min(Math.floor(times + WHOLE), left[stock]!)
      if (!took && parts.every((part) => part.times < 1 - WHOLE)) whole = Math.min(1, left[stock]!)
      for (let i = 0; i < rest.length; i += 1) if (counts[i]! > 0) whole = Math.min(whole, Math.floor(rest[i]! / counts[i]!))
      if (whole < 1) continue
      took = true
      uses.push({ pattern: { stock, counts: [...counts] }, times: whole })
      left[stock] = left[stock]! - whole
      for (let i = 0; i < rest.length; i += 1) rest[i] = rest[i]! - whole * counts[i]!
    }
    if (!took) return best
    for (const fit of ['best', 'first'] as const) {
      const tail = cheapest(task, rest, left, fit)
      const all = tail === null ? null : [...uses, ...tail]
      budget.left -= rest.reduce((sum, d) => sum + d, 0) * (tail?.length ?? 1) * task.stocks.length
      if (all !== null && (best === null || costOf(task, all) < costOf(task, best))) best = all
    }
    if (best !== null && costOf(task, best) <= enough) return best
    const active = [...rest.keys()].filter((i) => rest[i]! > 0)
    if (active.length === 0) return best
    const pieces = piecesOf(task.items, rest, active)
    const start = unique(
      parts.map(({ stock, counts }) => ({ stock, counts: Int32Array.from(active, (i) => Math.min(counts[i]!, rest[i]!)) })),
    )
    const lp = relaxed(
      task.stocks.map((stock, j) => ({ ...stock, limit: left[j]! })),
      pieces,
      start,
      root.scale,
      budget,
    )
    if (lp === null) return best
    parts = lp.parts.map(({ column, times }) => {
      const counts = new Int32Array(rest.length)
      active.forEach((i, at) => {
        counts[i] = column.counts[at]!
      })
      return { stock: column.stock, counts, times }
    })
  }
}

/** Each column once. */
export function unique(columns: readonly Column[]): readonly Column[] {
  return [...new Map(columns.map((column) => [`${column.stock}:${column.counts.join(',')}`, column])).values()]
}
