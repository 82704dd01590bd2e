import { SIDES } from '../../job/index.ts'
import { dewOrFrostCFast } from '../../weather/index.ts'
import type { AirCounts, FaceWet } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import type { Dripped } from './drips.ts'
import { DAY_H, highestDayMean, least, most, sumOf } from './hours.ts'

const FACES = 6
/** A film thinner than this is neither seen nor felt: half a gram a square metre. House rule. */
export const SEEN_KG_PER_M2 = 5e-4
/** On gear a tenth of a gram counts. House rule. */
export const ON_GEAR_KG_PER_M2 = 1e-4
/** A heater that gives this share of its power is at full power. */
const FULL_FRAC = 0.98

/** Hours, grams, kilograms and kilowatt-hours of one run. */
export function countsOf(of: { readonly model: BoxModel; readonly run: YearRun; readonly dripped: Dripped }): AirCounts {
  const { model, run, dripped } = of
  const { series } = run
  const hottest = most(series.airC)
  const gearFilm = most(series.gearFilmKgPerM2)
  const day = highestDayMean(series.relativeFrac)
  return {
    hoursCount: run.hoursCount,
    ...{ airMostC: hottest.value, airLeastC: least(series.airC).value, airDayMeanC: highestDayMean(series.airC).value },
    faces: SIDES.map((_, side) => faceWet(run, side, (model.faces[side]?.bareFrac ?? 0) > 0)),
    ...anyOf(run),
    gearDewH: countAbove(series.gearFilmKgPerM2, ON_GEAR_KG_PER_M2),
    gearDewMostGPerM2: gearFilm.value * 1000,
    gearDewAtH: gearFilm.atH,
    gearLeastOverDewK: gearLeastOverDewK(run),
    relativeDayMeanPct: day.value * 100,
    relativeDayMeanAtH: day.atH,
    ...{ fellKg: dripped.fellKg, fellOnGearKg: dripped.onGearKg, fellOnHoodsKg: dripped.onHoodsKg },
    dripEventsCount: dripped.events.length,
    heaterKWh: run.heaterKWh,
    heaterFullH: model.heater === null ? 0 : countAbove(series.heaterWh, model.heater.powerW * FULL_FRAC),
    fanKWh: run.fanKWh,
  }
}

const countAbove = (values: Float64Array, limit: number): number => {
  let count = 0
  for (let h = 0; h < values.length; h += 1) if ((values[h] as number) > limit) count += 1
  return count
}

function anyOf(run: YearRun): { readonly anyWetH: number; readonly anyFrostH: number } {
  const { filmKgPerM2: film, frostKgPerM2: frost } = run.series
  let [wet, frosted] = [0, 0]
  for (let h = 0; h < run.hoursCount; h += 1) {
    let [w, f] = [false, false]
    for (let i = h * FACES; i < (h + 1) * FACES; i += 1) {
      w ||= (film[i] as number) - (frost[i] as number) > SEEN_KG_PER_M2
      f ||= (frost[i] as number) > SEEN_KG_PER_M2
    }
    if (w) wet += 1
    if (f) frosted += 1
  }
  return { anyWetH: wet, anyFrostH: frosted }
}

function faceWet(run: YearRun, side: number, bare: boolean): FaceWet {
  const { filmKgPerM2: film, frostKgPerM2: frost, fellKg, bareFilmKgPerM2 } = run.series
  let [wetH, frostH, mostKg, mostAtH, fell, nights, bareKg] = [0, 0, 0, 0, 0, 0, 0]
  let grewToday = false
  for (let h = 0; h < run.hoursCount; h += 1) {
    const i = h * FACES + side
    const all = film[i] as number
    const ice = frost[i] as number
    if (all - ice > SEEN_KG_PER_M2) wetH += 1
    if (ice > SEEN_KG_PER_M2) frostH += 1
    if (all > mostKg) [mostKg, mostAtH] = [all, h]
    if (bare) bareKg = Math.max(bareKg, bareFilmKgPerM2[i] as number)
    fell += fellKg[i] as number
    if (h > 0 && ice - (frost[i - FACES] as number) > SEEN_KG_PER_M2 / 5) grewToday = true
    // A night goes from noon to noon, as near as hours of a run tell: 24 h from its beginning.
    if (h % DAY_H === DAY_H / 2 || h === run.hoursCount - 1) {
      if (grewToday) nights += 1
      grewToday = false
    }
  }
  return {
    ...{
      side: SIDES[side]!,
      wetH,
      frostH,
      mostGPerM2: mostKg * 1000,
      mostAtH,
      bareMostGPerM2: bareKg * 1000,
      frostNightsCount: nights,
      fellKg: fell,
    },
  }
}

/** How near the gear came to the dew point: least of gear minus dew or frost point over all hours. */
function gearLeastOverDewK(run: YearRun): number {
  const { gearC, vapourPa } = run.series
  let leastK = Number.POSITIVE_INFINITY
  for (let h = 0; h < run.hoursCount; h += 1)
    leastK = Math.min(leastK, (gearC[h] as number) - dewOrFrostCFast(vapourPa[h] as number))
  return leastK
}

/** What the heater gave in the 24 h in which it gave most, W. */
export const heaterDayMeanW = (run: YearRun): { readonly value: number; readonly atH: number } =>
  highestDayMean(run.series.heaterWh)

export const inflowMeanKgPerH = (run: YearRun, fromH: number, toH: number): number =>
  sumOf(run.series.inflowKg.subarray(fromH, toH)) / Math.max(1, toH - fromH)
