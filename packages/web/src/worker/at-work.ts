import { type DrawnBox, drawnBoxes } from '@plugstead/drawings'
import { overlayProblems, type Shop } from '@plugstead/engine/assess'
import { type Job, readJob } from '@plugstead/engine/job'
import type { Result } from '@plugstead/engine/kernel'
import { type PlanResult, plannedJob, type Watch } from '@plugstead/engine/plan'
import type { Given } from './protocol.ts'

/** A design that was judged, and its boxes as they are drawn. */
export interface Laid {
  readonly job: Job
  readonly shop: Shop
  readonly found: Pick<PlanResult, 'design' | 'assessment'>
  readonly drawn: readonly DrawnBox[]
}

/** A job that was planned and assessed: everything later calls are answered from. */
export interface AtWork extends Laid {
  readonly given: Given
  readonly found: PlanResult
}

/** The same way as the terminal goes: document, shop, plan, mends. */
export function worked({ file, text }: Given, shop: Shop, watch?: Watch): Result<AtWork> {
  const read = readJob(text, { file })
  if (!read.ok) return read
  const job = read.value
  const problems = overlayProblems(file, job, shop)
  if (problems.length > 0) return { ok: false, problems }
  const found = plannedJob(job, file, shop, watch)
  if (!found.ok) return found
  const { design, assessment } = found.value
  return {
    ok: true,
    value: { given: { file, text }, job, shop, found: found.value, drawn: drawnBoxes({ job, design, assessment }) },
  }
}
