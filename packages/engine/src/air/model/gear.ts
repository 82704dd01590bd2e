import type { FitDesign, PlacedItem } from '../../job/index.ts'
import { amount } from '../figures.ts'
import { GEAR_TO_AIR_W_PER_K, gearHeatJPerK } from '../gear/heat.ts'
import { cabinetWPerM2K } from '../gear/heater.ts'
import { cubeRoot } from '../surface/roots.ts'
import type { BoxModel } from '../year/types.ts'

/** Things that are no gear: they hang from the roof, or stand for themselves. */
const NOT_GEAR: ReadonlySet<PlacedItem['kind']> = new Set(['light', 'light sensor', 'extinguisher', 'fan'])

export const gearItems = (fit: FitDesign): readonly PlacedItem[] =>
  fit.items.filter((i) => i.face === 'inside' && !NOT_GEAR.has(i.kind))

const middle = (of: { readonly low: number; readonly high: number }): number => (of.low + of.high) / 2

/**
 * Gear and strut inside as one mass: heat it keeps, its surface (all but the back), and 30 W/K to the air for 300 kg, growing as a surface
 * does with its mass. `strutKg`: what the strut inside weighs.
 */
export function gearOf(fit: FitDesign, strutKg: number): BoxModel['gear'] {
  const items = gearItems(fit)
  const massKg = Math.max(LEAST_KG, strutKg + items.reduce((sum, i) => sum + middle(i.massKg), 0))
  const share = cubeRoot(massKg / amount('gear-per-coupling'))
  const areaM2 = items.reduce((sum, i) => sum + surfaceM2(i), 0)
  return {
    heatJPerK: gearHeatJPerK(massKg),
    toAirWPerK: GEAR_TO_AIR_W_PER_K * share * share,
    areaM2: Math.max(LEAST_M2, areaM2),
  }
}

/** What a heater inside its cabinet warms: cabinets that hold live parts. Strut, boxes of wires and a transformer stay at the room's air. */
export const CABINETS: ReadonlySet<PlacedItem['kind']> = new Set([
  ...(['panel', 'contactors', 'controls', 'meter', 'surge device', 'service disconnect', 'transfer'] as const),
])

/**
 * Cabinets that are heated from within, as one mass: what they lose to the room is the makers' rule for painted steel indoors, k·A of all
 * faces but the back. One heater in each, its share of the power by its surface.
 * @source enclosure makers' calculation sheets, table `heater-k`. Provenance: read
 */
export function heatedGearOf(fit: FitDesign): BoxModel['gear'] {
  const items = gearItems(fit).filter((i) => CABINETS.has(i.kind))
  const massKg = Math.max(
    LEAST_KG,
    items.reduce((sum, i) => sum + middle(i.massKg), 0),
  )
  const areaM2 = Math.max(
    LEAST_M2,
    items.reduce((sum, i) => sum + surfaceM2(i), 0),
  )
  return { heatJPerK: gearHeatJPerK(massKg), toAirWPerK: areaM2 * cabinetWPerM2K('painted steel'), areaM2 }
}

/** A box always has a panel: what an empty one is taken to hold, so that no division meets nothing. House rule. */
const LEAST_KG = 10
const LEAST_M2 = 0.3

/** Front and four edges of a thing on a wall. */
function surfaceM2({ sizeMm: [x, y, z], side }: PlacedItem): number {
  const [deep, wide] = side === 'left' || side === 'right' ? [y, x] : [x, y]
  return (wide * z + 2 * deep * z + 2 * deep * wide) / 1e6
}

/** Strut inside, kg, out of the items that `haul` weighed; null: it was not weighed. */
export function strutKgOf(
  fit: FitDesign,
  weighed: readonly { readonly id: string; readonly massKg: { readonly low: number; readonly high: number } }[] | null,
): number {
  if (weighed === null) return 0
  const inside = new Set(fit.strut.filter((s) => s.use !== 'outside').map((s) => s.id))
  return weighed.filter((w) => inside.has(w.id)).reduce((sum, w) => sum + middle(w.massKg), 0)
}

/**
 * What water from the roof may land on: gear inside by its area from above, less what a thing over it covers. A drip hood stands over all of
 * it, or over none.
 */
export function belowRoof(fit: FitDesign, hooded: boolean): BoxModel['below'] {
  const items = gearItems(fit).filter((i) => i.side !== 'roof')
  return items.flatMap((item) => {
    const over = items.filter((o) => o !== item && o.atMm[2] >= item.atMm[2] + item.sizeMm[2] - 1)
    const covered = over.reduce((sum, o) => sum + overlapMm2(item, o), 0)
    const areaM2 = Math.max(0, item.sizeMm[0] * item.sizeMm[1] - covered) / 1e6
    return areaM2 < 1e-4 ? [] : [{ id: item.id, areaM2, hooded }]
  })
}

function overlapMm2(a: PlacedItem, b: PlacedItem): number {
  const along = (axis: 0 | 1) =>
    Math.min(a.atMm[axis] + a.sizeMm[axis], b.atMm[axis] + b.sizeMm[axis]) - Math.max(a.atMm[axis], b.atMm[axis])
  return Math.max(0, along(0)) * Math.max(0, along(1))
}
