import type { LayoutSearch } from '../../job/index.ts'
import { boundMoney } from './bound.ts'
import { routesMoney, strutMoney, type Tariff } from './money.ts'
import { type Placed, placed, plainVariant, smallOf, type Variant } from './place.ts'
import type { Spot, Task } from './plan-of.ts'
import { floatClashes, gridFor } from './strut.ts'

export interface Found {
  readonly placed: Placed
  readonly search: LayoutSearch
}

/** Most layouts tried: the search ends by counted work. */
const MOST_TRIES = 160
/** Money nearer than this is the same; then the shorter reach stands. */
const SAME_MONEY = 0.01
/** Steps of a beginning where the wall has no two flats. */
const STEP_MM = 300

interface Tried {
  readonly variant: Variant
  readonly placed: Placed
  readonly money: number
  readonly reach: number
}

/**
 * The cheapest layout found by turning the reading direction, the beginnings of the inside and the outside row, the rows and the order of
 * the small boxes; then the one nearest the hand. Begins with the plain left-to-right rule and never ends worse.
 */
export function bestLayout(task: Task, tariff: Tariff): Found {
  let tries = 0
  const tried = (variant: Variant, than: Tried | null): Tried | null => {
    tries += 1
    const made = placed(task, variant)
    const routes = routesMoney(task.body, tariff, made.spots)
    const more = than === null ? -1 : made.clashes.length - than.placed.clashes.length
    // Channel only adds to it: what clashes more, or is dearer already, needs none drawn.
    if (than !== null && (more > 0 || (more === 0 && routes > than.money))) return null
    const grid = gridFor(task, made.spots)
    const money = routes + strutMoney(tariff, grid.strut)
    const clashes = [...made.clashes, ...floatClashes(task, made.spots, grid)]
    return { variant, placed: { ...made, clashes }, money, reach: reachOf(task, made.spots) }
  }
  const plain = tried(plainVariant(task), null)!
  let best = plain
  const consider = (variant: Variant) => {
    if (tries >= MOST_TRIES) return
    const next = tried(variant, best)
    if (next !== null && isBetter(next, best)) best = next
  }
  const dear = dearestFirst(task, tariff)
  for (const reading of [plain.variant.reading, -plain.variant.reading as 1 | -1])
    for (const rowsMm of ROWS)
      for (const order of [plain.variant.order, dear]) consider({ ...plain.variant, reading, rowsMm, order })
  for (const reading of [1, -1] as const) for (const row of ROW_ORDERS) consider({ ...best.variant, reading, row })
  const span = task.body.insideMm[0]
  const step = flatStepMm(task)
  for (const what of ['startMm', 'outsideStartMm', 'startMm', 'outsideStartMm'] as const) {
    const from = best.variant
    for (let start = 0; start < span; start += step) if (start !== from[what]) consider({ ...from, [what]: start })
  }
  const order = [...best.variant.order]
  for (let i = 1; i < order.length; i++) {
    const now = [...best.variant.order]
    ;[now[i - 1], now[i]] = [now[i]!, now[i - 1]!]
    consider({ ...best.variant, order: now })
  }
  return {
    placed: best.placed,
    search: {
      triedCount: tries,
      money: best.money,
      plainMoney: plain.money,
      plainClashesCount: plain.placed.clashes.length,
      boundMoney: boundMoney(task, tariff),
      reachScore: best.reach,
    },
  }
}

/** Beginnings are tried flat by flat: there the uprights stand. */
function flatStepMm(task: Task): number {
  const flats = task.walls.get(`${task.sides.equipment} inside`)?.flatsMm ?? []
  const steps = flats.slice(1).map((u, i) => u - flats[i]!)
  return steps.length === 0 ? STEP_MM : Math.max(MIN_STEP_MM, Math.min(...steps))
}

/** No finer than this: a rib closer than a hand's breadth was measured wrong. */
const MIN_STEP_MM = 100

const ROW_ORDERS = ['trade', 'first contactors before', 'last contactors before', 'controls before'] as const

const ROWS: readonly (readonly number[])[] = [
  [1050, 750, 450],
  [1050, 750],
  [1200, 900, 600],
]

/** A layout in which more finds its place is better whatever it costs. */
function isBetter(a: Tried, b: Tried): boolean {
  const [m, n] = [a.placed.clashes.length, b.placed.clashes.length]
  if (m !== n) return m < n
  if (Math.abs(a.money - b.money) > SAME_MONEY) return a.money < b.money
  return a.money <= b.money && a.reach < b.reach - 1e-6
}

/** The dearest metre first: it then hangs nearest. For boxes of one size no other order costs less (rearrangement inequality). */
function dearestFirst(task: Task, tariff: Tariff): readonly string[] {
  const money = new Map<string, number>()
  for (const j of tariff.joins) money.set(j.to, (money.get(j.to) ?? 0) + j.moneyPerM)
  return smallOf(task)
    .toSorted((a, b) => (money.get(b.id) ?? 0) - (money.get(a.id) ?? 0) || (a.id < b.id ? -1 : 1))
    .map((i) => i.id)
}

/** Height of a hand's easy reach. */
const HAND_MM = 1100

/** How far every thing that is plugged or switched by hand is from an easy reach, mean, in metres. */
function reachOf(task: Task, spots: readonly Spot[]): number {
  const hands = spots.filter((s) => HANDS.has(s.item.kind) && s.side !== 'roof' && s.side !== 'floor')
  const sum = hands.reduce((total, s) => total + Math.abs(s.zMm - task.body.floor.topMm - HAND_MM), 0)
  return hands.length === 0 ? 0 : sum / hands.length / 1000
}

const HANDS: ReadonlySet<string> = new Set(['receptacle', 'panel', 'controls', 'service disconnect', 'light switch'])
