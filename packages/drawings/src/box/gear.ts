import type { PlacedItem, StrutPiece } from '@plugstead/engine/job'
import { Fault } from '@plugstead/engine/kernel'
import type { Drawn } from '../model/drawing.ts'
import { partOf, rect, stroke, tag, verdictAt } from '../model/make.ts'
import { covers, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'

/** Letters of a thing: what a person calls it at the wall. */
export const letters = ({ id, kind }: PlacedItem): string => {
  const own = id.startsWith(`${kind} `) ? id.slice(kind.length + 1) : id
  return kind === 'receptacle' || kind === 'junction box' ? own : id
}

/** Things in true outline with their letters, the mark of what does not hold, the punch of what is pinned. */
export function gearOf(of: Pick<DrawnBox, 'marks' | 'pinned'>, items: readonly PlacedItem[], look: View): readonly Drawn[] {
  return items.flatMap((item) => {
    const { low, high } = boxOf(item, look)
    const drawn: Drawn[] = [rect('item', low, high, 'symbol', 'blank')]
    const slotted = item.kind === 'receptacle' && look.up.axis === 2
    if (slotted) drawn.push(...contacts(low, high))
    drawn.push(tag(low, high, letters(item), { strong: item.kind === 'panel', inside: slotted ? 'things' : 'nothing' }))
    const verdict = of.marks[item.id]
    if (verdict !== undefined) drawn.push(verdictAt([high[0], high[1]], verdict))
    if (of.pinned.includes(item.id)) drawn.push(verdictAt([low[0], high[1]], 'punch'))
    return partOf(item.id, drawn)
  })
}

/** The same things seen through the wall: dashes, no letters. */
export const gearBehind = (items: readonly PlacedItem[], look: View): readonly Drawn[] =>
  items.map((item) => {
    const { low, high } = boxOf(item, look)
    return { ...rect('item', low, high, 'behind'), of: item.id }
  })

export function boxOf({ atMm, sizeMm }: Pick<PlacedItem, 'atMm' | 'sizeMm'>, look: View) {
  return covers(look, atMm, [atMm[0] + sizeMm[0], atMm[1] + sizeMm[1], atMm[2] + sizeMm[2]])
}

/** Two upright slots in the upper half of a receptacle's face. */
function contacts([x0, y0]: Point, [x1, y1]: Point): readonly Drawn[] {
  const [w, h] = [x1 - x0, y1 - y0]
  return [0.35, 0.65].map((u) =>
    stroke(
      'item',
      [
        [x0 + u * w, y0 + 0.4 * h],
        [x0 + u * w, y0 + 0.75 * h],
      ],
      'opening',
    ),
  )
}

/**
 * Width and depth of a channel by its name: the millimetres in brackets, `… (41 x 22)`, else its inches, `16 ga 1-5/8 x 13/16`.
 * @throws Fault `drawings/channel-unknown` for a name that says neither
 */
export function channelMm(section: string): { readonly wideMm: number; readonly deepMm: number } {
  const [, wide, deep] = /\((\d+(?:\.\d+)?) x (\d+(?:\.\d+)?)[^()]*\)/.exec(section) ?? []
  if (wide !== undefined && deep !== undefined) return { wideMm: Number(wide), deepMm: Number(deep) }
  const [, across, out] = /(\S+\/\d+) x (\S+\/\d+)/.exec(section) ?? []
  if (across === undefined || out === undefined) throw new Fault('drawings/channel-unknown', section)
  return { wideMm: inchesMm(across), deepMm: inchesMm(out) }
}

/** `1-5/8` inches. */
function inchesMm(words: string): number {
  const [, whole = '0', part, of] = /^(?:(\d+)-)?(\d+)\/(\d+)$/.exec(words) ?? []
  return (Number(whole) + Number(part) / Number(of)) * 25.4
}

const SLOT_MM = 28
const SLOT_PITCH_MM = 50

/** A channel from before or from its side: its true width; with `slots` its pattern along the middle. */
export function strutOf(pieces: readonly StrutPiece[], look: View, slots: boolean): readonly Drawn[] {
  return pieces.flatMap((piece) => {
    const { wideMm } = channelMm(piece.section)
    const [a, b] = [look.at(piece.fromMm), look.at(piece.toMm)]
    const lengthMm = Math.hypot(b[0] - a[0], b[1] - a[1])
    const half = wideMm / 2
    if (lengthMm < wideMm) return [rect('strut', [a[0] - half, a[1] - half], [a[0] + half, a[1] + half], 'ampere 1', 'blank')]
    const level = Math.abs(b[0] - a[0]) > Math.abs(b[1] - a[1])
    const [low, high]: readonly [Point, Point] = [
      [Math.min(a[0], b[0]), Math.min(a[1], b[1])],
      [Math.max(a[0], b[0]), Math.max(a[1], b[1])],
    ]
    const body = level
      ? rect('strut', [low[0], low[1] - half], [high[0], high[1] + half], 'ampere 1', 'blank')
      : rect('strut', [low[0] - half, low[1]], [high[0] + half, high[1]], 'ampere 1', 'blank')
    if (!slots || piece.pattern === 'solid') return [body]
    const count = Math.floor((lengthMm - SLOT_MM) / SLOT_PITCH_MM)
    const first = (lengthMm - count * SLOT_PITCH_MM) / 2
    const marks = Array.from({ length: Math.max(0, count) + 1 }, (_, i): Drawn => {
      const s = first + i * SLOT_PITCH_MM
      const [from, to] = [s - SLOT_MM / 2, s + SLOT_MM / 2]
      return level
        ? stroke(
            'strut',
            [
              [low[0] + from, low[1]],
              [low[0] + to, low[1]],
            ],
            'ampere 1',
          )
        : stroke(
            'strut',
            [
              [low[0], low[1] + from],
              [low[0], low[1] + to],
            ],
            'ampere 1',
          )
    })
    return [body, ...marks]
  })
}
