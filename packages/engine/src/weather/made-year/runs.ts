import { PHYSICS } from '../constants.ts'
import { pressureAtPa } from '../moist-air.ts'
import { saturationOverLiquidPa, saturationPa } from '../saturation.ts'
import { numberIn, rowsOf } from '../shelf.ts'
import { fillSunPath, newSunPath } from '../sun-path.ts'
import type { ColumnOrigin, WeatherColumn, WeatherHours } from '../types.ts'
import type { Climate } from './climate.ts'
import { amount } from './figures.ts'
import { clearSkyWPerM2, fillSplit } from './hourly-light.ts'
import { monthlyDewC } from './humidity.ts'
import { FIRST_OF_MONTH } from './months.ts'
import { meanDayShape } from './temperature.ts'

export const RUNS = ['cold spell', 'first warm wind', 'hot week', 'foggy fortnight', 'clear calm nights'] as const
export type RunName = (typeof RUNS)[number]

/** A short run of hours of its own, set for a limit and never counted into a year. */
export interface DesignRun {
  readonly name: RunName
  readonly title: string
  /** What the run is, in a sentence with its figures. */
  readonly said: string
  readonly hours: WeatherHours
  /** Hours at the beginning that lead in and are not judged. */
  readonly leadInH: number
}

/** Weather of one hour of a run. `sky`: share of the light of a cloudless sky, or of what arrives outside the air. */
interface Moment {
  readonly airC: number
  readonly vapourPa: number
  readonly windMPerS: number
  readonly cloudFrac: number
  readonly light: { readonly ofClearSky: number } | { readonly ofOutside: number }
}

const LEAD_IN_D = 3
const run = {
  coldDays: amount('cold spell, days'),
  coldRangeK: amount('cold spell, range'),
  coldWind: amount('cold spell, wind'),
  riseK: amount('warm wind, rise'),
  riseH: amount('warm wind, hours of the rise'),
  lastsH: amount('warm wind, hours in all'),
  warmUnderK: amount('warm wind, dew point under the air'),
  hotDays: amount('hot week, days'),
  hotWind: amount('hot week, wind'),
  fogDays: amount('foggy fortnight, days'),
  fogC: amount('foggy fortnight, air'),
  fogFrac: amount('foggy fortnight, humidity') / 100,
  fogWind: amount('foggy fortnight, wind'),
  nights: amount('clear calm nights, days'),
  nightWind: amount('clear calm nights, wind'),
  nightRange: amount('clear calm nights, range'),
  coveredLight: amount('light under full cover'),
}

/**
 * The runs beside the design year: the cold spell of the place, the first warm wind after it, the hot week, a foggy fortnight, clear calm nights.
 * Set by rule from the climate's months and its design temperatures. Common practice (table `made-year-figures`).
 */
export const designRuns = (climate: Climate): readonly DesignRun[] => [
  coldSpell(climate),
  warmWind(climate),
  hotWeek(climate),
  fog(climate),
  calmNights(climate),
]

const extreme = (values: readonly number[], sign: 1 | -1): number =>
  values.reduce((best, v, m) => (sign * v > sign * (values[best] as number) ? m : best), 0)

/** Months in which the air grows colder: after the warmest up to the coldest. In months all alike: all. */
function fallingMonths(meanC: readonly number[]): number[] {
  const [hot, cold] = [extreme(meanC, 1), extreme(meanC, -1)]
  const out: number[] = []
  for (let m = (hot + 1) % 12; ; m = (m + 1) % 12) {
    out.push(m)
    if (m === cold) return out
  }
}

const nearestTo = (wantedC: number, meanC: readonly number[], months: readonly number[]): number =>
  months.reduce((best, m) => (Math.abs((meanC[m] as number) - wantedC) < Math.abs((meanC[best] as number) - wantedC) ? m : best))

const PLAIN = rowsOf('clear-day-shape').map((row) => numberIn(row, 'below_max'))

/** Share of the range under the highest, at a time of the sundial, straight between the printed hours. */
function belowHighest(hourH: number): number {
  const h = (((hourH - 1) % 24) + 24) % 24
  const i = Math.floor(h)
  const [a, b] = [PLAIN[i] as number, PLAIN[(i + 1) % 24] as number]
  return a + (b - a) * (h - i)
}

/** Held under saturation: over liquid above freezing, over ice below. */
const held = (vapourPa: number, airC: number): number => Math.min(vapourPa, saturationPa(airC))

/** A mean day of a month: what leads in. */
function meanDay(climate: Climate, month: number): (hourH: number) => Moment {
  const mean = climate.meanC[month] as number
  const range = climate.rangeK[month] as number
  const dew = monthlyDewC(climate.humidity, climate.meanC)[month] as number
  return (hourH) => {
    const airC = mean + range * meanDayShape(hourH)
    return {
      airC,
      vapourPa: held(saturationOverLiquidPa(dew), airC),
      windMPerS: climate.windMPerS[month] as number,
      cloudFrac: 0.5,
      light: { ofOutside: climate.clearnessFrac[month] as number },
    }
  }
}

function coldHours(climate: Climate): (hourH: number) => Moment {
  const low = climate.coldC - run.coldRangeK / 2
  return (hourH) => ({
    airC: low + run.coldRangeK * (1 - belowHighest(hourH)),
    // The coldest hour is saturated; the rest of the day holds the same water.
    vapourPa: saturationPa(low),
    windMPerS: run.coldWind,
    cloudFrac: 0,
    light: { ofClearSky: 1 },
  })
}

function coldSpell(climate: Climate): DesignRun {
  const month = extreme(climate.meanC, -1)
  return made(climate, month, 'cold spell', 'design cold spell', {
    said: `${run.coldDays} clear days about ${climate.coldC.toFixed(1)} °C, range ${run.coldRangeK} K, wind ${run.coldWind} m/s, saturated in the coldest hour`,
    lead: meanDay(climate, month),
    leadD: LEAD_IN_D,
    hours: 24 * run.coldDays,
    at: () => coldHours(climate),
  })
}

function warmWind(climate: Climate): DesignRun {
  const month = extreme(climate.meanC, -1)
  const cold = coldHours(climate)
  // In warm places the month has no air that much warmer.
  const most = (climate.meanC[month] as number) + (climate.rangeK[month] as number) / 2
  return made(climate, month, 'first warm wind', 'first warm wind after cold', {
    said: `after ${run.coldDays} days of the cold spell ${run.riseK} K warmer within ${run.riseH} h, no warmer than the month’s afternoons, overcast, dew point ${run.warmUnderK} K under the air: the worst for frost that thaws and for dew on cold gear`,
    lead: cold,
    leadD: run.coldDays,
    hours: run.lastsH,
    blend: false,
    at: (midnightH) => (_hourH, sinceH) => {
      const begin = cold(midnightH).airC
      const airC = Math.max(begin, Math.min(most, begin + run.riseK * Math.min(1, sinceH / run.riseH)))
      const dew = airC - run.warmUnderK
      return {
        airC,
        vapourPa: held(saturationOverLiquidPa(dew), airC),
        windMPerS: climate.windMPerS[month] as number,
        cloudFrac: 1,
        light: { ofClearSky: run.coveredLight },
      }
    },
  })
}

function hotWeek(climate: Climate): DesignRun {
  const highest = climate.meanC.map((mean, m) => mean + (climate.rangeK[m] as number) / 2)
  const month = extreme(highest, 1)
  const range = climate.rangeK[month] as number
  const dewPa = saturationOverLiquidPa(monthlyDewC(climate.humidity, climate.meanC)[month] as number)
  return made(climate, month, 'hot week', 'hot week', {
    said: `${run.hotDays} clear days up to ${climate.hotC.toFixed(1)} °C, range ${range.toFixed(1)} K, wind ${run.hotWind} m/s, dew point of the month`,
    lead: meanDay(climate, month),
    leadD: LEAD_IN_D,
    hours: 24 * run.hotDays,
    at: () => (hourH) => {
      const airC = climate.hotC - range * belowHighest(hourH)
      return { airC, vapourPa: held(dewPa, airC), windMPerS: run.hotWind, cloudFrac: 0, light: { ofClearSky: 1 } }
    },
  })
}

function fog(climate: Climate): DesignRun {
  const coldest = Math.min(...climate.meanC)
  const airC = Math.max(run.fogC, coldest)
  const month = nearestTo(airC, climate.meanC, fallingMonths(climate.meanC))
  return made(climate, month, 'foggy fortnight', 'foggy fortnight', {
    said: `${run.fogDays} days at ${airC.toFixed(1)} °C, ${Math.round(100 * run.fogFrac)} % humidity, overcast, wind ${run.fogWind} m/s${airC > run.fogC ? '; as warm as the coldest month, for it is never colder here' : ''}`,
    lead: meanDay(climate, month),
    leadD: LEAD_IN_D,
    hours: 24 * run.fogDays,
    at: () => () => ({
      airC,
      vapourPa: run.fogFrac * saturationOverLiquidPa(airC),
      windMPerS: run.fogWind,
      cloudFrac: 1,
      light: { ofClearSky: run.coveredLight },
    }),
  })
}

function calmNights(climate: Climate): DesignRun {
  const month = nearestTo(0, climate.meanC, fallingMonths(climate.meanC))
  const mean = climate.meanC[month] as number
  const range = run.nightRange * (climate.rangeK[month] as number)
  // The printed shape has its mean a little under the middle of the range.
  const highest = mean + range * (PLAIN.reduce((a, b) => a + b, 0) / PLAIN.length)
  return made(climate, month, 'clear calm nights', 'clear calm nights', {
    said: `${run.nights} clear days and nights about ${mean.toFixed(1)} °C, the mean of the month, range ${range.toFixed(1)} K, wind ${run.nightWind} m/s, saturated before dawn`,
    lead: meanDay(climate, month),
    leadD: LEAD_IN_D,
    hours: 24 * run.nights,
    at: () => (hourH) => ({
      airC: highest - range * belowHighest(hourH),
      vapourPa: saturationPa(highest - range),
      windMPerS: run.nightWind,
      cloudFrac: 0,
      light: { ofClearSky: 1 },
    }),
  })
}

interface Plan {
  readonly said: string
  readonly lead: (hourH: number) => Moment
  readonly leadD: number
  readonly hours: number
  /** False: the run begins where the lead-in ends, without a transition before it. */
  readonly blend?: boolean
  /** `midnightH`: time of the sundial at midnight by the clock. */
  readonly at: (midnightH: number) => (hourH: number, sinceH: number) => Moment
}

/** The lead-in goes over into the run within its last half day. */
const BLEND_H = 12

function made(climate: Climate, month: number, name: RunName, title: string, plan: Plan): DesignRun {
  const leadInH = 24 * plan.leadD
  const count = leadInH + plan.hours
  const { place } = climate
  const sundialH = (place.longitudeDeg - 15 * place.utcOffsetH) / 15
  const firstDay = (FIRST_OF_MONTH[month] as number) + 10
  const path = newSunPath(count)
  fillSunPath(path, { place, year: null, firstDay, firstHour: 0, stepH: 1 })
  const column = () => new Float64Array(count)
  const [airC, vapourPa, windMPerS, cloudFrac] = [column(), column(), column(), column()]
  const light = { globalWPerM2: column(), beamWPerM2: column(), diffuseWPerM2: column() }
  const at = plan.at(sundialH)
  for (let h = 0; h < count; h++) {
    const hourH = (((h + 0.5 + sundialH) % 24) + 24) % 24
    const since = h + 0.5 - leadInH
    const share = since >= 0 ? 1 : plan.blend === false ? 0 : Math.max(0, 1 + since / BLEND_H)
    const before = plan.lead(hourH)
    const then = share > 0 ? at(hourH, Math.max(0, since)) : before
    const mix = (a: number, b: number) => a + (b - a) * share
    airC[h] = mix(before.airC, then.airC)
    vapourPa[h] = held(mix(before.vapourPa, then.vapourPa), airC[h] as number)
    windMPerS[h] = mix(before.windMPerS, then.windMPerS)
    cloudFrac[h] = mix(before.cloudFrac, then.cloudFrac)
    const outside = PHYSICS.solarWPerM2 * (path.distanceRatio[h] as number) * (path.meanUpRatio[h] as number)
    const clear = Math.min(outside, clearSkyWPerM2(path.upRatio[h] as number) * (path.litFrac[h] as number))
    const of = (m: Moment) => ('ofClearSky' in m.light ? m.light.ofClearSky * clear : m.light.ofOutside * outside)
    light.globalWPerM2[h] = mix(of(before), of(then))
  }
  fillSplit(light, path)
  const standardPa = pressureAtPa(place.elevationM)
  const depth = climate.snowLies[month] === true ? amount('snow that lies') : 0
  const hours: WeatherHours = {
    place,
    firstDay,
    firstHour: 0,
    year: null,
    hoursCount: count,
    readingAtH: 0.5,
    columns: {
      airC,
      vapourPa,
      pressurePa: column().fill(standardPa),
      windMPerS,
      windFromDeg: climate.winterFromDeg === null ? null : column().fill(climate.winterFromDeg),
      cloudFrac,
      snowM: column().fill(depth),
      ...light,
      infraredWPerM2: null,
      rainMm: null,
    },
    origins: originsOf(title),
    lightSplit: true,
  }
  return { name, title, said: plan.said, hours, leadInH }
}

function originsOf(title: string): Partial<Record<WeatherColumn, ColumnOrigin>> {
  const set: ColumnOrigin = { from: 'generated', how: `set for the run “${title}”` }
  const split: ColumnOrigin = { from: 'worked out', how: 'split from the set global light by rule' }
  return {
    airC: set,
    vapourPa: set,
    pressurePa: { from: 'generated', how: 'standard air at the height of the site' },
    windMPerS: set,
    windFromDeg: set,
    cloudFrac: set,
    snowM: { from: 'generated', how: 'yes or no by month: 0.1 m stands for “lies”' },
    globalWPerM2: set,
    beamWPerM2: split,
    diffuseWPerM2: split,
  }
}
