import type { AirResult } from '../air/index.ts'
import { type Job, withInsideHot } from '../job/index.ts'

/** The job with the hottest air inside its boxes as their years found it; what a person told stays. The same job where nothing differs. */
export const insideByYear = (job: Job, air: AirResult | null): Job => withInsideHot(job, yearsHottestC(air))

/** By box, where any hour of its year carries load. */
export const yearsHottestC = (air: AirResult | null): ReadonlyMap<string, number> =>
  new Map((air?.boxes ?? []).flatMap(({ box, loadedMostC }) => (loadedMostC === null ? [] : [[box, loadedMostC] as const])))
