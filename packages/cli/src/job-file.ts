import type { Assessment, Shop } from '@plugstead/engine/assess'
import { assess } from '@plugstead/engine/assess'
import { type Design, type Job, readJob } from '@plugstead/engine/job'
import { Fault } from '@plugstead/engine/kernel'
import { type PlanResult, plan } from '@plugstead/engine/plan'
import type { Given } from './command-line.ts'
import { readDesign } from './design-file.ts'
import { nearest } from './near.ts'
import { Unreadable } from './problem.ts'
import { withProgress } from './progress.ts'
import { fileBytes } from './read-file.ts'
import { shopFolder } from './shop-folder.ts'

export interface Opened {
  readonly file: string
  readonly job: Job
  readonly shop: Shop
}

/**
 * The job document and the shop that a command line names.
 * @throws Unreadable with every problem of both
 */
export function openJob(given: Given): Opened {
  const [file = ''] = given.operands
  const read = readJob(fileBytes(file), { file })
  if (!read.ok) throw new Unreadable(...read.problems)
  const shop = shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined)
  const names = Object.keys(shop.overlays)
  const unknown = read.value.rules.overlays.filter((name) => !names.includes(name))
  if (unknown.length > 0)
    throw new Unreadable(
      ...unknown.map((name) => {
        const near = nearest(name, names)
        const mend =
          near === null
            ? `Put a file for it into the shop’s overlays folder. There: ${names.join(', ') || 'none'}.`
            : `Did you mean ${near}?`
        return {
          code: 'shop/overlay-absent',
          file,
          path: 'rules.overlays',
          found: `“${name}”`,
          wanted: 'an overlay of the shop',
          mend,
        }
      }),
    )
  return { file, job: read.value, shop }
}

/**
 * The plan of a job.
 * @throws Unreadable when the job names nothing that could feed it
 */
export async function planned({ file, job, shop }: Opened): Promise<PlanResult> {
  try {
    return await withProgress('planning …', () => plan(job, shop))
  } catch (thrown) {
    if (thrown instanceof Fault && thrown.code === 'plan/no-offer')
      throw new Unreadable({
        ...{ code: 'job/no-supply', file, path: 'facts.supply', found: 'nothing that could feed the box' },
        ...{
          wanted: 'at least one offer: utility, generator or neighbour',
          mend: 'Add an offer under facts.supply; see docs/job.md.',
        },
      })
    throw thrown
  }
}

/** The design in `--design` judged; without it, the plan's. */
export async function judged(
  given: Given,
  opened: Opened,
): Promise<{ readonly design: Design; readonly assessment: Assessment; readonly plan: PlanResult | null }> {
  if (typeof given.options.design === 'string') {
    const design = readDesign(given.options.design, opened.job)
    return { design, assessment: await withProgress('judging …', () => assess(opened.job, design, opened.shop)), plan: null }
  }
  const result = await planned(opened)
  return { design: result.design, assessment: result.assessment, plan: result }
}
