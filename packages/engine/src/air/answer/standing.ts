import { inSeason, type YearSeason } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { HourSeries, YearRun } from '../year/types.ts'
import { clockAt, DAY_H } from './hours.ts'
import { summed } from './lead-in.ts'

/** When a box stands in the yard, and when anything is plugged in. Null: all year. */
export interface BoxTimes {
  readonly standing: YearSeason | null
  readonly season: YearSeason | null
}

/** Hours of a season, marked; null: all of them count, for there is none or none of it lies in these hours. */
export function seasonHours(weather: WeatherHours, season: YearSeason | null): Uint8Array | null {
  if (season === null) return null
  const marked = new Uint8Array(weather.hoursCount)
  for (let h = 0; h < marked.length; h += 1) {
    const { month, day } = clockAt(weather, h)
    marked[h] = inSeason(season, { month: month + 1, day }) ? 1 : 0
  }
  return marked.includes(1) ? marked : null
}

/**
 * Hours of a record in which a box stands there, from the day it comes on, over new year too. A 29 February is left out. Null: all of them;
 * empty: none.
 */
export function standingHours(weather: WeatherHours, standing: YearSeason | null): Int32Array | null {
  if (standing === null) return null
  const n = weather.hoursCount
  const marked = seasonHours(weather, standing)
  if (marked === null) return new Int32Array(0)
  const first = marked.findIndex((is, h) => is === 1 && marked[(h - 1 + n) % n] === 0)
  const from = Math.max(first, 0)
  const hours: number[] = []
  for (let k = 0; k < n; k += 1) {
    const h = (from + k) % n
    const { month, day } = clockAt(weather, h)
    if (marked[h] === 1 && !(month === 1 && day === 29)) hours.push(h)
  }
  return Int32Array.from(hours)
}

function picked(values: Float64Array, hours: Int32Array, each: number): Float64Array {
  const out = new Float64Array(hours.length * each)
  for (let k = 0; k < hours.length; k += 1) {
    const h = hours[k]! * each
    for (let i = 0; i < each; i += 1) out[k * each + i] = values[h + i]!
  }
  return out
}

const DAYS_BEFORE = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const

/** These hours of a record, as a record of their own. */
export function weatherIn(of: WeatherHours, hours: Int32Array): WeatherHours {
  const { month, day, hourH } = clockAt(of, hours[0] ?? 0)
  return {
    ...of,
    ...{ year: null, firstDay: DAYS_BEFORE[month]! + day, firstHour: Math.floor(hourH) % DAY_H, hoursCount: hours.length },
    columns: Object.fromEntries(
      Object.entries(of.columns).map(([name, values]) => [name, values === null ? null : picked(values, hours, 1)]),
    ) as WeatherHours['columns'],
  }
}

/** The same hours of a run. */
export function runIn(of: YearRun, hours: Int32Array): YearRun {
  const series = Object.fromEntries(
    Object.entries(of.series).map(([name, values]) => {
      const all = values as Float64Array
      return [name, picked(all, hours, all.length / of.hoursCount)]
    }),
  ) as unknown as HourSeries
  return summed(of, hours.length, series)
}
