import type { Row } from './rounded-cuts.ts'

interface Program {
  readonly rows: readonly Row[]
  readonly cost: Float64Array
  /** How often each column can be taken at most. */
  readonly most: Float64Array
  /** What it may cost. */
  readonly room: number
  /** Weights are read in units of cost over this. */
  readonly scale: number
}

/**
 * True: nothing that meets the rows costs as little as the room, shown in whole numbers by these weights, whatever floating point made them.
 *
 *   Σ cost·x ≥ Σ w·least − Σ most·(Σ w·of − cost)⁺ > room
 *
 * @source weak duality of linear programming. Provenance: computed
 */
export function passes({ rows, cost, most, room, scale }: Program, weights: readonly number[]): boolean {
  const whole = weights.map((w) => Math.floor(Math.max(0, w) * scale))
  let bound = rows.reduce((sum, row, r) => sum + whole[r]! * row.least, 0)
  for (let p = 0; p < cost.length; p += 1) {
    const load = rows.reduce((sum, row, r) => sum + whole[r]! * row.of[p]!, 0)
    const over = load - cost[p]! * scale
    if (!Number.isSafeInteger(load)) return false
    if (over > 0) bound -= over * most[p]!
  }
  return Number.isSafeInteger(bound) && bound > room * scale
}
