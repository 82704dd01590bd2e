import type { BoxBody } from '../../box/index.ts'
import type { BoxDesign, Run, StrutPiece } from '../../job/index.ts'
import type { Prices, ShelfItem } from '../../parts/index.ts'
import { type Metal, sectionIn } from './metal.ts'
import type { Spot } from './plan-of.ts'
import { HIGHWAY_MM } from './rules.ts'

/** Two things joined by a raceway, and what a metre of it costs. */
export interface Join {
  readonly from: string
  readonly to: string
  readonly moneyPerM: number
}

/** What the layout's objective is made of. */
export interface Tariff {
  readonly joins: readonly Join[]
  readonly strutMoneyPerM: (section: string) => number
  /** Ids of prices that the table lacks; what they price counts nothing. */
  readonly missing: readonly string[]
}

/** Raceway and wire money of every join that the electrical design asks for, by the shop's price table. */
export function tariffFor(box: BoxDesign, items: readonly ShelfItem[], prices: Prices, metal: Metal): Tariff {
  const missing = new Set<string>()
  const price = (id: string): number => {
    const row = Object.hasOwn(prices.rows, id) ? prices.rows[id] : undefined
    if (row === undefined || row.per !== 'm') missing.add(id)
    return row?.per === 'm' ? row.money : 0
  }
  const perM = (run: Run, lines: number): number => {
    const wires = [...Array<Run['line'] | null>(lines).fill(run.line), run.neutral, run.protective]
    const wire = wires.reduce((sum, w) => sum + (w === null ? 0 : price(`conductor/${w.size}/${w.metal}`)), 0)
    return run.sets * (wire + (run.raceway === null ? 0 : price(`raceway/${run.raceway.kind}/${run.raceway.trade}`)))
  }
  const joins: Join[] = []
  const service = ['meter', 'service disconnect', 'transformer', 'transfer', 'panel'].flatMap(
    (kind) => items.find((i) => i.kind === kind) ?? [],
  )
  const feed = perM(box.fedFrom?.run ?? box.panel.feed, box.panel.main.poles)
  const primary = box.transformer === null ? feed : perM(box.transformer.primaryRun, box.transformer.primary.poles)
  for (let i = 1; i < service.length; i++) {
    const ahead = box.transformer !== null && i <= service.findIndex((s) => s.kind === 'transformer')
    joins.push({ from: service[i - 1]!.id, to: service[i]!.id, moneyPerM: ahead ? primary : feed })
  }
  const panels = items.filter((i) => i.kind === 'panel')
  for (const more of panels.slice(1)) joins.push({ from: panels[0]!.id, to: more.id, moneyPerM: feed })
  for (const kind of ['surge device', 'earth bar'] as const)
    for (const i of items.filter((x) => x.kind === kind))
      if (panels[0] !== undefined) joins.push({ from: panels[0].id, to: i.id, moneyPerM: feed / 4 })
  for (const c of box.circuits) {
    if (c.own === 'spare') continue
    const moneyPerM = perM(c.run, c.legs.length)
    const here = items.filter((i) => i.circuits.includes(c.id))
    let from = here.find((i) => i.kind === 'panel')
    const through = here.find((i) => i.kind === 'contactors')
    if (from === undefined) continue
    if (through !== undefined) {
      joins.push({ from: from.id, to: through.id, moneyPerM })
      from = through
    }
    for (const end of here)
      if (end.kind !== 'panel' && end.kind !== 'contactors') joins.push({ from: from.id, to: end.id, moneyPerM })
  }
  return { joins, strutMoneyPerM: (section) => price(`strut/${sectionIn(metal, section)}`), missing: [...missing].toSorted() }
}

/** Middle of a spot in plan, its top, and whether it is outside. */
function placeOf(
  body: BoxBody,
  s: Spot,
): { readonly x: number; readonly y: number; readonly top: number; readonly mid: number; readonly out: boolean } {
  const [x0, y0] = body.insideAtMm
  const [l, w] = body.insideMm
  const out = s.face === 'outside'
  if (s.side === 'roof') return { x: s.uMm, y: s.zMm, top: body.insideAtMm[2] + body.insideMm[2] - HIGHWAY_MM / 2, mid: 0, out }
  const top = s.side === 'floor' ? body.floor.topMm + s.item.part.heightMm : s.zMm + s.item.part.heightMm / 2
  const mid = s.side === 'floor' ? top / 2 : s.zMm
  if (s.side === 'floor') return { x: s.uMm, y: s.zMm, top, mid, out }
  if (s.side === 'left') return { x: s.uMm, y: y0, top, mid, out }
  if (s.side === 'right') return { x: s.uMm, y: y0 + w, top, mid, out }
  return { x: s.side === 'blind end' ? x0 : x0 + l, y: s.uMm, top, mid, out }
}

/** Way through a wall between what hangs outside and what hangs inside. */
export const THROUGH_MM = 300

/**
 * Estimate of a route: orthogonal along the walls, up to the high band and down again; through the wall between outside and inside.
 *
 *   L = |Δx| + |Δy| + (z band − z top a) + (z band − z top b);   through the wall |Δx| + |Δz| + 300 mm
 *   + 1 m past each enclosure between, + 3 m round one that hangs over the hole
 */
export function routeMm(body: BoxBody, a: Spot, b: Spot): number {
  const [p, q] = [placeOf(body, a), placeOf(body, b)]
  const level = Math.abs(p.x - q.x) + Math.abs(p.y - q.y)
  if (p.out || q.out) return level + Math.abs(p.mid - q.mid) + (p.out === q.out ? 0 : THROUGH_MM)
  const band = body.insideAtMm[2] + body.insideMm[2] - HIGHWAY_MM / 2
  return level + Math.max(0, band - p.top) + Math.max(0, band - q.top)
}

export function routesMoney(body: BoxBody, tariff: Tariff, spots: readonly Spot[]): number {
  const byId = new Map(spots.map((s) => [s.item.id, s]))
  const wide = spots
    .filter((s) => s.face === 'inside' && WIDE.has(s.item.kind))
    .map((s) => ({ s, at: unrolledMm(body, s), half: s.item.part.widthMm / 2 }))
  let sum = 0
  for (const join of tariff.joins) {
    const [a, b] = [byId.get(join.from), byId.get(join.to)]
    if (a === undefined || b === undefined) continue
    const [p, q] = [unrolledMm(body, a), unrolledMm(body, b)]
    let roundMm = 0
    for (const { s, at, half } of wide) {
      if (s === a || s === b) continue
      if (b.face === 'outside' && Math.abs(at - q) < half + BESIDE_MM) roundMm += AROUND_MM
      else if ((at - p) * (q - at) > 0) roundMm += PAST_MM
    }
    sum += (join.moneyPerM * (routeMm(body, a, b) + roundMm)) / 1000
  }
  return sum
}

/** Along the inside walls, from the door end over the left, the blind end and the right. */
function unrolledMm(body: BoxBody, s: Spot): number {
  const [x0, y0] = body.insideAtMm
  const [length, width] = body.insideMm
  if (s.side === 'blind end') return length + s.uMm - y0
  return s.side === 'right' ? length + width + s.uMm - x0 : length - (s.uMm - x0)
}

/** Enclosures that a raceway has to go round. */
const WIDE: ReadonlySet<string> = new Set(['transfer', 'panel', 'contactors', 'controls'])
/** Way round an enclosure that hangs over the hole of an outside thing: up or down past it and back. House rule. */
const AROUND_MM = 3000
/** Way past one that hangs between: down and up again. House rule. */
const PAST_MM = 2500
/** Room beside an enclosure for a bend into the hole. House rule. */
const BESIDE_MM = 120

export const pieceMm = (p: StrutPiece): number =>
  Math.hypot(p.toMm[0] - p.fromMm[0], p.toMm[1] - p.fromMm[1], p.toMm[2] - p.fromMm[2])

export const strutMoney = (tariff: Tariff, strut: readonly StrutPiece[]): number =>
  strut.reduce((sum, p) => sum + (tariff.strutMoneyPerM(p.section) * pieceMm(p)) / 1000, 0)
