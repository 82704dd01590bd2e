import { Fault } from '../../kernel/index.ts'
import { PHYSICS, saturationPaFast, vapourKgPerM3 } from '../../weather/index.ts'
import { cubeRoot } from '../surface/roots.ts'

export const VAPORISATION_J_PER_KG = PHYSICS.vaporisationJPerKg
export const FUSION_J_PER_KG = PHYSICS.fusionJPerKg
export const SUBLIMATION_J_PER_KG = PHYSICS.sublimationJPerKg
const LEWIS_TO_TWO_THIRDS = cubeRoot(PHYSICS.lewisRatio * PHYSICS.lewisRatio)

/**
 * Mass film from heat film, m/s: h_m = h_c/(ρ·c_p·Le^(2/3)), Le 0.87. Only the film of moving air, without radiation.
 * @throws Fault `air/mass-film-range`
 * @source Lewis relation, ASHRAE Fundamentals ch. 6. Provenance: memory
 */
export function massFilmMPerS(filmWPerM2K: number, densityKgPerM3: number, heatJPerKgK: number): number {
  if (!(filmWPerM2K >= 0 && densityKgPerM3 > 0 && heatJPerKgK > 0))
    throw new Fault('air/mass-film-range', { filmWPerM2K, densityKgPerM3, heatJPerKgK })
  return filmWPerM2K / (densityKgPerM3 * heatJPerKgK * LEWIS_TO_TWO_THIRDS)
}

/** The same against vapour pressures, kg/(m²·s·Pa): h_m/(R_v·T), T that of film and surface. */
export const vapourFilmKgPerM2SPa = (massFilm: number, meanC: number): number => massFilm * vapourKgPerM3(meanC, 1)

/**
 * Water going onto a face, kg/m²s, positive dew or frost, negative drying: g = h_m·(ρ_v air − ρ_v saturated at the surface). Over ice below
 * 0 °C, by the quick saturation curve (within 1e-6). What may dry is held to what is there by `heldKgPerM2S`.
 * @throws Fault `air/deposit-range`
 */
export function depositKgPerM2S(massFilm: number, vapourPa: number, airC: number, surfaceC: number): number {
  const rate = massFilm * (vapourKgPerM3(airC, vapourPa) - vapourKgPerM3(surfaceC, saturationPaFast(surfaceC)))
  if (Number.isNaN(rate)) throw new Fault('air/deposit-range', { massFilm, vapourPa, airC, surfaceC })
  return rate
}

/** A rate of `depositKgPerM2S` held so that a step dries no more than the film there is. */
export const heldKgPerM2S = (rateKgPerM2S: number, filmKgPerM2: number, stepS: number): number =>
  Math.max(rateKgPerM2S, -filmKgPerM2 / stepS)

/** Heat set free by what settles, taken up by what leaves, J/kg: frost below 0 °C, else dew. */
export const latentJPerKg = (surfaceC: number): number => (surfaceC < 0 ? SUBLIMATION_J_PER_KG : VAPORISATION_J_PER_KG)

/**
 * Frost that melts (positive) or water that freezes (negative), kg/m², when a face with `heatJPerM2K` would stand at `surfaceC` without it:
 * the heat beyond 0 °C goes into the change until one of the two is used up. `thawedC` gives where the face then stands.
 * @throws Fault `air/melt-range`
 */
export function meltedKgPerM2(frostKgPerM2: number, waterKgPerM2: number, surfaceC: number, heatJPerM2K: number): number {
  if (!(frostKgPerM2 >= 0 && waterKgPerM2 >= 0 && heatJPerM2K > 0) || Number.isNaN(surfaceC))
    throw new Fault('air/melt-range', { frostKgPerM2, waterKgPerM2, surfaceC, heatJPerM2K })
  const could = (surfaceC * heatJPerM2K) / FUSION_J_PER_KG
  return could >= 0 ? Math.min(could, frostKgPerM2) : Math.max(could, -waterKgPerM2)
}

/** Where the face stands after `melted` of `meltedKgPerM2`: at 0 °C while both are there. */
export const thawedC = (surfaceC: number, melted: number, heatJPerM2K: number): number =>
  surfaceC - (melted * FUSION_J_PER_KG) / heatJPerM2K
