import type { MachineLine, MachineView } from '../worker/protocol.ts'
import type { Way } from './nearest.ts'

/** Where a machine is put: its cords by their plugs, its bearing where it was moved in the folded yard. */
export interface Stand {
  readonly machine: string
  readonly lengthM: Readonly<Record<string, number>>
  readonly bearingDeg: number | null
}

const LEAST_M = 1
const MOST_M = 3000

const longest = (lengthM: MachineLine['lengthM']): number => Math.max(0, ...Object.values(lengthM))

/** All its cords longer or shorter by the same, the longest so long. */
function withLongest(line: MachineLine, toM: number): MachineLine['lengthM'] {
  const held = Math.min(Math.max(toM, LEAST_M), MOST_M)
  const more = Math.round((held - longest(line.lengthM)) * 10) / 10
  return Object.fromEntries(
    Object.entries(line.lengthM).map(([plug, m]) => [plug, Math.max(LEAST_M, Math.round((m + more) * 10) / 10)]),
  )
}

/** The middle of a machine brought to a point of the drawing: beside the net only the way out counts. */
export function standAt(line: MachineLine, view: MachineView, x: number, y: number): Stand {
  if (view.bearingDeg === null) {
    const [cx, cy] = [view.x + view.w / 2, view.y + view.h / 2]
    const outPx = (x - cx) * view.out[0] + (y - cy) * view.out[1]
    return { machine: line.id, lengthM: withLongest(line, longest(line.lengthM) + outPx / view.pxPerM), bearingDeg: null }
  }
  const [dx, dy] = [x - view.from[0], y - view.from[1]]
  const bearingDeg = Math.round(((Math.atan2(dy, dx) * 180) / Math.PI + 360) % 360) % 360
  return { machine: line.id, lengthM: withLongest(line, Math.hypot(dx, dy) / view.pxPerM), bearingDeg }
}

/** The point of the drawing where a machine then stands. */
export function pointOfStand(line: MachineLine, view: MachineView, stand: Stand): readonly [number, number] {
  const [cx, cy] = [view.x + view.w / 2, view.y + view.h / 2]
  if (view.bearingDeg === null) {
    const more = (longest(stand.lengthM) - longest(line.lengthM)) * view.pxPerM
    return [cx + view.out[0] * more, cy + view.out[1] * more]
  }
  const rad = ((stand.bearingDeg ?? view.bearingDeg) * Math.PI) / 180
  const far = longest(stand.lengthM) * view.pxPerM
  return [view.from[0] + Math.cos(rad) * far, view.from[1] + Math.sin(rad) * far]
}

/** By keys: up and down along its bearing, left and right around the box; with shift a tenth of it. */
export function stoodFurther(line: MachineLine, view: MachineView, stand: Stand, way: Way, fine: boolean): Stand {
  const farther = way === 'up' ? 1 : way === 'down' ? -1 : 0
  const around = way === 'right' ? 1 : way === 'left' ? -1 : 0
  const lengthM = withLongest({ ...line, lengthM: stand.lengthM }, longest(stand.lengthM) + farther * (fine ? 0.1 : 1))
  const bearing = stand.bearingDeg ?? view.bearingDeg
  return {
    ...stand,
    lengthM,
    bearingDeg: around === 0 || bearing === null ? stand.bearingDeg : (bearing + around * (fine ? 1 : 5) + 360) % 360,
  }
}

export const longestOf = (stand: Pick<Stand, 'lengthM'>): number => longest(stand.lengthM)
