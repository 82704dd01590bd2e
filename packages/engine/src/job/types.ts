/**
 * The job as the engine sees it: SI inside, every row expanded, every default taken and recorded.
 * The document people write (YAML, `schema/`) is read into this shape by `readJob`; nothing else makes one.
 */

import type { QuestionId } from '../kernel/index.ts'
import type { BoxAirFacts } from './box-air.ts'
import type { ClimateFacts } from './climate-facts.ts'
import type { DatesFacts } from './dates.ts'
import type { BoxSurvey } from './survey.ts'
import type { BuiltBody, YardFacts } from './yard.ts'

export type RuleSetId = 'us' | 'ca' | 'intl'
export type SystemId = string

/** Both ends of what is not known. A told value has equal ends. */
export interface Span {
  readonly low: number
  readonly high: number
  /** Who said so, or the sourced range it was bounded by. */
  readonly basis: string
  readonly told: boolean
  /** Neither told nor bounded: found by another question of the same design. */
  readonly computed?: true
}

/** A default that was taken, or a range used, because nobody said. Shown and pinnable. */
export interface Assumption {
  /** Path in the job document where telling it would replace the default. */
  readonly path: string
  readonly said: string
  readonly source: string
}

export type LoadKind = 'heater' | 'charger' | 'electronic' | 'motor' | 'drive' | 'welder' | 'mixed'
export type MotorStart = 'direct' | 'soft' | 'star-delta' | 'drive'

export interface MotorPlate {
  /** Shaft power as written. */
  readonly shaftW?: number
  readonly hp?: number
  readonly fullLoadA?: number
  readonly lockedRotorA?: number
  readonly codeLetter?: string
  readonly start: MotorStart
  /** Starting current over full-load current. */
  readonly startRatio?: number
  readonly efficiencyFrac?: number
}

/** One plug: a machine row of count n becomes n of these. */
export interface Plug {
  readonly tag: string
  /** Tag of the row in the document. */
  readonly row: string
  readonly what: string
  readonly kind: LoadKind
  /** Electrical input while on, at the voltage it is fed. */
  readonly powerW: number
  readonly voltageV: number
  readonly phases: 1 | 3
  readonly powerFactorFrac: Span
  /** As written, or P/(V·pf) · P/(√3·V·pf). */
  readonly currentA: number
  readonly currentTold: boolean
  readonly outlet: string
  readonly hoursPerDay: number
  /** May be on from, must be ready at, local hours in [0, 24); equal means all day; end ≤ start crosses midnight. */
  readonly fromH: number
  readonly readyH: number
  readonly daysPerYear: number
  /** Mean share of the nameplate while on. */
  readonly dutyFrac: number
  readonly cordM: number
  readonly motor?: MotorPlate
  /** Element's own plate when it is fed at another voltage. */
  readonly rated?: { readonly powerW: number; readonly voltageV: number }
  /** Rows that share one physical plug name the same string: their currents add. */
  readonly plugShared?: string
  /** Machine this element belongs to, so that “both elements of one groomer” can be said. */
  readonly machine: string
  /** Used by rule sets: vehicle heater, tank heater, heat trace, hand tools, general. */
  readonly use: 'vehicle-heater' | 'heat-trace' | 'tools' | 'building' | 'charger' | 'pump' | 'general'
  /** Box that feeds it in each phase; absent box: not fed in that phase. */
  readonly fedBy: Readonly<Record<string, string>>
  /** Never shed or staged: always ready. */
  readonly essential: boolean
  /** The document gave the power itself (not an element's plate, a current or a shaft power). */
  readonly powerTold?: boolean
  /** Share of the power between a line and neutral, for a machine on two lines and neutral. */
  readonly lineNeutralFrac?: Span
  /** May leak smooth direct current, as its maker says; null when nobody said. */
  readonly leaksDc?: boolean | null
}

export interface Phase {
  readonly id: string
  readonly fromMonth: number
  readonly toMonth: number
  readonly said: string
  /** Boxes that stand there in this phase; absent: all. */
  readonly boxes?: readonly string[]
}

/** Something the document does not say and for which no range and no default exists: these questions answer `unknown`. */
export interface Missing {
  /** Path in the job document where it would stand. */
  readonly path: string
  /** Tag of the thing it is missing from, or `job`. */
  readonly subject: string
  /** What is missing, one sentence. */
  readonly said: string
  readonly questions: readonly QuestionId[]
}

/** A transformer of the box's own that may be chosen. */
export interface TransformerOffered {
  readonly kVA: number
  readonly impedancePct: Span
  readonly xOverR: Span
  readonly phases: 1 | 3
  readonly noLoadLossW: number | null
  /** Total at full load, the no-load loss included. */
  readonly fullLoadLossW: number | null
  readonly massKg: number | null
}

export interface BoxWanted {
  readonly id: string
  readonly lengthFt: number
  readonly heightKind: 'standard' | 'high'
  readonly heatedC: Span | null
  /** Inside temperature of the box at the hottest hour it carries load, and in the coldest: told, or bounded; the hottest also as its year found it. */
  readonly insideHotC: Span
  readonly insideColdC: Span
  readonly spareWaysFrac: number
  /** Fed from another box instead of a supply of its own. */
  readonly fedFrom?: { readonly box: string; readonly lengthM: number }
  /** How long a feeder to another box would be; told at one of the two, it holds both ways. Nothing is laid by it. */
  readonly distances?: readonly { readonly box: string; readonly lengthM: number }[]
  /** Colour and coating, in words. */
  readonly paint?: string
  /** Compass bearing the door end looks to. Absent: nobody said. */
  readonly doorFacesDeg?: number
  /** Stands on skids and is dragged. Absent: no. */
  readonly onSkids?: boolean
  /** How it is to be cooled, in words. Absent: nobody said. */
  readonly cooled?: string
  /** How often it moves, in words. Absent: one move, to the site. */
  readonly moves?: string
  /** How it is used, how tight it is, what is under and beside it. Absent: nothing is told. */
  readonly airFacts?: BoxAirFacts
  /** Heater and fan that its design wires, where a design says so: a pin of a person stands over it. Absent: by house rule. */
  readonly wired?: WiredAir
}

/** What keeps a box dry and cool and draws current for it. A fan that a panel in the sun drives is none. */
export interface WiredAir {
  readonly heater: { readonly powerW: number; readonly at: 'room' | 'cabinet' } | null
  readonly fanW: number | null
}

export type OfferKind = 'utility' | 'generator' | 'neighbour'

export interface Offer {
  readonly id: string
  readonly kind: OfferKind
  readonly what: string
  readonly system: SystemId
  readonly available: boolean
  /** Utility: each service size offered, A. */
  readonly serviceA: readonly number[]
  readonly transformer?: {
    readonly kVA: number
    readonly impedancePct: Span
    readonly xOverR: Span
    readonly phases: 1 | 3
    readonly own?: boolean
    readonly noLoadLossW?: number
    readonly fullLoadLossW?: number
  }
  /** Written fault level at the point of supply, when the utility gave one. */
  readonly faultA?: {
    readonly value: number
    readonly by: string
    /** The highest of any kind; else between lines. */
    readonly ofAny?: boolean
  }
  readonly distanceM: number
  readonly overhead?: boolean
  readonly leadDays: number | null
  readonly oneOffMoney: number | null
  readonly hirePer28DaysMoney?: number
  readonly energyMoneyPerKWh?: number
  readonly generator?: {
    readonly ratedKW: number
    readonly ratedKVA: number
    readonly sets: number
    readonly subtransientPct: Span
    readonly turbo: boolean | null
    readonly boostExcitation: boolean | null
    readonly neutralBondFactory: boolean | null
  }
  readonly spareA?: number
  readonly spareKVA?: number
  /** Phases in which the spare current may be taken; absent: those of the system. */
  readonly sparePhases?: 1 | 3
  /** Voltage of the line the offer comes from, when a transformer belongs to it. */
  readonly supplyV?: number
  /** Earthing the source offers: TN-S, TN-C-S, TT, IT. */
  readonly earthing: string | null
  readonly earthingForbidden: boolean
  /** It may be cut off at this notice. */
  readonly noticeH?: number
  readonly quietHours?: { readonly fromH: number; readonly toH: number }
  readonly note: string
}

export interface Tariff {
  readonly currency: string
  readonly fixedMoneyPerMonth: number | null
  readonly blocks: readonly { readonly upToKWh: number | null; readonly moneyPerKWh: number }[]
  readonly demandMoneyPerKW: number | null
  readonly demandMoneyPerKVA: number | null
  readonly demandWindowMin: number
  readonly ratchetFrac: number
  readonly powerFactorFloorFrac: number | null
  readonly dieselMoneyPerL: number | null
}

export interface Site {
  readonly place: string
  readonly latitudeDeg: number | null
  readonly elevationM: number
  readonly designMinC: number | null
  readonly designMaxC: number | null
  readonly extremeMinC: number | null
  readonly meanCByMonth: readonly number[] | null
  readonly soilOhmM: Span
  readonly frozenSoilOhmM: Span
  readonly frostDepthM: Span
  /** Temporary installation, as the job says; null when nobody said. */
  readonly temporary: boolean | null
}

/** A decision pinned by a person. */
export interface Pin {
  readonly path: string
  readonly value: string | number | boolean
  readonly by: string
  readonly why: string
}

/** Money as the document has it; null: nobody said. */
export interface MoneyTold {
  readonly welderPerHMoney: number | null
  readonly helperPerHMoney: number | null
  readonly overheadPerHMoney: number | null
  readonly marginFrac: number | null
  readonly usedBoxMoney: number | null
  readonly newBoxMoney: number | null
  readonly haulMoney: number | null
  readonly budgetMoney: number | null
  readonly rentPeriodDays: number | null
  readonly rentWanted: string | null
  readonly buyOrRent: 'buy' | 'rent' | 'both'
  /** Days a year that it is used; null: all year. */
  readonly seasonDays: number | null
  /** Hours that heaters run in a winter; null: nobody said. */
  readonly winters: { readonly mildH: number; readonly middleH: number; readonly hardH: number } | null
}

export interface Job {
  readonly title: string
  readonly invented: boolean
  readonly rules: { readonly set: RuleSetId; readonly edition: string | null; readonly overlays: readonly string[] }
  /** Voltage system at the panel. */
  readonly system: SystemId
  readonly plugs: readonly Plug[]
  readonly boxes: readonly BoxWanted[]
  readonly phases: readonly Phase[]
  readonly offers: readonly Offer[]
  readonly tariff: Tariff
  readonly site: Site
  readonly needs: {
    readonly growthFrac: number
    readonly goal: 'least cost over the stay' | 'least first cost' | 'earliest date'
    readonly stayMonths: number
    readonly orderDate: string | null
    readonly neededBy: string | null
    /** Day by which the shop promised to ring back. Absent: nobody waits. */
    readonly ringBack?: string | null
    /** Whom the offer is made to. Absent: nobody told. */
    readonly customer?: string | null
    /** Days from order to need, by dates or as written (“14 weeks after order”); null when not known. */
    readonly daysToNeed?: number | null
    /** Staging control a person will accept: none, timers (cuts the bill only), interlock (a hard cap that fails off). */
    readonly manualAllOn: boolean
    /** Way from its box to a machine, by the machine's name: clockwise, seen from above, from the way the door end looks. Drawn only. */
    readonly bearingDeg?: Readonly<Record<string, number>>
    readonly forbidden: readonly string[]
    readonly frequencyHz: 50 | 60
  }
  readonly money: {
    readonly currency: string
    readonly electricianPerHMoney: number | null
    readonly interestFrac: number | null
    /** What else the caller said of money; absent: nothing. In the job's currency. */
    readonly told?: MoneyTold
  }
  /** As built, when the box already stands in the yard; free facts the power questions read. */
  readonly built: BuiltBox | null
  /** The same box's steel and mass. */
  readonly builtBody: BuiltBody | null
  /** What was measured on the steel, one for each box at most. */
  readonly surveys: readonly BoxSurvey[]
  /** Snow, wind, ground and the way to it. */
  readonly yard: YardFacts
  /** Place and climate as air reads them. Absent: nothing is told. */
  readonly climate?: ClimateFacts
  /** What is told of tasks, closed times, permits and holidays. Absent: nothing. */
  readonly dates?: DatesFacts
  readonly pins: readonly Pin[]
  readonly assumed: readonly Assumption[]
  /** Document keys that were read and kept, but that no built question uses yet. */
  readonly unused: readonly string[]
  /** What is missing and has no default. Empty: nothing. */
  readonly missing?: readonly Missing[]
  readonly ownTransformers?: readonly TransformerOffered[]
}

export interface BuiltBox {
  readonly rulesWhenBuilt: RuleSetId
  readonly system: SystemId
  readonly serviceA: number
  readonly interruptingKA: number
  readonly ways: number
  readonly circuits: readonly {
    readonly outlet: string
    readonly count: number
    readonly deviceA: number
    readonly poles: 1 | 2 | 3
    readonly conductor: string
    readonly shock: string
  }[]
  readonly cords: readonly {
    readonly count: number
    readonly size: string
    readonly lengthM: number
    readonly jacketMarkedC: number | null
  }[]
  readonly outletDeviceMinC: number | null
  readonly electrodeOhm: number | null
  readonly neutralBond: string
  readonly approval: string
  readonly lastFullTestMonthsAgo: number | null
  readonly defects: readonly string[]
}
