import type { AirDesign, FitDesign } from '../../job/index.ts'
import { RUNS, type WeatherHours } from '../../weather/index.ts'
import type { GearPart } from '../answer/gear.ts'
import { monthsOf } from '../answer/hours.ts'
import { hoursAfter, runAfter } from '../answer/lead-in.ts'
import type { BoxTimes } from '../answer/standing.ts'
import type { AirWeather } from '../answer/weather.ts'
import type { EndName } from '../model/ends.ts'
import { type Surroundings, surroundingsOf, yearOf } from '../year/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { type Ask, type Fail, failsOf } from './judge.ts'
import type { Kind } from './kinds.ts'
import { hoursOf } from './part-of-year.ts'

/** A run by which a set is judged: a short run, some hours of the year, or all of it. */
export interface Screen {
  readonly id: string
  readonly end: EndName
  readonly around: Surroundings
  readonly weather: WeatherHours
  readonly leadInH: number
  /** Of the year, its own lead-in from the year's end; else none. */
  readonly whole: boolean
  readonly asks: readonly Ask[]
  readonly hoursCount: number
}

export interface Screens {
  /** Short runs and worst days. What fails in one of them fails. */
  readonly first: readonly Screen[]
  /** The year at its three ends. */
  readonly years: readonly Screen[]
  /** Hours of the year before a failure that was found in it. */
  readonly before: (of: Screen, kind: Kind, atH: number, leadH: number) => Screen
}

const STEPS_PER_HOUR = 4
const FIRST_RUN_H = 480
const LEAD_H = 72

/** Which end of what nobody measured a short run is judged at, and what it is asked: as its findings do. */
const ENDS_OF = (name: (typeof RUNS)[number]): readonly EndName[] => (name === 'hot week' ? ['hot', 'cold'] : ['damp', 'cold'])
const ASKS_OF = (name: (typeof RUNS)[number]): readonly Ask[] =>
  name === 'hot week' ? ['hot'] : name === 'cold spell' ? ['cold', 'wet'] : ['wet']

/** Surroundings hang on how the box stands, not on what it is built with: worked out once for all sets. */
export function screensOf(stands: BoxModel, weather: AirWeather): Screens {
  const around = (hours: WeatherHours) => surroundingsOf(stands, hours, { stepsPerHour: STEPS_PER_HOUR })
  const shorts = RUNS.flatMap((name): readonly Screen[] => {
    const short = weather.shorts[name]
    if (short === undefined) return []
    const surroundings = around(short.hours)
    return ENDS_OF(name).map((end) => ({
      ...{
        id: `${name}, ${end}`,
        end,
        around: surroundings,
        weather: hoursAfter(short.hours, short.leadInH),
        leadInH: short.leadInH,
      },
      ...{ whole: false, asks: ASKS_OF(name), hoursCount: short.hours.hoursCount },
    }))
  })
  const { hours } = weather
  const year = around(hours)
  const part = (id: string, end: EndName, atH: number, leadH: number, afterH: number, asks: readonly Ask[]): Screen => {
    const fromH = Math.max(0, atH - leadH)
    const toH = Math.min(hours.hoursCount, atH + afterH)
    const lead = Math.min(LEAD_H, atH - fromH)
    return {
      ...{
        id,
        end,
        around: hoursOf(year, fromH, toH),
        weather: hoursAfter(hours, fromH + lead),
        leadInH: lead,
        whole: false,
        asks,
      },
      hoursCount: toH - fromH,
    }
  }
  const outside = hours.columns.airC ?? new Float64Array(hours.hoursCount)
  const [coldest, hottest] = extremes(outside, hours.columns.globalWPerM2)
  const whole = (end: EndName, asks: readonly Ask[]): Screen => ({
    ...{ id: `year, ${end}`, end, around: year, weather: hours, leadInH: 0, whole: true, asks },
    hoursCount: hours.hoursCount + FIRST_RUN_H,
  })
  return {
    first: [
      part('coldest days, cold', 'cold', coldest, LEAD_H + 24, 24, ['cold']),
      part('hottest days, hot', 'hot', hottest, LEAD_H + 24, 24, ['hot']),
      ...shorts,
    ],
    years: [whole('damp', ['cold', 'wet', 'long']), whole('cold', ['hot', 'cold', 'wet', 'long']), whole('hot', ['hot'])],
    before: (of, kind, atH, leadH) =>
      part(`${leadH} h to hour ${atH}, ${of.end}`, of.end, atH, leadH, 24, kind === 'hot' ? ['hot'] : ['cold', 'wet', 'roof']),
  }
}

/** Hours of the coldest air and of the hottest, sun on the flat counted at 0.02 K per W/m². */
function extremes(airC: Float64Array, sun: Float64Array | null): readonly [number, number] {
  let [cold, hot] = [0, 0]
  const felt = (h: number) => airC[h]! + 0.02 * (sun?.[h] ?? 0)
  for (let h = 1; h < airC.length; h += 1) {
    if (airC[h]! < airC[cold]!) cold = h
    if (felt(h) > felt(hot)) hot = h
  }
  return [cold, hot]
}

export interface Judge {
  readonly modelOf: (air: AirDesign, end: EndName) => BoxModel
  readonly parts: readonly GearPart[]
  readonly fit: Pick<FitDesign, 'items'> | null
  /** What is judged when. */
  readonly times: BoxTimes
  /** The last run of each screen in which heat is judged, by its name, with the set it was of: asked once more, it is not run again. */
  readonly lastHot?: Map<string, { readonly of: string; readonly run: YearRun }>
}

/** What fails of a set in one run, and the run. */
export function screened(
  judge: Judge,
  screen: Screen,
  air: AirDesign,
): { readonly fails: readonly Fail[]; readonly run: YearRun } {
  const model = judge.modelOf(air, screen.end)
  const all = yearOf(model, screen.around, screen.whole ? {} : { firstRunHours: 0 })
  const run = screen.leadInH === 0 ? all : runAfter(all, screen.leadInH)
  if (screen.asks.includes('hot')) judge.lastHot?.set(screen.id, { of: JSON.stringify(air), run })
  const months = screen.whole ? monthsOf(screen.weather) : NO_MONTHS
  const fails = failsOf({
    ...{ model, run, weather: screen.weather, months, parts: judge.parts, fit: judge.fit },
    ...{ asks: screen.asks, times: judge.times },
  })
  return { fails, run }
}
const NO_MONTHS = new Uint8Array(0)
