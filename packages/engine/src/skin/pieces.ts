import type { BoxBody } from '../box/index.ts'
import type { Opening } from '../job/index.ts'
import { tubeNamed } from './frame.ts'
import type { FramePiece } from './result.ts'

/** Overlap of a collar or a hood on the sheet around its hole. House rule. */
const OVERLAP_MM = 40
/** A hood's sheet, from its upper edge: what lies on the wall, what stands out, the lip that drips. House rule. */
export const HOOD_MM = { onWallMm: OVERLAP_MM, outMm: 150, lipMm: 20 } as const

/** Lengths to saw and plates to cut for one opening; tubes are mitred at the corners, so each is as long as its outside. */
export function piecesOf(body: BoxBody, opening: Opening): readonly FramePiece[] {
  const out: FramePiece[] = []
  const add = (part: FramePiece['part'], section: string, lengthMm: number, count: number) =>
    out.push({ opening: opening.id, part, section, lengthMm: Math.round(lengthMm * 10) / 10, count })
  if (opening.frame !== null) {
    const { bMm } = tubeNamed(opening.frame)
    const { sheet } = body.sides[opening.side]
    const up = opening.railToRail ? sheet.highMm - sheet.lowMm : opening.heightMm + 2 * bMm
    add('jamb', opening.frame, up, 2)
    // Between jambs that run through, head and sill are butted; in a mitred frame they are as long as its outside.
    const across = opening.railToRail ? opening.widthMm : opening.widthMm + 2 * bMm
    add('head', opening.frame, across, 1)
    add('sill', opening.frame, across, 1)
  }
  if (opening.class === 'collar')
    add('collar', `sheet 3 mm x ${Math.round(opening.heightMm + 2 * OVERLAP_MM)} mm`, opening.widthMm + 2 * OVERLAP_MM, 1)
  if (opening.plate !== null)
    add(
      'plate',
      `sheet ${opening.plate.thicknessMm} mm x ${Math.round(opening.plate.heightMm + 2 * OVERLAP_MM)} mm`,
      opening.plate.widthMm + 2 * OVERLAP_MM,
      1,
    )
  if (opening.hood)
    add('hood', `sheet 2 mm x ${HOOD_MM.onWallMm + HOOD_MM.outMm + HOOD_MM.lipMm} mm`, opening.widthMm + 2 * OVERLAP_MM, 1)
  return out
}
