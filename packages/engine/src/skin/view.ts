import type { BoxBody } from '../box/index.ts'
import type { BoxBuild, BoxDesign, Job } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** What every judgement of a box's skin reads. */
export interface SkinView {
  readonly job: Job
  readonly box: string
  readonly body: BoxBody
  readonly build: BoxBuild
  readonly designs: readonly BoxDesign[]
  readonly rules: RuleSet
}
