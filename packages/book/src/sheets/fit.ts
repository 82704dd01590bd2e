import type { PlacedItem, RacewayRoute, Side, StrutPiece } from '@plugstead/engine/job'
import { QUESTION_WORDS } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput, BoxFit } from '../results.ts'
import { col, money, number, percent, plain, quantity, right, spanOf } from '../words.ts'
import { axisM, fixingWords, lengthMm, pieceWords } from './build-words.ts'
import {
  type BuiltBox,
  cautionBlocks,
  dealt,
  drawingBlocks,
  judgedBlocks,
  mm,
  SIDE_WORDS,
  sheetOf,
  titledDrawings,
} from './built.ts'
import { sizeWords } from './circuits.ts'

/** Which findings stand on which sheet: where their subject stands. */
const SHEETS = {
  placed: [
    'not-placed',
    'clash',
    'inside-box',
    'overlap',
    'on-opening',
    'on-dent',
    'door-swing',
    'water-line',
    'meter-height',
    'height',
    'order',
    'pin-kept',
    'pin-unread',
    'highway',
    'free-grid',
  ],
  room: [
    'working-space-depth',
    'working-space-width',
    'working-space-height',
    'working-space-door',
    'handle-height',
    'air-gap',
    'egress',
    'light',
    'light-switch',
  ],
  strut: ['strut-held', 'strut-strength', 'strut-deflection', 'strut-nuts', 'strut-fixings'],
  raceways: ['route', 'bends', 'straps', 'raceway-fill', 'run-length', 'bonding'],
} as const

/** What hangs where, the room before it, the walls, the channel and the raceways of each box that is built. */
export function fitSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const fit = input.assessment.results.fit.boxes.find((b) => b.box === box.id)
    if (fit === undefined) return []
    const of = dealt(input, box, 'fit', SHEETS)
    const judged = (sheet: Parameters<typeof of>[0]): readonly Block[] => judgedBlocks(box, of(sheet))
    const cautions = (sheet: Parameters<typeof of>[0]): readonly Block[] => cautionBlocks(of(sheet))
    return [
      ...sheetOf('fit', QUESTION_WORDS.fit, `${box.name}, ${fit.type}: fallen open, seen from inside`, [
        ...cautions('rest'),
        ...cautions('placed'),
        ...drawingBlocks(box, (id) => id === 'six-sides', 110),
        { k: 'facts', rows: searchRows(fit, input.assessment.results.circuits.boxes[0]?.material.currency ?? '') },
        ...judgedBlocks(box, [...of('rest'), ...of('placed')]),
      ]),
      ...sheetOf('fit', 'What hangs where', `${box.name}: up from the floor, along from the datum of the side`, [
        itemTable(fit, box.build.fit.items),
        ...clashBlocks(box),
      ]),
      ...sheetOf('fit', 'Room to work, and light', `${box.name}: the plan, with what is kept clear`, [
        ...cautions('room'),
        ...drawingBlocks(box, (id) => id === 'plan', 78),
        ...spaceBlocks(fit),
        ...judged('room'),
      ]),
      ...longWall(box, 'left'),
      ...longWall(box, 'right'),
      ...endWalls(box),
      ...sheetOf('fit', 'Channel, and what holds it', strutSub(box, fit), [
        ...cautions('strut'),
        ...strutBlocks(box.build.fit.strut),
        ...judged('strut'),
      ]),
      ...sheetOf('fit', 'Raceways and bonds', `${box.name}: corner to corner along the axis`, [
        ...cautions('raceways'),
        ...racewayBlocks(box.build.fit.raceways),
        ...bondBlocks(box),
        ...judged('raceways'),
      ]),
      ...sheetOf('fit', 'Raceway runs', `${box.name}: isometric`, [
        ...drawingBlocks(box, (id) => id === 'raceways', 100),
        ...drawingBlocks(box, (id) => id.startsWith('runs-'), 178),
      ]),
    ]
  })
}

function searchRows(fit: BoxFit, currency: string): readonly (readonly [Inline, Inline])[] {
  const s = fit.search
  return [
    ['hangs on the steel', [`${fit.items.length} things, `, spanOf(fit.hungKg, 'kg')]],
    ['free for the next trade', fit.freeGridFrac === null ? 'no grid stands' : `${percent(fit.freeGridFrac)} of the grid`],
    ...(s === null
      ? ([['layout', 'as it was given: no search was made']] as const)
      : ([
          [
            'this layout',
            `${money(s.money, currency)} of raceway, wire and channel by the estimate; ${number(s.triedCount)} layouts tried`,
          ],
          [
            'plain left-to-right rule',
            `${money(s.plainMoney, currency)}${s.plainClashesCount === 0 ? '' : `, and ${s.plainClashesCount} of its things clash`}`,
          ],
          ['no layout can cost less than', s.boundMoney === null ? 'nothing is proved' : money(s.boundMoney, currency)],
        ] as const)),
  ]
}

/** More circuits than these are counted: the panel schedule has them all. */
const MOST_NAMED = 5

function itemTable(fit: BoxFit, placed: readonly PlacedItem[]): Block {
  const hangsOn = new Map(placed.map((i) => [i.id, i.hangsOn]))
  return {
    k: 'table',
    small: true,
    columns: [
      col('tag', 26),
      col('what', -1.2),
      col('side', 24),
      col('place of its middle', -1.1),
      right('mass', 25),
      col('hangs on', -1.2),
      col('circuits', -0.7),
    ],
    rows: fit.items.map((i): Inline[] => [
      i.pinned ? [['pinned', i.id]] : [['b', i.id]],
      i.what,
      `${i.side}, ${i.face}`,
      plain(i.place),
      [spanOf(i.massKg, 'kg')],
      pieceWords(hangsOn.get(i.id) ?? []),
      i.circuits.length > MOST_NAMED ? `${i.circuits.length} circuits` : i.circuits.join(', '),
    ]),
  }
}

function clashBlocks({ build }: BuiltBox): readonly Block[] {
  const { clashes } = build.fit
  if (clashes.length === 0) return []
  return [
    { k: 'head', text: 'What could not be placed', verdict: 'fails' },
    {
      k: 'table',
      columns: [col('what', -1), col('against', -1), right('by, mm', 24)],
      rows: clashes.map((c): Inline[] => [[['b', c.what]], c.against, mm(c.byMm)]),
    },
  ]
}

function spaceBlocks(fit: BoxFit): readonly Block[] {
  if (fit.spaces.length === 0) return []
  return [
    { k: 'head', text: 'Kept clear', note: 'before what is worked on live, from its front' },
    {
      k: 'table',
      columns: [
        col('before', -1),
        right('condition'),
        right('deep, mm'),
        right('wide, mm'),
        right('high, mm'),
        right('free before it, mm'),
        col('stands in it', -1.2),
      ],
      rows: fit.spaces.map((s): Inline[] => [
        [['b', s.item]],
        String(s.condition),
        mm(s.depthMm),
        mm(s.widthMm),
        mm(s.heightMm),
        s.freeMm === null ? 'no wall' : mm(s.freeMm),
        s.intrusions.length === 0 ? 'nothing' : s.intrusions.map((i) => `${i.against}: ${mm(i.byMm)} mm of ${i.way}`).join('; '),
      ]),
    },
  ]
}

/** Inside and outside of a long wall, one above the other. */
function longWall(box: BuiltBox, side: 'left' | 'right'): readonly Sheet[] {
  const faces = facesOf(box, side)
  const blocks = faces.flatMap((face) => drawingBlocks(box, (id) => id === `wall-${side}-${face}`, WALL_MM))
  return sheetOf(
    'fit',
    `Wall: ${SIDE_WORDS[side]}`,
    `${box.name}: from ${faces.join(', then from ')}; measures from the datum of the side and the underside of the box`,
    blocks,
    [side],
  )
}
/** Room for a 20 ft side at 1:50 with its measures. */
const WALL_MM = 120

function endWalls(box: BuiltBox): readonly Sheet[] {
  const ends = (['blind end', 'door end'] as const).filter((side) => facesOf(box, side).length > 0)
  const blocks = ends.flatMap((side) =>
    facesOf(box, side).flatMap((face) => titledDrawings(box, (id) => id === `wall-${side.replace(' ', '-')}-${face}`, END_MM)),
  )
  return sheetOf(
    'fit',
    'Walls: the ends',
    `${box.name}: measures from the datum of the side and the underside of the box`,
    blocks,
    ends,
  )
}
const END_MM = 120

/** Faces of a side that have anything on them. */
function facesOf({ build: { fit, skin } }: BuiltBox, side: Side): readonly ('inside' | 'outside')[] {
  const cut = skin.openings.some((o) => o.side === side)
  return (['inside', 'outside'] as const).filter(
    (face) =>
      cut ||
      fit.items.some((i) => i.side === side && i.face === face) ||
      fit.strut.some((p) => p.side === side && (p.use === 'outside') === (face === 'outside')),
  )
}

function strutSub(box: BuiltBox, fit: BoxFit): string {
  const sums = fit.strut.map((s) => `${s.piecesCount} pieces of ${s.section}, ${quantity(s.lengthM, 'm')}`)
  return `${box.name}: ${sums.join('; ')}`
}

const SIDES: readonly Side[] = ['left', 'right', 'blind end', 'door end', 'roof', 'floor']

const alongAxis = (side: Side): 0 | 1 => (side === 'blind end' || side === 'door end' ? 1 : 0)
/** Where a piece lies: along the side and up it, from end to end. */
function strutBlocks(strut: readonly StrutPiece[]): readonly Block[] {
  const sections = new Set(strut.map((p) => `${p.section}, ${p.pattern}`))
  return SIDES.flatMap((side): readonly Block[] => {
    const pieces = strut.filter((p) => p.side === side)
    if (pieces.length === 0) return []
    return [
      { k: 'head', text: SIDE_WORDS[side], note: ALONG[side] },
      {
        k: 'table',
        small: true,
        columns: [
          col('piece', -1),
          col('use', 22),
          right('along, mm', 24),
          right(side === 'roof' || side === 'floor' ? 'across, mm' : 'up, mm', 24),
          right('length, mm', 20),
          col('held by', -1.1),
          ...(sections.size > 1 ? [col('section', -1)] : []),
        ],
        rows: pieces
          .toSorted(asBuilt(side))
          .map((p): Inline[] => [
            [['b', p.id]],
            p.use,
            ends(p, alongAxis(side)),
            ends(p, side === 'roof' || side === 'floor' ? 1 : 2),
            mm(lengthMm(p)),
            fixingWords(p.fixings),
            ...(sections.size > 1 ? [`${p.section}, ${p.pattern}`] : []),
          ]),
      },
    ]
  })
}
const USES = ['upright', 'rail', 'ceiling rail', 'outside'] as const
/** Uprights first, then what they carry: along the side, and up. */
const asBuilt =
  (side: Side) =>
  (a: StrutPiece, b: StrutPiece): number =>
    USES.indexOf(a.use) - USES.indexOf(b.use) ||
    a.fromMm[alongAxis(side)] - b.fromMm[alongAxis(side)] ||
    a.fromMm[2] - b.fromMm[2]
const FROM_BLIND = 'along: from the outer face of the blind end; '
const UP = 'up: from the underside of the box'
const ACROSS = 'across: from the outer face of the left long side'
const ALONG: Readonly<Record<Side, string>> = {
  left: FROM_BLIND + UP,
  right: FROM_BLIND + UP,
  'blind end': `along: from the outer face of the left long side; ${UP}`,
  'door end': `along: from the outer face of the left long side; ${UP}`,
  roof: FROM_BLIND + ACROSS,
  floor: FROM_BLIND + ACROSS,
}

function ends(p: StrutPiece, axis: 0 | 1 | 2): string {
  const [low, high] = [p.fromMm[axis], p.toMm[axis]].toSorted((a, b) => a - b) as [number, number]
  return mm(low) === mm(high) ? mm(low) : `${mm(low)} … ${mm(high)}`
}

function racewayBlocks(raceways: readonly RacewayRoute[]): readonly Block[] {
  if (raceways.length === 0) return []
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('raceway', -0.9),
        col('kind', 22),
        col('from', -0.9),
        col('to', -0.9),
        right('length', 16),
        col('bends', -1),
        right('sum', 12),
        right('straps', 12),
        right('pulls', 12),
        col('conductors', -1.2),
      ],
      rows: raceways.map((r): Inline[] => [
        [['b', r.id]],
        `${r.kind} ${r.trade}`,
        r.from,
        r.to,
        quantity(axisM(r), 'm'),
        bendWords(r),
        `${mm(r.bends.reduce((sum, b) => sum + b.sumDeg, 0))}°`,
        String(r.strapsMm.length),
        String(r.pullsMm.length),
        r.conductors.map((c) => `${c.count} × ${sizeWords(c.size)} ${c.insulation}`).join(', '),
      ]),
    },
    { k: 'para', small: true, text: 'Sum: of all bends; between two pulls the limit of the rule set counts, as judged below.' },
  ]
}

function bendWords(r: RacewayRoute): string {
  const kinds = [...new Set(r.bends.map((b) => b.kind))]
  return kinds.map((kind) => `${r.bends.filter((b) => b.kind === kind).length} × ${kind}`).join(', ') || 'none'
}

/** Bonds of one make in one row. */
function bondBlocks({ build }: BuiltBox): readonly Block[] {
  const groups = new Map<string, typeof build.fit.bonds>()
  for (const bond of build.fit.bonds) {
    const key = JSON.stringify([bond.what, bond.conductor])
    groups.set(key, [...(groups.get(key) ?? []), bond])
  }
  if (groups.size === 0) return []
  return [
    { k: 'head', text: 'Bonds to the earth bar' },
    {
      k: 'table',
      small: true,
      columns: [right('no.', 9), col('what', -1.6), col('joined by', -1), col('conductor', 26)],
      rows: [...groups.values()].map((bonds): Inline[] => [
        String(bonds.length),
        [['b', pieceWords(bonds.map((b) => b.id))]],
        bonds[0]!.what,
        sizeWords(bonds[0]!.conductor),
      ]),
    },
  ]
}
