import { type BoxBody, PADS } from '../../box/index.ts'
import { type AirDesign, type BoxBuild, SIDES, type Side } from '../../job/index.ts'
import { amount } from '../figures.ts'
import { layerM2KPerW, material } from '../surface/layers.ts'
import { emittanceFrac, opticsOf, roughnessRatio } from '../surface/optics.ts'
import { ROOF_HOLDS_KG_PER_M2, WALL_HOLDS_KG_PER_M2 } from '../water/sweat.ts'
import type { BoxFace, FaceLayer } from '../year/types.ts'
import { bareShareFrac, insideAreaM2 } from './bare.ts'
import type { ModelEnd } from './ends.ts'

const SHEET = 'weathering steel sheet'
const FOAM = 'polyurethane spray foam, closed cell, aged'
const FLOOR_WOOD = 'plywood, container floor (hardwood) 700 kg/m3'
const INSIDE = 'inside: grey primer, plywood, foam skin'
/** Sheet of a second roof of the shop's own, and deck of a frame against snow. */
const SHADE_COAT = 'white factory coil coat (fluoropolymer) new'
const DECK_COAT = 'galvanised, weathered'

/** Slices in which foam and wood are cut. */
const FOAM_NODES = 3
const WOOD_NODES = 4

export interface FacesTask {
  readonly body: BoxBody
  readonly build: Pick<BoxBuild, 'skin' | 'haul'>
  readonly air: AirDesign
  readonly end: ModelEnd
  /** Closed all round below: what lies under it is the ground. */
  readonly skirted?: boolean
  /** What was measured of its roof. Absent: by its paint. */
  readonly roofAbsorptanceFrac?: number
}

/** A layer of a material: thin against its resistance, one node each slice. */
function layer(what: string, thickM: number, nodesCount: number): FaceLayer {
  const { conductsWPerMK, densityKgPerM3, heatJPerKgK } = material(what)
  return {
    what,
    resistanceM2KPerW: layerM2KPerW(thickM, conductsWPerMK),
    heatJPerM2K: thickM * densityKgPerM3 * heatJPerKgK,
    nodesCount,
  }
}

/** Wood of the floor over its crossmembers, m. */
export function floorWoodM(body: BoxBody): number {
  const beams = body.members.filter((m) => m.kind === 'crossmember')
  return beams.length === 0 ? 0 : (body.floor.topMm - Math.max(...beams.map((m) => m.toMm[2]))) / 1000
}

/** Age at which a model's coat is taken. */
const ageYears = (end: ModelEnd): number => (end.paint === 'fresh' ? 0 : amount('paint-aged'))

/** The six faces of a box, in the order of `SIDES`, and the floor's path through its crossmembers as a part of its own. */
export function facesOf(task: FacesTask): { readonly faces: readonly BoxFace[]; readonly parts: readonly BoxFace[] } {
  const flange = crossmemberPart(task)
  const faces = SIDES.map((side) => {
    const face = side === 'floor' ? floorFace(task) : steelFace(task, side)
    return side === 'floor' && flange !== null ? { ...face, areaM2: face.areaM2 - flange.areaM2 } : face
  })
  return { faces, parts: flange === null ? [] : [flange] }
}

function steelFace({ body, build, air, end, roofAbsorptanceFrac }: FacesTask, side: Side): BoxFace {
  const roof = side === 'roof'
  const { corrugation, alongMm, upMm } = body.sides[side]
  const foamM = roof ? air.roofFoamM : air.wallFoamM
  const optics = opticsOf(roof ? air.roofPaint : air.wallPaint, ageYears(end))
  const steelM = (corrugation?.thicknessMm ?? amount('door-sheet')) / 1000
  const bare = foamM === 0 || air.bridgesFoamed ? 0 : bareShareFrac(body, side)
  const door = foamM === 0 ? 0 : doorShareFrac(body, build, side)
  return {
    side,
    areaM2: insideAreaM2(body, side),
    developedRatio: corrugation?.developedRatio ?? 1,
    perimeterM: (2 * (alongMm + upMm)) / 1000,
    middleM: (PADS.leastAirMm + (roof ? body.outsideMm[2] : body.outsideMm[2] / 2)) / 1000,
    absorptanceFrac: (roof ? roofAbsorptanceFrac : undefined) ?? optics.absorptanceFrac,
    outsideEmittanceFrac: optics.emittanceFrac,
    roughnessRatio: roughnessRatio('smooth'),
    layers: [layer(SHEET, steelM, 1), ...(foamM === 0 ? [] : [layer(FOAM, foamM, FOAM_NODES)])],
    insideEmittanceFrac: emittanceFrac(INSIDE),
    bareFrac: Math.min(0.99, bare + door),
    holdsKgPerM2: roof ? ROOF_HOLDS_KG_PER_M2 : WALL_HOLDS_KG_PER_M2,
    sees: 'sky',
    shade: roof ? shadeOf(build, air, end) : null,
  }
}

/** A door of its own in a foamed wall is steel without foam. */
function doorShareFrac(body: BoxBody, { skin }: FacesTask['build'], side: Side): number {
  const doors = skin.openings.filter((o) => o.use === 'personnel door' && o.side === side)
  return doors.reduce((sum, o) => sum + (o.widthMm * o.heightMm) / 1e6, 0) / insideAreaM2(body, side)
}

/** A second roof; a deck on a frame against snow is one while it stands there. */
function shadeOf({ haul }: FacesTask['build'], air: AirDesign, end: ModelEnd): BoxFace['shade'] {
  const coat = air.secondRoof ? SHADE_COAT : haul.snowFrame === null ? null : DECK_COAT
  if (coat === null) return null
  return { coversFrac: amount('shade-covers'), absorptanceFrac: opticsOf(coat, ageYears(end)).absorptanceFrac }
}

/** Wood between its crossmembers, over a gap of outside air. */
function floorFace({ body, skirted }: FacesTask): BoxFace {
  const { alongMm, upMm } = body.sides.floor
  const woodM = floorWoodM(body)
  return {
    side: 'floor',
    areaM2: insideAreaM2(body, 'floor'),
    developedRatio: 1,
    perimeterM: (2 * (alongMm + upMm)) / 1000,
    middleM: PADS.leastAirMm / 1000,
    absorptanceFrac: 0,
    outsideEmittanceFrac: emittanceFrac(INSIDE),
    roughnessRatio: roughnessRatio('medium smooth'),
    layers: [woodM > 0 ? layer(FLOOR_WOOD, woodM, WOOD_NODES) : layer(SHEET, amount('door-sheet') / 1000, 1)],
    insideEmittanceFrac: emittanceFrac(INSIDE),
    bareFrac: 0,
    holdsKgPerM2: Number.POSITIVE_INFINITY,
    sees: skirted === true ? 'ground' : 'air',
    shade: null,
  }
}

/** Wood over the flanges: steel that stands in the air below as a fin, and the wood over it. Null: no wood, no crossmember. */
function crossmemberPart(task: FacesTask): BoxFace | null {
  const { body } = task
  const beams = body.members.filter((m) => m.kind === 'crossmember')
  if (beams.length === 0 || floorWoodM(body) <= 0) return null
  const [, acrossM] = [body.insideMm[0] / 1000, body.insideMm[1] / 1000]
  const areaM2 = (beams.length * amount('crossmember-flange') * acrossM) / 1000
  const wood = layer(FLOOR_WOOD, floorWoodM(body), WOOD_NODES)
  return {
    ...floorFace(task),
    areaM2,
    developedRatio: amount('crossmember-fin'),
    layers: [
      layer(SHEET, CROSSMEMBER_M, 1),
      { ...wood, resistanceM2KPerW: areaM2 / (amount('crossmember-path') * beams.length) },
    ],
  }
}

/** Steel of a pressed crossmember. @source table `frame-members` of `box`: 4.0 mm */
const CROSSMEMBER_M = 0.004
