import { Fault } from '../../kernel/index.ts'

/** One entry of a symmetric matrix, given once (row ≥ column or row ≤ column). Entries at the same place add. */
export interface Entry {
  readonly row: number
  readonly column: number
  readonly re: number
  readonly im: number
}

/** A factored symmetric complex matrix: solves A x = b as often as asked. */
export interface Factored {
  readonly n: number
  /** Replaces `x` (re, im interleaved) by A⁻¹ x. Allocates nothing. */
  solveInPlace(x: Float64Array): void
}

/**
 * Factors a symmetric complex matrix, A = L D Lᵀ without conjugate, in an order of least fill.
 *
 * No pivoting: the matrices are admittances, whose diagonal outweighs its row once every floating part has its leak.
 * @throws Fault `network/singular` when a pivot vanishes against the diagonal it came from
 */
export function factored(n: number, entries: readonly Entry[]): Factored {
  const pattern: Set<number>[] = Array.from({ length: n }, () => new Set())
  for (const e of entries) {
    if (e.row === e.column) continue
    pattern[e.row]!.add(e.column)
    pattern[e.column]!.add(e.row)
  }
  const order = leastFillOrder(pattern)
  const place = new Int32Array(n)
  order.forEach((node, i) => {
    place[node] = i
  })
  const { start, rows } = columnsOf(n, order, place, pattern)
  const values = new Float64Array(2 * rows.length)
  const diagonal = new Float64Array(2 * n)
  const original = new Float64Array(n)
  const slot = new Map<number, number>()
  for (let j = 0; j < n; j++) for (let k = start[j]!; k < start[j + 1]!; k++) slot.set(rows[k]! * n + j, k)
  for (const e of entries) {
    const i = place[e.row]!
    const j = place[e.column]!
    if (i === j) {
      diagonal[2 * i]! += e.re
      diagonal[2 * i + 1]! += e.im
      original[i]! += Math.hypot(e.re, e.im)
    } else {
      const k = slot.get(Math.max(i, j) * n + Math.min(i, j))!
      values[2 * k]! += e.re
      values[2 * k + 1]! += e.im
    }
  }
  eliminate(n, start, rows, values, diagonal, original, slot)
  return solver(n, place, start, rows, values, diagonal)
}

/** Vanishing pivot: what is left of a diagonal after cancellation is only rounding. */
const PIVOT_FLOOR = 1e-15

/** Eliminates the node of least degree first; ties by number, so that the order is always the same. */
function leastFillOrder(pattern: Set<number>[]): number[] {
  const live = pattern.map((s) => new Set(s))
  const left = new Set(live.keys())
  const order: number[] = []
  while (left.size > 0) {
    let best = -1
    let least = Infinity
    for (const node of left) {
      const degree = live[node]!.size
      if (degree < least) {
        least = degree
        best = node
        if (least <= 1) break
      }
    }
    const around = [...live[best]!]
    for (const a of around) {
      live[a]!.delete(best)
      for (const b of around) if (a !== b) live[a]!.add(b)
    }
    // Fill is kept for the columns below.
    for (const a of around) {
      pattern[best]!.add(a)
      pattern[a]!.add(best)
    }
    for (const a of around) for (const b of around) if (a !== b) pattern[a]!.add(b)
    left.delete(best)
    order.push(best)
  }
  return order
}

function columnsOf(n: number, order: readonly number[], place: Int32Array, pattern: readonly Set<number>[]) {
  const start = new Int32Array(n + 1)
  const rows: number[] = []
  for (let j = 0; j < n; j++) {
    start[j] = rows.length
    const below = [...pattern[order[j]!]!]
      .map((node) => place[node]!)
      .filter((i) => i > j)
      .sort((a, b) => a - b)
    rows.push(...below)
  }
  start[n] = rows.length
  return { start, rows: Int32Array.from(rows) }
}

/** Right-looking elimination on the filled pattern. */
function eliminate(
  n: number,
  start: Int32Array,
  rows: Int32Array,
  values: Float64Array,
  diagonal: Float64Array,
  original: Float64Array,
  slot: Map<number, number>,
): void {
  for (let j = 0; j < n; j++) {
    const dr = diagonal[2 * j]!
    const di = diagonal[2 * j + 1]!
    const size = dr * dr + di * di
    if (!(Math.sqrt(size) > PIVOT_FLOOR * original[j]!)) throw new Fault('network/singular', j)
    for (let a = start[j]!; a < start[j + 1]!; a++) {
      const ar = values[2 * a]!
      const ai = values[2 * a + 1]!
      const lr = (ar * dr + ai * di) / size
      const li = (ai * dr - ar * di) / size
      const i = rows[a]!
      diagonal[2 * i]! -= lr * ar - li * ai
      diagonal[2 * i + 1]! -= lr * ai + li * ar
      for (let b = a + 1; b < start[j + 1]!; b++) {
        const k = slot.get(rows[b]! * n + i)!
        const br = values[2 * b]!
        const bi = values[2 * b + 1]!
        values[2 * k]! -= lr * br - li * bi
        values[2 * k + 1]! -= lr * bi + li * br
      }
      // Left as L·D until the column is done with; `solver` divides.
    }
    for (let a = start[j]!; a < start[j + 1]!; a++) {
      const ar = values[2 * a]!
      const ai = values[2 * a + 1]!
      values[2 * a] = (ar * dr + ai * di) / size
      values[2 * a + 1] = (ai * dr - ar * di) / size
    }
  }
}

function solver(
  n: number,
  place: Int32Array,
  start: Int32Array,
  rows: Int32Array,
  values: Float64Array,
  diagonal: Float64Array,
): Factored {
  const y = new Float64Array(2 * n)
  return {
    n,
    solveInPlace(x) {
      for (let node = 0; node < n; node++) {
        const i = place[node]!
        y[2 * i] = x[2 * node]!
        y[2 * i + 1] = x[2 * node + 1]!
      }
      for (let j = 0; j < n; j++) {
        const yr = y[2 * j]!
        const yi = y[2 * j + 1]!
        if (yr === 0 && yi === 0) continue
        for (let a = start[j]!; a < start[j + 1]!; a++) {
          const i = rows[a]!
          const lr = values[2 * a]!
          const li = values[2 * a + 1]!
          y[2 * i]! -= lr * yr - li * yi
          y[2 * i + 1]! -= lr * yi + li * yr
        }
      }
      for (let j = n - 1; j >= 0; j--) {
        const dr = diagonal[2 * j]!
        const di = diagonal[2 * j + 1]!
        const size = dr * dr + di * di
        let yr = (y[2 * j]! * dr + y[2 * j + 1]! * di) / size
        let yi = (y[2 * j + 1]! * dr - y[2 * j]! * di) / size
        for (let a = start[j]!; a < start[j + 1]!; a++) {
          const i = rows[a]!
          const lr = values[2 * a]!
          const li = values[2 * a + 1]!
          yr -= lr * y[2 * i]! - li * y[2 * i + 1]!
          yi -= lr * y[2 * i + 1]! + li * y[2 * i]!
        }
        y[2 * j] = yr
        y[2 * j + 1] = yi
      }
      for (let node = 0; node < n; node++) {
        const i = place[node]!
        x[2 * node] = y[2 * i]!
        x[2 * node + 1] = y[2 * i + 1]!
      }
    },
  }
}
