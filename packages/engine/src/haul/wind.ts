import { Fault, log, power } from '../kernel/index.ts'
import { finite, numberIn, rowOf } from './shelf.ts'

/** Density of ASCE's 0.613 (half of it) and of EN 1991-1-4. @source ASCE 7-16 26.10; EN 1991-1-4 4.5. Provenance: read */
const ASCE_HALF_DENSITY = 0.613
const EN_DENSITY = 1.25
const FOOT_M = 0.3048

/**
 * Velocity pressure: q = 0.613 · Kz · Kzt · Kd · V². V: 3 s gust at 10 m.
 * @throws Fault `haul/wind-range`
 * @source ASCE 7-16, 26.10.2. Provenance: read
 */
export function asceVelocityPa(of: {
  readonly kz: number
  readonly kzt: number
  readonly kd: number
  readonly speedMPerS: number
}): number {
  finite('wind-range', of)
  if (!(of.kz > 0 && of.kzt > 0 && of.kd > 0 && of.speedMPerS >= 0)) throw new Fault('haul/wind-range', of)
  return ASCE_HALF_DENSITY * of.kz * of.kzt * of.kd * of.speedMPerS ** 2
}

/**
 * Exposure at a height: Kz = 2.01 · (z/zg)^(2/α), not below 15 ft. @source ASCE 7-16 table 26.10-1. Provenance: read
 */
export function asceKz(exposure: 'B' | 'C' | 'D', heightM: number): number {
  const row = rowOf('wind-terms', { by: 'ASCE 7-16', ground: exposure })
  const z = Math.max(heightM, numberIn(row, 'least_height'))
  return 2.01 * power(z / (numberIn(row, 'zg') * FOOT_M), 2 / numberIn(row, 'alpha'))
}

/**
 * Peak velocity pressure and its parts.
 *
 *   kr = 0.19·(z₀/0.05)^0.07; cr = kr·ln(z/z₀); vm = cr·vb; qp = (1 + 7/ln(z/z₀))·ρ/2·vm²
 *
 * The roughness factor enters squared. Turbulence and orography factor 1.
 * @throws Fault `haul/wind-range` at z ≤ z₀
 * @source EN 1991-1-4, 4.3 to 4.5. Provenance: read
 */
export function enPeakPressure(of: { readonly vbMPerS: number; readonly z0M: number; readonly heightM: number }): {
  readonly kr: number
  readonly cr: number
  readonly vmMPerS: number
  readonly qbPa: number
  readonly qpPa: number
} {
  finite('wind-range', of)
  if (!(of.z0M > 0 && of.heightM > of.z0M && of.vbMPerS >= 0)) throw new Fault('haul/wind-range', of)
  const rough = log(of.heightM / of.z0M)
  const kr = 0.19 * power(of.z0M / 0.05, 0.07)
  const vmMPerS = kr * rough * of.vbMPerS
  return {
    kr,
    cr: kr * rough,
    vmMPerS,
    qbPa: (EN_DENSITY / 2) * of.vbMPerS ** 2,
    qpPa: (1 + 7 / rough) * (EN_DENSITY / 2) * vmMPerS ** 2,
  }
}

export interface Broadside {
  readonly velocityPa: number
  readonly netRatio: number
  readonly lengthM: number
  readonly heightM: number
}

/** Wind on the long side and its moment about the lee bottom edge: F = q·c·L·h, M = F·h/2. @throws Fault `haul/wind-range` */
export function broadside(of: Broadside): { readonly forceN: number; readonly momentNm: number } {
  finite('wind-range', { ...of })
  if (!(of.velocityPa >= 0 && of.netRatio > 0 && of.lengthM > 0 && of.heightM > 0)) throw new Fault('haul/wind-range', of)
  const forceN = of.velocityPa * of.netRatio * of.lengthM * of.heightM
  return { forceN, momentNm: (forceN * of.heightM) / 2 }
}

/**
 * Suction of the roof under wind on the long side: mean over the roof, and its moment about the lee edge over that of the same force in
 * the middle.
 *
 *   ASCE 7: −1.3 to h/2 from the windward edge, −0.7 beyond, both × 0.85. EN 1991-1-4: zones F −1.8, G −1.2, H −0.7, I −0.2 (± 0.2)
 *
 * @source ASCE 7-16 figure 27.3-1 (h/L ≥ 1); EN 1991-1-4 table 7.2, sharp eaves. Provenance: memory
 */
export function roofSuction(of: {
  readonly by: 'ASCE' | 'EN'
  readonly lengthM: number
  readonly widthM: number
  readonly heightM: number
}): { readonly meanRatio: number; readonly armM: number } {
  const { lengthM: l, widthM: b, heightM: h } = of
  const strips: { readonly fromM: number; readonly toM: number; readonly ratio: number }[] = []
  const strip = (fromM: number, toM: number, ratio: number): void => {
    if (toM > fromM) strips.push({ fromM, toM, ratio })
  }
  if (of.by === 'ASCE') {
    const near = Math.min(h / 2, b)
    strip(0, near, 1.3 * GUST)
    strip(near, b, 0.7 * GUST)
  } else {
    const e = Math.min(l, 2 * h)
    const corner = Math.min(1, e / 2 / l)
    strip(0, Math.min(e / 10, b), 1.8 * corner + 1.2 * (1 - corner))
    strip(e / 10, Math.min(e / 2, b), 0.7)
    strip(e / 2, b, 0.2)
  }
  const force = strips.reduce((sum, s) => sum + s.ratio * (s.toM - s.fromM), 0)
  const moment = strips.reduce((sum, s) => sum + s.ratio * (s.toM - s.fromM) * (b - (s.fromM + s.toM) / 2), 0)
  return { meanRatio: force / b, armM: moment / force }
}

/** ASCE's gust factor of a stiff body. @source ASCE 7-16 26.11.1. Provenance: memory */
const GUST = 0.85

/** Velocity pressure that just tips a box over its lee edge, no suction counted: W·b/2 = q·c·L·h·h/2. */
export function tippingPa(of: {
  readonly weightN: number
  readonly armM: number
  readonly netRatio: number
  readonly lengthM: number
  readonly heightM: number
}): number {
  finite('wind-range', of)
  return (of.weightN * of.armM * 2) / (of.netRatio * of.lengthM * of.heightM ** 2)
}

/** Gust that makes a velocity pressure: V = √(q / (0.613·Kz·Kd)). */
export const speedOfPressure = (velocityPa: number, kz: number, kd: number): number =>
  Math.sqrt(velocityPa / (ASCE_HALF_DENSITY * kz * kd))

/**
 * Pull of one windward anchor: T = (Mo − dead·Mr) / (lever · n), not below 0; Mo at the ultimate level.
 * @throws Fault `haul/anchor-range`
 */
export function anchorTensionN(of: {
  readonly overturnNm: number
  readonly rightNm: number
  readonly deadFrac: number
  readonly leverM: number
  readonly windwardCount: number
}): number {
  finite('anchor-range', of)
  if (!(of.leverM > 0 && of.windwardCount > 0)) throw new Fault('haul/anchor-range', of)
  return Math.max(0, (of.overturnNm - of.deadFrac * of.rightNm) / (of.leverM * of.windwardCount))
}
