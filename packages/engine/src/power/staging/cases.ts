import { lowerBounds } from './bounds.ts'
import type { Objective } from './search.ts'
import { stagedTasks } from './stage.ts'
import { type StagingTask, windowLengthH } from './task.ts'

export const SUM_ONLY: Objective = { primary: [0], total: null, dimensions: 1 }

interface CaseJob {
  readonly n: number
  readonly kW: number
  readonly h: number
  readonly window_h: readonly [number, number]
}

/** Jobs of a published case as tasks with one dimension, kW. */
export function tasksOfCase(jobs: readonly CaseJob[]): StagingTask[] {
  return jobs.flatMap((job, j) =>
    Array.from({ length: job.n }, (_, k) => ({
      name: `J${j}-${k}`,
      load: [job.kW],
      runH: job.h,
      fromH: job.window_h[0],
      windowH: windowLengthH(job.window_h[0], job.window_h[1]),
    })),
  )
}

function staged(given: { readonly jobs: readonly CaseJob[] }): Record<string, unknown> {
  const tasks = tasksOfCase(given.jobs)
  const energetic = lowerBounds(tasks, 1)[0]?.bounds.find((b) => b.rule === 'energetic')
  const plan = stagedTasks(tasks, SUM_ONLY)
  return { bound_kW: energetic?.value, optimum_kW: plan.primary.proof === 'gap' ? null : plan.primary.after }
}

const IDS = ['stg-01', 'stg-02', 'stg-03', 'stg-04', 'stg-05', 'stg-06', 'stg-07'] as const

export const stagingCases: Record<string, (given: any) => Record<string, unknown>> = Object.fromEntries(
  IDS.map((id) => [id, staged]),
)
