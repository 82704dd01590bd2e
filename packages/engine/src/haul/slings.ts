import { atan2, cos, Fault, sin, type Worked } from '../kernel/index.ts'
import { degOf, finite, line, numberIn, radOf, rowOf, rowsOf, sourceOf } from './shelf.ts'

/**
 * How two points share a weight.
 *
 *   near = W · far distance / (near distance + far distance)
 *
 * Distances from the centre of gravity, both ≥ 0 and not both 0. Any unit of force, the same back.
 * @throws Fault `haul/two-points-range`
 */
export function twoPointShare(of: { readonly load: number; readonly nearM: number; readonly farM: number }): {
  readonly near: number
  readonly far: number
} {
  finite('two-points-range', of)
  const spanM = of.nearM + of.farM
  if (!(of.nearM >= 0 && of.farM >= 0 && spanM > 0)) throw new Fault('haul/two-points-range', of)
  return { near: (of.load * of.farM) / spanM, far: (of.load * of.nearM) / spanM }
}

/**
 * Pull in a leg that carries a share of the weight.
 *
 *   T = V / sin α, α from the horizontal, 0 < α ≤ 90
 *
 * @throws Fault `haul/sling-angle-range`
 */
export function legTension(vertical: number, angleDeg: number): number {
  if (!(angleDeg > 0 && angleDeg <= 90) || !Number.isFinite(vertical))
    throw new Fault('haul/sling-angle-range', { angleDeg, vertical })
  return vertical / sin(radOf(angleDeg))
}

/**
 * Two legs from one hook to two points at one height, hook over the centre of gravity.
 *
 *   T₁ = W·D₂·S₁ / (H·(D₁ + D₂)), T₂ = W·D₁·S₂ / (H·(D₁ + D₂))
 *
 * D: level distance of each point from the centre of gravity, S: length of each leg, H: height of the hook over the points. The level
 * pulls are equal where the lengths fit the distances.
 * @throws Fault `haul/bridle-range`
 */
export function bridle(of: {
  readonly load: number
  readonly d1M: number
  readonly d2M: number
  readonly hookM: number
  readonly s1M: number
  readonly s2M: number
}): { readonly t1: number; readonly t2: number; readonly level1: number; readonly level2: number } {
  finite('bridle-range', of)
  const { load, d1M, d2M, hookM, s1M, s2M } = of
  if (!(d1M >= 0 && d2M >= 0 && d1M + d2M > 0 && hookM > 0 && s1M >= hookM && s2M >= hookM))
    throw new Fault('haul/bridle-range', of)
  const t1 = (load * d2M * s1M) / (hookM * (d1M + d2M))
  const t2 = (load * d1M * s2M) / (hookM * (d1M + d2M))
  return { t1, t2, level1: (t1 * d1M) / s1M, level2: (t2 * d2M) / s2M }
}

export interface FourPoints {
  /** Between the fittings, along and across. > 0 */
  readonly lengthM: number
  readonly widthM: number
  /** Centre of gravity off the middle. */
  readonly offLengthM: number
  readonly offWidthM: number
}

/**
 * Greatest share of one corner of four when all legs stretch alike: (½ + eₗ/L)(½ + e_w/W).
 * Only that: a stiff box on four legs shares as the lengths of the legs happen to be.
 * @throws Fault `haul/four-points-range`
 */
export function evenCornerShareFrac(of: FourPoints): number {
  checked(of)
  return (0.5 + Math.abs(of.offLengthM) / of.lengthM) * (0.5 + Math.abs(of.offWidthM) / of.widthM)
}

/**
 * Greatest share of one leg when one diagonal pair carries all.
 *
 *   share = ½ + |p|/D, p: offset of the centre of gravity along that diagonal, D: the diagonal
 *
 * @throws Fault `haul/four-points-range`
 * @source statics of a stiff body on four legs, rule of the trade. Provenance: computed
 */
export function diagonalShareFrac(of: FourPoints): number {
  checked(of)
  const diagonalM = Math.hypot(of.lengthM, of.widthM)
  const alongM = (Math.abs(of.offLengthM) * of.lengthM + Math.abs(of.offWidthM) * of.widthM) / diagonalM
  return 0.5 + alongM / diagonalM
}

function checked(of: FourPoints): void {
  finite('four-points-range', { ...of })
  const inside =
    of.lengthM > 0 && of.widthM > 0 && Math.abs(of.offLengthM) <= of.lengthM / 2 && Math.abs(of.offWidthM) <= of.widthM / 2
  if (!inside) throw new Fault('haul/four-points-range', of)
}

/** Angle of the mean leg from the horizontal: hook height over a level run. @throws Fault `haul/sling-angle-range` */
export function meanLegDeg(hookM: number, runM: number): number {
  if (!(hookM > 0 && runM >= 0)) throw new Fault('haul/sling-angle-range', { hookM, runM })
  return degOf(atan2(hookM, runM))
}

/**
 * Working load of a set by its mode factor, angle of the legs from the vertical.
 * @throws Fault `haul/sling-angle-range` over 60 degrees, where the standard forbids it
 * @source EN 818-4, table `sling-legs`. Provenance: memory
 */
export function setWll(of: { readonly legs: 1 | 2 | 3 | 4; readonly legWll: number; readonly fromVerticalDeg: number }): number {
  if (!(of.fromVerticalDeg >= 0 && of.fromVerticalDeg <= 60 && of.legWll > 0)) throw new Fault('haul/sling-angle-range', of)
  return of.legWll * numberIn(rowOf('sling-legs', { legs: of.legs }), of.fromVerticalDeg <= 45 ? 'to_45' : 'to_60')
}

/** Working load of a set on a stiff load: two legs carry. W = 2 · WLL · cos β. @throws Fault `haul/sling-angle-range` */
export function stiffSetWll(legWll: number, fromVerticalDeg: number): number {
  if (!(fromVerticalDeg >= 0 && fromVerticalDeg <= 60 && legWll > 0))
    throw new Fault('haul/sling-angle-range', { legWll, fromVerticalDeg })
  return 2 * legWll * cos(radOf(fromVerticalDeg))
}

/** Next size of a column that is made and gives at least `needKg`; null where the table ends. */
export function nextWll(
  id: 'chain-slings' | 'shackles',
  needKg: number,
): { readonly sizeMm: number; readonly wllKg: number } | null {
  const hit = rowsOf(id).find((row) => numberIn(row, 'wll') >= needKg)
  return hit === undefined ? null : { sizeMm: typeof hit.size === 'number' ? hit.size : 0, wllKg: numberIn(hit, 'wll') }
}

/** Least angle of bottom slings by length of the box, from the horizontal; null where the method has none. */
export function leastAngleDeg(method: string, lengthM: number): Worked<number | null> {
  const row = methodRow(method, lengthM)
  const least = row.least_angle
  return {
    value: typeof least === 'number' ? least : null,
    steps: [
      line(
        'α least',
        `${method}, boxes to ${String(row.to_length)} ft`,
        [['L', lengthM, 'm']],
        typeof least === 'number' ? least : 'no angle',
        typeof least === 'number' ? 'deg' : '',
        sourceOf('lift-matrix', row, method),
      ),
    ],
  }
}

/** Row of the matrix of methods for a box of this outside length: that of the next longer one. */
export function methodRow(method: string, lengthM: number): Readonly<Record<string, string | number | null | readonly number[]>> {
  const lengthFt = lengthM / FOOT_M
  const rows = rowsOf('lift-matrix').filter(
    (row) => row.method === method && numberIn(row, 'to_length') + LENGTH_SLACK_FT >= lengthFt,
  )
  const row = rows[0]
  if (row === undefined) throw new Fault('haul/no-row', { id: 'lift-matrix', method, lengthM })
  return row
}

const FOOT_M = 0.3048
/** A 40 ft box is 40 ft long to the millimetre of its tolerance. */
const LENGTH_SLACK_FT = 0.05
