import { type Assessment, overlayProblems, type Shop } from '@plugstead/engine/assess'
import { type Design, type Job, readJob } from '@plugstead/engine/job'
import type { PlanResult } from '@plugstead/engine/plan'
import type { Given } from './command-line.ts'
import { readDesign } from './design-file.ts'
import { Unreadable } from './problem.ts'
import { withProgress } from './progress.ts'
import { fileBytes } from './read-file.ts'
import { shopFolder } from './shop-folder.ts'

export interface Opened {
  readonly file: string
  readonly bytes: Uint8Array
  readonly job: Job
  readonly shop: Shop
}

/**
 * The job document and the shop that a command line names.
 * @throws Unreadable with every problem of both
 */
export function openJob(given: Given): Opened {
  const [file = ''] = given.operands
  const bytes = fileBytes(file)
  // The document first: one that cannot be read is refused without a look at the shop.
  const read = readJob(bytes, { file })
  if (!read.ok) throw new Unreadable(...read.problems)
  const shop = shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined)
  const problems = overlayProblems(file, read.value, shop)
  if (problems.length > 0) throw new Unreadable(...problems)
  return { file, bytes, job: read.value, shop }
}

/**
 * The plan of a job, its mends tried.
 * @throws Unreadable when the job names nothing that could feed it
 */
export async function planned({ file, job, shop }: Opened): Promise<PlanResult> {
  // Loaded only now: a document that cannot be read is refused without waiting for the engine.
  const { plannedJob } = await import('@plugstead/engine/plan')
  const found = await withProgress('planning …', () => plannedJob(job, file, shop))
  if (!found.ok) throw new Unreadable(...found.problems)
  return found.value
}

export interface Judged {
  readonly design: Design
  readonly assessment: Assessment
  /** Null: the design was given by hand. */
  readonly plan: PlanResult | null
}

/** The design in `--design` judged, its mends tried; without one, the plan's. `today`: a day on which it is asked. */
export async function judged(given: Given, opened: Opened, today?: string): Promise<Judged> {
  if (typeof given.options.design === 'string') {
    const { shop } = opened
    const { assess, rulesOf } = await import('@plugstead/engine/assess')
    const { design, assumed } = readDesign(given.options.design, opened.job, rulesOf(opened.job, shop))
    const job = { ...opened.job, assumed: [...opened.job.assumed, ...assumed] }
    const { withMendsTried } = await import('@plugstead/engine/plan')
    return {
      design,
      assessment: await withProgress('judging …', () => withMendsTried(job, design, shop, assess(job, design, shop, { today }))),
      plan: null,
    }
  }
  const result = await planned(opened)
  if (today !== undefined) {
    const { assess } = await import('@plugstead/engine/assess')
    const { design, beside } = result
    return { design, assessment: assess(opened.job, design, opened.shop, { ...beside, today }), plan: result }
  }
  return { design: result.design, assessment: result.assessment, plan: result }
}
