import type { Opening, PlacedItem } from '../../job/index.ts'
import { tan } from '../../kernel/index.ts'
import { alongMm, isWall, type Strip, type Wall } from './strip.ts'

/** A part of the strip that is taken: a thing that hangs there, or an opening. */
export interface Taken {
  readonly id: string
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
}

/** A straight piece of a raceway on the strip. */
export interface Leg {
  readonly route: string
  readonly fromMm: readonly [s: number, z: number]
  readonly toMm: readonly [s: number, z: number]
  readonly halfMm: number
  readonly radiusMm: number
  /** Does it turn at its beginning, at its end? Else it enters a box there. */
  readonly bent: readonly [boolean, boolean]
}

export function takenBy(strip: Strip, items: readonly PlacedItem[], openings: readonly Opening[]): readonly Taken[] {
  const taken: Taken[] = []
  for (const item of items) {
    if (!isWall(item.side) || item.face === 'outside') continue
    const extent = extentOf(strip, item.side, item)
    // A wireway round the corner of the room stands before the ends of both its walls.
    const cornerMm =
      item.kind === 'wireway' && item.side === 'blind end' ? item.atMm[0] - strip.body.insideAtMm[0] + item.sizeMm[0] : 0
    taken.push({
      id: item.id,
      ...extent,
      ...(cornerMm === 0 ? {} : { fromMm: strip.leftMm - cornerMm, toMm: strip.leftMm + strip.endMm + cornerMm }),
    })
  }
  for (const opening of openings) {
    if (!isWall(opening.side)) continue
    const s = alongMm(strip, opening.side, opening.atMm)
    taken.push({
      id: opening.id,
      fromMm: s - opening.widthMm / 2,
      toMm: s + opening.widthMm / 2,
      lowMm: opening.atMm[2] - opening.heightMm / 2,
      highMm: opening.atMm[2] + opening.heightMm / 2,
    })
  }
  return taken
}

/** What an item covers on its wall. */
export function extentOf(strip: Strip, wall: Wall, item: Pick<PlacedItem, 'atMm' | 'sizeMm'>): Omit<Taken, 'id'> {
  const [x, y, z] = item.atMm
  const [dx, dy, dz] = item.sizeMm
  const a = alongMm(strip, wall, [x, y, z])
  const b = alongMm(strip, wall, [x + dx, y + dy, z])
  return { fromMm: Math.min(a, b), toMm: Math.max(a, b), lowMm: z, highMm: z + dz }
}

/** By how much a leg enters something that is taken, both ways counted; 0 where it stays clear. */
export function intoMm(leg: Leg, t: Taken, clearMm: number): number {
  const room = leg.halfMm + clearMm
  const [s0, z0] = leg.fromMm
  const [s1, z1] = leg.toMm
  const alongMm = Math.min(Math.max(s0, s1) + room, t.toMm) - Math.max(Math.min(s0, s1) - room, t.fromMm)
  if (alongMm <= 0) return 0
  const upMm = Math.min(Math.max(z0, z1) + room, t.highMm) - Math.max(Math.min(z0, z1) - room, t.lowMm)
  return upMm <= 0 ? 0 : Math.min(alongMm, upMm)
}

/** How two legs meet: clear of each other, crossing where one of them has the room to step over the other, or in each other's way. */
export function meeting(a: Leg, b: Leg, gapMm: number): 'clear' | 'crossing' | 'overlap' {
  const between = a.halfMm + b.halfMm + gapMm
  if (apartOn(a, b, 0) >= between - EPS || apartOn(a, b, 1) >= between - EPS) return 'clear'
  const aLevel = isLevel(a)
  if (aLevel === isLevel(b)) return 'overlap'
  const [h, v] = aLevel ? [a, b] : [b, a]
  // The meeting must not lie in a corner of either.
  if (!inside(v.fromMm[0], h.fromMm[0], h.toMm[0], between) || !inside(h.fromMm[1], v.fromMm[1], v.toMm[1], between))
    return 'overlap'
  return stepsOver(a, b) || stepsOver(b, a) ? 'crossing' : 'overlap'
}

/** Has a leg the straight pipe for a saddle over one that crosses it? */
export function stepsOver(leg: Leg, other: Leg): boolean {
  const i = isLevel(leg) ? 0 : 1
  const at = other.fromMm[i]
  const reach = saddleReachMm(leg, saddleRiseMm(other))
  return [leg.fromMm[i], leg.toMm[i]].every((end, k) => Math.abs(at - end) >= reach + endRoomMm(leg, leg.bent[k]!) - EPS)
}

/** Straight pipe that the end of a leg takes: its bend, or what goes into the connector. */
export const endRoomMm = (leg: Pick<Leg, 'radiusMm'>, bent: boolean): number => (bent ? leg.radiusMm + BETWEEN_MM : CONNECTOR_MM)

/** From its middle to the last of its pipe that is not straight. h/tan 22.5° for the slope, r·tan 11.25° for its outer bend. */
export const saddleReachMm = (leg: Pick<Leg, 'radiusMm'>, riseMm: number): number =>
  riseMm / tan(Math.PI / 8) + riseMm / 2 + leg.radiusMm * tan(Math.PI / 16)

/** How high a saddle steps: over the other raceway, with a finger's breadth between. */
export const saddleRiseMm = (other: Pick<Leg, 'halfMm'>): number => 2 * other.halfMm + CLEAR_MM
/** Between two raceways that cross. House rule. */
const CLEAR_MM = 12.5
/** Straight pipe between two bends, and where it goes into a connector. Common practice. */
const BETWEEN_MM = 25
const CONNECTOR_MM = 50

/** Distance between two legs along one axis; negative where they lie over one another. */
function apartOn(a: Leg, b: Leg, i: 0 | 1): number {
  const [a0, a1, b0, b1] = [a.fromMm[i], a.toMm[i], b.fromMm[i], b.toMm[i]]
  const aLow = Math.min(a0, a1)
  const aHigh = Math.max(a0, a1)
  const bLow = Math.min(b0, b1)
  const bHigh = Math.max(b0, b1)
  return Math.max(aLow, bLow) - Math.min(aHigh, bHigh)
}

export const isLevel = (l: Leg): boolean => Math.abs(l.fromMm[1] - l.toMm[1]) < EPS
const inside = (x: number, p: number, q: number, by: number): boolean => x > Math.min(p, q) + by && x < Math.max(p, q) - by

/**
 * A leg without the part that lies in a box which another leg ends in too: two raceways meet in one box. Null where nothing is left.
 */
export function outsideOf(leg: Leg, boxesMm: readonly (readonly [s: number, z: number])[], other: Leg): Leg | null {
  if (!boxesMm.some((p) => isAt(p, other.fromMm) || isAt(p, other.toMm))) return leg
  const shared = boxesMm.filter((p) => isAt(p, other.fromMm) || isAt(p, other.toMm))
  let { fromMm, toMm } = leg
  const length = Math.abs(toMm[0] - fromMm[0]) + Math.abs(toMm[1] - fromMm[1])
  const along = (d: number): readonly [number, number] => [
    fromMm[0] + ((toMm[0] - fromMm[0]) * d) / length,
    fromMm[1] + ((toMm[1] - fromMm[1]) * d) / length,
  ]
  const at = (p: readonly [number, number]) => shared.some((q) => isAt(p, q))
  const [start, end] = [at(fromMm) ? BOX_MM : 0, at(toMm) ? BOX_MM : 0]
  if (start + end === 0) return leg
  if (start + end >= length) return null
  const [a, b] = [along(start), along(length - end)]
  fromMm = a
  toMm = b
  return { ...leg, fromMm, toMm }
}
const isAt = (p: readonly [number, number], q: readonly [number, number]): boolean =>
  Math.abs(p[0] - q[0]) < EPS && Math.abs(p[1] - q[1]) < EPS

/** From the hole to the side of the box that covers it, with its locknut. House rule. */
const BOX_MM = 75

const EPS = 1e-6
