import { boxBody } from '../box/index.ts'
import { outsideMm } from '../fit/index.ts'
import type {
  BoxBuild,
  BoxDesign,
  Circuit,
  Design,
  Opening,
  PlacedItem,
  RacewayRoute,
  RuleSetId,
  StrutPiece,
} from '../job/index.ts'
import type { Prices } from '../parts/index.ts'
import { rulesFor } from '../rules/index.ts'
import type { SkinResult } from '../skin/result.ts'
import type { ShopInputs } from './answer.ts'

/** A box of 20 ft with a panel, two outlets, a light, four raceways and four openings: small enough to follow by hand. All invented. */
const STRUT = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
const span = (low: number, high: number) => ({ low, high, basis: 'invented', told: false })

const circuit = (of: Partial<Circuit> & Pick<Circuit, 'id'>): Circuit => ({
  ways: [1],
  legs: ['A'],
  connection: 'LN',
  device: { ratingA: 20, poles: 1, family: 'us thermal-magnetic', interruptingKA: 10 },
  shock: { kind: 'class A', sensitivityMA: 5, form: null },
  run: {
    lengthM: 3,
    line: { size: '12 AWG', metal: 'cu', insulation: 'THWN-2' },
    neutral: { size: '12 AWG', metal: 'cu', insulation: 'THWN-2' },
    protective: { size: '12 AWG', metal: 'cu', insulation: 'THWN-2' },
    raceway: { kind: 'EMT', trade: '1/2' },
    sets: 1,
  },
  outlet: '5-20R',
  plugs: [],
  own: null,
  cords: [],
  label: of.id,
  ...of,
})

const cord = (plug: string) => ({ plug, type: 'SEOOW', size: '12 AWG', lengthM: 15, jacketMinC: -50 })

export const box: BoxDesign = {
  box: 'yard',
  phase: 'stay',
  system: 'split 120/240',
  offer: 'pole',
  interim: null,
  serviceA: 100,
  transformer: null,
  panel: {
    busA: 125,
    ways: 8,
    main: { ratingA: 100, poles: 2, family: 'us thermal-magnetic', interruptingKA: 22 },
    interruptingKA: 22,
    feed: {
      lengthM: 12,
      line: { size: '3 AWG', metal: 'cu', insulation: 'THWN-2' },
      neutral: { size: '3 AWG', metal: 'cu', insulation: 'THWN-2' },
      protective: null,
      raceway: { kind: 'EMT', trade: '1-1/4' },
      sets: 1,
    },
    bond: 'neutral bonded here',
  },
  circuits: [
    circuit({ id: 'C1', ways: [1], plugs: ['M1'], cords: [cord('M1')] }),
    circuit({
      id: 'C2',
      ways: [2, 4],
      legs: ['A', 'B'],
      connection: 'LL',
      outlet: '6-20R',
      device: { ratingA: 20, poles: 2, family: 'us thermal-magnetic', interruptingKA: 10 },
      run: { ...circuit({ id: 'x' }).run, neutral: null },
      plugs: ['M2'],
      cords: [cord('M2')],
    }),
    circuit({
      id: 'own-light',
      ways: [3],
      own: 'light',
      outlet: 'hard-wired',
      shock: { kind: 'none', sensitivityMA: null, form: null },
    }),
  ],
  staging: { control: 'none', startH: {}, capA: null },
  electrode: {
    kind: 'rods',
    count: 2,
    lengthM: 2.44,
    diameterM: 0.0159,
    spacingM: 1.8,
    conductor: { size: '6 AWG', metal: 'cu', insulation: 'THWN-2' },
  },
  transfer: 'none',
  setBond: 'none',
  earthing: 'service bond',
  fedFrom: null,
}

const item = (of: Partial<PlacedItem> & Pick<PlacedItem, 'id' | 'kind' | 'part'>): PlacedItem => ({
  what: of.part,
  side: 'left',
  face: 'inside',
  atMm: [1000, 85, 800],
  sizeMm: [300, 100, 300],
  massKg: span(2, 4),
  circuits: [],
  hangsOn: ['rail 1', 'rail 2'],
  ...of,
})

const items: readonly PlacedItem[] = [
  item({ id: 'earth bar', kind: 'earth bar', part: 'earth bar 1', atMm: [700, 85, 400] }),
  item({ id: 'light 1', kind: 'light', part: 'light strip 30', side: 'roof', circuits: ['own-light'], hangsOn: ['ceiling 1'] }),
  item({ id: 'meter', kind: 'meter', part: 'meter base 200', face: 'outside', atMm: [600, -130, 1200] }),
  item({ id: 'panel', kind: 'panel', part: 'load centre 125', massKg: span(6, 11), circuits: ['C1', 'C2', 'own-light'] }),
  item({ id: 'receptacle M1', kind: 'receptacle', part: 'receptacle box 20', circuits: ['C1'], atMm: [3000, 85, 800] }),
  item({ id: 'stub 1', kind: 'stub', part: 'stub box 1', hangsOn: [], atMm: [2300, 85, 800] }),
  item({ id: 'receptacle M2', kind: 'receptacle', part: 'receptacle box 20', circuits: ['C2'], atMm: [4000, 85, 800] }),
]

const piece = (id: string, fromMm: StrutPiece['fromMm'], toMm: StrutPiece['toMm'], how: StrutPiece['fixings'][number]['how']) =>
  ({
    id,
    use: id.startsWith('ceiling') ? 'ceiling rail' : id.startsWith('upright') ? 'upright' : 'rail',
    section: STRUT,
    pattern: 'holes',
    side: id.startsWith('ceiling') ? 'roof' : 'left',
    fromMm,
    toMm,
    fixings: [
      { atMm: fromMm, how },
      { atMm: toMm, how },
    ],
  }) satisfies StrutPiece

const strut: readonly StrutPiece[] = [
  piece('ceiling 1', [2000, 44, 2555], [2000, 2394, 2555], 'weld to rail'),
  piece('rail 1', [800, 44, 900], [3800, 44, 900], 'channel nut'),
  piece('rail 2', [800, 44, 1400], [3800, 44, 1400], 'channel nut'),
  piece('upright 1', [900, 44, 170], [900, 44, 2500], 'weld to pad'),
  piece('upright 2', [2290, 44, 170], [2290, 44, 2500], 'weld to pad'),
]

const wires = (size: string, count: number) => [{ size, insulation: 'THWN-2', count }]
const raceway = (
  of: Partial<RacewayRoute> & Pick<RacewayRoute, 'id' | 'from' | 'to' | 'pointsMm' | 'circuits' | 'bends'>,
): RacewayRoute => ({
  kind: 'EMT',
  trade: '1/2',
  conductors: wires('12 AWG', 3),
  strapsMm: [500],
  pullsMm: [],
  ...of,
})

export const raceways: readonly RacewayRoute[] = [
  // Up 800, along 1500, down 700: two quarters.
  raceway({
    id: 'C1',
    from: 'panel',
    to: 'receptacle M1',
    circuits: ['C1'],
    pointsMm: [
      [1500, 94, 1100],
      [1500, 94, 1900],
      [3000, 94, 1900],
      [3000, 94, 1200],
    ],
    bends: [
      { kind: 'quarter', atMm: 800, sumDeg: 90, riseMm: 0 },
      { kind: 'quarter', atMm: 2300, sumDeg: 90, riseMm: 0 },
    ],
  }),
  // Level 2600 with an offset, then an outlet through the wall behind a corner that no bender has room for.
  raceway({
    id: 'C2',
    from: 'panel',
    to: 'receptacle M2',
    circuits: ['C2'],
    pointsMm: [
      [1400, 94, 1500],
      [4000, 94, 1500],
      [4000, 44, 1500],
    ],
    bends: [
      { kind: 'offset', atMm: 400, sumDeg: 20, riseMm: 13 },
      { kind: 'quarter', atMm: 2600, sumDeg: 90, riseMm: 0 },
    ],
  }),
  raceway({
    id: 'feed/1',
    trade: '1-1/4',
    from: 'meter',
    to: 'panel',
    circuits: ['feed'],
    conductors: wires('3 AWG', 3),
    pointsMm: [
      [700, 0, 1300],
      [1100, 0, 1300],
    ],
    bends: [],
  }),
  // Crosses C1 on its level leg, in the clear.
  raceway({
    id: 'own-light',
    from: 'panel',
    to: 'light 1',
    circuits: ['own-light'],
    pointsMm: [
      [2000, 94, 1100],
      [2000, 94, 2500],
      [2000, 1200, 2500],
    ],
    bends: [
      { kind: 'saddle', atMm: 800, sumDeg: 90, riseMm: 30.4 },
      { kind: 'quarter', atMm: 1400, sumDeg: 90, riseMm: 0 },
    ],
  }),
]

const opening = (of: Partial<Opening> & Pick<Opening, 'id' | 'use' | 'side' | 'atMm' | 'class'>): Opening => ({
  shape: 'rectangle',
  widthMm: 300,
  heightMm: 300,
  cornerRadiusMm: 25,
  frame: null,
  railToRail: false,
  hood: false,
  meshMm: null,
  plate: null,
  serves: [],
  ...of,
})

const openings: readonly Opening[] = [
  opening({
    id: 'door 1',
    use: 'personnel door',
    side: 'right',
    atMm: [5000, 2438, 1200],
    class: 'door',
    widthMm: 900,
    heightMm: 2000,
    frame: 'tube 50 x 50 x 3',
    railToRail: true,
  }),
  opening({
    id: 'vent',
    use: 'vent',
    side: 'blind end',
    atMm: [0, 700, 600],
    class: 'framed',
    frame: 'tube 40 x 40 x 3',
    meshMm: 6,
  }),
  opening({
    id: 'supply',
    use: 'raceway entry',
    side: 'left',
    atMm: [666, 0, 660],
    class: 'hole on a flat',
    shape: 'round',
    widthMm: 44,
    heightMm: 44,
    cornerRadiusMm: 0,
    serves: ['feed'],
  }),
]

export const build: BoxBuild = {
  box: 'yard',
  fit: {
    items,
    strut,
    raceways,
    bonds: [
      { id: 'box frame', what: 'stud welded to the bottom rail', atMm: [54, 44, 162], conductor: '6 AWG' },
      { id: 'door 1', what: 'flexible braid across the hinge', atMm: [5000, 2438, 1200], conductor: '6 AWG' },
      { id: 'raceway C1', what: 'bonding bushing or fitting at its end', atMm: [1500, 94, 1100], conductor: '6 AWG' },
      { id: 'strut rail 1', what: 'jumper to its bare metal, paint scraped', atMm: [800, 44, 900], conductor: '6 AWG' },
    ],
    search: null,
    clashes: [],
  },
  air: {
    roofPaint: 'light grey, beige',
    wallPaint: 'light grey, beige',
    vents: [],
    winterOpenFrac: 1,
    roofFoamM: 0,
    wallFoamM: 0,
    bridgesFoamed: false,
    secondRoof: false,
    fan: null,
    heater: null,
    dripHood: false,
    floorPainted: false,
  },
  skin: {
    openings,
    exitWays: {},
    cordSide: 'left',
    finish: { primer: 'zinc-rich primer', foam: false },
  },
  haul: {
    lift: 'tilt-bed',
    slingAngleDeg: null,
    slingLegs: 0,
    unload: 'tilt-bed',
    lashings: [],
    deckHeightM: 1.4,
    pads: { count: 4, lengthMm: 400, widthMm: 400, what: 'timber' },
    anchors: null,
    snowFrame: null,
  },
}

const body = boxBody(
  {
    id: 'yard',
    lengthFt: 20,
    heightKind: 'standard',
    heatedC: null,
    insideHotC: span(40, 50),
    insideColdC: span(-40, -20),
    spareWaysFrac: 0.2,
  },
  null,
)

const skin: SkinResult = {
  boxes: [
    {
      box: 'yard',
      openings: [],
      exits: [],
      sides: [],
      tightness: { rating: '', worst: '' },
      pieces: [
        { opening: 'door 1', part: 'jamb', section: 'tube 50 x 50 x 3', lengthMm: 2300, count: 2 },
        { opening: 'door 1', part: 'head', section: 'tube 50 x 50 x 3', lengthMm: 900, count: 1 },
        { opening: 'door 1', part: 'sill', section: 'tube 50 x 50 x 3', lengthMm: 900, count: 1 },
        { opening: 'vent', part: 'jamb', section: 'tube 40 x 40 x 3', lengthMm: 380, count: 2 },
        { opening: 'vent', part: 'head', section: 'tube 40 x 40 x 3', lengthMm: 380, count: 2 },
        { opening: 'door 1', part: 'hood', section: 'sheet 2 mm x 210 mm', lengthMm: 980, count: 1 },
      ],
      steps: [],
      plate: 'void once cut',
    },
  ],
}

export function yardInputs(set: RuleSetId = 'us', prices: Prices = { currency: 'USD', rows: {} }): ShopInputs {
  const design: Design = { boxes: [box], builds: [build], pinned: [] }
  return {
    design,
    bodies: { yard: body },
    rules: rulesFor(set, { overlays: [] }),
    prices,
    skin,
    haul: null,
    racewayMm: outsideMm,
  }
}
