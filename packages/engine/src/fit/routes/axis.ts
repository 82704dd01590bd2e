import type { PlacedItem, PointMm } from '../../job/index.ts'
import type { End, PairWay } from './pair.ts'
import { placeOf, type Strip } from './strip.ts'

/** Straight from one outside box into the next, in the middle of what both have of the height. */
export function outsidePoints(from: PlacedItem, to: PlacedItem): readonly PointMm[] {
  const along = from.side === 'blind end' ? 1 : 0
  const [low, high] = [Math.max(from.atMm[2], to.atMm[2]), Math.min(from.atMm[2] + from.sizeMm[2], to.atMm[2] + to.sizeMm[2])]
  const across = 1 - along
  const off = from.atMm[across]! + from.sizeMm[across]! / 2
  const ahead = from.atMm[along]! < to.atMm[along]!
  const at = (s: number): PointMm => (along === 0 ? [s, off, (low + high) / 2] : [off, s, (low + high) / 2])
  const edge = (i: PlacedItem, end: boolean) => at(i.atMm[along]! + (end ? i.sizeMm[along]! : 0))
  return [edge(from, ahead), edge(to, !ahead)]
}

/** Along the ceiling from one lamp to the next, in the middle of their height: under the raceways that cross. */
export function overheadPoints(from: PlacedItem, to: PlacedItem): readonly PointMm[] {
  const middle = (i: PlacedItem): PointMm => [
    i.atMm[0] + i.sizeMm[0] / 2,
    i.atMm[1] + i.sizeMm[1] / 2,
    i.atMm[2] + i.sizeMm[2] / 2,
  ]
  const [a, b] = [middle(from), middle(to)]
  const z = a[2]
  const edgeX = (i: PlacedItem, toward: number) => (toward > i.atMm[0] + i.sizeMm[0] / 2 ? i.atMm[0] + i.sizeMm[0] : i.atMm[0])
  const straight = b[1] > from.atMm[1] && b[1] < from.atMm[1] + from.sizeMm[1]
  if (straight)
    return [
      [edgeX(from, b[0]), b[1], z],
      [edgeX(to, a[0]), b[1], z],
    ]
  const edgeY = a[1] > b[1] ? to.atMm[1] + to.sizeMm[1] : to.atMm[1]
  const out = b[0] > from.atMm[0] && b[0] < from.atMm[0] + from.sizeMm[0]
  // Beside the lamp it comes from: straight across.
  if (out)
    return [
      [b[0], a[1] > b[1] ? from.atMm[1] : from.atMm[1] + from.sizeMm[1], z],
      [b[0], edgeY, z],
    ]
  return [
    [edgeX(from, b[0]), a[1], z],
    [b[0], a[1], z],
    [b[0], edgeY, z],
  ]
}

/** The corners in the box, those of the room among them; across the ceiling or floor to a thing that hangs there. */
export function pointsOf(strip: Strip, way: PairWay, to: End, offMm: number): readonly PointMm[] {
  const points: PointMm[] = []
  const add = (p: PointMm) => {
    const last = points[points.length - 1]
    if (last === undefined || Math.hypot(p[0] - last[0], p[1] - last[1], p[2] - last[2]) > 1e-6) points.push(p)
  }
  way.cornersMm.forEach((corner, i) => {
    const before = way.cornersMm[i - 1]
    if (before !== undefined && i - 1 !== way.ceilingAfter && Math.abs(before[1] - corner[1]) < 1e-6)
      for (const p of around(strip, before[0], corner[0], corner[1], offMm)) add(p)
    add(placeOf(strip, corner[0], corner[1], offMm))
  })
  const last = points[points.length - 1]!
  if (to.reach === 'across the ceiling') {
    const yMm = to.item.atMm[1] + to.item.sizeMm[1] / 2
    const edge = last[1] < yMm ? to.item.atMm[1] : to.item.atMm[1] + to.item.sizeMm[1]
    add([last[0], edge, last[2]])
  } else if (to.reach === 'across the floor') {
    const edge = to.wall === 'left' ? to.item.atMm[1] : to.item.atMm[1] + to.item.sizeMm[1]
    add([last[0], edge, last[2]])
  } else if (to.reach === 'through the wall') {
    add(placeOf(strip, way.cornersMm[way.cornersMm.length - 1]![0], last[2], 0))
  }
  return points
}

/** Corners of the room on a level leg: the raceway turns where its two wall lines meet. */
function around(strip: Strip, fromS: number, toS: number, z: number, offMm: number): readonly PointMm[] {
  const [x0, y0] = strip.body.insideAtMm
  const [, widthMm] = strip.body.insideMm
  const corners: { s: number; at: PointMm }[] = [
    { s: strip.leftMm, at: [x0 + offMm, y0 + offMm, z] },
    { s: strip.leftMm + strip.endMm, at: [x0 + offMm, y0 + widthMm - offMm, z] },
  ]
  const between = corners.filter((c) => c.s > Math.min(fromS, toS) && c.s < Math.max(fromS, toS))
  return (fromS <= toS ? between : between.toReversed()).map((c) => c.at)
}

/** Distance along the axis of the point of it that is nearest to a place. */
export function alongAxisMm(points: readonly PointMm[], p: PointMm): number {
  let best = 0
  let bestOff = Infinity
  let at = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])
    const t =
      length === 0
        ? 0
        : Math.max(
            0,
            Math.min(
              1,
              ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]) + (p[2] - a[2]) * (b[2] - a[2])) / length ** 2,
            ),
          )
    const off = Math.hypot(a[0] + t * (b[0] - a[0]) - p[0], a[1] + t * (b[1] - a[1]) - p[1], a[2] + t * (b[2] - a[2]) - p[2])
    if (off < bestOff - 1e-9) {
      bestOff = off
      best = at + t * length
    }
    at += length
  }
  return best
}
