import type { BoxBody, Corrugation } from '../box/index.ts'
import type { AirDesign, BoxDesign, FitDesign, Opening, PointMm, RacewayRoute, SkinDesign, Span } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { conductorKg, conduitKgPerM, middleOf, strutKgPerM, tradeAreaMm2 } from './mass.ts'
import type { MassItem } from './result.ts'
import { amount, numberIn, rowsOf } from './shelf.ts'

export interface Contents {
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly skin: SkinDesign
  readonly rules: RuleSet
  /** Foam and second roof; absent: neither. */
  readonly air?: AirDesign
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
    ...(of.air === undefined ? [] : airItems(body, of.air)),
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

/** Foam under the roof and on the walls, by its thickness, and a second roof over it. */
function airItems(body: BoxBody, air: AirDesign): readonly MassItem[] {
  const [l, w, h] = body.insideMm.map((mm) => mm / 1000) as [number, number, number]
  const [x, y, z] = body.insideAtMm
  const middle = (up: number): PointMm => [x + body.insideMm[0] / 2, y + body.insideMm[1] / 2, z + body.insideMm[2] * up]
  const foam = (where: 'roof' | 'walls', thickM: number, areaM2: number, ratio: number, up: number): readonly MassItem[] => {
    if (thickM <= 0) return []
    const share = thickM / amount('foam-of')
    const kg = span(areaM2 * share * amount('foam-low'), areaM2 * ratio * share * amount('foam-high'), FOAM_BASIS)
    return [item(`foam, ${where}`, `spray foam of ${Math.round(thickM * 1000)} mm, ${where}`, kg, middle(up))]
  }
  const roofM2 = (body.outsideMm[0] * body.outsideMm[1]) / 1e6
  const over = span(roofM2 * amount('second-roof-low'), roofM2 * amount('second-roof-high'), 'roof times 7 to 11 kg/m²')
  const ratio = (side: 'left' | 'roof') => body.sides[side].corrugation?.developedRatio ?? 1
  return [
    ...foam('roof', air.roofFoamM, l * w, ratio('roof'), 1),
    ...foam('walls', air.wallFoamM, 2 * (l + w) * h, ratio('left'), 0.5),
    ...(air.secondRoof
      ? [
          item('second roof', 'second roof of coated sheet on spacers', over, [
            body.outsideMm[0] / 2,
            body.outsideMm[1] / 2,
            body.outsideMm[2] + (1000 * amount('second-roof-up')) / 2,
          ]),
        ]
      : []),
  ]
}
const FOAM_BASIS = 'area times 1.6 to 2.0 kg/m² for each 50 mm'

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
