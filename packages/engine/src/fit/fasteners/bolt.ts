import { Fault } from '../../kernel/index.ts'
import { fastenerFigure } from '../shelf.ts'

/**
 * Bearing of a bolt in sheet: 2.5·αb·kt·fu·d·t/γM2; αb = min(1, e1/(3d)); kt = (0.8t + 1.5)/2.5 from 0.75 to 1.25 mm, else 1.
 * @throws Fault `fit/fastener-range` under 0.75 mm, and for what is not above nought
 * @source EN 1993-1-3, table 8.4. Provenance: memory
 */
export function ecBoltBearing(of: {
  readonly dMm: number
  readonly tMm: number
  readonly endMm: number
  readonly fuMPa: number
}): {
  readonly alphaB: number
  readonly kt: number
  readonly resistanceN: number
} {
  const { dMm, tMm, endMm, fuMPa } = of
  if (!(dMm > 0 && tMm >= THINNEST_MM && endMm > 0 && fuMPa > 0)) throw new Fault('fit/fastener-range', of)
  const alphaB = Math.min(1, endMm / (3 * dMm))
  const kt = tMm <= THIN_MM ? (0.8 * tMm + 1.5) / 2.5 : 1
  const resistanceN =
    (fastenerFigure('ec-bolt-bearing').value * alphaB * kt * fuMPa * dMm * tMm) / fastenerFigure('gamma-m2').value
  return { alphaB, kt, resistanceN }
}

/** Bounds of the rule for thin sheet, in its words. */
const THINNEST_MM = 0.75
const THIN_MM = 1.25

/**
 * A bolt's own shear 0.6·fub·As/γM2, tension 0.9·fub·As/γM2 and the punching of its plate 0.6·π·dm·tp·fu/γM2. Grades 4.6, 5.6 and 8.8.
 * @throws Fault `fit/fastener-range`
 * @source EN 1993-1-8, table 3.4. Provenance: read
 */
export function ecBolt(of: {
  readonly areaMm2: number
  readonly fubMPa: number
  readonly dmMm: number
  readonly plateMm: number
  readonly fuMPa: number
}): { readonly shearN: number; readonly tensionN: number; readonly punchingN: number } {
  if (!Object.values(of).every((n) => n > 0 && n < Infinity)) throw new Fault('fit/fastener-range', of)
  const gamma = fastenerFigure('gamma-m2').value
  return {
    shearN: (fastenerFigure('bolt-shear').value * of.fubMPa * of.areaMm2) / gamma,
    tensionN: (fastenerFigure('bolt-tension').value * of.fubMPa * of.areaMm2) / gamma,
    punchingN: (fastenerFigure('bolt-punching').value * Math.PI * of.dmMm * of.plateMm * of.fuMPa) / gamma,
  }
}
