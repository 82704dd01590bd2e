/** A kind of stock, in whole units. Kerf is already in it: capacity L + k beside pieces l + k. */
export interface StockKind {
  readonly capacity: number
  /** Second limit; 0 where there is none. */
  readonly capacity2: number
  /** What one bar costs, in whole units of the objective. ≥ 1 */
  readonly cost: number
  /** How many there are; `Infinity`: as many as wanted. */
  readonly limit: number
}

export interface Item {
  /** Whole units, kerf included. ≥ 1 */
  readonly size: number
  /** Whole units of the second limit; 0 where there is none. */
  readonly size2: number
  readonly demand: number
}

/** Whole numbers only, so that no comparison depends on a last bit. Items largest first, stock in the order that ties are broken by. */
export interface CutTask {
  readonly stocks: readonly StockKind[]
  readonly items: readonly Item[]
}

/** How one bar is cut: how many of each item. */
export interface Pattern {
  readonly stock: number
  /** By item of the task. */
  readonly counts: readonly number[]
}

/** A pattern and how often it is cut. */
export interface Use {
  readonly pattern: Pattern
  readonly times: number
}

/** Work that is left, in steps of the innermost loops. The same task always takes the same work. */
export interface Budget {
  left: number
}

export const patternKey = ({ stock, counts }: Pattern): string => `${stock}:${counts.join(',')}`

export const costOf = (task: CutTask, uses: readonly Use[]): number =>
  uses.reduce((sum, { pattern, times }) => sum + times * task.stocks[pattern.stock]!.cost, 0)

/** Like patterns together, in a fixed order: most often cut first, then by what they hold. */
export function collected(patterns: readonly Use[]): readonly Use[] {
  const byKey = new Map<string, Use>()
  for (const { pattern, times } of patterns) {
    const key = patternKey(pattern)
    byKey.set(key, { pattern, times: (byKey.get(key)?.times ?? 0) + times })
  }
  return [...byKey.values()].sort((a, b) => b.times - a.times || before(a.pattern, b.pattern))
}

function before(a: Pattern, b: Pattern): number {
  if (a.stock !== b.stock) return a.stock - b.stock
  const at = a.counts.findIndex((count, i) => count !== b.counts[i])
  return at < 0 ? 0 : b.counts[at]! - a.counts[at]!
}
