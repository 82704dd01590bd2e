import { type ShelfItem, type WirewaySize, wirewayPart } from '../../parts/index.ts'
import type { Spot, Task } from '../layout/plan-of.ts'
import { CHANNEL_MM, TOLERANCE_MM } from '../layout/rules.ts'
import type { Wall, WallSide } from '../layout/wall.ts'

/** Between the top of the cabinets and the wireway: a close nipple with its locknuts. House rule. */
const NIPPLE_MM = 15
/** Above the wireway, for its cover's upper edge and a hand. House rule. */
const LEAST_ABOVE_MM = 40
/** Beyond the last raceway that leaves it. House rule. */
const BEYOND_MM = 100

/** How far a wireway reaches: along the equipment wall, or on round the corners by the blind end to the other long wall. */
export type Reach = 'equipment wall' | 'round the blind end'

/**
 * The wireway over the cabinets of the equipment wall: as low as their tops allow, from the first to the last thing on that wall that it
 * serves, as far as nothing stands in its height. Round the blind end where that is free, and along the other wall as far as things hang.
 * Null: there is no room, or it would serve nothing.
 */
export function wirewaySpots(
  task: Pick<Task, 'body' | 'walls' | 'sides'>,
  spots: readonly Spot[],
  size: WirewaySize,
  reach: Reach,
): readonly Spot[] | null {
  const { body, sides } = task
  const wall = task.walls.get(`${sides.equipment} inside`)
  if (wall === undefined) return null
  const cabinets = spots.filter((s) => CABINETS.has(s.item.kind) && s.side === sides.equipment && s.face === 'inside')
  const panel = cabinets.filter((s) => s.item.kind === 'panel').toSorted((a, b) => (a.item.id < b.item.id ? -1 : 1))[0]
  if (panel === undefined) return null
  const lowMm = Math.max(...cabinets.map((s) => s.zMm + s.item.part.heightMm / 2)) + NIPPLE_MM
  const highMm = lowMm + size.heightMm
  if (highMm > wall.ceilingMm - LEAST_ABOVE_MM) return null
  const [x0, y0] = body.insideAtMm
  const [lengthMm, widthMm] = body.insideMm
  const cornerMm = x0 + CHANNEL_MM + size.depthMm
  const free = (w: Wall, u: number, from: number, to: number) => freeAbout(w, spots, u, [from, to], [lowMm, highMm])
  const here = free(wall, panel.uMm, x0 + CHANNEL_MM, x0 + lengthMm - CHANNEL_MM)
  if (here === null) return null
  const served = reachOf(spots, sides.equipment, cabinets)
  const make = (side: WallSide, fromMm: number, toMm: number): Spot => ({
    item: itemOf(side, size, toMm - fromMm),
    side,
    face: 'inside',
    uMm: (fromMm + toMm) / 2,
    zMm: (lowMm + highMm) / 2,
    pinned: false,
  })
  const toMm = Math.min(here[1], served[1] + BEYOND_MM)
  if (reach === 'equipment wall') {
    const fromMm = Math.max(here[0], served[0] - BEYOND_MM)
    return toMm - fromMm < LEAST_MM ? null : [make(sides.equipment, fromMm, toMm)]
  }
  const [end, other] = [task.walls.get('blind end inside'), task.walls.get(`${sides.opposite} inside`)]
  const far = reachOf(spots, sides.opposite, [])
  if (end === undefined || other === undefined || here[0] > x0 + CHANNEL_MM + 1e-6 || far[1] < far[0]) return null
  const across = [y0 + CHANNEL_MM, y0 + widthMm - CHANNEL_MM] as const
  const round = free(end, y0 + widthMm / 2, ...across)
  const there = free(other, x0 + CHANNEL_MM, x0 + CHANNEL_MM, x0 + lengthMm - CHANNEL_MM)
  if (round === null || there === null || round[0] > across[0] + 1e-6 || round[1] < across[1] - 1e-6) return null
  const lastMm = Math.min(there[1], far[1] + BEYOND_MM)
  if (lastMm - cornerMm < LEAST_MM) return null
  return [make(sides.equipment, cornerMm, toMm), make('blind end', ...across), make(sides.opposite, cornerMm, lastMm)]
}

/** Shorter than this it is a box. */
const LEAST_MM = 600

const CABINETS: ReadonlySet<ShelfItem['kind']> = new Set(['panel', 'contactors'])

function itemOf(side: WallSide, size: WirewaySize, lengthMm: number): ShelfItem {
  return {
    id: `wireway ${side}`,
    kind: 'wireway',
    what: `wireway ${size.trade}, cover along its front`,
    part: wirewayPart(size, lengthMm),
    circuits: [],
    plug: null,
  }
}

/** From the first to the last thing on a wall that circuits end in, or that they come from. */
function reachOf(spots: readonly Spot[], side: WallSide, cabinets: readonly Spot[]): readonly [number, number] {
  const on = [...cabinets, ...spots.filter((s) => s.side === side && s.item.circuits.length > 0)]
  return [Math.min(...on.map((s) => s.uMm)), Math.max(...on.map((s) => s.uMm))]
}

/** The stretch of a wall about a place, within limits, in which nothing stands in a band of height; null: something stands there. */
function freeAbout(
  wall: Wall,
  spots: readonly Spot[],
  uMm: number,
  [from, to]: readonly [number, number],
  [low, high]: readonly [number, number],
): readonly [number, number] | null {
  const things = spots
    .filter((s) => s.side === wall.side && s.face === 'inside')
    .map((s) => ({
      fromMm: s.uMm - s.item.part.widthMm / 2 - TOLERANCE_MM,
      toMm: s.uMm + s.item.part.widthMm / 2 + TOLERANCE_MM,
      lowMm: s.zMm - s.item.part.heightMm / 2 - TOLERANCE_MM,
      highMm: s.zMm + s.item.part.heightMm / 2 + TOLERANCE_MM,
    }))
  let [a, b] = [from, to]
  for (const r of [...things, ...wall.blocked]) {
    if (r.lowMm >= high - 1e-6 || r.highMm <= low + 1e-6) continue
    if ('lane' in r && r.lane === true) continue
    if (r.fromMm < uMm && r.toMm > uMm) return null
    if (r.toMm <= uMm) a = Math.max(a, r.toMm)
    else b = Math.min(b, r.fromMm)
  }
  return b > a ? [a, b] : null
}
