import type { BoxBody, Corrugation } from '../box/index.ts'
import type { BoxDesign, FitDesign, Opening, PointMm, RacewayRoute, SkinDesign, Span } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { conductorKg, conduitKgPerM, middleOf, strutKgPerM, tradeAreaMm2 } from './mass.ts'
import type { MassItem } from './result.ts'
import { amount, numberIn, rowsOf } from './shelf.ts'

export interface Contents {
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly skin: SkinDesign
  readonly rules: RuleSet
}

/** The bare box. */
export const bareItems = (body: BoxBody): readonly MassItem[] => [
  item('box', `bare ${body.type} box`, body.tareKg, body.tareCentreMm, body.tareCentreBandMm),
]

/** Everything that is built in: things, strut, raceways with their wires, frames and what was cut out, foam. */
export function fittedItems(of: Contents): readonly MassItem[] {
  const { fit, skin, body } = of
  return [
    ...bareItems(body),
    ...fit.items.map((one) =>
      item(
        one.id,
        one.what,
        one.massKg,
        middleOf(one.atMm, [one.atMm[0] + one.sizeMm[0], one.atMm[1] + one.sizeMm[1], one.atMm[2] + one.sizeMm[2]]),
      ),
    ),
    ...fit.strut.map((piece) => {
      const lengthM = Math.hypot(...piece.fromMm.map((from, axis) => (piece.toMm[axis] ?? 0) - from)) / 1000
      const perM = strutKgPerM(piece.section)
      const basis = perM.known ? 'table strut-mass' : 'lightest to heaviest single channel'
      return item(
        piece.id,
        `strut, ${piece.use}`,
        span(perM.low * lengthM, perM.high * lengthM, basis),
        middleOf(piece.fromMm, piece.toMm),
      )
    }),
    ...fit.raceways.map((route) => racewayItem(route, of.rules)),
    ...skin.openings.flatMap((opening) => openingItems(opening, body)),
    ...(skin.finish.foam ? [foamItem(body)] : []),
  ]
}

const PLANNED_RACEWAY_KG_PER_M = { low: 0.2, high: 2 }

function racewayItem(route: RacewayRoute, rules: RuleSet): MassItem {
  const legs = route.pointsMm.slice(1).map((to, at) => ({ from: route.pointsMm[at] as PointMm, to }))
  const lengths = legs.map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]) / 1000)
  const lengthM = lengths.reduce((sum, l) => sum + l, 0)
  const known = conduitKgPerM(route.kind, route.trade)
  const empty = known === null ? PLANNED_RACEWAY_KG_PER_M : { low: known * CONDUIT_LOW, high: known * CONDUIT_HIGH }
  const copper = route.conductors.reduce((sum, wire) => sum + bareKg(rules, wire.size, lengthM, wire.count), 0)
  const at = ([0, 1, 2] as const).map(
    (axis) =>
      legs.reduce((sum, { from, to }, i) => sum + ((from[axis] + to[axis]) / 2) * (lengths[i] ?? 0), 0) / Math.max(lengthM, 1e-9),
  ) as unknown as PointMm
  return item(
    route.id,
    `raceway ${route.kind} ${route.trade} with its wires`,
    span(
      empty.low * lengthM + copper * amount('wire-over-copper-low'),
      empty.high * lengthM + copper * amount('wire-over-copper-high'),
      known === null ? 'planning mass of a raceway, 0.2 to 2 kg/m; copper' : 'tables conduit-mass and copper',
    ),
    lengthM > 0 ? at : (route.pointsMm[0] ?? [0, 0, 0]),
  )
}

/** Two read tables of steel conduit differ by 2 to 7 %. */
const CONDUIT_LOW = 0.95
const CONDUIT_HIGH = 1.07

function bareKg(rules: RuleSet, size: string, lengthM: number, count: number): number {
  const areaMm2 = rules.sizes.find((one) => one.name === size)?.areaMm2 ?? tradeAreaMm2(size)
  return conductorKg({ areaMm2, lengthM, count, metal: 'cu' })
}

function openingItems(opening: Opening, body: BoxBody): readonly MassItem[] {
  const rows = rowsOf('opening-masses')
  const row = rows.find((one) => one.use === opening.use)
  const tube = rows.find((one) => one.use === 'frame, per metre of tube')
  const around = (2 * (opening.widthMm + opening.heightMm)) / 1000
  const tubeM =
    opening.frame === null ? 0 : opening.railToRail ? around + (2 * (body.outsideMm[2] - opening.heightMm)) / 1000 : around
  const add = (column: 'low' | 'high'): number =>
    (row === undefined ? 0 : numberIn(row, column)) + (tube === undefined ? 0 : numberIn(tube, column)) * tubeM
  const areaM2 = ((opening.shape === 'round' ? Math.PI / 4 : 1) * opening.widthMm * opening.heightMm) / 1e6
  const cut = sheetOf(body, opening.side)
  const out = cut === null ? 0 : -areaM2 * cut.sheetKgPerM2
  return [
    item(
      opening.id,
      `${opening.use}${opening.frame === null ? '' : ' with its frame'}`,
      span(add('low'), add('high'), 'table opening-masses'),
      opening.atMm,
    ),
    ...(out === 0 ? [] : [item(`${opening.id}, sheet out`, 'sheet cut out', span(out, out, 'area and sheet'), opening.atMm)]),
  ]
}

const sheetOf = (body: BoxBody, side: Opening['side']): Corrugation | null => body.sides[side].corrugation

function foamItem(body: BoxBody): MassItem {
  const [l, w, h] = body.insideMm.map((mm) => mm / 1000) as [number, number, number]
  const areaM2 = 2 * l * h + 2 * w * h + l * w
  const ratio = body.sides.left.corrugation?.developedRatio ?? 1
  const [x, y, z] = body.insideAtMm
  return item(
    'foam',
    'spray foam of 50 mm on walls and roof',
    span(areaM2 * amount('foam-low'), areaM2 * ratio * amount('foam-high'), 'area times 1.6 to 2.0 kg/m²'),
    [x + body.insideMm[0] / 2, y + body.insideMm[1] / 2, z + body.insideMm[2] * FOAM_UP],
  )
}

/** Walls count at half their height, the roof at its own: the centre of both lies at this share of it. */
const FOAM_UP = 0.6

/** Conductors of a cord by what it connects, its protective one with them. */
const CORES: Readonly<Record<string, number>> = { LN: 3, LL: 3, LLN: 4, LLL: 4, LLLN: 5 }

/** Cords of the box's circuits, stowed on its floor while it travels, over the middle within a band either way. */
export function cordItems(of: {
  readonly boxes: readonly BoxDesign[]
  readonly body: BoxBody
  readonly rules: RuleSet
}): readonly MassItem[] {
  const { body, rules } = of
  const seen = new Map<string, { readonly kg: number }>()
  for (const box of of.boxes)
    for (const circuit of box.circuits)
      for (const cord of circuit.cords) {
        if (cord.sharedWith !== undefined) continue
        const kg = bareKg(rules, cord.size, cord.lengthM, CORES[circuit.connection] ?? 5)
        if (kg > (seen.get(cord.plug)?.kg ?? 0)) seen.set(cord.plug, { kg })
      }
  const kg = [...seen.values()].reduce((sum, cord) => sum + cord.kg, 0)
  if (kg === 0) return []
  const [x, y, z] = body.insideAtMm
  return [
    item(
      'cords',
      `${seen.size} cords on the floor`,
      span(kg * amount('cord-over-copper-low'), kg * amount('cord-over-copper-high'), '1.8 to 2.2 times their copper'),
      [x + body.insideMm[0] / 2, y + body.insideMm[1] / 2, z + CORDS_UP_MM],
      body.insideMm[0] * amount('cords-stowed'),
    ),
  ]
}

/** Half the height of coils on the floor. Common practice. */
const CORDS_UP_MM = 250

const span = (low: number, high: number, basis: string): Span => ({ low, high, basis, told: false })

const item = (id: string, what: string, massKg: Span, atMm: PointMm, bandXMm = 0): MassItem => ({
  id,
  what,
  massKg,
  atMm,
  bandXMm,
})
