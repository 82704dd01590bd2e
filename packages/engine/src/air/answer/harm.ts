import { SIDES } from '../../job/index.ts'
import type { Row } from '../../kernel/index.ts'
import { saturationPaFast } from '../../weather/index.ts'
import type { SteelLoss, Wetness } from '../result.ts'
import { corrosivity, countsAsWet, firstYearLossUm, wetnessClass } from '../water/corrosion.ts'
import { type MouldClass, mouldAfterHour, mouldClass, mouldGrows } from '../water/mould.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { rowsOf } from './figures.ts'
import { meanOf } from './hours.ts'

const FACES = 6
const FLOOR = SIDES.indexOf('floor')

/** Hours with the air above 0 °C and its humidity above 80 %, and their class. @source ISO 9223:1992 (table `wetness`) */
export function wetness(airC: Float64Array, relativeFrac: Float64Array): Wetness {
  let hoursH = 0
  for (let h = 0; h < airC.length; h += 1) if (countsAsWet(airC[h] as number, relativeFrac[h] as number)) hoursH += 1
  return { hoursH, class: wetnessClass(hoursH) }
}

/** What settles where the place was called so: row of table `air-settling`. */
export function settling(told: string | null): Row {
  const category = /C[1-5X]/.exec(told ?? '')?.[0] ?? 'not told'
  return rowsOf('air-settling').find((r) => r.told === category) as Row
}

/** First-year loss of steel in air of this year, at the least and at the most of what settles; `shareFrac` of it, where less gets there. */
export function steelLoss(airC: Float64Array, relativeFrac: Float64Array, settles: Row, shareFrac = 1): SteelLoss {
  const mean = { airC: meanOf(airC), relativePct: Math.min(100, meanOf(relativeFrac) * 100) }
  const at = (end: 'low' | 'high') =>
    firstYearLossUm('steel', {
      ...mean,
      sulphurMgPerM2D: shareFrac * Number(settles[`so2_${end}`]),
      chlorideMgPerM2D: shareFrac * Number(settles[`chloride_${end}`]),
    })
  const [low, high] = [at('low'), at('high')]
  return {
    ...{ lowUmPerYear: low, highUmPerYear: high },
    ...{ lowCategory: corrosivity('steel', low), highCategory: corrosivity('steel', high) },
  }
}

/** Of the published range 0.1 to 1 of how fast materials lose mould when dry, the end that forgives least. */
const DECLINE_RATIO = 0.1
/** Plywood and paper faces. */
const PLYWOOD = 'sensitive'

/** Index on the face of the wooden floor through a run that begins without mould. Null: no wood. */
export function mouldOver(
  model: BoxModel,
  run: YearRun,
  of: MouldClass = mouldClass(PLYWOOD),
): { readonly mostRatio: number; readonly endRatio: number } | null {
  if (model.floor.dryKgPerM2 === 0) return null
  const { faceC, vapourPa } = run.series
  let [index, most, dryH] = [0, 0, 0]
  for (let h = 0; h < run.hoursCount; h += 1) {
    const atC = faceC[h * FACES + FLOOR] as number
    const humidityPct = ((vapourPa[h] as number) / saturationPaFast(atC)) * 100
    const grows = mouldGrows(of, atC, humidityPct)
    dryH = grows ? 0 : dryH + 1
    if (index === 0 && !grows) continue
    index = mouldAfterHour(of, index, atC, humidityPct, dryH, DECLINE_RATIO)
    most = Math.max(most, index)
  }
  return { mostRatio: most, endRatio: index }
}
