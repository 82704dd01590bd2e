import { Fault } from '../../kernel/index.ts'
import { fastenerFigure } from '../shelf.ts'

export interface ScrewShear {
  /** Nominal, by the sheet that tilts the screw; null where the far sheet is too thick to let it. */
  readonly tiltingN: number | null
  /** Nominal, by the sheets' bearing. */
  readonly bearingN: number
  readonly nominalN: number
  readonly allowedN: number
}

/**
 * Shear of a screw through two sheets, t1 under the head and t2 at the tip.
 *
 *   t2/t1 ≤ 1: least of 4.2·√(t2³·d)·Fu2, 2.7·t1·d·Fu1, 2.7·t2·d·Fu2;   ≥ 2.5: of the last two;   between: on a line
 *   allowed = nominal/3
 *
 * @throws Fault `fit/fastener-range`
 * @source AISI S100, E4.3.1; table `thin-sheet-formulas`. Provenance: memory, reproduces a table that was read
 */
export function screwShear(of: {
  readonly dMm: number
  readonly t1Mm: number
  readonly t2Mm: number
  readonly fu1MPa: number
  readonly fu2MPa: number
}): ScrewShear {
  positive(of)
  const { dMm, t1Mm, t2Mm, fu1MPa, fu2MPa } = of
  const bearing = fastenerFigure('screw-bearing').value
  const tilting = fastenerFigure('screw-tilting').value * Math.sqrt(t2Mm ** 3 * dMm) * fu2MPa
  const bearingN = Math.min(bearing * t1Mm * dMm * fu1MPa, bearing * t2Mm * dMm * fu2MPa)
  const thick = fastenerFigure('thick-from').value
  const ratio = t2Mm / t1Mm
  const thin = Math.min(tilting, bearingN)
  const nominalN = ratio <= 1 ? thin : ratio >= thick ? bearingN : thin + ((bearingN - thin) * (ratio - 1)) / (thick - 1)
  return {
    tiltingN: ratio >= thick ? null : tilting,
    bearingN,
    nominalN,
    allowedN: nominalN / fastenerFigure('screw-omega').value,
  }
}

export interface Nominal {
  readonly nominalN: number
  readonly allowedN: number
}

/** A screw pulled out of the sheet at its tip: 0.85·tc·d·Fu2, allowed a third. @throws Fault `fit/fastener-range` @source AISI S100, E4.4.1. Provenance: memory */
export function screwPullOut(of: { readonly dMm: number; readonly tMm: number; readonly fuMPa: number }): Nominal {
  positive(of)
  return allowed(fastenerFigure('screw-pull-out').value * of.tMm * of.dMm * of.fuMPa)
}

/**
 * A sheet pulled over a head or washer: 1.5·t1·dw·Fu1 with dw at most 19 mm, allowed a third. A wider washer counts as 19 mm.
 * @throws Fault `fit/fastener-range`
 * @source AISI S100, E4.4.2. Provenance: memory
 */
export function sheetPullOver(of: { readonly washerMm: number; readonly tMm: number; readonly fuMPa: number }): Nominal {
  positive(of)
  const dw = Math.min(of.washerMm, fastenerFigure('washer-most').value)
  return allowed(fastenerFigure('screw-pull-over').value * of.tMm * dw * of.fuMPa)
}

/** A through bolt bearing on sheet, which cannot tilt: 2.7·t·d·Fu, allowed a third. @throws Fault `fit/fastener-range` @source AISI S100, as for thick far sheets. Provenance: memory */
export function sheetBearing(of: { readonly dMm: number; readonly tMm: number; readonly fuMPa: number }): Nominal {
  positive(of)
  return allowed(fastenerFigure('screw-bearing').value * of.tMm * of.dMm * of.fuMPa)
}

/**
 * Bearing of a screw in sheets of like or unlike thickness: α·fu·d·t/γM2, α = 3.2·√(t/d) ≤ 2.1; 2.1 where the far sheet is 2.5 t or more.
 * @throws Fault `fit/fastener-range`
 * @source EN 1993-1-3, table 8.2. Provenance: memory
 */
export function ecScrewBearing(of: {
  readonly dMm: number
  readonly tMm: number
  readonly t1Mm: number
  readonly fuMPa: number
}): {
  readonly alpha: number
  readonly resistanceN: number
} {
  positive(of)
  const most = fastenerFigure('ec-screw-most').value
  const slope = Math.min(fastenerFigure('ec-screw-slope').value * Math.sqrt(of.tMm / of.dMm), most)
  const thick = fastenerFigure('thick-from').value
  const ratio = of.t1Mm / of.tMm
  const wide = of.tMm >= FULL_FROM_MM ? most : slope
  const alpha = ratio >= thick ? wide : ratio <= 1 ? slope : slope + ((wide - slope) * (ratio - 1)) / (thick - 1)
  return { alpha, resistanceN: (alpha * of.fuMPa * of.dMm * of.tMm) / fastenerFigure('gamma-m2').value }
}

/** Thinnest sheet that has the full α on a thick far sheet, in the rule's words. */
const FULL_FROM_MM = 1

const allowed = (nominalN: number): Nominal => ({ nominalN, allowedN: nominalN / fastenerFigure('screw-omega').value })

function positive(of: Readonly<Record<string, number>>): void {
  if (!Object.values(of).every((n) => n > 0 && n < Infinity)) throw new Fault('fit/fastener-range', of)
}
