import { barsWith, type Pieces } from './knapsack.ts'
import type { Budget, CutTask } from './model.ts'
import type { Column, Relaxed } from './relaxation.ts'

/** More ways than this are too many for a table; they are left to the search bar by bar. */
const WAYS_MOST = 120
const LISTING_MOST = 4e6

/**
 * Every full bar that a plan within the target may hold: one whose reduced cost is above the gap passes the target whatever else is cut.
 * Null: more than a table holds.
 * @source fixing by reduced cost: Nemhauser and Wolsey, Integer and Combinatorial Optimization, 1988, II.5. Provenance: memory
 */
export function waysUnder(
  task: CutTask,
  pieces: Pieces,
  target: number,
  limits: readonly number[],
  proof: Relaxed,
  budget: Budget,
): readonly Column[] | null {
  const gap = target * proof.scale - proof.boundScaled
  const n = pieces.size.length
  const listing: Budget = { left: Math.min(LISTING_MOST, budget.left) }
  const before = listing.left
  const found: Column[] = []
  const list = (j: number, from: number): boolean => {
    const { capacity, capacity2, cost } = task.stocks[j]!
    const rest = {
      size: pieces.size.subarray(from),
      size2: pieces.size2.subarray(from),
      demand: pieces.demand.subarray(from),
    }
    const least = cost * proof.scale + proof.rent[j]! - gap
    const most = WAYS_MOST - found.length
    const bars = barsWith(rest, proof.worth.subarray(from), { item: 0, capacity, capacity2, least, most }, listing)
    for (const bar of bars ?? []) {
      const counts = new Int32Array(n)
      counts.set(bar, from)
      found.push({ stock: j, counts })
    }
    return bars !== null
  }
  const all = limits.every((limit, j) => limit === 0 || pieces.demand.every((_, from) => list(j, from)))
  budget.left -= before - listing.left
  return all ? found : null
}
