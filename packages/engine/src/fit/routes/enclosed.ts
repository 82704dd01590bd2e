/** What a crossing of two lines of a grid is taken by, as bits. */
export const BLOCKED = 1
export const NO_LEVEL = 2
export const NO_UPRIGHT = 4
export const NO_BEND = 8

interface Ends {
  /** Level lines: cell `i · columns + j` lies on upright line i and level line j. */
  readonly columns: number
  readonly bits: Uint8Array
  /** Of each cell, a bit for each direction in which it is entered as the other end: +s, −s, +z, −z. */
  readonly goals: readonly { readonly cell: number; readonly way: number }[]
  /** Of each state `4 · cell + direction`: does a way begin here? */
  readonly starts: Uint8Array
  /** A way may come down from the ceiling. */
  readonly across: boolean
}

/** So many places round the other end are looked at. */
const MOST_LOOKED_AT = 400

/**
 * Is the other end shut in, so that not even a thread, which has no radius, is led out of it? Looks backwards from the end and soon
 * gives up: false says nothing.
 */
export function isEnclosed({ columns, bits, goals, starts, across }: Ends): boolean {
  const seen = new Set<number>()
  const queue: number[] = []
  /** Where a thread comes from that is led on in this direction; true where it begins there, or came over the ceiling. */
  const back = (cell: number, way: number): boolean => {
    const j = cell % columns
    if ((way === 2 && j === 0) || (way === 3 && j === columns - 1)) return across && way === 3
    const from = cell - (way === 0 ? columns : way === 1 ? -columns : way === 2 ? 1 : -1)
    if (from < 0 || from >= bits.length) return false
    if (starts[4 * from + way] === 1) return true
    // It came straight on, or bent there.
    entered(from, way >> 1)
    if ((bits[from]! & NO_BEND) === 0) entered(from, 1 - (way >> 1))
    return false
  }
  const entered = (cell: number, axis: number): void => {
    const state = 2 * cell + axis
    if ((bits[cell]! & (BLOCKED | (axis === 0 ? NO_LEVEL : NO_UPRIGHT))) !== 0 || seen.has(state)) return
    seen.add(state)
    queue.push(state)
  }
  for (const { cell, way } of goals) if (back(cell, way)) return false
  for (let at = 0; at < queue.length; at++) {
    if (at === MOST_LOOKED_AT) return false
    const [cell, axis] = [queue[at]! >> 1, queue[at]! & 1]
    if (back(cell, 2 * axis) || back(cell, 2 * axis + 1)) return false
  }
  return true
}
