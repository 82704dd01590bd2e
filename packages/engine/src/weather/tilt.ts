import { Fault } from '../kernel/index.ts'
import { numberIn, rowsOf } from './shelf.ts'

/** How the light of the sky is spread. Perez by default; Hay & Davies where the split was made by rule: Perez amplifies noise. */
export type SkyLight = 'isotropic' | 'hay-davies' | 'perez'

/** Share of the sky that a plane sees, 1 level to 0 looking down: (1 + cos b)/2. */
export const skyViewFrac = (cosSlope: number): number => (1 + cosSlope) / 2

/** Light from an even sky: D·(1 + cos b)/2. @source Liu & Jordan 1963. Provenance: memory */
export const isotropicWPerM2 = (diffuseWPerM2: number, cosSlope: number): number => diffuseWPerM2 * skyViewFrac(cosSlope)

/** Lowest sun that beam ratios divide by. Hay & Davies: 89°; Perez: 85°. @source the papers, as in `tilt-02` and `tilt-03`. Provenance: memory */
const LEAST_UP_HAY_DAVIES = 0.0175
const LEAST_UP_PEREZ = 0.08715574274765817

export interface SkyLightIn {
  readonly beamWPerM2: number
  readonly diffuseWPerM2: number
  /** Outside the air, facing the sun. > 0 */
  readonly outsideWPerM2: number
  /** Cosine of incidence on the plane; negative with the sun behind it. */
  readonly cosIncidence: number
  /** Sine of the sun's height. */
  readonly upRatio: number
  /** Of the plane's slope from level. */
  readonly cosSlope: number
}

/**
 * Sky light in two parts: around the sun D·A·Rb and even D·(1 − A)·(1 + cos b)/2, A = DNI/G₀, Rb = cos i/sin h.
 * @throws Fault `weather/light-range`
 * @source Hay & Davies 1980. Provenance: read (values, `tilt-02`)
 */
export function hayDaviesParts(of: SkyLightIn): { readonly sunWPerM2: number; readonly evenWPerM2: number } {
  const shareFrac = sunShareFrac(of)
  const ratio = Math.max(0, of.cosIncidence) / Math.max(of.upRatio, LEAST_UP_HAY_DAVIES)
  return {
    sunWPerM2: of.diffuseWPerM2 * shareFrac * ratio,
    evenWPerM2: of.diffuseWPerM2 * (1 - shareFrac) * skyViewFrac(of.cosSlope),
  }
}

function sunShareFrac(of: SkyLightIn): number {
  if (!(of.beamWPerM2 >= 0 && of.diffuseWPerM2 >= 0 && of.outsideWPerM2 > 0)) throw new Fault('weather/light-range', of)
  return Math.min(1, of.beamWPerM2 / of.outsideWPerM2)
}

/**
 * Hay & Davies with a brighter horizon: the even part times 1 + √(beam/global)·sin³(b/2), both on the level.
 * @throws Fault `weather/light-range`
 * @source Reindl, Beckman & Duffie 1990, as in Duffie & Beckman, eq. 2.16.7. Provenance: memory, confirmed by `tilt-04`
 */
export function brightHorizonParts(of: SkyLightIn): { readonly sunWPerM2: number; readonly evenWPerM2: number } {
  const { sunWPerM2, evenWPerM2 } = hayDaviesParts(of)
  const level = of.beamWPerM2 * Math.max(0, of.upRatio)
  const global = level + of.diffuseWPerM2
  const sineHalf = Math.sqrt((1 - of.cosSlope) / 2)
  const more = global > 0 ? Math.sqrt(level / global) * sineHalf * sineHalf * sineHalf : 0
  return { sunWPerM2, evenWPerM2: evenWPerM2 * (1 + more) }
}

const BINS = Float64Array.from(
  rowsOf('perez-1990').flatMap((row) => [
    row.eps_to === null ? Number.POSITIVE_INFINITY : numberIn(row, 'eps_to'),
    ...['f11', 'f12', 'f13', 'f21', 'f22', 'f23'].map((column) => numberIn(row, column)),
  ]),
)

/** Brightness around the sun, F₁, and along the horizon, F₂: of the hour, the same for every plane. */
export interface Brightness {
  sunRatio: number
  horizonRatio: number
}

/**
 * Writes F₁ and F₂ of the hour into `out`:
 *
 *   ε = [(D + DNI)/D + 1.041 z³]/(1 + 1.041 z³), z in radians; Δ = D·m/G₀; F₁ = f₁₁ + f₁₂Δ + f₁₃z kept within 0 to 1, F₂ = f₂₁ + f₂₂Δ + f₂₃z
 *
 * Without sky light both are 0. F₁ above 1 would take more light from the even sky than there is.
 * @throws Fault `weather/light-range`
 * @source Perez et al. 1990, Solar Energy 44(5) (table `perez-1990`)
 */
export function fillBrightness(
  out: Brightness,
  beamWPerM2: number,
  diffuseWPerM2: number,
  outsideWPerM2: number,
  zenithRad: number,
  massRatio: number,
): void {
  if (!(beamWPerM2 >= 0 && diffuseWPerM2 >= 0 && outsideWPerM2 > 0 && zenithRad >= 0 && massRatio >= 1 - 1e-3)) {
    throw new Fault('weather/light-range', { beamWPerM2, diffuseWPerM2, outsideWPerM2, zenithRad, massRatio })
  }
  out.sunRatio = 0
  out.horizonRatio = 0
  if (diffuseWPerM2 === 0) return
  const cubed = 1.041 * zenithRad * zenithRad * zenithRad
  const clear = ((diffuseWPerM2 + beamWPerM2) / diffuseWPerM2 + cubed) / (1 + cubed)
  const bright = (diffuseWPerM2 * massRatio) / outsideWPerM2
  let k = 0
  while (clear >= (BINS[k] as number)) k += 7
  const first = (BINS[k + 1] as number) + (BINS[k + 2] as number) * bright + (BINS[k + 3] as number) * zenithRad
  out.sunRatio = Math.min(1, Math.max(0, first))
  out.horizonRatio = (BINS[k + 4] as number) + (BINS[k + 5] as number) * bright + (BINS[k + 6] as number) * zenithRad
}

/** Sky light on a plane in three parts: D·(1 − F₁)(1 + cos b)/2, D·F₁·cos i/max(cos 85°, sin h), D·F₂·sin b. The last may be negative. */
export function perezParts(of: Brightness & Pick<SkyLightIn, 'diffuseWPerM2' | 'cosIncidence' | 'upRatio' | 'cosSlope'>): {
  readonly evenWPerM2: number
  readonly sunWPerM2: number
  readonly horizonWPerM2: number
} {
  const { diffuseWPerM2: d, sunRatio, horizonRatio, cosIncidence, upRatio, cosSlope } = of
  return {
    evenWPerM2: d * (1 - sunRatio) * skyViewFrac(cosSlope),
    sunWPerM2: (d * sunRatio * Math.max(0, cosIncidence)) / Math.max(LEAST_UP_PEREZ, upRatio),
    horizonWPerM2: d * horizonRatio * Math.sqrt(Math.max(0, 1 - cosSlope * cosSlope)),
  }
}

/** All sky light on a plane for loops: the sum of `perezParts`, never negative. */
export function perezWPerM2(
  brightness: Brightness,
  diffuseWPerM2: number,
  cosIncidence: number,
  upRatio: number,
  cosSlope: number,
  sinSlope: number,
): number {
  const around = Math.max(0, cosIncidence) / Math.max(LEAST_UP_PEREZ, upRatio)
  const sum =
    (1 - brightness.sunRatio) * skyViewFrac(cosSlope) + brightness.sunRatio * around + brightness.horizonRatio * sinSlope
  return diffuseWPerM2 * Math.max(0, sum)
}

/** All sky light on a plane for loops, after Hay & Davies; arguments in range as `hayDaviesParts` asks. */
export function hayDaviesWPerM2(
  beamWPerM2: number,
  diffuseWPerM2: number,
  outsideWPerM2: number,
  cosIncidence: number,
  upRatio: number,
  cosSlope: number,
): number {
  const share = Math.min(1, beamWPerM2 / outsideWPerM2)
  const around = Math.max(0, cosIncidence) / Math.max(upRatio, LEAST_UP_HAY_DAVIES)
  return diffuseWPerM2 * (share * around + (1 - share) * skyViewFrac(cosSlope))
}

/** Beam on a plane: DNI·cos i, nothing from behind. */
export const beamOnPlaneWPerM2 = (beamWPerM2: number, cosIncidence: number): number => beamWPerM2 * Math.max(0, cosIncidence)

/** Light that the ground throws back onto a plane: ρ·G·(1 − cos b)/2. */
export const groundOnPlaneWPerM2 = (globalWPerM2: number, reflectanceFrac: number, cosSlope: number): number =>
  (reflectanceFrac * globalWPerM2 * (1 - cosSlope)) / 2
