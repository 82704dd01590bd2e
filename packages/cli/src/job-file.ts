import type { Assessment, Shop } from '@plugstead/engine/assess'
import { type Design, type Job, readJob } from '@plugstead/engine/job'
import { Fault, type Problem } from '@plugstead/engine/kernel'
import type { PlanResult } from '@plugstead/engine/plan'
import type { Given } from './command-line.ts'
import { readDesign } from './design-file.ts'
import { nearest } from './near.ts'
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
  const read = readJob(bytes, { file })
  if (!read.ok) throw new Unreadable(...read.problems)
  const shop = shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined)
  const problems = overlayProblems(file, read.value, shop)
  if (problems.length > 0) throw new Unreadable(...problems)
  return { file, bytes, job: read.value, shop }
}

/** Overlays that the job names and the shop has not, or has for another rule set. */
function overlayProblems(file: string, job: Job, shop: Shop): readonly Problem[] {
  const names = Object.keys(shop.overlays)
  return job.rules.overlays.flatMap((name) => {
    const overlay = shop.overlays[name]
    if (overlay?.set === job.rules.set) return []
    const about = {
      file,
      path: 'rules.overlays',
      found: `“${name}”${overlay === undefined ? '' : `, which changes ${overlay.set}`}`,
    }
    const fitting = names.filter((other) => shop.overlays[other]?.set === job.rules.set)
    const near = nearest(name, fitting)
    const mend =
      near === null
        ? `Name one of ${fitting.join(', ') || 'none'}, or name your own file under overlays in shop.yaml.`
        : `Did you mean ${near}?`
    return [{ code: 'shop/overlay-absent', ...about, wanted: `an overlay for ${job.rules.set}`, mend }]
  })
}

/**
 * The plan of a job, its mends tried.
 * @throws Unreadable when the job names nothing that could feed it
 */
export async function planned({ file, job, shop }: Opened): Promise<PlanResult> {
  // Loaded only now: a document that cannot be read is refused without waiting for the engine.
  const { plan, withMendsTried } = await import('@plugstead/engine/plan')
  try {
    return await withProgress('planning …', () => {
      const found = plan(job, shop)
      return { ...found, assessment: withMendsTried(job, found.design, shop, found.assessment) }
    })
  } catch (thrown) {
    if (thrown instanceof Fault && thrown.code === 'plan/no-offer') throw noSupply(file)
    throw thrown
  }
}

/** A job that names nothing that could feed it. */
export const noSupply = (file: string): Unreadable =>
  new Unreadable({
    ...{ code: 'job/no-supply', file, path: 'facts.supply', found: 'nothing that could feed the box' },
    ...{
      wanted: 'at least one offer: utility, generator or neighbour',
      mend: 'Add an offer under facts.supply; see docs/job-document.md.',
    },
  })

export interface Judged {
  readonly design: Design
  readonly assessment: Assessment
  /** Null: the design was given by hand. */
  readonly plan: PlanResult | null
}

/** The design in `--design` judged, its mends tried; without one, the plan's. `today`: a day on which it is asked. */
export async function judged(given: Given, opened: Opened, today?: string): Promise<Judged> {
  if (typeof given.options.design === 'string') {
    const { job, shop } = opened
    const { assess, rulesOf } = await import('@plugstead/engine/assess')
    const design = readDesign(given.options.design, job, rulesOf(job, shop))
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
    const { design, feeders } = result
    return { design, assessment: assess(opened.job, design, opened.shop, { feeders, today }), plan: result }
  }
  return { design: result.design, assessment: result.assessment, plan: result }
}
