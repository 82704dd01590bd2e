import type { Months } from '../normals.ts'
import { dewC } from '../saturation.ts'
import { saturationPaFast } from '../saturation-fast.ts'
import type { Draws } from './draws.ts'
import { amount } from './figures.ts'
import { DAYS, HOURS, MONTH_OF_DAY, meanKeepingCurve, monthMeans, straightCurve } from './months.ts'
import { saturationOverLiquidPaFast } from './saturation-liquid.ts'
import type { Temperature } from './temperature.ts'

const MOIST = amount('dew point with temperature, moist')
const DRY = amount('dew point with temperature, dry')
const MOIST_GAP_K = amount('gap of a moist place')
const DRY_GAP_K = amount('gap of a dry place')
const WITH_SUN_K = amount('dew point with clearness')
const MOIST_SCATTER_K = amount('dew point, scatter, moist')
const DRY_SCATTER_K = amount('dew point, scatter, dry')
const MEMORY = amount('dew point, memory of a day')
const OVER_LOWEST_K = amount('dew point over the lowest')
const ICE_CAPS_C = amount('ice caps below')

/** What the months are to have: the mean of the hours' relative humidity, or the mean dew point (over liquid). */
export type Humidity =
  | { readonly is: 'relative'; readonly frac: Months; readonly over: 'liquid' | 'ice' }
  | { readonly is: 'dew point'; readonly dewC: Months }

export interface HumidityIn {
  readonly humidity: Humidity
  readonly meanC: Months
  readonly rangeK: Months
  readonly temperature: Temperature
  /** The day's clearness less the month's; 0 without sun. */
  readonly clearnessOffFrac: Float64Array
  readonly snowLies: readonly boolean[]
  readonly draws: Draws
}

/** Rough dew point of a month, where only its relative humidity is known: that of its mean temperature. */
const roughDewC = (frac: number, meanC: number): number => dewC(Math.max(0.02, frac) * saturationOverLiquidPaFast(meanC))

/** Monthly dew point to begin with, before the months' means are met. */
export const monthlyDewC = (humidity: Humidity, meanC: Months): number[] =>
  humidity.is === 'dew point' ? [...humidity.dewC] : humidity.frac.map((f, m) => roughDewC(f, meanC[m] as number))

/**
 * Vapour pressure of every hour. The dew point of a day: that of the season, with a share of the day's residual of temperature, higher on dull days,
 * and a residual of its own. In moist places it goes with the temperature, in dry ones hardly. Straight from noon to noon, held
 * under saturation (over liquid; over ice in deep cold). One offset a month, drawn straight from mid-month to mid-month, until the months have the mean that is given.
 */
export function fillVapour(out: Float64Array, of: HumidityIn): void {
  const { temperature, meanC } = of
  const { airC } = temperature
  const season = monthlyDewC(of.humidity, meanC)
  const dryness = season.map((dew, m) => {
    const gap = (meanC[m] as number) - (of.rangeK[m] as number) / 2 - dew
    return Math.min(1, Math.max(0, (gap - MOIST_GAP_K) / (DRY_GAP_K - MOIST_GAP_K)))
  })
  const share = straightCurve(dryness.map((f) => MOIST + (DRY - MOIST) * f))
  const scatter = straightCurve(dryness.map((f) => MOIST_SCATTER_K + (DRY_SCATTER_K - MOIST_SCATTER_K) * f))
  const curve = meanKeepingCurve(season)
  const rest = Math.sqrt(1 - MEMORY * MEMORY)
  let own = of.draws.normal()
  const day = new Float64Array(DAYS)
  for (let d = 0; d < DAYS; d++) {
    own = MEMORY * own + rest * of.draws.normal()
    day[d] =
      (curve[d] as number) +
      (share[d] as number) * (temperature.residualK[d] as number) +
      WITH_SUN_K * (of.clearnessOffFrac[d] as number) +
      (scatter[d] as number) * own
  }
  const most = new Float64Array(DAYS).fill(Number.POSITIVE_INFINITY)
  for (let d = 0; d < DAYS; d++) {
    if (of.snowLies[MONTH_OF_DAY[d] as number] === true) continue
    most[d] = OVER_LOWEST_K + Math.min(...airC.subarray(24 * d, 24 * d + 24))
  }

  const full = new Float64Array(HOURS)
  const cap = new Float64Array(HOURS)
  const under = new Float64Array(HOURS)
  const overIce = of.humidity.is === 'relative' && of.humidity.over === 'ice'
  for (let h = 0; h < HOURS; h++) {
    const t = airC[h] as number
    full[h] = saturationOverLiquidPaFast(t)
    cap[h] = t < ICE_CAPS_C ? saturationPaFast(t) : (full[h] as number)
    under[h] = overIce && t < 0 ? saturationPaFast(t) : (full[h] as number)
  }

  const offset = Array<number>(12).fill(0)
  const told = new Float64Array(HOURS)
  for (let round = 0; round < 12; round++) {
    fillHours(out, day, straightCurve(offset), most, cap)
    if (round === 11) break
    if (of.humidity.is === 'relative') for (let h = 0; h < HOURS; h++) told[h] = (out[h] as number) / (under[h] as number)
    else for (let h = 0; h < HOURS; h++) told[h] = dewC(out[h] as number)
    const is = monthMeans(told)
    for (let m = 0; m < 12; m++) {
      const wanted = of.humidity.is === 'relative' ? (of.humidity.frac[m] as number) : (of.humidity.dewC[m] as number)
      const perK = of.humidity.is === 'relative' ? 0.06 * Math.max(0.05, is[m] as number) : 1
      const step = (wanted - (is[m] as number)) / perK
      offset[m] = Math.min(15, Math.max(-15, (offset[m] as number) + Math.min(4, Math.max(-4, step))))
    }
  }
}

function fillHours(out: Float64Array, day: Float64Array, offset: Float64Array, most: Float64Array, cap: Float64Array): void {
  const at = (d: number) => Math.max(-95, Math.min((day[d] as number) + (offset[d] as number), most[d] as number))
  for (let d = 0; d < DAYS; d++) {
    const [n0, n1, n2] = [at((d + DAYS - 1) % DAYS), at(d), at((d + 1) % DAYS)]
    for (let h = 0; h < 24; h++) {
      const line = h < 12 ? n0 + ((n1 - n0) * (h + 12.5)) / 24 : n1 + ((n2 - n1) * (h - 11.5)) / 24
      out[24 * d + h] = Math.min(cap[24 * d + h] as number, saturationOverLiquidPaFast(Math.min(line, 60)))
    }
  }
}
