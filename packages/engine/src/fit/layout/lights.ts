import type { ShelfItem } from '../../parts/index.ts'
import type { Spot, Task } from './plan-of.ts'

/**
 * Strips in one line along the middle of the ceiling, evenly spaced; one that a person put somewhere takes the place nearest to it, and
 * the others keep theirs. The sensor hangs beside the strip nearest the doors.
 */
export function lightSpots(task: Task, open: readonly ShelfItem[]): readonly Spot[] {
  const lights = open.filter((i) => i.kind === 'light')
  const pinned = task.pinned.filter((p) => p.item.kind === 'light' && p.side === 'roof')
  const [x0, y0] = task.body.insideAtMm
  const [length, width] = task.body.insideMm
  const step = length / Math.max(1, lights.length + pinned.length)
  const yMm = y0 + width / 2
  const places = Array.from({ length: lights.length + pinned.length }, (_, k) => x0 + (k + 0.5) * step)
  for (const { uMm } of pinned) {
    const away = places.map((at) => Math.abs(at - uMm))
    places.splice(away.indexOf(Math.min(...away)), 1)
  }
  const spots: Spot[] = lights.map((item, k) => ({
    item,
    side: 'roof',
    face: 'inside',
    uMm: places[k]!,
    zMm: yMm,
    pinned: false,
  }))
  const last = [...spots, ...pinned].toSorted((a, b) => a.uMm - b.uMm).at(-1)
  for (const item of open.filter((i) => i.kind === 'light sensor'))
    spots.push({
      item,
      side: 'roof',
      face: 'inside',
      uMm: (last?.uMm ?? x0 + length / 2) + SENSOR_MM,
      zMm: (last?.zMm ?? yMm) + SENSOR_MM,
      pinned: false,
    })
  return spots
}

/** Sensor beside the strip, over the carrying rail. */
const SENSOR_MM = 400
