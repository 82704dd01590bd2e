import { saturationPaFast } from '../../weather/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { highestDayMean } from './hours.ts'

/** Humidity of the air at the gear. */
export interface GearHumidity {
  /** Highest mean of 24 h in a row, and the hour it begins at. */
  readonly dayMeanPct: number
  readonly dayMeanAtH: number
  /** Highest mean of a month. */
  readonly monthMeanPct: number
}

/** Relative humidity at the gear in each hour: the room's; in a cabinet that is heated the room's water at the cabinet's temperature. */
export function relativeAtGear(model: BoxModel, run: YearRun): Float64Array {
  if (model.heater?.at !== 'cabinet') return run.series.relativeFrac
  const { gearC, vapourPa } = run.series
  return vapourPa.map((pa, h) => Math.min(1, pa / saturationPaFast(gearC[h] as number)))
}

/** Its means; `months`: month of each hour. */
export function humidityAtGear(model: BoxModel, run: YearRun, months: Uint8Array): GearHumidity {
  const relative = relativeAtGear(model, run)
  const day = highestDayMean(relative)
  const sums = new Float64Array(12)
  const counts = new Float64Array(12)
  for (let h = 0; h < run.hoursCount; h += 1) {
    sums[months[h] as number]! += relative[h] as number
    counts[months[h] as number]! += 1
  }
  let month = 0
  for (let m = 0; m < 12; m += 1) if ((counts[m] as number) > 0) month = Math.max(month, sums[m]! / counts[m]!)
  return { dayMeanPct: day.value * 100, dayMeanAtH: day.atH, monthMeanPct: month * 100 }
}
