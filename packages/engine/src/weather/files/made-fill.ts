import { ok, type Result } from '../../kernel/index.ts'
import { type ClimateTold, climateFrom, madeYear } from '../made-year/index.ts'
import type { WeatherPlace } from '../types.ts'
import type { MadeYear } from './assemble.ts'
import { weatherProblem } from './problems.ts'

const NOTHING_TOLD: Omit<ClimateTold, 'name' | 'latitudeDeg' | 'longitudeDeg' | 'elevationM' | 'utcOffsetH'> = {
  ...{ meanC: null, rangeK: null, relativeFrac: null, over: 'liquid', dewC: null, windMPerS: null, sunKWhPerM2: null },
  ...{ spreadK: null, snowLies: null, coldC: null, hotC: null, winterFromDeg: null, windShape: null },
}

/** The year that stands in for what a file lacks: made of the nearest climate of the table for the place of the file, always the same. */
export function madeForPlace(place: WeatherPlace): Result<MadeYear> {
  const answer = climateFrom({ ...NOTHING_TOLD, ...place })
  if (!answer.ok) return { ok: false, problems: [weatherProblem('weather/normals-far', answer.missing)] }
  const { climate } = answer
  return ok({
    hours: madeYear(climate, { seed: 1, normal: true }),
    words: `a year made of the climate of ${climate.nearest.said}`,
  })
}
