import type { Assessment, Beside } from '../assess/index.ts'
import type { Design } from '../job/index.ts'
import type { AirChosen } from './air.ts'
import type { ChangeList } from './change-list-types.ts'

/** One way to do the job that was worked out in full. */
export interface Candidate {
  /** `U1 200 A, interlock`: offer, service size, how starts are held. */
  readonly id: string
  readonly design: Design
  /** Codes and subjects of what fails, `reach/drop G4C`; empty when nothing does. */
  readonly fails: readonly string[]
  /** Cost by the job's goal, in the currency stated; null when a price that decides is missing. */
  readonly costMoney: number | null
  /** A part of the tariff is not stated: the cost is at least this. */
  readonly costIsFloor: boolean
  /** Earliest date by lead time, ISO; null when unknown. */
  readonly ready: string | null
}

export interface PlanResult {
  readonly design: Design
  readonly assessment: Assessment
  /** What was found beside the design: one service against several, changes of a box that stands. Asked again with it, the design is judged the same. */
  readonly beside: Pick<Beside, 'feeders' | 'changes'>
  readonly chosen: Candidate
  /** Next best in order, nothing failing. */
  readonly runnersUp: readonly Candidate[]
  /** Every other one that was tried, and why it lost. */
  readonly lost: readonly { readonly id: string; readonly why: string }[]
  /** True when nothing fails in the chosen design; otherwise none of those tried is free of failures. */
  readonly sound: boolean
  /** Pins that are the cause when no sound design exists. */
  readonly pinsInTheWay: readonly string[]
  /** What keeps each box dry and cool, and how it was chosen. Empty where a year cannot be made of what is told, and for a box that stands. */
  readonly air: readonly AirChosen[]
  readonly tried: number
  readonly currency: string
  /** One for each box already built: what must be changed on it, at what price. Empty where none stands. */
  readonly changeList: readonly ChangeList[]
}
