import type { ShelfItem } from '../../parts/index.ts'
import type { Clash, Spot } from './plan-of.ts'
import { nextEdge, type Reading, type Room, take } from './room.ts'
import { BOX_GAP_MM, DOOR_GAP_MM, HIGHWAY_MM } from './rules.ts'
import type { Wall } from './wall.ts'

/** By side and face: `left inside`. */
export type Rooms = ReadonlyMap<string, Room>

export function takeSpot(rooms: Rooms, spot: Spot): void {
  const room = rooms.get(`${spot.side} ${spot.face}`)
  if (room === undefined) return
  const { widthMm, heightMm } = spot.item.part
  take(
    room,
    {
      id: spot.item.id,
      fromMm: spot.uMm - widthMm / 2,
      toMm: spot.uMm + widthMm / 2,
      lowMm: spot.zMm - heightMm / 2,
      highMm: spot.zMm + heightMm / 2,
    },
    gapOf(spot.item),
  )
}

export const gapOf = (item: ShelfItem): number => (item.part.doorMm > 0 ? DOOR_GAP_MM : BOX_GAP_MM)

/** Puts one thing at the next free place of its height; says what is wanting where there is none. */
export function putNext(
  room: Room,
  item: ShelfItem,
  zMm: number,
  fromMm: number,
  reading: Reading,
  overLanes = false,
): { readonly edgeMm: number; readonly spot: Spot } | null {
  const { widthMm, heightMm } = item.part
  const edge = nextEdge(
    room,
    { widthMm, lowMm: zMm - heightMm / 2, highMm: zMm + heightMm / 2, gapMm: gapOf(item), kind: item.kind, overLanes },
    fromMm,
    reading,
  )
  if (edge === null) return null
  const { side, face } = room.wall
  return { edgeMm: edge + reading * widthMm, spot: { item, side, face, uMm: edge + (reading * widthMm) / 2, zMm, pinned: false } }
}

/** How much room is wanting after the last thing at this height, and what that is. */
export function wanting(room: Room, item: ShelfItem, zMm: number, reading: Reading): Clash {
  const { wall } = room
  const { widthMm, heightMm } = item.part
  const [low, high] = [zMm - heightMm / 2, zMm + heightMm / 2]
  const end = reading === 1 ? wall.toMm : wall.fromMm
  let last = reading === 1 ? wall.fromMm : wall.toMm
  let against = `end of the ${wall.side} wall`
  for (const { rect } of room.taken) {
    if (rect.highMm <= low || rect.lowMm >= high) continue
    const edge = reading === 1 ? rect.toMm : rect.fromMm
    if ((edge - last) * reading > 0) {
      last = edge
      against = rect.id
    }
  }
  const free = Math.max(0, (end - last) * reading - (against.startsWith('end of') ? 0 : gapOf(item)))
  return { what: item.id, against, byMm: Math.ceil(Math.max(1, widthMm - free)) }
}

/** Height between the clear bands. */
export const bandMm = (wall: Wall): number => wall.ceilingMm - wall.floorMm - 2 * HIGHWAY_MM

/** By how much a thing at this height stands into the clear bands; 0: not at all. */
export function outOfBand(wall: Wall, item: ShelfItem, zMm: number): number {
  const half = item.part.heightMm / 2
  return Math.max(0, wall.floorMm + HIGHWAY_MM - (zMm - half), zMm + half - (wall.ceilingMm - HIGHWAY_MM))
}
