import { piecesOf } from './knapsack.ts'
import { type CutTask, costOf, type Item, type Use } from './model.ts'
import { type Relaxed, relaxed, worthScale } from './relaxation.ts'
import { fewerSetUps, largerRemnant, leastSetUps, shortestStock } from './set-ups.ts'
import { type Solved, solved } from './solve.ts'

/** Everything in whole units; see `wholeNumbers`. */
export interface ExactRequest {
  readonly stocks: readonly {
    readonly length: number
    /** Second limit; 0: none. */
    readonly length2: number
    /** Whole units of money; null: no price. */
    readonly cost: number | null
    /** null: as many as wanted. */
    readonly count: number | null
  }[]
  readonly kerf: number
  /** Taken off each end of each bar, its saw cut included. */
  readonly trim: number
  readonly items: readonly { readonly length: number; readonly length2: number; readonly count: number }[]
}

export interface ExactCut {
  /** By the request's order. */
  readonly stock: number
  readonly times: number
  /** Of each distinct item, as in `ExactPlan.items`. */
  readonly counts: readonly number[]
  /** What is left behind the last cut, without the trim. */
  readonly remnant: number
  /** What the saw took, the trims' cuts not counted. */
  readonly saw: number
}

/** Why nothing can be cut, with both numbers, in whole units of the limit that is not kept. */
export interface ExactLack {
  readonly kind: 'too long' | 'too little' | 'no arrangement'
  readonly limit: 1 | 2
  /** The item that is too long; null where all of them together are too much. */
  readonly item: number | null
  readonly needed: number
  readonly there: number
}

export interface ExactPlan {
  readonly outcome: Solved['outcome']
  readonly goal: 'money' | 'bars'
  /** Distinct items, longest first. */
  readonly items: readonly { readonly length: number; readonly length2: number; readonly count: number }[]
  readonly cuts: readonly ExactCut[]
  readonly count: number
  /** Whole units of money; null: a kind of stock has no price. */
  readonly cost: number | null
  /** No plan needs fewer bars, or costs less: by the goal. */
  readonly bound: number
  readonly boundKind: Solved['boundKind']
  readonly materialBound: number
  /** Not rounded up; null: the work ran out before it was found. */
  readonly linearBound: number | null
  /** What one of each item is worth in the linear bound's proof: no bar holds more than it costs. */
  readonly worths: readonly number[]
  /** What the count of each kind of stock adds to its cost there, each bar: the bound is Σ count · worth − Σ bars there are · rent. */
  readonly rents: readonly number[]
  readonly proven: boolean
  /** By the plain first-fit-decreasing rule; null where it runs out of stock. */
  readonly plainCount: number | null
  readonly plainCost: number | null
  readonly setUpsLeast: number
  /** Where the outcome is `none`. */
  readonly lacks: readonly ExactLack[]
  readonly work: number
}

/**
 * The plan by the goals in their order: least money where every kind of stock has a price, then fewest bars, then fewest different ways
 * to cut, then the largest single remnant. The first two are proven or said not to be; the other two are sought.
 *
 * Kerf: a bar of length L holds pieces l₁ … lₙ when Σ(l + k) ≤ L + k; a trim at each end is taken off L first.
 */
export function exactPlan(request: ExactRequest): ExactPlan {
  const { kerf, trim } = request
  const items = distinct(request.items)
  const pieces = items.reduce((sum, item) => sum + item.count, 0)
  const priced = request.stocks.every((stock) => stock.cost !== null)
  // Kinds in a fixed order, whatever the order they were written in.
  const order = [...request.stocks.keys()].sort((a, b) => {
    const [s, t] = [request.stocks[a]!, request.stocks[b]!]
    return (
      t.length - s.length || t.length2 - s.length2 || (s.cost ?? 0) - (t.cost ?? 0) || (s.count ?? 0) - (t.count ?? 0) || a - b
    )
  })
  // One number for both goals: money first, a bar more or less only where the money is the same.
  const perMoney = pieces + 1
  const room = (length: number): number => Math.max(0, length - 2 * trim) + (length - 2 * trim > 0 ? kerf : 0)
  const task: CutTask = {
    stocks: order.map((j) => {
      const { length, length2, cost, count } = request.stocks[j]!
      const most = count === null || count >= pieces ? Number.POSITIVE_INFINITY : count
      const usable = length > 2 * trim
      return {
        capacity: room(length),
        capacity2: length2,
        cost: priced ? (cost ?? 0) * perMoney + 1 : 1,
        limit: usable ? most : 0,
      }
    }),
    items: items.map((item): Item => ({ size: item.length + kerf, size2: item.length2, demand: item.count })),
  }
  const answer = solved(task)
  const uses = answer.outcome === 'cut' ? largerRemnant(task, shortestStock(task, fewerSetUps(task, answer.uses))) : []
  const cost = costOf(task, uses)
  const money = (units: number): number => (priced ? Math.floor(units / perMoney) : units)
  const linear = priced ? moneyRelaxation(task, request, order, answer.relaxation) : answer.relaxation
  return {
    outcome: answer.outcome,
    goal: priced ? 'money' : 'bars',
    items,
    cuts: uses.map((use) => cutOf(use, request, order, items)),
    count: uses.reduce((sum, use) => sum + use.times, 0),
    cost: priced && answer.outcome === 'cut' ? money(cost) : null,
    bound: money(answer.bound),
    boundKind: answer.boundKind,
    materialBound: money(answer.materialBound),
    linearBound: linear === null ? null : linear.boundScaled / linear.scale,
    worths: linear === null ? [] : [...linear.worth].map((worth) => worth / linear.scale),
    rents: linear === null ? [] : request.stocks.map((_, j) => linear.rent[order.indexOf(j)]! / linear.scale),
    proven: answer.proven,
    plainCount: answer.plain === null ? null : answer.plain.length,
    plainCost: priced && answer.plain !== null ? money(costOf(task, answer.plain)) : null,
    setUpsLeast: leastSetUps(task),
    lacks: answer.outcome === 'none' ? lacksOf(request, items) : [],
    work: answer.work,
  }
}

/** Equal items together, longest first. */
function distinct(items: ExactRequest['items']): ExactPlan['items'] {
  const byKey = new Map<string, { length: number; length2: number; count: number }>()
  for (const { length, length2, count } of items) {
    const key = `${length},${length2}`
    byKey.set(key, { length, length2, count: (byKey.get(key)?.count ?? 0) + count })
  }
  return [...byKey.values()].filter((item) => item.count > 0).sort((a, b) => b.length - a.length || b.length2 - a.length2)
}

/** The relaxation of money alone, for the sheet: bars are not mixed into it. */
function moneyRelaxation(task: CutTask, request: ExactRequest, order: readonly number[], both: Relaxed | null) {
  const stocks = task.stocks.map((stock, at) => ({ ...stock, cost: request.stocks[order[at]!]!.cost ?? 0 }))
  if (task.items.length === 0 || stocks.every((stock) => stock.limit === 0)) return null
  const demand = task.items.map((item) => item.demand)
  const scale = worthScale(
    Math.max(...stocks.map((stock) => stock.cost)),
    demand.reduce((sum, d) => sum + d, 0),
  )
  return relaxed(stocks, piecesOf(task.items, demand, [...demand.keys()]), both?.parts.map(({ column }) => column) ?? [], scale, {
    left: MONEY_WORK,
  })
}

const MONEY_WORK = 5e8

function cutOf(
  { pattern, times }: Use,
  { stocks, kerf, trim }: ExactRequest,
  order: readonly number[],
  items: ExactPlan['items'],
): ExactCut {
  const stock = order[pattern.stock]!
  const pieces = pattern.counts.reduce((sum, n) => sum + n, 0)
  const length = pattern.counts.reduce((sum, n, i) => sum + n * items[i]!.length, 0)
  // Behind the last piece: nothing, a strip that the saw turns to dust, or a remnant beyond one more cut.
  const behind = stocks[stock]!.length - 2 * trim - length - (pieces - 1) * kerf
  const last = Math.min(kerf, behind)
  return { stock, times, counts: pattern.counts, remnant: behind - last, saw: (pieces - 1) * kerf + last }
}

function lacksOf({ stocks, trim }: ExactRequest, items: ExactPlan['items']): readonly ExactLack[] {
  const usable = stocks
    .filter((stock) => stock.count !== 0)
    .map((stock) => ({
      length: Math.max(0, stock.length - 2 * trim),
      length2: stock.length2,
      count: stock.count ?? Number.POSITIVE_INFINITY,
    }))
  const longest = Math.max(0, ...usable.map((stock) => stock.length))
  const tooLong = items.flatMap((item, at): readonly ExactLack[] => {
    if (usable.some((stock) => stock.length >= item.length && stock.length2 >= item.length2)) return []
    if (item.length > longest) return [{ kind: 'too long', limit: 1, item: at, needed: item.length, there: longest }]
    const there = Math.max(0, ...usable.filter((stock) => stock.length >= item.length).map((stock) => stock.length2))
    return [{ kind: 'too long', limit: 2, item: at, needed: item.length2, there }]
  })
  if (tooLong.length > 0) return tooLong
  const total = (of: 'length' | 'length2', limit: 1 | 2): ExactLack => {
    const needed = items.reduce((sum, item) => sum + item.count * item[of], 0)
    const there = usable.reduce((sum, stock) => sum + stock.count * stock[of], 0)
    return { kind: needed > there ? 'too little' : 'no arrangement', limit, item: null, needed, there }
  }
  const second = total('length2', 2)
  return [second.kind === 'too little' ? second : total('length', 1)]
}
