import type { Shop } from '../assess/index.ts'
import type { Job } from '../job/index.ts'
import { Fault, type Problem, type Result } from '../kernel/index.ts'
import { withMendsTried } from './mends.ts'
import { plan } from './plan.ts'
import type { PlanResult } from './types.ts'
import type { Watch } from './work.ts'

/** The plan of a job, its mends tried. A job that names nothing that could feed it is a problem of the document. */
export function plannedJob(job: Job, file: string, shop: Shop, watch?: Watch): Result<PlanResult> {
  try {
    const found = plan(job, shop, watch)
    return { ok: true, value: { ...found, assessment: withMendsTried(job, found.design, shop, found.assessment) } }
  } catch (thrown) {
    if (!(thrown instanceof Fault) || thrown.code !== 'plan/no-offer') throw thrown
    return { ok: false, problems: [noSupply(file)] }
  }
}

/** A job that names nothing that could feed it. */
export const noSupply = (file: string): Problem => ({
  ...{ code: 'job/no-supply', file, path: 'facts.supply', found: 'nothing that could feed the box' },
  ...{
    wanted: 'at least one offer: utility, generator or neighbour',
    mend: 'Add an offer under facts.supply; see docs/job-document.md.',
  },
})
