import { SIDES } from '../../job/index.ts'
import { exp, Fault, log, type Row } from '../../kernel/index.ts'
import type { SteelLoss, Wetness } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { saturationPa } from './dew.ts'
import { amount, rowsOf } from './figures.ts'
import { meanOf } from './hours.ts'

const FACES = 6
const FLOOR = SIDES.indexOf('floor')

/**
 * Hours with the air above 0 °C and its humidity above 80 %, and their class.
 * @source ISO 9223:1992 (table `wetness`)
 */
export function wetness(airC: Float64Array, relativeFrac: Float64Array): Wetness {
  const limit = amount('wet-relative')
  let hoursH = 0
  for (let h = 0; h < airC.length; h += 1) if ((airC[h] as number) > 0 && (relativeFrac[h] as number) > limit) hoursH += 1
  return { hoursH, class: wetnessClass(hoursH) }
}

/** Class of so many hours a year: `from` is in it, `to` is not. @throws Fault `air/wetness-range` */
export function wetnessClass(hoursH: number): string {
  const row = rowsOf('wetness').find((r) => hoursH >= Number(r.from) && hoursH < Number(r.to))
  if (row === undefined) throw new Fault('air/wetness-range', hoursH)
  return String(row.class)
}

/**
 * First-year loss of bare steel, µm: 1.77 Pd^0.52 exp(0.020 RH + f) + 0.102 Sd^0.62 exp(0.033 RH + 0.040 T), with f = 0.150 (T − 10) up to
 * 10 °C and −0.054 (T − 10) above. T and RH are means of the year; Pd and Sd are what settles, mg/m² a day.
 * @throws Fault `air/steel-range`
 * @source ISO 9223:2012 eq. 1 (table `corrosivity`, note). Provenance: memory
 */
export function steelLossUm(of: {
  readonly meanC: number
  readonly meanRelativePct: number
  readonly sulphur: number
  readonly chloride: number
}): number {
  const { meanC: t, meanRelativePct: rh, sulphur, chloride } = of
  if (!(Number.isFinite(t) && rh >= 0 && rh <= 105 && sulphur > 0 && chloride > 0)) throw new Fault('air/steel-range', of)
  const f = t <= 10 ? 0.15 * (t - 10) : -0.054 * (t - 10)
  return 1.77 * exp(0.52 * log(sulphur)) * exp(0.02 * rh + f) + 0.102 * exp(0.62 * log(chloride)) * exp(0.033 * rh + 0.04 * t)
}

/** Category of such a loss: the upper end of a row belongs to it. Beyond the last row: the last. */
export function steelCategory(lossUm: number): string {
  const rows = rowsOf('corrosivity')
  const row = rows.find((r) => lossUm <= Number(String(r.steel).split('-')[1])) ?? (rows.at(-1) as Row)
  return String(row.category)
}

/** What settles where the place was called so: row of table `air-settling`. */
export function settling(told: string | null): Row {
  const category = /C[1-5X]/.exec(told ?? '')?.[0] ?? 'not told'
  return rowsOf('air-settling').find((r) => r.told === category) as Row
}

/** Loss in air of this year, at the least and at the most of what settles. */
export function steelLoss(airC: Float64Array, relativeFrac: Float64Array, settles: Row): SteelLoss {
  const mean = { meanC: meanOf(airC), meanRelativePct: Math.min(100, meanOf(relativeFrac) * 100) }
  const at = (end: 'low' | 'high') =>
    steelLossUm({ ...mean, sulphur: Number(settles[`so2_${end}`]), chloride: Number(settles[`chloride_${end}`]) })
  const [low, high] = [at('low'), at('high')]
  return {
    ...{ lowUmPerYear: low, highUmPerYear: high, lowCategory: steelCategory(low), highCategory: steelCategory(high) },
  }
}

/** One class of table `mould-classes`. */
export interface MouldClass {
  readonly below1: number
  readonly above1: number
  readonly a: number
  readonly b: number
  readonly c: number
  readonly leastPct: number
}

/** Plywood and paper faces. */
export const PLYWOOD: MouldClass = { below1: 0.578, above1: 0.386, a: 0.3, b: 6, c: 1, leastPct: 80 }

/**
 * Humidity from which mould grows, %: −0.00267 T³ + 0.160 T² − 3.13 T + 100 up to 20 °C, never below the least of the class.
 * @source Hukka & Viitanen 1999
 */
export function mouldCriticalPct(atC: number, leastPct: number): number {
  const t = Math.min(20, atC)
  return Math.max(leastPct, ((-0.00267 * t + 0.16) * t - 3.13) * t + 100)
}

/** Highest index that a steady humidity leads to. */
export function mouldMost(of: MouldClass, atC: number, relativePct: number): number {
  const critical = mouldCriticalPct(atC, of.leastPct)
  const q = (critical - relativePct) / (critical - 100)
  return of.a + of.b * q - of.c * q * q
}

/** Of an hour on which nothing grows, by how long it has been dry. */
const FIRST_DRY_H = 6
const STILL_UNTIL_H = 24
const FIRST_FALL_PER_H = 0.00133
const LATER_FALL_PER_H = 0.000667
/** Of the range 0.1 to 1 for materials, the end that forgives least is taken. */
const FALL_RATIO = 0.1

/**
 * Mould index after one more hour: rises by k₁k₂/(7·exp(−0.68 ln T − 13.9 ln RH + 66.02)) a day above the critical humidity between 0 and
 * 50 °C, falls slowly while it is too dry or too cold. 0 to 6.
 * @source Hukka & Viitanen 1999, Ojanen et al. 2010 (table `mould-classes`)
 */
export function mouldAfterHour(
  of: MouldClass,
  index: number,
  hour: { readonly atC: number; readonly relativePct: number; readonly dryH: number },
): number {
  const { atC, relativePct, dryH } = hour
  const rh = Math.min(100, relativePct)
  if (atC > 0 && atC < 50 && rh >= mouldCriticalPct(atC, of.leastPct) && rh < 100.0001) {
    const k1 = index < 1 ? of.below1 : of.above1
    const k2 = Math.max(0, 1 - exp(2.3 * (index - mouldMost(of, atC, rh))))
    return index + (k1 * k2) / (7 * exp(-0.68 * log(atC) - 13.9 * log(rh) + 66.02)) / 24
  }
  const fall = dryH <= FIRST_DRY_H ? FIRST_FALL_PER_H : dryH <= STILL_UNTIL_H ? 0 : LATER_FALL_PER_H
  return Math.max(0, index - fall * FALL_RATIO)
}

/** Index on the face of the wooden floor through a run. Null: no wood. */
export function mouldOver(
  model: BoxModel,
  run: YearRun,
  of: MouldClass = PLYWOOD,
): { readonly mostRatio: number; readonly endRatio: number } | null {
  if (model.floor.dryKgPerM2 === 0) return null
  const { faceC, vapourPa } = run.series
  let [index, most, dryH] = [0, 0, 0]
  for (let h = 0; h < run.hoursCount; h += 1) {
    const atC = faceC[h * FACES + FLOOR] as number
    if (atC <= 0 && index === 0) continue
    const relativePct = ((vapourPa[h] as number) / saturationPa(atC)) * 100
    const before = index
    dryH += 1
    index = mouldAfterHour(of, index, { atC, relativePct, dryH })
    if (index > before || (atC > 0 && relativePct >= mouldCriticalPct(atC, of.leastPct))) dryH = 0
    most = Math.max(most, index)
  }
  return { mostRatio: most, endRatio: index }
}
