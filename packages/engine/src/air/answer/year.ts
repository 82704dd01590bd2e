import { type FitDesign, SIDES, type YearSeason } from '../../job/index.ts'
import type { Row } from '../../kernel/index.ts'
import { RUNS, saturationPaFast, type WeatherHours } from '../../weather/index.ts'
import type { AirCounts, AirEnd, AirShort, AirYear, ShortRun, SteelLoss, Wetness } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { humidityAtGear } from './at-gear.ts'
import { countsOf } from './counts.ts'
import { mapOf, spellOf, weekAround } from './drawn.ts'
import { dripped, toldEvents } from './drips.ts'
import { type AirInRun, airAtGear, breakerHoldsFrac, type GearPart, gearHours, hottestLoaded } from './gear.ts'
import { mouldOver, steelLoss, wetness } from './harm.ts'
import { faceOf, highestDayMean, monthsOf, most } from './hours.ts'
import { hoursAfter, runAfter, withoutFog } from './lead-in.ts'
import { hottestHour, worstNight } from './moments.ts'
import { monthsOfYear } from './months.ts'
import { type BoxRuns, ENDS, type EndRuns, heatRun } from './runs.ts'
import { seasonHours } from './standing.ts'

/** What is known of a box before its runs are counted. */
export interface Gear {
  readonly parts: readonly GearPart[]
  /** As laid out; null: the box was not. */
  readonly fit: Pick<FitDesign, 'items'> | null
  readonly settles: Row
  /** When anything is plugged in. Absent: all year. */
  readonly season?: YearSeason | null
}

/** The outside as the counts compare it with the inside. */
export interface Outside {
  readonly airC: Float64Array
  readonly relativeFrac: Float64Array
  readonly wetness: Wetness
  readonly steel: SteelLoss
}

export function outsideOf(weather: WeatherHours, settles: Row): Outside {
  const { airC, vapourPa } = weather.columns
  const relativeFrac = new Float64Array(weather.hoursCount)
  const air = airC ?? new Float64Array(weather.hoursCount)
  for (let h = 0; h < relativeFrac.length; h += 1)
    relativeFrac[h] = Math.min(1, (vapourPa?.[h] ?? Number.NaN) / saturationPaFast(air[h] as number))
  return { airC: air, relativeFrac, wetness: wetness(air, relativeFrac), steel: steelLoss(air, relativeFrac, settles) }
}

/** Air at the gear of one run, kept beside what was counted. */
export interface Counted {
  readonly year: AirYear
  /** Of the run in which heat is judged. */
  readonly hot: AirInRun
}

/** A year at one end, counted. */
export function airYear(of: {
  readonly end: AirEnd
  readonly runs: EndRuns
  readonly weather: WeatherHours
  readonly outside: Outside
  readonly gear: Gear
}): Counted {
  const { end, runs, weather, outside, gear } = of
  const { model } = runs
  const run = withoutFog(runs.year)
  const drops = dripped({ model, run, weather })
  const at = airAtGear(model, run, gear.fit)
  const warm = heatRun(runs)
  const hot = runs.heat === undefined ? at : airAtGear(warm.model, warm.year, gear.fit)
  const within = seasonHours(weather, gear.season ?? null)
  const breaker = gear.parts.find((p) => p.derates)
  const holds = (airC: number) => (breaker === undefined ? null : breakerHoldsFrac(breaker, airC))
  const loaded = hottestLoaded(warm.year, hot, within)
  const night = worstNight({ model, run, weather }, drops.events)
  const hottest = hottestHour({ model: warm.model, run: warm.year, weather }, hot.hotC, holds)
  const week = (what: string, atH: number, of: { readonly model: BoxModel; readonly year: YearRun }) =>
    spellOf({ what, model: of.model, run: of.year, weather, ...weekAround(of.year, atH) })
  const year: AirYear = {
    ...{ end, said: runs.said, counts: withHeat(countsOf({ model, run, dripped: drops }), warm.year) },
    gear: gear.parts.map((part) => gearHours(part, hot, at, within)),
    months: monthsOfYear(run, weather, monthsOf(weather)),
    atGear: humidityAtGear(model, run, monthsOf(weather)),
    ...{ wetnessInside: wetness(run.series.airC, run.series.relativeFrac), wetnessOutside: outside.wetness },
    ...{ steelInside: steelLoss(run.series.airC, run.series.relativeFrac, gear.settles), steelOutside: outside.steel },
    mould: mouldOver(model, run),
    breaker: loaded === null || breaker === undefined ? null : { ...loaded, holdsFrac: breakerHoldsFrac(breaker, loaded.airC) },
    colderSky: runs.colderSky === undefined ? null : underSky(model, runs.colderSky, weather),
    ...{ drips: toldEvents(drops.events), worstNight: night, hottestHour: hottest, map: mapOf(run) },
    spells: [
      ...(night === null ? [] : [week(night.what, night.atH, { model, year: run })]),
      week('hottest hour', hottest.atH, warm),
    ],
    energyResidualFrac: Math.max(run.energyResidualFrac, warm.year.energyResidualFrac),
    waterResidualFrac: Math.max(run.waterResidualFrac, warm.year.waterResidualFrac),
  }
  return { year, hot: within === null ? hot : { ...hot, hotC: hot.hotC.filter((_, h) => within[h] === 1) } }
}

function underSky(model: BoxModel, run: YearRun, weather: WeatherHours): NonNullable<AirYear['colderSky']> {
  const { fellKg, onGearKg } = dripped({ model, run, weather })
  return { roofMostGPerM2: most(faceOf(run.series.filmKgPerM2, ROOF)).value * 1000, fellKg, fellOnGearKg: onGearKg }
}

const ROOF = SIDES.indexOf('roof')

const withHeat = (counts: AirCounts, heat: YearRun): AirCounts => ({
  ...counts,
  ...{ airMostC: most(heat.series.airC).value, airDayMeanC: highestDayMean(heat.series.airC).value },
})

/** The short runs that were made, both ends counted from the end of their lead-in. */
export function airShorts(runs: BoxRuns, gear: Gear): readonly AirShort[] {
  return RUNS.flatMap((name) => {
    const weather = runs.shortWeather[name]
    const [tight, leaky] = ENDS.map((end) => runs.ends[end].shorts[name])
    if (weather === undefined || tight === undefined || leaky === undefined) return []
    const hours = hoursAfter(weather.hours, weather.leadInH)
    const [a, b] = [tight, leaky].map((run) => withoutFog(runAfter(run, weather.leadInH))) as [YearRun, YearRun]
    const ends = {
      tight: shortEnd(runs.ends.tight.model, a, hours, gear),
      leaky: shortEnd(runs.ends.leaky.model, b, hours, gear),
    }
    const spellEnd = harm(name, ends.leaky) > harm(name, ends.tight) ? 'leaky' : 'tight'
    const { model } = runs.ends[spellEnd]
    const run = spellEnd === 'tight' ? a : b
    const spell = spellOf({ what: name, model, run, weather: hours, fromH: 0, toH: run.hoursCount })
    return [{ run: name, said: weather.said, ends, spell, spellEnd }]
  })
}

type ShortEnd = AirShort['ends'][AirEnd]

/** By which the worse end of a short run is told. */
const harm = (name: ShortRun, { counts }: ShortEnd): number =>
  name === 'hot week'
    ? counts.airMostC
    : counts.fellOnGearKg * 1000 + counts.gearDewMostGPerM2 + counts.faces.reduce((sum, f) => sum + f.mostGPerM2, 0) / 1000

function shortEnd(model: BoxModel, run: YearRun, weather: WeatherHours, gear: Gear): ShortEnd {
  const drops = dripped({ model, run, weather })
  const at = airAtGear(model, run, gear.fit)
  return {
    counts: countsOf({ model, run, dripped: drops }),
    gear: gear.parts.map((part) => gearHours(part, at)),
    drips: toldEvents(drops.events),
  }
}
