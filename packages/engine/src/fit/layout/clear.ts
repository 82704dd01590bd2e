import type { Clash, Spot, Task } from './plan-of.ts'
import { CHANNEL_MM, TOLERANCE_MM } from './rules.ts'
import type { Rect, Wall } from './wall.ts'

/** Strip of the blind end that the clear space before the equipment wall reaches over: nothing hangs there. */
export function keptClear(task: Task, end: Wall): Rect {
  const deepest = Math.max(0, ...task.items.filter((i) => i.part.workedOnLive && INSIDE.has(i.kind)).map((i) => i.part.depthMm))
  const depth =
    1000 *
    task.rules.workingSpace({ voltsToEarthV: task.voltsToEarthV, condition: 2, equipmentWidthM: 0, equipmentTopM: 0 }).value
      .depthM
  const reach = CHANNEL_MM + deepest + depth
  const y0 = task.body.insideAtMm[1]
  const y1 = y0 + task.body.insideMm[1]
  const [fromMm, toMm] = task.sides.equipment === 'left' ? [y0, y0 + reach] : [y1 - reach, y1]
  return { id: 'clear space of the equipment', fromMm, toMm, lowMm: end.floorMm, highMm: end.ceilingMm }
}

const INSIDE: ReadonlySet<string> = new Set(['transfer', 'panel', 'contactors', 'controls'])

/** Gear worked on live whose clear depth is not there: the opposite wall, or what hangs or stands before it, is too near. */
export function spaceClashes(task: Task, spots: readonly Spot[]): readonly Clash[] {
  const clashes: Clash[] = []
  const inside = spots.filter((s) => s.face === 'inside')
  for (const spot of inside) {
    if (!spot.item.part.workedOnLive || (spot.side !== 'left' && spot.side !== 'right')) continue
    const opposite = spot.side === 'left' ? 'right' : 'left'
    const { widthMm, heightMm, depthMm } = spot.item.part
    const across = inside.filter(
      (o) => (o.side === opposite || o.side === 'floor') && Math.abs(o.uMm - spot.uMm) < (widthMm + o.item.part.widthMm) / 2,
    )
    const { depthM } = task.rules.workingSpace({
      voltsToEarthV: task.voltsToEarthV,
      condition: across.some((o) => o.item.part.workedOnLive) ? 3 : 2,
      equipmentWidthM: widthMm / 1000,
      equipmentTopM: (spot.zMm + heightMm / 2 - task.body.floor.topMm) / 1000,
    }).value
    for (const o of [null, ...across]) {
      const standsMm = o === null ? 0 : o.side === 'floor' ? reachFrom(task, o, opposite) : CHANNEL_MM + o.item.part.depthMm
      const freeMm = task.body.insideMm[1] - CHANNEL_MM - depthMm - standsMm - TOLERANCE_MM
      const by = 1000 * depthM - freeMm
      if (by > 1e-6)
        clashes.push({ what: spot.item.id, against: o === null ? `${opposite} wall` : o.item.id, byMm: Math.ceil(by) })
    }
  }
  return clashes
}

/** How far a standing thing reaches out from a wall. */
function reachFrom(task: Task, spot: Spot, side: 'left' | 'right'): number {
  const y0 = task.body.insideAtMm[1]
  const half = spot.item.part.depthMm / 2
  return side === 'left' ? spot.zMm + half - y0 : y0 + task.body.insideMm[1] - (spot.zMm - half)
}
