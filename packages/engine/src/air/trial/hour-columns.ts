import { SIDES } from '../../job/index.ts'
import { dewOrFrostC, type WeatherHours } from '../../weather/index.ts'
import type { YearRun } from '../year/types.ts'

/** One column of an hourly result: heading with its unit, and the value of an hour as it is printed. */
export interface HourColumn {
  readonly head: string
  readonly at: (hour: number) => string
}

const FACES = 6

/**
 * Columns of the hourly result, in order. Temperatures, humidity and films are readings at the end of the hour; what fell, was drawn in or
 * used is a sum over it; sun is a mean over it. Outside readings are those of the weather’s own moment.
 */
export function hourColumns(run: YearRun, weather: WeatherHours): readonly HourColumn[] {
  const { series } = run
  const plain = (head: string, values: Float64Array | null, digits: number, by = 1): HourColumn => ({
    head,
    at: (h) => {
      const value = values === null ? Number.NaN : (values[h] as number) * by
      return Number.isNaN(value) ? '' : minus(value.toFixed(digits))
    },
  })
  const bySide = (head: (side: string) => string, values: Float64Array, digits: number, by = 1): readonly HourColumn[] =>
    SIDES.map((side, s) => ({ head: head(side), at: (h) => minus(((values[h * FACES + s] as number) * by).toFixed(digits)) }))
  const { airC, vapourPa, windMPerS, globalWPerM2 } = weather.columns
  return [
    plain('outside air (C)', airC, 2),
    plain('outside vapour (Pa)', vapourPa, 1),
    plain('wind (m/s)', windMPerS, 2),
    plain('sun on the level (W/m2)', globalWPerM2, 1),
    plain('air (C)', series.airC, 3),
    plain('humidity (%)', series.relativeFrac, 2, 100),
    plain('vapour (Pa)', series.vapourPa, 2),
    { head: 'dew or frost point (C)', at: (h) => minus(dewOrFrostC(series.vapourPa[h] as number).toFixed(3)) },
    plain('gear (C)', series.gearC, 3),
    ...bySide((side) => `${side} inside (C)`, series.faceC, 3),
    ...bySide((side) => `${side} outside (C)`, series.outsideFaceC, 3),
    ...bySide((side) => `${side} water and frost (g/m2)`, series.filmKgPerM2, 3, 1000),
    ...bySide((side) => `${side} frost (g/m2)`, series.frostKgPerM2, 3, 1000),
    ...bySide((side) => `${side} fell (g)`, series.fellKg, 3, 1000),
    plain('fell on gear (g)', series.fellOnGearKg, 3, 1000),
    plain('gear water and frost (g/m2)', series.gearFilmKgPerM2, 3, 1000),
    plain('floor water (kg)', series.floorWaterKg, 4),
    plain('outside air drawn in (kg)', series.inflowKg, 3),
    plain('heater (Wh)', series.heaterWh, 2),
    plain('fan (Wh)', series.fanWh, 2),
    plain('gear heat (Wh)', series.gearHeatWh, 2),
  ]
}

/** No minus before what is printed as nothing. */
const minus = (text: string): string => (/^-0\.?0*$/.test(text) ? text.slice(1) : text)
