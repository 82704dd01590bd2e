import { Fault } from '../../kernel/index.ts'
import { ZERO_C_K } from '../../weather/index.ts'
import { STEFAN_W_PER_M2K4 } from './star.ts'

const STEPS = 8

/** Exchange of two near parallel plates, as a share of black ones: 1/(1/ε₁ + 1/ε₂ − 1). @throws Fault `air/shade-range` */
export function platesFrac(oneFrac: number, otherFrac: number): number {
  if (!(oneFrac > 0 && oneFrac <= 1 && otherFrac > 0 && otherFrac <= 1))
    throw new Fault('air/shade-range', { oneFrac, otherFrac })
  return 1 / (1 / oneFrac + 1 / otherFrac - 1)
}

/**
 * Temperature of a second roof over a roof of known temperature, °C; thin, no heat kept. It takes sun, gives heat to the air over it and under it
 * and to the sky, and exchanges with the roof below as plates do.
 *
 *   αG = (h over + h gap)(T − Ta) + εσ(T⁴ − Tsky⁴) + ε₁₂σ(T⁴ − Troof⁴)
 *
 * The gap's air is outside air: open at the eaves. Numbers in, number out; Newton, eight steps.
 * @throws Fault `air/shade-range`
 * @source balance of a plate. Provenance: computed
 */
export function shadeC(
  absorbedWPerM2: number,
  emittanceFrac: number,
  skyC: number,
  airC: number,
  overFilmWPerM2K: number,
  gapFilmWPerM2K: number,
  roofC: number,
  plates: number,
): number {
  const films = overFilmWPerM2K + gapFilmWPerM2K
  if (!(films > 0 && absorbedWPerM2 >= 0 && emittanceFrac > 0 && plates > 0) || Number.isNaN(skyC + airC + roofC))
    throw new Fault('air/shade-range', { absorbedWPerM2, emittanceFrac, films, plates, skyC, airC, roofC })
  const sky = skyC + ZERO_C_K
  const roof = roofC + ZERO_C_K
  const glow = STEFAN_W_PER_M2K4 * (emittanceFrac + plates)
  const given =
    absorbedWPerM2 +
    films * (airC + ZERO_C_K) +
    STEFAN_W_PER_M2K4 * (emittanceFrac * sky * sky * sky * sky + plates * roof * roof * roof * roof)
  let t = given / films
  for (let n = 0; n < STEPS; n++) {
    const cube = t * t * t
    t -= (films * t + glow * cube * t - given) / (films + 4 * glow * cube)
  }
  return t - ZERO_C_K
}

/** What a roof under a second roof still gets of sun and sky light. */
export const underShadeFrac = (coversFrac: number): number => 1 - coversFrac
