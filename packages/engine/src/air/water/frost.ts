import { exp, Fault, log } from '../../kernel/index.ts'

const LIGHTEST = 80
const HEAVIEST = 400

/** Density of growing frost by its surface, kg/m³: 650·exp(0.277·t), held to 80–400. At or below 0 °C. @throws Fault `air/frost-range` @source Hayashi 1977. Provenance: memory */
export function frostKgPerM3(surfaceC: number): number {
  if (!(surfaceC <= 0)) throw new Fault('air/frost-range', surfaceC)
  return Math.min(Math.max(650 * exp(0.277 * surfaceC), LIGHTEST), HEAVIEST)
}

/** Conductivity of frost, W/mK: 0.001202·ρ^0.963. @throws Fault `air/frost-range` @source Sanders 1974. Provenance: memory */
export function frostWPerMK(densityKgPerM3: number): number {
  if (!(densityKgPerM3 > 0)) throw new Fault('air/frost-range', densityKgPerM3)
  return 0.001202 * exp(0.963 * log(densityKgPerM3))
}

/** Thickness of a coat of frost, m. @throws Fault `air/frost-range` */
export function frostM(frostKgPerM2: number, densityKgPerM3: number): number {
  if (!(frostKgPerM2 >= 0 && densityKgPerM3 > 0)) throw new Fault('air/frost-range', { frostKgPerM2, densityKgPerM3 })
  return frostKgPerM2 / densityKgPerM3
}

/** A coat of frost that is under sun or a heater. */
export interface Thaw {
  readonly frostKgPerM2: number
  /** Below 0. */
  readonly fromC: number
  readonly netWPerM2: number
  readonly sheetJPerM2K: number
  readonly fusionJPerKg: number
  readonly iceJPerKgK: number
}

/** Time until sheet and frost stand at 0 °C, and from then until the frost is water, s. @throws Fault `air/frost-range` @source energy sum */
export function thawS(of: Thaw): { readonly warmS: number; readonly meltS: number } {
  if (!(of.netWPerM2 > 0 && of.frostKgPerM2 >= 0 && of.fromC <= 0 && of.sheetJPerM2K >= 0)) throw new Fault('air/frost-range', of)
  return {
    warmS: ((of.sheetJPerM2K + of.frostKgPerM2 * of.iceJPerKgK) * -of.fromC) / of.netWPerM2,
    meltS: (of.frostKgPerM2 * of.fusionJPerKg) / of.netWPerM2,
  }
}
