import { Fault } from '../kernel/index.ts'

export type Vector = readonly [x: number, y: number, z: number]

/**
 * Forces in three straight slings from three points up to one hook, which carry a weight that hangs on the points.
 *
 *   Σ Tᵢ·uᵢ = (0, 0, W), uᵢ unit vector from point to hook
 *
 * Solved as three equations by Cramer's rule. Positive pulls; a negative one would have to push, which no sling does.
 * The weight must lie under the hook for the body to hang still: the hook is where it is said to be.
 * @throws Fault `haul/slings-flat` where the three lie in one plane
 */
export function threeLegTensionsN(
  hook: Vector,
  points: readonly [Vector, Vector, Vector],
  weightN: number,
): readonly [number, number, number] {
  allFinite([weightN, ...hook, ...points.flat()])
  const [a, b, c] = points.map((p) => unit(minus(hook, p))) as [Vector, Vector, Vector]
  const all = determinant(a, b, c)
  if (Math.abs(all) < FLAT) throw new Fault('haul/slings-flat', { hook, points })
  const load: Vector = [0, 0, weightN]
  return [determinant(load, b, c) / all, determinant(a, load, c) / all, determinant(a, b, load) / all]
}

/** Unit vectors whose volume is below this lie in one plane as far as any sling is concerned. */
const FLAT = 1e-9

export type Place = readonly [x: number, y: number]

/**
 * Forces of three supports in the plan under a weight: sum of forces and of moments about both axes is zero.
 * A negative one says that the body would tip over the line through the other two.
 * @throws Fault `haul/supports-in-line`
 */
export function threeSupportsN(
  points: readonly [Place, Place, Place],
  at: Place,
  weightN: number,
): readonly [number, number, number] {
  allFinite([weightN, ...at, ...points.flat()])
  const [a, b, c] = points
  const whole = area(a, b, c)
  const size = Math.max(distance(a, b), distance(b, c), distance(c, a))
  if (Math.abs(whole) < FLAT * size * size) throw new Fault('haul/supports-in-line', points)
  return [(area(at, b, c) / whole) * weightN, (area(a, at, c) / whole) * weightN, (area(a, b, at) / whole) * weightN]
}

/**
 * Greatest force any of four supports may feel when a stiff body stands or hangs on them and nobody knows how they share:
 * the greatest over all three of the four that can carry it alone, since every other sharing lies between those.
 * @throws Fault `haul/over-no-support` where the weight lies outside all four
 */
export function worstOfFourN(points: readonly [Place, Place, Place, Place], at: Place, weightN: number): number {
  let worst = Number.NEGATIVE_INFINITY
  for (let left = 0; left < 4; left += 1) {
    const three = points.filter((_, i) => i !== left) as unknown as readonly [Place, Place, Place]
    const forces = threeSupportsN(three, at, weightN)
    if (forces.every((force) => force >= -FLAT * weightN)) worst = Math.max(worst, ...forces)
  }
  if (worst === Number.NEGATIVE_INFINITY) throw new Fault('haul/over-no-support', { points, at })
  return worst
}

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]

function unit(v: Vector): Vector {
  const length = Math.hypot(...v)
  if (!(length > 0)) throw new Fault('haul/slings-flat', v)
  return [v[0] / length, v[1] / length, v[2] / length]
}

/** Of the matrix whose columns are these. */
const determinant = (a: Vector, b: Vector, c: Vector): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1]) + c[0] * (a[1] * b[2] - a[2] * b[1])

/** Twice the signed area of a triangle. */
const area = (a: Place, b: Place, c: Place): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

const distance = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1])

function allFinite(numbers: readonly number[]): void {
  if (!numbers.every(Number.isFinite)) throw new Fault('haul/statics-range', numbers)
}
