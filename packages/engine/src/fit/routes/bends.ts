import { legLengthMm, type PointMm, type RacewayBend, type RacewayRoute } from '../../job/index.ts'

/** An offset is made of two bends of this angle. Common practice for stepping into a shallow box. */
export const OFFSET_DEG = 10
/** A saddle is made of a bend of 45° and two of half that. Common practice. */
export const SADDLE_SUM_DEG = 90
/** A step smaller than this the pipe takes by itself, between its strap and its box. Common practice. */
export const SPRINGS_MM = 6

/** Quarter bends at the corners of an axis, by distance from its beginning. A corner that does not turn is none. */
export function quarterBends(points: readonly PointMm[]): readonly RacewayBend[] {
  const bends: RacewayBend[] = []
  let at = 0
  for (let i = 1; i < points.length - 1; i++) {
    at += legLengthMm(points[i - 1]!, points[i]!)
    if (turns(points[i - 1]!, points[i]!, points[i + 1]!)) bends.push({ kind: 'quarter', atMm: at, sumDeg: 90, riseMm: 0 })
  }
  return bends
}

function turns(a: PointMm, b: PointMm, c: PointMm): boolean {
  const dot = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) + (b[2] - a[2]) * (c[2] - b[2])
  return Math.abs(dot) < legLengthMm(a, b) * legLengthMm(b, c) * STRAIGHT_COS
}
/** Cosine above which two legs count as one straight. */
const STRAIGHT_COS = 0.999

/**
 * Sum of bends between pulls, greatest first kept: the stretch with the most, in degrees, of a raceway with pull boxes at these distances.
 * @source NEC 358.26 and its like: between pull points. The limit itself is the rule set's.
 */
export function mostBetweenPullsDeg(route: Pick<RacewayRoute, 'bends' | 'pullsMm'>): number {
  const stretches = new Map<number, number>()
  for (const bend of route.bends) {
    const stretch = route.pullsMm.filter((p) => p <= bend.atMm).length
    stretches.set(stretch, (stretches.get(stretch) ?? 0) + bend.sumDeg)
  }
  return Math.max(0, ...stretches.values())
}

/** Pull boxes so that no stretch bends more than the limit: each as late as the next bend allows, in the straight before it. */
export function pullsFor(bends: readonly RacewayBend[], mostDeg: number): readonly number[] {
  const order = bends.toSorted((a, b) => a.atMm - b.atMm)
  const pulls: number[] = []
  let sum = 0
  order.forEach((bend, i) => {
    if (sum + bend.sumDeg > mostDeg && i > 0) {
      pulls.push((order[i - 1]!.atMm + bend.atMm) / 2)
      sum = 0
    }
    sum += bend.sumDeg
  })
  return pulls
}
