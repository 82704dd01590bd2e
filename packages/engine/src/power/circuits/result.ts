import type { Circuit, Leg, Shock, SizeName, SystemId } from '../../job/index.ts'
import type { MaterialMoney } from '../../parts/index.ts'

export type { MaterialLine, MaterialMoney } from '../../parts/index.ts'

import type { Provenance, Put, Verdict } from '../../kernel/index.ts'

/** Everything `circuits` gives other questions and the book. Plain figures; words are made at the edge. */
export interface CircuitsResult {
  /** One per box and phase, in the order of the design. */
  readonly boxes: readonly BoxCircuits[]
}

/** The circuits of one box in one phase. */
export interface BoxCircuits {
  readonly box: string
  readonly phase: string
  /** As the findings and workings name it: the box alone, or with its phase where the design holds more than one. */
  readonly subject: string
  readonly system: SystemId
  readonly panel: PanelSchedule
  readonly legs: readonly LegLoad[]
  readonly balance: Balance
  readonly circuits: readonly CircuitRow[]
  readonly cords: readonly CordRow[]
  readonly feed: FeedRow
  readonly labels: readonly Label[]
  readonly wires: readonly WireCount[]
  readonly raceways: readonly RacewayCount[]
  readonly material: MaterialMoney
}

/** One position of the panel, odd left, even right. A two- or three-pole circuit has a row for each position. */
export interface WayRow {
  readonly way: number
  readonly side: 'left' | 'right'
  readonly leg: Leg
  /** Null: the way is empty. */
  readonly circuit: string | null
  readonly deviceA: number | null
  readonly poles: number | null
  readonly label: string
  /** Load of the circuit on this way's leg. */
  readonly powerW: number
  readonly apparentVA: number
  readonly currentA: number
}

export interface PanelSchedule {
  readonly busA: number
  readonly mainA: number
  readonly mainPoles: number
  readonly interruptingKA: number
  readonly ways: readonly WayRow[]
  readonly waysCount: number
  readonly usedCount: number
  /** Empty ways, those marked spare among them. */
  readonly spareCount: number
  readonly spareWantedCount: number
  /** Raceways left for the next electrician. */
  readonly stubs: readonly string[]
  readonly bond: string
}

export interface LegLoad {
  readonly leg: Leg
  /** Nameplate of everything on the leg; a load between two legs counts half on each. */
  readonly powerW: number
  readonly apparentVA: number
  /** Everything on at once: sum of the currents, never below the phasor sum. */
  readonly allOnA: number
  /** Largest of the day as staged, and when it begins. */
  readonly peakA: number
  readonly peakH: number
  /** Current at each quarter hour as staged, 96 values from midnight. */
  readonly profileA: readonly number[]
}

export interface Balance {
  /** (largest − mean)/mean of the legs, everything on. */
  readonly allOnImbalanceFrac: number
  /** The same at the quarter hour with the largest leg. */
  readonly peakImbalanceFrac: number
  /** Largest leg of the day as staged. */
  readonly peakA: number
  /** No assignment of legs can have a lower peak than this. */
  readonly peakBoundA: number
  /** True when the assignment in the design reaches the least peak there is. */
  readonly proven: boolean
  /** Largest current in the neutral of the feed: as staged (phasor sum), and in the worst switch position. */
  readonly neutralStagedA: number
  readonly neutralWorstA: number
}

/** One check of one circuit: demand against limit. */
export interface CheckRow {
  /** Finding code, `circuits/terminals`. */
  readonly code: string
  readonly verdict: Verdict
  readonly demand: Put
  readonly limit: Put
  /** Room left as a share of the limit; negative when it fails. Null for counts and yes/no. */
  readonly marginFrac: number | null
  readonly working: string
  readonly provenance: Provenance
}

export interface CircuitRow {
  readonly id: string
  readonly subject: string
  readonly label: string
  readonly ways: readonly number[]
  readonly legs: readonly Leg[]
  readonly connection: Circuit['connection']
  readonly plugs: readonly string[]
  readonly own: Circuit['own']
  readonly outlet: string
  readonly outletCount: number
  readonly powerW: number
  readonly apparentVA: number
  /** Design current IB; for a welder its effective current. */
  readonly currentA: number
  readonly continuousA: number
  readonly deviceA: number
  readonly devicePoles: number
  readonly deviceFamily: string
  readonly interruptingKA: number
  readonly shock: Shock
  /** Shock-protection devices of the circuit: one for each machine. */
  readonly shockCount: number
  readonly line: SizeName
  readonly neutral: SizeName | null
  readonly protective: SizeName | null
  readonly insulation: string
  readonly metal: string
  readonly lengthM: number
  readonly sets: number
  /** Capacity as installed, at the hot end of the inside temperature. */
  readonly ampacityA: number
  readonly ambientC: number
  readonly carryingCount: number
  readonly raceway: string
  readonly racewayShared: string | null
  readonly boxVolumeMm3: number | null
  readonly checks: readonly CheckRow[]
  /** Worst of the checks. */
  readonly verdict: Verdict
}

export interface CordRow {
  readonly plug: string
  /** All the plugs that hang on it: more than one where rows share a physical plug. */
  readonly plugs: readonly string[]
  readonly circuit: string
  readonly what: string
  readonly type: string
  readonly size: SizeName
  readonly lengthM: number
  readonly currentA: number
  readonly ampacityA: number
  readonly jacketMinC: number | null
  /** Design minimum less the margin; null when nobody told the design minimum. */
  readonly wantedMinC: number | null
  readonly verdict: Verdict
}

/** From the point of supply, or from the box that feeds this one, to the main. */
export interface FeedRow {
  readonly from: string
  readonly lengthM: number
  readonly line: SizeName
  readonly neutral: SizeName | null
  readonly protective: SizeName | null
  readonly sets: number
  readonly raceway: string
  readonly electrode: string
  readonly electrodeConductor: SizeName
  readonly checks: readonly CheckRow[]
}

export interface Label {
  /** Where it is stuck: `main`, `way 3`, `outlet G4C`, `light switch`. */
  readonly place: string
  readonly text: string
}

export interface WireCount {
  readonly size: SizeName
  readonly metal: string
  readonly insulation: string
  readonly colour: string
  readonly use: 'line' | 'neutral' | 'protective' | 'electrode'
  /** Pieces, and metres of them all. */
  readonly count: number
  readonly lengthM: number
}

export interface RacewayCount {
  readonly kind: string
  readonly trade: string
  readonly count: number
  readonly lengthM: number
}
