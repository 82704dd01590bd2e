import { Fault, log } from '../../kernel/index.ts'

/**
 * What a conductor withstands before its insulation is spoilt, adiabatic: k²S², A²s.
 * Valid 0.1–5 s; above it loses heat, below the device's let-through counts.
 * @source IEC 60364-4-43, 434.5.2. Provenance: memory; k 115, 143 read
 */
export function withstandA2s(k: number, areaMm2: number): number {
  if (!(k > 0 && areaMm2 > 0)) throw new Fault('faults/withstand-range', { k, areaMm2 })
  return k * k * areaMm2 * areaMm2
}

export interface HeatingTask {
  readonly k: number
  readonly areaMm2: number
  /** What it carries for ever, at `ambientC`. */
  readonly ampacityA: number
  readonly ambientC: number
  readonly initialC: number
  readonly finalC: number
}

/**
 * Seconds until a conductor that runs at its ampacity reaches the temperature that spoils it.
 *
 *   t = τ · ln((I² − Iz²)/(I² − I∞²)),   I∞² = Iz²·(Tf − Ta)/(Ti − Ta),   τ = k²S²/(I∞² − Iz²)
 *
 * Short times tend to k²S²/I² (adiabatic), currents below I∞ never get there. Heat loss straight with temperature.
 * @throws Fault `faults/withstand-range`
 * @source first-order heating. Provenance: computed from the stated formula
 */
export function damageS(task: HeatingTask, currentA: number): number {
  const { ampacityA, ambientC, initialC, finalC } = task
  if (!(ampacityA > 0 && finalC > initialC && initialC > ambientC)) throw new Fault('faults/withstand-range', task)
  const iz2 = ampacityA * ampacityA
  const end2 = (iz2 * (finalC - ambientC)) / (initialC - ambientC)
  const i2 = currentA * currentA
  if (i2 <= end2) return Infinity
  const tau = withstandA2s(task.k, task.areaMm2) / (end2 - iz2)
  return tau * log((i2 - iz2) / (i2 - end2))
}
