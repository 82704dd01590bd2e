import type { Assumption } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { Borrowed } from '../facts/climate.ts'
import type { MeasuredSaid } from '../facts/measured.ts'
import type { AirEnd, AirWeatherUsed, ShortRun } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'

/** Both ends of what nobody measured, in the order they are told. */
export const ENDS = ['tight', 'leaky'] as const satisfies readonly AirEnd[]

/** A box at one end of what nobody measured, taken through the year and through each short run. */
export interface EndRuns {
  readonly model: BoxModel
  /** What this end takes, in words. */
  readonly said: string
  readonly year: YearRun
  /** The run in which heat is judged, where a box that stands for the most heat is not the one that stands for the most damp. */
  readonly heat?: { readonly model: BoxModel; readonly year: YearRun }
  /** The same model under the colder of two published clear skies, where the roof is near its limit. */
  readonly colderSky?: YearRun
  /** Out of its season, of a box that is used by the season and has a heater or a fan: the hours, with its supply on and off. */
  readonly unplugged?: { readonly hours: WeatherHours; readonly on: YearRun; readonly off: YearRun }
  readonly shorts: Readonly<Partial<Record<ShortRun, YearRun>>>
}

/** Weather of a short run: its first `leadInH` hours lead in and are not counted. */
export interface ShortWeather {
  readonly said: string
  readonly hours: WeatherHours
  readonly leadInH: number
}

/** All that was run of one box. */
export interface BoxRuns {
  readonly weather: WeatherHours
  readonly used: Pick<AirWeatherUsed, 'from' | 'named' | 'seed' | 'assumed'>
  readonly shortWeather: Readonly<Partial<Record<ShortRun, ShortWeather>>>
  readonly ends: Readonly<Record<AirEnd, EndRuns>>
  /** Values taken where nobody said, by which a finding names what it rests on. */
  readonly assumed: readonly Assumption[]
  /** Words of the job that could not be read for sure: something else stands in their place. Absent: none. */
  readonly unread?: readonly AirLack[]
  /** The months of the made year are another place's. Absent: they are the site's own. */
  readonly borrowed?: Borrowed | null
  /** What was measured on the box and stands in its models. Absent: nothing. */
  readonly measured?: readonly MeasuredSaid[]
}

/** What a box lacks to be run at all: where it would stand in the job, and what is missing, one sentence. */
export interface AirLack {
  readonly path: string
  readonly said: string
}

/** Model and year in which heat is judged. */
export const heatRun = (of: EndRuns): { readonly model: BoxModel; readonly year: YearRun } => of.heat ?? of

export type BoxAir = { readonly runs: BoxRuns } | { readonly lacks: readonly AirLack[] }
