import type { Leg, LoadKind, StagingControl } from '../../job/index.ts'
import type { Provenance } from '../../kernel/index.ts'
import type { StagingResult } from '../staging/index.ts'

/** Both ends of what is bounded. A told value has equal ends. */
export interface Ends {
  readonly low: number
  readonly high: number
}

/** W, VA and A of one plug, and whether the row agrees with itself. */
export interface PlugNeed {
  readonly tag: string
  readonly row: string
  readonly what: string
  readonly machine: string
  /** The box's own light, heater, fan or control, not a machine of the list. */
  readonly own: boolean
  readonly kind: LoadKind
  readonly outlet: string
  readonly voltageV: number
  readonly phases: 1 | 3
  readonly powerW: number
  /** By current and voltage: V·I, √3·V·I three-phase. */
  readonly apparentVA: Ends
  readonly reactiveVar: Ends
  readonly powerFactorFrac: Ends
  readonly currentA: number
  readonly legs: readonly Leg[]
  readonly hoursPerDay: number
  readonly fromH: number
  readonly readyH: number
  readonly dutyFrac: number
  readonly daysPerYear: number
  /** |P − V·I·pf·k| / P at the nearest end of the power factor; null where the current was not told. */
  readonly disagreementFrac: number | null
  /** Runs long enough to be continuous under the rule set. */
  readonly continuous: boolean
  /** Element marked for another voltage: watts left over watts marked. */
  readonly elementFrac: number | null
  readonly energyPerDayKWh: number
  readonly energyPerYearKWh: number
  /** Power, voltage and current were told, computed, or assumed. */
  readonly provenance: Provenance
}

/** Sums over a list of plugs, everything on at nameplate. */
export interface Sums {
  readonly plugs: number
  readonly powerW: number
  readonly reactiveVar: Ends
  /** Plain sum of VA: never below the vector sum. */
  readonly plainVA: number
  /** √(ΣP² + ΣQ²), the VA that flows. */
  readonly vectorVA: Ends
  readonly powerFactorFrac: Ends
  readonly energyPerDayKWh: number
  readonly energyPerYearKWh: number
  /** Mean of twelve months of the yearly energy, and a month of full days. */
  readonly energyMeanMonthKWh: number
  readonly energyFullMonthKWh: number
}

/** One leg or phase with everything on: arithmetic sum, phasor sum, and how it splits by the continuous rule. */
export interface LegDemand {
  readonly leg: Leg
  readonly allOnA: number
  readonly phasorA: number
  readonly stagedA: number
  readonly continuousA: number
  readonly otherA: number
  readonly largestMotorA: number
  /** Largest heater-only current of line–neutral plugs: what an open or shared neutral may have to carry. */
  readonly lineNeutralA: number
}

/** What the service must be sized for. */
export interface ServiceDemand {
  readonly worstLeg: Leg
  readonly legs: readonly LegDemand[]
  /** 1.25 continuous + other, or IB, as the rule set asks, on the worst leg; before growth. */
  readonly needA: number
  /** With the growth that was asked for. */
  readonly needWithGrowthA: number
  readonly growthFrac: number
  /** Smallest standard device at or above it; null when none. */
  readonly deviceA: number | null
  /** Every plug at once, or the cap that an interlock holds. */
  readonly basis: 'everything on' | 'held by an interlock that fails off'
  readonly capA: number | null
  readonly allOnW: number
  readonly allOnVA: number
  /** (highest leg − mean)/mean, everything on. */
  readonly imbalanceFrac: number
}

/** After an outage everything that is cold starts together. */
export interface ColdRestart {
  readonly sumW: number
  readonly sumA: Readonly<Record<Leg, number>>
  readonly worstA: number
  /** Largest motor start on top of the full sum, on the worst leg. */
  readonly withLargestStartA: number
  /** What holds the rest off; null: nothing does. */
  readonly lockedOutBy: string | null
}

export interface BoxNeeds {
  readonly box: string
  readonly phase: string
  /** Machines fed by this box itself, its own light, heater, fan and controls, and the boxes fed from it. */
  readonly rows: readonly PlugNeed[]
  readonly machines: Sums
  readonly own: Sums
  readonly all: Sums
  readonly control: StagingControl
  readonly staging: StagingResult
  readonly demand: ServiceDemand
  readonly coldRestart: ColdRestart
  /** Quarter-hour mean power over a full day as staged, duty counted: for energy, losses and heat. */
  readonly meanW: readonly number[]
  /** Hourly energy of a full day, 24 values; their sum is the energy of the day. */
  readonly hourlyKWh: readonly number[]
  /** Physical plugs that feed more than one row: tags and summed current. */
  readonly sharedPlugs: readonly {
    readonly plug: string
    readonly tags: readonly string[]
    readonly currentA: number
    readonly powerW: number
  }[]
}

export interface NeedsResult {
  readonly boxes: readonly BoxNeeds[]
  /** Machines of the whole job, each once, whichever box feeds them. Plain sums, no design in them. */
  readonly machines: Sums
  /** Bound of every staging over the machines of the whole job, duty even while on. */
  readonly dutyBoundW: number
}
