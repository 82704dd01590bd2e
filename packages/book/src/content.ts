import type { Scene } from '@plugstead/drawings'
import type { AssumedWords, Side } from '@plugstead/engine/job'
import type { Verdict } from '@plugstead/engine/kernel'

/**
 * What stands in the book, ready to be set: every word chosen, every number rounded. The template only places it.
 * Kinds of span: `i` quantity symbol, `sub` and `sup`, `b` strong, `assumed` `told` `bounded` `pinned` the edge of a value,
 * `mark` a verdict's silhouette (its text is the verdict), `sign` provenance, `sheet` the name of the sheet where a working stands
 * (its text is the working's id), `fails` reversed words, `quiet` notes.
 */
export type SpanKind =
  | 'i'
  | 'sub'
  | 'sup'
  | 'b'
  | 'assumed'
  | 'told'
  | 'bounded'
  | 'pinned'
  | 'mark'
  | 'sign'
  | 'sheet'
  | 'fails'
  | 'boxed'
  | 'quiet'
  | 'br'
export type Span = string | readonly [kind: SpanKind, words: string]
export type Inline = string | readonly Span[]

export interface Column {
  readonly title: string
  /** Millimetres; 0 takes what the words need; below 0 takes that share of what is left. */
  readonly widthMm: number
  readonly align: 'left' | 'right' | 'center'
}

export type Block =
  | { readonly k: 'para'; readonly text: Inline; readonly small?: boolean }
  | { readonly k: 'head'; readonly text: string; readonly note?: Inline; readonly verdict?: Verdict | 'not built' }
  | { readonly k: 'strip'; readonly text: string }
  | {
      readonly k: 'table'
      readonly columns: readonly Column[]
      readonly rows: readonly (readonly Inline[])[]
      readonly small?: boolean
    }
  | { readonly k: 'facts'; readonly rows: readonly (readonly [Inline, Inline])[] }
  | WorkingBlock
  | FamilyBlock
  | PanelBlock
  | { readonly k: 'drawing'; readonly scene: Scene }
  | { readonly k: 'lists'; readonly lists: readonly { readonly title: string; readonly items: readonly Inline[] }[] }
  | { readonly k: 'contents' }
  | { readonly k: 'gap'; readonly heightMm: number }
  | { readonly k: 'labels'; readonly labels: readonly { readonly lines: readonly string[]; readonly caution: boolean }[] }

export interface WorkingRow {
  readonly symbol: Inline
  readonly expression: Inline
  readonly values: Inline
  readonly result: Inline
  readonly rests: Inline
}

export interface WorkingBlock {
  readonly k: 'working'
  /** More than one where the derivations agree line by line. */
  readonly ids: readonly string[]
  readonly title: Inline
  readonly note: Inline
  readonly verdict: Verdict | null
  /** A preference of the house never looks like a breach. */
  readonly outline: boolean
  readonly rows: readonly WorkingRow[]
  readonly judgement:
    | (WorkingRow & {
        readonly reversed: boolean
        /** Bar and stop as shares of the scale's length. */
        readonly barFrac: number
        readonly stopFrac: number
        /** Text under the bar. */
        readonly tight: string
      })
    | null
  readonly crossCheck: readonly WorkingRow[]
  readonly notes: readonly Inline[]
  /** Defaults taken; written out among the notes. */
  readonly assumed: readonly AssumedWords[]
}

/**
 * Derivations of one kind, each thing's on one row: the lines with their expressions stand once and are numbered, the row gives the
 * numbers of its lines with what differs.
 */
export interface FamilyBlock {
  readonly k: 'family'
  readonly ids: readonly string[]
  readonly title: Inline
  readonly note: Inline
  /** Numbered from 1. A line whose result is `null` gets its values and result in each row. */
  readonly lines: readonly (Omit<WorkingRow, 'result'> & { readonly result: Inline | null })[]
  readonly judgements: readonly { readonly expression: Inline; readonly rests: Inline }[]
  readonly tables: readonly FamilyTable[]
  readonly notes: readonly Inline[]
}

export interface FamilyTable {
  /** Lines run on in one cell; else a column each. */
  readonly runs?: true
  readonly heads: readonly Inline[]
  readonly rows: readonly (readonly Inline[])[]
}

export interface PanelWay {
  readonly way: string
  readonly serves: Inline
  readonly outlet: string
  readonly currentA: string
  readonly device: string
  readonly size: string
  readonly verdict: Verdict | null
}

export interface PanelBlock {
  readonly k: 'panel'
  readonly sizeTitle: string
  readonly spine: readonly { readonly legs: readonly string[] }[]
  readonly legs: readonly string[]
  readonly left: readonly PanelWay[]
  readonly right: readonly PanelWay[]
}

export interface Sheet {
  /** Question or part of the book: “reach”, “cover”, “symbols”. Sheets of one part follow each other. */
  readonly part: string
  /** What the sheet answers, in words. */
  readonly head: string
  readonly sub: string
  readonly scale: string
  /** The key of marks stands on the sheet. */
  readonly key: boolean
  /** Whose set it belongs to; absent: as its part says. */
  readonly readers?: readonly Reader[]
  /** Hatched in the key net of the tag. */
  readonly sides?: readonly Side[]
  readonly blocks: readonly Block[]
}

export interface BookContent {
  readonly title: string
  /** Lines of the tag: box, rule set, date needed. */
  readonly tag: readonly string[]
  readonly rules: string
  readonly sheets: readonly Sheet[]
}

/** Who gets a set of sheets of their own. */
export type Reader = 'licensed' | 'welder' | 'electrician' | 'rigger' | 'customer'

export interface BookOptions {
  readonly paper: 'letter' | 'a4'
  /** Absent: the whole book. */
  readonly reader?: Reader
  readonly checkPrint?: boolean
  readonly title?: string
  readonly revision?: { readonly letter: string; readonly day: string }
}

/** The same on every sheet. */
export const CAUTION =
  'Design aid. Local codes and the authority having jurisdiction decide. A licensed person checks and does the work.'
