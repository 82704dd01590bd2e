import type { Leg } from '../../job/index.ts'

/** Panels by number of ways that the trade stocks. Common practice. */
export const PANEL_WAYS: readonly number[] = [8, 12, 16, 20, 24, 30, 42, 54, 66, 84]

/** Rows of two ways share a leg: 1 and 2 on A, 3 and 4 on B, and so round. */
export const legOfWay = (way: number, legs: readonly Leg[]): Leg => legs[(Math.ceil(way / 2) - 1) % legs.length] ?? 'A'

export interface WayTask {
  readonly id: string
  readonly legs: readonly Leg[]
}

/**
 * Positions for each circuit: odd left, even right, every pole on the way of its own leg, poles of one device one under another.
 * More poles first, then in the order given; each at the first place that fits, left before right. Null when the panel is too short.
 */
export function placedWays(
  circuits: readonly WayTask[],
  legs: readonly Leg[],
  count: number,
): Readonly<Record<string, readonly number[]>> | null {
  const taken = new Set<number>()
  const out: Record<string, readonly number[]> = {}
  const order = circuits.map((c, i) => ({ c, i })).sort((a, b) => b.c.legs.length - a.c.legs.length || a.i - b.i)
  for (const { c } of order) {
    const ways = firstFit(c, legs, count, taken)
    if (ways === null) return null
    for (const way of ways) taken.add(way)
    out[c.id] = ways
  }
  return out
}

function firstFit(circuit: WayTask, legs: readonly Leg[], count: number, taken: ReadonlySet<number>): readonly number[] | null {
  const wanted = new Set(circuit.legs)
  const poles = circuit.legs.length
  for (let way = 1; way <= count; way++) {
    const ways = Array.from({ length: poles }, (_, k) => way + 2 * k)
    if (ways[poles - 1]! > count || ways.some((w) => taken.has(w))) continue
    const on = ways.map((w) => legOfWay(w, legs))
    if (new Set(on).size === poles && on.every((leg) => wanted.has(leg))) return ways
  }
  return null
}

/** Ways of the smallest stock panel that takes the circuits and leaves the spare ones; null when none does. */
export function panelWays(circuits: readonly WayTask[], legs: readonly Leg[], spare: number): number | null {
  const poles = circuits.reduce((n, c) => n + c.legs.length, 0)
  return PANEL_WAYS.find((count) => count >= poles + spare && placedWays(circuits, legs, count) !== null) ?? null
}

export const spareWanted = (used: number, spareFrac: number): number => Math.ceil(used * spareFrac - 1e-9)
