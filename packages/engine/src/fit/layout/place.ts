import type { Opening, SkinDesign } from '../../job/index.ts'
import type { ShelfItem } from '../../parts/index.ts'
import { clearEdge, hemmedIn, keptClear, spaceClashes } from './clear.ts'
import { floorSpots } from './floor.ts'
import { bandMm, outOfBand, putNext, type Rooms, takeSpot, wanting } from './hang.ts'
import { lightSpots } from './lights.ts'
import type { Clash, Spot, Task } from './plan-of.ts'
import { type Reading, type Room, roomOf, take } from './room.ts'
import {
  HANDLE_BELOW_TOP_MM,
  HIGHWAY_MM,
  LEVEL_FIRST_MM,
  LEVEL_STEP_MM,
  METER_MM,
  RECEPTACLE_HIGH_MM,
  RECEPTACLE_LOW_MM,
  TOLERANCE_MM,
} from './rules.ts'
import { roomSpots } from './small.ts'
import type { Wall } from './wall.ts'

/** One way to lay the box out: what the search turns. */
export interface Variant {
  /** Reading direction along the equipment wall, +1 towards the door end. */
  readonly reading: Reading
  /** Where the row begins, from the end of the wall first met. */
  readonly startMm: number
  /** Where the outside row begins. */
  readonly outsideStartMm: number
  /** In the row of enclosures: by the trade's order, or with one of them before the panel. */
  readonly row: Row
  /** Small boxes in this order. */
  readonly order: readonly string[]
  /** Rows of receptacles, levels above the floor, the first preferred. */
  readonly rowsMm: readonly number[]
}

export interface Placed {
  readonly spots: readonly Spot[]
  readonly clashes: readonly Clash[]
}

/** Things that stand in the row of enclosures, in the trade's order along the wall. */
const ROW: readonly ShelfItem['kind'][] = ['transfer', 'surge device', 'panel', 'contactors', 'controls']
export type Row = 'trade' | 'first contactors before' | 'last contactors before' | 'controls before'

/** The row of enclosures in one of its orders. */
function inRow(open: readonly ShelfItem[], row: Row): readonly ShelfItem[] {
  const all = ROW.flatMap((kind) => open.filter((i) => i.kind === kind))
  const panel = all.findIndex((i) => i.kind === 'panel')
  const of = (kind: ShelfItem['kind']) => all.filter((i) => i.kind === kind)
  const early = {
    trade: undefined,
    'first contactors before': of('contactors')[0],
    'last contactors before': of('contactors').at(-1),
    'controls before': of('controls')[0],
  }[row]
  return early === undefined || panel < 0 ? all : [...all.slice(0, panel), early, ...all.slice(panel).filter((i) => i !== early)]
}

const SMALL: ReadonlySet<ShelfItem['kind']> = new Set(['receptacle', 'junction box', 'stub'])
const OUTSIDE: readonly ShelfItem['kind'][] = ['meter', 'service disconnect']

/** The plain left-to-right rule: the row begins at the left end of the equipment wall as a person faces it, things by name. */
export function plainVariant(task: Task): Variant {
  return {
    reading: task.sides.equipment === 'left' ? -1 : 1,
    startMm: 0,
    outsideStartMm: 0,
    row: 'trade',
    order: smallOf(task).map((i) => i.id),
    rowsMm: [1050, 750, 450],
  }
}

export const smallOf = (task: Pick<Task, 'items'>): readonly ShelfItem[] =>
  task.items.filter((i) => SMALL.has(i.kind)).toSorted((a, b) => (a.id < b.id ? -1 : 1))

/** Places everything one after another; what finds no room is a clash with both names and the room that is wanting. */
export function placed(task: Task, variant: Variant): Placed {
  const spots: Spot[] = [...task.pinned]
  const clashes: Clash[] = []
  const rooms = roomsOf(task)
  for (const spot of task.pinned) takeSpot(rooms, spot)
  const open = task.items.filter((i) => !task.pinned.some((p) => p.item.id === i.id))
  const inside = open.filter((i) => task.skin === null || outsideHole(task.skin, i) === undefined)
  const put = (spot: Spot) => {
    spots.push(spot)
    takeSpot(rooms, spot)
  }
  for (const spot of outsideReceptacles(task, open)) put(spot)
  for (const made of floorSpots(task, open, rooms)) 'against' in made ? clashes.push(made) : put(made)
  for (const made of lightSpots(task, open)) put(made)
  for (const made of roomSpots(task, open, rooms, put)) clashes.push(made)
  outsideRow(task, variant, open, rooms, put, clashes)
  insideRow(task, variant, inside, rooms, spots, put, clashes)
  return { spots, clashes: [...clashes, ...spaceClashes(task, spots)] }
}

/** Rooms of every wall; on the blind end the clear space before the equipment wall is kept. */
function roomsOf(task: Task): Rooms {
  const rooms = new Map([...task.walls].map(([name, wall]) => [name, roomOf(wall)]))
  const end = rooms.get('blind end inside')
  if (end !== undefined) take(end, keptClear(task, end.wall), 0)
  return rooms
}

/** Middle of an enclosure above the underside of the box: high ones under the highway with their handles in reach, others about the eye. */
export function enclosureMiddleMm(task: Pick<Task, 'handleAtMostMm'>, wall: Wall, item: ShelfItem): number {
  const { heightMm } = item.part
  const topMost = Math.min(
    wall.ceilingMm - HIGHWAY_MM - TOLERANCE_MM,
    wall.floorMm + task.handleAtMostMm + (item.part.doorMm > 0 ? Math.min(HANDLE_BELOW_TOP_MM, heightMm / 2) : 0),
  )
  const level = wall.floorMm + LEVEL_FIRST_MM + 3 * LEVEL_STEP_MM
  return heightMm >= 900 ? topMost - heightMm / 2 : Math.min(level, topMost - heightMm / 2)
}

type Put = (spot: Spot) => void

/** Receptacles that hang outside stand over the holes that were made for them. */
export function outsideReceptacles(task: Task, open: readonly ShelfItem[]): readonly Spot[] {
  const { skin } = task
  if (skin === null) return []
  return open.flatMap((item): readonly Spot[] => {
    const hole = outsideHole(skin, item)
    if (hole === undefined) return []
    const along = hole.side === 'blind end' ? 1 : 0
    return [{ item, side: hole.side as Spot['side'], face: 'outside', uMm: hole.atMm[along], zMm: hole.atMm[2], pinned: false }]
  })
}

const outsideHole = (skin: SkinDesign, item: ShelfItem): Opening | undefined =>
  item.kind === 'receptacle' && item.plug !== null && OUTSIDE_WAYS.has(skin.exitWays[item.plug] ?? '')
    ? skin.openings.find(
        (o) =>
          o.use === 'cord exit' &&
          o.plate === null &&
          o.side !== 'roof' &&
          o.side !== 'floor' &&
          o.serves.includes(item.plug ?? ''),
      )
    : undefined

const OUTSIDE_WAYS: ReadonlySet<string> = new Set(['outside receptacle', 'flanged outlet'])

function outsideRow(task: Task, variant: Variant, open: readonly ShelfItem[], rooms: Rooms, put: Put, clashes: Clash[]): void {
  const room = rooms.get(`${task.sides.equipment} outside`)
  if (room === undefined) {
    for (const item of open.filter((i) => OUTSIDE.includes(i.kind))) clashes.push(noFlats(item, task))
    return
  }
  let at = startOf(room.wall, variant.reading, variant.outsideStartMm)
  const row: Spot[] = []
  for (const kind of OUTSIDE) {
    for (const item of open.filter((i) => i.kind === kind)) {
      at = clearEdge(task, row, item.part.depthMm, room.wall, variant.reading, at)
      const made = putNext(room, item, METER_MM, at, variant.reading)
      if (made === null) clashes.push(wanting(room, item, METER_MM, variant.reading))
      else {
        put(made.spot)
        row.push(made.spot)
        at = made.edgeMm
      }
    }
  }
}

const noFlats = (item: ShelfItem, task: Task): Clash => ({
  what: item.id,
  against: `${task.sides.equipment} wall without a flat`,
  byMm: Math.ceil(item.part.widthMm),
})

const startOf = (wall: Wall, reading: Reading, startMm: number): number =>
  reading === 1 ? wall.fromMm + startMm : wall.toMm - startMm

/** Levels the earth bar may hang at, the lowest first. */
const EARTH_BAR_LEVELS = [0, 1, 2, 3, 4]

/** Off the lanes of raceways first; over them where there is no other place. */
const LANES = [false, true] as const

/** By this much a thing that stands hemmed in is moved on. */
const STEP_MM = 100

function insideRow(
  task: Task,
  variant: Variant,
  open: readonly ShelfItem[],
  rooms: Rooms,
  spots: readonly Spot[],
  put: Put,
  clashes: Clash[],
): void {
  const sides = [task.sides.equipment, task.sides.opposite].flatMap((side) => {
    const room = rooms.get(`${side} inside`)
    return room === undefined ? [] : [room]
  })
  if (sides.length === 0) {
    for (const item of open.filter((i) => ROW.includes(i.kind) || SMALL.has(i.kind) || i.kind === 'earth bar'))
      clashes.push(noFlats(item, task))
    return
  }
  const at = sides.map((room) => startOf(room.wall, variant.reading, variant.startMm))
  const rows: Spot[][] = sides.map(() => [])
  for (const item of inRow(open, variant.row)) place(item, (room) => [enclosureMiddleMm(task, room.wall, item)])
  const deepest = Math.max(0, ...open.filter((i) => SMALL.has(i.kind)).map((i) => i.part.depthMm))
  const first = at.map((edge, k) => clearEdge(task, rows[k]!, deepest, sides[k]!.wall, variant.reading, edge))
  const byId = new Map(open.map((i) => [i.id, i]))
  for (const id of variant.order) {
    const item = byId.get(id)
    if (item !== undefined) placeSmall(item)
  }
  for (const item of open.filter((i) => i.kind === 'earth bar'))
    place(item, (room) => EARTH_BAR_LEVELS.map((level) => room.wall.floorMm + LEVEL_FIRST_MM + level * LEVEL_STEP_MM))

  function place(item: ShelfItem, heights: (room: Room) => readonly number[]): void {
    let hemmed: (() => void) | null = null
    for (const [k, room] of sides.entries()) {
      for (const [overLanes, zMm] of LANES.flatMap((over) => heights(room).map((z) => [over, z] as const))) {
        if (outOfBand(room.wall, item, zMm) > 0) continue
        let from = clearEdge(task, rows[k]!, item.part.depthMm, room.wall, variant.reading, at[k]!)
        for (let made = putNext(room, item, zMm, from, variant.reading, overLanes); made !== null; ) {
          const { spot, edgeMm } = made
          const hang = () => {
            put(spot)
            rows[k]!.push(spot)
            at[k] = edgeMm
          }
          if (hemmedIn(task, spots, spot).length === 0) {
            hang()
            return
          }
          // Beside something deeper: farther along the wall, and here only where no place is free of it.
          hemmed ??= hang
          from = made.edgeMm - variant.reading * (item.part.widthMm - STEP_MM)
          made = putNext(room, item, zMm, from, variant.reading, overLanes)
        }
      }
    }
    if (hemmed !== null) hemmed()
    else clashes.push(clashOf(sides[0]!, item, heights(sides[0]!)))
  }

  /** In the row that lets it stand nearest; a full equipment wall goes on upon the opposite one. */
  function placeSmall(item: ShelfItem): void {
    for (const overLanes of LANES)
      for (const room of sides) {
        const from = first[sides.indexOf(room)]!
        let best: { readonly edgeMm: number; readonly spot: Spot } | null = null
        for (const zMm of rowsFor(room.wall, item, variant)) {
          const made = putNext(room, item, zMm, from, variant.reading, overLanes)
          if (made !== null && (best === null || (best.edgeMm - made.edgeMm) * variant.reading > 1e-6)) best = made
        }
        if (best === null) continue
        put(best.spot)
        return
      }
    clashes.push(clashOf(sides[0]!, item, rowsFor(sides[0]!.wall, item, variant)))
  }

  function clashOf(room: Room, item: ShelfItem, heights: readonly number[]): Clash {
    const over = heights.map((z) => outOfBand(room.wall, item, z)).find((mm) => mm > 0)
    if (over !== undefined) return { what: item.id, against: 'clear bands along floor and ceiling', byMm: Math.ceil(over) }
    const z = heights[0] ?? room.wall.floorMm + LEVEL_FIRST_MM
    if (heights.length === 0)
      return {
        what: item.id,
        against: 'clear bands along floor and ceiling',
        byMm: Math.ceil(Math.max(1, item.part.heightMm - bandMm(room.wall))),
      }
    return wanting(room, item, z, variant.reading)
  }
}

/** Heights a small box may hang at: receptacles within reach of a standing hand, the others on any level. */
function rowsFor(wall: Wall, item: ShelfItem, variant: Variant): readonly number[] {
  const levels = item.kind === 'receptacle' ? variant.rowsMm : [1650, 1350, ...variant.rowsMm]
  return levels
    .filter((l) => item.kind !== 'receptacle' || (l >= RECEPTACLE_LOW_MM && l <= RECEPTACLE_HIGH_MM))
    .map((l) => wall.floorMm + l)
    .filter((z) => outOfBand(wall, item, z) === 0)
}
