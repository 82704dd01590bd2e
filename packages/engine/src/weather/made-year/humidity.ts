import type { Months } from '../normals.ts'
import { dewC } from '../saturation.ts'
import { saturationPaFast } from '../saturation-fast.ts'
import type { Draws } from './draws.ts'
import { amount } from './figures.ts'
import { DAYS, HOURS, monthMeans, straightCurve } from './months.ts'
import { saturationOverLiquidPaFast } from './saturation-liquid.ts'
import type { Temperature } from './temperature.ts'

const WITH_SUN = amount('dryness with clearness')
const SCATTER = amount('dryness, scatter')
const MEMORY = amount('dryness, memory of a day')
const HOUR_MEMORY = amount('dryness, memory of an hour')
const HOUR_SCATTER = amount('dryness, scatter of hours')
const LEAST = amount('dryness, least')
const WITH_WARMTH = amount('dryness with temperature, dry places')
const MOIST_K = amount('dew point under the air, moist places')
const DRY_K = amount('dew point under the air, dry places')
const ROOM_K = amount('dew point, room under saturation')
const ICE_CAPS_C = amount('ice caps below')
const ICE_CAP = amount('ice cap')

/** What the months are to have: the mean of the hours' relative humidity, or the mean dew point (over liquid). */
export type Humidity =
  | { readonly is: 'relative'; readonly frac: Months; readonly over: 'liquid' | 'ice' }
  | { readonly is: 'dew point'; readonly dewC: Months }

export interface HumidityIn {
  readonly humidity: Humidity
  readonly meanC: Months
  readonly temperature: Temperature
  /** The day's clearness over the month's; 1 without sun. */
  readonly clearnessRatio: Float64Array
  readonly draws: Draws
}

/** Rough dew point of a month, where only its relative humidity is known: that of its mean temperature. */
const roughDewC = (frac: number, meanC: number): number => dewC(Math.max(0.02, frac) * saturationOverLiquidPaFast(meanC))

/** Monthly dew point to begin with, before the months' means are met. */
export const monthlyDewC = (humidity: Humidity, meanC: Months): number[] =>
  humidity.is === 'dew point' ? [...humidity.dewC] : humidity.frac.map((f, m) => roughDewC(f, meanC[m] as number))

/**
 * Vapour pressure of every hour. The dew point of a day stands under its mean temperature by what it does in the month, more on bright days and
 * less on dull ones, with a scatter of its own that remembers the day before; in dry places also more on warm days. Straight from noon to
 * noon, with a scatter from hour to hour beside it (fronts, showers, the drying of an afternoon), held under saturation (over liquid; a tenth above that over ice in deep cold) by a smooth bend. One factor a month, drawn straight from mid-month
 * to mid-month, brings the months to the mean that is given.
 */
export function fillVapour(out: Float64Array, of: HumidityIn): void {
  const { temperature, meanC } = of
  const { airC } = temperature
  const under = monthlyDewC(of.humidity, meanC).map((dew, m) => Math.max(0.3, (meanC[m] as number) - dew))
  const season = straightCurve(under)
  const warmth = straightCurve(under.map((k) => WITH_WARMTH * Math.min(1, Math.max(0, (k - MOIST_K) / (DRY_K - MOIST_K)))))
  const rest = Math.sqrt(1 - MEMORY * MEMORY)
  let own = of.draws.normal()
  const byDay = new Float64Array(DAYS)
  for (let d = 0; d < DAYS; d++) {
    own = MEMORY * own + rest * of.draws.normal()
    const ratio = 1 + WITH_SUN * ((of.clearnessRatio[d] as number) - 1) + SCATTER * own
    const k = (season[d] as number) * Math.max(LEAST, ratio) + (warmth[d] as number) * (temperature.residualK[d] as number)
    byDay[d] = Math.max(LEAST * (season[d] as number), k)
  }

  // Within the day: fronts, rain and the drying of the afternoon.
  const hourly = new Float64Array(HOURS)
  const hourRest = Math.sqrt(1 - HOUR_MEMORY * HOUR_MEMORY)
  let now = of.draws.normal()
  for (let h = 0; h < HOURS; h++) {
    now = HOUR_MEMORY * now + hourRest * of.draws.normal()
    hourly[h] = now * HOUR_SCATTER * (season[Math.floor(h / 24)] as number)
  }

  const full = new Float64Array(HOURS)
  const cap = new Float64Array(HOURS)
  const against = new Float64Array(HOURS)
  const overIce = of.humidity.is === 'relative' && of.humidity.over === 'ice'
  for (let h = 0; h < HOURS; h++) {
    const t = airC[h] as number
    full[h] = saturationOverLiquidPaFast(t)
    cap[h] = t < ICE_CAPS_C ? Math.min(full[h] as number, ICE_CAP * saturationPaFast(t)) : (full[h] as number)
    against[h] = overIce && t < 0 ? saturationPaFast(t) : (full[h] as number)
  }

  const factor = Array<number>(12).fill(1)
  const told = new Float64Array(HOURS)
  for (let round = 0; round < ROUNDS; round++) {
    fillHours(out, temperature.dailyMeanC, byDay, straightCurve(factor), airC, cap, hourly)
    if (round === ROUNDS - 1) break
    if (of.humidity.is === 'relative') for (let h = 0; h < HOURS; h++) told[h] = (out[h] as number) / (against[h] as number)
    else for (let h = 0; h < HOURS; h++) told[h] = dewC(out[h] as number)
    const is = monthMeans(told)
    for (let m = 0; m < 12; m++) {
      // How far the dew point has to come down, K: 6 % of the relative humidity for each.
      const downK =
        of.humidity.is === 'relative'
          ? ((is[m] as number) / (of.humidity.frac[m] as number) - 1) / 0.06
          : (is[m] as number) - (of.humidity.dewC[m] as number)
      const step = downK / (under[m] as number)
      factor[m] = Math.min(6, Math.max(-2, (factor[m] as number) + Math.min(0.5, Math.max(-0.5, step))))
    }
  }
}

/** Rounds to the monthly means: within 0.1 % of the relative humidity in all 44 places (tests). */
const ROUNDS = 14

function fillHours(
  out: Float64Array,
  dayC: Float64Array,
  underK: Float64Array,
  factor: Float64Array,
  airC: Float64Array,
  cap: Float64Array,
  hourly: Float64Array,
): void {
  const at = (d: number) => (dayC[d] as number) - (underK[d] as number) * (factor[d] as number)
  for (let d = 0; d < DAYS; d++) {
    const [n0, n1, n2] = [at((d + DAYS - 1) % DAYS), at(d), at((d + 1) % DAYS)]
    for (let h = 0; h < 24; h++) {
      const line = h < 12 ? n0 + ((n1 - n0) * (h + 12.5)) / 24 : n1 + ((n2 - n1) * (h - 11.5)) / 24
      const air = airC[24 * d + h] as number
      // What the dew point stands under the air by, kept above nothing.
      const under = air - line + (hourly[24 * d + h] as number)
      const kept = (under + Math.sqrt(under * under + ROOM_K * ROOM_K)) / 2
      out[24 * d + h] = Math.min(cap[24 * d + h] as number, saturationOverLiquidPaFast(Math.max(-95, air - kept)))
    }
  }
}
