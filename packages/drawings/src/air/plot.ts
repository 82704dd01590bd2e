import { THIN } from '@plugstead/engine/kernel'
import { roundStep } from '../chart-axis.ts'
import type { LineMeaning } from '../lines.ts'
import { wordsMm } from '../model/lettering.ts'
import { box, type Item, LETTERING_MM, line, type Point, text } from '../scene.ts'
import { type AirClock, DAY_H, dayWords, timeAt } from './clock.ts'
import { fixed } from './units.ts'

/** Words broken into lines that fit; a word that is longer than the room keeps its line. */
export function wrapped(words: string, roomMm: number, heightMm = LETTERING_MM): readonly string[] {
  const lines: string[] = []
  for (const word of words.split(' ')) {
    const last = lines.at(-1)
    if (last === undefined || wordsMm(`${last} ${word}`, heightMm) > roomMm) lines.push(word)
    else lines[lines.length - 1] = `${last} ${word}`
  }
  return lines
}

/** Height of a line of lettering. */
export const LINE_MM = 3.5

/** One line below another; and where the next would stand. */
export function paragraph(
  words: string,
  at: Point,
  roomMm: number,
): { readonly items: readonly Item[]; readonly nextMm: number } {
  const lines = wrapped(words, roomMm)
  return { items: lines.map((one, i) => text([at[0], at[1] + i * LINE_MM], one)), nextMm: at[1] + lines.length * LINE_MM }
}

/** A curve through what is known; it breaks where a value is not. */
export function curves(values: readonly number[], x: (h: number) => number, y: (value: number) => number): readonly Point[][] {
  const out: Point[][] = []
  let open: Point[] = []
  for (const [h, value] of values.entries()) {
    if (Number.isFinite(value)) open.push([x(h), y(value)])
    else if (open.length > 0) {
      out.push(open)
      open = []
    }
  }
  if (open.length > 0) out.push(open)
  // A single reading is a short stroke, else it would not be seen.
  return out.map((points) =>
    points.length > 1
      ? points
      : [
          [points[0]![0] - 0.6, points[0]![1]],
          [points[0]![0] + 0.6, points[0]![1]],
        ],
  )
}

export interface Scale {
  readonly low: number
  readonly high: number
  readonly step: number
}

/** A scale of whole steps that holds all of the values. */
export function scaleOver(values: readonly number[], most: number): Scale {
  const known = values.filter(Number.isFinite)
  if (known.length === 0) return { low: 0, high: 1, step: 1 }
  let [low, high] = [Infinity, -Infinity]
  for (const v of known) {
    low = Math.min(low, v)
    high = Math.max(high, v)
  }
  const step = roundStep(Math.max(high - low, 1), most)
  const from = Math.floor(low / step) * step
  return { low: from, high: Math.max(Math.ceil(high / step) * step, from + step), step }
}

export const ticksOf = ({ low, high, step }: Scale): readonly number[] =>
  Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => low + i * step)

export interface Named {
  readonly yMm: number
  readonly words: string
  readonly strong?: boolean
}

/** Names beside the ends of their curves, pushed apart where two would stand on each other, all between top and bottom. */
export function beside(
  names: readonly Named[],
  xMm: number,
  between: { readonly topMm: number; readonly bottomMm: number },
): readonly Item[] {
  const apart = 3.2
  const sorted = names.map((n) => ({ ...n, at: n.yMm })).sort((a, b) => a.yMm - b.yMm)
  let last = -Infinity
  for (const n of sorted) {
    n.at = Math.max(n.at, last + apart, between.topMm)
    last = n.at
  }
  let next = Infinity
  for (const n of sorted.toReversed()) {
    n.at = Math.min(n.at, next - apart, between.bottomMm)
    next = n.at
  }
  return sorted.flatMap((n): readonly Item[] => [
    ...(Math.abs(n.at - n.yMm) > 1.2
      ? [
          line(
            [
              [xMm - 1.6, n.yMm],
              [xMm - 0.2, n.at],
            ],
            'hair',
          ),
        ]
      : []),
    text([xMm + 0.4, n.at + 0.95], n.words, { strong: n.strong ?? false }),
  ])
}

/** Room of one curve or more above the hours. */
export interface Strip {
  readonly x: (h: number) => number
  readonly leftMm: number
  readonly rightMm: number
  readonly topMm: number
  readonly bottomMm: number
}

/** Midnights through all strips, and the days named below. */
export function dayItems(spell: AirClock & { readonly hoursCount: number }, at: Strip): readonly Item[] {
  const items: Item[] = []
  const days = Math.ceil((spell.firstHour + spell.hoursCount) / DAY_H)
  const dayMm = ((at.rightMm - at.leftMm) / spell.hoursCount) * DAY_H
  const every = Math.max(1, Math.ceil(wordsMm('28 Mar ', LETTERING_MM) / dayMm))
  for (let d = 0; d < days; d += 1) {
    const h = d * DAY_H - spell.firstHour
    const x = Math.max(at.leftMm, at.x(h - 0.5))
    if (h > 0) items.push(line([[x, at.topMm] as Point, [x, at.bottomMm] as Point], 'hair'))
    items.push(line([[x, at.bottomMm] as Point, [x, at.bottomMm + 1.6] as Point], 'opening'))
    if (d % every === 0) items.push(text([x + 0.6, at.bottomMm + 3.6], dayWords(timeAt(spell, Math.max(h, 0)))))
  }
  items.push(box([at.leftMm, at.bottomMm], at.rightMm - at.leftMm, 0, 'ampere 1'))
  return items
}

export const yOf =
  ({ low, high }: Scale, { topMm, bottomMm }: Strip) =>
  (value: number): number =>
    bottomMm - ((value - low) / (high - low)) * (bottomMm - topMm)

export const flat = (y: number, { leftMm, rightMm }: Strip, meaning: LineMeaning): Item =>
  line([[leftMm, y] as Point, [rightMm, y] as Point], meaning)

export function axis(scale: Scale, at: Strip, unit: string): readonly Item[] {
  const y = yOf(scale, at)
  const ticks = ticksOf(scale)
  return [
    line([[at.leftMm, at.topMm] as Point, [at.leftMm, at.bottomMm] as Point], 'ampere 1'),
    ...ticks.flatMap((v, i): readonly Item[] => [
      line([[at.leftMm - 1.2, y(v)] as Point, [at.leftMm, y(v)] as Point], 'ampere 1'),
      text(
        [at.leftMm - 1.8, y(v) + 0.95],
        `${fixed(v, Number.isInteger(scale.step) ? 0 : 1)}${i === ticks.length - 1 && unit !== '' ? `${THIN}${unit}` : ''}`,
        { anchor: 'end' },
      ),
    ]),
  ]
}
