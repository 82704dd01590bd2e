import { area, box, circle, type Item, line, type Point, type Scene, svg } from '@plugstead/drawings'
import type { Side } from '@plugstead/engine/job'
import type { RuleSet } from '@plugstead/engine/rules'

export interface PaperSize {
  readonly widthMm: number
  readonly heightMm: number
}

/** ISO 216 and the North American size; provenance: memory. */
export const PAPERS: Readonly<Record<'letter' | 'a4', PaperSize>> = {
  letter: { widthMm: 215.9, heightMm: 279.4 },
  a4: { widthMm: 210, heightMm: 297 },
}

/** Letter where drawings follow IEEE 315, which is where Letter is the usual paper. */
export const usualPaper = (rules: Pick<RuleSet, 'symbols'>): 'letter' | 'a4' => (rules.symbols === 'IEEE 315' ? 'letter' : 'a4')

const BLOCK_MM = 185
const EDGE_MM = 8
const NOTCH_MM = 3.2
const TAG_MM = 24
const TAG_UP_MM = 13.2

/** What is the same on every sheet: blank with relieved corners, caution strip, tag, key net. */
export const frameSvg = (paper: PaperSize): string => svg.render(frameScene(paper))

export function frameScene(paper: PaperSize): Scene {
  const { widthMm, heightMm } = paper
  const left = (widthMm - BLOCK_MM) / 2
  const tagTop = heightMm - TAG_UP_MM - TAG_MM
  return {
    sizeMm: [widthMm, heightMm],
    said: 'frame of the sheet',
    items: [
      ...blank(left - 4.2, EDGE_MM, BLOCK_MM + 8.4, heightMm - 2 * EDGE_MM),
      ...signatures(left, tagTop - 12),
      ...cautionStrip(left, tagTop - 10.6),
      ...tag(left, tagTop),
    ],
  }
}

function blank(x: number, y: number, w: number, h: number): readonly Item[] {
  const n = NOTCH_MM
  const outline: Point[] = [
    [x + n, y],
    [x + w - n, y],
    [x + w - n, y + n],
    [x + w, y + n],
    [x + w, y + h - n],
    [x + w - n, y + h - n],
    [x + w - n, y + h],
    [x + n, y + h],
    [x + n, y + h - n],
    [x, y + h - n],
    [x, y + n],
    [x + n, y + n],
  ]
  const corners: Point[] = [
    [x + n, y + n],
    [x + w - n, y + n],
    [x + n, y + h - n],
    [x + w - n, y + h - n],
  ]
  const ticks: [Point, Point][] = [
    [
      [x + w / 2, y - 1.6],
      [x + w / 2, y + 1.6],
    ],
    [
      [x + w / 2, y + h - 1.6],
      [x + w / 2, y + h + 1.6],
    ],
    [
      [x - 1.6, y + h / 2],
      [x + 1.6, y + h / 2],
    ],
    [
      [x + w - 1.6, y + h / 2],
      [x + w + 1.6, y + h / 2],
    ],
  ]
  return [
    { kind: 'line', pointsMm: outline, closed: true, line: 'opening' },
    ...corners.map((c) => circle(c, 1.45, 'symbol', 'blank')),
    ...ticks.map((t) => line(t, 'ampere 1')),
  ]
}

/** Room to write: checked by, license number, date. */
function signatures(x: number, y: number): readonly Item[] {
  return (
    [
      [0, 87.5],
      [92.5, 136.25],
      [141.25, BLOCK_MM],
    ] as const
  ).map(([from, to]) =>
    line(
      [
        [x + from, y],
        [x + to, y],
      ],
      'ampere 1',
    ),
  )
}

function cautionStrip(x: number, y: number): readonly Item[] {
  const h = 8.4
  const stripes = (from: number): Item[] =>
    [0, 1, 2, 3].map((i) => {
      const at = from + i * 2.6
      return area(
        [
          [at, y + h],
          [at + 1.3, y + h],
          [at + 3.6, y],
          [at + 2.3, y],
        ],
        'solid',
      )
    })
  return [...stripes(x + 0.2), ...stripes(x + BLOCK_MM - 11.6), box([x, y], BLOCK_MM, h, 'symbol')]
}

function tag(x: number, y: number): readonly Item[] {
  const cut = 6.4
  const outline: Point[] = [
    [x + cut, y],
    [x + BLOCK_MM, y],
    [x + BLOCK_MM, y + TAG_MM],
    [x + cut, y + TAG_MM],
    [x, y + TAG_MM - cut],
    [x, y + cut],
  ]
  return [
    { kind: 'line', pointsMm: outline, closed: true, line: 'opening' },
    circle([x + 5.6, y + TAG_MM / 2], 2.6, 'symbol', 'blank'),
    circle([x + 5.6, y + TAG_MM / 2], 1.2, 'symbol'),
    ...[81, 120, 158].map((at) =>
      line(
        [
          [x + at, y + 2.4],
          [x + at, y + TAG_MM - 2.4],
        ],
        'ampere 1',
      ),
    ),
    ...keyNet(x + KEY_NET.leftMm, y + KEY_NET.topMm),
  ]
}

/** Rectangles of the key net, in its own units: floor in the middle, right long side above, left below, ends, roof beyond the door end. */
const NET: Readonly<Record<Side, readonly [left: number, top: number, right: number, bottom: number]>> = {
  floor: [16, 17, 40, 31],
  right: [16, 2, 40, 17],
  left: [16, 31, 40, 46],
  'blind end': [2, 17, 16, 31],
  'door end': [40, 17, 54, 31],
  roof: [54, 17, 84, 31],
}
const NET_UNIT_MM = 0.26
/** Upper left corner of the key net within the tag; its size. */
export const KEY_NET = { leftMm: 161, topMm: 5.5, widthMm: 86 * NET_UNIT_MM, heightMm: 48 * NET_UNIT_MM } as const

/** One side of the key net, hatched, to lie over the frame's. */
export const keySideSvg = (side: Side): string => svg.render(keySideScene(side))

export function keySideScene(side: Side): Scene {
  const [left, top, right, bottom] = NET[side].map((n) => n * NET_UNIT_MM) as [number, number, number, number]
  return {
    sizeMm: [KEY_NET.widthMm, KEY_NET.heightMm],
    said: `key: ${side}`,
    items: [box([left, top], right - left, bottom - top, 'symbol', 'slant close')],
  }
}

/** The box cut open and laid flat: floor, long walls above and below, ends, roof. */
function keyNet(x: number, y: number): readonly Item[] {
  const p = (a: number, b: number): Point => [x + a * NET_UNIT_MM, y + b * NET_UNIT_MM]
  const outline: Point[] = [
    p(2, 17),
    p(16, 17),
    p(16, 2),
    p(40, 2),
    p(40, 17),
    p(84, 17),
    p(84, 31),
    p(40, 31),
    p(40, 46),
    p(16, 46),
    p(16, 31),
    p(2, 31),
  ]
  const folds: [Point, Point][] = [
    [p(16, 17), p(40, 17)],
    [p(16, 31), p(40, 31)],
    [p(16, 17), p(16, 31)],
    [p(40, 17), p(40, 31)],
    [p(54, 17), p(54, 31)],
  ]
  return [{ kind: 'line', pointsMm: outline, closed: true, line: 'symbol' }, ...folds.map((f) => line(f, 'behind'))]
}
