import { boxBody } from '@plugstead/engine/box'
import type { HaulBox } from '@plugstead/engine/haul'
import type { BoxBuild, BoxWanted, Opening, PlacedItem, PointMm, RacewayRoute, Span, StrutPiece } from '@plugstead/engine/job'
import type { CutPlan } from '@plugstead/engine/shop'
import type { BoxSkin, FramePiece } from '@plugstead/engine/skin'
import type { DrawnBox } from '../src/index.ts'

/** An invented box, small enough to be looked at and placed by hand: what it shows is known without any search. */
const span = (low: number, high: number): Span => ({ low, high, basis: 'invented', told: false })

export const WANTED: BoxWanted = {
  id: 'yard',
  lengthFt: 20,
  heightKind: 'standard',
  heatedC: null,
  insideHotC: span(30, 40),
  insideColdC: span(-20, 0),
  spareWaysFrac: 0.2,
}
const body = boxBody(WANTED, null)
const [, W] = body.outsideMm

type Hung = Pick<PlacedItem, 'id' | 'kind' | 'side' | 'face' | 'atMm' | 'sizeMm'>
const item = (of: Hung): PlacedItem => ({ ...of, what: of.id, part: 'none', massKg: span(5, 6), circuits: [], hangsOn: [] })

const items: readonly PlacedItem[] = [
  item({ id: 'panel', kind: 'panel', side: 'left', face: 'inside', atMm: [1400, 85, 730], sizeMm: [510, 150, 1520] }),
  item({ id: 'contactors', kind: 'contactors', side: 'left', face: 'inside', atMm: [1970, 85, 1250], sizeMm: [600, 250, 1000] }),
  item({ id: 'heater', kind: 'heater', side: 'right', face: 'inside', atMm: [1083, W - 435, 522], sizeMm: [400, 350, 480] }),
  item({ id: 'meter', kind: 'meter', side: 'left', face: 'outside', atMm: [688, -171, 1070], sizeMm: [280, 130, 420] }),
  item({
    id: 'receptacle G1',
    kind: 'receptacle',
    side: 'left',
    face: 'outside',
    atMm: [3108, -131, 590],
    sizeMm: [120, 90, 120],
  }),
  item({
    id: 'receptacle G2',
    kind: 'receptacle',
    side: 'left',
    face: 'outside',
    atMm: [3386, -131, 590],
    sizeMm: [120, 90, 120],
  }),
  item({ id: 'light 1', kind: 'light', side: 'roof', face: 'inside', atMm: [908, 1159, 2424], sizeMm: [1240, 120, 90] }),
]

const SECTION = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
const piece = (id: string, use: StrutPiece['use'], side: StrutPiece['side'], fromMm: PointMm, toMm: PointMm): StrutPiece => ({
  id,
  use,
  section: SECTION,
  pattern: 'holes',
  side,
  fromMm,
  toMm,
  fixings: [],
})
const strut: readonly StrutPiece[] = [
  piece('upright left 1', 'upright', 'left', [1083, 44, 162.5], [1083, 44, 2510]),
  piece('upright left 2', 'upright', 'left', [2751, 44, 162.5], [2751, 44, 2510]),
  piece('rail left 1', 'rail', 'left', [1104, 44, 1512], [2730, 44, 1512]),
  piece('outside left', 'outside', 'left', [3000, 0, 688], [3600, 0, 688]),
  piece('ceiling 1', 'ceiling rail', 'roof', [1128, 44, 2556], [1128, 2394, 2556]),
]

const raceways: readonly RacewayRoute[] = [
  {
    id: 'C-G1',
    kind: 'EMT',
    trade: '1/2',
    from: 'contactors',
    to: 'receptacle G1',
    pointsMm: [
      [2494, 94, 1250],
      [2494, 94, 761],
      [3168, 94, 761],
      [3168, 94, 650],
      [3168, 44, 650],
    ],
    circuits: ['C-G1'],
    conductors: [{ size: '12 AWG', insulation: 'THWN-2', count: 3 }],
    bends: [
      { kind: 'quarter', atMm: 489, sumDeg: 90, riseMm: 0 },
      { kind: 'quarter', atMm: 1163, sumDeg: 90, riseMm: 0 },
      { kind: 'saddle', atMm: 800, sumDeg: 90, riseMm: 30 },
    ],
    strapsMm: [300],
    pullsMm: [1000],
  },
]

type Cut = Pick<Opening, 'id' | 'use' | 'side' | 'atMm' | 'shape' | 'widthMm' | 'heightMm' | 'cornerRadiusMm' | 'class'>
const opening = (of: Cut & Partial<Opening>): Opening => ({
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
    ...{ id: 'door 1', use: 'personnel door', side: 'right', atMm: [5130, W, 1232.5], shape: 'rectangle', class: 'door' },
    ...{ widthMm: 900, heightMm: 2000, cornerRadiusMm: 25, frame: 'tube 50 x 50 x 3', railToRail: true, hood: true },
  }),
  opening({
    ...{ id: 'vent low', use: 'vent', side: 'right', atMm: [628, W, 612.5], shape: 'rectangle', class: 'framed' },
    ...{ widthMm: 300, heightMm: 250, cornerRadiusMm: 25, frame: 'tube 40 x 40 x 3', hood: true, meshMm: 6 },
  }),
  opening({
    ...{ id: 'supply', use: 'raceway entry', side: 'left', atMm: [666, 0, 662.5], shape: 'round', class: 'collar' },
    ...{ widthMm: 62, heightMm: 62, cornerRadiusMm: 0 },
  }),
  opening({
    ...{ id: 'cord plate 1', use: 'cord exit', side: 'left', atMm: [4114, 0, 680], shape: 'rectangle', class: 'collar' },
    ...{ widthMm: 120, heightMm: 61, cornerRadiusMm: 25, hood: true },
    plate: {
      thicknessMm: 3,
      widthMm: 120,
      heightMm: 61,
      entries: [
        { plug: 'G3', thread: 'M25', split: true, uMm: 31, vMm: 30.5, cordMm: span(14, 16.5) },
        { plug: null, thread: 'M32', split: true, uMm: 80, vMm: 30.5, cordMm: null },
      ],
    },
  }),
  opening({
    ...{ id: 'exit G1', use: 'cord exit', side: 'left', atMm: [3168, 0, 650], shape: 'round', class: 'hole on a flat' },
    ...{ widthMm: 19, heightMm: 19, cornerRadiusMm: 0 },
  }),
  opening({
    ...{ id: 'exit G2', use: 'cord exit', side: 'left', atMm: [3446, 0, 650], shape: 'round', class: 'hole on a flat' },
    ...{ widthMm: 19, heightMm: 19, cornerRadiusMm: 0 },
  }),
]

const cut = (opening: string, part: FramePiece['part'], section: string, lengthMm: number, count: number): FramePiece => ({
  ...{ opening, part, section },
  ...{ lengthMm, count },
})
const pieces: readonly FramePiece[] = [
  cut('door 1', 'jamb', 'tube 50 x 50 x 3', 2330.5, 2),
  cut('door 1', 'head', 'tube 50 x 50 x 3', 900, 1),
  cut('door 1', 'sill', 'tube 50 x 50 x 3', 900, 1),
  cut('door 1', 'hood', 'sheet 2 mm x 210 mm', 980, 1),
  cut('vent low', 'jamb', 'tube 40 x 40 x 3', 330, 2),
  cut('vent low', 'head', 'tube 40 x 40 x 3', 380, 1),
  cut('vent low', 'sill', 'tube 40 x 40 x 3', 380, 1),
  cut('vent low', 'hood', 'sheet 2 mm x 210 mm', 380, 1),
  cut('supply', 'collar', 'sheet 3 mm x 142 mm', 142, 1),
  cut('cord plate 1', 'collar', 'sheet 3 mm x 141 mm', 200, 1),
  cut('cord plate 1', 'plate', 'sheet 3 mm x 141 mm', 200, 1),
  cut('cord plate 1', 'hood', 'sheet 2 mm x 210 mm', 200, 1),
]

const skin: BoxSkin = {
  box: 'yard',
  openings: [],
  exits: [],
  sides: [],
  tightness: { rating: 'none', worst: 'none' },
  pieces,
  steps: [],
  plate: 'no plate',
}

const build: BoxBuild = {
  box: 'yard',
  fit: { items, strut, raceways, bonds: [], search: null, clashes: [] },
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
  skin: { openings, exitWays: {}, cordSide: 'left', finish: { primer: 'zinc', foam: false } },
  haul: {
    lift: 'bottom slings with spreader',
    slingAngleDeg: 45,
    slingLegs: 4,
    unload: 'bottom slings with spreader',
    lashings: [{ kind: 'twist-lock', count: 4, over: 'lock' }],
    deckHeightM: 1.2,
    pads: { count: 4, lengthMm: 400, widthMm: 400, what: 'timber on gravel' },
    anchors: { count: 4, what: 'bolted to the slab', eachN: 23000 },
    snowFrame: null,
  },
}

const corners: readonly PointMm[] = [
  [102.5, 89.5, 0],
  [102.5, 2348.5, 0],
  [5955.5, 2348.5, 0],
  [5955.5, 89.5, 0],
]
const haul: HaulBox = {
  box: 'yard',
  items: [],
  centres: [
    {
      state: 'fitted',
      massKg: span(2800, 3450),
      centreMm: [3130, 1050, 1140],
      lowMm: [3000, 970, 1110],
      highMm: [3260, 1130, 1160],
      offXMm: 230,
      offYMm: 250,
    },
  ],
  methods: [],
  design: build.haul,
  slings: {
    legs: corners.map(([x, y], i) => ({ corner: `corner ${i + 1}`, fromMm: [x, y, 0], toMm: [3130, y, 2900] })),
    hookMm: [3130, 1050, 5000],
    spreaderMm: [
      [3130, 89.5, 2900],
      [3130, 2348.5, 2900],
    ],
    angleDeg: 45,
    leastAngleDeg: 45,
    shareFrac: 0.55,
    tensionN: 27400,
    legWllKg: 3104,
    chainMm: 10,
    chainWllKg: 3150,
    shackleWllKg: 3250,
  },
  forks: null,
  tilt: null,
  securing: {
    method: 'locks',
    forwardN: 28000,
    rearN: 17500,
    sideN: 17500,
    countedN: null,
    neededN: null,
    byLengthCount: null,
    points: corners.map((atMm) => ({ what: 'lock', atMm })),
  },
  heightOnDeckM: 3.791,
  wind: null,
  anchors: { count: 4, atMm: corners, tensionN: 19000, shearN: 9000, eachN: 23000 },
  snow: null,
  snowFrame: null,
  pads: {
    rectanglesMm: corners.map(([x, y]) => ({ atMm: [x - 200, y - 200, -150], lengthMm: 400, widthMm: 400, heightMm: 150 })),
    worstN: 19400,
    pressurePa: 121000,
    limitPa: 120000,
    packingMm: null,
  },
}

const step = (lengthMm: number, fromMm: number, label: string) => ({
  ...{ lengthMm, fromMm, sawMm: fromMm + lengthMm, sawn: true },
  ...{ ids: [label], labels: [label] },
})
const plan: CutPlan = {
  outcome: 'cut',
  goal: 'bars',
  bars: [
    {
      ...{ stock: 'long', lengthMm: 6096, times: 2, remnantMm: 1393, keep: true, sawnOffMm: 6, trimMm: 0 },
      pieces: [step(2347, 0, 'upright left 1'), step(2350, 2350, 'ceiling 1')],
    },
    {
      ...{ stock: 'long', lengthMm: 6096, times: 1, remnantMm: 3864, keep: true, sawnOffMm: 6, trimMm: 0 },
      pieces: [step(1626, 0, 'rail left 1'), step(600, 1629, 'outside left')],
    },
  ],
  ...{ count: 3, costMoney: null, bound: 3, boundKind: 'linear', proven: true, gap: 0, ffdCount: 3 },
  setUps: { count: 4, least: 4 },
  ...{ remnantMostMm: 3864, lacks: [], work: 1 },
  working: { id: 'bars', title: 'bars', steps: [] },
}

const bent: NonNullable<DrawnBox['bends']>[number] = {
  id: 'C-G1',
  bends: (
    [
      ['quarter', 489, 90, 0, null],
      ['kick', 1014, 5, 13, null],
      ['quarter', 1163, 90, 0, null],
    ] as const
  ).map(([kind, atMm, angleDeg, riseMm, raised]) => ({
    ...{ kind, made: 'bent' as const, atMm, angleDeg, riseMm, raised },
    ...{ multiplier: 1, shrinkMm: 0, gainMm: 0, takeUpMm: null, freeBeforeMm: 60, freeAfterMm: 60 },
  })),
  short: { between: ['quarter at 1163 mm', 'its end'], freeMm: -7.6, needMm: 12, bent: true },
  pieces: [
    {
      ...{ id: 'C-G1 #1', from: 'box', to: 'pull box', axisFromMm: 0, axisToMm: 1000, developedMm: 955.5, nipple: false },
      marks: [
        { kind: 'quarter', angleDeg: 90, startMm: 387, middleMm: 467, arrowMm: 362, turnDeg: null },
        { kind: 'kick', angleDeg: 5, startMm: 740, middleMm: 756.5, arrowMm: null, turnDeg: 90 },
      ],
    },
  ],
}

export const yardBox: DrawnBox = {
  body,
  build,
  skin,
  haul,
  spaces: [
    {
      item: 'panel',
      atMm: [1274, 235, 162.5],
      sizeMm: [762, 914.4, 2000],
      condition: 2,
      depthMm: 914.4,
      widthMm: 762,
      heightMm: 2000,
      freeMm: 2150,
      intrusions: [],
      steps: [],
    },
  ],
  cuts: [{ kind: 'strut', section: SECTION, priceId: 'none', kerfMm: 3, trimMm: 0, pieces: [], plan }],
  bends: [bent],
  hauls: 'tight',
  marks: { heater: 'tight' },
  pinned: ['meter'],
  labels: [
    { on: 'panel', words: 'Panel, 200 A' },
    { on: 'C-G1', words: 'G1: coolant heater of the first groomer, 120 V, locked off for work' },
  ],
}

/** The same box with a thing that does not fit. */
export const clashingBox: DrawnBox = {
  ...yardBox,
  build: {
    ...build,
    fit: {
      ...build.fit,
      clashes: [
        { what: 'transfer', against: 'panel', byMm: 137.5 },
        { what: 'stub 3', against: 'blind end', byMm: 40 },
      ],
    },
  },
}
