import { Fault } from '../../kernel/index.ts'
import { PHYSICS } from '../../weather/index.ts'
import { powerOf } from '../surface/roots.ts'

export const GRAVITY_M_PER_S2 = PHYSICS.gravityMPerS2
/** Below this a flow is taken as linear in pressure: the root's slope has no end at nothing. */
export const LINEAR_BELOW_PA = 0.01

/**
 * Flow through a sharp hole, m³/s, with the sign of the pressure: Q = Cd·A·√(2·Δp/ρ), linear below 0.01 Pa.
 * @throws Fault `air/hole-range`
 * @source orifice law, ASHRAE Fundamentals ch. 16. Provenance: memory
 */
export function holeFlowM3s(pressurePa: number, areaM2: number, dischargeRatio: number, densityKgPerM3: number): number {
  if (!(areaM2 >= 0 && dischargeRatio >= 0 && densityKgPerM3 > 0) || Number.isNaN(pressurePa))
    throw new Fault('air/hole-range', { pressurePa, areaM2, dischargeRatio, densityKgPerM3 })
  const at1Pa = dischargeRatio * areaM2 * Math.sqrt(2 / densityKgPerM3)
  const size = Math.abs(pressurePa)
  if (size < LINEAR_BELOW_PA) return (at1Pa * pressurePa) / Math.sqrt(LINEAR_BELOW_PA)
  return Math.sign(pressurePa) * at1Pa * Math.sqrt(size)
}

/**
 * Flow through cracks, m³/s, with the sign of the pressure: Q = C·Δpⁿ, linear below 0.01 Pa. Exponent 0.5 to 1, 0.65 where not known.
 * @throws Fault `air/crack-range`
 * @source power law of leakage, ASHRAE Fundamentals ch. 16. Provenance: memory
 */
export function crackFlowM3s(pressurePa: number, at1PaM3s: number, exponentRatio: number): number {
  if (!(at1PaM3s >= 0 && exponentRatio >= 0.5 && exponentRatio <= 1) || Number.isNaN(pressurePa))
    throw new Fault('air/crack-range', { pressurePa, at1PaM3s, exponentRatio })
  const size = Math.abs(pressurePa)
  if (size < LINEAR_BELOW_PA) return (at1PaM3s * pressurePa * powerOf(LINEAR_BELOW_PA, exponentRatio)) / LINEAR_BELOW_PA
  return Math.sign(pressurePa) * at1PaM3s * powerOf(size, exponentRatio)
}

/**
 * Loss of an insect screen on the speed in front of it: ζ = 1.3·(1 − f) + (1/f − 1)², f the open share. Below 1 m/s double it
 * (wire Reynolds number under 1000).
 * @throws Fault `air/screen-range`
 * @source Idelchik, wire mesh. Provenance: memory
 */
export function screenLossRatio(openFrac: number): number {
  if (!(openFrac > 0 && openFrac <= 1)) throw new Fault('air/screen-range', openFrac)
  const shut = 1 / openFrac - 1
  return 1.3 * (1 - openFrac) + shut * shut
}

/**
 * Discharge of a hole with losses in series on the same area: 1/Cd² = 1/Cd₀² + ζ. For hoods and louvres see `openingDischargeRatio`.
 * @throws Fault `air/screen-range`
 * @source pressures in series. Provenance: computed
 */
export function dischargeInSeriesRatio(holeRatio: number, lossRatio: number): number {
  if (!(holeRatio > 0 && lossRatio >= 0)) throw new Fault('air/screen-range', { holeRatio, lossRatio })
  return 1 / Math.sqrt(1 / (holeRatio * holeRatio) + lossRatio)
}
