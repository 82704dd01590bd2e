import type { PointMm } from './build.ts'

/** Longest raceway in which the number of wires need not be counted: a nipple. @source NEC 310.15(C)(1)(b), 24 in. Provenance: memory */
export const NIPPLE_MOST_M = 0.61

export const legLengthMm = (a: PointMm, b: PointMm): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

/** Length of an axis, corner to corner, before what its bends gain. */
export function axisLengthMm(points: readonly PointMm[]): number {
  let sum = 0
  for (let i = 1; i < points.length; i++) sum += legLengthMm(points[i - 1]!, points[i]!)
  return sum
}
