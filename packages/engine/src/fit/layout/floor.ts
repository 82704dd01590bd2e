import type { ShelfItem } from '../../parts/index.ts'
import { CLEAR_ID } from './clear.ts'
import type { Rooms } from './hang.ts'
import type { Clash, Spot, Task } from './plan-of.ts'
import { take } from './room.ts'
import { BEARER_MM, HIGHWAY_MM, TRANSFORMER_AIR_MM } from './rules.ts'

/**
 * A transformer stands on bearers in a corner of the blind end, opposite the equipment first, with air on every side. Where an opening is
 * in the way it takes the other corner; else a clash.
 */
export function floorSpots(task: Task, open: readonly ShelfItem[], rooms: Rooms): readonly (Spot | Clash)[] {
  const item = open.find((i) => i.kind === 'transformer')
  if (item === undefined) return []
  const { body } = task
  const { widthMm, heightMm, depthMm } = item.part
  const [x0, y0] = body.insideAtMm
  const xMm = x0 + TRANSFORMER_AIR_MM + widthMm / 2
  // Air and raceways pass beside what stands off the wall: only doors, pins and the space before the equipment keep it away.
  const stands = new Set([
    CLEAR_ID,
    ...task.pinned.map((p) => p.item.id),
    ...(task.skin?.openings ?? []).filter((o) => o.use === 'personnel door').map((o) => o.id),
  ])
  let clash: Clash = { what: item.id, against: 'walls', byMm: 1 }
  for (const side of [task.sides.opposite, task.sides.equipment]) {
    const wall = rooms.get(`${side} inside`)?.wall
    if (wall === undefined) continue
    const inset = TRANSFORMER_AIR_MM + depthMm / 2
    const yMm = side === 'left' ? y0 + inset : y0 + body.insideMm[1] - inset
    const shade = { fromMm: xMm - widthMm / 2 - TRANSFORMER_AIR_MM, toMm: xMm + widthMm / 2 + TRANSFORMER_AIR_MM }
    const shadeEnd = { fromMm: yMm - depthMm / 2 - TRANSFORMER_AIR_MM, toMm: yMm + depthMm / 2 + TRANSFORMER_AIR_MM }
    const low = body.floor.topMm
    const high = low + BEARER_MM + heightMm + HIGHWAY_MM
    const rect = { id: item.id, lowMm: low, highMm: high }
    const meets = [
      ...(rooms.get(`${side} inside`)?.taken ?? []).map((t) => ({
        rect: t.rect,
        by: Math.min(t.rect.toMm, shade.toMm) - Math.max(t.rect.fromMm, shade.fromMm),
      })),
      ...(rooms.get('blind end inside')?.taken ?? []).map((t) => ({
        rect: t.rect,
        by: Math.min(t.rect.toMm, shadeEnd.toMm) - Math.max(t.rect.fromMm, shadeEnd.fromMm),
      })),
    ].find((m) => m.by > 0 && m.rect.lowMm < high && m.rect.highMm > low && stands.has(m.rect.id))
    if (meets !== undefined) {
      clash = { what: item.id, against: meets.rect.id, byMm: Math.ceil(meets.by) }
      continue
    }
    for (const [name, s] of [
      [`${side} inside`, shade],
      ['blind end inside', shadeEnd],
    ] as const) {
      const room = rooms.get(name)
      if (room !== undefined) take(room, { ...rect, ...s }, 0)
    }
    return [{ item, side: 'floor', face: 'inside', uMm: xMm, zMm: yMm, pinned: false }]
  }
  return [clash]
}
