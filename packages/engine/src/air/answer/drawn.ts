import { SIDES, type Side } from '../../job/index.ts'
import { dewOrFrostCFast, type WeatherHours } from '../../weather/index.ts'
import type { AirFaceHours, AirMap, AirSpell } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { openingFlows } from './flows.ts'
import { clockAt, DAY_H, faceOf, plain } from './hours.ts'

const TENTHS = 10
const HUNDREDTHS = 100
const THOUSANDTHS = 1000
const WEEK_H = 7 * DAY_H
const ROOF = SIDES.indexOf('roof')

/** One number an hour for the map of a run. */
export function mapOf({ series }: YearRun): AirMap {
  return {
    airC: plain(series.airC, TENTHS),
    gearC: plain(series.gearC, TENTHS),
    roofC: plain(faceOf(series.faceC, ROOF), TENTHS),
    relativePct: plain(series.relativeFrac, 1, 100),
    roofGPerM2: plain(faceOf(series.filmKgPerM2, ROOF), 1, 1000),
  }
}

/** A week with `atH` in its fourth day, kept within the run. */
export function weekAround(run: YearRun, atH: number): { readonly fromH: number; readonly toH: number } {
  const length = Math.min(WEEK_H, run.hoursCount)
  const fromH = Math.max(0, Math.min(run.hoursCount - length, Math.floor(atH / DAY_H - 3) * DAY_H))
  return { fromH, toH: fromH + length }
}

/** Every figure of the hours `fromH` to `toH` of a run, rounded for a drawing. */
export function spellOf(of: {
  readonly what: string
  readonly model: BoxModel
  readonly run: YearRun
  readonly weather: WeatherHours
  readonly fromH: number
  readonly toH: number
}): AirSpell {
  const { what, model, run, weather, fromH, toH } = of
  const { series } = run
  const column = (values: Float64Array | null, scale: number, factor = 1): readonly number[] =>
    values === null ? [] : plain(values, scale, factor, fromH, toH)
  const begins = clockAt(weather, fromH)
  return {
    ...{ what, fromH, hoursCount: toH - fromH },
    firstDay: weather.firstDay + Math.floor((weather.firstHour + fromH) / DAY_H),
    firstHour: begins.hourH,
    outsideC: column(weather.columns.airC, TENTHS),
    windMPerS: column(weather.columns.windMPerS, TENTHS),
    sunWPerM2: column(weather.columns.globalWPerM2, 1),
    cloudPct: column(weather.columns.cloudFrac, 1, 100),
    airC: column(series.airC, TENTHS),
    gearC: column(series.gearC, TENTHS),
    dewPointC: plain(
      series.vapourPa.subarray(fromH, toH).map((pa) => dewOrFrostCFast(pa)),
      TENTHS,
    ),
    relativePct: column(series.relativeFrac, 1, 100),
    gearFilmGPerM2: column(series.gearFilmKgPerM2, TENTHS, 1000),
    faces: Object.fromEntries(SIDES.map((side, i) => [side, faceHours(run, i, fromH, toH)])) as Record<Side, AirFaceHours>,
    inflowKgPerH: column(series.inflowKg, TENTHS),
    openings:
      series.openingM3S === undefined
        ? openingFlows({ model, run, weather, fromH, toH })
        : model.openings.map(({ id }, i) => ({
            id,
            flowM3S: ofOpening(series.openingM3S!, i, model.openings.length, fromH, toH),
          })),
    heaterWh: column(series.heaterWh, 1),
    fanWh: column(series.fanWh, TENTHS),
  }
}

function faceHours({ series }: YearRun, side: number, fromH: number, toH: number): AirFaceHours {
  const own = (values: Float64Array, scale: number, factor = 1): readonly number[] =>
    plain(faceOf(values.subarray(fromH * 6, toH * 6), side), scale, factor)
  return {
    insideC: own(series.faceC, TENTHS),
    outsideC: own(series.outsideFaceC, TENTHS),
    filmGPerM2: own(series.filmKgPerM2, TENTHS, 1000),
    frostGPerM2: own(series.frostKgPerM2, TENTHS, 1000),
    fellG: own(series.fellKg, 1, 1000),
  }
}

function ofOpening(flow: Float64Array, nth: number, count: number, fromH: number, toH: number): readonly number[] {
  const own = new Float64Array(toH - fromH)
  for (let h = fromH; h < toH; h += 1) own[h - fromH] = flow[h * count + nth] as number
  return plain(own, THOUSANDTHS * HUNDREDTHS)
}
