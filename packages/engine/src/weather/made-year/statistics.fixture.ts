import { dewC, saturationOverLiquidPa } from '../saturation.ts'
import { fillSunPath, newSunPath } from '../sun-path.ts'
import type { WeatherHours, WeatherPlace } from '../types.ts'
import { outsideByDayKWhPerM2 } from './hourly-light.ts'
import { DAYS, HOURS, MONTH_OF_DAY, monthMeans } from './months.ts'
import { dailyRangeK } from './temperature.ts'

/** The columns that are compared, 8760 hours by the calendar. NaN: the file has none. */
export interface Hours {
  readonly airC: Float64Array
  readonly vapourPa: Float64Array
  readonly windMPerS: Float64Array
  readonly globalWPerM2: Float64Array | null
}

export const hoursOf = (run: WeatherHours): Hours => ({
  airC: run.columns.airC!,
  vapourPa: run.columns.vapourPa!,
  windMPerS: run.columns.windMPerS!,
  globalWPerM2: run.columns.globalWPerM2,
})

export const relativeFrac = (of: Hours): Float64Array => of.airC.map((t, h) => of.vapourPa[h]! / saturationOverLiquidPa(t))

export function dailyMeans(values: Float64Array): Float64Array {
  const out = new Float64Array(DAYS)
  for (let h = 0; h < HOURS; h++) out[Math.floor(h / 24)]! += values[h]! / 24
  return out
}

/** Daily means less the mean of their month. */
export function inMonth(values: Float64Array): Float64Array {
  const day = dailyMeans(values)
  const mean = monthMeans(day)
  return day.map((v, d) => v - mean[MONTH_OF_DAY[d]!]!)
}

export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const n = a.length
  let [ma, mb, ab, aa, bb] = [0, 0, 0, 0, 0]
  for (let i = 0; i < n; i++) {
    ma += a[i]! / n
    mb += b[i]! / n
  }
  for (let i = 0; i < n; i++) {
    ab += (a[i]! - ma) * (b[i]! - mb)
    aa += (a[i]! - ma) ** 2
    bb += (b[i]! - mb) ** 2
  }
  return ab / Math.sqrt(aa * bb)
}

export const lagOne = (values: Float64Array): number => correlation(values.subarray(1), values.subarray(0, values.length - 1))

/** Largest distance between two distributions (Kolmogorov and Smirnov). */
export function distance(a: readonly number[], b: readonly number[]): number {
  const x = [...a].sort((p, q) => p - q)
  const y = [...b].sort((p, q) => p - q)
  let [i, j, most] = [0, 0, 0]
  while (i < x.length && j < y.length) {
    if (x[i]! <= y[j]!) i++
    else j++
    most = Math.max(most, Math.abs(i / x.length - j / y.length))
  }
  return most
}

/** Light outside the air on the level, each day. */
export function outsideKWhPerM2(place: WeatherPlace): Float64Array {
  const path = newSunPath(HOURS)
  fillSunPath(path, { place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
  return outsideByDayKWhPerM2(path)
}

/** Clearness of the days on which more than 0.3 kWh/m2 arrive outside the air. */
export function clearnessOfDays(global: Float64Array, outside: Float64Array): number[] {
  const day = dailyMeans(global)
  return [...day].map((w, d) => (w * 0.024) / outside[d]!).filter((_, d) => outside[d]! > 0.3)
}

export interface Statistics {
  readonly over30: number
  readonly under20: number
  readonly under0: number
  readonly lag: number
  readonly wet: number
  readonly clearness: readonly number[] | null
}

export function statistics(of: Hours, place: WeatherPlace): Statistics {
  const rh = relativeFrac(of)
  const count = (yes: (h: number) => boolean) => of.airC.reduce((sum, _, h) => sum + (yes(h) ? 1 : 0), 0)
  return {
    over30: count((h) => of.airC[h]! > 30),
    under20: count((h) => of.airC[h]! < -20),
    under0: count((h) => of.airC[h]! < 0),
    lag: lagOne(inMonth(of.airC)),
    wet: count((h) => rh[h]! > 0.8 && of.airC[h]! > 0),
    clearness: of.globalWPerM2 === null ? null : clearnessOfDays(of.globalWPerM2, outsideKWhPerM2(place)),
  }
}

/** Spread of the daily means in each month. */
export function spreadOfMonths(of: Hours): number[] {
  const off = inMonth(of.airC)
  return monthMeans(off.map((v) => v * v)).map(Math.sqrt)
}

export const rangeOfMonths = (of: Hours): number[] => monthMeans(dailyRangeK(of.airC))

/** Lengths of the runs of days that lie more than a spread of their month under its mean, or over it. */
export function spellsD(of: Hours, side: 'cold' | 'warm'): number[] {
  const spread = spreadOfMonths(of)
  const sign = side === 'cold' ? -1 : 1
  const out: number[] = []
  let days = 0
  for (const [d, off] of [...inMonth(of.airC), Number.NaN].entries()) {
    if (sign * off > spread[MONTH_OF_DAY[d] ?? 0]!) days++
    else if (days > 0) {
      out.push(days)
      days = 0
    }
  }
  return out
}

/** Middle of the days' difference between their highest and lowest dew point. */
export function dewSwingK(of: Hours): number {
  const dew = of.vapourPa.map(dewC)
  const swings = [...dailyRangeK(dew)].sort((a, b) => a - b)
  return swings[Math.floor(swings.length / 2)]!
}
