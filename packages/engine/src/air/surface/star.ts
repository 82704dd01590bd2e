import { Fault } from '../../kernel/index.ts'
import { PHYSICS, ZERO_C_K } from '../../weather/index.ts'

export const STEFAN_W_PER_M2K4 = PHYSICS.stefanBoltzmannWPerM2K4

/**
 * Share of a face's black exchange with the star of all faces, m² of black plate: A·ε/(1 − ε + ε/F), with 1/F = 1 − A/ΣA. Six faces hang on
 * one node, each by 4·σ·Tm³ times this.
 *
 *   surface to star: [(1 − ε)/ε + 1 − A/ΣA]/A
 *
 * A face sees the other faces only: two equal plates, A/ΣA = ½, then exchange exactly A·σ·ΔT⁴ at ε = 1. Against radiosity by view factors see
 * `radiosity.ts` and its test.
 * @throws Fault `air/star-range` for a face larger than all others together, or emittance outside 0 to 1
 * @source star network of an enclosure; mean radiant temperature networks, Davies 1983, Carroll 1980 (F by area shares). Provenance: memory
 */
export function starAreaM2(areaM2: number, allAreasM2: number, emittanceFrac: number): number {
  if (!(areaM2 > 0 && allAreasM2 >= 2 * areaM2 * (1 - 1e-12) && emittanceFrac > 0 && emittanceFrac <= 1))
    throw new Fault('air/star-range', { areaM2, allAreasM2, emittanceFrac })
  return areaM2 / ((1 - emittanceFrac) / emittanceFrac + 1 - areaM2 / allAreasM2)
}

/** Radiant conductance of a black square metre about a mean temperature, W/m²K: 4·σ·T³. */
export function radiantWPerM2K(meanC: number): number {
  const t = meanC + ZERO_C_K
  return 4 * STEFAN_W_PER_M2K4 * t * t * t
}

/** The exact slope between two temperatures, W/m²K: σ·(T₁² + T₂²)·(T₁ + T₂). Times the difference it is σ·(T₁⁴ − T₂⁴). */
export function radiantBetweenWPerM2K(oneC: number, otherC: number): number {
  const a = oneC + ZERO_C_K
  const b = otherC + ZERO_C_K
  return STEFAN_W_PER_M2K4 * (a * a + b * b) * (a + b)
}
