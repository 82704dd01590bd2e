import type { OfferKind, SourceMode } from '../../job/index.ts'
import type { Verdict } from '../../kernel/index.ts'
import type { Ends } from '../needs/index.ts'

export interface OfferTransformer {
  readonly kVA: number
  readonly own: boolean
  readonly phases: 1 | 3
  readonly impedancePct: Ends
  /** Steady demand over rating, everything on. */
  readonly loadFrac: number
  readonly verdict: Verdict
}

/** Line of a month's bill. Both ends where the tariff, the power factor or the peak is bounded; null: the tariff says nothing. */
export interface BillLine {
  readonly what: 'fixed' | 'energy' | 'demand' | 'power factor' | 'fuel' | 'hire'
  /** How it was worked out, in words: “1000 kWh × 0.14 + 4000 × 0.11”. */
  readonly said: string
  readonly money: Ends | null
}

export interface Bill {
  readonly currency: string
  /** Month of full days. */
  readonly energyKWh: number
  readonly peakKW: number
  readonly peakKVA: Ends
  readonly lines: readonly BillLine[]
  /** Sum of the lines that are known; `complete` false when one is not: then this is a floor, not a bill. */
  readonly totalMoney: Ends
  readonly complete: boolean
}

export interface GeneratorSizing {
  readonly offer: string
  /** Nameplate of one set, and after altitude, heat and prime duty. */
  readonly ratedKW: number
  readonly ratedKVA: number
  readonly availableKW: Ends
  readonly availableKVA: Ends
  readonly sets: number
  /** Largest steady load as staged and everything on. */
  readonly stagedKW: number
  readonly allOnKW: number
  readonly stagedKVA: number
  readonly allOnKVA: number
  /** Highest share of one phase's rating that line–neutral and line–line load takes, everything on. */
  readonly onePhaseFrac: number
  readonly meanKW: number
  readonly meanFrac: number
  /** Least mean share that keeps a diesel clean. */
  readonly meanLeastFrac: number
  readonly largestStart: {
    readonly plug: string
    readonly startKVA: Ends
    readonly dipFrac: Ends
    readonly limitFrac: number
    readonly verdict: Verdict
  } | null
  /** Of a month of full days, both ends of the chart's own accuracy. */
  readonly fuelLPerMonth: Ends
  readonly fuelMoneyPerMonth: Ends | null
  readonly quietKept: boolean
  readonly quietLoadKW: number
  readonly verdict: Verdict
}

/** One offer at one size: a utility that offers two services has two rows. */
export interface OfferRow {
  readonly offer: string
  /** Rating of the own transformer that the row takes between the offer and the box; null: none. */
  readonly ownTransformerKVA: number | null
  readonly kind: OfferKind
  readonly what: string
  readonly system: string
  readonly available: boolean
  /** Size taken: service A, generator kW, spare A. */
  readonly sizeA: number | null
  readonly sizeSaid: string
  readonly needA: number
  readonly transformer: OfferTransformer | null
  /** Load of other boxes that the design puts on the same offer in the same phase; counted into transformer, set and spare current. */
  readonly sharedKVA?: number
  /** Of nominal over the run to the box, approximate formula, everything on; null when the run or size is not known. */
  readonly dropFrac: Ends | null
  readonly meterPlace: string
  readonly feeMoney: number | null
  readonly leadDays: number | null
  /** ISO date, order date + lead; null when either is not known. */
  readonly readyDate: string | null
  /** Days after the date needed; negative: days in hand. */
  readonly lateDays: number | null
  readonly oneOffMoney: number | null
  readonly monthlyMoney: Ends | null
  readonly overStayMoney: Ends | null
  readonly bill: Bill | null
  readonly generator: GeneratorSizing | null
  /** What it still lacks, in words. */
  readonly lacks: readonly string[]
  readonly verdict: Verdict
  /** 1 is best; refused and unavailable offers come last. */
  readonly rank: number
  readonly why: string
}

/** What feeds the job between the date needed and the date the chosen offer is ready. */
export interface Interim {
  readonly fromDate: string | null
  readonly toDate: string | null
  readonly days: number
  readonly offer: string | null
  readonly money: Ends | null
  readonly why: string
}

export interface BondPoint {
  readonly where: 'service' | 'panel' | 'set' | 'first disconnect' | 'own transformer' | 'neighbour'
  /** Made by us, on our side of the supply point, or there already. */
  readonly ours: boolean
}

/** Neutral–earth bonds that are electrically joined to the box's neutral in one position of the switch. */
export interface BondPosition {
  readonly position: SourceMode
  readonly earthing: 'TN-S' | 'TN-C-S' | 'TT' | 'service bond' | 'IT'
  readonly bonds: readonly BondPoint[]
  readonly wanted: number
  readonly verdict: Verdict
  readonly said: string
}

export interface BoxSupply {
  readonly box: string
  readonly phase: string
  readonly offers: readonly OfferRow[]
  /** The offer of the design, its row, and the best by rank. */
  readonly chosen: string
  readonly chosenRow: OfferRow | null
  readonly best: string | null
  readonly interim: Interim | null
  readonly bonds: readonly BondPosition[]
}

export interface SupplyResult {
  /** Boxes with a supply of their own; a box fed from another box is in that box's demand. */
  readonly boxes: readonly BoxSupply[]
}

/** One service with feeders between the boxes against a service for each, as a plan weighed them. */
export interface FeedersWeighed {
  /** Boxes that could share a service. */
  readonly boxes: readonly string[]
  /** Null where one of the two ways was never worked out. */
  readonly weighed: string | null
  /** Why it was not weighed; a sentence without its end. */
  readonly why: string | null
}
