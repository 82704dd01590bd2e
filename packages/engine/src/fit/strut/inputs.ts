import type { BoxBody } from '../../box/index.ts'
import type { FitDesign } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'

/** What hangs in and on one box, and the rules it is held to. */
export interface HungInputs {
  readonly box: string
  readonly fit: FitDesign
  readonly body: Pick<BoxBody, 'sides'>
  readonly rules: RuleSet
}
