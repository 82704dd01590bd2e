import type { Design, Job } from '../job/index.ts'
import type { Prices } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import type { FeedersWeighed } from './supply/result.ts'

/** What every question of `power` is asked with. Earlier answers are passed beside it as plain values. */
export interface Inputs {
  readonly job: Job
  readonly design: Design
  readonly rules: RuleSet
  readonly prices: Prices
  readonly feeders?: FeedersWeighed | undefined
}
