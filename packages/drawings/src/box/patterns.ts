import type { BoxBody } from '@plugstead/engine/box'
import type { Opening } from '@plugstead/engine/job'
import { type FramePiece, HOOD_MM } from '@plugstead/engine/skin'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { millimetres, plate, rect, round, stroke, words } from '../model/make.ts'
import { onFace, sideView } from '../model/view.ts'
import type { DrawnBox } from './drawn-box.ts'
import { cutOf } from './openings.ts'
import { plateHoles } from './plate.ts'
import { sheetPiece } from './sheet-piece.ts'
import { ribsAssumed } from './steel.ts'

const CUT_WALLS = ['left', 'right', 'blind end', 'door end'] as const
const nameOf = (words: string): string => words.replace(/[^A-Za-z0-9]+/g, '-')

/** Flat outlines for a cutting table: walls that are cut, and every sheet that is made for an opening. One closed line for each cut. */
export function patternDrawings(of: DrawnBox): readonly Drawing[] {
  const { openings } = of.build.skin
  const walls = CUT_WALLS.filter((side) => openings.some((o) => o.side === side)).map((side) =>
    wallPattern(of.body, side, openings),
  )
  const sheets = (of.skin?.pieces ?? []).filter((p) => p.section.startsWith('sheet '))
  return [
    ...walls,
    ...sheets.flatMap((piece) => {
      const opening = openings.find((o) => o.id === piece.opening)
      return opening === undefined ? [] : [sheetPattern(opening, piece)]
    }),
  ]
}

/** A wall from outside as it stands, not stretched flat: what is set out on the steel and cut there. */
function wallPattern(body: BoxBody, side: (typeof CUT_WALLS)[number], all: readonly Opening[]): Drawing {
  const look = sideView(side, 'outside', body.outsideMm)
  const { sheet } = body.sides[side]
  const openings = all.filter((o) => o.side === side)
  const corner = (along: number, up: number) => look.at(onFace(side, body.outsideMm, along, up))
  const assumed = ribsAssumed(body, side)
  const whole = sheet.toMm > sheet.fromMm
  return {
    id: `pattern-wall-${nameOf(side)}`,
    title: `Cuts of the ${side}, seen from outside`,
    said: `Wall of the ${side} as it stands, ${openings.length} cuts; the origin is the lower left corner of the box, seen from outside.`,
    toScale: true,
    trueSize: true,
    items: [
      ...(whole ? [rect('mark', corner(sheet.fromMm, sheet.lowMm), corner(sheet.toMm, sheet.highMm), 'symbol')] : []),
      ...openings.map((o) => clearCut(o, look)),
      ...(assumed === null ? [] : [words(corner(sheet.fromMm, sheet.lowMm), assumed, { layer: 'text', byMm: [0, 4] })]),
      ...openings.map((o) => words(cutOf(o, look).at, o.id, { layer: 'text', anchor: 'middle', byMm: [0, -2] })),
    ],
  }
}

/** On the layer of what makes it: a drill, or a torch. */
function clearCut(opening: Opening, look: ReturnType<typeof sideView>): Drawn {
  const { at, low, high } = cutOf(opening, look)
  const layer = opening.class === 'hole on a flat' ? 'drill' : 'cut'
  return opening.shape === 'round'
    ? round(layer, at, opening.widthMm / 2, 'opening')
    : plate(layer, low, high, opening.cornerRadiusMm, 'opening')
}

function sheetPattern(opening: Opening, piece: FramePiece): Drawing {
  const { wideMm, highMm, thicknessMm } = sheetPiece(piece)
  return {
    id: `pattern-${piece.part}-${nameOf(opening.id)}`,
    title: `${piece.part} of ${opening.id}, sheet ${millimetres(thicknessMm)} mm`,
    said: `Flat outline of the ${piece.part} of ${opening.id}, ${millimetres(wideMm)} by ${millimetres(highMm)} mm, ${millimetres(thicknessMm)} mm thick, ${piece.count} of it.`,
    toScale: true,
    trueSize: true,
    items: [
      rect('cut', [0, 0], [wideMm, highMm], 'cut'),
      ...inside(opening, piece, wideMm, highMm),
      words([wideMm / 2, highMm], `${piece.count} of sheet ${millimetres(thicknessMm)} mm`, {
        layer: 'text',
        anchor: 'middle',
        byMm: [0, -2],
      }),
    ],
  }
}

function inside(opening: Opening, piece: FramePiece, wideMm: number, highMm: number): readonly Drawn[] {
  switch (piece.part) {
    case 'plate':
      return plateHoles(opening, piece).map((hole) => round('cut', hole.atMm, hole.radiusMm, 'opening'))
    case 'collar': {
      const [x, y] = [wideMm / 2, highMm / 2]
      const [w, h] = [opening.widthMm / 2, opening.heightMm / 2]
      return opening.shape === 'round'
        ? [round('cut', [x, y], w, 'opening')]
        : [plate('cut', [x - w, y - h], [x + w, y + h], opening.cornerRadiusMm, 'opening')]
    }
    case 'hood':
      return [HOOD_MM.lipMm, HOOD_MM.lipMm + HOOD_MM.outMm].map((y) =>
        stroke(
          'fold',
          [
            [0, y],
            [wideMm, y],
          ],
          'fold',
        ),
      )
    default:
      return []
  }
}
