import { Fault } from '../../kernel/index.ts'
import { ZERO_C_K } from '../../weather/index.ts'
import { STEFAN_W_PER_M2K4 } from './star.ts'

/** Newton on a balance whose curve only steepens: from any start it comes to the last bits in half of these (test). */
const STEPS = 30

/** A sheet in the open that keeps no heat. */
export interface SteadySheet {
  readonly absorbedWPerM2: number
  readonly emittanceFrac: number
  /** What it sees on its outside, as one temperature. */
  readonly skyC: number
  readonly filmWPerM2K: number
  readonly airC: number
  /** Film inside to air inside; 0: no heat goes inward. */
  readonly insideWPerM2K: number
  readonly insideC: number
}

/**
 * Temperature at which a thin sheet stands still: αG = h(T − Ta) + εσ(T⁴ − Tsky⁴) + hᵢ(T − Tᵢ).
 * @throws Fault `air/sheet-range`
 * @source balance of a surface; ASTM E1980 where hᵢ = 0. Provenance: computed
 */
export function steadySheetC(of: SteadySheet): number {
  const { absorbedWPerM2, emittanceFrac: e, skyC, filmWPerM2K: h, airC, insideWPerM2K: hi, insideC } = of
  const films = h + hi
  if (!(films > 0 && h >= 0 && hi >= 0 && e >= 0 && e <= 1 && Math.min(skyC, airC, insideC) > -ZERO_C_K && absorbedWPerM2 >= 0))
    throw new Fault('air/sheet-range', of)
  const sky = skyC + ZERO_C_K
  const given = absorbedWPerM2 + h * (airC + ZERO_C_K) + hi * (insideC + ZERO_C_K) + e * STEFAN_W_PER_M2K4 * sky * sky * sky * sky
  // Above the root from here on: without its own glow it would be this hot.
  let t = given / films
  for (let n = 0; n < STEPS; n++) {
    const cube = t * t * t
    t -= (films * t + e * STEFAN_W_PER_M2K4 * cube * t - given) / (films + 4 * e * STEFAN_W_PER_M2K4 * cube)
  }
  return t - ZERO_C_K
}

/** Sun on a face as warmer air: te = to + αG/h; long-wave left out. @throws Fault `air/sheet-range` @source ASHRAE Fundamentals ch. 18. Provenance: memory */
export function solAirC(airC: number, absorbedWPerM2: number, filmWPerM2K: number): number {
  if (!(filmWPerM2K > 0) || Number.isNaN(airC + absorbedWPerM2))
    throw new Fault('air/sheet-range', { airC, absorbedWPerM2, filmWPerM2K })
  return airC + absorbedWPerM2 / filmWPerM2K
}

/** Sun, film, air and sky of the standard hour. @source ASTM E1980, medium wind. Provenance: memory */
const STANDARD = { sunWPerM2: 1000, filmWPerM2K: 12, airC: 310 - ZERO_C_K, skyC: 300 - ZERO_C_K } as const
const BLACK = { reflectance: 0.05, emittance: 0.9 } as const
const WHITE = { reflectance: 0.8, emittance: 0.9 } as const

/** A coat's temperature in the standard hour of ASTM E1980, medium wind, no heat flow inward. */
export const standardSunC = (reflectanceFrac: number, emittanceFrac: number): number =>
  steadySheetC({
    absorbedWPerM2: (1 - reflectanceFrac) * STANDARD.sunWPerM2,
    emittanceFrac,
    skyC: STANDARD.skyC,
    filmWPerM2K: STANDARD.filmWPerM2K,
    airC: STANDARD.airC,
    insideWPerM2K: 0,
    insideC: STANDARD.airC,
  })

/** How much of the way from standard black (0) to standard white (100) a coat stays cool. @source ASTM E1980. Provenance: memory */
export function reflectanceIndex(reflectanceFrac: number, emittanceFrac: number): number {
  const [black, white] = [standardSunC(BLACK.reflectance, BLACK.emittance), standardSunC(WHITE.reflectance, WHITE.emittance)]
  return (100 * (black - standardSunC(reflectanceFrac, emittanceFrac))) / (black - white)
}
