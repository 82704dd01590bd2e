import { dualSimplex } from './dual-simplex.ts'
import type { Pieces } from './knapsack.ts'
import type { Budget, CutTask, Use } from './model.ts'
import type { Column, Relaxed } from './relaxation.ts'
import { type Row, roundedCuts } from './rounded-cuts.ts'
import { waysUnder } from './ways-under.ts'
import { passes } from './whole-proof.ts'

interface Settled {
  /** A plan within the target; null: there is none. */
  readonly uses: readonly Use[] | null
}

const NODES_MOST = 4000
const ROUNDS_MOST = 12

/**
 * Where the relaxation comes so near to the target that few ways to cut a bar can be part of a plan: all of them are written down, the
 * relaxation is sharpened by rounding, and how often each is cut is branched on.
 * Null: too many ways, or too many branches; nothing is proven.
 * @source branch and cut: Nemhauser and Wolsey, Integer and Combinatorial Optimization, 1988, II.4 and II.5. Provenance: memory
 */
export function fewWays(
  task: CutTask,
  pieces: Pieces,
  target: number,
  limits: readonly number[],
  proof: Relaxed,
  budget: Budget,
): Settled | null {
  const ways = waysUnder(task, pieces, target, limits, proof, budget)
  if (ways === null) return null
  const cost = Float64Array.from(ways, ({ stock }) => task.stocks[stock]!.cost)
  const many = pieces.demand.reduce((sum, d) => sum + d, 0)
  // A bar without a wanted piece is left out, so none is cut more often than there are pieces.
  const most = Float64Array.from(ways, ({ stock }) => Math.min(many, limits[stock]!))
  const rows: Row[] = [
    ...Array.from(pieces.demand, (d, i) => ({ of: Float64Array.from(ways, ({ counts }) => counts[i]!), least: d })),
    ...limits.flatMap((limit, j) =>
      limit < Number.POSITIVE_INFINITY
        ? [{ of: Float64Array.from(ways, ({ stock }) => (stock === j ? -1 : 0)), least: -limit }]
        : [],
    ),
  ]
  let nodes = 0
  let open = false

  const visit = (fewest: Float64Array, upTo: Float64Array): Float64Array | null => {
    nodes += 1
    if (nodes > NODES_MOST || budget.left <= 0) open = true
    if (open) return null
    const room = target - dot(cost, fewest)
    if (room < 0) return null
    const capped = [...ways.keys()].filter((p) => upTo[p]! < most[p]!)
    const capRows = capped.map((p): Row => ({ of: unit(ways.length, p), least: fewest[p]! - upTo[p]! }))
    for (let round = 0; ; round += 1) {
      const here = [...rows.map((row): Row => ({ of: row.of, least: row.least - dot(row.of, fewest) })), ...capRows]
      const lp = dualSimplex(cost, here, room, budget)
      if (lp === null) break
      if (lp.weights !== null) {
        if (passes({ rows: here, cost, most: upTo.map((n, p) => n - fewest[p]!), room, scale: proof.scale }, lp.weights))
          return null
        break
      }
      const times = lp.times
      const all = fewest.map((n, p) => n + Math.round(times[p]!))
      if (meets(all)) return all
      const cuts = nodes === 1 && round < ROUNDS_MOST ? roundedCuts(rows, times, lp.weighings(), budget) : []
      if (cuts.length > 0) {
        rows.push(...cuts)
        continue
      }
      const split = nearestHalf(times)
      if (split < 0) break
      const at = fewest[split]! + Math.floor(times[split]!)
      return visit(changed(fewest, split, at + 1), upTo) ?? visit(fewest, changed(upTo, split, at))
    }
    open = true
    return null
  }

  const meets = (times: Float64Array): boolean =>
    times.every((n) => n >= 0) && rows.every((row) => dot(row.of, times) >= row.least) && dot(cost, times) <= target

  const times = visit(new Float64Array(ways.length), most)
  if (times === null) return open ? null : { uses: null }
  return { uses: asked(ways, times, pieces.demand) }
}

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, x, i) => sum + x * b[i]!, 0)

const unit = (n: number, p: number): Float64Array => Float64Array.from({ length: n }, (_, i) => (i === p ? -1 : 0))

function changed(all: Float64Array, at: number, value: number): Float64Array {
  const copy = all.slice()
  copy[at] = value
  return copy
}

/** The column whose number of times is farthest from whole; -1: all are whole. */
function nearestHalf(times: Float64Array): number {
  let best = -1
  let far = 1e-6
  times.forEach((x, p) => {
    const off = Math.abs(x - Math.round(x))
    if (off <= far + 1e-9) return
    best = p
    far = off
  })
  return best
}

/** Bar by bar, pieces beyond those that are wanted left out. */
function asked(ways: readonly Column[], times: Float64Array, demand: Int32Array): readonly Use[] {
  const wanted = demand.slice()
  return ways.flatMap(({ stock, counts }, p) =>
    Array.from({ length: times[p]! }, (): Use => {
      const taken = Array.from(counts, (n, i) => Math.min(n, wanted[i]!))
      taken.forEach((n, i) => {
        wanted[i] = wanted[i]! - n
      })
      return { pattern: { stock, counts: taken }, times: 1 }
    }).filter(({ pattern }) => pattern.counts.some((n) => n > 0)),
  )
}
