import type { PointMm, RacewayBend, RacewayRoute } from '../../job/index.ts'
import { lackOf, type Made } from './feature.ts'
import { bentFeatures } from './features.ts'

/** A raceway with the tool that bends it. */
export interface Bendable {
  readonly route: RacewayRoute
  readonly made: Made
}

/** Crossed raceways lie so near each other's axis. */
const CROSSES_MM = 60

/**
 * Bends of every raceway, in the order given. Where two raceways cross, either may step over the other: a saddle that has no room, beside
 * a corner or an end, goes to the raceway it crosses if fewer millimetres are lacking then.
 */
export function settledBends(all: readonly Bendable[]): readonly (readonly RacewayBend[])[] {
  const bends = all.map((b) => b.route.bends)
  const lacks = bends.map((own, i) => lackIn(all[i]!, own))
  const known = new Map<RacewayBend, readonly Crossing[]>()
  const crossings = (i: number, bend: RacewayBend): readonly Crossing[] => {
    const found = known.get(bend) ?? crossingsOf(all, i, bend)
    known.set(bend, found)
    return found
  }
  /** Makes the first move of a saddle of this raceway that leaves less lacking. */
  const moves = (i: number): boolean =>
    bends[i]!.some((bend) => {
      if (bend.kind !== 'saddle') return false
      const without = bends[i]!.filter((one) => one !== bend)
      const lack = lackIn(all[i]!, without)
      if (lack >= lacks[i]! - 1e-6) return false
      return crossings(i, bend).some(({ j, atMm }) => {
        const riseMm = bend.riseMm + (all[j]!.made.odMm - all[i]!.made.odMm) / 2
        const withIt = [...bends[j]!, { ...bend, atMm, riseMm }].toSorted((a, c) => a.atMm - c.atMm)
        const otherLack = lackIn(all[j]!, withIt)
        if (lack + otherLack >= lacks[i]! + lacks[j]! - 1e-6) return false
        bends[i] = without
        bends[j] = withIt
        lacks[i] = lack
        lacks[j] = otherLack
        return true
      })
    })
  let moved = true
  while (moved) moved = all.some((_, i) => lacks[i]! > 0 && moves(i))
  return bends
}

/** Where another raceway was laid to step over this one, along its axis. */
export function passedMm(all: readonly RacewayRoute[], own: RacewayRoute): readonly number[] {
  return all.flatMap((other) =>
    other.id === own.id
      ? []
      : other.bends.flatMap((b) => {
          const atMm = b.kind === 'saddle' ? nearOn(own.pointsMm, pointAt(other.pointsMm, b.atMm)) : null
          return atMm === null ? [] : [atMm]
        }),
  )
}

/** Where another raceway passes under a saddle: which, and how far along its own axis. */
interface Crossing {
  readonly j: number
  readonly atMm: number
}

function crossingsOf(all: readonly Bendable[], i: number, bend: RacewayBend): readonly Crossing[] {
  const place = pointAt(all[i]!.route.pointsMm, bend.atMm)
  return all.flatMap((other, j) => {
    const atMm = i === j ? null : nearOn(other.route.pointsMm, place)
    return atMm === null ? [] : [{ j, atMm }]
  })
}

/** Straight pipe that lacks when bender and elbow alone make it. */
function lackIn({ route, made }: Bendable, bends: readonly RacewayBend[]): number {
  const axisMm = route.pointsMm.slice(1).reduce((sum, p, i) => sum + apart(route.pointsMm[i]!, p), 0)
  return lackOf(bentFeatures({ bends }, axisMm, made), axisMm)
}

const apart = (a: PointMm, b: PointMm): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

const between = (a: PointMm, b: PointMm, t: number): PointMm => [
  a[0] + t * (b[0] - a[0]),
  a[1] + t * (b[1] - a[1]),
  a[2] + t * (b[2] - a[2]),
]

function pointAt(points: readonly PointMm[], atMm: number): PointMm {
  let at = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = apart(a, b)
    if (atMm <= at + length && length > 0) return between(a, b, (atMm - at) / length)
    at += length
  }
  return points[points.length - 1]!
}

/** Distance along an axis of its point nearest to a place; null where it does not pass by. */
function nearOn(points: readonly PointMm[], p: PointMm): number | null {
  let best: number | null = null
  let off = CROSSES_MM
  let at = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = apart(a, b)
    if (length === 0) continue
    const dot = (p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]) + (p[2] - a[2]) * (b[2] - a[2])
    const t = Math.min(1, Math.max(0, dot / length ** 2))
    const away = apart(between(a, b, t), p)
    if (away < off - 1e-9) {
      off = away
      best = at + t * length
    }
    at += length
  }
  return best
}
