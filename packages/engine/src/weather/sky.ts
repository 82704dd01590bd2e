import { cos, exp, Fault, log } from '../kernel/index.ts'
import { PHYSICS, ZERO_C_K } from './constants.ts'
import { finite } from './shelf.ts'

const { stefanBoltzmannWPerM2K4: SIGMA } = PHYSICS

/** All emittances here: what the sky sends as a share of what a black body at the air's temperature would. */
export interface SkyAir {
  readonly airC: number
  readonly dewC: number
}

/**
 * Clear sky: 0.787 + 0.764·ln(T_dew/273).
 * @throws Fault `weather/sky-range`
 * @source Clark & Allen 1978 (table `sky-models`)
 */
export function clarkAllenFrac(dewC: number): number {
  if (!(dewC > -100 && dewC < 60)) throw new Fault('weather/sky-range', dewC)
  return 0.787 + 0.764 * log((dewC + ZERO_C_K) / 273)
}

/** What opaque cloud adds to it: 1 + 0.0224 N − 0.0035 N² + 0.00028 N³, N tenths. @throws Fault `weather/cloud-range` @source table `sky-models` */
export function clarkAllenCloudRatio(cloudFrac: number): number {
  const n = 10 * cloudIn(cloudFrac)
  return 1 + n * (0.0224 + n * (-0.0035 + n * 0.00028))
}

function cloudIn(cloudFrac: number): number {
  if (!(cloudFrac >= 0 && cloudFrac <= 1)) throw new Fault('weather/cloud-range', cloudFrac)
  return cloudFrac
}

/** What the sky sends down onto the level where a record has no infrared: ε·σ·T⁴, never more than a black body (hot, wet and overcast). @throws Fault `weather/sky-range`, `weather/cloud-range` */
export function clarkAllenWPerM2({ airC, dewC, cloudFrac }: SkyAir & { readonly cloudFrac: number }): number {
  return Math.min(1, clarkAllenFrac(dewC) * clarkAllenCloudRatio(cloudFrac)) * blackWPerM2(airC)
}

/**
 * Clear sky, the colder second opinion: 0.711 + 0.56 x + 0.73 x² + 0.013 cos(2πh/24) + 0.00012·(p − 1000 hPa), x = t_dew/100, h from midnight.
 * @throws Fault `weather/sky-range`
 * @source Berdahl & Martin 1984, Solar Energy 32(5) (table `sky-models`)
 */
export function berdahlMartinFrac(of: {
  readonly dewC: number
  readonly midnightH: number
  readonly pressurePa: number
}): number {
  finite('sky-range', of)
  const x = of.dewC / 100
  const daily = 0.013 * cos((2 * Math.PI * of.midnightH) / 24)
  return 0.711 + x * (0.56 + 0.73 * x) + daily + 0.00012 * (of.pressurePa / 100 - 1000)
}

/** Factors on the cloud's share that are in public use; no clear-sky paper gives one. @source table `sky-models`. Provenance: read */
export const BERDAHL_MARTIN_CLOUDS = { least: 0.467, middle: 0.784, most: 0.9 } as const

/** Clear sky closed by cloud: ε₀ + (1 − ε₀)·n·factor. @throws Fault `weather/cloud-range` */
export const cloudedFrac = (clearFrac: number, cloudFrac: number, factorRatio: number): number =>
  clearFrac + (1 - clearFrac) * cloudIn(cloudFrac) * factorRatio

/** Clear sky from vapour: 1.24·(e/T)^(1/7), e in hPa. @throws Fault `weather/sky-range` @source Brutsaert 1975 (table `sky-models`) */
export function brutsaertFrac(airC: number, vapourPa: number): number {
  const kelvin = airC + ZERO_C_K
  if (!(kelvin > 0 && vapourPa >= 0)) throw new Fault('weather/sky-range', { airC, vapourPa })
  return vapourPa === 0 ? 0 : 1.24 * exp(log(vapourPa / 100 / kelvin) / 7)
}

/** With cloud n: ε·(1 − 0.84 n) + 0.84 n. @throws Fault `weather/cloud-range` @source table `sky-models`. Provenance: read */
export const brutsaertCloudedFrac = (clearFrac: number, cloudFrac: number): number =>
  clearFrac * (1 - 0.84 * cloudIn(cloudFrac)) + 0.84 * cloudFrac

/** Clear sky from air temperature alone: 0.0552·T^1.5 kelvin. @throws Fault `weather/sky-range` @source Swinbank 1963. Provenance: memory */
export function swinbankC(airC: number): number {
  const kelvin = airC + ZERO_C_K
  if (!(kelvin > 0)) throw new Fault('weather/sky-range', airC)
  return 0.0552 * kelvin * Math.sqrt(kelvin) - ZERO_C_K
}

/** How far under the air the sky stands when nothing else is known. @source EN ISO 13790:2008. Provenance: memory */
const BELOW_AIR_K = { subpolar: 9, temperate: 11, tropics: 13 } as const
export const fixedSkyC = (airC: number, zone: keyof typeof BELOW_AIR_K): number => airC - BELOW_AIR_K[zone]

/** What a black body sends: σT⁴. @throws Fault `weather/sky-range` at absolute zero and below */
export function blackWPerM2(bodyC: number): number {
  const kelvin = bodyC + ZERO_C_K
  if (!(kelvin > 0 && kelvin < 2000)) throw new Fault('weather/sky-range', bodyC)
  return SIGMA * kelvin * kelvin * kelvin * kelvin
}

/** The black body that would send as much: (IR/σ)^¼. @throws Fault `weather/sky-range` below 0 */
export function skyC(infraredWPerM2: number): number {
  if (!(infraredWPerM2 >= 0 && infraredWPerM2 < Number.POSITIVE_INFINITY)) {
    throw new Fault('weather/sky-range', infraredWPerM2)
  }
  return Math.sqrt(Math.sqrt(infraredWPerM2 / SIGMA)) - ZERO_C_K
}

/**
 * What a plane of this slope sees in the long-wave: sky F·√F, air near the horizon F·(1 − √F), ground 1 − F, with F = (1 + cos b)/2. They sum to 1.
 * @source Walton 1983, NBSIR 83-2655. Provenance: memory
 */
export function longWaveShares(cosSlope: number): {
  readonly skyFrac: number
  readonly airFrac: number
  readonly groundFrac: number
} {
  if (!(Math.abs(cosSlope) <= 1)) throw new Fault('weather/plane-range', cosSlope)
  const view = (1 + cosSlope) / 2
  const split = Math.sqrt(view)
  return { skyFrac: view * split, airFrac: view * (1 - split), groundFrac: 1 - view }
}

/** Clear above, overcast below, straight between. Common practice. */
const CLEAR_FRAC = 0.7
const OVERCAST_FRAC = 0.2

/** Opaque cloud that a clearness by day speaks of. 0 to 1. Common practice. */
export const cloudOfClearnessFrac = (clearnessFrac: number): number =>
  Math.min(1, Math.max(0, (CLEAR_FRAC - clearnessFrac) / (CLEAR_FRAC - OVERCAST_FRAC)))

/**
 * Fills the cloud of each hour from its clearness; NaN says that the sun was too low to tell. By night the last value of the day is held; hours
 * before the first take the first. False, and all NaN, where no hour tells: the cloud is not known.
 */
export function fillCloudOfClearness(cloudFrac: Float64Array, clearnessFrac: Float64Array): boolean {
  const first = clearnessFrac.findIndex((value) => !Number.isNaN(value))
  if (first < 0) {
    cloudFrac.fill(Number.NaN)
    return false
  }
  let held = clearnessFrac[first] as number
  for (let i = 0; i < cloudFrac.length; i++) {
    const now = clearnessFrac[i] as number
    if (!Number.isNaN(now)) held = now
    cloudFrac[i] = cloudOfClearnessFrac(held)
  }
  return true
}
