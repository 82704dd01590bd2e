import type { AirBoxResult, AirResult } from '../air/index.ts'
import { type Coldest, type Job, withInsideCold, withInsideHot } from '../job/index.ts'

/** The job with the hottest and the coldest air inside its boxes as their years found it; what a person told stays. The same job where nothing differs. */
export const insideByYear = (job: Job, air: AirResult | null): Job =>
  withInsideCold(withInsideHot(job, yearsHottestC(air)), yearsColdestC(job, air))

/** By box, where any hour of its year carries load. */
export const yearsHottestC = (air: AirResult | null): ReadonlyMap<string, number> =>
  new Map((air?.boxes ?? []).flatMap(({ box, loadedMostC }) => (loadedMostC === null ? [] : [[box, loadedMostC] as const])))

/**
 * By box, the coldest air at its gear, at either end of what nobody measured, in the hours that count. A record colder than any hour that was run
 * is not reached by the year: inside it gets at most as much colder as it does outside. Nothing where the cold of the place was not told.
 */
export function yearsColdestC(job: Pick<Job, 'site'>, air: AirResult | null): ReadonlyMap<string, Coldest> {
  const recordC = job.site.extremeMinC ?? job.site.designMinC
  if (recordC === null) return new Map()
  return new Map(
    (air?.boxes ?? []).flatMap((one) => {
      const atGear = [one.ends.tight, one.ends.leaky].flatMap(({ gear }) => gear.map((part) => part.coldestC))
      if (atGear.length === 0 || Math.max(...atGear) > NEVER_C) return []
      const high = Math.floor(Math.min(...atGear))
      return [[one.box, { low: high - colderK(one, recordC), high }] as const]
    }),
  )
}

/** Above it no air was counted: a part whose season has no hours. */
const NEVER_C = 100

const colderK = ({ outsideC }: Pick<AirBoxResult, 'outsideC'>, recordC: number): number =>
  Math.ceil(Math.max(0, outsideC.reduce((least, atC) => Math.min(least, atC), Infinity) - recordC))
