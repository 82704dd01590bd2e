import { Fault } from '../../kernel/index.ts'

/**
 * Fault at a bus with its running motors.
 *
 *   I = I_source + ratio · Σ rated currents of connected induction motors
 *
 * Arithmetic sum: an upper bound of the phasor sum. Motors behind drives with no path back are left out by the caller.
 * @throws Fault `faults/motor-range`
 * @source IEEE 141 (4 × full load, groups below 50 hp); IEC 60909-0 (5 × rated). Provenance: memory; 4 × read
 */
export function withMotorsA(f: { readonly sourceA: number; readonly motorsA: number; readonly ratio: number }): number {
  if (!(f.sourceA >= 0 && f.motorsA >= 0 && f.ratio >= 0)) throw new Fault('faults/motor-range', f)
  return f.sourceA + f.ratio * f.motorsA
}
