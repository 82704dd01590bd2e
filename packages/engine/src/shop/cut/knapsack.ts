import type { Budget, Item } from './model.ts'

/** Pieces that are left and what a dual solution says one of each is worth, in whole units. */
export interface Pieces {
  readonly size: Float64Array
  readonly size2: Float64Array
  readonly demand: Int32Array
}

export interface Best {
  readonly value: number
  readonly counts: Int32Array
}

/** What a node of a tree and a cell of a table count for beside one step of the linear program: about as long as they take. */
const NODE_STEPS = 32
const TABLE_STEPS = 5

/** Tree nodes before the table takes over: as many as it would cost, so that the choice never costs more than double. */
const NODES_FIRST = 3000
const STEPS_PER_NODE = 6
/** Where the table would be too large. */
const NODES_MOST = 4e6
/** Tree nodes for a good bar. */
const NODES_QUICK = 150
const TABLE_LARGEST = 8e6

/**
 * The most that one bar can be worth: max Σ p·a, Σ size·a ≤ capacity, Σ size2·a ≤ capacity2, 0 ≤ a ≤ demand, all whole numbers.
 * A depth-first tree in the order of worth per length; where it grows, dynamic programming over the length.
 * Null: the work ran out, and nothing is proven.
 * @source Gilmore and Gomory, A linear programming approach to the cutting-stock problem II, Operations Research 11 (1963); Kellerer, Pferschy and Pisinger, Knapsack Problems, 2004. Provenance: memory
 */
export function bestBar(
  pieces: Pieces,
  worth: Float64Array,
  capacity: number,
  capacity2: number,
  budget: Budget,
  enough = Number.POSITIVE_INFINITY,
): Best | null {
  const table = tableSteps(pieces, worth, capacity, capacity2)
  const tree = bestByTree(
    pieces,
    worth,
    capacity,
    capacity2,
    budget,
    table <= TABLE_LARGEST ? Math.max(NODES_FIRST, table / STEPS_PER_NODE) : NODES_MOST,
    enough,
  )
  if (tree.complete) return tree.best
  if (table > TABLE_LARGEST || budget.left <= 0) return null
  return bestByTable(pieces, worth, capacity, budget)
}

/** A good bar, found by the first few hundred nodes of the same tree; nothing is proven. */
export function goodBar(pieces: Pieces, worth: Float64Array, capacity: number, capacity2: number, budget: Budget): Best {
  return bestByTree(pieces, worth, capacity, capacity2, budget, NODES_QUICK, Number.POSITIVE_INFINITY).best
}

function tableSteps({ size, demand }: Pieces, worth: Float64Array, capacity: number, capacity2: number): number {
  if (capacity2 > 0) return Number.POSITIVE_INFINITY
  let parts = 0
  for (let i = 0; i < size.length; i += 1) {
    const most = worth[i]! > 0 ? Math.min(demand[i]!, Math.floor(capacity / size[i]!)) : 0
    parts += 32 - Math.clz32(most)
  }
  return parts * (capacity + 1)
}

function bestByTree(
  pieces: Pieces,
  worth: Float64Array,
  capacity: number,
  capacity2: number,
  budget: Budget,
  nodesMost: number,
  enough: number,
): { readonly complete: boolean; readonly best: Best } {
  const order = [...worth.keys()]
    .filter((i) => worth[i]! > 0 && pieces.size[i]! <= capacity && pieces.size2[i]! <= capacity2 && pieces.demand[i]! > 0)
    .sort((a, b) => worth[b]! / pieces.size[b]! - worth[a]! / pieces.size[a]! || pieces.size[b]! - pieces.size[a]!)
  const n = order.length
  const w = Float64Array.from(order, (i) => pieces.size[i]!)
  const w2 = Float64Array.from(order, (i) => pieces.size2[i]!)
  const p = Float64Array.from(order, (i) => worth[i]!)
  const d = Int32Array.from(order, (i) => pieces.demand[i]!)
  const two = capacity2 > 0
  const smallest = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY)
  const dense2 = new Float64Array(n + 1)
  for (let i = n - 1; i >= 0; i -= 1) {
    smallest[i] = Math.min(smallest[i + 1]!, w[i]!)
    dense2[i] = Math.max(dense2[i + 1]!, w2[i] === 0 ? Number.POSITIVE_INFINITY : p[i]! / w2[i]!)
  }
  const now = new Int32Array(n)
  let kept = new Int32Array(n)
  let best = 0
  let nodes = 0
  let over = false
  const visit = (from: number, rest: number, rest2: number, value: number): void => {
    nodes += 1
    if (value > best) {
      best = value
      kept = now.slice()
      if (best >= enough) over = true
    }
    if (nodes > nodesMost) over = true
    for (let i = from; i < n && !over && smallest[i]! <= rest; i += 1) {
      // A whole number above `best` must be reachable: below best + 1 there is none. 0.1 covers what division rounds off.
      if (value + (rest * p[i]!) / w[i]! < best + 0.9) return
      if (two && value + rest2 * dense2[i]! < best + 0.9) return
      const fit = Math.min(Math.floor(rest / w[i]!), w2[i]! > 0 ? Math.floor(rest2 / w2[i]!) : d[i]!, d[i]!)
      for (let count = fit; count >= 1 && !over; count -= 1) {
        now[i] = count
        visit(i + 1, rest - count * w[i]!, rest2 - count * w2[i]!, value + count * p[i]!)
      }
      now[i] = 0
    }
  }
  visit(0, capacity, capacity2, 0)
  budget.left -= nodes * NODE_STEPS
  const counts = new Int32Array(worth.length)
  order.forEach((item, i) => {
    counts[item] = kept[i]!
  })
  return { complete: !over || best >= enough, best: { value: best, counts } }
}

function bestByTable({ size, demand }: Pieces, worth: Float64Array, capacity: number, budget: Budget): Best {
  const parts: { readonly item: number; readonly count: number }[] = []
  for (let item = 0; item < size.length; item += 1) {
    let most = worth[item]! > 0 ? Math.min(demand[item]!, Math.floor(capacity / size[item]!)) : 0
    for (let count = 1; most > 0; count *= 2) {
      parts.push({ item, count: Math.min(count, most) })
      most -= count
    }
  }
  const value = new Float64Array(capacity + 1)
  const taken = parts.map(({ item, count }) => {
    const takes = new Uint8Array(capacity + 1)
    const w = size[item]! * count
    const p = worth[item]! * count
    for (let c = capacity; c >= w; c -= 1) {
      const other = value[c - w]! + p
      if (other > value[c]!) {
        value[c] = other
        takes[c] = 1
      }
    }
    return takes
  })
  budget.left -= parts.length * (capacity + 1) * TABLE_STEPS
  const counts = new Int32Array(size.length)
  let c = capacity
  for (let at = parts.length - 1; at >= 0; at -= 1) {
    const { item, count } = parts[at]!
    if (taken[at]![c] === 0) continue
    counts[item] = counts[item]! + count
    c -= size[item]! * count
  }
  return { value: value[capacity]!, counts }
}

/**
 * Every way to cut one bar that holds `item`, takes no further piece, and is worth at least `least`. Null: more than `most`, or the work ran out.
 */
export function barsWith(
  pieces: Pieces,
  worth: Float64Array,
  options: {
    readonly item: number
    readonly capacity: number
    readonly capacity2: number
    readonly least: number
    readonly most: number
  },
  budget: Budget,
): readonly Int32Array[] | null {
  const { item, capacity, capacity2, least, most } = options
  const { size, size2, demand } = pieces
  if (size[item]! > capacity || size2[item]! > capacity2) return []
  const n = size.length
  const order = [...worth.keys()]
    .filter((i) => demand[i]! > (i === item ? 1 : 0))
    .sort((a, b) => worth[b]! / size[b]! - worth[a]! / size[a]! || size[b]! - size[a]!)
  const counts = new Int32Array(n)
  counts[item] = 1
  const found: Int32Array[] = []
  let nodes = 0
  let over = false
  const full = (rest: number, rest2: number): boolean => {
    for (let i = 0; i < n; i += 1) if (counts[i]! < demand[i]! && size[i]! <= rest && size2[i]! <= rest2) return false
    return true
  }
  const visit = (from: number, rest: number, rest2: number, value: number): void => {
    nodes += 1
    if (nodes * NODE_STEPS > budget.left) over = true
    if (value >= least && full(rest, rest2)) {
      if (found.length >= most) over = true
      else found.push(counts.slice())
    }
    for (let at = from; at < order.length && !over; at += 1) {
      const i = order[at]!
      if (value + (rest * worth[i]!) / size[i]! < least - 0.1) return
      if (size[i]! > rest || size2[i]! > rest2) continue
      const had = counts[i]!
      const fit = Math.min(
        Math.floor(rest / size[i]!),
        size2[i]! > 0 ? Math.floor(rest2 / size2[i]!) : demand[i]!,
        demand[i]! - had,
      )
      for (let count = fit; count >= 1 && !over; count -= 1) {
        counts[i] = had + count
        visit(at + 1, rest - count * size[i]!, rest2 - count * size2[i]!, value + count * worth[i]!)
      }
      counts[i] = had
    }
  }
  visit(0, capacity - size[item]!, capacity2 - size2[item]!, worth[item]!)
  budget.left -= nodes * NODE_STEPS
  return over ? null : found
}

/** The pieces still wanted, by their place among the items. */
export function piecesOf(items: readonly Item[], demand: ArrayLike<number>, active: readonly number[]): Pieces {
  return {
    size: Float64Array.from(active, (i) => items[i]!.size),
    size2: Float64Array.from(active, (i) => items[i]!.size2),
    demand: Int32Array.from(active, (i) => demand[i]!),
  }
}
