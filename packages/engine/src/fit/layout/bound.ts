import type { ShelfItem } from '../../parts/index.ts'
import { type Join, type Tariff, THROUGH_MM } from './money.ts'
import { outsideReceptacles } from './place.ts'
import type { Spot, Task } from './plan-of.ts'
import { BOX_GAP_MM, CHANNEL_MM, DOOR_GAP_MM, HANDLE_BELOW_TOP_MM, HIGHWAY_MM, RECEPTACLE_HIGH_MM, SECTION } from './rules.ts'

type Kind = ShelfItem['kind']
const SMALL: ReadonlySet<Kind> = new Set(['receptacle', 'junction box', 'stub'])
const ROW: ReadonlySet<Kind> = new Set(['transfer', 'surge device', 'panel', 'contactors', 'controls'])
const OUTSIDE: ReadonlySet<Kind> = new Set(['meter', 'service disconnect'])
/** Highest middle above the floor of what belongs to the room. */
const ROOM_MM: Readonly<Partial<Record<Kind, number>>> = {
  heater: 600,
  'light switch': 1100,
  thermostat: 1350,
  fan: 1650,
  'earth bar': 450,
}
/** Most levels of the house grid that boxes of a kind hang on, one above another. */
const rowsOf = (kind: Kind): number => (kind === 'receptacle' ? 3 : 5)

/**
 * Money that no layout of these things on this grid can go below, by the layout's own estimate of routes.
 *
 *   every route rises to the band and comes down from it; neighbours in the row stand at least half their widths and a gap apart; of the
 *   boxes joined to one source the nth nearest stands n / rows box widths away on its own wall, or across the box; one length of channel
 *   across the box for every two strips' rails, and behind each enclosure its own width on two rails
 *
 * An outside receptacle stands where its hole is: its source is taken at the cheapest of all places along either long side (the weighted
 * median). Null where a pin may put a thing elsewhere than on the grid.
 */
export function boundMoney(task: Task, tariff: Tariff): number | null {
  if (task.pinned.length > 0) return null
  const fixed = new Map(outsideReceptacles(task, task.items).map((s) => [s.item.id, s]))
  const toFixed = new Map<string, { readonly join: Join; readonly spot: Spot }[]>()
  const byId = new Map(task.items.map((i) => [i.id, i]))
  const ends = tariff.joins.flatMap((join) => {
    const [a, b] = [byId.get(join.from), byId.get(join.to)]
    return a === undefined || b === undefined ? [] : [{ join, a, b }]
  })
  let money = 0
  const fromSource = new Map<string, Join[]>()
  for (const { join, a, b } of ends) {
    const spot = fixed.get(b.id)
    if (spot !== undefined) {
      toFixed.set(a.id, [...(toFixed.get(a.id) ?? []), { join, spot }])
      continue
    }
    money += (join.moneyPerM * fixedMm(task, a, b)) / 1000
    if (SMALL.has(b.kind)) fromSource.set(`${a.id}|${b.kind}`, [...(fromSource.get(`${a.id}|${b.kind}`) ?? []), join])
  }
  for (const joins of fromSource.values()) money += nearestMoney(task, byId, joins)
  for (const [id, list] of toFixed) money += fixedMoney(task, byId.get(id)!, list)
  return money + strutBound(task, tariff)
}

/** Least of a route's rises, steps through the wall, and the distance of neighbours in one row. */
function fixedMm(task: Task, a: ShelfItem, b: ShelfItem): number {
  const [outA, outB] = [OUTSIDE.has(a.kind), OUTSIDE.has(b.kind)]
  if (outA && outB) return apartMm(a, b)
  if (outA || outB) return THROUGH_MM
  const band = task.body.insideAtMm[2] + task.body.insideMm[2] - HIGHWAY_MM / 2
  const rise = (i: ShelfItem) => Math.max(0, band - highestTopMm(task, i))
  const level = ROW.has(a.kind) && ROW.has(b.kind) ? Math.min(apartMm(a, b), task.body.insideMm[1]) : 0
  return rise(a) + rise(b) + level
}

const apartMm = (a: ShelfItem, b: ShelfItem): number => (a.part.widthMm + b.part.widthMm) / 2 + Math.min(BOX_GAP_MM, DOOR_GAP_MM)

function highestTopMm(task: Task, i: ShelfItem): number {
  const { body } = task
  const floor = body.floor.topMm
  const half = i.part.heightMm / 2
  const under = body.insideAtMm[2] + body.insideMm[2] - HIGHWAY_MM
  if (i.kind === 'fan' && task.skin !== null) return Infinity
  if (i.kind === 'light' || i.kind === 'light sensor' || i.kind === 'transformer') return Infinity
  if (i.kind === 'receptacle') return Math.min(under, floor + RECEPTACLE_HIGH_MM + half)
  if (SMALL.has(i.kind)) return Math.min(under, floor + 1650 + half)
  const room = ROOM_MM[i.kind]
  if (room !== undefined) return floor + room + half
  return Math.min(under, floor + task.handleAtMostMm + Math.max(HANDLE_BELOW_TOP_MM, half))
}

/** Level part of the routes from one source to its boxes: the dearest to the nearest place, on the source's wall or across the box. */
function nearestMoney(task: Task, byId: ReadonlyMap<string, ShelfItem>, joins: readonly Join[]): number {
  const source = byId.get(joins[0]!.from)!
  const boxes = joins.flatMap((j) => byId.get(j.to) ?? [])
  const width = Math.min(...boxes.map((i) => i.part.widthMm))
  const rows = rowsOf(boxes[0]!.kind)
  const step = width + BOX_GAP_MM
  const places: number[] = []
  const beside = ROW.has(source.kind) ? (source.part.widthMm + width) / 2 + BOX_GAP_MM : 0
  const columns = Math.ceil(joins.length / rows)
  for (let k = 0; k < columns; k++)
    for (let r = 0; r < rows; r++) places.push(beside + k * step, task.body.insideMm[1] + Math.floor((k + 1) / 2) * step)
  places.sort((a, b) => a - b)
  const rates = joins.map((j) => j.moneyPerM).toSorted((a, b) => b - a)
  return rates.reduce((sum, rate, n) => sum + (rate * places[n]!) / 1000, 0)
}

/** Routes from one source to receptacles that stand fast, the source at the weighted median of their places along the better long side. */
function fixedMoney(task: Task, source: ShelfItem, list: readonly { readonly join: Join; readonly spot: Spot }[]): number {
  const lowestMm = task.body.floor.topMm + HIGHWAY_MM + source.part.heightMm / 2
  const from = (xMm: number, side: Spot['side']) =>
    list.reduce((sum, { join, spot }) => {
      const across = spot.side === side ? 0 : spot.side === 'left' || spot.side === 'right' ? task.body.insideMm[1] : 0
      const along = spot.side === 'blind end' ? 0 : Math.abs(xMm - spot.uMm)
      return sum + (join.moneyPerM * (along + across + Math.max(0, lowestMm - spot.zMm) + THROUGH_MM)) / 1000
    }, 0)
  return Math.min(...(['left', 'right'] as const).flatMap((side) => list.map(({ spot }) => from(spot.uMm, side))))
}

/** Channel that any layout needs: rails across the ceiling, two uprights, and each enclosure's width less its uprights on two rails. */
function strutBound(task: Task, tariff: Tariff): number {
  const { body } = task
  const perM = tariff.strutMoneyPerM(SECTION)
  const lights = task.items.filter((i) => i.kind === 'light').length
  const row = task.items.filter((i) => ROW.has(i.kind) && i.part.heightMm >= 900)
  const rails = row.reduce((sum, i) => sum + 2 * Math.max(0, 0.85 * i.part.widthMm - CHANNEL_MM), 0)
  const uprights = row.length > 0 ? 2 * (body.insideMm[2] - CHANNEL_MM - 10) : 0
  return (perM * (2 * lights * body.insideMm[1] + rails + uprights)) / 1000
}
