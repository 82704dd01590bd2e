import type { ShelfItem } from '../../parts/index.ts'
import type { Spot, Task } from './plan-of.ts'

/** Strips in one line along the middle of the ceiling, evenly spaced; the sensor beside the strip nearest the doors. */
export function lightSpots(task: Task, open: readonly ShelfItem[]): readonly Spot[] {
  const lights = open.filter((i) => i.kind === 'light')
  const [x0, y0] = task.body.insideAtMm
  const [length, width] = task.body.insideMm
  const step = length / Math.max(1, lights.length)
  const yMm = y0 + width / 2
  const spots: Spot[] = lights.map((item, k) => ({
    item,
    side: 'roof',
    face: 'inside',
    uMm: x0 + (k + 0.5) * step,
    zMm: yMm,
    pinned: false,
  }))
  const last = spots[spots.length - 1]
  for (const item of open.filter((i) => i.kind === 'light sensor'))
    spots.push({
      item,
      side: 'roof',
      face: 'inside',
      uMm: (last?.uMm ?? x0 + length / 2) + SENSOR_MM,
      zMm: yMm + SENSOR_MM,
      pinned: false,
    })
  return spots
}

/** Sensor beside the strip, over the carrying rail. */
const SENSOR_MM = 400
