import { Fault } from '../../kernel/index.ts'
import { dived, unique } from './dive.ts'
import { fewWays } from './few-ways.ts'
import { cheapest, decreasing } from './first-fit.ts'
import { piecesOf } from './knapsack.ts'
import { mixes } from './mixes.ts'
import { type Budget, type CutTask, collected, costOf, type Use } from './model.ts'
import { type Column, type Relaxed, relaxed, worthScale } from './relaxation.ts'
import { search } from './search.ts'

export interface Solved {
  readonly outcome: 'cut' | 'none' | 'given up'
  /** Empty where nothing was found. */
  readonly uses: readonly Use[]
  /** What the plain first-fit-decreasing rule makes of it; null where it runs out of stock. */
  readonly plain: readonly Use[] | null
  /** No plan costs less: whole units of the objective. */
  readonly bound: number
  /** What the bound rests on. */
  readonly boundKind: 'material' | 'linear' | 'search'
  /** Of the linear relaxation, with the worths that prove it; null where the work ran out before. */
  readonly relaxation: Relaxed | null
  readonly materialBound: number
  readonly proven: boolean
  readonly work: number
}

/** Steps of the innermost loops; about four seconds on a machine of 2024. */
const WORK_MOST = 3e9

/**
 * The cheapest way to cut every piece: bound from the linear relaxation, plans from plain rules and from rounding it, then every cost
 * between the two looked at in turn, lowest first, until one is met or all are ruled out.
 * @throws Fault `shop/cut-task` for anything but whole numbers in range
 */
export function solved(whole: CutTask, workMost = WORK_MOST): Solved {
  check(whole)
  const task = withoutPoor(whole)
  const budget: Budget = { left: workMost }
  const done = (rest: Omit<Solved, 'work'>): Solved => ({ ...rest, work: workMost - budget.left })
  const { stocks, items } = task
  const demand = items.map((item) => item.demand)
  const limits = stocks.map((stock) => stock.limit)
  const count = demand.reduce((sum, d) => sum + d, 0)
  const plain = decreasing(task, demand, limits, 'first', (j) => -stocks[j]!.capacity)
  const least = materialBound(task)
  if (count === 0) return done({ ...EMPTY, outcome: 'cut', plain, bound: 0, materialBound: 0, proven: true })
  const homeless = items.some(
    (i) => i.demand > 0 && !stocks.some((s) => s.limit > 0 && s.capacity >= i.size && s.capacity2 >= i.size2),
  )
  if (homeless || least === null)
    return done({ ...EMPTY, outcome: 'none', plain, bound: 0, materialBound: least ?? 0, proven: true })

  const scale = worthScale(Math.max(...stocks.map((s) => s.cost)), count)
  const pieces = piecesOf(items, demand, [...items.keys()])
  let best: readonly Use[] | null = null
  const keep = (uses: readonly Use[] | null): void => {
    if (uses !== null && (best === null || costOf(task, uses) < costOf(task, best))) best = uses
  }
  keep(plain)
  for (const fit of ['first', 'best'] as const) keep(cheapest(task, demand, limits, fit))
  const start: readonly Column[] = (best ?? ([] as readonly Use[])).map(({ pattern }) => ({
    stock: pattern.stock,
    counts: Int32Array.from(pattern.counts),
  }))
  const relaxation = relaxed(stocks, pieces, unique(start), scale, budget)
  let bound = Math.max(least, relaxation === null ? 0 : Math.ceil(relaxation.boundScaled / scale))
  let boundKind: Solved['boundKind'] = bound > least ? 'linear' : 'material'
  const bestCost = (): number => (best === null ? Number.POSITIVE_INFINITY : costOf(task, best))
  if (relaxation !== null && bestCost() > bound) keep(dived(task, demand, limits, relaxation, bound, budget))

  let open = false
  const proofs: Relaxed[] = []
  if (bestCost() > bound && relaxation !== null) {
    for (const mix of mixes(task, relaxation, bound, bestCost)) {
      if (mix.cost >= bestCost()) break
      if (!open && mix.cost > bound) {
        bound = mix.cost
        boundKind = 'search'
      }
      // What proved one mix too little proves it of others.
      if (proofs.some((proof) => tooLittle(task, proof, mix.limits))) continue
      let near: Relaxed | null = relaxation
      if (stocks.length > 1) {
        const mixed = stocks.map((stock, j) => ({ ...stock, limit: mix.limits[j]! }))
        const proof = relaxed(mixed, pieces, [], scale, budget, mix.cost)
        near = proof
        if (proof !== null) {
          proofs.push(proof)
          if (proof.boundScaled > mix.cost * scale) continue
          keep(dived(task, demand, mix.limits, proof, mix.cost, budget))
          if (bestCost() <= mix.cost) break
        }
      }
      const few = near === null ? null : fewWays(task, pieces, mix.cost, mix.limits, near, budget)
      if (few !== null) {
        keep(few.uses)
        continue
      }
      const share: Budget = { left: budget.left * 0.8 }
      const before = share.left
      const one = search(task, mix.cost, mix.limits, scale, share)
      budget.left -= before - share.left
      keep(one.uses)
      if (!one.complete) open = true
      if (budget.left <= 0) {
        open = true
        break
      }
    }
    if (!open && best !== null && bestCost() > bound) {
      bound = bestCost()
      boundKind = 'search'
    }
  }
  const uses = best === null ? [] : collected(best)
  if (best === null)
    return done({
      outcome: open || relaxation === null ? 'given up' : 'none',
      uses,
      plain,
      bound,
      boundKind,
      relaxation,
      materialBound: least,
      proven: !open && relaxation !== null,
    })
  return done({ outcome: 'cut', uses, plain, bound, boundKind, relaxation, materialBound: least, proven: bestCost() <= bound })
}

const EMPTY = { uses: [], boundKind: 'material', relaxation: null } as const

/** a · b ÷ c rounded up, exact beyond 2^53 too. */
const roundedUp = (a: number, b: number, c: number): number => Number((BigInt(a) * BigInt(b) + BigInt(c) - 1n) / BigInt(c))

/** Stock that another kind beats in length and cost, without limit, is never needed. */
function withoutPoor(task: CutTask): CutTask {
  const beaten = (j: number): boolean => {
    const poor = task.stocks[j]!
    return task.stocks.some(
      (other, k) =>
        k !== j &&
        other.limit === Number.POSITIVE_INFINITY &&
        other.capacity >= poor.capacity &&
        other.capacity2 >= poor.capacity2 &&
        other.cost <= poor.cost &&
        (k < j ||
          other.capacity > poor.capacity ||
          other.capacity2 > poor.capacity2 ||
          other.cost < poor.cost ||
          poor.limit < other.limit),
    )
  }
  return { ...task, stocks: task.stocks.map((stock, j) => (beaten(j) ? { ...stock, limit: 0 } : stock)) }
}

/** The least cost whose bars hold the material, by length and by the second limit, on its own; null: all there is does not. */
function materialBound({ stocks, items }: CutTask): number | null {
  const one = (need: number, holds: (j: number) => number): number | null => {
    let left = need
    let cost = 0
    const order = [...stocks.keys()]
      .filter((j) => holds(j) > 0)
      .sort((a, b) => stocks[a]!.cost * holds(b) - stocks[b]!.cost * holds(a) || a - b)
    for (const j of order) {
      const { limit, cost: price } = stocks[j]!
      if (left <= limit * holds(j)) return cost + roundedUp(left, price, holds(j))
      left -= limit * holds(j)
      cost += limit * price
    }
    return left <= 0 ? Math.ceil(cost) : null
  }
  const length = one(
    items.reduce((sum, i) => sum + i.size * i.demand, 0),
    (j) => stocks[j]!.capacity,
  )
  const second = items.reduce((sum, i) => sum + i.size2 * i.demand, 0)
  const other = second === 0 ? 0 : one(second, (j) => stocks[j]!.capacity2)
  return length === null || other === null ? null : Math.max(length, other)
}

/** True: under these worths the bars together hold less than the pieces are worth. */
function tooLittle({ items }: CutTask, { worth, most }: Relaxed, limits: readonly number[]): boolean {
  const wanted = items.reduce((sum, { demand }, i) => sum + demand * worth[i]!, 0)
  return limits.reduce((sum, n, j) => sum + (n === 0 ? 0 : n * most[j]!), 0) < wanted
}

function check({ stocks, items }: CutTask): void {
  const whole = (n: number): boolean => Number.isSafeInteger(n) && n >= 0
  const good =
    stocks.length > 0 &&
    stocks.every(
      (s) =>
        whole(s.capacity) &&
        whole(s.capacity2) &&
        whole(s.cost) &&
        s.cost >= 1 &&
        (s.limit === Number.POSITIVE_INFINITY || whole(s.limit)),
    ) &&
    items.every((i) => whole(i.size) && i.size >= 1 && whole(i.size2) && whole(i.demand)) &&
    items.every((i, at) => at === 0 || items[at - 1]!.size >= i.size)
  if (!good) throw new Fault('shop/cut-task', { stocks, items })
}
