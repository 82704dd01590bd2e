import { runKernel } from './engine.ts'
import { layoutOf } from './layout.ts'
import type { Surroundings } from './surroundings.ts'
import type { BoxModel, YearRun } from './types.ts'

export interface YearOptions {
  /** Hours from the end of the record that run first, unseen; 480 (20 days) where not told. */
  readonly firstRunHours?: number
  /** Where box and air inside begin; the air outside where not told. */
  readonly startC?: number
  readonly startVapourPa?: number
}

export const FIRST_RUN_HOURS = 480

/**
 * A box through the hours of its surroundings: heat, air and water of faces, air, gear and floor, hour by hour.
 *
 * Two-stage L-stable steps (γ = 1 − 1/√2), coefficients of the middle of the step carried on from the last two states, faces with their layers
 * eliminated onto air, star and vapour. The books of every step are closed; the largest relative residual is told.
 * @throws Fault `air/model-range`, `air/flow-balance`, `air/not-a-number` with hour and node
 */
export function yearOf(model: BoxModel, surroundings: Surroundings, options: YearOptions = {}): YearRun {
  return runKernel(model, layoutOf(model), surroundings, {
    firstRunHours: options.firstRunHours ?? FIRST_RUN_HOURS,
    startC: options.startC ?? null,
    startVapourPa: options.startVapourPa ?? null,
  })
}
