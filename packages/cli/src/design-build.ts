import { EXIT_WAYS, PAINTS, SIDES } from '@plugstead/engine/job'
import type { Shape } from './design-shape.ts'

const POINT: Shape = { list: 'signed', least: 3 }
const SIDE: Shape = { oneOf: SIDES }
const YES: Shape = 'yes or no'
const SPAN: Shape = { fields: { low: 'signed', high: 'signed', basis: 'text', told: YES } }

const ITEM: Shape = {
  fields: {
    id: 'text',
    kind: 'text',
    what: 'text',
    part: 'text',
    side: SIDE,
    face: { oneOf: ['inside', 'outside'] },
    atMm: POINT,
    sizeMm: POINT,
    massKg: SPAN,
    circuits: { list: 'text' },
    hangsOn: { list: 'text' },
  },
}
const STRUT: Shape = {
  fields: {
    id: 'text',
    use: { oneOf: ['upright', 'rail', 'ceiling rail', 'outside'] },
    section: 'text',
    pattern: { oneOf: ['solid', 'holes', 'slots'] },
    side: SIDE,
    fromMm: POINT,
    toMm: POINT,
    fixings: {
      list: {
        fields: {
          atMm: POINT,
          how: { oneOf: ['weld to rail', 'weld to pad', 'bolt to pad', 'bolt through flat', 'channel nut'] },
        },
      },
    },
  },
}
const RACEWAY: Shape = {
  fields: {
    id: 'text',
    kind: 'text',
    trade: 'text',
    from: 'text',
    to: 'text',
    pointsMm: { list: POINT, least: 2 },
    circuits: { list: 'text' },
    conductors: { list: { fields: { size: 'text', insulation: 'text', count: 'count' } } },
    bends: {
      list: {
        fields: { kind: { oneOf: ['quarter', 'offset', 'saddle'] }, atMm: 'number', sumDeg: 'number', riseMm: 'number' },
      },
    },
    strapsMm: { list: 'number' },
    pullsMm: { list: 'number' },
  },
}
const FIT: Shape = {
  fields: {
    items: { list: ITEM },
    strut: { list: STRUT },
    raceways: { list: RACEWAY },
    bonds: { list: { fields: { id: 'text', what: 'text', atMm: POINT, conductor: 'text' } } },
    search: {
      orNull: {
        fields: {
          triedCount: 'count',
          money: 'number',
          plainMoney: 'number',
          plainClashesCount: 'count',
          boundMoney: { orNull: 'number' },
          reachScore: 'number',
        },
      },
    },
    clashes: { list: { fields: { what: 'text', against: 'text', byMm: 'number' } } },
  },
}
const PLATE: Shape = {
  fields: {
    thicknessMm: 'number',
    widthMm: 'number',
    heightMm: 'number',
    entries: {
      list: {
        fields: {
          plug: { orNull: 'text' },
          thread: 'text',
          split: YES,
          uMm: 'number',
          vMm: 'number',
          cordMm: { orNull: SPAN },
        },
      },
    },
  },
}
const SKIN: Shape = {
  fields: {
    openings: {
      list: {
        fields: {
          id: 'text',
          use: { oneOf: ['personnel door', 'vent', 'fan', 'meter entry', 'raceway entry', 'cord exit', 'stub'] },
          side: SIDE,
          atMm: POINT,
          shape: { oneOf: ['round', 'rectangle'] },
          widthMm: 'number',
          heightMm: 'number',
          cornerRadiusMm: 'number',
          class: { oneOf: ['hole on a flat', 'collar', 'framed', 'door'] },
          frame: { orNull: 'text' },
          railToRail: YES,
          hood: YES,
          meshMm: { orNull: 'number' },
          plate: { orNull: PLATE },
          serves: { list: 'text' },
        },
      },
    },
    exitWays: { byName: { oneOf: EXIT_WAYS } },
    cordSide: SIDE,
    finish: { fields: { primer: 'text', foam: YES } },
  },
}
const LIFT: Shape = {
  oneOf: [
    'top spreader, vertical',
    'top slings, inclined',
    'bottom slings with spreader',
    'forks, wide pockets',
    'forks, narrow pockets',
    'side-lift frame',
    'tilt-bed',
  ],
}
const HAUL: Shape = {
  fields: {
    lift: LIFT,
    slingAngleDeg: { orNull: 'number' },
    slingLegs: 'count',
    unload: LIFT,
    lashings: {
      list: { fields: { kind: 'text', count: 'count', over: { oneOf: ['over the top', 'deck to cargo', 'lock'] } } },
    },
    deckHeightM: 'number',
    pads: { fields: { count: 'count', lengthMm: 'number', widthMm: 'number', what: 'text' } },
    anchors: { orNull: { fields: { count: 'count', what: 'text', eachN: 'number' } } },
    snowFrame: {
      orNull: {
        fields: {
          section: 'text',
          bearersAtMm: { list: 'number', least: 2 },
          seatMm: 'number',
          deck: 'text',
          triedCount: 'count',
        },
      },
    },
  },
}

const AIR: Shape = {
  fields: {
    roofPaint: { oneOf: PAINTS },
    wallPaint: { oneOf: PAINTS },
    vents: {
      list: {
        fields: { id: 'text', side: SIDE, widthMm: 'number', heightMm: 'number', upMm: 'number', fan: YES },
      },
    },
    winterOpenFrac: 'number',
    roofFoamM: 'number',
    wallFoamM: 'number',
    bridgesFoamed: YES,
    secondRoof: YES,
    fan: { orNull: { fields: { powerW: 'number', solar: YES, onAboveC: 'signed', byHumidity: YES } } },
    heater: {
      orNull: { fields: { at: { oneOf: ['room', 'cabinet'] }, powerW: 'number', onBelowC: 'signed', humidistat: YES } },
    },
    dripHood: YES,
    floorPainted: YES,
  },
}

/** How a box is built, as the design file writes it; files from before air was designed have no “air”. */
export const BUILD: Shape = { fields: { box: 'text', fit: FIT, skin: SKIN, haul: HAUL }, optional: { air: AIR } }
