import type { ItemKind, LayoutSearch, Side, Span } from '../job/index.ts'
import type { Verdict } from '../kernel/index.ts'
import type { WorkingSpace } from './space/volume.ts'

/** A thing that hangs, as a person reads it off the wall. */
export interface ItemRow {
  readonly id: string
  readonly kind: ItemKind
  readonly what: string
  readonly part: string
  readonly side: Side
  readonly face: 'inside' | 'outside'
  /** “1.60 m up, 0.90 m from the blind end”. Up: its middle above the floor; along: its middle from the datum of its side. */
  readonly place: string
  readonly alongM: number
  readonly upM: number
  readonly massKg: Span
  readonly circuits: readonly string[]
  readonly pinned: boolean
}

export interface StrutSum {
  readonly section: string
  readonly piecesCount: number
  readonly lengthM: number
}

/** One box: what hangs where, and what the layout cost. */
export interface BoxFit {
  readonly box: string
  readonly type: string
  readonly items: readonly ItemRow[]
  readonly strut: readonly StrutSum[]
  /** Of the wall between the clear bands and between the outer uprights; null where no grid stands. */
  readonly freeGridFrac: number | null
  readonly hungKg: { readonly low: number; readonly high: number }
  readonly search: LayoutSearch | null
  /** Room before what is worked on live, as it stands in the box. */
  readonly spaces: readonly WorkingSpace[]
  /** Channel nuts of each thing: how many, and the smallest bolt with which they hold it. */
  readonly nuts: readonly { readonly item: string; readonly count: number; readonly bolt: string }[]
  readonly verdict: Verdict
}

export interface FitResult {
  readonly boxes: readonly BoxFit[]
}
