import type { BoxBuild } from './build.ts'
import type { SystemId } from './types.ts'

/** Trade name of a conductor size: `12 AWG`, `1/0 AWG`, `250 kcmil`, `16 mm2`. */
export type SizeName = string
export type Leg = 'A' | 'B' | 'C'
export type SourceMode = 'network' | 'own set' | 'neighbour'

export interface Device {
  readonly ratingA: number
  readonly poles: 1 | 2 | 3 | 4
  /** Family of the time–current band: `us thermal-magnetic`, `IEC 60898 B`, `IEC 60898 C`, `IEC 60898 D`, `IEC 60947-2`, `gG`. */
  readonly family: string
  readonly interruptingKA: number
}

export interface Shock {
  readonly kind: 'none' | 'class A' | 'equipment 30 mA' | 'rcd'
  readonly sensitivityMA: number | null
  /** RCD form: AC, A, F, B. */
  readonly form: 'AC' | 'A' | 'F' | 'B' | null
}

export interface Wire {
  readonly size: SizeName
  readonly metal: 'cu' | 'al'
  /** `THWN-2`, `RW90`, `PVC`, `XLPE`. */
  readonly insulation: string
}

export interface Run {
  readonly lengthM: number
  readonly line: Wire
  readonly neutral: Wire | null
  readonly protective: Wire | null
  /** `shared`: name of the raceway when several circuits lie in it; absent: it is this circuit's own. */
  readonly raceway: { readonly kind: string; readonly trade: string; readonly shared?: string } | null
  /** Parallel conductors per phase. */
  readonly sets: number
}

export interface Cord {
  readonly plug: string
  readonly type: string
  readonly size: SizeName
  readonly lengthM: number
  readonly jacketMinC: number | null
  /** Plug tag whose physical plug and cord this plug shares: one cord, and its current is the sum. Absent: a cord of its own. */
  readonly sharedWith?: string
}

export interface Circuit {
  readonly id: string
  /** Positions in the panel, odd left, even right. */
  readonly ways: readonly number[]
  /** Legs or phases it takes: one, two (line-line) or three. */
  readonly legs: readonly Leg[]
  /** Line–neutral, line–line, three-phase, three-phase with neutral. */
  readonly connection: 'LN' | 'LL' | 'LLN' | 'LLL' | 'LLLN'
  readonly device: Device
  readonly shock: Shock
  readonly run: Run
  readonly outlet: string
  readonly plugs: readonly string[]
  /** The box's own light, heater, fan, controls; or a spare or stub. */
  readonly own: 'light' | 'heater' | 'fan' | 'control' | 'receptacle' | 'stub' | 'spare' | null
  /** What the box's own circuit feeds; its plugs are not in the machine list. From local hour `fromH`, for `hoursPerDay`. */
  readonly ownLoad?: {
    readonly powerW: number
    readonly voltageV: number
    readonly powerFactorFrac: number
    readonly fromH: number
    readonly hoursPerDay: number
    /** Of a heater inside the panel's cabinet; else what it feeds hangs in the room. */
    readonly at?: 'cabinet'
  }
  readonly cords: readonly Cord[]
  readonly label: string
}

/** How starts are held apart. A timer fails on: it cuts the bill, never the size. An interlock fails off and may. */
export type StagingControl = 'none' | 'timers' | 'interlock'

export interface Staging {
  readonly control: StagingControl
  /** Start of each plug, local hours, on a circle of 24 h. */
  readonly startH: Readonly<Record<string, number>>
  /** Hard cap the interlock holds, VA per leg; null without one. */
  readonly capA: number | null
}

export interface Panel {
  readonly busA: number
  readonly ways: number
  readonly main: Device
  readonly interruptingKA: number
  /** Feed from the point of supply (or the own transformer) to the main. */
  readonly feed: Run
  readonly bond: 'neutral bonded here' | 'neutral not bonded here'
}

export interface OwnTransformer {
  readonly kVA: number
  readonly primaryV: number
  readonly secondaryV: number
  readonly impedancePct: number
  readonly xOverR: number
  readonly phases: 1 | 3
  /** Null: nobody told it. */
  readonly noLoadLossW: number | null
  /** The no-load loss included. Null: nobody told it. */
  readonly fullLoadLossW: number | null
  readonly primary: Device
  readonly primaryRun: Run
}

export interface Electrode {
  readonly kind: 'rods' | 'ring'
  readonly count: number
  readonly lengthM: number
  readonly diameterM: number
  readonly spacingM: number
  readonly conductor: Wire
}

/** One box in one phase of the job. */
export interface BoxDesign {
  readonly box: string
  readonly phase: string
  readonly system: SystemId
  /** Offer that feeds it for the stay, and the interim until it is there. */
  readonly offer: string
  readonly interim: string | null
  readonly serviceA: number
  readonly transformer: OwnTransformer | null
  readonly panel: Panel
  readonly circuits: readonly Circuit[]
  readonly staging: Staging
  readonly electrode: Electrode
  /** What the transfer switches between network and own set. */
  readonly transfer: 'none' | 'neutral switched' | 'neutral solid'
  /** Where the one neutral–earth bond stands when the own set feeds: at the set, or at the first disconnect. */
  readonly setBond: 'at the set' | 'at the first disconnect' | 'none'
  readonly earthing: 'TN-S' | 'TN-C-S' | 'TT' | 'service bond'
  /** Box that feeds this one. */
  readonly fedFrom: { readonly box: string; readonly run: Run; readonly device: Device } | null
}

/** Every choice made. Plain data, complete: `assess` never fills a gap in it. */
export interface Design {
  readonly boxes: readonly BoxDesign[]
  /** How each box is built, once for all phases; a box without one was not laid out. */
  readonly builds: readonly BoxBuild[]
  /** Choices that a person pinned, by path. */
  readonly pinned: readonly string[]
}
