import { Fault } from '../../kernel/index.ts'
import type { Rows } from './rods.ts'

/** Share of the source voltage that stands across the faulty circuit. @source IEC/TS 61200-413. Provenance: memory */
export const CIRCUIT_SHARE_FRAC = 0.8

/**
 * Touch voltage in TN while the device has not opened yet.
 *
 *   U = 0.8 · Uo · R2/(R1 + R2)
 *
 * `protectiveOhm` R2 and `lineOhm` R1 of the circuit. @throws Fault `earthing/touch-range`
 * @source IEC/TS 61200-413. Provenance: memory
 */
export function touchTnV(task: {
  readonly lineEarthV: number
  readonly lineOhm: number
  readonly protectiveOhm: number
  readonly shareFrac?: number
}): number {
  const { lineEarthV, lineOhm, protectiveOhm, shareFrac = CIRCUIT_SHARE_FRAC } = task
  const inRange =
    lineEarthV > 0 && lineOhm >= 0 && protectiveOhm >= 0 && lineOhm + protectiveOhm > 0 && shareFrac > 0 && shareFrac <= 1
  if (!inRange) throw new Fault('earthing/touch-range', task)
  return (shareFrac * lineEarthV * protectiveOhm) / (lineOhm + protectiveOhm)
}

/** Touch voltage in TT at the current that opens the residual device: U = RA·IΔn. @source IEC 60364-4-41, 411.5.3. Provenance: memory */
export function touchTtV(task: { readonly electrodeOhm: number; readonly residualA: number }): number {
  if (!(task.electrodeOhm >= 0 && task.residualA > 0)) throw new Fault('earthing/touch-range', task)
  return task.electrodeOhm * task.residualA
}

/**
 * Longest time a dry touch voltage may stand: the row at or above it; Infinity up to 50 V, 0 above the table.
 * @source IEC 60364-4-41 background, IEC/TS 61200-413, table `touch-voltage` (V, s). Provenance: memory
 */
export function touchTimeS(touchV: number, table: Rows): number {
  if (!(touchV >= 0)) throw new Fault('earthing/touch-range', touchV)
  if (touchV <= UNLIMITED_V) return Infinity
  const row = table.find(([v]) => touchV <= Number(v))
  return row === undefined ? 0 : Number(row[1])
}

/** Dry, and where the skin is wet. @source IEC 60364-4-41. Provenance: memory */
export const UNLIMITED_V = 50
export const WET_V = 25

/** Reading of many circuits measured together: R/n. @throws Fault `earthing/touch-range` */
export function parallelMOhm(eachMOhm: number, count: number): number {
  if (!(eachMOhm >= 0 && Number.isInteger(count) && count >= 1)) throw new Fault('earthing/touch-range', { eachMOhm, count })
  return eachMOhm / count
}
