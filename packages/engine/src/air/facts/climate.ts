import { UNTOLD_CLIMATE } from '../../job/index.ts'
import { type Climate, climateFrom, toldOfJob } from '../../weather/index.ts'
import { type AirSiteJob, airSiteOf } from './site.ts'

/** Monthly temperatures of another place, in which a year was made because nobody told those of the site. */
export interface Borrowed {
  /** Of which place, how far away, and what its height was worth. */
  readonly said: string
  readonly distanceM: number
  /** How much higher the site lies. */
  readonly higherM: number
  readonly meanC: readonly number[]
}

export type JobClimate =
  | { readonly climate: Climate; readonly borrowed: Borrowed | null }
  | { readonly lacks: readonly { readonly path: string; readonly said: string }[] }

/** The climate of a job with what nobody told filled from the nearest place known, each said; or what it lacks. */
export function climateForYear(job: AirSiteJob): JobClimate {
  const { value, notes } = airSiteOf(job)
  if (value.place === null) return { lacks: notes.filter((n) => n.kind === 'missing').map(({ path, said }) => ({ path, said })) }
  const { name, utcOffsetH } = value.place
  const answer = climateFrom({
    ...toldOfJob(job.climate ?? UNTOLD_CLIMATE, name),
    ...{ utcOffsetH, winterFromDeg: job.yard.wind.winterFromDeg },
  })
  if (!answer.ok) return { lacks: answer.missing.map((what) => ({ path: 'facts.climate', said: `Nobody has said ${what}.` })) }
  const { climate } = answer
  const filled = climate.filled.find((f) => f.part === 'temperature')
  return {
    climate,
    borrowed: filled?.from === undefined ? null : { said: filled.said, ...filled.from, meanC: climate.meanC },
  }
}

/** How warm each month is: as told, else that of the nearest place known; null where there is neither. */
export function monthsMeanC(job: AirSiteJob): readonly number[] | null {
  const told = job.climate?.meanCByMonth
  if (told !== undefined && told !== null) return told
  const found = climateForYear(job)
  return 'lacks' in found ? null : found.climate.meanC
}
