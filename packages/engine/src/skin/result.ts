import type { ExitWay, OpeningClass, OpeningUse, Side } from '../job/index.ts'
import type { Verdict } from '../kernel/index.ts'

/** Everything `skin` gives the shop, the drawings and the book. */
export interface SkinResult {
  readonly boxes: readonly BoxSkin[]
}

export interface BoxSkin {
  readonly box: string
  readonly openings: readonly OpeningRow[]
  readonly exits: readonly ExitRow[]
  readonly sides: readonly SideCut[]
  /** What the wall with the worst entry still keeps out. */
  readonly tightness: { readonly rating: string; readonly worst: string }
  /** Frames and plates to saw. */
  readonly pieces: readonly FramePiece[]
  readonly steps: readonly SkinStep[]
  readonly plate: 'stays valid' | 'void once cut' | 'no plate' | 'unknown'
}

export interface OpeningRow {
  readonly id: string
  readonly use: OpeningUse
  readonly side: Side
  readonly class: OpeningClass
  /** Class that its size and place ask for. */
  readonly needs: OpeningClass
  readonly widthMm: number
  readonly heightMm: number
  /** From the left edge of the side as seen from outside, and from the underside of the box, to its middle. */
  readonly fromLeftMm: number
  readonly upMm: number
  /** Above the ground, pads counted. */
  readonly aboveGroundMm: number
  readonly clearGapMm: number
  readonly passes: readonly string[]
  readonly reaches: string
  readonly verdict: Verdict
}

export interface ExitRow {
  readonly plug: string
  readonly way: ExitWay
  readonly allowed: 'yes' | 'no' | 'with written acceptance'
  readonly opening: string
  readonly thread: string | null
  readonly cordMm: { readonly low: number; readonly high: number } | null
  readonly aboveGroundMm: number
}

export interface SideCut {
  readonly side: Side
  readonly sheetMm: number
  /** Width taken out, projected on the side. */
  readonly cutMm: number
  readonly cutFrac: number
  readonly areaFrac: number
}

/** One length to saw for a frame, a lintel or a plate. */
export interface FramePiece {
  readonly opening: string
  readonly part: 'jamb' | 'head' | 'sill' | 'collar' | 'plate' | 'hood'
  readonly section: string
  readonly lengthMm: number
  readonly count: number
}

export interface SkinStep {
  readonly words: string
  readonly caution: string | null
}
