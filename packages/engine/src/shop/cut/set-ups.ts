import { fitted } from './first-fit.ts'
import { bestBar, piecesOf } from './knapsack.ts'
import { type Budget, type CutTask, collected, costOf, type Pattern, type Use } from './model.ts'

/** Steps spent on set-ups: a few milliseconds. */
const WORK_MOST = 8e6

/**
 * The same cost with fewer different ways to cut, where such a plan is found: a way that can be cut many times over is taken first, and
 * stands if the plain rules, or what is left of the plan before, cut the rest for what is left of the money. Never more ways than before.
 * @source repeated patterns first after Haessler, A heuristic programming solution to a nonlinear cutting stock problem, Management Science 17 (1971). Provenance: memory
 */
export function fewerSetUps(task: CutTask, uses: readonly Use[]): readonly Use[] {
  if (uses.length <= leastSetUps(task)) return uses
  const budget: Budget = { left: WORK_MOST }
  const { stocks, items } = task
  const rest = items.map((item) => item.demand)
  const left = stocks.map((stock) => stock.limit)
  let money = costOf(task, uses)
  let tail = uses
  const taken: Use[] = []
  const steps = items.length * stocks.length
  while (tail.length > 0) {
    const first = tail[0]!
    let next: Use | null = null
    let after: readonly Use[] | null = null
    for (const use of candidates(task, rest, left, first.times, budget)) {
      if (budget.left <= 0) break
      const { pattern, times } = use
      const others = rest.map((d, i) => d - times * pattern.counts[i]!)
      const spare = money - times * stocks[pattern.stock]!.cost
      budget.left -= 100 * steps + others.reduce((sum, d) => sum + d, 0) * tail.reduce((sum, other) => sum + other.times, 0)
      const found = fitted(
        task,
        others,
        left.map((n, j) => (j === pattern.stock ? n - times : n)),
        spare,
      )
      if (found === null) continue
      const ways = collected(found)
      if (ways.length + 1 > tail.length) continue
      next = use
      after = ways
      break
    }
    const use = next ?? first
    taken.push(use)
    for (let i = 0; i < rest.length; i += 1) rest[i] = rest[i]! - use.times * use.pattern.counts[i]!
    left[use.pattern.stock] = left[use.pattern.stock]! - use.times
    money -= use.times * stocks[use.pattern.stock]!.cost
    tail = after ?? tail.slice(1)
  }
  return collected(taken)
}

/** No plan has fewer: a way to cut holds at most so many different pieces. */
export function leastSetUps({ stocks, items }: CutTask): number {
  const wanted = items.filter((item) => item.demand > 0)
  if (wanted.length === 0) return 0
  const longest = Math.max(...stocks.filter((stock) => stock.limit > 0).map((stock) => stock.capacity))
  let kinds = 0
  let length = 0
  for (const { size } of wanted.toReversed()) {
    length += size
    if (length > longest) break
    kinds += 1
  }
  return Math.ceil(wanted.length / Math.max(1, kinds))
}

/** Ways to fill a bar that can be cut more than `least` times, the most often first; of each kind of stock the fullest for a number of times. */
function candidates(
  task: CutTask,
  rest: readonly number[],
  left: readonly number[],
  least: number,
  budget: Budget,
): readonly Use[] {
  const found: Use[] = []
  const most = Math.max(...rest)
  for (let times = most; times > least && budget.left > 0; times -= 1) {
    const active = [...rest.keys()].filter((i) => rest[i]! >= times)
    const pieces = piecesOf(
      task.items,
      rest.map((d) => Math.floor(d / times)),
      active,
    )
    task.stocks.forEach(({ capacity, capacity2 }, stock) => {
      if (left[stock]! < times) return
      const best = bestBar(pieces, pieces.size, capacity, capacity2, budget, capacity)
      if (best === null || best.value === 0) return
      const counts = rest.map(() => 0)
      active.forEach((i, at) => {
        counts[i] = best.counts[at]!
      })
      found.push({ pattern: { stock, counts }, times })
    })
  }
  return found
}

/** A plan of the same bars whose largest single remnant is larger where moving pieces between two bars can make it so. Ways to cut never grow in number. */
export function largerRemnant(task: CutTask, uses: readonly Use[]): readonly Use[] {
  const budget: Budget = { left: WORK_MOST }
  let plan = uses
  for (;;) {
    budget.left -= 8 * plan.length * task.items.length
    const to = budget.left <= 0 ? null : fullest(task, plan, budget)
    if (to === null) return plan
    plan = collected(to)
  }
}

/** One move: the emptiest bar that is cut once gives what fills another that is cut once. Null: none gains. */
function fullest(task: CutTask, uses: readonly Use[], budget: Budget): readonly Use[] | null {
  const free = ({ stock, counts }: Pattern): number =>
    counts.reduce((sum, n, i) => sum - n * task.items[i]!.size, task.stocks[stock]!.capacity)
  const single = uses.filter((use) => use.times === 1).sort((a, b) => free(b.pattern) - free(a.pattern))
  const [emptiest, ...others] = single
  if (emptiest === undefined || free(emptiest.pattern) < Math.max(...uses.map((use) => free(use.pattern)))) return null
  for (const other of others) {
    if (free(other.pattern) === 0 || budget.left <= 0) continue
    const both = emptiest.pattern.counts.map((n, i) => n + other.pattern.counts[i]!)
    const active = [...both.keys()].filter((i) => both[i]! > 0)
    const { capacity, capacity2 } = task.stocks[other.pattern.stock]!
    const pieces = piecesOf(task.items, both, active)
    const best = bestBar(pieces, pieces.size, capacity, capacity2, budget, capacity)
    if (best === null || best.value <= capacity - free(other.pattern)) continue
    const full = both.map(() => 0)
    active.forEach((i, at) => {
      full[i] = best.counts[at]!
    })
    const rest = both.map((n, i) => n - full[i]!)
    const second = rest.reduce((sum, n, i) => sum + n * task.items[i]!.size2, 0)
    if (second > task.stocks[emptiest.pattern.stock]!.capacity2) continue
    return [
      ...uses.filter((use) => use !== emptiest && use !== other),
      { pattern: { stock: other.pattern.stock, counts: full }, times: 1 },
      { pattern: { stock: emptiest.pattern.stock, counts: rest }, times: 1 },
    ]
  }
  return null
}

/** Each bar from the shortest stock of the same cost that holds its pieces, as far as there is any. */
export function shortestStock(task: CutTask, uses: readonly Use[]): readonly Use[] {
  const left = task.stocks.map((stock, j) => uses.reduce((n, use) => n - (use.pattern.stock === j ? use.times : 0), stock.limit))
  return collected(
    uses.map((use) => {
      const { stock, counts } = use.pattern
      const need = counts.reduce((sum, n, i) => sum + n * task.items[i]!.size, 0)
      const need2 = counts.reduce((sum, n, i) => sum + n * task.items[i]!.size2, 0)
      const { cost, capacity } = task.stocks[stock]!
      let to = stock
      task.stocks.forEach((other, j) => {
        const holds = other.capacity >= need && other.capacity2 >= need2 && left[j]! >= use.times
        if (other.cost === cost && holds && other.capacity < Math.min(capacity, task.stocks[to]!.capacity)) to = j
      })
      if (to === stock) return use
      left[stock] = left[stock]! + use.times
      left[to] = left[to]! - use.times
      return { pattern: { stock: to, counts }, times: use.times }
    }),
  )
}
