import type { Drawing, Drawn } from '../model/drawing.ts'
import { wordsMm } from '../model/lettering.ts'
import { plate, words } from '../model/make.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'

/** A label: read at arm's length on the lid of a receptacle. House rule. */
const LABEL_MM: Point = [84, 16]
const LETTER_MM = 5
const LEAST_LETTER_MM = 2.65
const GAP_MM = 4
const PER_SHEET = 20

/** Labels at true size, two in a row, in the order in which they are stuck on. */
export function labelDrawings({ build, labels }: DrawnBox): readonly Drawing[] {
  const sheets = Math.ceil(labels.length / PER_SHEET)
  return Array.from({ length: sheets }, (_, i) => {
    const own = labels.slice(i * PER_SHEET, (i + 1) * PER_SHEET)
    return {
      id: `labels-${i + 1}`,
      title: `Labels of ${build.box}, ${i + 1} of ${sheets}`,
      said: `Labels at true size, ${LABEL_MM[0]} by ${LABEL_MM[1]} mm: ${own.map((l) => l.words).join('; ')}.`,
      toScale: true,
      trueSize: true,
      items: own.flatMap((label, k): readonly Drawn[] => {
        const x = (k % 2) * (LABEL_MM[0] + GAP_MM)
        const y = -Math.floor(k / 2) * (LABEL_MM[1] + GAP_MM)
        // Letters shrink before a word is cut off; what is still too long is said on the list, not here.
        const heightMm = Math.max(
          LEAST_LETTER_MM,
          Math.min(LETTER_MM, (LETTER_MM * (LABEL_MM[0] - 6)) / wordsMm(label.words, LETTER_MM)),
        )
        return [
          plate('cut', [x, y - LABEL_MM[1]], [x + LABEL_MM[0], y], 2, 'symbol'),
          words([x + LABEL_MM[0] / 2, y - LABEL_MM[1] / 2], label.words, {
            anchor: 'middle',
            heightMm,
            strong: true,
            byMm: [0, heightMm * 0.3],
          }),
        ]
      }),
    }
  })
}
