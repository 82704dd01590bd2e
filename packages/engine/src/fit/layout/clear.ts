import type { ShelfItem } from '../../parts/index.ts'
import type { Clash, Spot, Task } from './plan-of.ts'
import type { Reading } from './room.ts'
import { CHANNEL_MM, TOLERANCE_MM } from './rules.ts'
import type { Rect, Wall } from './wall.ts'

export const CLEAR_ID = 'clear space of the equipment'

/** Strip of the blind end that the clear space before the equipment wall reaches over: nothing hangs there. */
export function keptClear(task: Task, end: Wall): Rect {
  const deepest = Math.max(0, ...task.items.filter((i) => i.part.workedOnLive && INSIDE.has(i.kind)).map((i) => i.part.depthMm))
  const reach = CHANNEL_MM + deepest + task.depthMm[2]
  const y0 = task.body.insideAtMm[1]
  const y1 = y0 + task.body.insideMm[1]
  const [fromMm, toMm] = task.sides.equipment === 'left' ? [y0, y0 + reach] : [y1 - reach, y1]
  return { id: CLEAR_ID, fromMm, toMm, lowMm: end.floorMm, highMm: end.ceilingMm }
}

const INSIDE: ReadonlySet<string> = new Set(['transfer', 'panel', 'contactors', 'controls'])

/** Width that the rule set wants free before a thing. */
const widthAsked = (task: Task, part: ShelfItem['part']): number => Math.max(task.leastWidthMm, part.widthMm)

const near = (s: Spot, reading: Reading): number => s.uMm - (reading * s.item.part.widthMm) / 2
const far = (s: Spot, reading: Reading): number => s.uMm + (reading * s.item.part.widthMm) / 2

/**
 * Where the next thing of a row may begin, so that every shallower one before it that is worked on live keeps the width asked: the width
 * may lie to either hand, but nothing deeper may stand in it.
 */
export function clearEdge(task: Task, row: readonly Spot[], depthMm: number, wall: Wall, reading: Reading, atMm: number): number {
  let edge = atMm
  const start = reading === 1 ? wall.fromMm : wall.toMm
  for (const [k, a] of row.entries()) {
    if (!a.item.part.workedOnLive || a.item.part.depthMm >= depthMm) continue
    const deeper = row.slice(0, k).findLast((b) => b.item.part.depthMm > a.item.part.depthMm)
    const before = (near(a, reading) - (deeper === undefined ? start : far(deeper, reading))) * reading
    const wanting = widthAsked(task, a.item.part) - a.item.part.widthMm - before
    if (wanting > 0) edge = reading === 1 ? Math.max(edge, far(a, 1) + wanting) : Math.min(edge, far(a, -1) - wanting)
  }
  return edge
}

const bottom = (s: Spot): number => s.zMm - s.item.part.heightMm / 2

/** Gear worked on live beside, above or below which deeper things stand too near for the width asked. */
const sideClashes = (task: Task, spots: readonly Spot[]): readonly Clash[] => spots.flatMap((a) => hemmedIn(task, spots, a))

/** What stands deeper beside, above or below one thing that is worked on live, too near for the width asked. */
export function hemmedIn(task: Task, spots: readonly Spot[], a: Spot): readonly Clash[] {
  if (!a.item.part.workedOnLive || a.side === 'roof' || a.side === 'floor') return []
  const wall = task.walls.get(`${a.side} ${a.face}`)
  if (wall === undefined) return []
  const clashes: Clash[] = []
  const out = a.face === 'outside'
  const groundMm = out ? 0 : wall.floorMm
  let [low, high] = out ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : [wall.fromMm, wall.toMm]
  let against = `end of the ${a.side} wall`
  for (const b of spots) {
    if (b === a || b.side !== a.side || b.face !== a.face || b.item.part.depthMm <= a.item.part.depthMm) continue
    if (bottom(b) >= groundMm + task.leastHeightMm && bottom(b) >= a.zMm + a.item.part.heightMm / 2) continue
    if (far(b, 1) > near(a, 1) + 1e-6 && near(b, 1) < far(a, 1) - 1e-6)
      clashes.push({ what: a.item.id, against: b.item.id, byMm: Math.ceil(b.item.part.depthMm - a.item.part.depthMm) })
    if (far(b, 1) <= near(a, 1) && far(b, 1) > low) [low, against] = [far(b, 1), b.item.id]
    if (near(b, 1) >= far(a, 1) && near(b, 1) < high) [high, against] = [near(b, 1), b.item.id]
  }
  const by = widthAsked(task, a.item.part) - (high - low)
  if (by > 1e-6) clashes.push({ what: a.item.id, against, byMm: Math.ceil(by) })
  return clashes
}

/** Gear worked on live whose clear depth is not there: the opposite wall, or what hangs or stands before it, is too near. */
export function spaceClashes(task: Task, spots: readonly Spot[]): readonly Clash[] {
  const clashes: Clash[] = []
  const inside = spots.filter((s) => s.face === 'inside')
  for (const spot of inside) {
    if (!spot.item.part.workedOnLive || (spot.side !== 'left' && spot.side !== 'right')) continue
    const opposite = spot.side === 'left' ? 'right' : 'left'
    const { widthMm, depthMm } = spot.item.part
    const across = inside.filter(
      (o) => (o.side === opposite || o.side === 'floor') && Math.abs(o.uMm - spot.uMm) < (widthMm + o.item.part.widthMm) / 2,
    )
    const askedMm = task.depthMm[across.some((o) => o.item.part.workedOnLive) ? 3 : 2]
    for (const o of [null, ...across]) {
      const standsMm = o === null ? 0 : o.side === 'floor' ? reachFrom(task, o, opposite) : CHANNEL_MM + o.item.part.depthMm
      const freeMm = task.body.insideMm[1] - CHANNEL_MM - depthMm - standsMm - TOLERANCE_MM
      const by = askedMm - freeMm
      if (by > 1e-6)
        clashes.push({ what: spot.item.id, against: o === null ? `${opposite} wall` : o.item.id, byMm: Math.ceil(by) })
    }
  }
  return [...clashes, ...sideClashes(task, spots)]
}

/** How far a standing thing reaches out from a wall. */
function reachFrom(task: Task, spot: Spot, side: 'left' | 'right'): number {
  const y0 = task.body.insideAtMm[1]
  const half = spot.item.part.depthMm / 2
  return side === 'left' ? spot.zMm + half - y0 : y0 + task.body.insideMm[1] - (spot.zMm - half)
}
