import type { Assumption, Job } from '../../job/index.ts'
import {
  type Climate,
  type ClimatePart,
  DESIGN_SEED,
  designRuns,
  designYear,
  type WeatherColumn,
  type WeatherHours,
} from '../../weather/index.ts'
import { type Borrowed, climateForYear } from '../facts/climate.ts'
import type { AirWeatherUsed, ShortRun } from '../result.ts'
import type { AirLack, ShortWeather } from './runs.ts'

export type WeatherJob = Pick<Job, 'boxes' | 'climate' | 'yard' | 'site'>

/** Hours that a person gave in place of the made year. */
export interface WeatherGiven {
  /** Name of the file. */
  readonly named: string
  readonly hours: WeatherHours
}

export interface AirWeather {
  readonly hours: WeatherHours
  readonly used: Pick<AirWeatherUsed, 'from' | 'named' | 'seed' | 'assumed'>
  readonly shorts: Readonly<Partial<Record<ShortRun, ShortWeather>>>
  readonly assumed: readonly Assumption[]
  /** The months are another place's. Null: they were told, or a file stands in their place. */
  readonly borrowed: Borrowed | null
}

export type WeatherFound = { readonly weather: AirWeather } | { readonly lacks: readonly AirLack[] }

const YEAR_H = 8760

/** Columns without which no box can be run, in words. */
const NEEDED: readonly (readonly [WeatherColumn, string])[] = [
  ['airC', 'the temperature of the air'],
  ['vapourPa', 'its humidity'],
  ['windMPerS', 'the wind'],
  ['globalWPerM2', 'the sun on the flat'],
  ['beamWPerM2', 'the direct sun'],
  ['diffuseWPerM2', 'the light of the sky'],
]

/**
 * The hours of a job: those that were given, else the design year made from what is told of its climate. What nobody told is filled from the nearest
 * place known and said; where that is how warm the months are, the box is not judged by it alone.
 */
export function weatherFor(job: WeatherJob, given: WeatherGiven | null): WeatherFound {
  const climate = climateForYear(job)
  if (given !== null) return ofFile(given, 'lacks' in climate ? null : climate.climate)
  if ('lacks' in climate) return climate
  const { climate: of, borrowed } = climate
  return {
    weather: {
      hours: designYear(of),
      used: { from: 'made', named: of.place.name, seed: DESIGN_SEED, assumed: of.filled.map((f) => f.said) },
      shorts: shortRuns(of),
      assumed: of.filled.map((f) => ({ path: PART_PATHS[f.part], said: f.said, source: f.rests.place })),
      borrowed,
    },
  }
}

function ofFile({ named, hours }: WeatherGiven, climate: Climate | null): WeatherFound {
  const lacks = NEEDED.flatMap(([name, what]) => {
    const column = hours.columns[name]
    const gap = column === null ? 0 : column.findIndex((v) => !Number.isFinite(v))
    if (column !== null && gap < 0) return []
    const where = column === null ? 'does not hold' : `has a gap at hour ${gap + 1} in`
    return [{ path: 'weather', said: `The file ${named} ${where} ${what}.` }]
  })
  if (hours.hoursCount < YEAR_H)
    lacks.push({ path: 'weather', said: `The file ${named} holds ${hours.hoursCount} hours; a year has ${YEAR_H}.` })
  if (lacks.length > 0) return { lacks }
  return {
    weather: {
      ...{ hours, used: { from: 'file', named, seed: null, assumed: [] }, assumed: [], borrowed: null },
      shorts: climate === null ? {} : shortRuns(climate),
    },
  }
}

/** Where telling it would replace what was filled in. */
const PART_PATHS: Readonly<Record<ClimatePart, string>> = {
  temperature: 'facts.climate.mean-by-month',
  range: 'facts.climate.range-by-month',
  spread: 'facts.climate.spread-by-month',
  humidity: 'facts.climate.humidity-by-month',
  wind: 'facts.climate.wind-by-month',
  sun: 'facts.climate.sun-by-month',
  snow: 'facts.climate.snow-by-month',
  cold: 'facts.climate.design-min',
  heat: 'facts.climate.design-max',
  height: 'facts.site.elevation',
  clock: 'facts.site.time-zone',
}

const shortRuns = (climate: Climate): AirWeather['shorts'] =>
  Object.fromEntries(designRuns(climate).map(({ name, said, hours, leadInH }) => [name, { said, hours, leadInH }]))
