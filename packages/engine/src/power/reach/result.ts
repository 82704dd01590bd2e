import type { Leg, SizeName, SourceMode } from '../../job/index.ts'
import type { Basis, Verdict } from '../../kernel/index.ts'

/** How a load state ended: solved, proven to have no solution, or the iteration gave up. */
export type Outcome = 'solved' | 'none' | 'given up'

/** At one plug, in one load state. Volts at the weak end of the source; `bestV` at the strong end. */
export interface PlugVolts {
  readonly plug: string
  readonly circuit: string
  readonly nominalV: number
  readonly voltageV: number
  readonly bestV: number
  /** Of nominal. */
  readonly voltagePct: number
  /** Lost from the point of supply, and from the panel, as a share of nominal; negative when it rises. */
  readonly totalDropFrac: number
  readonly branchDropFrac: number
  /** From the panel to the outlet, the cord not among it: what the branch limit is held to. */
  readonly outletDropFrac: number
  readonly currentA: number
  readonly powerW: number
  /** Heat or power left, share of what the plate says at nominal; null for a load that holds its power. */
  readonly heatLeftFrac: number | null
}

/** All on at once, or one hour of the staged day. */
export interface LoadState {
  readonly id: string
  /** Hours of the day with this same set on; empty for all on. */
  readonly hoursH: readonly number[]
  readonly outcome: Outcome
  /** Plugs that stop the solution, when there is none. */
  readonly culprits: readonly string[]
  readonly plugs: readonly PlugVolts[]
  /** At the panel, weak end: each leg to neutral (to another leg where there is none). */
  readonly panelV: Readonly<Record<string, number>>
  /** At the panel, strong end. */
  readonly panelBestV: Readonly<Record<string, number>>
  readonly legA: Readonly<Partial<Record<Leg, number>>>
  readonly neutralA: number
  readonly sourceW: number
  readonly loadW: number
  readonly lossW: number
  /** Largest Kirchhoff residual, A, and power out of balance, W. */
  readonly residualA: number
  readonly imbalanceW: number
  readonly passes: number
}

export interface StartDip {
  readonly plug: string
  readonly startA: number
  readonly startPowerFactorFrac: number
  /** Dip at the starting machine and at the panel, % of the volts before. */
  readonly atMachinePct: number
  readonly atPanelPct: number
  /** Volts at every plug during the start, % of nominal. */
  readonly neighbours: readonly { readonly plug: string; readonly voltagePct: number; readonly dipPct: number }[]
  readonly below85: readonly string[]
  readonly below70: readonly string[]
}

export interface OpenNeutral {
  /** Which neutral was opened: the feed's. */
  readonly segment: string
  readonly legV: Readonly<Record<string, number>>
  /** Plugs above 110 % of nominal, and the volts. */
  readonly over: readonly { readonly plug: string; readonly voltageV: number; readonly voltagePct: number }[]
  readonly outcome: Outcome
}

/** One cord as it lies. */
export interface CordReach {
  readonly plug: string
  readonly circuit: string
  readonly type: string
  readonly size: SizeName
  readonly lengthM: number
  readonly currentA: number
  readonly ampacityA: number
  readonly dropV: number
  readonly dropPct: number
  readonly jacketMinC: number | null
  readonly neededMinC: number | null
  readonly verdict: Verdict
  /** Longest cord of each gauge that still holds drop and ampacity here; null when the gauge does not carry the load. */
  readonly longest: readonly {
    readonly size: SizeName
    readonly lengthM: number | null
    readonly by: 'drop' | 'ampacity' | 'volts at the machine'
  }[]
}

export interface VoltageLimit {
  readonly branchFrac: number | null
  readonly totalFrac: number
  readonly basis: Basis
  readonly place: string
}

/** One box, in one phase, on one source. */
export interface BoxReach {
  readonly box: string
  readonly phase: string
  readonly mode: SourceMode
  readonly offer: string
  readonly conductorC: number
  readonly limit: VoltageLimit
  /** First is all on at once. */
  readonly states: readonly LoadState[]
  readonly starts: readonly StartDip[]
  readonly openNeutral: OpenNeutral | null
  readonly cords: readonly CordReach[]
}

export interface ReachResult {
  readonly boxes: readonly BoxReach[]
}
