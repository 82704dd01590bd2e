import type { BoxBody } from '@plugstead/engine/box'
import type { Opening } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { partOf, plate, rect, round, tag, verdictAt } from '../model/make.ts'
import { onFace, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'

/** An opening in a view: middle, and the corners of its clear cut. */
export function cutOf(opening: Opening, look: View): { readonly at: Point; readonly low: Point; readonly high: Point } {
  const at = look.at(opening.atMm)
  const [w, h] = [opening.widthMm / 2, opening.heightMm / 2]
  return { at, low: [at[0] - w, at[1] - h], high: [at[0] + w, at[1] + h] }
}

/** The clear cut itself: a true circle, or a rectangle with its corner radius. */
export function cutLine(opening: Opening, look: View, line: 'opening' | 'behind'): Drawn {
  const { at, low, high } = cutOf(opening, look)
  const hatch = line === 'opening' ? 'blank' : undefined
  return opening.shape === 'round'
    ? round('opening', at, opening.widthMm / 2, line, hatch)
    : plate('opening', low, high, opening.cornerRadiusMm, line, hatch)
}

/** Width of a frame's tube: the first figure of its section's name; 0 without a frame. */
export const tubeMm = (opening: Opening): number => Number(/\d+(\.\d+)?/.exec(opening.frame ?? '')?.[0] ?? 0)

/** Openings of a side with their frames and tags. `taken`: things that bear the same letters, and are seen. `marks`: what does not hold. */
export function openingsOf(
  body: BoxBody,
  openings: readonly Opening[],
  look: View,
  taken: readonly string[],
  marks: DrawnBox['marks'] = {},
): readonly Drawn[] {
  return openings.flatMap((opening) => {
    const { low, high } = cutOf(opening, look)
    const items: Drawn[] = [...frameOf(body, opening, look), cutLine(opening, look, 'opening')]
    if (opening.meshMm !== null) items.push(rect('opening', low, high, 'none', 'slant close'))
    if (!taken.includes(opening.id) && (opening.use !== 'cord exit' || opening.plate !== null))
      items.push(tag(low, high, opening.id, { inside: opening.meshMm === null ? 'nothing' : 'hatch' }))
    const verdict = marks[opening.id]
    if (verdict !== undefined) items.push(verdictAt(high, verdict))
    return partOf(opening.id, items)
  })
}

/** Jambs, head and sill about the cut; jambs that run from rail to rail do so here too. */
function frameOf(body: BoxBody, opening: Opening, look: View): readonly Drawn[] {
  const b = tubeMm(opening)
  if (b === 0) return []
  const { low, high } = cutOf(opening, look)
  if (!opening.railToRail) return [rect('frame', [low[0] - b, low[1] - b], [high[0] + b, high[1] + b], 'symbol', 'blank')]
  const { sheet } = body.sides[opening.side]
  const bottom = look.at(onFace(opening.side, body.outsideMm, 0, sheet.lowMm))[1]
  const top = look.at(onFace(opening.side, body.outsideMm, 0, sheet.highMm))[1]
  return [
    rect('frame', [low[0] - b, bottom], [low[0], top], 'symbol', 'blank'),
    rect('frame', [high[0], bottom], [high[0] + b, top], 'symbol', 'blank'),
    rect('frame', [low[0], high[1]], [high[0], high[1] + b], 'symbol', 'blank'),
    rect('frame', [low[0], low[1] - b], [high[0], low[1]], 'symbol', 'blank'),
  ]
}
