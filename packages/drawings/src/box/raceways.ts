import type { RacewayRoute } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { rect, round, stroke } from '../model/make.ts'
import type { View } from '../model/view.ts'
import type { Point } from '../scene.ts'

/** Axis of a raceway in a view; points that fall on one another are one. */
export function axisOn(points: readonly Point[]): readonly Point[] {
  return points.filter((p, i) => {
    const before = points[i - 1]
    return before === undefined || Math.hypot(p[0] - before[0], p[1] - before[1]) > 0.05
  })
}

const PULL_BOX_MM = 100

/** Raceways as the line of their axis, pull boxes where wire is pulled, a ring where one leaves through the wall. */
export function racewaysOf(routes: readonly RacewayRoute[], look: View, weight: 'conductor' | 'ampere 1'): readonly Drawn[] {
  return routes.flatMap((route) => {
    const points = axisOn(route.pointsMm.map(look.at))
    const drawn: Drawn[] = points.length > 1 ? [stroke('raceway', points, weight)] : []
    const depth = route.pointsMm.map((p) => p[look.eye.axis])
    const last = depth.length - 1
    for (const [end, next] of [
      [0, 1],
      [last, last - 1],
    ] as const) {
      if (Math.abs(depth[end]! - depth[next]!) < 1) continue
      drawn.push(round('raceway', look.at(route.pointsMm[end]!), 18, 'symbol', 'blank'))
    }
    for (const pull of route.pullsMm) {
      const at = look.at(alongAxis(route, pull))
      const half = PULL_BOX_MM / 2
      drawn.push(rect('raceway', [at[0] - half, at[1] - half], [at[0] + half, at[1] + half], 'symbol', 'blank'))
    }
    return drawn
  })
}

/** The place on a raceway's axis at a distance from its beginning; beyond its end, its end. */
export function alongAxis(route: Pick<RacewayRoute, 'pointsMm'>, distanceMm: number): RacewayRoute['pointsMm'][number] {
  let left = distanceMm
  for (const [i, from] of route.pointsMm.entries()) {
    const to = route.pointsMm[i + 1]
    if (to === undefined) return from
    const leg = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
    if (left <= leg && leg > 0) {
      const t = left / leg
      return [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1]), from[2] + t * (to[2] - from[2])]
    }
    left -= leg
  }
  return route.pointsMm[route.pointsMm.length - 1]!
}
