import type { Opening } from '@plugstead/engine/job'
import { Fault } from '@plugstead/engine/kernel'
import { ENTRIES, type FramePiece } from '@plugstead/engine/skin'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, millimetres, rect, round, stroke, tag, upward, words } from '../model/make.ts'
import type { Point } from '../scene.ts'
import { sheetPiece } from './sheet-piece.ts'

/** Hole for an entry of this thread. @throws Fault `drawings/thread-unknown` */
export function entryHoleMm(thread: string): number {
  const entry = ENTRIES.find((e) => e.thread === thread)
  if (entry === undefined) throw new Fault('drawings/thread-unknown', thread)
  return entry.holeMm
}

export interface PlateHole {
  readonly atMm: Point
  readonly radiusMm: number
  readonly words: string
}

/** Holes of a cord plate from the lower left corner of its sheet, seen from outside: the sheet laps over the opening on all sides. */
export function plateHoles(opening: Opening, piece: FramePiece): readonly PlateHole[] {
  const { wideMm, highMm } = sheetPiece(piece)
  const { plate } = opening
  if (plate === null) return []
  const [lapX, lapY] = [(wideMm - plate.widthMm) / 2, (highMm - plate.heightMm) / 2]
  return plate.entries.map((entry) => ({
    atMm: [entry.uMm + lapX, entry.vMm + lapY],
    radiusMm: entryHoleMm(entry.thread) / 2,
    words: `${entry.thread}${entry.split ? ' split' : ''}, ${entry.plug ?? 'spare, plugged'}`,
  }))
}

/** A cord-exit plate, meant for true size: hole centres from the lower left corner of the sheet. */
export function plateDrawing(opening: Opening, piece: FramePiece): Drawing {
  const { wideMm, highMm, thicknessMm } = sheetPiece(piece)
  const holes = plateHoles(opening, piece)
  const { plate } = opening
  const lap: Point = plate === null ? [0, 0] : [(wideMm - plate.widthMm) / 2, (highMm - plate.heightMm) / 2]
  const ladder = (way: 'across' | 'up'): Drawn => {
    const axis = way === 'across' ? 0 : 1
    const values = [...new Set([0, ...holes.map((h) => h.atMm[axis])])]
    return {
      kind: 'ladder',
      way,
      rungs: values.map((v) => ({ atMm: way === 'across' ? [v, 0] : [0, v], words: millimetres(v) })),
      baseMm: 0,
      offMm: way === 'across' ? 7 : -7,
    }
  }
  return {
    id: `plate-${opening.id.replace(/[^A-Za-z0-9]+/g, '-')}`,
    title: `${opening.id}: plate, sheet ${millimetres(thicknessMm)} mm`,
    said: `Plate of ${opening.id}, ${millimetres(wideMm)} by ${millimetres(highMm)} mm, ${holes.length} holes, seen from outside; hole centres from its lower left corner.`,
    toScale: true,
    trueSize: true,
    items: [
      rect('cut', [0, 0], [wideMm, highMm], 'cut'),
      rect('mark', lap, [wideMm - lap[0], highMm - lap[1]], 'behind'),
      ...holes.flatMap((hole): readonly Drawn[] => [
        round('cut', hole.atMm, hole.radiusMm, 'opening'),
        ...centre(hole.atMm, hole.radiusMm),
        tag(
          [hole.atMm[0] - hole.radiusMm, hole.atMm[1] - hole.radiusMm],
          [hole.atMm[0] + hole.radiusMm, hole.atMm[1] + hole.radiusMm],
          `ø ${millimetres(2 * hole.radiusMm)} ${hole.words}`,
          { inside: 'things' },
        ),
      ]),
      ladder('across'),
      ladder('up'),
      across([0, highMm], [wideMm, highMm], highMm, -5),
      upward([wideMm, 0], [wideMm, highMm], wideMm, 5),
      words([0, highMm], 'seen from outside; dashed: the opening behind', { byMm: [0, -10] }),
    ],
  }
}

const centre = ([x, y]: Point, radiusMm: number): readonly Drawn[] => {
  const r = radiusMm + 4
  return [
    stroke(
      'mark',
      [
        [x - r, y],
        [x + r, y],
      ],
      'fold',
    ),
    stroke(
      'mark',
      [
        [x, y - r],
        [x, y + r],
      ],
      'fold',
    ),
  ]
}
