import { type BoxWanted, distanceM, distanceUntold, type Job, pinnedFeeders, withFeeders } from '../job/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import { feedsIn, leastNeeds } from './whole.ts'

/** By the box that is fed. */
export type Feeders = ReadonlyMap<string, NonNullable<BoxWanted['fedFrom']>>

/** One service for several boxes, or why there is none to try. */
export interface SharedService {
  readonly id: string
  /** Boxes that would each have a supply of their own. */
  readonly boxes: readonly string[]
  readonly feeders: Feeders | null
  readonly why: string
}

/** The job with its boxes fed as persons pinned it. A pin that cannot be taken is passed over here; a finding on the job says so. */
export const jobAsPinned = (job: Job): Job => withFeeders(job, pinnedFeeders(job).feeders)

/**
 * One service instead of several: one box keeps it, and a feeder leads from there to every other that would have had its own. It is the
 * box that asks most of its main, so that the feeders carry the least; no job says which box the service stands nearest to, and the run
 * of an offer is taken for the box that keeps it. Null where there is nothing to join. A length nobody told is never made up.
 */
export function sharedService(job: Job, rules: RuleSet, system: System): SharedService | null {
  const own = leastNeeds(job, rules, system).toSorted((a, b) => b.needA - a.needA || (a.box < b.box ? -1 : 1))
  if (own.length < 2) return null
  const boxes = job.boxes.map((b) => b.id).filter((id) => own.some((o) => o.box === id))
  const refused = (why: string): SharedService => ({ id: `one service for ${boxes.join(', ')}`, boxes, feeders: null, why })
  const alone = new Set([...pinnedFeeders(job).feeders].flatMap(([id, from]) => (from === null ? [id] : [])))
  const order = [...own.filter((o) => alone.has(o.box)), ...own.filter((o) => !alone.has(o.box))].map((o) => o.box)
  const reasons: string[] = []
  for (const root of order) {
    const fed = boxes.filter((id) => id !== root && !alone.has(id))
    if (fed.length === 0) return refused('each is pinned to a supply of its own')
    const why = whyNot(job, root, fed)
    if (why !== null) {
      reasons.push(why)
      continue
    }
    const feeders = new Map(fed.map((id) => [id, { box: root, lengthM: distanceM(job, root, id)! }]))
    return { id: `${fed.join(', ')} fed from ${root}`, boxes, feeders, why: '' }
  }
  return refused(reasons[0]!)
}

function whyNot(job: Job, root: string, fed: readonly string[]): string | null {
  const absent = job.phases.find((p) => p.boxes?.includes(root) === false && fed.some((id) => feedsIn(job, id, p.id)))
  if (absent !== undefined) return `${root} does not stand there in phase ${absent.id}`
  const untold = fed.find((id) => distanceM(job, root, id) === null)
  return untold === undefined ? null : distanceUntold(root, untold)
}
