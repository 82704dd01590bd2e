import { isLeapYear } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { HourSeries, YearRun } from '../year/types.ts'
import { DAY_H, keepsLeapDay, sumOf } from './hours.ts'

/** The hours of a record after so many that lead in. */
export function hoursAfter(of: WeatherHours, leadInH: number): WeatherHours {
  const beginsH = of.firstHour + leadInH
  const leap = keepsLeapDay(of)
  return {
    ...of,
    // A leap year without its 29 February is told as a year like any other: some of its hours alone would not show it.
    year: leap || of.year === null || !isLeapYear(of.year) ? of.year : null,
    firstDay: ((of.firstDay - 1 + Math.floor(beginsH / DAY_H)) % (leap ? 366 : 365)) + 1,
    firstHour: beginsH % DAY_H,
    hoursCount: of.hoursCount - leadInH,
    columns: Object.fromEntries(
      Object.entries(of.columns).map(([name, values]) => [name, values === null ? null : values.subarray(leadInH)]),
    ) as WeatherHours['columns'],
  }
}

/**
 * The same run with air that holds no more than it can: what the hours have above saturation hangs in it as fog, which no share of saturation
 * tells. Its vapour stays as it is.
 */
export const withoutFog = (of: YearRun): YearRun => ({
  ...of,
  series: { ...of.series, relativeFrac: of.series.relativeFrac.map((frac) => Math.min(1, frac)) },
})

/** A run after the same hours: what hangs and what is stored at their end is what it begins with. */
export function runAfter(of: YearRun, leadInH: number): YearRun {
  const series = Object.fromEntries(
    Object.entries(of.series).map(([name, values]) => {
      const each = (values as Float64Array).length / of.hoursCount
      return [name, (values as Float64Array).subarray(leadInH * each)]
    }),
  ) as unknown as HourSeries
  return summed(of, of.hoursCount - leadInH, series)
}

/** A run of fewer hours: its series, and what they sum to. */
export function summed(of: YearRun, hoursCount: number, series: HourSeries): YearRun {
  const kWh = (values: Float64Array) => sumOf(values) / 1000
  const faces = of.fellKg.length
  return {
    ...of,
    ...{ hoursCount, series },
    ...{ heaterKWh: kWh(series.heaterWh), fanKWh: kWh(series.fanWh), coolerKWh: kWh(series.coolerWh) },
    fellKg: of.fellKg.map((_, side) => series.fellKg.reduce((sum, kg, i) => (i % faces === side ? sum + kg : sum), 0)),
  }
}
