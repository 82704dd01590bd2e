import type { PlacedItem } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { millimetres, verdictAt, words } from '../model/make.ts'
import type { View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { boxOf } from './gear.ts'

type Clash = DrawnBox['build']['fit']['clashes'][number]

/** Two things that clash in words, below a place of the drawing, with what is missing between them. */
export const clashWords = (clashes: readonly Clash[], at: Point, fromMm: number): readonly Drawn[] =>
  clashes.flatMap((c, i) => [
    verdictAt(at, 'fails', [1.3, fromMm - 0.9 + 4 * i]),
    words(at, `${c.what} against ${c.against}: ${millimetres(c.byMm)} too little`, {
      strong: true,
      layer: 'clash',
      byMm: [3.6, fromMm + 4 * i],
    }),
  ])

/** The mark on each thing that clashes, where it is drawn at all. */
export function clashMarks(
  { marks }: DrawnBox,
  clashes: readonly Clash[],
  look: View,
  near: readonly PlacedItem[],
): readonly Drawn[] {
  const named = new Set(clashes.flatMap((c) => [c.what, c.against]))
  return near
    .filter((item) => named.has(item.id) && marks[item.id] === undefined)
    .map((item) => verdictAt(boxOf(item, look).high, 'fails'))
}
