import type { Assumption, PointMm, Side, Span } from '../job/index.ts'
import type { Source } from '../kernel/index.ts'

/** A figure of the body, and whether it was measured on the box or taken from the table. */
export interface BodyFigure {
  readonly value: number
  readonly measured: boolean
  readonly rests: Source
}

/** Ribs of one sheet: trapezoids at a pitch, the first inner flat's near edge at an offset from the datum corner of its side. */
export interface Corrugation {
  readonly pitchMm: BodyFigure
  /** From the datum (x = 0 on long sides and roof, y = 0 on ends) to the near edge of the first inner flat. */
  readonly firstFlatMm: BodyFigure
  /** Every flat may lie this much to either side: half a pitch until the first flat was measured, else 0. */
  readonly flatsBandMm: number
  readonly innerFlatMm: number
  readonly outerFlatMm: number
  readonly slopeRunMm: number
  readonly depthMm: number
  readonly thicknessMm: number
  /** Along which axis the ribs follow one another, and which way they run. */
  readonly along: 'x' | 'y'
  readonly runs: 'z' | 'y'
  /** Developed length over pitch. */
  readonly developedRatio: number
  /** Thin-wall section of one pitch about its own middle: I and S. */
  readonly inertiaMm4PerPitch: number
  readonly sectionMm3PerPitch: number
  readonly sheetKgPerM2: number
}

/** A flat part of a sheet, along its side. */
export interface Flat {
  readonly fromMm: number
  readonly toMm: number
  /** Inner flats stand into the box: the only places where a foot or plate sits without a packer. */
  readonly kind: 'inner' | 'outer'
}

export interface BodySide {
  readonly side: Side
  /** Outside size of the face: along (x on long sides and roof, y on ends) and up (z; y on roof and floor). */
  readonly alongMm: number
  readonly upMm: number
  /** Null on the floor and on a door end. */
  readonly corrugation: Corrugation | null
  readonly flats: readonly Flat[]
  /** Sheet between the members, in the side's own axes: what may be cut at all. */
  readonly sheet: { readonly fromMm: number; readonly toMm: number; readonly lowMm: number; readonly highMm: number }
  /** Dents as surveyed: nothing sits on them. */
  readonly dents: readonly {
    readonly fromMm: number
    readonly toMm: number
    readonly lowMm: number
    readonly highMm: number
    readonly deepMm: number
  }[]
}

/** A member of the frame as an upright box: never cut. */
export interface Member {
  readonly id: string
  readonly kind:
    | 'corner post'
    | 'top rail'
    | 'bottom rail'
    | 'header'
    | 'sill'
    | 'crossmember'
    | 'bow'
    | 'fork pocket'
    | 'corner fitting'
  readonly section: string
  readonly fromMm: PointMm
  readonly toMm: PointMm
  readonly mayBeCut: boolean
}

/** A leaf that swings: hinge, width, which way, how far. */
export interface DoorLeaf {
  readonly id: string
  readonly side: Side
  readonly hingeMm: PointMm
  readonly widthMm: number
  readonly heightMm: number
  readonly swings: 'outward'
  readonly mostDeg: number
}

/** The steel box as a body: what the table says of its type, overruled by what was measured on it. */
export interface BoxBody {
  readonly box: string
  /** `20 ft standard`, `10 ft cut`. */
  readonly type: string
  readonly outsideMm: PointMm
  /** Clear inside, least corner and size. */
  readonly insideAtMm: PointMm
  readonly insideMm: PointMm
  readonly doorOpeningMm: { readonly widthMm: number; readonly heightMm: number }
  readonly sides: Readonly<Record<Side, BodySide>>
  readonly members: readonly Member[]
  readonly doors: readonly DoorLeaf[]
  readonly floor: {
    readonly topMm: number
    readonly what: string
    readonly crossmemberPitchMm: number
    readonly mostTonnePerM: BodyFigure
  }
  /** Null: it has none, or nobody knows (`pocketsKnown`). */
  readonly pockets: {
    readonly spacingMm: BodyFigure
    readonly widthMm: number
    readonly heightMm: number
    readonly use: 'loaded or empty' | 'empty only'
  } | null
  readonly pocketsKnown: boolean
  readonly fittings: { readonly lengthCentresMm: number; readonly widthCentresMm: number }
  readonly tareKg: Span
  /** Centre of the bare box's mass, with its band along x. */
  readonly tareCentreMm: PointMm
  readonly tareCentreBandMm: number
  /** Rating on the plate; null: not known (a short or cut box never inherits a longer one's). */
  readonly ratingKg: number | null
  readonly plate: 'valid' | 'removed' | 'unknown'
  /** Where the rating comes from; null with it. */
  readonly rating: BodyFigure | null
  /** As it stood on the scale, with what was built in. */
  readonly weighedKg: number | null
  /** What was taken because nobody measured it, each with the path where telling it would replace it. */
  readonly assumed: readonly Assumption[]
  /** What a reader of this body must know, one sentence each. */
  readonly notes: readonly string[]
}
