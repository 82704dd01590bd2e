import { bestBar, goodBar, type Pieces } from './knapsack.ts'
import type { Budget, StockKind } from './model.ts'

/** A bar's cut with what it may cost, as a column of the linear program. */
export interface Column {
  readonly stock: number
  readonly counts: Int32Array
}

interface Proof {
  /** What one of each piece is worth, in units of cost / `scale`. Whole numbers; no bar of any kind can hold more than it costs (and `rent`). */
  readonly worth: Float64Array
  /** What the limit on a kind of stock adds to its cost. Whole, ≥ 0; 0 where there is no limit. */
  readonly rent: Float64Array
  /** At least what the best bar of each kind is worth. Whole; `Infinity` for a kind of which there is none. */
  readonly most: Float64Array
  /** Lower bound on the cost times the scale: Σ worth·demand − Σ rent·limit. Exact. */
  readonly boundScaled: number
}

export interface Relaxed extends Proof {
  readonly scale: number
  /** The fractional plan. Only a guide: nothing is proven by it. */
  readonly parts: readonly { readonly column: Column; readonly times: number }[]
}

/** Long enough that rounding the worths down costs nothing that matters, short enough that every sum stays a whole number below 2^53. */
const SCALE_MOST = 2 ** 24
const SCALE_LEAST = 2 ** 4
const SUM_MOST = 2 ** 51
const SMALL = 1e-9
/** Beyond so many kinds of piece the basis no longer fits the work there is. */
const ROWS_MOST = 450
/** How far the prices are drawn to the best so far. */
const PULL = 0.5
/** Up to so many kinds of piece the duals may swing: it costs less than pricing twice. */
const SMALL_LIST = 30
/** One more column a pricing for so many kinds of piece. */
const PIECES_PER_COLUMN = 12
/** A part of the fractional plan this near to a whole number of bars is one. */
export const WHOLE = 1e-3

/** The scale for a task of this size. */
export function worthScale(dearest: number, pieces: number): number {
  const room = SUM_MOST / Math.max(1, dearest * 4 * pieces)
  let scale = SCALE_LEAST
  while (2 * scale <= Math.min(room, SCALE_MOST)) scale *= 2
  return scale
}

/**
 * The linear relaxation: least Σ cost·x over all ways to cut a bar, pieces covered, limits kept, x not whole. Columns are made as they are
 * wanted. Every pricing rounds the worths down to whole numbers and finds the best bar exactly, so that at the end `boundScaled` is a proof
 * by whole numbers alone, whatever the floating-point basis did on the way.
 *
 * Null: the work ran out, or the basis went astray; nothing is proven.
 * @source Gilmore and Gomory, Operations Research 9 (1961) and 11 (1963); Chvátal, Linear Programming, 1983, ch. 13. Provenance: memory
 */
export function relaxed(
  stocks: readonly StockKind[],
  pieces: Pieces,
  start: readonly Column[],
  scale: number,
  budget: Budget,
  stopAbove = Number.POSITIVE_INFINITY,
): Relaxed | null {
  const n = pieces.size.length
  const limited = stocks.map((_, j) => j).filter((j) => stocks[j]!.limit < Number.POSITIVE_INFINITY)
  const rowOf = new Map(limited.map((j, at) => [j, n + at]))
  const R = n + limited.length
  if (R > ROWS_MOST) return null
  const right = new Float64Array(R)
  for (let i = 0; i < n; i += 1) right[i] = pieces.demand[i]! + nudge(i)
  limited.forEach((j, at) => {
    right[n + at] = stocks[j]!.limit + nudge(n + at)
  })
  const dear = coverCosts(stocks, pieces)

  // Columns by number: 0 … n-1 a piece bought dearly; n … R-1 a bar left over; R … R+n-1 a piece too many; from R+n on, cuts of a bar.
  const columns: Column[] = [...start]
  const FIRST = R + n
  const inverse = new Float64Array(R * R)
  for (let r = 0; r < R; r += 1) inverse[r * R + r] = 1
  const basis = Int32Array.from({ length: R }, (_, r) => r)
  const x = Float64Array.from(right)
  const cost = (c: number): number => (c < n ? dear[c]! : c < FIRST ? 0 : stocks[columns[c - FIRST]!.stock]!.cost)

  const dual = new Float64Array(R)
  const entering = new Float64Array(R)
  const worth = new Float64Array(n)
  const pivotsMost = 60 * R + 400
  let pivots = 0
  const basic = new Uint8Array(FIRST + start.length + (pivotsMost + 2) * stocks.length)
  for (let r = 0; r < R; r += 1) basic[r] = 1
  const dearest = Math.max(...stocks.map((stock) => stock.cost))
  /** A reduced cost nearer to 0 than this is noise of the floating point. */
  const noise = 1e-9 * dearest

  const duals = (): void => {
    dual.fill(0)
    for (let r = 0; r < R; r += 1) {
      const c = cost(basis[r]!)
      if (c === 0) continue
      const at = r * R
      for (let k = 0; k < R; k += 1) dual[k] = dual[k]! + c * inverse[at + k]!
    }
    budget.left -= (R * R) >> 2
  }
  const reduced = (c: number): number => {
    if (c < n) return dear[c]! - dual[c]!
    if (c < R) return -dual[c]!
    if (c < FIRST) return dual[c - R]!
    const { stock, counts } = columns[c - FIRST]!
    let value = stocks[stock]!.cost
    for (let i = 0; i < n; i += 1) if (counts[i] !== 0) value -= counts[i]! * dual[i]!
    const row = rowOf.get(stock)
    return row === undefined ? value : value - dual[row]!
  }
  const pivot = (c: number): boolean => {
    entering.fill(0)
    const add = (row: number, factor: number): void => {
      for (let r = 0; r < R; r += 1) entering[r] = entering[r]! + factor * inverse[r * R + row]!
    }
    if (c < R) add(c, 1)
    else if (c < FIRST) add(c - R, -1)
    else {
      const { stock, counts } = columns[c - FIRST]!
      for (let i = 0; i < n; i += 1) if (counts[i] !== 0) add(i, counts[i]!)
      const row = rowOf.get(stock)
      if (row !== undefined) add(row, 1)
    }
    let out = -1
    let step = Number.POSITIVE_INFINITY
    for (let r = 0; r < R; r += 1) {
      if (entering[r]! <= SMALL) continue
      const ratio = Math.max(0, x[r]!) / entering[r]!
      if (ratio < step - SMALL || (ratio < step + SMALL && out >= 0 && leavesFirst(r, out))) {
        step = ratio
        out = r
      }
    }
    if (out < 0) return false
    const turn = entering[out]!
    const outAt = out * R
    for (let k = 0; k < R; k += 1) inverse[outAt + k] = inverse[outAt + k]! / turn
    for (let r = 0; r < R; r += 1) {
      const factor = entering[r]!
      if (r === out || factor === 0) continue
      const at = r * R
      for (let k = 0; k < R; k += 1) inverse[at + k] = inverse[at + k]! - factor * inverse[outAt + k]!
      x[r] = x[r]! - factor * step
    }
    x[out] = step
    basic[basis[out]!] = 0
    basis[out] = c
    basic[c] = 1
    pivots += 1
    // A large basis does not stay near the processor.
    budget.left -= R * R * (R > 150 ? 4 : 1)
    return true
  }
  /** Of rows that tie: pieces bought dearly leave first, then the larger pivot, then the lower number. */
  const leavesFirst = (r: number, other: number): boolean => {
    const [a, b] = [basis[r]! < n, basis[other]! < n]
    if (a !== b) return a
    return entering[r]! > entering[other]! + SMALL
  }

  /** Best bars under `worth`, and the bound that it proves. */
  const price = (): (Proof & { readonly bars: readonly Column[] }) | null => {
    const rent = new Float64Array(stocks.length)
    const most = new Float64Array(stocks.length).fill(Number.POSITIVE_INFINITY)
    const bars: Column[] = []
    let shrink = 1
    for (let j = 0; j < stocks.length; j += 1) {
      const { capacity, capacity2, cost: price, limit } = stocks[j]!
      if (limit === 0) continue
      const row = rowOf.get(j)
      const best = bestBar(pieces, worth, capacity, capacity2, budget)
      if (best === null) return null
      most[j] = best.value
      const gain = best.value - price * scale
      if (row !== undefined) rent[j] = Math.max(0, gain)
      else if (gain > 0) shrink = Math.min(shrink, (price * scale) / best.value)
      if (best.value === 0) continue
      bars.push({ stock: j, counts: best.counts })
      // Further bars from the pieces that this one leaves: they will be wanted together.
      const rest = pieces.demand.slice()
      let last = best.counts
      for (let more = Math.floor(n / PIECES_PER_COLUMN); more > 0; more -= 1) {
        for (let i = 0; i < n; i += 1) rest[i] = rest[i]! - last[i]!
        const next = bestBar({ ...pieces, demand: rest }, worth, capacity, capacity2, budget)
        if (next === null || next.value < 0.9 * best.value) break
        bars.push({ stock: j, counts: next.counts })
        last = next.counts
      }
    }
    // Where a bar is worth more than it costs, all worths give way until none is; the rents found before stay high enough.
    const held = shrink < 1 ? worth.map((w) => Math.max(0, Math.floor(w * shrink - 1e-6))) : worth.slice()
    let boundScaled = 0
    for (let i = 0; i < n; i += 1) boundScaled += held[i]! * pieces.demand[i]!
    for (let j = 0; j < stocks.length; j += 1) if (rent[j]! > 0) boundScaled -= rent[j]! * stocks[j]!.limit
    return { worth: held, rent, most, boundScaled, bars }
  }

  /** True: a good bar, not the best, is worth more than it costs already. */
  const quickly = (): boolean => {
    let made = false
    stocks.forEach(({ capacity, capacity2, limit }, stock) => {
      if (limit === 0) return
      columns.push({ stock, counts: goodBar(pieces, worth, capacity, capacity2, budget).counts })
      if (reduced(FIRST + columns.length - 1) < -noise) made = true
      else columns.pop()
    })
    return made
  }

  const perLength = Math.min(...stocks.filter((s) => s.limit > 0).map((s) => s.cost / s.capacity))
  const center = Float64Array.from(pieces.size, (w) => w * perLength * scale)
  let steady = n > SMALL_LIST
  let best: Proof | null = null
  for (;;) {
    if (pivots > pivotsMost || budget.left <= 0) return null
    duals()
    // What is there already comes first.
    let least = -noise
    let enter = -1
    for (let c = 0; c < FIRST + columns.length; c += 1) {
      if (basic[c] === 1) continue
      const r = reduced(c)
      if (r < least) {
        least = r
        enter = c
      }
    }
    budget.left -= (columns.length * n) >> 2
    if (enter >= 0) {
      if (!pivot(enter)) return null
      continue
    }
    // Priced between the duals of the basis and the best worths so far: the duals alone swing to and fro.
    const pull = steady ? PULL : 0
    for (let i = 0; i < n; i += 1) worth[i] = Math.max(0, Math.floor(pull * center[i]! + (1 - pull) * dual[i]! * scale + 1e-6))
    if (!steady && quickly()) continue
    const priced = price()
    if (priced === null) return null
    if (best === null || priced.boundScaled > best.boundScaled) {
      best = priced
      center.set(priced.worth)
    }
    if (best.boundScaled > stopAbove * scale) return { ...best, scale, parts: [] }
    let made = 0
    for (const column of priced.bars) {
      columns.push(column)
      if (reduced(FIRST + columns.length - 1) < -noise) made += 1
      else columns.pop()
    }
    if (made > 0) {
      steady = n > SMALL_LIST
      continue
    }
    if (pull > 0) {
      steady = false
      continue
    }
    const parts = [...basis.keys()]
      .filter((r) => basis[r]! >= FIRST && x[r]! > 1e-4)
      .map((r) => ({ column: columns[basis[r]! - FIRST]!, times: x[r]! }))
      .sort((a, b) => b.times - a.times)
    return { ...best, scale, parts }
  }
}

/**
 * A hair more of everything, for no two rows the same: plans without waste tie in every row, and the simplex method would go in circles.
 * The bound is worked out with the demand as it is, so nothing is lost but a millionth of a bar.
 */
const nudge = (row: number): number => 1e-6 * (1 + ((row * 0.618_033_988_75) % 1))

/** What covering one piece may cost at most before it counts as impossible: twice a bar of its own where bars are without limit. */
function coverCosts(stocks: readonly StockKind[], { size, size2 }: Pieces): Float64Array {
  const dearest = Math.max(...stocks.map((stock) => stock.cost))
  return Float64Array.from(size, (w, i) => {
    const own = stocks.filter((s) => s.limit === Number.POSITIVE_INFINITY && s.capacity >= w && s.capacity2 >= size2[i]!)
    return own.length === 0 ? 3 * dearest : 2 * Math.min(...own.map((s) => s.cost))
  })
}
