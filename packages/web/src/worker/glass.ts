import { bareScene, type GlassPlace, glassNet, glassSide, type Point } from '@plugstead/drawings'
import type { AtWork } from './at-work.ts'
import type { GlassView, SheetAsked } from './protocol.ts'
import { boxAnswers } from './things.ts'

/** Size of the lettering on paper, that all of a drawing is measured by. */
const LETTERING_MM = 2.65
const LEAST_SCALE = 8

/** A box's drawing as large as the room for it allows, its lettering at the size asked for. */
export function glassView(at: AtWork, asked: SheetAsked): GlassView | null {
  const drawn = at.drawn.find((d) => d.build.box === asked.box)
  if (drawn === undefined) return null
  // Marks stand beside what any question found, not only those of the box.
  const lines = boxAnswers(at).find((b) => b.box === asked.box)?.things ?? []
  const marks = Object.fromEntries(
    lines.flatMap(({ id, verdict }) => (verdict === null || verdict === 'holds' ? [] : [[id, verdict] as const])),
  )
  const of = { ...drawn, marks }
  const sheet = asked.side === null ? glassNet(of) : glassSide(of, asked.side)
  const pxPerMm = asked.letterPx / LETTERING_MM
  let scale = LEAST_SCALE
  let laid = bareScene(sheet.drawing, 100)
  // Letters keep their size while the drawing shrinks: the scale is found by trying.
  for (let round = 0; round < 6; round++) {
    laid = bareScene(sheet.drawing, scale)
    const [w, h] = laid.scene.sizeMm
    const over = Math.max((w * pxPerMm) / asked.widthPx, (h * pxPerMm) / asked.heightPx)
    if (over <= 1) break
    scale *= Math.max(over, 1.01)
  }
  const rect = ({ lowMm, highMm }: GlassPlace) => {
    const [a, b]: readonly [Point, Point] = [laid.at(lowMm), laid.at(highMm)]
    return {
      x: Math.min(a[0], b[0]) * pxPerMm,
      y: Math.min(a[1], b[1]) * pxPerMm,
      w: Math.abs(b[0] - a[0]) * pxPerMm,
      h: Math.abs(b[1] - a[1]) * pxPerMm,
    }
  }
  return {
    widthPx: laid.scene.sizeMm[0] * pxPerMm,
    heightPx: laid.scene.sizeMm[1] * pxPerMm,
    pxPerMm,
    said: laid.scene.said,
    items: laid.scene.items,
    things: sheet.things.map((place) => ({ id: place.id, side: place.side, ...rect(place) })),
    sides: sheet.sides.map((place) => ({ side: place.side, ...rect(place) })),
  }
}
