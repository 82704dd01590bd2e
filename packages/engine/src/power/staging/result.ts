import type { Leg, StagingControl } from '../../job/index.ts'

/** Quarter-hours of a day: every profile has this many values, the first from midnight. */
export const SLOTS_PER_DAY = 96

/** Load on each leg, one value per quarter-hour, 96 each. */
export type LegProfiles = Readonly<Record<Leg, readonly number[]>>

/**
 * How firm the plan is. `proven`: no start times exist with a lower peak. `proven on the grid`: none exist that start on a quarter-hour
 * (a run or a window in the job is not a whole number of quarter-hours). `gap`: the search ended; the optimum lies between bound and peak.
 */
export type ProofState = 'proven' | 'proven on the grid' | 'gap'

export type BoundRule = 'energy' | 'energetic' | 'compulsory' | 'step' | 'rounded up' | 'search'

/** A peak that no choice of start times can beat, by one rule, with the span that gives it. */
export interface LowerBound {
  readonly rule: BoundRule
  /** W for the sum of all, A for a leg: as the profile it belongs to. */
  readonly value: number
  /** Span of the day that forces it, local hours; `toH` ≤ `fromH` crosses midnight; equal: the whole day. */
  readonly fromH: number
  readonly toH: number
}

/** One peak (a leg, or the sum of all) with what is known about how low it could be. */
export interface PeakProof {
  /** `A`, `B`, `C`, or `total`. */
  readonly of: Leg | 'total'
  readonly unit: 'A' | 'W'
  readonly before: number
  readonly after: number
  /** Hour at which the staged peak first stands. */
  readonly atH: number
  readonly bounds: readonly LowerBound[]
  /** Highest of the bounds. */
  readonly bound: number
  readonly proof: ProofState
  /** (after − bound)/bound; 0 when proven. */
  readonly gapFrac: number
}

export interface StagingResult {
  readonly box: string
  readonly phase: string
  readonly control: StagingControl
  /** What was made least, in words. */
  readonly objective: string
  /** Start of every plug, local hours on a circle of 24 h. Plugs that may not be staged keep the opening of their window. */
  readonly startH: Readonly<Record<string, number>>
  /** Plugs that had room to move. */
  readonly moved: readonly string[]
  /** Quarter-hour loads with every plug started when its window opens, and as staged. Sum of magnitudes on a leg: never below the phasor sum. */
  readonly beforeA: LegProfiles
  readonly afterA: LegProfiles
  readonly beforeW: readonly number[]
  readonly afterW: readonly number[]
  /** Highest leg first (the one the size hangs on), then each leg, then the total. */
  readonly peaks: readonly PeakProof[]
  /** The peak that was made least. */
  readonly worst: PeakProof
  /** Highest mean power that no staging can avoid, duty taken as even while on (bound of the whole day and of every span). */
  readonly dutyBoundW: number
  readonly dutyBoundFromH: number
  readonly dutyBoundToH: number
  /** Work counted by the search: placements tried. Never a clock. */
  readonly workCount: number
}
