import type { ShelfItem } from '../../parts/index.ts'
import type { Tariff } from './money.ts'
import type { Task } from './plan-of.ts'
import { BOX_GAP_MM, HANDLE_BELOW_TOP_MM, HIGHWAY_MM } from './rules.ts'

/**
 * Money that no layout of these things can go below, by the layout's own estimate of routes and the grid's own levels: every route at
 * least rises to the band and comes down from it; of the small boxes joined to one source, the nth nearest stands at least so many box
 * widths away as full columns fit before it. Strut counts nothing in it. Null where a pin may put a thing anywhere.
 */
export function boundMoney(task: Task, tariff: Tariff): number | null {
  if (task.pinned.length > 0) return null
  const byId = new Map(task.items.map((i) => [i.id, i]))
  const { body } = task
  const ceiling = body.insideAtMm[2] + body.insideMm[2]
  const band = ceiling - HIGHWAY_MM / 2
  const topMost = (i: ShelfItem): number => {
    if (i.kind === 'receptacle') return body.floor.topMm + 1200 + i.part.heightMm / 2
    if (SMALL.has(i.kind)) return body.floor.topMm + 1650 + i.part.heightMm / 2
    return Math.min(ceiling - HIGHWAY_MM, body.floor.topMm + task.handleAtMostMm + Math.max(HANDLE_BELOW_TOP_MM, i.part.heightMm))
  }
  let sum = 0
  const near = new Map<string, number[]>()
  for (const join of tariff.joins) {
    const [a, b] = [byId.get(join.from), byId.get(join.to)]
    if (a === undefined || b === undefined || FREE.has(a.kind) || FREE.has(b.kind)) continue
    sum += (join.moneyPerM * (Math.max(0, band - topMost(a)) + Math.max(0, band - topMost(b)))) / 1000
    if (SMALL.has(b.kind)) near.set(join.from, [...(near.get(join.from) ?? []), join.moneyPerM])
  }
  const small = task.items.filter((i) => SMALL.has(i.kind))
  const width = Math.min(Infinity, ...small.map((i) => i.part.widthMm)) + BOX_GAP_MM
  for (const [id, rates] of near) {
    const source = byId.get(id)
    if (source === undefined) continue
    const beside = source.part.widthMm / 2 + width / 2
    rates
      .toSorted((a, b) => b - a)
      .forEach((rate, n) => {
        const column = Math.floor(n / (2 * MOST_ROWS + 2 * MOST_ROWS))
        sum += (rate * Math.max(0, Math.min(beside, body.insideMm[1] - 1000) + (column - 1) * width)) / 1000
      })
  }
  return sum
}

const SMALL: ReadonlySet<ShelfItem['kind']> = new Set(['receptacle', 'junction box', 'stub'])
/** Outside, on the ceiling or the floor: the route may go without the band. */
const FREE: ReadonlySet<ShelfItem['kind']> = new Set([
  'meter',
  'service disconnect',
  'transformer',
  'light',
  'light sensor',
  'heater',
  'fan',
  'thermostat',
  'light switch',
  'earth bar',
  'extinguisher',
])
const MOST_ROWS = 5
