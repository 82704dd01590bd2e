import type { CutTask } from './model.ts'
import type { Relaxed } from './relaxation.ts'

/** More ways to spend the same than this are not looked at one by one. */
const MIXES_MOST = 4000

interface Mix {
  readonly cost: number
  readonly limits: readonly number[]
}

/**
 * What could be bought for less than the best plan, cheapest first: with one kind of stock a number of bars, with several how many of each.
 * A mix whose bars are worth less than the pieces, or are shorter than they, is left out: the relaxation rules it out.
 */
export function* mixes(task: CutTask, relaxation: Relaxed, bound: number, best: () => number): Generator<Mix> {
  const { stocks, items } = task
  const kinds = [...stocks.keys()].filter((j) => stocks[j]!.limit > 0)
  if (kinds.length === 1) {
    const { cost, limit } = stocks[kinds[0]!]!
    const limits = stocks.map((stock) => stock.limit)
    for (let n = Math.ceil(bound / cost); n <= limit && n * cost < best(); n += 1) yield { cost: n * cost, limits }
    return
  }
  const worth = items.reduce((sum, { demand }, i) => sum + demand * relaxation.worth[i]!, 0)
  const size = items.reduce((sum, i) => sum + i.demand * i.size, 0)
  const pieces = items.reduce((sum, i) => sum + i.demand, 0)
  const dearest = Math.max(...stocks.map((s) => s.cost))
  let low = bound
  let wide = dearest
  for (;;) {
    const most = Math.min(best() - 1, pieces * dearest)
    if (low > most) return
    let high = Math.min(most, low + wide)
    let list = between(low, high)
    while (list === null && high > low) {
      wide = Math.floor((high - low) / 4)
      high = low + wide
      list = between(low, high)
    }
    if (list === null) {
      // Too many ways to spend one and the same sum: they are looked at together.
      yield { cost: high, limits: stocks.map((s) => s.limit) }
    } else yield* list
    low = high + 1
    wide = Math.min(dearest, 2 * wide + 1)
  }

  function between(from: number, to: number): Mix[] | null {
    const found: Mix[] = []
    const limits = stocks.map(() => 0)
    let nodes = 0
    const visit = (j: number, cost: number, value: number, length: number, bars: number): boolean => {
      nodes += 1
      if (nodes > 40 * MIXES_MOST || found.length > MIXES_MOST) return false
      if (j === kinds.length) {
        if (cost >= from && value >= worth && length >= size) found.push({ cost, limits: [...limits] })
        return true
      }
      const kind = kinds[j]!
      const { cost: price, limit, capacity } = stocks[kind]!
      const last = j === kinds.length - 1
      const fewest = last ? Math.max(0, Math.ceil((from - cost) / price)) : 0
      const most = Math.min(limit, pieces - bars, Math.floor((to - cost) / price))
      for (let n = fewest; n <= most; n += 1) {
        limits[kind] = n
        if (!visit(j + 1, cost + n * price, value + n * relaxation.most[kind]!, length + n * capacity, bars + n)) return false
      }
      limits[kind] = 0
      return true
    }
    if (!visit(0, 0, 0, 0, 0)) return null
    return found.sort((a, b) => a.cost - b.cost || compared(a.limits, b.limits))
  }
}

function compared(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((n, i) => n !== b[i])
  return at < 0 ? 0 : a[at]! - b[at]!
}
