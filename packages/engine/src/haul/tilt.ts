import { atan, cos, Fault, sin } from '../kernel/index.ts'
import { degOf, radOf } from './shelf.ts'

/**
 * A box on a bed that tilts.
 *
 *   pull up = W(sin θ + µ cos θ); runs off by itself where tan θ > µ, and then pushes W(sin θ − µ cos θ) on what holds it
 *
 * @throws Fault `haul/tilt-range`
 */
export function onTiltedBed(of: { readonly weightN: number; readonly bedDeg: number; readonly friction: number }): {
  readonly pullN: number
  readonly holdN: number
  readonly slides: boolean
  readonly slidesAtDeg: number
} {
  const { weightN, bedDeg, friction } = of
  if (!(weightN >= 0 && bedDeg >= 0 && bedDeg < 90 && friction >= 0)) throw new Fault('haul/tilt-range', of)
  const [along, across] = [sin(radOf(bedDeg)), cos(radOf(bedDeg))]
  return {
    pullN: weightN * (along + friction * across),
    holdN: Math.max(0, weightN * (along - friction * across)),
    slides: along > friction * across,
    slidesAtDeg: degOf(atan(friction)),
  }
}
