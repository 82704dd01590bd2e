import type { Verdict } from '@plugstead/engine/kernel'
import type { Hatch } from './hatches.ts'
import type { LineMeaning } from './lines.ts'

/** Millimetres on paper, x to the right, y down, from the upper left corner. */
export type Point = readonly [xMm: number, yMm: number]

/** What an item is part of, by its id in the build. A renderer on paper leaves it out. */
interface OfThing {
  readonly of?: string
}

export interface Line extends OfThing {
  readonly kind: 'line'
  readonly pointsMm: readonly Point[]
  readonly closed: boolean
  readonly line: LineMeaning | 'none'
  readonly hatch?: Hatch
  /** More of the same, one path with it: thousands of equal cells or strokes are one item. */
  readonly moreMm?: readonly (readonly Point[])[]
}

export interface Circle extends OfThing {
  readonly kind: 'circle'
  readonly atMm: Point
  readonly radiusMm: number
  readonly line: LineMeaning | 'none'
  readonly hatch?: Hatch
}

/** Part of a circle, clockwise on paper from one bearing to another; 0° points right, 90° down. */
export interface Arc extends OfThing {
  readonly kind: 'arc'
  readonly atMm: Point
  readonly radiusMm: number
  readonly fromDeg: number
  readonly toDeg: number
  readonly line: LineMeaning
}

export interface Text extends OfThing {
  readonly kind: 'text'
  readonly atMm: Point
  /** Size of the letters as a font size, not the height of a capital. */
  readonly heightMm: number
  readonly text: string
  readonly anchor: 'start' | 'middle' | 'end'
  readonly strong: boolean
  /** Clear ground under the words where they cross lines. */
  readonly halo: boolean
  readonly turnDeg: number
}

/** A verdict by its silhouette, or the centre punch of a pinned value. */
export interface Mark extends OfThing {
  readonly kind: 'mark'
  readonly mark: Verdict | 'others' | 'punch'
  readonly atMm: Point
  readonly sizeMm: number
}

export type Item = Line | Circle | Arc | Text | Mark

/** A drawing is data. A renderer reads it. */
export interface Scene {
  readonly sizeMm: Point
  /** One sentence that says what is drawn, for whoever cannot see it. */
  readonly said: string
  readonly items: readonly Item[]
}

export interface Renderer {
  readonly mimeType: string
  render(scene: Scene): string
}

export const line = (pointsMm: readonly Point[], meaning: LineMeaning): Line => ({
  kind: 'line',
  pointsMm,
  closed: false,
  line: meaning,
})

export function area(pointsMm: readonly Point[], hatch: Hatch, meaning: LineMeaning | 'none' = 'none'): Line {
  return { kind: 'line', pointsMm, closed: true, line: meaning, hatch }
}

export function box(atMm: Point, widthMm: number, heightMm: number, meaning: LineMeaning | 'none', hatch?: Hatch): Line {
  const [x, y] = atMm
  const pointsMm: Point[] = [
    [x, y],
    [x + widthMm, y],
    [x + widthMm, y + heightMm],
    [x, y + heightMm],
  ]
  return hatch === undefined
    ? { kind: 'line', pointsMm, closed: true, line: meaning }
    : { kind: 'line', pointsMm, closed: true, line: meaning, hatch }
}

export function circle(atMm: Point, radiusMm: number, meaning: LineMeaning | 'none', hatch?: Hatch): Circle {
  return hatch === undefined
    ? { kind: 'circle', atMm, radiusMm, line: meaning }
    : { kind: 'circle', atMm, radiusMm, line: meaning, hatch }
}

export const arc = (atMm: Point, radiusMm: number, fromDeg: number, toDeg: number, meaning: LineMeaning): Arc => ({
  kind: 'arc',
  atMm,
  radiusMm,
  fromDeg,
  toDeg,
  line: meaning,
})

/** Many open lines, or many closed outlines, as one item. Null: there is none. */
export function many(pathsMm: readonly (readonly Point[])[], meaning: LineMeaning | 'none', hatch?: Hatch): Line | null {
  const [first, ...rest] = pathsMm
  if (first === undefined) return null
  const closed = hatch !== undefined
  return { kind: 'line', pointsMm: first, closed, line: meaning, moreMm: rest, ...(hatch === undefined ? {} : { hatch }) }
}

export interface Lettering {
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly heightMm?: number
  readonly strong?: boolean
  readonly halo?: boolean
  readonly turnDeg?: number
}

/** Of which thing an item is part; nothing where it is of none. */
export const partOf = (of: string | undefined): OfThing => (of === undefined ? {} : { of })

/** Lettering of drawings: 7.5 pt unless said otherwise. */
export function text(atMm: Point, words: string, how: Lettering = {}): Text {
  return {
    kind: 'text',
    atMm,
    text: words,
    anchor: how.anchor ?? 'start',
    heightMm: how.heightMm ?? LETTERING_MM,
    strong: how.strong ?? false,
    halo: how.halo ?? false,
    turnDeg: how.turnDeg ?? 0,
  }
}

export const mark = (atMm: Point, which: Mark['mark'], sizeMm = LEAST_MARK_MM): Mark => ({
  kind: 'mark',
  mark: which,
  atMm,
  sizeMm,
})

/** 7.5 pt. */
export const LETTERING_MM = 2.65
/** Smallest silhouette that can still be told apart on paper. */
export const LEAST_MARK_MM = 2.6
