import { Fault } from '@plugstead/engine/kernel'
import { arc, box, circle, type Item, LETTERING_MM, line, type Point, type Scene, text } from '../scene.ts'
import { dimensionItems, ladderItems } from './dimension.ts'
import type { Drawing, Drawn, Outline } from './drawing.ts'
import { type Area, coverOf, together, wordsMm } from './lettering.ts'
import { type PaperTag, taggedItems } from './tags.ts'

/** Scales of the shop's drawings, one to so many. */
export const SCALES = [1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200] as const

/** Largest line beyond the ink's middle: nothing is clipped at the paper's edge. */
const EDGE_MM = 1
const FOOT_MM = 7

/**
 * A drawing on paper at the largest scale of 1:1 … 1:200 at which it finds room, with its scale bar; one that finds none even so, or whose
 * lengths do not compare, is shrunk to the paper and says so.
 * @throws Fault `drawings/paper-range` for a drawing of nothing or a paper under 20 mm
 */
export function paperScene(drawing: Drawing, paper: { readonly widthMm: number; readonly heightMm: number }): Scene {
  if (drawing.items.length === 0 || !(paper.widthMm >= 20 && paper.heightMm >= 20))
    throw new Fault('drawings/paper-range', { id: drawing.id, ...paper })
  const bare = trueSize(drawing)
  for (const scale of drawing.toScale ? SCALES : []) {
    if (bare[0] / scale > paper.widthMm || bare[1] / scale > paper.heightMm) continue
    const laid = laidOut(drawing, 1 / scale)
    if (roomFor(laid, paper)) return finished(drawing, laid, paper.widthMm, `1:${scale}`, scale)
  }
  // Letters keep their size while the drawing shrinks, so the room is found by trying.
  let low = 0
  let high = Math.min(paper.widthMm / bare[0], paper.heightMm / bare[1], 1)
  for (let i = 0; i < SHRINKS; i++) {
    const middle = (low + high) / 2
    if (roomFor(laidOut(drawing, middle), paper)) low = middle
    else high = middle
  }
  return finished(drawing, laidOut(drawing, low > 0 ? low : high), paper.widthMm, 'not to scale', null)
}
const SHRINKS = 7

/** A drawing at one scale, one to `scale`, on as much paper as it needs: true size is 1. */
export function sceneAt(drawing: Drawing, scale: number): Scene {
  const laid = laidOut(drawing, 1 / scale)
  const wide = Math.max(laid.area.right - laid.area.left + 2 * EDGE_MM, FOOT_LEAST_MM)
  return finished(drawing, laid, wide, drawing.toScale ? `1:${scale}` : 'not to scale', drawing.toScale ? scale : null)
}
/** On paper at a scale that fits it, or at true size where nothing else is of use. */
export const sheetScene = (drawing: Drawing, paper: { readonly widthMm: number; readonly heightMm: number }): Scene =>
  drawing.trueSize === true ? sceneAt(drawing, 1) : paperScene(drawing, paper)

/** Scale bar and its words. */
const FOOT_LEAST_MM = 60

interface Laid {
  readonly items: readonly Item[]
  readonly area: Area
}

const roomFor = ({ area }: Laid, paper: { readonly widthMm: number; readonly heightMm: number }): boolean =>
  area.right - area.left + 2 * EDGE_MM <= paper.widthMm && area.bottom - area.top + 2 * EDGE_MM + FOOT_MM <= paper.heightMm

function trueSize(drawing: Drawing): Point {
  const areas = drawing.items.flatMap((item): readonly Area[] => {
    if (item.kind === 'outline') return [coverOf(line(item.pointsMm, 'hair'))]
    if (item.kind === 'round' || item.kind === 'swing') return [coverOf(circle(item.atMm, item.radiusMm, 'hair'))]
    return []
  })
  if (areas.length === 0) return [1, 1]
  const { left, right, top, bottom } = together(areas)
  return [Math.max(right - left, 1e-3), Math.max(bottom - top, 1e-3)]
}

/** Everything on paper about a free origin: true places turned over, for paper counts downwards. */
function laidOut(drawing: Drawing, k: number): Laid {
  const at = ([x, y]: Point): Point => [x * k, -y * k]
  const items: Item[] = []
  const tags: PaperTag[] = []
  for (const item of drawing.items) {
    if (item.kind === 'tag') {
      const [low, high] = [at(item.lowMm), at(item.highMm)]
      const body = { left: low[0], right: high[0], top: high[1], bottom: low[1] }
      tags.push({ body, words: item.words, strong: item.strong, inside: item.inside, ...ofThing(item) })
    } else items.push(...onPaper(item, k, at))
  }
  const letters = items.flatMap((item) => (item.kind === 'text' || item.kind === 'mark' ? [coverOf(item)] : []))
  items.push(...taggedItems(tags, letters))
  return { items, area: together(items.map(coverOf)) }
}

function onPaper(item: Exclude<Drawn, { kind: 'tag' }>, k: number, at: (p: Point) => Point): readonly Item[] {
  switch (item.kind) {
    case 'outline': {
      const pointsMm = flattened(item, k).map(at)
      const drawn = { kind: 'line' as const, pointsMm, closed: item.closed, line: item.line }
      return [{ ...drawn, ...(item.hatch === undefined ? {} : { hatch: item.hatch }), ...ofThing(item) }]
    }
    case 'round':
      return [{ ...circle(at(item.atMm), item.radiusMm * k, item.line, item.hatch), ...ofThing(item) }]
    case 'swing':
      return [arc(at(item.atMm), item.radiusMm * k, -item.toDeg, -item.fromDeg, item.line)]
    case 'note': {
      const from = at(item.atMm)
      return item.items.map((one) => (one.kind === 'arc' ? moved(one, from) : { ...moved(one, from), ...ofThing(item) }))
    }
    case 'dimension': {
      const base = (item.way === 'across' ? -1 : 1) * item.baseMm * k + item.offMm
      return dimensionItems(item.way, at(item.fromMm), at(item.toMm), base, item.words)
    }
    case 'ladder': {
      const base = (item.way === 'across' ? -1 : 1) * item.baseMm * k + item.offMm
      const rungs = item.rungs.map((rung) => ({ at: at(rung.atMm), words: rung.words }))
      return ladderItems(item.way, rungs, base, item.offMm >= 0 ? 1 : -1)
    }
  }
}

/** What paper carries on of the thing an item is part of. */
const ofThing = ({ of }: { readonly of?: string }): { readonly of?: string } => (of === undefined ? {} : { of })

/** Arcs as chords that stray from them by less than a printer sees. */
function flattened(item: Outline, k: number): readonly Point[] {
  const { bulges } = item
  if (bulges === undefined) return item.pointsMm
  return item.pointsMm.flatMap((from, i): readonly Point[] => {
    const to = item.pointsMm[(i + 1) % item.pointsMm.length]!
    const bulge = bulges[i] ?? 0
    if (bulge === 0 || (!item.closed && i === item.pointsMm.length - 1)) return [from]
    const { middle, radius, fromRad, sweepRad } = arcOf(from, to, bulge)
    const steps = Math.max(2, Math.ceil(Math.abs(sweepRad) / (2 * Math.acos(Math.max(0, 1 - 0.02 / Math.max(radius * k, 0.04))))))
    return Array.from({ length: steps }, (_, s): Point => {
      const turn = fromRad + (sweepRad * s) / steps
      return s === 0 ? from : [middle[0] + radius * Math.cos(turn), middle[1] + radius * Math.sin(turn)]
    })
  })
}

/**
 * The arc between two corners: bulge = tan(sweep/4).
 * @source DXF reference, LWPOLYLINE, group 42. Provenance: memory
 */
export function arcOf(from: Point, to: Point, bulge: number) {
  const sweepRad = 4 * Math.atan(bulge)
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1])
  const radius = chord / (2 * Math.abs(Math.sin(sweepRad / 2)))
  const toMiddle = chord / 2 / Math.tan(sweepRad / 2)
  const [ux, uy] = [(to[0] - from[0]) / chord, (to[1] - from[1]) / chord]
  const middle: Point = [(from[0] + to[0]) / 2 - uy * toMiddle, (from[1] + to[1]) / 2 + ux * toMiddle]
  return { middle, radius, fromRad: Math.atan2(from[1] - middle[1], from[0] - middle[0]), sweepRad }
}

function moved(item: Item, [dx, dy]: Point): Item {
  const at = ([x, y]: Point): Point => [x + dx, y + dy]
  if (item.kind !== 'line') return { ...item, atMm: at(item.atMm) }
  const more = item.moreMm === undefined ? {} : { moreMm: item.moreMm.map((points) => points.map(at)) }
  return { ...item, pointsMm: item.pointsMm.map(at), ...more }
}

/** In the middle of the paper's width, its foot below it: words, and a bar of a round length. */
function finished(drawing: Drawing, { items, area }: Laid, widthMm: number, said: string, scale: number | null): Scene {
  const dx = Math.max(EDGE_MM, (widthMm - (area.right - area.left)) / 2) - area.left
  const body = items.map((item) => moved(item, [dx, EDGE_MM - area.top]))
  const heightMm = area.bottom - area.top + 2 * EDGE_MM + FOOT_MM
  return {
    sizeMm: [widthMm, heightMm],
    said: drawing.said,
    items: [...body, ...foot(widthMm, heightMm, said, scale)],
  }
}

/** A bar of 1, 2 or 5 times a power of ten, at most 40 mm long, its ends lettered. */
function foot(widthMm: number, heightMm: number, said: string, scale: number | null): readonly Item[] {
  const y = heightMm - 2.2
  if (scale === null) return [text([widthMm - 1, y], said, { anchor: 'end' })]
  const most = 40 * scale
  const power = 10 ** Math.floor(Math.log10(most) + 1e-9)
  const lengthMm = [5, 2, 1].map((m) => m * power).find((m) => m <= most + 1e-9)!
  const long = lengthMm / scale
  const metres = lengthMm >= 1000
  const name = metres ? `${lengthMm / 1000} m` : `${lengthMm} mm`
  const right = widthMm - 2.5 - wordsMm(name, LETTERING_MM) * 1.2
  const left = right - long
  const fifth = long / 5
  return [
    text([left - 2.2, y], said, { anchor: 'end', strong: true }),
    ...[0, 2, 4].map((i) => box([left + i * fifth, y - 1.6], fifth, 1.6, 'none', 'solid')),
    box([left, y - 1.6], long, 1.6, 'dimension'),
    text([left, y - 2.2], '0', { anchor: 'middle' }),
    text([right + 1, y], name),
  ]
}

/** A drawing at one scale, and where its true places lie on it: for a screen, which says its scale by its own means. */
export function bareScene(drawing: Drawing, scale: number): { readonly scene: Scene; readonly at: (place: Point) => Point } {
  const { items, area } = laidOut(drawing, 1 / scale)
  const shift: Point = [EDGE_MM - area.left, EDGE_MM - area.top]
  return {
    scene: {
      sizeMm: [area.right - area.left + 2 * EDGE_MM, area.bottom - area.top + 2 * EDGE_MM],
      said: drawing.said,
      items: items.map((item) => moved(item, shift)),
    },
    at: ([x, y]) => [x / scale + shift[0], -y / scale + shift[1]],
  }
}
