import { Fault } from '../../kernel/index.ts'
import { cubeRoot, powerOf } from './roots.ts'

/** Natural film, unstable: 9.482/(7.283 − |cos b|); stable: 1.810/(1.382 + |cos b|); walls 1.31. */
const UNSTABLE = { rise: 9.482, base: 7.283 } as const
const STABLE = { rise: 1.81, base: 1.382 } as const
const WALL = 1.31
const WIND = 2.537
const LEE = 0.5
/** Nearer to upright than this a face is a wall: cos of 80 degrees would be 0.17. */
const UPRIGHT_COS = 1e-6

/**
 * Film of still air on a face, W/m²K, h = k·|Δt|^(1/3).
 *
 * `surfaceOverAirK`: surface less air. `tiltCos`: cosine of the angle from straight up at which the face looks at this air: 1 a floor or the
 * roof's upper side, 0 a wall, −1 a ceiling. Warm and looking up, or cold and looking down, the air turns over; else it lies.
 * Numbers in, number out: nothing is allocated.
 * @throws Fault `air/film-range`
 * @source Walton 1983, NBSSIR 83-2655 (TARP). Provenance: memory; constants read in two public programs
 */
export function naturalFilmWPerM2K(surfaceOverAirK: number, tiltCos: number): number {
  if (!(tiltCos >= -1 && tiltCos <= 1) || Number.isNaN(surfaceOverAirK))
    throw new Fault('air/film-range', { surfaceOverAirK, tiltCos })
  const root = cubeRoot(Math.abs(surfaceOverAirK))
  const lean = Math.abs(tiltCos)
  if (lean < UPRIGHT_COS) return WALL * root
  return surfaceOverAirK * tiltCos > 0
    ? (UNSTABLE.rise / (UNSTABLE.base - lean)) * root
    : (STABLE.rise / (STABLE.base + lean)) * root
}

/** Wall-factor of the wind's film: 1 to windward, 0.5 on faces turned more than 90° off. A roof is always 1. */
export const windwardRatio = (offWindDeg: number): number => (Math.abs(offWindDeg) > 90 ? LEE : 1)

/**
 * What wind adds to the natural film outside, W/m²K: 2.537·Wf·Rf·√(P·V/A).
 *
 * Wind at the height of the face; perimeter and area of the whole face; `roughnessRatio` of table `roughness`; `windward` 1 or 0.5.
 * @throws Fault `air/film-range`
 * @source Sparrow, Ramsey & Mass 1979 in Walton 1983 (TARP). Provenance: memory; constant read in two public programs
 */
export function windFilmWPerM2K(
  windMPerS: number,
  perimeterM: number,
  areaM2: number,
  roughnessRatio: number,
  windward: number,
): number {
  if (!(windMPerS >= 0 && perimeterM > 0 && areaM2 > 0 && roughnessRatio > 0 && windward > 0))
    throw new Fault('air/film-range', { windMPerS, perimeterM, areaM2, roughnessRatio, windward })
  return WIND * windward * roughnessRatio * Math.sqrt((perimeterM * windMPerS) / areaM2)
}

/** W/m²K of one ft·lb unit, Btu/h ft² °F. */
const BTU_FILM = 5.678
const FOOT_M = 0.3048
const MCADAMS_TURN_M_S = 4.88

/**
 * Film of a small smooth plate in wind, W/m²K: 5.678·(0.99 + 0.21·V/0.3048) below 4.88 m/s, 5.678·0.5·(V/0.3048)^0.78 above.
 * For vents and doors; four times what a whole wall has at 5 m/s.
 * @throws Fault `air/film-range`
 * @source McAdams 1954. Provenance: memory
 */
export function mcAdamsFilmWPerM2K(windMPerS: number): number {
  if (!(windMPerS >= 0)) throw new Fault('air/film-range', windMPerS)
  const v = windMPerS / FOOT_M
  return BTU_FILM * (windMPerS < MCADAMS_TURN_M_S ? 0.99 + 0.21 * v : 0.5 * powerOf(v, 0.78))
}

/** Film outside by the code: 4 + 4·V. @throws Fault `air/film-range` @source EN ISO 6946 annex. Provenance: memory */
export function codeFilmWPerM2K(windMPerS: number): number {
  if (!(windMPerS >= 0)) throw new Fault('air/film-range', windMPerS)
  return 4 + 4 * windMPerS
}

/** Least film inside while a fan stirs the air. @source common practice */
export const STIRRED_FILM_W_PER_M2K = 4

/** Film inside: natural, and at least 4 W/m²K while a fan runs. */
export function insideFilmWPerM2K(surfaceOverAirK: number, tiltCos: number, stirred: boolean): number {
  const natural = naturalFilmWPerM2K(surfaceOverAirK, tiltCos)
  return stirred ? Math.max(natural, STIRRED_FILM_W_PER_M2K) : natural
}

/** Outside film of a roof in rain, to the air's wet bulb. @source common practice */
export const RAIN_FILM_W_PER_M2K = 50
