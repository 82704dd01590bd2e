import { Fault } from '../../kernel/index.ts'
import { decreasing } from './first-fit.ts'
import { type Budget, type CutTask, collected, costOf, type Use } from './model.ts'
import { type Column, type Relaxed, relaxed, worthScale } from './relaxation.ts'
import { cheapest, search } from './search.ts'

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

/** Steps of the innermost loops; about three seconds on a machine of 2024. */
const WORK_MOST = 1.2e9
const MIXES_MOST = 4000

/**
 * The cheapest way to cut every piece: bound from the linear relaxation, plans from plain rules and from rounding it, then every cost
 * between the two looked at in turn, lowest first, until one is met or all are ruled out.
 * @throws Fault `shop/cut-task` for anything but whole numbers in range
 */
export function solved(task: CutTask, workMost = WORK_MOST): Solved {
  check(task)
  const budget: Budget = { left: workMost }
  const done = (rest: Omit<Solved, 'work'>): Solved => ({ ...rest, work: workMost - budget.left })
  const { stocks, items } = task
  const demand = items.map((item) => item.demand)
  const limits = stocks.map((stock) => stock.limit)
  const count = demand.reduce((sum, d) => sum + d, 0)
  const plain = decreasing(task, demand, limits, 'first', (j) => -stocks[j]!.capacity)
  const least = materialBound(task)
  if (count === 0)
    return done({ ...EMPTY, outcome: 'cut', plain, bound: 0, materialBound: 0, proven: true })
  const homeless = items.some((i) => i.demand > 0 && !stocks.some((s) => s.limit > 0 && s.capacity >= i.size && s.capacity2 >= i.size2))
  if (homeless || least === null)
    return done({ ...EMPTY, outcome: 'none', plain, bound: 0, materialBound: least ?? 0, proven: true })

  const scale = worthScale(Math.max(...stocks.map((s) => s.cost)), count)
  const pieces = {
    size: Float64Array.from(items, (i) => i.size),
    size2: Float64Array.from(items, (i) => i.size2),
    demand: Int32Array.from(demand),
  }
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
  if (relaxation !== null && bestCost() > bound) keep(dived(task, relaxation, bound, scale, budget))

  let open = false
  if (bestCost() > bound && relaxation !== null) {
    for (const mix of mixes(task, relaxation, bound, bestCost)) {
      if (mix.cost >= bestCost()) break
      if (!open && mix.cost > bound) {
        bound = mix.cost
        boundKind = 'search'
      }
      const share: Budget = { left: budget.left / 3 }
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
    return done({ outcome: open || relaxation === null ? 'given up' : 'none', uses, plain, bound, boundKind, relaxation, materialBound: least, proven: !open && relaxation !== null })
  return done({ outcome: 'cut', uses, plain, bound, boundKind, relaxation, materialBound: least, proven: bestCost() <= bound })
}

const EMPTY = { uses: [], boundKind: 'material', relaxation: null } as const

function unique(columns: readonly Column[]): readonly Column[] {
  return [...new Map(columns.map((column) => [`${column.stock}:${column.counts.join(',')}`, column])).values()]
}

/** The least cost whose bars hold the material, by length and by the second limit, on its own; null: all there is does not. */
function materialBound({ stocks, items }: CutTask): number | null {
  const one = (need: number, holds: (j: number) => number): number | null => {
    let left = need
    let cost = 0
    const order = [...stocks.keys()].filter((j) => holds(j) > 0).sort((a, b) => stocks[a]!.cost * holds(b) - stocks[b]!.cost * holds(a) || a - b)
    for (const j of order) {
      const { limit, cost: price } = stocks[j]!
      if (left <= limit * holds(j)) return cost + Math.ceil((left * price) / holds(j))
      left -= limit * holds(j)
      cost += limit * price
    }
    return left <= 0 ? Math.ceil(cost) : null
  }
  const length = one(items.reduce((sum, i) => sum + i.size * i.demand, 0), (j) => stocks[j]!.capacity)
  const second = items.reduce((sum, i) => sum + i.size2 * i.demand, 0)
  const other = second === 0 ? 0 : one(second, (j) => stocks[j]!.capacity2)
  return length === null || other === null ? null : Math.max(length, other)
}

/** Rounds the relaxation down, solves it again for the rest, until nothing is left; where nothing rounds to a bar, the largest part is taken as one. */
function dived(task: CutTask, root: Relaxed, bound: number, scale: number, budget: Budget): readonly Use[] | null {
  const rest = Int32Array.from(task.items, (item) => item.demand)
  const left = task.stocks.map((stock) => stock.limit)
  const uses: Use[] = []
  let best: readonly Use[] | null = null
  let parts = root.parts.map(({ column, times }) => ({ stock: column.stock, counts: column.counts, times }))
  for (;;) {
    let took = false
    for (const { stock, counts, times } of parts) {
      let whole = Math.min(Math.floor(times + 1e-6), left[stock]!)
      if (!took && parts.every((part) => part.times < 1 - 1e-6)) whole = Math.min(1, left[stock]!)
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
      if (all !== null && (best === null || costOf(task, all) < costOf(task, best))) best = all
    }
    if (best !== null && costOf(task, best) <= bound) return best
    const active = [...rest.keys()].filter((i) => rest[i]! > 0)
    if (active.length === 0) return best
    const pieces = {
      size: Float64Array.from(active, (i) => task.items[i]!.size),
      size2: Float64Array.from(active, (i) => task.items[i]!.size2),
      demand: Int32Array.from(active, (i) => rest[i]!),
    }
    const start = unique(parts.map(({ stock, counts }) => ({ stock, counts: Int32Array.from(active, (i) => Math.min(counts[i]!, rest[i]!)) })))
    const lp = relaxed(task.stocks.map((stock, j) => ({ ...stock, limit: left[j]! })), pieces, start, scale, budget)
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

interface Mix {
  readonly cost: number
  readonly limits: readonly number[]
}

/**
 * What could be bought for less than the best plan, cheapest first: with one kind of stock a number of bars, with several how many of each.
 * A mix whose bars are worth less than the pieces, or are shorter than they, is left out: the relaxation rules it out.
 */
function* mixes(task: CutTask, relaxation: Relaxed, bound: number, best: () => number): Generator<Mix> {
  const { stocks, items } = task
  if (stocks.length === 1) {
    const { cost, limit } = stocks[0]!
    for (let n = Math.ceil(bound / cost); n <= limit && n * cost < best(); n += 1) yield { cost: n * cost, limits: [limit] }
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
      wide = Math.max(1, Math.floor((high - low) / 4))
      high = low + wide
      list = between(low, high)
    }
    if (list === null) {
      // Too many ways to spend the same: they are looked at together.
      yield { cost: high, limits: stocks.map((s) => s.limit) }
    } else yield* list
    low = high + 1
  }

  function between(from: number, to: number): Mix[] | null {
    const found: Mix[] = []
    const limits = stocks.map(() => 0)
    let nodes = 0
    const visit = (j: number, cost: number, value: number, length: number, bars: number): boolean => {
      nodes += 1
      if (nodes > 40 * MIXES_MOST || found.length > MIXES_MOST) return false
      if (j === stocks.length) {
        if (cost >= from && value >= worth && length >= size) found.push({ cost, limits: [...limits] })
        return true
      }
      const { cost: price, limit, capacity } = stocks[j]!
      const last = j === stocks.length - 1
      const fewest = last ? Math.max(0, Math.ceil((from - cost) / price)) : 0
      const most = Math.min(limit, pieces - bars, Math.floor((to - cost) / price))
      for (let n = fewest; n <= most; n += 1) {
        limits[j] = n
        if (!visit(j + 1, cost + n * price, value + n * relaxation.most[j]!, length + n * capacity, bars + n)) return false
      }
      limits[j] = 0
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

function check({ stocks, items }: CutTask): void {
  const whole = (n: number): boolean => Number.isSafeInteger(n) && n >= 0
  const good =
    stocks.length > 0 &&
    stocks.every((s) => whole(s.capacity) && whole(s.capacity2) && whole(s.cost) && s.cost >= 1 && (s.limit === Number.POSITIVE_INFINITY || whole(s.limit))) &&
    items.every((i) => whole(i.size) && i.size >= 1 && whole(i.size2) && whole(i.demand)) &&
    items.every((i, at) => at === 0 || items[at - 1]!.size >= i.size)
  if (!good) throw new Fault('shop/cut-task', { stocks, items })
}
