import type { Opening, PlacedItem, PointMm } from '../job/index.ts'
import { tables } from './tables.generated.ts'

/**
 * Widest clear gap an opening leaves when it stands as built and shut: a mesh its mesh, a door its seal, a sealed entry nothing. An entry
 * that nothing seals leaves what is beside the cord.
 */
export function clearGapMm(opening: Opening): number {
  if (opening.meshMm !== null) return opening.meshMm
  if (opening.use === 'vent' || opening.use === 'fan') return Math.min(opening.widthMm, opening.heightMm)
  return 0
}

/** Animals that pass a gap, the smallest first. */
export function animalsThrough(gapMm: number): readonly string[] {
  return tables.animals.rows.filter(([, least]) => gapMm >= least).map(([animal]) => animal)
}

export interface Probe {
  readonly what: string
  readonly gapMm: number
  readonly farMm: number
}

export const PROBES: readonly Probe[] = tables.probes.rows.map(([what, gapMm, farMm]) => ({ what, gapMm, farMm }))

/** What reaches through a gap: the probes that pass, and how far the farthest goes. */
export function reachThrough(gapMm: number): { readonly probes: readonly Probe[]; readonly farMm: number } {
  const probes = PROBES.filter((p) => gapMm >= p.gapMm)
  return { probes, farMm: Math.max(0, ...probes.map((p) => p.farMm)) }
}

/** Things inside that lie within reach of an opening by what passes it, nearest first. Distance from the opening's middle to the body. */
export function withinReach(
  opening: Opening,
  items: readonly PlacedItem[],
): readonly { readonly id: string; readonly what: string; readonly distanceMm: number }[] {
  const { probes } = reachThrough(clearGapMm(opening))
  if (probes.length === 0) return []
  return items
    .filter((i) => i.face === 'inside')
    .flatMap((i) => {
      const distanceMm = toBodyMm(opening.atMm, i)
      const by = probes.filter((p) => p.farMm >= distanceMm)
      return by.length === 0 ? [] : [{ id: i.id, what: by.map((p) => p.what).join(', '), distanceMm }]
    })
    .toSorted((a, b) => a.distanceMm - b.distanceMm || (a.id < b.id ? -1 : 1))
}

function toBodyMm(p: PointMm, i: PlacedItem): number {
  return Math.hypot(...[0, 1, 2].map((k) => Math.max(0, i.atMm[k]! - p[k]!, p[k]! - i.atMm[k]! - i.sizeMm[k]!)))
}
