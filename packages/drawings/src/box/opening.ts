import type { Opening } from '@plugstead/engine/job'
import { type FramePiece, HOOD_MM } from '@plugstead/engine/skin'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, millimetres, rect, shape, stroke, upward, words } from '../model/make.ts'
import { onFace, sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { cutLine, cutOf, openingsOf, tubeMm } from './openings.ts'
import { pieceOf, pieceWords, sheetPiece } from './sheet-piece.ts'

/** Wall drawn about an opening. */
const AROUND_MM = 180

/** Openings that need more than a drill. */
export const detailed = (openings: readonly Opening[]): readonly Opening[] => openings.filter((o) => o.class !== 'hole on a flat')

/** One opening from outside with frame and hood, a section beside it, distances from the datum corner, what is sawn for it. */
export function openingDrawing(of: DrawnBox, opening: Opening): Drawing {
  const look = sideView(opening.side, 'outside', of.body.outsideMm)
  const pieces = of.skin?.pieces.filter((p) => p.opening === opening.id) ?? []
  const { low, high, at } = cutOf(opening, look)
  const foot: Point = [at[0], reach(opening, pieces, look).low[1]]
  const long = opening.side === 'left' || opening.side === 'right'
  const along = opening.atMm[long ? 0 : 1]
  const [from, up] = [along - opening.widthMm / 2, opening.atMm[2] - opening.heightMm / 2]
  const datum = long ? 'blind end' : 'left long side'
  return {
    id: `opening-${opening.id.replace(/[^A-Za-z0-9]+/g, '-')}`,
    title: `${opening.id}: ${opening.class}, ${opening.side}`,
    said: `${opening.id}, ${millimetres(opening.widthMm)} by ${millimetres(opening.heightMm)} mm, built as ${opening.class}: its near edge ${millimetres(from)} from the ${datum}, its lower edge ${millimetres(up)} above the underside of the box. Seen from outside, with a section.`,
    toScale: true,
    items: [
      ...wallAbout(of, opening, look, pieces),
      ...openingsOf(of.body, [opening], look, [opening.id]),
      cutLine(opening, look, 'opening'),
      ...lapped(pieces, at),
      ...hoodBefore(opening, pieces, low, high),
      ...section(of, opening, look, pieces),
      ...cutSizes(opening, low, high),
      ...places(from, up, datum, foot),
      ...sawn(pieces, foot),
    ],
  }
}

function reach(opening: Opening, pieces: readonly FramePiece[], look: View) {
  const { low, high } = cutOf(opening, look)
  const b = tubeMm(opening)
  const hood = pieceOf(pieces, opening.id, 'hood') === undefined ? 0 : HOOD_MM.onWallMm
  return {
    low: [low[0] - b - AROUND_MM, low[1] - b - AROUND_MM] as const,
    high: [high[0] + b + AROUND_MM, high[1] + b + hood + AROUND_MM] as const,
  }
}

/** Ribs of the wall about it, cut off where the drawing ends; rails where the jambs reach them. */
function wallAbout(of: DrawnBox, opening: Opening, look: View, pieces: readonly FramePiece[]): readonly Drawn[] {
  const { low, high } = reach(opening, pieces, look)
  const { flats, sheet } = of.body.sides[opening.side]
  const u = (alongMm: number): number => look.at(onFace(opening.side, of.body.outsideMm, alongMm, 0))[0]
  const [bottom, top] = opening.railToRail ? [sheet.lowMm, sheet.highMm] : [low[1], high[1]]
  const ribs = flats
    .filter((f) => f.kind === 'inner')
    .flatMap((f) => [u(f.fromMm), u(f.toMm)])
    .filter((x) => x > low[0] && x < high[0])
    .map((x) =>
      stroke(
        'rib',
        [
          [x, Math.max(bottom, sheet.lowMm)],
          [x, Math.min(top, sheet.highMm)],
        ],
        'rib',
      ),
    )
  const rails = opening.railToRail
    ? [sheet.lowMm, sheet.highMm].map((y) =>
        stroke(
          'frame',
          [
            [low[0], y],
            [high[0], y],
          ],
          'cut',
        ),
      )
    : []
  return [...ribs, ...rails]
}

/** Collar and plate lie on the sheet about the cut, one on the other: one outline each, and none twice. */
function lapped(pieces: readonly FramePiece[], [x, y]: Point): readonly Drawn[] {
  const sizes = pieces.filter((p) => p.part === 'collar' || p.part === 'plate').map(sheetPiece)
  const once = sizes.filter((s, i) => sizes.findIndex((o) => o.wideMm === s.wideMm && o.highMm === s.highMm) === i)
  return once.map(({ wideMm: w, highMm: h }) => rect('item', [x - w / 2, y - h / 2], [x + w / 2, y + h / 2], 'symbol'))
}

/** The hood's sheet as it lies before the wall: on the wall above the frame, its lip below. */
function hoodBefore(opening: Opening, pieces: readonly FramePiece[], low: Point, high: Point): readonly Drawn[] {
  const hood = pieceOf(pieces, opening.id, 'hood')
  if (hood === undefined) return []
  const b = tubeMm(opening)
  const middle = (low[0] + high[0]) / 2
  const half = hood.lengthMm / 2
  return [rect('item', [middle - half, high[1] + b - HOOD_MM.lipMm], [middle + half, high[1] + b + HOOD_MM.onWallMm], 'symbol')]
}

/** Through the middle, seen along the wall: sheet black, tubes hollow, the hood as it stands out. Outside is to the left. */
function section(of: DrawnBox, opening: Opening, look: View, pieces: readonly FramePiece[]): readonly Drawn[] {
  const { low, high } = cutOf(opening, look)
  const whole = reach(opening, pieces, look)
  const c = of.body.sides[opening.side].corrugation
  const depth = c?.depthMm ?? 0
  const x = whole.high[0] + AROUND_MM + HOOD_MM.outMm
  const sheet = Math.max(c?.thicknessMm ?? 2, 2)
  const b = tubeMm(opening)
  const wall = (from: number, to: number): Drawn => rect('frame', [x, from], [x + sheet, to], 'symbol', 'solid')
  const drawn: Drawn[] = [wall(whole.low[1], low[1] - b), wall(high[1] + b, whole.high[1])]
  if (depth > 0) drawn.push(rect('rib', [x + sheet, whole.low[1]], [x + depth, low[1] - b], 'behind'))
  if (depth > 0) drawn.push(rect('rib', [x + sheet, high[1] + b], [x + depth, whole.high[1]], 'behind'))
  for (const y of b > 0 ? [low[1] - b, high[1]] : [])
    drawn.push(
      rect('frame', [x, y], [x + b, y + b], 'opening', 'blank'),
      rect('frame', [x + 3, y + 3], [x + b - 3, y + b - 3], 'symbol'),
    )
  if (pieceOf(pieces, opening.id, 'hood') !== undefined) {
    const top = high[1] + b
    drawn.push(
      stroke(
        'item',
        [
          [x, top + HOOD_MM.onWallMm],
          [x, top],
          [x - HOOD_MM.outMm, top],
          [x - HOOD_MM.outMm, top - HOOD_MM.lipMm],
        ],
        'cut',
      ),
      across([x - HOOD_MM.outMm, top], [x, top], top + HOOD_MM.onWallMm, -5),
    )
  }
  drawn.push(
    words([x, whole.low[1]], 'outside', { anchor: 'end', byMm: [-2, 4] }),
    words([x + Math.max(b, depth), whole.low[1]], 'inside', { byMm: [2, 4] }),
    shape(
      'frame',
      [
        [x, low[1]],
        [x, high[1]],
      ],
      'hair',
    ),
  )
  return drawn
}

function cutSizes(opening: Opening, low: Point, high: Point): readonly Drawn[] {
  const b = tubeMm(opening)
  const clear = opening.shape === 'round' ? `ø ${millimetres(opening.widthMm)}` : null
  const width: Drawn = across(low, [high[0], low[1]], low[1] - b, 7)
  const drawn: Drawn[] = [clear === null ? width : ({ ...width, words: clear } as Drawn)]
  if (clear === null) drawn.push(upward([high[0], low[1]], high, high[0] + b, 7))
  if (b > 0) drawn.push(across([low[0] - b, low[1] - b], [high[0] + b, low[1] - b], low[1] - b, 13))
  if (b > 0 && !opening.railToRail) drawn.push(upward([high[0] + b, low[1] - b], [high[0] + b, high[1] + b], high[0] + b, 13))
  if (clear === null && opening.cornerRadiusMm > 0)
    drawn.push(words(low, `R ${millimetres(opening.cornerRadiusMm)}`, { byMm: [2.6, -3], halo: true }))
  return drawn
}

/** Where it stands, in words: the datum corner is far off the sheet. */
function places(from: number, up: number, datum: string, at: Point): readonly Drawn[] {
  return [
    words(at, `near edge ${millimetres(from)} from the ${datum}`, { byMm: [0, 10], anchor: 'middle', halo: true }),
    words(at, `lower edge ${millimetres(up)} above the underside of the box`, {
      byMm: [0, 13.5],
      anchor: 'middle',
      halo: true,
    }),
  ]
}

function sawn(pieces: readonly FramePiece[], at: Point): readonly Drawn[] {
  return pieces.map((piece, i) => words(at, pieceWords(piece), { anchor: 'middle', byMm: [0, 18.5 + 3.5 * i], halo: true }))
}
