import type { HaulDesign, LiftMethod, PointMm, SnowFrame, Span } from '../job/index.ts'
import type { Finding, Working } from '../kernel/index.ts'

/** One thing that weighs, where its middle is, and how far that middle may lie off along x. */
export interface MassItem {
  readonly id: string
  readonly what: string
  readonly massKg: Span
  readonly atMm: PointMm
  readonly bandXMm: number
}

/** Mass and centre of one state of the box, each with both ends. */
export interface MassCentre {
  /** Bare box; with what is built in; with the cords lying in it. */
  readonly state: 'empty' | 'fitted' | 'fitted with cords'
  readonly massKg: Span
  /** With every mass in the middle of its span. */
  readonly centreMm: PointMm
  /** Least and greatest of each coordinate over all masses within their spans. */
  readonly lowMm: PointMm
  readonly highMm: PointMm
  /** Farthest the centre may lie off the middle of the box, along and across, over both ends. */
  readonly offXMm: number
  readonly offYMm: number
}

export interface Leg {
  /** Corner it hangs on: `blind left`. */
  readonly corner: string
  readonly fromMm: PointMm
  readonly toMm: PointMm
}

/** What the slings have to bear, and where they run. */
export interface SlingPlan {
  readonly legs: readonly Leg[]
  readonly hookMm: PointMm
  /** Spreader across the box, on which the legs of each long side meet; null without one. */
  readonly spreaderMm: readonly [PointMm, PointMm] | null
  readonly angleDeg: number
  readonly leastAngleDeg: number
  /** Share of the mass on one leg when one diagonal pair carries all. */
  readonly shareFrac: number
  readonly tensionN: number
  /** Marked working load each leg and each shackle must have at least. */
  readonly legWllKg: number
  /** Next sizes that are made; null where the table ends. */
  readonly chainMm: number | null
  readonly chainWllKg: number | null
  readonly shackleWllKg: number | null
}

export interface ForkPlan {
  readonly loadCentreM: number
  /** Rated mass at the usual load centre that the truck's plate must show at least. */
  readonly ratedKg: number
  readonly ratedCentreM: number
  readonly nearN: number
  readonly farN: number
  readonly offFrac: number
}

export interface TiltPlan {
  readonly bedDeg: number
  /** Pull that drags the box up the bed. */
  readonly winchN: number
  /** The box stays by friction alone at this bed angle; a chain holds it all the same. */
  readonly slidesAtDeg: number
  /** Both ends of what sources say is needed. */
  readonly straightRunM: Span
}

export interface LashingPoint {
  readonly what: string
  readonly atMm: PointMm
}

/** What is needed to hold it on the truck. */
export interface SecuringPlan {
  readonly method: 'aggregate working load' | 'EN 12195-1' | 'locks'
  readonly forwardN: number
  readonly rearN: number
  readonly sideN: number
  /** Working load of all lashings together as the rule counts it, and what it must reach; N. Null where locks hold. */
  readonly countedN: number | null
  readonly neededN: number | null
  readonly byLengthCount: number | null
  readonly points: readonly LashingPoint[]
}

/** Wind on the broad side at one end of what the told figure may mean. */
export interface WindEnd {
  readonly velocityPa: number
  readonly forceN: number
  readonly upliftN: number
  /** Demand and resistance in the combination of the standard. */
  readonly slideN: number
  readonly gripN: number
  readonly overturnNm: number
  readonly rightNm: number
}

export interface AnchorPlan {
  readonly count: number
  readonly atMm: readonly PointMm[]
  readonly tensionN: number
  readonly shearN: number
  readonly eachN: number
}

export interface RoofSnow {
  readonly groundPa: number
  readonly roofPa: Span
  readonly ribPa: Span
  readonly allowablePa: number
  /** Widest opening under a top rail, and what the rail feels there; null without one. */
  readonly rail: { readonly opening: string; readonly stressPa: number; readonly sagM: number; readonly sagLimitM: number } | null
}

/** An upright solid in the axes of the box. */
interface Solid {
  readonly id: string
  readonly fromMm: PointMm
  readonly toMm: PointMm
}

/** The snow frame as it is made and set: for drawings, the shop and the book. */
export interface SnowFramePlan {
  readonly frame: SnowFrame
  /** Between the middles of both rails. */
  readonly spanMm: number
  readonly spacingMm: number
  readonly bearers: readonly Solid[]
  readonly seats: readonly Solid[]
  readonly deck: Solid
  readonly seatSection: string
  /** Deck as it is bought: whole sheets beside each other. */
  readonly deckSheets: { readonly count: number; readonly lengthMm: number; readonly widthMm: number }
  readonly boltsCount: number
  readonly screwsCount: number
  /** What is taken off to travel. */
  readonly massKg: Span
  /** How far the seats stand above the top fittings while it travels, and the whole frame while it stands. */
  readonly seatsOverMm: number
  readonly overMm: number
}

export interface PadPlan {
  /** Corners of each pad on the ground. */
  readonly rectanglesMm: readonly {
    readonly atMm: PointMm
    readonly lengthMm: number
    readonly widthMm: number
    readonly heightMm: number
  }[]
  readonly worstN: number
  readonly pressurePa: number
  readonly limitPa: number | null
  /** Packing under the low corners to stand level; null when the slope is not known. */
  readonly packingMm: number | null
}

export interface HaulBox {
  readonly box: string
  readonly items: readonly MassItem[]
  readonly centres: readonly MassCentre[]
  readonly methods: readonly {
    readonly method: LiftMethod
    readonly empty: string
    readonly packed: string
    readonly why: string
  }[]
  readonly design: HaulDesign
  readonly slings: SlingPlan | null
  readonly forks: ForkPlan | null
  readonly tilt: TiltPlan | null
  readonly securing: SecuringPlan
  readonly heightOnDeckM: number
  readonly wind: { readonly low: WindEnd; readonly high: WindEnd } | null
  readonly anchors: AnchorPlan | null
  readonly snow: RoofSnow | null
  readonly snowFrame: SnowFramePlan | null
  readonly pads: PadPlan
}

export interface HaulResult {
  readonly boxes: readonly HaulBox[]
}

/** Findings, the workings they name, and what drawings and other questions read. */
export interface HaulAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: HaulResult
}
