import type { BoxBody } from '../../box/index.ts'
import type { PointMm, Side } from '../../job/index.ts'

/**
 * The three inside walls unrolled into one strip, as a crew walks along them: s from the door end along the left wall, across the blind
 * end, and back along the right wall; z as in the box. A raceway that stays on the walls is a line on this strip.
 */
export interface Strip {
  readonly body: BoxBody
  readonly leftMm: number
  readonly endMm: number
  /** Whole length of the strip. */
  readonly wholeMm: number
  readonly floorMm: number
  readonly ceilingMm: number
}

export type Wall = 'left' | 'blind end' | 'right'

export const isWall = (side: Side): side is Wall => side === 'left' || side === 'blind end' || side === 'right'

export function stripOf(body: BoxBody): Strip {
  const [lengthMm, widthMm, heightMm] = body.insideMm
  const floorMm = body.insideAtMm[2]
  return { body, leftMm: lengthMm, endMm: widthMm, wholeMm: 2 * lengthMm + widthMm, floorMm, ceilingMm: floorMm + heightMm }
}

/** Along the strip of a place on a wall. */
export function alongMm(strip: Strip, wall: Wall, [x, y]: PointMm): number {
  const [x0, y0] = strip.body.insideAtMm
  if (wall === 'left') return strip.leftMm - (x - x0)
  if (wall === 'blind end') return strip.leftMm + (y - y0)
  return strip.leftMm + strip.endMm + (x - x0)
}

export function wallAt(strip: Strip, sMm: number): Wall {
  if (sMm <= strip.leftMm) return 'left'
  return sMm < strip.leftMm + strip.endMm ? 'blind end' : 'right'
}

/** The place in the box of a point of the strip, `offMm` before the wall. */
export function placeOf(strip: Strip, sMm: number, zMm: number, offMm: number): PointMm {
  const [x0, y0] = strip.body.insideAtMm
  const [, widthMm] = strip.body.insideMm
  const wall = wallAt(strip, sMm)
  if (wall === 'left') return [x0 + strip.leftMm - sMm, y0 + offMm, zMm]
  if (wall === 'blind end') return [x0 + offMm, y0 + sMm - strip.leftMm, zMm]
  return [x0 + sMm - strip.leftMm - strip.endMm, y0 + widthMm - offMm, zMm]
}

/** Corners of the room that lie between two places of the strip, in the order they are passed. */
export function cornersBetween(strip: Strip, fromMm: number, toMm: number): readonly number[] {
  const corners = [strip.leftMm, strip.leftMm + strip.endMm]
  const between = corners.filter((c) => c > Math.min(fromMm, toMm) + EPS && c < Math.max(fromMm, toMm) - EPS)
  return fromMm <= toMm ? between : between.toReversed()
}

/** Two places nearer than this are one. */
const EPS = 1e-6
