import type { Hatch } from '../hatches.ts'
import type { LineMeaning } from '../lines.ts'
import { type Lettering, type Mark, mark, type Point, text } from '../scene.ts'
import type { Dimension, Drawn, Layer, Note, Outline, Round, Tag } from './drawing.ts'

type Meaning = LineMeaning | 'none'

const outlined = (layer: Layer, pointsMm: readonly Point[], closed: boolean, line: Meaning, hatch?: Hatch): Outline =>
  hatch === undefined
    ? { kind: 'outline', layer, pointsMm, closed, line }
    : { kind: 'outline', layer, pointsMm, closed, line, hatch }

export const stroke = (layer: Layer, pointsMm: readonly Point[], line: LineMeaning): Outline =>
  outlined(layer, pointsMm, false, line)

export const shape = (layer: Layer, pointsMm: readonly Point[], line: Meaning, hatch?: Hatch): Outline =>
  outlined(layer, pointsMm, true, line, hatch)

/** Two corners of an upright rectangle, in any order. */
export function rect(layer: Layer, [x0, y0]: Point, [x1, y1]: Point, line: Meaning, hatch?: Hatch): Outline {
  const [left, right, low, high] = [Math.min(x0, x1), Math.max(x0, x1), Math.min(y0, y1), Math.max(y0, y1)]
  const corners: readonly Point[] = [
    [left, low],
    [right, low],
    [right, high],
    [left, high],
  ]
  return outlined(layer, corners, true, line, hatch)
}

/** Bulge of a quarter circle. */
const QUARTER = Math.tan(Math.PI / 8)

/** A rectangle with rounded corners; a radius of more than half a side is half that side. */
export function plate(layer: Layer, low: Point, high: Point, radiusMm: number, line: Meaning, hatch?: Hatch): Outline {
  const [[x0, y0], [x1, y1]] = [low, high]
  const r = Math.max(0, Math.min(radiusMm, (x1 - x0) / 2, (y1 - y0) / 2))
  if (r < LEAST_RADIUS_MM) return rect(layer, low, high, line, hatch)
  const stretches: readonly (readonly [Point, number])[] = [
    [[x0 + r, y0], 0],
    [[x1 - r, y0], QUARTER],
    [[x1, y0 + r], 0],
    [[x1, y1 - r], QUARTER],
    [[x1 - r, y1], 0],
    [[x0 + r, y1], QUARTER],
    [[x0, y1 - r], 0],
    [[x0, y0 + r], QUARTER],
  ]
  // Where a radius is half a side, the straight between two corners has no length and is left out.
  const kept = stretches.filter(([at], i) => {
    const next = stretches[(i + 1) % stretches.length]![0]
    return Math.hypot(at[0] - next[0], at[1] - next[1]) > LEAST_RADIUS_MM
  })
  return {
    ...outlined(
      layer,
      kept.map(([at]) => at),
      true,
      line,
      hatch,
    ),
    bulges: kept.map(([, bulge]) => bulge),
  }
}

/** A corner under a tool's width is a sharp one. */
const LEAST_RADIUS_MM = 1e-6

export const round = (layer: Layer, atMm: Point, radiusMm: number, line: Meaning, hatch?: Hatch): Round =>
  hatch === undefined ? { kind: 'round', layer, atMm, radiusMm, line } : { kind: 'round', layer, atMm, radiusMm, line, hatch }

/** Words at a true place, moved on paper by `byMm` (y down). */
export const words = (
  atMm: Point,
  said: string,
  how: Lettering & { readonly byMm?: Point; readonly layer?: Layer } = {},
): Note => ({
  kind: 'note',
  layer: how.layer ?? 'text',
  atMm,
  items: [text(how.byMm ?? [0, 0], said, how)],
})

export const verdictAt = (atMm: Point, which: Mark['mark'], byMm: Point = [0, 0]): Note => ({
  kind: 'note',
  layer: 'clash',
  atMm,
  items: [mark(byMm, which)],
})

export const tag = (
  lowMm: Point,
  highMm: Point,
  said: string,
  how: { readonly strong?: boolean; readonly inside?: Tag['inside'] } = {},
): Tag => ({ kind: 'tag', lowMm, highMm, words: said, strong: how.strong ?? false, inside: how.inside ?? 'nothing' })

/** A whole number of millimetres where it is one, else with a half or a tenth: never rounded away. */
export function millimetres(value: number): string {
  const tenths = Math.round(value * 10) / 10
  return String(Object.is(tenths, -0) ? 0 : tenths)
}

export function across(from: Point, to: Point, baseMm: number, offMm: number): Dimension {
  return dimension('across', from, to, baseMm, offMm)
}

export function upward(from: Point, to: Point, baseMm: number, offMm: number): Dimension {
  return dimension('up', from, to, baseMm, offMm)
}

function dimension(way: Dimension['way'], fromMm: Point, toMm: Point, baseMm: number, offMm: number): Dimension {
  const axis = way === 'across' ? 0 : 1
  const said = millimetres(Math.abs(toMm[axis] - fromMm[axis]))
  return { kind: 'dimension', way, fromMm, toMm, baseMm, offMm, words: said }
}

/** Says of every item what it is part of. */
export const partOf = (of: string, items: readonly Drawn[]): readonly Drawn[] =>
  items.map((item) =>
    item.kind === 'outline' || item.kind === 'round' || item.kind === 'note' || item.kind === 'tag' ? { ...item, of } : item,
  )

/** Every true place moved by `at`, a shift or a turn by quarters: for the sides of a net. */
export const placed = (items: readonly Drawn[], at: (point: Point) => Point): readonly Drawn[] =>
  items.map((item) => movedBy(item, at))

function movedBy(item: Drawn, at: (point: Point) => Point): Drawn {
  switch (item.kind) {
    case 'outline':
      return { ...item, pointsMm: item.pointsMm.map(at) }
    case 'round':
    case 'note':
    case 'swing':
      return { ...item, atMm: at(item.atMm) }
    case 'tag': {
      const [a, b] = [at(item.lowMm), at(item.highMm)]
      return {
        ...item,
        lowMm: [Math.min(a[0], b[0]), Math.min(a[1], b[1])],
        highMm: [Math.max(a[0], b[0]), Math.max(a[1], b[1])],
      }
    }
    case 'dimension':
      return { ...item, fromMm: at(item.fromMm), toMm: at(item.toMm) }
    case 'ladder':
      return { ...item, rungs: item.rungs.map((rung) => ({ ...rung, atMm: at(rung.atMm) })) }
  }
}
