import { atan2, cos, exp, Fault, log, sin } from '../kernel/index.ts'
import { PHYSICS } from './constants.ts'
import { finite, numberIn, rowOf } from './shelf.ts'

/** Days of the wave that the year lays into the ground. */
const YEAR_D = 365

/** The year at the surface of the ground as one wave. */
export interface GroundWave {
  readonly meanC: number
  /** Mean to coldest. ≥ 0 */
  readonly swingK: number
  /** Day of the year on which the surface is coldest. */
  readonly coldestDayD: number
}

/**
 * Temperature in the ground: t = t_m − A·exp(−z√(π/365a))·cos(2π/365·(d − d₀ − z/2·√(365/πa))).
 * @throws Fault `weather/ground-range`
 * @source Kusuda & Achenbach 1965, ASHRAE Transactions 71. Provenance: memory, recomputed in `ground-01`
 */
export function groundC(
  of: GroundWave & { readonly depthM: number; readonly diffusivityM2PerD: number; readonly dayD: number },
): number {
  finite('ground-range', { ...of })
  if (!(of.swingK >= 0 && of.depthM >= 0 && of.diffusivityM2PerD > 0)) throw new Fault('weather/ground-range', of)
  const damping = of.depthM * Math.sqrt(Math.PI / (YEAR_D * of.diffusivityM2PerD))
  const lateD = (of.depthM / 2) * Math.sqrt(YEAR_D / (Math.PI * of.diffusivityM2PerD))
  return of.meanC - of.swingK * exp(-damping) * cos(((2 * Math.PI) / YEAR_D) * (of.dayD - of.coldestDayD - lateD))
}

/**
 * The yearly wave through twelve monthly means of the air, each at the middle of a twelfth: the first term of Fourier's series, made larger by
 * what a mean over a month flattens. On bare ground the surface follows the air; snow keeps it warmer (not counted).
 * @throws Fault `weather/ground-range` unless twelve finite values
 */
export function waveOfMonths(monthlyC: readonly number[]): GroundWave {
  if (monthlyC.length !== 12 || !monthlyC.every(Number.isFinite)) throw new Fault('weather/ground-range', monthlyC)
  const turn = (m: number) => (2 * Math.PI * (m + 0.5)) / 12
  const a = monthlyC.reduce((sum, t, m) => sum + t * cos(turn(m)), 0) / 6
  const b = monthlyC.reduce((sum, t, m) => sum + t * sin(turn(m)), 0) / 6
  const flattened = sin(Math.PI / 12) / (Math.PI / 12)
  const coldest = (atan2(-b, -a) / (2 * Math.PI)) * YEAR_D
  return {
    meanC: monthlyC.reduce((sum, t) => sum + t, 0) / 12,
    swingK: Math.sqrt(a * a + b * b) / flattened,
    coldestDayD: coldest < 0 ? coldest + YEAR_D : coldest,
  }
}

/** m² a day. @throws Fault `weather/no-row`, or `weather/no-number` for a row without one */
export const diffusivityM2PerD = (ground: string): number => numberIn(rowOf('ground', ground), 'diffusivity')

/** Share of sunlight that a surface throws back, by the name of its row in `ground-reflectance`. @throws Fault `weather/no-row` */
export const reflectanceFrac = (surface: string): number => numberIn(rowOf('ground-reflectance', surface), 'reflectance')

/** Sun warms bare ground over the air by this much per W/m²; snow stays at melting or below. Common practice. */
const SUN_K_PER_W_M2 = 0.02

/** Face of the ground around a box, for the long-wave: air + 0.02 G on bare ground, at most 0 °C on snow. Common practice. */
export const groundFaceC = (airC: number, globalWPerM2: number, snow: boolean): number =>
  snow ? Math.min(0, airC) : airC + SUN_K_PER_W_M2 * globalWPerM2

/**
 * Heat that settled snow lets through, W/mK: 2.22·(ρ/ρ_ice)^1.88. 50 to 917 kg/m³.
 * @throws Fault `weather/snow-range`
 * @source Yen 1981. Provenance: memory, recomputed in `snow-01`
 */
export function snowConductivityWPerMK(snowKgPerM3: number): number {
  if (!(snowKgPerM3 >= 50 && snowKgPerM3 <= PHYSICS.iceKgPerM3)) throw new Fault('weather/snow-range', snowKgPerM3)
  return 2.22 * exp(1.88 * log(snowKgPerM3 / PHYSICS.iceKgPerM3))
}

/** m²K/W of a layer of it. @throws Fault `weather/snow-range` */
export function snowResistanceM2KPerW(of: { readonly snowKgPerM3: number; readonly depthM: number }): number {
  if (!(of.depthM >= 0 && of.depthM < Number.POSITIVE_INFINITY)) throw new Fault('weather/snow-range', of)
  return of.depthM / snowConductivityWPerMK(of.snowKgPerM3)
}
