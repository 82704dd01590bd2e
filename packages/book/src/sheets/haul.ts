import { QUESTION_WORDS, worst } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput, HaulBox } from '../results.ts'
import { col, number, plain, quantity, right, spanOf } from '../words.ts'
import { type BuiltBox, cautionBlocks, dealt, drawingBlocks, judgedBlocks, mm, sheetOf } from './built.ts'

const SHEETS = {
  lift: ['sling-angle', 'sling-tension', 'slings-flat', 'not-slung', 'fork', 'tilt', 'straight-run', 'method'],
  road: ['lashing', 'tipping', 'axle', 'route-height', 'way-width', 'way-grade', 'overhead-line'],
  stand: [
    'wind-sliding',
    'wind-overturning',
    'anchors',
    'roof-snow',
    'snow-frame-path',
    'snow-frame-wind',
    'snow-frame-set',
    'bearing',
    'level',
  ],
} as const

/** What it weighs, how it is lifted, held on the truck and set down, of each box that is built. */
export function haulSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const haul = input.assessment.results.haul.boxes.find((b) => b.box === box.id)
    if (haul === undefined) return []
    const of = dealt(input, box, 'haul', SHEETS)
    const all = [...of('rest'), ...of('lift'), ...of('road'), ...of('stand')]
    const sheet = (
      name: Parameters<typeof of>[0],
      head: string,
      sub: string,
      own: readonly Block[],
      drawn: readonly Block[] = [],
    ): readonly Sheet[] =>
      sheetOf('haul', head, `${box.name}: ${sub}`, [...cautionBlocks(of(name)), ...drawn, ...own, ...judgedBlocks(box, of(name))])
    return [
      ...sheet('rest', QUESTION_WORDS.haul, 'mass and its middle, each with both ends', [
        { k: 'para', text: [['b', decision(all.map((f) => f.verdict))]] },
        ...massBlocks(haul),
      ]),
      ...sheet(
        'lift',
        'Lifting',
        `${haul.design.lift} at the shop, ${haul.design.unload} at the place`,
        liftBlocks(haul),
        drawingBlocks(box, (id) => id === 'lifting', 84),
      ),
      ...sheet(
        'road',
        'On the truck',
        `${number(haul.heightOnDeckM)} m over the road on a deck of ${number(haul.design.deckHeightM)} m`,
        roadBlocks(haul),
        drawingBlocks(box, (id) => id === 'lashing', 70),
      ),
      ...sheet(
        'stand',
        'Where it stands',
        'pads, wind, snow',
        standBlocks(haul),
        drawingBlocks(box, (id) => id === 'pads', 70),
      ),
      ...(haul.snowFrame === null
        ? []
        : sheetOf('haul', 'Snow frame', `${box.name}: over the roof, off it while the box travels`, [
            ...drawingBlocks(box, (id) => id === 'snow-frame', 96),
            ...drawingBlocks(box, (id) => id === 'snow-frame-seat', 62),
            ...frameBlocks(haul.snowFrame),
          ])),
      ...sheetOf('haul', 'What it weighs', `${box.name}: every thing that was counted`, itemBlocks(haul)),
    ]
  })
}

/** The best word there is; each caution about what is unknown or fails before it. */
function decision(verdicts: readonly ('holds' | 'tight' | 'fails' | 'unknown')[]): string {
  const by = 'not yet decided by the appointed lifting person'
  switch (worst(verdicts)) {
    case 'fails':
      return `Not within the limits computed: what fails stands below and on the next sheets; ${by}.`
    case 'unknown':
      return `Not everything could be computed: what is unknown stands below and on the next sheets, and counts as not held; ${by}.`
    default:
      return `Within the limits computed; ${by}.`
  }
}

const kN = (forceN: number): string => quantity(forceN / 1000, 'kN')
const kPa = (pressurePa: number): string => quantity(pressurePa / 1000, 'kPa')
const stress = (stressPa: number): string => quantity(stressPa / 1e6, 'N/mm²')
const over = ({ low, high }: { readonly low: number; readonly high: number }, by: number) => ({ low: low / by, high: high / by })
const at = (point: readonly [number, number, number]): string => point.map(mm).join(', ')
const between = (low: readonly number[], high: readonly number[], axis: number): Inline =>
  mm(low[axis]!) === mm(high[axis]!) ? mm(low[axis]!) : [['bounded', `${mm(low[axis]!)} … ${mm(high[axis]!)}`]]

function massBlocks(haul: HaulBox): readonly Block[] {
  return [
    {
      k: 'table',
      columns: [
        col('state', -1),
        right('mass'),
        right('along, mm'),
        right('across, mm'),
        right('up, mm'),
        right('off the middle along, mm', 24),
        right('across, mm'),
      ],
      rows: haul.centres.map((c): Inline[] => [
        [['b', c.state]],
        [spanOf(c.massKg, 'kg')],
        between(c.lowMm, c.highMm, 0),
        between(c.lowMm, c.highMm, 1),
        between(c.lowMm, c.highMm, 2),
        mm(c.offXMm),
        mm(c.offYMm),
      ]),
    },
    {
      k: 'para',
      small: true,
      text: 'Along: from the outer face of the blind end. Across: from the outer face of the left long side. Up: from the underside of the bottom fittings. Weigh it at both ends before it is lifted: a scale outranks this table.',
    },
    { k: 'head', text: 'Ways to lift it', note: 'as the box is made; empty, and packed' },
    {
      k: 'table',
      small: true,
      columns: [col('method', -1), col('empty', 30), col('packed', 30), col('why', -1.4)],
      rows: haul.methods.map((m): Inline[] => [
        m.method === haul.design.lift || m.method === haul.design.unload ? [['b', m.method], ' (taken)'] : m.method,
        m.empty,
        m.packed,
        plain(m.why),
      ]),
    },
  ]
}

function liftBlocks({ slings, forks, tilt }: HaulBox): readonly Block[] {
  return [
    ...(slings === null
      ? []
      : facts('Slings', [
          ['legs', `${slings.legs.length}, from ${slings.legs.map((l) => l.corner).join(', ')}`],
          ['hook', `${at(slings.hookMm)} mm along, across, up`],
          ['spreader', slings.spreaderMm === null ? 'none' : `${at(slings.spreaderMm[0])} to ${at(slings.spreaderMm[1])} mm`],
          ['angle from the horizontal', `${number(slings.angleDeg)}°, at least ${number(slings.leastAngleDeg)}° for this box`],
          ['pull in the worst leg', `${kN(slings.tensionN)} (${quantity(slings.shareFrac * 100, '%')} of the mass on it)`],
          ['marked working load', `at least ${quantity(slings.legWllKg, 'kg')} each leg and each shackle`],
          [
            'next sizes made',
            `${slings.chainMm === null ? 'chain: beyond the table' : `chain ${number(slings.chainMm)} mm, ${quantity(slings.chainWllKg, 'kg')}`}; ${slings.shackleWllKg === null ? 'shackle: beyond the table' : `shackle ${quantity(slings.shackleWllKg, 'kg')}`}`,
          ],
        ])),
    ...(forks === null
      ? []
      : facts('Forks', [
          ['load centre', quantity(forks.loadCentreM, 'm')],
          [
            'the truck’s plate shows at least',
            `${quantity(forks.ratedKg, 'kg')} at its load centre of ${quantity(forks.ratedCentreM, 'm')}`,
          ],
          ['on the forks', `${kN(forks.nearN)} and ${kN(forks.farN)}`],
          ['middle off the middle of the pockets', `${quantity(forks.offFrac * 100, '%')} of the length`],
        ])),
    ...(tilt === null
      ? []
      : facts('Tilt-bed', [
          ['bed', `${number(tilt.bedDeg)}°; by friction alone the box may slide from ${number(tilt.slidesAtDeg)}°`],
          ['winch', `a pull of ${kN(tilt.winchN)} up a rough bed`],
          ['straight run', [spanOf(tilt.straightRunM, 'm')]],
        ])),
  ]
}

const facts = (head: string, rows: readonly (readonly [Inline, Inline])[]): readonly Block[] => [
  { k: 'head', text: head },
  { k: 'facts', rows },
]

function roadBlocks({ securing, design }: HaulBox): readonly Block[] {
  const s = securing
  return facts('Held by', [
    ['method', s.method],
    ...design.lashings.map((l): readonly [Inline, Inline] => [l.over, `${l.count} × ${l.kind}`]),
    ['forward, rearward, sideways', `${kN(s.forwardN)}, ${kN(s.rearN)}, ${kN(s.sideN)}`],
    ...(s.countedN === null || s.neededN === null
      ? []
      : ([['working load as the rule counts it', `${kN(s.countedN)}; it must reach ${kN(s.neededN)}`]] as const)),
    ...(s.byLengthCount === null ? [] : ([['lashings that its length asks for', String(s.byLengthCount)]] as const)),
    [
      'points',
      `${s.points.length}: ${s.points.map((p) => `${p.what} at ${mm(p.atMm[0])}, ${mm(p.atMm[1])}`).join('; ')} mm along, across`,
    ],
  ])
}

function standBlocks({ pads, wind, anchors, snow, design }: HaulBox): readonly Block[] {
  return [
    ...facts('Pads', [
      ['pads', `${pads.rectanglesMm.length} of ${mm(design.pads.lengthMm)} × ${mm(design.pads.widthMm)} mm: ${design.pads.what}`],
      ['lower left corners', `${pads.rectanglesMm.map((r) => `${mm(r.atMm[0])}, ${mm(r.atMm[1])}`).join('; ')} mm along, across`],
      [
        'worst corner',
        `${kN(pads.worstN)}, ${kPa(pads.pressurePa)} on the ground${pads.limitPa === null ? '; what the ground bears is unknown' : `, which bears ${kPa(pads.limitPa)}`}`,
      ],
      [
        'packing to stand level',
        pads.packingMm === null ? 'unknown: the slope is not told' : `up to ${mm(pads.packingMm)} mm under the low corners`,
      ],
    ]),
    ...(wind === null
      ? []
      : [
          { k: 'head' as const, text: 'Wind on the long side', note: 'both ends of what the told figure may mean' },
          {
            k: 'table' as const,
            columns: [
              col('', -1),
              right('pressure'),
              right('force'),
              right('uplift'),
              right('slides with'),
              right('grips with'),
              right('turns with'),
              right('rights with'),
            ],
            rows: (['low', 'high'] as const).map((end): Inline[] => [
              `${end} end`,
              kPa(wind[end].velocityPa),
              kN(wind[end].forceN),
              kN(wind[end].upliftN),
              kN(wind[end].slideN),
              kN(wind[end].gripN),
              quantity(wind[end].overturnNm / 1000, 'kNm'),
              quantity(wind[end].rightNm / 1000, 'kNm'),
            ]),
          },
        ]),
    ...(anchors === null
      ? []
      : facts('Anchors', [
          ['each of them', `${kN(anchors.eachN)} at least: pull ${kN(anchors.tensionN)}, shear ${kN(anchors.shearN)}`],
          ['where', `${anchors.count}: ${anchors.atMm.map((p) => `${mm(p[0])}, ${mm(p[1])}`).join('; ')} mm along, across`],
        ])),
    ...(snow === null
      ? []
      : facts('Snow on the roof', [
          ['on the ground', kPa(snow.groundPa)],
          ['on the roof', [spanOf(over(snow.roofPa, 1000), 'kPa')]],
          ['stress in its ribs', [spanOf(over(snow.ribPa, 1e6), 'N/mm²'), `, ${stress(snow.allowablePa)} at most`]],
          ...(snow.rail === null
            ? []
            : ([
                [
                  'top rail',
                  `over ${snow.rail.opening}: ${stress(snow.rail.stressPa)}, sags ${quantity(snow.rail.sagM * 1000, 'mm')} of ${quantity(snow.rail.sagLimitM * 1000, 'mm')}`,
                ],
              ] as const)),
        ])),
  ]
}

function frameBlocks(plan: NonNullable<HaulBox['snowFrame']>): readonly Block[] {
  const { frame, deckSheets } = plan
  return facts('What it is made of', [
    ['bearers', `${plan.bearers.length} of ${frame.section}, as long as the box is wide, ${mm(plan.spacingMm)} mm apart at most`],
    ['their middles', `${frame.bearersAtMm.map(mm).join(', ')} mm from the blind end`],
    ['seats', `${plan.seats.length} of ${plan.seatSection}, ${mm(frame.seatMm)} mm high, two bolts M12 each`],
    [
      'deck',
      `${frame.deck}, ${deckSheets.count} sheets of ${mm(deckSheets.lengthMm)} × ${mm(deckSheets.widthMm)} mm, ${plan.screwsCount} screws`,
    ],
    ['mass, taken off to travel', [spanOf(plan.massKg, 'kg')]],
    ['higher than the box', `${mm(plan.overMm)} mm with the frame on, ${mm(plan.seatsOverMm)} mm with its seats alone`],
  ])
}

/** Things of one name in one row: their number, their masses together. */
function itemBlocks(haul: HaulBox): readonly Block[] {
  const groups = new Map<
    string,
    { readonly what: string; count: number; low: number; high: number; readonly basis: Set<string>; readonly at: string }
  >()
  for (const item of haul.items) {
    // “receptacle 5-20R of G1C” weighs what its sisters weigh.
    const what = plain(item.what.replace(/ of \S+$/, ''))
    const key = JSON.stringify([what, item.massKg.basis])
    const group = groups.get(key) ?? {
      what,
      count: 0,
      low: 0,
      high: 0,
      basis: new Set<string>(),
      at: at(item.atMm),
    }
    group.count += 1
    group.low += item.massKg.low
    group.high += item.massKg.high
    group.basis.add(item.massKg.basis)
    groups.set(key, group)
  }
  return [
    {
      k: 'table',
      small: true,
      columns: [col('what', -1.2), right('no.'), right('mass'), right('middle: along, across, up, mm'), col('rests on', -1)],
      rows: [...groups.values()].map((g): Inline[] => [
        g.what,
        String(g.count),
        [spanOf(g, 'kg')],
        g.count === 1 ? g.at : 'at many places',
        [...g.basis].join('; '),
      ]),
    },
  ]
}
