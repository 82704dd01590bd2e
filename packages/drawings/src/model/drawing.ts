import type { Hatch } from '../hatches.ts'
import type { LineMeaning } from '../lines.ts'
import type { Item, Point } from '../scene.ts'

/** What is done to the steel along a line, or what the line stands for: one layer each in a cut file. */
export const LAYERS = [
  'cut',
  'drill',
  'fold',
  'mark',
  'frame',
  'rib',
  'opening',
  'strut',
  'item',
  'raceway',
  'space',
  'lift',
  'clash',
  'dimension',
  'text',
] as const
export type Layer = (typeof LAYERS)[number]

/** What an item is part of, by the id it has in the build: a thing, an opening, a channel, a raceway. Paper does not need it; glass does. */
interface OfThing {
  readonly of?: string
}

/** Corner by corner; x to the right, y up, in true millimetres. */
export interface Outline extends OfThing {
  readonly kind: 'outline'
  readonly layer: Layer
  readonly pointsMm: readonly Point[]
  /** Of the stretch behind each corner: tangent of a quarter of its arc, positive to the left of the way. Missing: all straight. */
  readonly bulges?: readonly number[]
  readonly closed: boolean
  readonly line: LineMeaning | 'none'
  readonly hatch?: Hatch
}

export interface Round extends OfThing {
  readonly kind: 'round'
  readonly layer: Layer
  readonly atMm: Point
  readonly radiusMm: number
  readonly line: LineMeaning | 'none'
  readonly hatch?: Hatch
}

/** Part of a circle, against the clock from one bearing to another; 0° points right, 90° up. */
export interface Swing {
  readonly kind: 'swing'
  readonly layer: Layer
  readonly atMm: Point
  readonly radiusMm: number
  readonly fromDeg: number
  readonly toDeg: number
  readonly line: LineMeaning
}

/** Things of a size on paper, at a true place: letters, marks. Their own places are millimetres on paper from it, y down. */
export interface Note extends OfThing {
  readonly kind: 'note'
  readonly layer: Layer
  readonly atMm: Point
  readonly items: readonly Item[]
}

/** Tag letters of a body: inside it where they find room, else beside it, else on a wire. */
export interface Tag extends OfThing {
  readonly kind: 'tag'
  readonly lowMm: Point
  readonly highMm: Point
  readonly words: string
  readonly strong: boolean
  /** What is drawn inside the body: nothing, a hatch that letters stand on with clear ground, or things they must keep off. */
  readonly inside: 'nothing' | 'hatch' | 'things'
}

/** A length between two places, measured across or up. The line stands at `baseMm`, and `offMm` on paper beyond it. */
export interface Dimension {
  readonly kind: 'dimension'
  readonly way: 'across' | 'up'
  readonly fromMm: Point
  readonly toMm: Point
  readonly baseMm: number
  readonly offMm: number
  readonly words: string
}

/** Distances of many places from one datum, each at its own; pushed apart on paper where two would stand on each other. */
export interface Ladder {
  readonly kind: 'ladder'
  readonly way: 'across' | 'up'
  readonly rungs: readonly { readonly atMm: Point; readonly words: string }[]
  readonly baseMm: number
  readonly offMm: number
}

export type Drawn = Outline | Round | Swing | Note | Tag | Dimension | Ladder

/** A drawing in true millimetres. Letters and line widths are of the paper: one drawing serves every scale. */
export interface Drawing {
  /** Letters, digits and hyphens: the name of its file. */
  readonly id: string
  readonly title: string
  /** One sentence that says what is drawn, for whoever cannot see it. */
  readonly said: string
  /** False: lengths do not compare, and the sheet says so. */
  readonly toScale: boolean
  /** Of use at true size only: a template, a label. */
  readonly trueSize?: true
  readonly items: readonly Drawn[]
}
