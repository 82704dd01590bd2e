import type { Opening } from '@plugstead/engine/job'
import { QUESTION_WORDS } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput, BoxSkin } from '../results.ts'
import { col, marked, number, percent, plain, right, spanOf } from '../words.ts'
import { type BuiltBox, cautionBlocks, dealt, judgedBlocks, mm, SIDE_WORDS, sheetOf, titledDrawings } from './built.ts'

const SHEETS = {
  exits: ['cord-rule', 'exit-height', 'built-exit-height', 'exit-missing', 'gland', 'between'],
  outside: ['reach', 'pests', 'tightness', 'egress', 'fire', 'heater-clear'],
  frames: ['lintel', 'frame', 'wall-lost', 'member-cut', 'post-clear', 'plate', 'corrosion'],
} as const

/** Openings, how cords leave, what comes in from outside, and what is sawn and welded, of each box that is built. */
export function skinSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const skin = input.assessment.results.skin.boxes.find((b) => b.box === box.id)
    if (skin === undefined) return []
    const of = dealt(input, box, 'skin', SHEETS)
    const doors = new Set(
      skin.openings.filter((o) => o.heightMm > TALL_MM).map((o) => `opening-${o.id.replace(/[^A-Za-z0-9]+/g, '-')}`),
    )
    const blocks = (sheet: Parameters<typeof of>[0], own: readonly Block[]): readonly Block[] => [
      ...cautionBlocks(of(sheet)),
      ...own,
      ...judgedBlocks(box, of(sheet)),
    ]
    const headed = (text: string, sheet: Parameters<typeof of>[0], own: readonly Block[]): readonly Block[] =>
      own.length === 0 && of(sheet).length === 0 ? [] : [{ k: 'head', text }, ...blocks(sheet, own)]
    return [
      ...sheetOf('skin', QUESTION_WORDS.skin, `${box.name}: openings from their datum, as seen from outside`, [
        ...blocks('rest', [
          ...cutWalls(box),
          ...openingBlocks(skin, box.build.skin.openings),
          { k: 'facts', rows: wallRows(skin, box) },
        ]),
      ]),
      ...sheetOf('skin', 'Cutting and closing', `${box.name}: in this order`, [
        ...stepBlocks(skin),
        ...headed('Frames, collars and hoods to saw', 'frames', pieceBlocks(skin)),
      ]),
      ...sheetOf('skin', 'Cords, and what comes in from outside', `${box.name}: one line a plug, one line an opening`, [
        ...headed('How cords leave', 'exits', exitBlocks(skin, box)),
        ...headed('From outside', 'outside', outsideBlocks(skin)),
      ]),
      ...sheetOf('skin', 'Openings and plates', `${box.name}: seen from outside, with a section`, [
        ...titledDrawings(box, (id) => doors.has(id), 150),
        ...titledDrawings(box, (id) => (id.startsWith('opening-') || id.startsWith('plate-')) && !doors.has(id), 82),
      ]),
    ]
  })
}

/** On glass the walls that are cut stand over their table; on paper they have sheets of their own. */
function cutWalls(box: BuiltBox): readonly Block[] {
  if (box.glass === undefined) return []
  const cut = new Set(box.build.skin.openings.map((o) => `wall-${o.side.replace(' ', '-')}-outside`))
  return titledDrawings(box, (id) => cut.has(id), WALL_MM)
}
const WALL_MM = 92

/** Higher than this it has a sheet to itself. */
const TALL_MM = 1000

function openingBlocks(skin: BoxSkin, designed: readonly Opening[]): readonly Block[] {
  if (skin.openings.length === 0) return [{ k: 'para', text: 'Nothing is cut.' }]
  const byId = new Map(designed.map((o) => [o.id, o]))
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('opening', -0.9),
        col('use', -0.8),
        col('side', 16),
        col('class', 21),
        right('from left, mm', 15),
        right('up, mm', 13),
        right('size, mm', 24),
        col('frame', -1.3),
        col('serves', -0.9),
        col('', 19),
      ],
      rows: skin.openings.map((o): Inline[] => {
        const of = byId.get(o.id)
        return [
          [['b', o.id]],
          o.use,
          o.side,
          o.class === o.needs ? o.class : `${o.class}; ${o.needs} is asked`,
          mm(o.fromLeftMm),
          mm(o.upMm),
          of?.shape === 'round' ? `ø ${number(o.widthMm)}` : `${number(o.widthMm)} × ${number(o.heightMm)}`,
          frameWords(of),
          of?.serves.join(', ') ?? '',
          marked(o.verdict, o.verdict),
        ]
      }),
    },
    {
      k: 'para',
      small: true,
      text: 'From the left edge of the side as seen from outside, and from the underside of the box, to the middle of the opening. Nothing is cut through a post, a rail or a corner fitting.',
    },
  ]
}

function frameWords(o: Opening | undefined): string {
  if (o === undefined) return ''
  const parts = [
    ...(o.frame === null ? [] : [`${o.frame}${o.railToRail ? ', rail to rail' : ''}`]),
    ...(o.hood ? ['hood'] : []),
    ...(o.meshMm === null ? [] : [`mesh ${o.meshMm} mm`]),
  ]
  return parts.join(', ') || 'none'
}

const PLATE_WORDS: Readonly<Record<BoxSkin['plate'], string>> = {
  'stays valid': 'stays valid',
  'void once cut': 'void once cut: it comes off, and the box travels as cargo',
  'no plate': 'the box has none',
  unknown: 'unknown: nobody has read it',
}

function wallRows(skin: BoxSkin, { build }: BuiltBox): readonly (readonly [Inline, Inline])[] {
  const cut = skin.sides.filter((s) => s.cutMm > 0)
  const { primer, foam } = build.skin.finish
  return [
    ['approval plate', PLATE_WORDS[skin.plate]],
    ['tightness of the whole', `${skin.tightness.rating}, that of ${skin.tightness.worst}`],
    ...cut.map((s): readonly [Inline, Inline] => [
      SIDE_WORDS[s.side],
      `${mm(s.cutMm)} of ${mm(s.sheetMm)} mm of sheet are cut (${percent(s.cutFrac)}), ${percent(s.areaFrac)} of its area`,
    ]),
    ['cut edges', `${primer}${foam ? '; foam after the weld and the prime are done' : ''}`],
  ]
}

function stepBlocks(skin: BoxSkin): readonly Block[] {
  return skin.steps.flatMap((step, i): readonly Block[] => [
    ...(step.caution === null ? [] : [{ k: 'strip' as const, text: plain(step.caution) }]),
    { k: 'para', text: [['b', `${i + 1}  `], plain(step.words)] },
  ])
}

/** Equal pieces of several openings stand in one row. */
function pieceBlocks(skin: BoxSkin): readonly Block[] {
  const groups = new Map<string, { readonly piece: BoxSkin['pieces'][number]; count: number; readonly openings: Set<string> }>()
  for (const piece of skin.pieces) {
    const key = JSON.stringify([piece.section, piece.lengthMm, piece.part])
    const group = groups.get(key) ?? { piece, count: 0, openings: new Set<string>() }
    group.count += piece.count
    group.openings.add(piece.opening)
    groups.set(key, group)
  }
  if (groups.size === 0) return []
  return [
    {
      k: 'table',
      columns: [col('section', -1), right('length, mm'), right('pieces'), col('part'), col('of', -1.4)],
      rows: [...groups.values()].map(({ piece, count, openings }): Inline[] => [
        piece.section,
        number(piece.lengthMm),
        String(count),
        piece.part,
        [...openings].join(', '),
      ]),
    },
  ]
}

function exitBlocks(skin: BoxSkin, { build }: BuiltBox): readonly Block[] {
  if (skin.exits.length === 0) return []
  const plates = build.skin.openings.filter((o) => o.plate !== null)
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('plug'),
        col('way', -1),
        col('by the rules', -0.9),
        col('opening', -0.8),
        col('thread'),
        col('cord, mm'),
        right('above ground, mm'),
      ],
      rows: skin.exits.map((e): Inline[] => [
        [['b', e.plug]],
        e.way,
        e.allowed,
        e.opening,
        e.thread ?? '–',
        e.cordMm === null ? '–' : [spanOf(e.cordMm, 'mm')],
        mm(e.aboveGroundMm),
      ]),
    },
    ...plates.flatMap((o): readonly Block[] => [
      {
        k: 'head',
        text: `Plate of ${o.id}`,
        note: `${mm(o.plate!.widthMm)} × ${mm(o.plate!.heightMm)} mm, ${number(o.plate!.thicknessMm)} mm thick`,
      },
      {
        k: 'table',
        small: true,
        columns: [
          col('entry', -1),
          col('thread', -0.6),
          col('gland', -0.6),
          col('cord, mm', -1),
          right('across, mm'),
          right('up, mm'),
        ],
        rows: o.plate!.entries.map((e): Inline[] => [
          e.plug === null ? 'spare, plugged to the same rating' : [['b', e.plug]],
          e.thread,
          e.split ? 'split' : 'whole',
          e.cordMm === null ? '–' : [spanOf(e.cordMm, 'mm')],
          number(e.uMm),
          number(e.vMm),
        ]),
      },
    ]),
    ...(plates.length === 0
      ? []
      : [
          { k: 'para' as const, small: true, text: 'Across and up: from the lower left corner of the plate, seen from outside.' },
        ]),
  ]
}

function outsideBlocks(skin: BoxSkin): readonly Block[] {
  const open = skin.openings.filter((o) => o.clearGapMm > 0 || o.passes.length > 0 || o.reaches !== 'nothing')
  const shut = skin.openings.filter((o) => !open.includes(o)).map((o) => o.id)
  return [
    ...(open.length === 0
      ? []
      : [
          {
            k: 'table' as const,
            columns: [
              col('opening', -0.7),
              right('clear gap, mm'),
              right('above ground, mm'),
              col('lets in', -1),
              col('reached by', -1.4),
            ],
            rows: open.map((o): Inline[] => [
              [['b', o.id]],
              number(o.clearGapMm),
              mm(o.aboveGroundMm),
              o.passes.join(', ') || 'nothing',
              plain(o.reaches),
            ]),
          },
        ]),
    ...(shut.length === 0
      ? []
      : [{ k: 'para' as const, text: `Closed, nothing passes and nothing is reached through: ${shut.join(', ')}.` }]),
  ]
}
