import type { BoxBody } from '../box/index.ts'
import type { BoxBuild, BoxDesign, Job } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** What of a job the skin is judged by. */
export const SKIN_READS = ['yard', 'pins', 'builtBody'] as const
export type SkinJob = Pick<Job, (typeof SKIN_READS)[number]>

/** What every judgement of a box's skin reads. */
export interface SkinView {
  readonly job: SkinJob
  readonly box: string
  readonly body: BoxBody
  readonly build: BoxBuild
  readonly designs: readonly BoxDesign[]
  readonly rules: RuleSet
}
