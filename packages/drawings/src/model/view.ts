import type { PointMm, Side } from '@plugstead/engine/job'
import type { Point } from '../scene.ts'

export type Axis = 0 | 1 | 2
/** A way along an axis of the box. */
export interface Way {
  readonly axis: Axis
  readonly sign: 1 | -1
}

/** How a drawing looks at the box: which way of the box runs to the right on paper, and which up. */
export interface View {
  readonly right: Way
  readonly up: Way
  /** Away from what is looked at, towards the eye. */
  readonly eye: Way
  readonly at: (point: PointMm) => Point
}

const way = (axis: Axis, sign: 1 | -1): Way => ({ axis, sign })
const X = way(0, 1)
const Y = way(1, 1)
const Z = way(2, 1)
const minus = ({ axis, sign }: Way): Way => way(axis, sign === 1 ? -1 : 1)

/** Right times up points to the eye: the axes of the box are right-handed, and so is every view that is no mirror. */
function cross(a: Way, b: Way): Way {
  const axis = (3 - a.axis - b.axis) as Axis
  const turns = (a.axis + 1) % 3 === b.axis ? 1 : -1
  return way(axis, a.sign * b.sign * turns === 1 ? 1 : -1)
}

/** A view in which the box's outside corner is the origin: what runs against an axis is counted from the far end. */
function view(right: Way, up: Way, outsideMm: PointMm): View {
  const along = ({ axis, sign }: Way, point: PointMm): number => (sign === 1 ? point[axis] : outsideMm[axis] - point[axis])
  return { right, up, eye: cross(right, up), at: (point) => [along(right, point), along(up, point)] }
}

const OUTSIDE: Readonly<Record<Side, readonly [Way, Way]>> = {
  left: [X, Z],
  right: [minus(X), Z],
  'blind end': [minus(Y), Z],
  'door end': [Y, Z],
  roof: [X, Y],
  floor: [X, minus(Y)],
}

/** A side as it is seen from before it: the two faces of a wall are mirror images of each other. */
export function sideView(side: Side, face: 'inside' | 'outside', outsideMm: PointMm): View {
  const [right, up] = OUTSIDE[side]
  return view(face === 'outside' ? right : minus(right), up, outsideMm)
}

/** From above: x to the right, the right long side up. */
export const planView = (outsideMm: PointMm): View => view(X, Y, outsideMm)

/** A point of a side's face, by its two numbers in the side's own axes. */
export function onFace(side: Side, outsideMm: PointMm, alongMm: number, upMm: number): PointMm {
  switch (side) {
    case 'left':
      return [alongMm, 0, upMm]
    case 'right':
      return [alongMm, outsideMm[1], upMm]
    case 'blind end':
      return [0, alongMm, upMm]
    case 'door end':
      return [outsideMm[0], alongMm, upMm]
    case 'roof':
      return [alongMm, upMm, outsideMm[2]]
    case 'floor':
      return [alongMm, upMm, 0]
  }
}

/** Corners of an upright box as the rectangle it covers in a view. */
export function covers(look: View, fromMm: PointMm, toMm: PointMm): { readonly low: Point; readonly high: Point } {
  const [a, b] = [look.at(fromMm), look.at(toMm)]
  return { low: [Math.min(a[0], b[0]), Math.min(a[1], b[1])], high: [Math.max(a[0], b[0]), Math.max(a[1], b[1])] }
}

/** From before the door end’s left corner, above it: true lengths along each axis, all three foreshortened alike. */
export function isometric([x, y, z]: PointMm): Point {
  return [(x + y) * COS_30, z + (y - x) * SIN_30]
}
const COS_30 = Math.sqrt(3) / 2
const SIN_30 = 0.5
