import type { PointMm, Side, SizeName } from '../job/index.ts'
import type { CutPlan } from './cut/types.ts'

/** Everything the shop buys, cuts and does, box by box. */
export interface ShopResult {
  readonly boxes: readonly BoxShop[]
}

export interface BoxShop {
  readonly box: string
  readonly type: string
  readonly bill: Bill
  readonly cuts: readonly SectionCut[]
  readonly raceways: readonly RacewaySheet[]
  readonly wires: readonly WirePull[]
  readonly wireTotals: readonly WireTotal[]
  readonly holes: readonly WallHoles[]
  readonly knockouts: readonly KnockoutRow[]
  readonly hours: HoursSheet
  readonly steps: readonly BuildStep[]
  readonly torque: readonly TorqueRow[]
  readonly serials: readonly SerialRow[]
  readonly labels: readonly LabelRow[]
}

/** Sheets of the bill, in the order of the building. */
export const BILL_SHEETS = ['steel', 'raceway', 'wire', 'gear', 'cords', 'earth'] as const
export type BillSheet = (typeof BILL_SHEETS)[number]

/** One line of the bill. Nothing in it is typed: quantities come from the design, the cutting plans and the pull list. */
export interface BillLine {
  readonly sheet: BillSheet
  /** Row of the price table: `conductor/12 AWG/cu`, `strut/…`. */
  readonly id: string
  readonly what: string
  readonly quantity: number
  readonly per: 'm' | 'm2' | 'each'
  /** Where the number comes from: “3 bars of 6.096 m”, “pull list”. */
  readonly from: string
  /** Ids of the items, circuits, raceways or openings that need it. */
  readonly needs: readonly string[]
  /** null: no price is known; then the sum is a floor. */
  readonly unitMoney: number | null
  readonly money: number | null
  readonly date: string
  readonly source: string
}

export interface Bill {
  readonly currency: string
  readonly lines: readonly BillLine[]
  /** Of the priced lines of each sheet; the total is their sum. */
  readonly sheets: readonly { readonly sheet: BillSheet; readonly linesCount: number; readonly money: number }[]
  readonly totalMoney: number
  /** Lines without a price, or with one that nobody dated or signed. */
  readonly missing: readonly { readonly id: string; readonly why: string; readonly countsInSum: boolean }[]
}

/** All pieces of one section, and how they are sawn from stock. */
export interface SectionCut {
  readonly kind: 'strut' | 'frame' | 'raceway'
  readonly section: string
  readonly priceId: string
  readonly kerfMm: number
  readonly trimMm: number
  readonly pieces: readonly CutItem[]
  readonly plan: CutPlan
}

export interface CutItem {
  readonly id: string
  readonly lengthMm: number
  readonly count: number
  readonly label: string
  /** Design id that needs it. */
  readonly needs: string
}

/** One bend as it is marked. Distances along the pipe from the end of the stick that is the datum, before it is bent. */
export interface BendMark {
  readonly kind: 'quarter' | 'offset' | 'saddle' | 'kick'
  /** Of this single bend. */
  readonly angleDeg: number
  /** Where the arc begins, and its middle. */
  readonly startMm: number
  readonly middleMm: number
  /** Where the bender's arrow stands; null where the bender is not known by a table. */
  readonly arrowMm: number | null
  /**
   * How far the plane is turned against that of the bend before; null: the first one, or away from the wall. A kick is turned away from the
   * wall against its corner; a corner that comes first but for its kick is turned against that.
   */
  readonly turnDeg: number | null
}

/** One piece of pipe, between boxes, elbows or couplings. */
export interface RacewayPiece {
  readonly id: string
  /** `box`, `pull box`, `pull elbow`, `coupling`. */
  readonly from: string
  readonly to: string
  /** Along the axis of the raceway, corner to corner. */
  readonly axisFromMm: number
  readonly axisToMm: number
  /** Cut length before bending. */
  readonly developedMm: number
  /** Too short to be held in a saw and two connectors: bought as a nipple of this length. */
  readonly nipple: boolean
  readonly marks: readonly BendMark[]
}

/** One bend of a raceway with what it takes. */
export interface BendRow {
  /** A kick: one bend in the leg before a corner, so that the leg behind it, and the box it ends in, stand off by the rise. */
  readonly kind: 'quarter' | 'offset' | 'saddle' | 'long saddle' | 'kick'
  /** A corner whose legs are too short for the bender gets an elbow with a cover, or a box; each is a pull point too. */
  readonly made: 'bent' | 'pull elbow' | 'corner box' | 'offset connector' | 'box'
  readonly atMm: number
  readonly angleDeg: number
  readonly riseMm: number
  /** Rise times this is the distance between two marks, of a kick from its corner: 1/sin θ; 1 for a quarter. */
  readonly multiplier: number
  /** What the axis seems to lose by stepping off: for an offset or a kick rise · tan(θ/2), twice that for a saddle. */
  readonly shrinkMm: number
  /** What corner-to-corner measures too much. */
  readonly gainMm: number
  /** Subtracted from a stub's height to find the arrow; null where no table knows the bender. */
  readonly takeUpMm: number | null
  /** Free straight before it and behind it, to the next bend or end. Negative: it cannot be bent there. */
  readonly freeBeforeMm: number
  readonly freeAfterMm: number
  /** An offset in place of a saddle: the raceway stands off the wall by its rise from the box before it, or to the box behind it. */
  readonly raised: 'before' | 'after' | null
}

export interface RacewaySheet {
  readonly id: string
  readonly kind: string
  readonly trade: string
  readonly from: string
  readonly to: string
  readonly circuits: readonly string[]
  readonly pointsMm: readonly PointMm[]
  readonly axisMm: number
  /** Of the pipe, all pieces together; and by the second road. */
  readonly developedMm: number
  readonly checkMm: number
  readonly radiusMm: number
  readonly bends: readonly BendRow[]
  /** Where straight pipe lacks most; null: nowhere. `bent`: a bend is one of the two, else fittings whose size is assumed. */
  readonly short: {
    readonly between: readonly [string, string]
    readonly freeMm: number
    readonly needMm: number
    readonly bent: boolean
  } | null
  readonly pieces: readonly RacewayPiece[]
  readonly strapsMm: readonly number[]
  /** Pull boxes along the axis: fewer than drawn where saddles were made as one or elbows serve. */
  readonly pullsMm: readonly number[]
  readonly fittings: {
    readonly connectors: number
    readonly offsetConnectors: number
    readonly couplings: number
    readonly elbows: number
    readonly pullBoxes: number
    readonly nipples: number
  }
}

/** One wire to cut and pull. */
export interface WirePull {
  readonly id: string
  readonly circuit: string
  /** `A`, `B`, `C`, `N`, `PE`, with `/2` for the second of a parallel set. */
  readonly conductor: string
  readonly colour: string
  readonly size: SizeName
  readonly metal: 'cu' | 'al'
  readonly insulation: string
  readonly from: string
  readonly to: string
  readonly raceways: readonly string[]
  /** Metres of it that lie in the wireway; null: none. */
  readonly wirewayM: number | null
  readonly routeM: number
  readonly cutM: number
  readonly markFrom: string
  readonly markTo: string
}

export interface WireTotal {
  readonly size: SizeName
  readonly metal: 'cu' | 'al'
  readonly insulation: string
  readonly colour: string
  readonly count: number
  readonly lengthM: number
}

/** Holes of one size in one enclosure, for the raceways that end there. */
export interface KnockoutRow {
  readonly item: string
  readonly kind: string
  readonly trade: string
  readonly count: number
  /** Null: no table knows the size. */
  readonly hole: { readonly nominalMm: number; readonly leastMm: number; readonly mostMm: number } | null
  readonly raceways: readonly string[]
}

/** What is cut, drilled or welded on one side, in the order of doing it. */
export interface WallHoles {
  readonly side: Side
  /** “lower left corner as seen from outside”. */
  readonly datum: string
  /** Every flat may lie this much to either side until the first one was measured. */
  readonly bandMm: number
  readonly rows: readonly HoleRow[]
}

export interface HoleRow {
  readonly id: string
  readonly work: 'cut out' | 'hole' | 'bolt hole' | 'weld pad'
  readonly face: 'outside' | 'inside'
  /** Middle, from the datum corner along the side, and up from the underside of the box. */
  readonly alongMm: number
  readonly upMm: number
  readonly widthMm: number
  readonly heightMm: number
  readonly round: boolean
  readonly cornerRadiusMm: number
  readonly tool: string
  readonly needs: string
}

export const TRADES = ['welder', 'electrician', 'helper', 'painter'] as const
export type Trade = (typeof TRADES)[number]

/** Hours are never one number: low and high stand on each side of the middle. */
export interface Hours {
  readonly low: number
  readonly middle: number
  readonly high: number
}

export interface HoursLine {
  readonly trade: Trade
  readonly what: string
  readonly quantity: number
  readonly unit: string
  readonly hoursEach: number
  readonly hours: Hours
  /** Step of the build sequence in which they are spent. */
  readonly step: string
  readonly rests: string
}

export interface HoursSheet {
  readonly lines: readonly HoursLine[]
  readonly byTrade: Readonly<Record<Trade, Hours>>
  readonly total: Hours
  /** At the shop's rates, middle; null where a rate is missing. */
  readonly money: { readonly low: number; readonly middle: number; readonly high: number } | null
  readonly factors: Readonly<Record<Trade, number>>
  readonly paintM2: number
  readonly weldM: number
}

export type Doer =
  | "the shop's welder"
  | "the shop's helper"
  | 'the painter'
  | 'the electrician'
  | "the customer's own framing crew"
  | 'the inspector'

export interface BuildStep {
  /** `1` … `14`, as the trade numbers them; `1b` stands between. */
  readonly id: string
  readonly words: string
  readonly who: Doer
  /** null: not the shop's hours. */
  readonly hours: Hours | null
  /** Nothing goes on until this is signed, and by whom; null: none. */
  readonly hold: { readonly what: string; readonly signs: string } | null
  readonly caution: string | null
}

/** Null: the maker's sheet says it, and nobody guesses. */
export interface TorqueRow {
  readonly what: string
  readonly where: string
  readonly count: number
  readonly torqueNm: number | null
  readonly rests: string
}

export interface SerialRow {
  readonly id: string
  readonly what: string
  readonly rating: string
}

export interface LabelRow {
  readonly what: string
  readonly count: number
}

/** What the shop knows of itself. Absent: a recorded default is taken. */
export interface ShopFactors {
  readonly kerfMm?: number
  /** Off each end of each bar. */
  readonly trimMm?: number
  /** The shop's own hours over the table's, by trade. */
  readonly hours?: Partial<Record<Trade, number>>
  /** Offcuts on the rack, taken before new bars. */
  readonly rack?: readonly { readonly section: string; readonly lengthMm: number; readonly count: number }[]
}

/** Bolt of the channel nuts of one thing, as its strut sheet chose it. */
export interface NutsOf {
  readonly item: string
  readonly count: number
  readonly bolt: string
}
