import type { Drawing } from '../model/drawing.ts'
import { barsDrawing } from './bars.ts'
import type { DrawnBox } from './drawn-box.ts'
import { labelDrawings } from './labels.ts'
import { lashingDrawing } from './lashing.ts'
import { liftingDrawing } from './lifting.ts'
import { detailed, openingDrawing } from './opening.ts'
import { padsDrawing } from './pads.ts'
import { planDrawing } from './plan.ts'
import { plateDrawing } from './plate.ts'
import { runDrawings } from './runs.ts'
import { pieceOf } from './sheet-piece.ts'
import { sixSides } from './six-sides.ts'
import { snowFrameDrawing, snowSeatDrawing } from './snow-frame.ts'
import { WALLS, wallDrawing } from './wall.ts'

export type { DrawnBox } from './drawn-box.ts'
export { type Drawable, drawnBoxes } from './gather.ts'
export {
  type GlassMachine,
  type GlassPlace,
  type GlassSheet,
  type GlassSidePlace,
  glassNet,
  glassSide,
  glassYard,
} from './glass.ts'
export { patternDrawings } from './patterns.ts'

/** Every sheet of a box, in the order in which a shop takes them up. */
export function boxDrawings(of: DrawnBox): readonly Drawing[] {
  const { openings } = of.build.skin
  return [
    sixSides(of),
    planDrawing(of),
    ...WALLS.flatMap((side) => (['inside', 'outside'] as const).map((face) => wallDrawing(of, side, face))),
    ...detailed(openings).map((opening) => openingDrawing(of, opening)),
    ...openings.flatMap((opening) => {
      const piece = pieceOf(of.skin?.pieces ?? [], opening.id, 'plate')
      return piece === undefined ? [] : [plateDrawing(opening, piece)]
    }),
    ...runDrawings(of),
    ...(of.haul === null ? [] : [liftingDrawing(of, of.haul), lashingDrawing(of, of.haul), padsDrawing(of, of.haul)]),
    ...(of.haul?.snowFrame == null ? [] : [snowFrameDrawing(of, of.haul.snowFrame), snowSeatDrawing(of, of.haul.snowFrame)]),
    ...(of.cuts ?? []).map((cut, i) => barsDrawing(cut, i + 1)),
    ...labelDrawings(of),
  ]
}
