import { cos } from '../../kernel/index.ts'
import type { Months } from '../normals.ts'
import { numberIn, rowsOf } from '../shelf.ts'
import { amount } from './figures.ts'
import { DAYS, FIRST_OF_MONTH, HOURS, MONTH_DAYS, MONTH_OF_DAY, meanKeepingCurve, monthMeans, straightCurve } from './months.ts'
import { type DailyResiduals, MEAN_MEMORY } from './residuals.ts'

const RANGE_SLOPE_COLD = amount('range by clearness, coldest month')
const RANGE_SLOPE_WARM = amount('range by clearness, warmest month')
const SCATTER_COLD = amount('range, scatter, coldest month')
const SCATTER_WARM = amount('range, scatter, warmest month')
const LEAST_RANGE_K = amount('least range')
const MOST_RANGE = amount('most range')
const BROADER_PER_H = amount('broader by an hour of daylight')
const BROADEST = amount('broader, at most')
const DRAWN_IN_COLD = amount('warm days drawn in, coldest month')
const DRAWN_IN_WARM = amount('warm days drawn in, warmest month')
const DRAWN_IN_FROM = amount('warm days drawn in, from')
const WITH_SUN_COLD = amount('warmth with sun, coldest month')
const WITH_SUN_WARM = amount('warmth with sun, warmest month')

const HARMONICS = rowsOf('mean-day-shape').map((row) => ({
  n: numberIn(row, 'harmonic'),
  amplitude: numberIn(row, 'amplitude'),
  phaseRad: numberIn(row, 'phase'),
}))

/**
 * Air over its mean of the day, in parts of the swing A: Σ aₙ·cos(n·t' − φₙ), t' = 2π·(t − 1)/24. −0.46 to 0.53; lowest about 5 h, highest about 15 h.
 * @param hourH time of the sundial, 0 to 24, fractions allowed
 * @source Erbs, Klein & Beckman 1983, ASHRAE Journal 25(6) (table `mean-day-shape`)
 */
export function meanDayShape(hourH: number): number {
  const t = (2 * Math.PI * (hourH - 1)) / 24
  let sum = 0
  for (const { n, amplitude, phaseRad } of HARMONICS) sum += amplitude * cos(n * t - phaseRad)
  return sum
}

export interface TemperatureIn {
  readonly meanC: Months
  readonly rangeK: Months
  /** Spread of the daily mean inside the month, its trend included. */
  readonly spreadK: Months
  /** The sun of each day, clearness over the month's; 1 where there is none. */
  readonly clearnessRatio: Float64Array
  /** The same as a residual: less the month's mean, over its spread; 0 where there is none. */
  readonly sun: Float64Array
  readonly residuals: DailyResiduals
  readonly sundialH: number
  /** Hours of daylight of each day. */
  readonly daylightH: Float64Array
  /** Exceeded in 0.4 % of the hours of the place; null: not told. */
  readonly hotC: number | null
  /** A normal year: each month has the spread of the normals, not only about it. */
  readonly settled: boolean
}

export interface Temperature {
  readonly airC: Float64Array
  readonly dailyMeanC: Float64Array
  /** Of the daily mean from the curve of the normals, K, and over its spread. */
  readonly residualK: Float64Array
  readonly residual: Float64Array
  /** The normals as a smooth curve. */
  readonly seasonC: Float64Array
}

/** Straight between what holds in the coldest and in the warmest month, by the months' means; halfway where all months are alike. */
function byWarmth(meanC: Months, cold: number, warm: number): number[] {
  const low = Math.min(...meanC)
  const swing = Math.max(...meanC) - low
  return meanC.map((mean) => cold + (warm - cold) * (swing > 0 ? (mean - low) / swing : 0.5))
}

/** Correlation of the daily mean with the day's sun, by month: together in the warm months, hardly or the other way in the cold ones. */
export const warmthWithSun = (meanC: Months): number[] => byWarmth(meanC, WITH_SUN_COLD, WITH_SUN_WARM)

/** Residuals of the daily mean in kelvin: no month has a mean of its own, and in a settled year each has the spread that is wanted. */
function residualsK(of: TemperatureIn, season: Float64Array): { readonly kelvin: Float64Array; readonly unit: Float64Array } {
  const own = MONTH_DAYS.map((days, m) => {
    const from = FIRST_OF_MONTH[m] as number
    return spread(season.subarray(from, from + days))
  })
  const wanted = of.spreadK.map((all, m) => {
    const trend = own[m] as number
    return Math.sqrt(Math.max(all * all - trend * trend, 0.16 * all * all))
  })
  const coupling = straightCurve(warmthWithSun(of.meanC))
  const drawnIn = straightCurve(byWarmth(of.meanC, DRAWN_IN_COLD, DRAWN_IN_WARM))
  const unit = new Float64Array(DAYS)
  for (let d = 0; d < DAYS; d++) {
    const r = coupling[d] as number
    const plain = Math.sqrt(1 - r * r) * (of.residuals.mean[d] as number) + r * (of.sun[d] as number)
    // A thaw holds winter's warm days down, where nothing holds its cold ones.
    const over = Math.max(0, plain - DRAWN_IN_FROM)
    unit[d] = plain - (drawnIn[d] as number) * over * over
  }
  // A month takes its own mean with it: what is left spreads less, by the share that days in a row have in common.
  const shared = (1 + MEAN_MEMORY) / (1 - MEAN_MEMORY) / 30
  const wide = straightCurve(wanted.map((one) => one / Math.sqrt(1 - shared)))
  const kelvin = unit.map((x, d) => x * (wide[d] as number))
  for (let round = 0; round < 4; round++) {
    const off = meanKeepingCurve(monthMeans(kelvin))
    for (let d = 0; d < DAYS; d++) kelvin[d] = (kelvin[d] as number) - (off[d] as number)
    if (!of.settled || round === 3) continue
    const scale = straightCurve(
      MONTH_DAYS.map((days, m) => {
        const from = FIRST_OF_MONTH[m] as number
        const is = spread(kelvin.subarray(from, from + days))
        return Math.min(2, Math.max(0.5, is > 0 ? (wanted[m] as number) / is : 1))
      }),
    )
    for (let d = 0; d < DAYS; d++) kelvin[d] = (kelvin[d] as number) * (scale[d] as number)
  }
  const plain = straightCurve(wanted)
  return { kelvin, unit: kelvin.map((k, d) => k / (plain[d] as number)) }
}

/**
 * The air through the year. Days: the curve of the normals and a residual. Hours: a line through the days' means, straight from noon to noon, that keeps
 * them, and the shape of a day times the day's swing; the swing goes over from one day to the next between the highest and the lowest, so
 * that midnight has no step. Swings are scaled month by month until the mean of (highest less lowest of the day) is the one given, the means until they are.
 */
export function temperature(of: TemperatureIn): Temperature {
  const season = meanKeepingCurve(of.meanC)
  const { kelvin, unit } = residualsK(of, season)
  const mean = season.map((s, d) => s + (kelvin[d] as number))

  const normal = meanKeepingCurve(of.rangeK)
  const rangeK = new Float64Array(DAYS)
  const slope = straightCurve(byWarmth(of.meanC, RANGE_SLOPE_COLD, RANGE_SLOPE_WARM))
  const scatter = straightCurve(byWarmth(of.meanC, SCATTER_COLD, SCATTER_WARM))
  for (let d = 0; d < DAYS; d++) {
    const factor =
      1 +
      (slope[d] as number) * ((of.clearnessRatio[d] as number) - 1) +
      (scatter[d] as number) * (of.residuals.range[d] as number)
    const of0 = Math.max(0.1, normal[d] as number)
    rangeK[d] = Math.min(MOST_RANGE * of0, Math.max(Math.min(LEAST_RANGE_K, of0), factor * of0))
  }

  const shape = dayShape(of.sundialH, of.daylightH)
  const airC = new Float64Array(HOURS)
  const scale = Array<number>(12).fill(1)
  const bent = () => (of.hotC === null ? undefined : bendHottest(airC, of, of.hotC))
  for (let round = 0; round < 5; round++) {
    fillHours(airC, noonNodes(mean), rangeK, scale, shape)
    bent()
    const off = meanKeepingCurve(monthMeans(airC).map((is, m) => (of.meanC[m] as number) - is))
    for (let d = 0; d < DAYS; d++) mean[d] = (mean[d] as number) + (off[d] as number)
    if (round === 4) break
    const is = monthMeans(dailyRangeK(airC))
    for (let m = 0; m < 12; m++)
      scale[m] = Math.min(3, Math.max(0, (scale[m] as number) * (1 + 1.3 * ((of.rangeK[m] as number) / (is[m] as number) - 1))))
  }
  fillHours(airC, noonNodes(mean), rangeK, scale, shape)
  bent()
  return { airC, dailyMeanC: mean, residualK: kelvin, residual: unit, seasonC: season }
}

/** Share of hours above the design heat of a place. */
const HOT_SHARE = 0.004
/** However low a design heat is told, hot hours keep this much of what they stand over the mean afternoon. */
const LEAST_BEND = 0.2

/**
 * Where more than 0.4 % of the hours are hotter than the design heat of the place, what stands over the mean afternoon of its hottest month is drawn in until
 * they are not. The cold end is never drawn in: too cold errs on the side of frost.
 */
function bendHottest(airC: Float64Array, of: Pick<TemperatureIn, 'meanC' | 'rangeK'>, hotC: number): void {
  const afternoon = Math.max(...of.meanC.map((mean, m) => mean + (of.rangeK[m] as number) / 2))
  const over = airC.filter((t) => t > afternoon).sort()
  const nth = over.length - Math.round(HOT_SHARE * HOURS)
  const is = over[nth]
  if (is === undefined || is <= hotC) return
  const bend = Math.max(LEAST_BEND, (hotC - afternoon) / (is - afternoon))
  for (let h = 0; h < HOURS; h++) {
    const t = airC[h] as number
    if (t > afternoon) airC[h] = afternoon + (t - afternoon) * bend
  }
}

/** Shape of the days at the middle of their 24 hours by the clock, its swing made 1 and its mean 0; and how much broader each day's is. */
interface DayShape {
  readonly plain: Float64Array
  readonly broad: Float64Array
  readonly byDay: Float64Array
}

/**
 * The published shape is that of a mean month: in long days the warm part is broader, in short ones narrower. With u the shape from 0 to 1:
 * u + a·u·(1 − u), a = 0.13 for each hour of daylight over twelve. Lowest, highest and their hours stay.
 */
function dayShape(sundialH: number, daylightH: Float64Array): DayShape {
  const shape = Float64Array.from({ length: 24 }, (_, h) => meanDayShape(h + 0.5 + sundialH))
  const low = Math.min(...shape)
  const swing = Math.max(...shape) - low
  const u = shape.map((s) => (s - low) / swing)
  const centred = (of: Float64Array) => {
    const mean = of.reduce((a, b) => a + b, 0) / 24
    return of.map((v) => v - mean)
  }
  return {
    plain: centred(u),
    broad: centred(u.map((v) => v * (1 - v))),
    byDay: daylightH.map((h) => Math.min(BROADEST, Math.max(-BROADEST, BROADER_PER_H * (h - 12)))),
  }
}

/** Values at noon whose straight line has the days' means: an eighth, three quarters, an eighth. */
function noonNodes(mean: Float64Array): Float64Array {
  const node = Float64Array.from(mean)
  const next = new Float64Array(DAYS)
  for (let round = 0; round < 24; round++) {
    for (let d = 0; d < DAYS; d++) {
      const [a, b, c] = [node[(d + DAYS - 1) % DAYS] as number, node[d] as number, node[(d + 1) % DAYS] as number]
      next[d] = b + (mean[d] as number) - (a + 6 * b + c) / 8
    }
    node.set(next)
  }
  return node
}

/** Hours of the highest and the lowest, between which the swing of one day gives way to that of the next. */
const HIGHEST_H = 15
const LOWEST_H = 6

function fillHours(out: Float64Array, node: Float64Array, rangeK: Float64Array, scale: readonly number[], shape: DayShape): void {
  for (let d = 0; d < DAYS; d++) {
    const [before, after] = [(d + DAYS - 1) % DAYS, (d + 1) % DAYS]
    const swing = (day: number) => (rangeK[day] as number) * (scale[MONTH_OF_DAY[day] as number] as number)
    const [s0, s1, s2] = [swing(before), swing(d), swing(after)]
    const broader = shape.byDay[d] as number
    const [n0, n1, n2] = [node[before] as number, node[d] as number, node[after] as number]
    for (let h = 0; h < 24; h++) {
      const at = h + 0.5
      const line = at < 12 ? n0 + ((n1 - n0) * (at + 12)) / 24 : n1 + ((n2 - n1) * (at - 12)) / 24
      const s =
        at < LOWEST_H
          ? s0 + ((s1 - s0) * (at + 24 - HIGHEST_H)) / (24 - HIGHEST_H + LOWEST_H)
          : at > HIGHEST_H
            ? s1 + ((s2 - s1) * (at - HIGHEST_H)) / (24 - HIGHEST_H + LOWEST_H)
            : s1
      out[24 * d + h] = line + s * ((shape.plain[h] as number) + broader * (shape.broad[h] as number))
    }
  }
}

/** Highest less lowest hour of each day. */
export function dailyRangeK(airC: Float64Array): Float64Array {
  const out = new Float64Array(airC.length / 24)
  for (let d = 0; d < out.length; d++) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
    for (let h = 24 * d; h < 24 * d + 24; h++) {
      const t = airC[h] as number
      if (t < low) low = t
      if (t > high) high = t
    }
    out[d] = high - low
  }
  return out
}

function spread(values: Float64Array): number {
  let mean = 0
  for (const v of values) mean += v / values.length
  let square = 0
  for (const v of values) square += (v - mean) * (v - mean)
  return Math.sqrt(square / (values.length - 1))
}
