import type { Design, Job } from '../../job/index.ts'
import type { QuestionId, Verdict } from '../../kernel/index.ts'

/** A number of the job or the design that a verdict may turn on, and how to set it. */
export interface TurningInput {
  /** `G4C/cord`, `site/frost`. */
  readonly id: string
  /** What it is, in words: “cord of G4C”. */
  readonly words: string
  readonly unit: string
  readonly value: number
  /** Never sought outside of these: a length below zero is none. */
  readonly least: number
  readonly most: number
  readonly set: (job: Job, design: Design, value: number) => { readonly job: Job; readonly design: Design }
}

/** What is judged: one finding of one question. */
export interface Judged {
  readonly question: QuestionId
  readonly code: string
  readonly subject: string
}

/** Where one input turns the verdict, everything else as it is. */
export interface TurningPoint {
  readonly id: string
  readonly words: string
  readonly unit: string
  readonly value: number
  /** First value away from today's, of those looked at, at which the verdict is another; null: none as far as `least` and `most`. */
  readonly turnsAt: number | null
  readonly becomes: Verdict | null
}

export interface TurningPoints {
  /** Nearest first, by share of today's value; those that turn nothing last. */
  readonly points: readonly TurningPoint[]
  /** How often the design was judged. */
  readonly judgedCount: number
  /** The work allowed was used up: inputs that come later were not looked at. */
  readonly cut: boolean
}
