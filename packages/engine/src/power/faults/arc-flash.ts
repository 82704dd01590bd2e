import { Fault, log10, power } from '../../kernel/index.ts'

/** Constants of the 2002 model; used for a caution, never for a label. @source IEEE 1584-2002. Provenance: read (forms), 2018 edition not reproduced */
const ARC = { calPerJ: 4.184, boundaryJPerCm2: 5.0, normalS: 0.2, normalMm: 610 } as const

/**
 * Arcing current below 1 kV.
 *
 *   lg Ia = K + 0.662 lg Ibf + 0.0966 V + 0.000526 G + 0.5588 V lg Ibf − 0.00304 G lg Ibf     (kA, kV, mm)
 *
 * Three-phase, 0.208–1 kV, 0.7–106 kA. @throws Fault `faults/arc-range`
 * @source IEEE 1584-2002. Provenance: read
 */
export function arcingKA(arc: {
  readonly boltedKA: number
  readonly voltageKV: number
  readonly gapMm: number
  readonly k: number
}): number {
  const { boltedKA, voltageKV, gapMm, k } = arc
  if (!(boltedKA >= 0.7 && boltedKA <= 106 && voltageKV >= 0.208 && voltageKV < 1 && gapMm > 0))
    throw new Fault('faults/arc-range', arc)
  const lg = log10(boltedKA)
  return power(10, k + 0.662 * lg + 0.0966 * voltageKV + 0.000526 * gapMm + 0.5588 * voltageKV * lg - 0.00304 * gapMm * lg)
}

/**
 * Incident energy of that arc.
 *
 *   lg En = K1 + K2 + 1.081 lg Ia + 0.0011 G;   E = Cf · En · (t/0.2) · (610/D)^x     (cal/cm²; × 4.184 J/cm²)
 *
 * @source IEEE 1584-2002. Provenance: read
 */
export function incidentEnergy(arc: {
  readonly arcingKA: number
  readonly k1: number
  readonly k2: number
  readonly gapMm: number
  readonly cf: number
  readonly timeS: number
  readonly distanceMm: number
  readonly exponent: number
}): { readonly normal: number; readonly calPerCm2: number; readonly jPerCm2: number } {
  if (!(arc.arcingKA > 0 && arc.timeS >= 0 && arc.distanceMm > 0)) throw new Fault('faults/arc-range', arc)
  const normal = power(10, arc.k1 + arc.k2 + 1.081 * log10(arc.arcingKA) + 0.0011 * arc.gapMm)
  const calPerCm2 = arc.cf * normal * (arc.timeS / ARC.normalS) * power(ARC.normalMm / arc.distanceMm, arc.exponent)
  return { normal, calPerCm2, jPerCm2: calPerCm2 * ARC.calPerJ }
}

/**
 * Upper bound in open air.
 *
 *   E = 2.142·10⁶ · V · Ibf · t / D²     (J/cm²; kV, kA, s, mm)
 *
 * @source Lee's method, NFPA 70E Annex D. Provenance: read
 */
export function leeJPerCm2(arc: {
  readonly voltageKV: number
  readonly boltedKA: number
  readonly timeS: number
  readonly distanceMm: number
}): number {
  if (!(arc.voltageKV > 0 && arc.boltedKA >= 0 && arc.timeS >= 0 && arc.distanceMm > 0)) throw new Fault('faults/arc-range', arc)
  return (2.142e6 * arc.voltageKV * arc.boltedKA * arc.timeS) / (arc.distanceMm * arc.distanceMm)
}

/** Distance at which Lee's bound falls to 5 J/cm² (1.2 cal/cm²). */
export const leeBoundaryMm = (arc: { readonly voltageKV: number; readonly boltedKA: number; readonly timeS: number }): number =>
  Math.sqrt((2.142e6 * arc.voltageKV * arc.boltedKA * arc.timeS) / ARC.boundaryJPerCm2)
