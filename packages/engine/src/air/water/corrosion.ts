import { exp, Fault } from '../../kernel/index.ts'
import { numberIn, rowsOf } from '../shelf.ts'
import { powerOf } from '../surface/roots.ts'

/** Above this humidity and above 0 °C a surface counts as wet. @source ISO 9223:1992 */
export const WET_FRAC = 0.8
export const countsAsWet = (airC: number, relativeFrac: number): boolean => airC > 0 && relativeFrac > WET_FRAC

/** Class τ1 … τ5 of the wet hours of a year. @throws Fault `air/wet-range` @source table `wetness` */
export function wetnessClass(wetHoursPerYear: number): string {
  const row = rowsOf('wetness').find((one) => wetHoursPerYear <= numberIn(one, 'to'))
  if (row === undefined || !(wetHoursPerYear >= 0)) throw new Fault('air/wet-range', wetHoursPerYear)
  return String(row.class)
}

/** Mean air of a year and what settles from it: sulphur dioxide and chloride in mg/m²d. */
export interface CorrosionYear {
  readonly airC: number
  readonly relativePct: number
  readonly sulphurMgPerM2D: number
  readonly chlorideMgPerM2D: number
}

interface Dose {
  readonly sulphur: readonly [factor: number, power: number, perPct: number]
  readonly below: number
  readonly above: number
  readonly chloride: readonly [factor: number, power: number, perPct: number, perK: number]
}
const DOSE: Readonly<Record<'steel' | 'zinc', Dose>> = {
  steel: { sulphur: [1.77, 0.52, 0.02], below: 0.15, above: -0.054, chloride: [0.102, 0.62, 0.033, 0.04] },
  zinc: { sulphur: [0.0129, 0.44, 0.046], below: 0.038, above: -0.071, chloride: [0.0175, 0.57, 0.008, 0.085] },
}
const TURN_C = 10

/**
 * Loss of bare metal in its first year, µm: a·Pd^b·exp(c·φ + f) + d·Sd^e·exp(g·φ + h·T), f = k·(T − 10) with one k below 10 °C and another above.
 * @throws Fault `air/corrosion-range`
 * @source ISO 9223:2012 eq. 1 and 2. Provenance: memory
 */
export function firstYearLossUm(metal: 'steel' | 'zinc', of: CorrosionYear): number {
  const { airC, relativePct, sulphurMgPerM2D, chlorideMgPerM2D } = of
  if (!(relativePct >= 0 && relativePct <= 100 && sulphurMgPerM2D >= 0 && chlorideMgPerM2D >= 0) || Number.isNaN(airC))
    throw new Fault('air/corrosion-range', of)
  const { sulphur, below, above, chloride } = DOSE[metal]
  const f = (airC <= TURN_C ? below : above) * (airC - TURN_C)
  return (
    sulphur[0] * powerOf(sulphurMgPerM2D, sulphur[1]) * exp(sulphur[2] * relativePct + f) +
    chloride[0] * powerOf(chlorideMgPerM2D, chloride[1]) * exp(chloride[2] * relativePct + chloride[3] * airC)
  )
}

/** Category C1 … CX of a first-year loss; beyond the last of the table: CX. @source ISO 9223:2012 table 2. Provenance: memory */
export function corrosivity(metal: 'steel' | 'zinc', lossUm: number): string {
  if (!(lossUm >= 0)) throw new Fault('air/corrosion-range', lossUm)
  const rows = rowsOf('corrosivity')
  const upTo = (cell: unknown) => Number(String(cell).split('-')[1])
  return String((rows.find((row) => lossUm <= upTo(row[metal])) ?? rows.at(-1)!).category)
}
