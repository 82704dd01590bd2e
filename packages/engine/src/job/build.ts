import type { SizeName } from './design.ts'
import type { Span } from './types.ts'

/**
 * Millimetres in the axes of the box: x from the outer face of the blind end to the door end, y from the outer face of the left long side
 * to the right one, z up from the underside of the bottom fittings. Left and right are those of a person who stands in the cargo doors
 * and looks in.
 */
export type PointMm = readonly [xMm: number, yMm: number, zMm: number]

export const SIDES = ['left', 'right', 'blind end', 'door end', 'roof', 'floor'] as const
export type Side = (typeof SIDES)[number]

export type ItemKind =
  | 'meter'
  | 'service disconnect'
  | 'transfer'
  | 'transformer'
  | 'panel'
  | 'surge device'
  | 'contactors'
  | 'controls'
  | 'receptacle'
  | 'junction box'
  | 'stub'
  | 'light'
  | 'light switch'
  | 'light sensor'
  | 'heater'
  | 'thermostat'
  | 'fan'
  | 'extinguisher'
  | 'earth bar'
  | 'wireway'

/** A thing that hangs, inside or outside, as an upright box in the axes of the container. */
export interface PlacedItem {
  /** `panel`, `receptacle G4C`: unique in its box. */
  readonly id: string
  readonly kind: ItemKind
  readonly what: string
  /** Id on the parts shelf: size and mass come from there. */
  readonly part: string
  readonly side: Side
  readonly face: 'inside' | 'outside'
  /** Corner nearest the origin, and size along x, y, z. */
  readonly atMm: PointMm
  readonly sizeMm: PointMm
  readonly massKg: Span
  /** Circuits that end in it or pass through it. */
  readonly circuits: readonly string[]
  /** Strut pieces that carry it. */
  readonly hangsOn: readonly string[]
}

export type StrutUse = 'upright' | 'rail' | 'ceiling rail' | 'outside'

/** One piece of channel, by its axis along the middle of its back. */
export interface StrutPiece {
  readonly id: string
  readonly use: StrutUse
  /** Id of the section in table `strut-sections` of `fit`. */
  readonly section: string
  readonly pattern: 'solid' | 'holes' | 'slots'
  readonly side: Side
  readonly fromMm: PointMm
  readonly toMm: PointMm
  /** How it is held, at which points of the box. */
  readonly fixings: readonly Fixing[]
}

export interface Fixing {
  readonly atMm: PointMm
  readonly how: 'weld to rail' | 'weld to pad' | 'bolt to pad' | 'bolt through flat' | 'channel nut'
}

/** One bend of a raceway. `offset`: two of half the angle, to step off the wall into a box; `saddle`: three, over another raceway. */
export interface RacewayBend {
  readonly kind: 'quarter' | 'offset' | 'saddle'
  /** Along the axis, to the middle of the bend. */
  readonly atMm: number
  /** Sum of all angles of it, as the limit between two pulls counts them. */
  readonly sumDeg: number
  /** How far an offset steps, or a saddle rises. 0 for a quarter. */
  readonly riseMm: number
}

/** A raceway between two things: its axis, corner by corner, and what lies in it. */
export interface RacewayRoute {
  readonly id: string
  readonly kind: string
  readonly trade: string
  readonly from: string
  readonly to: string
  readonly pointsMm: readonly PointMm[]
  readonly circuits: readonly string[]
  readonly conductors: readonly { readonly size: SizeName; readonly insulation: string; readonly count: number }[]
  readonly bends: readonly RacewayBend[]
  /** Distances along the axis from its beginning. */
  readonly strapsMm: readonly number[]
  /** Pull boxes along the axis, by distance from its beginning. */
  readonly pullsMm: readonly number[]
}

/** A bonding jumper: what it joins to the earth bar, with what. */
export interface BondPoint {
  readonly id: string
  readonly what: string
  readonly atMm: PointMm
  readonly conductor: SizeName
}

/** What the search for a layout tried, and how far it can be from the best. */
export interface LayoutSearch {
  readonly triedCount: number
  /** Raceway, wire and strut of the layout taken. */
  readonly money: number
  /** Of the plain left-to-right rule, which stays as the check. */
  readonly plainMoney: number
  /** Things for which the plain rule finds no sound place; its money then buys less than the layout taken does. */
  readonly plainClashesCount: number
  /** No layout of these things can cost less; null where none is proved. */
  readonly boundMoney: number | null
  readonly reachScore: number
}

export interface FitDesign {
  readonly items: readonly PlacedItem[]
  readonly strut: readonly StrutPiece[]
  readonly raceways: readonly RacewayRoute[]
  readonly bonds: readonly BondPoint[]
  readonly search: LayoutSearch | null
  /** What could not be placed, with the two things that clash and by how much. */
  readonly clashes: readonly { readonly what: string; readonly against: string; readonly byMm: number }[]
}

export type OpeningUse = 'personnel door' | 'vent' | 'fan' | 'meter entry' | 'raceway entry' | 'cord exit' | 'stub'
export type OpeningClass = 'hole on a flat' | 'collar' | 'framed' | 'door'

export interface Opening {
  /** `door 1`, `vent low`: unique in its box. */
  readonly id: string
  readonly use: OpeningUse
  readonly side: Side
  /** Middle of the opening on the outer face of its side. */
  readonly atMm: PointMm
  readonly shape: 'round' | 'rectangle'
  /** Along the side (x on long sides, y on ends and across the roof), and up. A round one has both equal. */
  readonly widthMm: number
  readonly heightMm: number
  readonly cornerRadiusMm: number
  readonly class: OpeningClass
  /** Section of the frame by its name on the parts shelf; null without a frame. */
  readonly frame: string | null
  /** Jambs run from rail to rail. */
  readonly railToRail: boolean
  readonly hood: boolean
  /** Clear width of the mesh; null without one. */
  readonly meshMm: number | null
  /** Where a cord exit: the plate and what passes it. */
  readonly plate: EntryPlate | null
  /** Circuits or plugs it serves. */
  readonly serves: readonly string[]
}

/** In the trade's order of preference. */
export const EXIT_WAYS = ['outside receptacle', 'flanged outlet', 'connector plate', 'gland plate'] as const
export type ExitWay = (typeof EXIT_WAYS)[number]

export interface EntryPlate {
  readonly thicknessMm: number
  readonly widthMm: number
  readonly heightMm: number
  readonly entries: readonly Entry[]
}

/** One entry in a plate: where, what size, for which cord. */
export interface Entry {
  /** Plug whose cord passes; null: spare, plugged to the same rating. */
  readonly plug: string | null
  /** `M25`, `M32`. */
  readonly thread: string
  readonly split: boolean
  /** From the lower left corner of the plate, seen from outside. */
  readonly uMm: number
  readonly vMm: number
  readonly cordMm: Span | null
}

export interface SkinDesign {
  readonly openings: readonly Opening[]
  /** How each plug's cord leaves the box, by plug tag. */
  readonly exitWays: Readonly<Record<string, ExitWay>>
  /** Side on which cords leave. */
  readonly cordSide: Side
  readonly finish: { readonly primer: string; readonly foam: boolean }
}

export type LiftMethod =
  | 'top spreader, vertical'
  | 'top slings, inclined'
  | 'bottom slings with spreader'
  | 'forks, wide pockets'
  | 'forks, narrow pockets'
  | 'side-lift frame'
  | 'tilt-bed'

/**
 * A frame that keeps snow off the roof's sheet: tubes across the box on seats on its top side rails, a steel deck on them. Bolted to the
 * seats, taken off to travel; the seats stay.
 */
export interface SnowFrame {
  /** Section of the bearers by its name on the parts shelf. */
  readonly section: string
  /** Middle of each bearer, from the blind end. */
  readonly bearersAtMm: readonly number[]
  /** Height of a seat on its rail. */
  readonly seatMm: number
  /** Row of table `snow-decks`. */
  readonly deck: string
  /** Frames weighed to find this one; 0: told. */
  readonly triedCount: number
}

export interface HaulDesign {
  readonly lift: LiftMethod
  /** Bottom slings: angle from the horizontal, and number of legs. */
  readonly slingAngleDeg: number | null
  readonly slingLegs: number
  readonly unload: LiftMethod
  readonly lashings: readonly {
    readonly kind: string
    readonly count: number
    readonly over: 'over the top' | 'deck to cargo' | 'lock'
  }[]
  readonly deckHeightM: number
  readonly pads: { readonly count: number; readonly lengthMm: number; readonly widthMm: number; readonly what: string }
  readonly anchors: { readonly count: number; readonly what: string; readonly eachN: number } | null
  /** Null: nothing stands over the roof. */
  readonly snowFrame: SnowFrame | null
}

/** One vent as air wants it; `skin` finds its place and cuts it. */
export interface VentWanted {
  readonly id: string
  readonly side: Side
  readonly widthMm: number
  readonly heightMm: number
  /** Middle of it over the floor. */
  readonly upMm: number
  /** A fan sits in it. */
  readonly fan: boolean
}

/**
 * What keeps a box dry and cool: every measure of table `air-measures`, taken or not. Paint and coating are rows of table
 * `surface-optics`.
 */
export interface AirDesign {
  readonly roofPaint: string
  readonly wallPaint: string
  readonly vents: readonly VentWanted[]
  /** Share of the clear area of the vents that stays open in the cold months; 1: no throttle. */
  readonly winterOpenFrac: number
  /** Foam inside: 0 for none. `bridgesFoamed`: rails and posts too. */
  readonly roofFoamM: number
  readonly wallFoamM: number
  readonly bridgesFoamed: boolean
  readonly secondRoof: boolean
  readonly fan: {
    readonly powerW: number
    readonly solar: boolean
    readonly onAboveC: number
    readonly byHumidity: boolean
  } | null
  readonly heater: {
    readonly at: 'room' | 'cabinet'
    readonly powerW: number
    readonly onBelowC: number
    readonly humidistat: boolean
  } | null
  readonly dripHood: boolean
  readonly floorPainted: boolean
}

/** How one box is built: a box is built once, for every phase. */
export interface BoxBuild {
  readonly box: string
  readonly fit: FitDesign
  readonly air: AirDesign
  readonly skin: SkinDesign
  readonly haul: HaulDesign
}
