import { Fault } from '../../kernel/index.ts'

/**
 * Fault current at the far end of a run by the printed C-values: for the published cases only. The program itself sums R + jX, because a
 * C-value ignores the angle between source and run and stands for cold conductors without saying how cold.
 *
 *   f = √3 · L · I / (C · n · V) three-phase,  2 · L · I / (C · n · V) one phase;   M = 1/(1 + f);   I_end = I · M
 *
 * `runFt` in feet and `cValue` as printed (V_LN-based, per foot). @throws Fault `faults/point-to-point-range`
 * @source electrical plan review guide, point-to-point method. Provenance: read
 */
export function pointToPoint(run: {
  readonly currentA: number
  readonly runFt: number
  readonly cValue: number
  readonly sets: number
  readonly voltageV: number
  readonly phases: 1 | 3
}): { readonly fRatio: number; readonly mRatio: number; readonly currentA: number } {
  const { currentA, runFt, cValue, sets, voltageV, phases } = run
  if (!(currentA > 0 && runFt >= 0 && cValue > 0 && sets >= 1 && voltageV > 0))
    throw new Fault('faults/point-to-point-range', run)
  const fRatio = ((phases === 3 ? Math.sqrt(3) : 2) * runFt * currentA) / (cValue * sets * voltageV)
  const mRatio = 1 / (1 + fRatio)
  return { fRatio, mRatio, currentA: currentA * mRatio }
}
