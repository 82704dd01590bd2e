import type { ItemKind } from '../../job/index.ts'
import type { Rect, Wall } from './wall.ts'

/** Which way a person reads the wall: +1 towards greater u. */
export type Reading = 1 | -1

/** Things that hang on a wall so far, and where the next one finds room. Filled as the layout goes. */
export interface Room {
  readonly wall: Wall
  readonly taken: { readonly rect: Rect; readonly gapMm: number }[]
}

export const roomOf = (wall: Wall): Room => ({ wall, taken: wall.blocked.map((rect) => ({ rect, gapMm: BLOCKED })) })

/** What is in the way brings its own room. */
const BLOCKED = Number.NEGATIVE_INFINITY

export interface Wanted {
  readonly widthMm: number
  readonly lowMm: number
  readonly highMm: number
  readonly gapMm: number
  readonly kind: ItemKind
  /** May it stand where raceways come down? */
  readonly overLanes: boolean
}

/**
 * Nearest edge, from `fromMm` on in the reading's direction, from which the thing finds room to the end of the wall; null: none.
 * The edge is the one met first when reading.
 */
export function nextEdge(room: Room, wanted: Wanted, fromMm: number, reading: Reading): number | null {
  const { wall } = room
  let edge = reading === 1 ? Math.max(fromMm, wall.fromMm) : Math.min(fromMm, wall.toMm)
  for (let tries = 0; tries <= 2 * room.taken.length + 1; tries++) {
    const low = reading === 1 ? edge : edge - wanted.widthMm
    const high = low + wanted.widthMm
    if (low < wall.fromMm - 1e-6 || high > wall.toMm + 1e-6) return null
    let moved = edge
    for (const { rect, gapMm } of room.taken) {
      if (rect.before?.includes(wanted.kind) === true || (wanted.overLanes && rect.lane === true)) continue
      const gap = gapMm === BLOCKED ? 0 : Math.max(gapMm, wanted.gapMm)
      if (rect.highMm + gap <= wanted.lowMm + 1e-6 || rect.lowMm - gap >= wanted.highMm - 1e-6) continue
      if (rect.toMm + gap <= low + 1e-6 || rect.fromMm - gap >= high - 1e-6) continue
      moved = reading === 1 ? Math.max(moved, rect.toMm + gap) : Math.min(moved, rect.fromMm - gap)
    }
    if (moved === edge) return edge
    edge = moved
  }
  return null
}

export function take(room: Room, rect: Rect, gapMm: number): void {
  room.taken.push({ rect, gapMm })
}
