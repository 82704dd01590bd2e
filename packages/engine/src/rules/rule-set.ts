import type { Leg, LoadKind, Plug, RuleSetId, Shock, SizeName } from '../job/index.ts'
import type { Provenance, Source, Worked } from '../kernel/index.ts'
import type { BuildRules } from './build-rules.ts'

/** A cell as printed. A list stands where a row lists sizes (standard ratings, interrupting steps). */
export type Cell = string | number | null | readonly number[]

/** A printed table: rows as printed, unit in the column list, source and provenance. Generated from YAML. */
export interface Table {
  readonly id: string
  /** Folder it stands in: whose table it is. `common`: of no one set. */
  readonly set: RuleSetId | 'common'
  readonly title: string
  readonly units: Readonly<Record<string, string>>
  readonly columns: readonly string[]
  readonly rows: readonly (readonly Cell[])[]
  readonly source: string
  readonly provenance: string
  readonly address: string | null
  readonly notes: readonly string[]
  /** Cells that an overlay changed, and rows it added (column `*`), the last one counting. */
  readonly overlaid?: readonly Overlaid[]
}

/** Who changed a cell, on what ground, and what stood there. */
export interface Overlaid {
  readonly row: number
  readonly column: string
  readonly overlay: string
  readonly source: string
  readonly date: string
  readonly provenance: Provenance
  readonly was: Cell
}

/** A value with the row or clause it stands in. */
export interface Cited<T> {
  readonly value: T
  readonly rests: Source
}

/** A local amendment, a country under `intl`, or a utility's rule book: the rows it changes, with source and date. */
export interface Overlay {
  readonly id: string
  readonly title: string
  readonly kind: 'country' | 'local amendment' | 'utility rule book'
  readonly set: RuleSetId
  readonly invented: boolean
  readonly source: string
  /** ISO date of the text. */
  readonly date: string
  readonly provenance: Provenance
  readonly changes: readonly OverlayChange[]
  readonly adds: readonly OverlayRow[]
}

export interface OverlayChange {
  readonly table: string
  readonly row: number
  readonly column: string
  readonly value: Cell
  readonly source: string
  readonly provenance: Provenance
  readonly why: string
}

export interface OverlayRow {
  readonly table: string
  readonly cells: readonly Cell[]
  readonly source: string
  readonly provenance: Provenance
  readonly why: string
}

export interface System {
  readonly id: string
  readonly title: string
  readonly kind: 'split' | 'wye' | 'delta' | 'single'
  readonly lineLineV: number
  readonly lineNeutralV: number
  readonly legs: readonly Leg[]
  readonly neutral: boolean
  /** Service band as a share of nominal, −/+. */
  readonly bandLowFrac: number
  readonly bandHighFrac: number
  readonly source: Source
}

/** A receptacle or socket by its trade or standard name. */
export interface Outlet {
  readonly id: string
  readonly ratingA: number
  readonly phases: 1 | 3
  readonly connection: 'LN' | 'LL' | 'LLN' | 'LLL' | 'LLLN'
  readonly voltageV: number
  readonly rests?: Source
}

export interface Size {
  readonly name: SizeName
  readonly areaMm2: number
}

export interface ConductorTask {
  readonly metal: 'cu' | 'al'
  readonly insulation: string
  /** Continuous and other current of the circuit, A. Their sum is IB. */
  readonly continuousA: number
  readonly otherA: number
  readonly deviceA: number
  readonly deviceFamily: string
  /** Loaded conductors of this circuit: 2 or 3. */
  readonly loaded: 2 | 3
  /** Current-carrying conductors together in the raceway, this circuit's among them. */
  readonly carrying: number
  /** Circuits together in the raceway. */
  readonly circuits: number
  readonly ambientC: number
  /** More than one receptacle on the circuit: no next size up. */
  readonly multiOutlet: boolean
  /** Own motor: the device by 430.52 or its like may be above the ampacity, and the small-conductor cap does not bind. */
  readonly motor: boolean
  /** Conductors in parallel on each leg. 1 unless said. */
  readonly sets?: number
  /** What the terminals are marked for; unless said, by the set's rule for equipment without a marking. */
  readonly terminalC?: 60 | 75 | 90
  /** Installation method of IEC 60364-5-52 (`B1`, `B2`, `C`, `E`); `B1` unless said. Other sets have no such letter. */
  readonly method?: string
}

/** One of the checks of a conductor: `terminals`, `conditions`, `protected`, `small-conductor`, `overload`. */
export interface ConductorCheck {
  readonly what: 'terminals' | 'conditions' | 'protected' | 'small-conductor' | 'overload'
  readonly holds: boolean
  /** What is asked of it, and what it gives, A. */
  readonly demandA: number
  readonly limitA: number
  readonly steps: Worked<number>['steps']
}

export type TripDemand =
  /** Disconnect within a time: TN or TT. */
  | { readonly kind: 'time'; readonly timeS: number; readonly rests: Source }
  /** No time in the code: will the magnetic part trip, else say the time. */
  | { readonly kind: 'magnetic'; readonly rests: Source }

export interface DropLimit {
  readonly branchFrac: number | null
  readonly totalFrac: number
  readonly basis: 'code' | 'house'
  readonly rests: Source
}

/** A device's band: between these two curves it trips. Times in seconds at multiples of its rating. */
export interface TripBand {
  readonly family: string
  /** Below this multiple it never trips (conventional non-tripping current). */
  readonly holdsRatio: number
  /** Certain thermal points, `[ratio, slowest seconds]`, rising ratio; between them log-log. */
  readonly thermalSlow: readonly (readonly [number, number])[]
  readonly thermalFast: readonly (readonly [number, number])[]
  /** Magnetic part: may trip from, surely trips from, and the time it then takes at most. */
  readonly magneticFromRatio: number
  readonly magneticSureRatio: number
  readonly magneticS: number
  readonly referenceC: number
  readonly rests: Source
}

/** One rule set: data and the few functions that differ. Nothing outside `rules/` asks which one it is. */
export interface RuleSet {
  readonly id: RuleSetId
  /** Code and edition as cited on paper. */
  readonly title: string
  readonly edition: string
  readonly tables: Readonly<Record<string, Table>>
  /** Overlays applied, in order. */
  readonly overlays: readonly Overlay[]
  readonly symbols: 'IEEE 315' | 'IEC 60617'
  readonly frequencyHz: 50 | 60
  readonly systems: readonly System[]
  readonly outlets: readonly Outlet[]
  /** Ascending. */
  readonly sizes: readonly Size[]
  readonly colours: Readonly<Record<'A' | 'B' | 'C' | 'N' | 'PE', string>>
  /** Default choices of the trade under this set. */
  readonly defaults: {
    readonly insulation: string
    readonly deviceFamily: string
    readonly raceway: string
    readonly cordType: string
    readonly panelBusA: readonly number[]
  }
  /** Hanging, cutting, lighting and hauling. */
  readonly build: BuildRules

  /** Does a load that runs this long count as continuous? */
  isContinuous(hours: number, deviceA: number): Worked<boolean>
  /** Smallest device by current: 1.25 continuous + other (us, ca) or IB (intl). Not yet rounded up to a standard rating. */
  deviceNeedA(load: { readonly continuousA: number; readonly otherA: number }): Worked<number>
  /** Standard rating at or above. Null when none. */
  nextDeviceA(neededA: number, family?: string): Worked<number | null>
  /** Highest steady current that may stay on a device: 80 % in us and ca, all of it in intl. */
  deviceHoldsA(deviceA: number): Worked<number>
  motorDeviceA(motor: {
    readonly hp?: number
    readonly shaftW?: number
    readonly currentA: number
    readonly voltageV: number
    readonly phases: 1 | 3
    readonly hardStart?: boolean
  }): Worked<{
    readonly tableA: number
    readonly conductorA: number
    readonly deviceMaxA: number
  }>

  /** Carrying capacity as installed, every factor shown. */
  ampacityA(size: SizeName, task: ConductorTask): Worked<number>
  /** Every check of the set on one size, in its order, each with its own lines: what `conductorFor` must pass. */
  conductorChecks?(size: SizeName, task: ConductorTask): readonly ConductorCheck[]
  /** Smallest size that passes every check of the set, in its order. Null when none does. */
  conductorFor(task: ConductorTask): Worked<SizeName | null>
  /** Of a flexible cord. */
  cordAmpacityA(cord: {
    readonly size: SizeName
    readonly type: string
    readonly loaded: 2 | 3
    readonly ambientC: number
  }): Worked<number>
  cordSizes(): readonly SizeName[]
  /** Lowest temperature usually marked on the jacket; null when the type is not in the table. */
  cordColdC(type: string): Worked<number | null>
  /** Of one conductor at a temperature; `where` steers the reactance: raceway kind or `cord`. */
  impedanceOhmPerM(wire: {
    readonly size: SizeName
    readonly metal: 'cu' | 'al'
    readonly where: string
    readonly temperatureC: number
  }): Worked<{
    readonly r: number
    readonly x: number
  }>
  /** `grownFrom`: the size the load alone asked for, when the line was made heavier for drop. */
  protectiveFor(task: {
    readonly deviceA: number
    readonly line: SizeName
    readonly grownFrom: SizeName
    readonly metal: 'cu' | 'al'
  }): Worked<SizeName>
  electrodeConductorFor(task: {
    readonly line: SizeName
    readonly metal: 'cu' | 'al'
    readonly electrode: 'rods' | 'ring'
  }): Worked<SizeName>
  /** Largest unbalance the neutral may carry, after what the set lets off. */
  neutralA(load: {
    readonly unbalanceA: number
    readonly nonLinearFrac: number
    readonly system: System
    readonly lineA: number
  }): Worked<number>
  neutralCounts(circuit: {
    readonly connection: Outlet['connection']
    readonly system: System
    readonly nonLinearFrac: number
  }): Worked<boolean>
  /** k of the adiabatic equation, A·√s/mm². */
  adiabaticK(wire: { readonly metal: 'cu' | 'al'; readonly insulation: string }): Worked<number>

  /** Metal trough with a cover along its length: share of its inside that wires may take, how many carrying conductors at one section lie in it as if alone, greatest distance between supports. */
  readonly wireway: {
    readonly fillFrac: Cited<number>
    readonly uncountedTo: Cited<number>
    readonly supportEveryM: Cited<number>
  }
  /** Outside area of an insulated conductor. */
  wireAreaMm2(wire: { readonly size: SizeName; readonly insulation: string }): Cited<number>
  /** Smallest raceway for these wires; null when none. */
  racewayFor(wires: readonly { readonly size: SizeName; readonly insulation: string }[], kind: string): Worked<string | null>
  /** Volume a box must have, mL (the steps show the set's own unit). */
  boxFill?(task: {
    readonly conductors: readonly SizeName[]
    readonly devices: number
    readonly deviceWire: SizeName
    readonly clamps: boolean
    readonly grounds: number
    readonly groundSize?: SizeName
    readonly connectorPairs?: number
  }): Worked<number>

  /** Shock protection a plug's outlet must have. */
  shockFor(task: {
    readonly outlet: Outlet
    readonly system: System
    readonly use: Plug['use']
    readonly kind: LoadKind
    readonly temporary: boolean | null
    readonly outdoors: boolean
    readonly hardWired: boolean
    /** Height of the outlet above grade; unknown counts as within reach of the rule. */
    readonly aboveGradeM?: number
  }): Worked<Shock>
  dropLimit(task: {
    readonly kind: LoadKind
    readonly privateSource: boolean
    readonly lengthM: number
    readonly lighting?: boolean
  }): DropLimit
  tripDemand(task: {
    readonly system: System
    readonly earthing: string
    readonly deviceA: number
    readonly distribution: boolean
  }): TripDemand
  tripBand(family: string, deviceA: number): TripBand
  /** Voltage factor for the highest and lowest fault. */
  voltageFactor(): Worked<{ readonly max: number; readonly min: number }>
  interruptingStepsKA(system: System, main: boolean): readonly number[]
  motorContributionRatio(): Worked<number>
  /** Demand that the set's own text gives for vehicle-heater outlets, where it has one; null where nameplate rules. */
  vehicleHeaterDemandW(task: {
    readonly count: number
    readonly circuitA: number
    readonly restricted: boolean
    readonly nameplateW: number
  }): Worked<number> | null
  /** Which current a feeder or service must be sized for, from the loads on its worst leg. */
  demandA(task: {
    readonly continuousA: number
    readonly otherA: number
    readonly largestMotorA: number
    readonly generalVA: number
    readonly lineV: number
  }): Worked<number>
  transformerDevice(task: {
    readonly primaryA: number
    readonly secondaryProtected: boolean
    readonly dry: boolean
    readonly secondaryA?: number
  }): Worked<{ readonly primaryMaxA: number; readonly secondaryMaxA: number | null }>
  /** Smallest feeder conductor for a group of motors: the largest counts more. */
  motorFeederA(tableA: readonly number[]): Worked<number>
  /** Largest device of a feeder to motors: the largest branch device and the others' currents, next rating down. */
  motorFeederDeviceA(task: { readonly largestDeviceA: number; readonly othersA: readonly number[] }): Worked<number | null>
  /** Longest loop impedance, of line and protective conductor, that trips the magnetic part; lowest voltage factor in it. */
  loopLimitOhm(task: { readonly family: string; readonly deviceA: number; readonly toEarthV: number }): Worked<number>
  /** Share of the loop limit that a cold reading may reach, so that it still holds hot. Null where the set knows no such share. */
  coldLoopFrac(): Worked<number> | null
  /** Form of earthing that a movable box with a metal skin takes from what the source offers. */
  earthingOf(offered: string | null, forbidden: boolean): Worked<'TN-S' | 'TN-C-S' | 'TT' | 'service bond'>
  /** Must the transfer between network and own set switch the neutral? */
  transferNeed(): Worked<'neutral switched' | 'either'>
  /** An outlet by its id; `hard-wired` is made from the machine. Null when the set does not know it. */
  outletNamed(
    id: string,
    machine?: {
      readonly ratingA: number
      readonly phases: 1 | 3
      readonly connection: Outlet['connection']
      readonly voltageV: number
    },
  ): Outlet | null
  /** How the neutral of an own set must be bonded with this transfer. */
  setBond(transfer: 'none' | 'neutral switched' | 'neutral solid'): Worked<'at the set' | 'at the first disconnect' | 'none'>
  /** Electrodes the set asks for, and whether a value is asked. */
  electrodes(): Worked<{
    readonly rods: number
    readonly rodM: number
    readonly rodDiameterM: number
    readonly spacingM: number
    readonly valueOhm: number | null
  }>
}
