import { designYearsStepwise, type YearsHeld, yearsHeld, yearsNotMade } from '../air/index.ts'
import { type Assessment, type Shop, withFound } from '../assess/index.ts'
import type { Design, Job } from '../job/index.ts'
import { designYearsFor, type YearsLack } from './air.ts'

/** Of one box: in how many made years it holds, or what is missing for a year. */
export type BoxYears = YearsHeld | ({ readonly box: string } & YearsLack)

export interface YearsAsked {
  readonly assessment: Assessment
  readonly boxes: readonly BoxYears[]
}

/**
 * A judged design with the share of made years in which each of its boxes holds as one finding more, `air/thirty-years`. A step of its own
 * after the plan: told before each year how many are done of how many, so that whoever shows it can stop between two.
 */
export function* withYearsHeld(of: {
  readonly job: Job
  readonly shop: Shop
  readonly design: Design
  readonly assessment: Assessment
  readonly yearsCount: number
}): Generator<{ readonly doneCount: number; readonly ofCount: number }, YearsAsked> {
  const { design, assessment, yearsCount } = of
  const all = design.builds.map(({ box }) => ({ box, years: designYearsFor({ ...of, results: assessment.results, box }) }))
  const ofCount = yearsCount * all.filter(({ years }) => !('lacks' in years)).length
  const boxes: BoxYears[] = []
  let before = 0
  for (const { box, years } of all) {
    if ('lacks' in years) {
      boxes.push({ box, lacks: years.lacks })
      continue
    }
    const steps = designYearsStepwise(years)
    let next = steps.next()
    for (; next.done !== true; next = steps.next()) yield { doneCount: before + next.value.doneCount, ofCount }
    before += yearsCount
    boxes.push(next.value)
  }
  const found = boxes.map((one) => ('lacks' in one ? yearsNotMade(one.box, one.lacks) : yearsHeld(one)))
  return { assessment: withFound(assessment, found), boxes }
}
