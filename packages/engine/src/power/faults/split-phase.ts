import { scaleZ } from './impedance.ts'
import type { Impedance } from './result.ts'

/** One half of a centre-tapped winding against the whole: R times this, X times that, both on the half's own base. */
const HALF_R_RATIO = 1.5
const HALF_X_RATIO = 1.2

/**
 * Impedance of one half winding of a centre-tapped transformer, for a fault from line to the tap.
 *
 *   Z_LN = (1.5 r + j 1.2 x) · V_LN²/S = (1.5 R + j 1.2 X) / 4
 *
 * `wholeZ` is line–line, on the line–line voltage. Interlaced windings; others lie higher.
 * @source point-to-point method for centre-tapped transformers (table `split-phase-fault`). Provenance: read
 */
export function halfWindingZ(wholeZ: Impedance): Impedance {
  return scaleZ({ r: wholeZ.r * HALF_R_RATIO, x: wholeZ.x * HALF_X_RATIO }, 1 / 4)
}
