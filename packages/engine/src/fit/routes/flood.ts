/** What a crossing of two lines of a grid is taken by, as bits. */
export const BLOCKED = 1
export const NO_LEVEL = 2
export const NO_UPRIGHT = 4
export const NO_BEND = 8

/** Lines of a grid: cell `i · columns + j` lies on level line j and upright line i. */
export interface Flooded {
  readonly columns: number
  readonly bits: Uint8Array
  /** Of each cell, a bit for each direction in which it may be entered as the other end: +s, −s, +z, −z. */
  readonly goals: Uint8Array
  /** Where a way begins, as `4 · cell + direction`. */
  readonly starts: readonly number[]
  /** From the top of an upright line to where it comes down the other wall, as `4 · cell + direction`; −1: it does not. */
  readonly crossing: (i: number) => number
}

/** Whether any goal can be reached at all by a thread, which has neither radius nor ends: where it cannot, nothing that is bent can. */
export function threads({ columns, bits, goals, starts, crossing }: Flooded): boolean {
  const cells = bits.length
  // State `2 · cell + axis`: on this cell, led along it (0) or up it (1).
  const seen = new Uint8Array(2 * cells)
  const queue = new Int32Array(2 * cells)
  let [from, to] = [0, 0]
  const reach = (state: number): void => {
    if (seen[state] === 1) return
    seen[state] = 1
    queue[to++] = state
  }
  /** One line on; true where that is a goal. */
  const step = (cell: number, way: number): boolean => {
    const j = cell % columns
    if ((way === 2 && j === columns - 1) || (way === 3 && j === 0)) return false
    const next = cell + (way === 0 ? columns : way === 1 ? -columns : way === 2 ? 1 : -1)
    if (next < 0 || next >= cells) return false
    if (((goals[next]! >> way) & 1) === 1) return true
    if ((bits[next]! & (BLOCKED | (way < 2 ? NO_LEVEL : NO_UPRIGHT))) === 0) reach(2 * next + (way < 2 ? 0 : 1))
    return false
  }
  for (const start of starts) if (step(start >> 2, start & 3)) return true
  while (from < to) {
    const state = queue[from++]!
    const [cell, axis] = [state >> 1, state & 1]
    const way = 2 * axis
    if (step(cell, way) || step(cell, way + 1)) return true
    if ((bits[cell]! & NO_BEND) !== 0) continue
    reach(2 * cell + (1 - axis))
    if (axis === 1 && cell % columns === columns - 1) {
      const there = crossing(Math.floor(cell / columns))
      if (there >= 0) reach(2 * (there >> 2) + 1)
    }
  }
  return false
}
