import type { BoxBody } from '../../box/index.ts'
import type { PlacedItem, PointMm } from '../../job/index.ts'
import type { Spot } from './plan-of.ts'
import { BEARER_MM, CHANNEL_MM } from './rules.ts'
import { solidAt, type Wall } from './wall.ts'

/** Corner and size in the box of a thing where it was put: on the face of the channel, under the ceiling rails, or on its bearers. */
export function solidOf(
  body: BoxBody,
  wall: Pick<Wall, 'side' | 'planeMm' | 'out'> | undefined,
  spot: Spot,
): Pick<PlacedItem, 'atMm' | 'sizeMm'> {
  const { widthMm, heightMm, depthMm } = spot.item.part
  if (spot.side === 'roof') {
    const z = body.insideAtMm[2] + body.insideMm[2] - CHANNEL_MM - depthMm
    return { atMm: [spot.uMm - widthMm / 2, spot.zMm - heightMm / 2, z], sizeMm: [widthMm, heightMm, depthMm] }
  }
  if (spot.side === 'floor') {
    return {
      atMm: [spot.uMm - widthMm / 2, spot.zMm - depthMm / 2, body.floor.topMm + BEARER_MM],
      sizeMm: [widthMm, depthMm, heightMm],
    }
  }
  const plane = wall ?? {
    side: 'blind end' as const,
    planeMm: spot.face === 'inside' ? body.insideAtMm[0] + body.insideMm[0] : body.outsideMm[0],
    out: (spot.face === 'inside' ? -1 : 1) as 1 | -1,
  }
  return solidAt(plane, { uMm: spot.uMm, zMm: spot.zMm, widthMm, heightMm, depthMm })
}

/** How deep two solids stand in each other, the tolerance between them counted; 0: they keep clear. */
export function overlapMm(
  a: { readonly atMm: PointMm; readonly sizeMm: PointMm },
  b: { readonly atMm: PointMm; readonly sizeMm: PointMm },
  toleranceMm: number,
): number {
  let least = Infinity
  for (let i = 0; i < 3; i++) {
    const [a0, b0] = [a.atMm[i]!, b.atMm[i]!]
    const by = Math.min(a0 + a.sizeMm[i]!, b0 + b.sizeMm[i]!) - Math.max(a0, b0) + toleranceMm
    if (by <= 1e-6) return 0
    least = Math.min(least, by)
  }
  return least
}
