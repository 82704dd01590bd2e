import { exp, Fault } from '../../kernel/index.ts'

/** Share of the step of a two-stage implicit step that ends nothing in ringing. @source Alexander 1977, SDIRK2. Provenance: memory */
export const TWO_STAGE_RATIO = 1 - Math.SQRT1_2

/** Time after which a thin sheet has made 63 % of a step: ρ·c·d/Σh, s. @throws Fault `air/node-range` */
export function sheetTimeS(heatJPerM2K: number, filmsWPerM2K: number): number {
  if (!(heatJPerM2K > 0 && filmsWPerM2K > 0)) throw new Fault('air/node-range', { heatJPerM2K, filmsWPerM2K })
  return heatJPerM2K / filmsWPerM2K
}

/** A lumped node after a time under a standing target: exact. */
export const nodeAfter = (start: number, target: number, timeS: number, timeConstantS: number): number =>
  target + (start - target) * exp(-timeS / timeConstantS)

/** The same by one step of backward Euler: stable, and slow by half the step. @source x₁ = (x₀ + s·x∞)/(1 + s), s = Δt/τ */
export const nodeByEuler = (start: number, target: number, stepS: number, timeConstantS: number): number => {
  const s = stepS / timeConstantS
  return (start + s * target) / (1 + s)
}

/** The same by one two-stage step, γ = 1 − 1/√2. */
export function nodeByTwoStages(start: number, target: number, stepS: number, timeConstantS: number): number {
  const z = (TWO_STAGE_RATIO * stepS) / timeConstantS
  const first = (start + z * target) / (1 + z)
  const slope = (first - start) / TWO_STAGE_RATIO
  const base = start + (1 - TWO_STAGE_RATIO) * slope
  return (base + z * target) / (1 + z)
}
