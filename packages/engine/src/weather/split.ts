import { exp, Fault, log } from '../kernel/index.ts'

/** With the sun lower than this (sine of its height, 3.7°) a beam cannot be told from the global. Common practice. */
export const LEAST_UP_RATIO = 0.065

/**
 * Share of the global light that comes from the sky, by clearness kt (global over that outside the air, on the level):
 *
 *   1 − 0.09 kt to 0.22; 0.9511 − 0.1604 kt + 4.388 kt² − 16.638 kt³ + 12.336 kt⁴ to 0.80; 0.165 above
 *
 * @throws Fault `weather/clearness-range` below 0
 * @source Erbs, Klein & Duffie 1982, Solar Energy 28(4). Provenance: memory, confirmed by `split-01`
 */
export function diffuseFrac(clearnessFrac: number): number {
  if (!(clearnessFrac >= 0)) throw new Fault('weather/clearness-range', clearnessFrac)
  const k = clearnessFrac
  if (k <= 0.22) return 1 - 0.09 * k
  if (k <= 0.8) return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
  return 0.165
}

/**
 * Global over that outside the air, on the level, 0 to 1. 0 without sun.
 * @throws Fault `weather/light-range`
 */
export function clearnessFrac(globalWPerM2: number, outsideWPerM2: number, upRatio: number): number {
  if (!(globalWPerM2 >= 0 && outsideWPerM2 > 0)) throw new Fault('weather/light-range', { globalWPerM2, outsideWPerM2, upRatio })
  if (!(upRatio > 0)) return 0
  return Math.min(1, globalWPerM2 / (outsideWPerM2 * Math.max(upRatio, LEAST_UP_RATIO)))
}

/**
 * Beam on a plane that faces the sun, by rule from the global on the level: (G − G·Kd)/sin h. No beam with the sun below 3.7°; never more
 * than outside the air. What is not beam is sky: diffuse = global − beam·sin h.
 * @throws Fault `weather/light-range`
 */
export function beamOfGlobalWPerM2(globalWPerM2: number, outsideWPerM2: number, upRatio: number): number {
  const clear = clearnessFrac(globalWPerM2, outsideWPerM2, upRatio)
  if (upRatio < LEAST_UP_RATIO) return 0
  return Math.min(outsideWPerM2, (globalWPerM2 * (1 - diffuseFrac(clear))) / upRatio)
}

/**
 * Global light from the height of the sun and the cloud, where a file has cloud but no sun: (910 sin h − 30)·(1 − 0.75 n^3.4), n 0 to 1.
 * @throws Fault `weather/cloud-range`
 * @source Kasten & Czeplak 1980, Solar Energy 24(2). Provenance: memory
 */
export function globalOfCloudWPerM2(upRatio: number, cloudFrac: number): number {
  if (!(cloudFrac >= 0 && cloudFrac <= 1 && upRatio <= 1)) throw new Fault('weather/cloud-range', { upRatio, cloudFrac })
  const dimmed = cloudFrac === 0 ? 1 : 1 - 0.75 * exp(3.4 * log(cloudFrac))
  return Math.max(0, 910 * upRatio - 30) * dimmed
}
