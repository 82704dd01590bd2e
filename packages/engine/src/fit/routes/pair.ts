import type { PlacedItem } from '../../job/index.ts'
import { extentOf, intoMm, type Leg, meeting, outsideOf, type Taken } from './ground.ts'
import { cornersBetween, isWall, placeOf, type Strip, type Wall, wallAt } from './strip.ts'

/** A thing a raceway begins or ends at, on the strip; a thing on the ceiling or the floor hangs before the nearer long wall. */
export interface End {
  readonly id: string
  readonly wall: Wall
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
  /** Ways in: through a hole in the wall behind the middle of an outside thing, or across the ceiling or floor from the wall to it. */
  readonly reach: 'on the wall' | 'through the wall' | 'across the ceiling' | 'across the floor'
  readonly item: PlacedItem
}

export interface PairTask {
  readonly strip: Strip
  readonly route: string
  readonly from: End
  readonly to: End
  /** Half of the outside diameter. */
  readonly halfMm: number
  readonly radiusMm: number
  /** Bends that may lie between two pulls. */
  readonly mostDeg: number
  readonly taken: readonly Taken[]
  readonly laid: readonly Leg[]
  readonly ceiling: readonly OnCeiling[]
}

/** A stretch of the ceiling, along the box, that a lamp or an earlier crossing takes; `acrossMm`: how much of its width, null: all. */
export interface OnCeiling {
  readonly id: string
  readonly fromMm: number
  readonly toMm: number
  readonly acrossMm: readonly [number, number] | null
}

/** A way found: corners on the strip, and where it leaves the walls for the ceiling. */
export interface PairWay {
  readonly legs: readonly Leg[]
  readonly cornersMm: readonly (readonly [s: number, z: number])[]
  /** Index of the corner after which it crosses the ceiling to the next corner; null: it stays on the walls. */
  readonly ceilingAfter: number | null
  /** Crossings with raceways that lie already: one of the two steps over the other. */
  readonly crossings: number
  readonly lengthMm: number
}

export interface Blocked {
  readonly by: string
  readonly byMm: number
}

/** Clear room between raceways, and between a raceway and anything else: room for a strap and a hand. House rule. */
export const GAP_MM = 25
/** Nothing is laid lower than this above the floor: wet boots, mice, a broom. House rule. */
export const LEAST_ABOVE_FLOOR_MM = 150
/** From the edge of an enclosure to the middle of its nearest knock-out. Common practice. */
export const EDGE_MM = 32
/** Half of what two of the smallest raceways need beside each other. */
const STEP_MM = 22
/** What one quarter bend and one saddle weigh against length when ways are compared. House rule: the time of making them. */
export const QUARTER_WEIGHS_MM = 250
export const SADDLE_WEIGHS_MM = 1000
/** A pull box more. House rule. */
const PULL_WEIGHS_MM = 1500

/**
 * The cheapest way between two things on walls (and once across the ceiling), orthogonal, clear of everything that hangs there, over
 * other raceways only by a saddle. Tries every lane and knock-out in a fixed order; ties stay with the first. Null with what stands in
 * the way of the last that was tried.
 */
export function pairWay(task: PairTask): PairWay | Blocked {
  let best: PairWay | null = null
  let bestCost = Infinity
  let blocked: Blocked = { by: task.to.id, byMm: 0 }
  const struck: Struck = { taken: [], laid: [] }
  for (const { corners, bound } of inOrder(task)) {
    if (bound >= bestCost) break
    const tried = laidDown(task, corners, struck)
    if ('by' in tried) {
      if (best === null && blocked.byMm === 0) blocked = tried
      continue
    }
    const turnsDeg = 90 * (corners.cornersMm.length - 2 + roomCorners(task.strip, tried) + tried.crossings)
    const pulls = Math.max(0, Math.ceil(turnsDeg / task.mostDeg) - 1)
    const cost = bound + SADDLE_WEIGHS_MM * PULL_WEIGHS_MM * pulls
    if (cost < bestCost) {
      best = tried
      bestCost = cost
    }
  }
  return best ?? blocked
}

/** Every way by what it costs at least, the cheapest first; ways of one cost in the order they are made. */
function inOrder(task: PairTask): readonly { readonly corners: Corners; readonly bound: number }[] {
  const all: { corners: Corners; bound: number }[] = []
  for (const corners of ways(task)) {
    if (!bendable(task, corners)) continue
    all.push({ corners, bound: lengthOf(task, corners) + QUARTER_WEIGHS_MM * Math.max(0, corners.cornersMm.length - 2) })
  }
  return all.sort((a, b) => a.bound - b.bound)
}

/** Straight pipe that stays on a leg beside its bends, for a strap or a coupling: of a pipe that is not bent round a knee. House rule. */
export const straightMm = (halfMm: number): number => (halfMm > 12 ? 60 : 0)

/** Between two bends there is room for both, and before the first and after the last for one, with straight pipe beside. */
function bendable(task: PairTask, { cornersMm, ceilingAfter }: Corners): boolean {
  const last = cornersMm.length - 1
  for (let i = 1; i <= last; i++) {
    const [a, b] = [cornersMm[i - 1]!, cornersMm[i]!]
    const length = i - 1 === ceilingAfter ? task.strip.endMm : Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1])
    const bends = (i > 1 ? 1 : 0) + (i < last || ceilingAfter === last ? 1 : 0)
    if (bends > 0 && length < bends * task.radiusMm + straightMm(task.halfMm) - EPS) return false
  }
  return true
}

export interface Corners {
  readonly cornersMm: readonly (readonly [s: number, z: number])[]
  readonly ceilingAfter: number | null
}

function* ways(task: PairTask): Generator<Corners> {
  if (task.to.reach === 'across the ceiling') yield* overhead(task)
  else {
    yield* alongWalls(task)
    if (task.from.wall !== task.to.wall && task.from.wall !== 'blind end' && task.to.wall !== 'blind end') yield* across(task)
  }
}

/** Out of a side, the top or the bottom, along a lane, into a side, the top or the bottom. */
function* alongWalls(task: PairTask): Generator<Corners> {
  const { from, to } = task
  const fromEdge = edgeToward(from, middle(to))
  const toEdge = edgeToward(to, middle(from))
  const sAll = slots(task, from, to)
  const tAll = slots(task, to, from)
  for (const s of sAll)
    if (s > to.fromMm - EPS && s < to.toMm + EPS) {
      if (to.highMm < from.lowMm) yield wall([s, from.lowMm], [s, to.highMm])
      if (to.lowMm > from.highMm) yield wall([s, from.highMm], [s, to.lowMm])
    }
  if (from.reach === 'through the wall') {
    const z = from.lowMm
    for (const t of tAll) {
      if (z > to.highMm) yield wall([from.fromMm, z], [t, z], [t, to.highMm])
      if (z < to.lowMm) yield wall([from.fromMm, z], [t, z], [t, to.lowMm])
      if (Math.abs(z - to.lowMm) < EPS && to.reach === 'through the wall') yield wall([from.fromMm, z], [t, z])
    }
    if (within(to, z) && to.reach === 'on the wall') yield wall([from.fromMm, z], [toEdge, z])
  }
  // A hole in the wall is met in its own height, from the side, from above or from below.
  if (to.reach === 'through the wall') {
    const z = to.lowMm
    if (within(from, z)) yield wall([fromEdge, z], [to.fromMm, z])
    for (const s of sAll)
      if (z > from.highMm || z < from.lowMm) yield wall([s, z > from.highMm ? from.highMm : from.lowMm], [s, z], [to.fromMm, z])
  }
  for (const z of lanesOf(task)) {
    const leaves = within(from, z)
    if (leaves && within(to, z) && to.reach === 'on the wall') yield wall([fromEdge, z], [toEdge, z])
    if (leaves && z > to.highMm) for (const t of tAll) yield wall([fromEdge, z], [t, z], [t, to.highMm])
    if (leaves && z < to.lowMm) for (const t of tAll) yield wall([fromEdge, z], [t, z], [t, to.lowMm])
    for (const s of sAll) {
      const leg = z > from.highMm ? from.highMm : z < from.lowMm ? from.lowMm : null
      if (leg === null) continue
      if (within(to, z) && to.reach === 'on the wall') yield wall([s, leg], [s, z], [toEdge, z])
      else if (z > to.highMm) for (const t of tAll) yield wall([s, leg], [s, z], [t, z], [t, to.highMm])
      else if (z < to.lowMm) for (const t of tAll) yield wall([s, leg], [s, z], [t, z], [t, to.lowMm])
    }
  }
}

/** Up the wall to the ceiling, and along it to a thing that hangs there. */
function* overhead(task: PairTask): Generator<Corners> {
  const { from, to } = task
  const high = ceilingLane(task)
  const sAll = slots(task, from, to)
  const tAll = slots(task, to, from)
  for (const s of sAll)
    if (s > to.fromMm && s < to.toMm)
      yield {
        cornersMm: [
          [s, from.highMm],
          [s, high],
        ],
        ceilingAfter: 1,
      }
  for (const t of tAll) {
    for (const z of lanesOf(task)) {
      if (within(from, z) && !covers(from, t))
        yield {
          cornersMm: [
            [edgeToward(from, t), z],
            [t, z],
            [t, high],
          ],
          ceilingAfter: 2,
        }
      if (z > from.highMm)
        for (const s of sAll)
          yield {
            cornersMm: [
              [s, from.highMm],
              [s, z],
              [t, z],
              [t, high],
            ],
            ceilingAfter: 3,
          }
    }
    for (const s of sAll)
      yield {
        cornersMm: [
          [s, from.highMm],
          [s, high],
          [t, high],
        ],
        ceilingAfter: 2,
      }
  }
}

/** From one long wall over the ceiling to the other: across before the one thing, or above the other. */
function* across(task: PairTask): Generator<Corners> {
  const { strip, from, to } = task
  const high = ceilingLane(task)
  const sAll = slots(task, from, to)
  for (const t of slots(task, to, from)) {
    const opposite = opposed(strip, t)
    if (opposite > from.fromMm && opposite < from.toMm)
      yield {
        cornersMm: [
          [opposite, from.highMm],
          [opposite, high],
          [t, high],
          [t, to.highMm],
        ],
        ceilingAfter: 1,
      }
    if (from.reach === 'through the wall')
      yield {
        cornersMm: [
          [from.fromMm, from.lowMm],
          [opposite, from.lowMm],
          [opposite, high],
          [t, high],
          [t, to.highMm],
        ],
        ceilingAfter: 2,
      }
    for (const z of lanesOf(task)) {
      if (within(from, z) && !covers(from, opposite))
        yield {
          cornersMm: [
            [edgeToward(from, opposite), z],
            [opposite, z],
            [opposite, high],
            [t, high],
            [t, to.highMm],
          ],
          ceilingAfter: 2,
        }
      if (z > to.highMm)
        for (const s of sAll)
          yield {
            cornersMm: [
              [s, from.highMm],
              [s, high],
              [opposed(strip, s), high],
              [opposed(strip, s), z],
              [t, z],
              [t, to.highMm],
            ],
            ceilingAfter: 1,
          }
    }
  }
}

export const ceilingLane = ({ strip, halfMm }: PairTask): number => strip.ceilingMm - GAP_MM - halfMm
const covers = (e: End, s: number): boolean => s > e.fromMm - EPS && s < e.toMm + EPS
const edgeToward = (e: End, s: number): number => (s > middle(e) ? e.toMm : e.fromMm)

const wall = (...cornersMm: readonly (readonly [number, number])[]): Corners => ({ cornersMm, ceilingAfter: null })

const middle = (e: End): number => (e.fromMm + e.toMm) / 2
/** Through the side of a thing; a wireway is left by its top and bottom. */
const within = (e: End, z: number): boolean => e.item.kind !== 'wireway' && z >= e.lowMm + EDGE_MM && z <= e.highMm - EDGE_MM

/** The place on the other long wall that faces this one. */
export const opposed = (strip: Strip, s: number): number => strip.wholeMm - s

/** Heights a raceway may run at, low first: on a fixed grid, so that many run side by side. */
function lanesOf({ strip, halfMm }: PairTask): readonly number[] {
  const low = strip.floorMm + LEAST_ABOVE_FLOOR_MM + halfMm
  const high = strip.ceilingMm - GAP_MM - halfMm
  return Array.from({ length: Math.max(0, Math.floor((high - low) / STEP_MM) + 1) }, (_, i) => low + i * STEP_MM)
}

/** Knock-outs in the top or bottom of a thing, the one nearest to where the raceway goes first. */
function slots(task: PairTask, e: End, other: End): readonly number[] {
  const room = e.toMm - e.fromMm
  const stepMm = 2 * task.halfMm + GAP_MM
  if (room < 2 * EDGE_MM + stepMm) return [middle(e)]
  const count = Math.floor((room - 2 * EDGE_MM) / stepMm) + 1
  const all = Array.from({ length: count }, (_, i) => e.fromMm + EDGE_MM + i * stepMm)
  const facing = facingMm(task.strip, e, other)
  if (facing !== null) return [facing, ...all.toSorted((a, b) => Math.abs(a - facing) - Math.abs(b - facing) || a - b)]
  return middle(other) > middle(e) ? all.toReversed() : all
}

/** Place in a wireway straight before the other end, on its wall or across the ceiling; null: no wireway, or none of it is there. */
export function facingMm(strip: Strip, e: End, other: End): number | null {
  if (e.item.kind !== 'wireway') return null
  const at = other.wall === e.wall ? middle(other) : opposed(strip, middle(other))
  return at > e.fromMm + EDGE_MM && at < e.toMm - EDGE_MM ? at : null
}

function lengthOf(task: PairTask, { cornersMm, ceilingAfter }: Corners): number {
  let sum = 0
  for (let i = 1; i < cornersMm.length; i++) {
    const [a, b] = [cornersMm[i - 1]!, cornersMm[i]!]
    sum += i - 1 === ceilingAfter ? task.strip.endMm : Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1])
  }
  return sum
}

/** What ways that were tried before ran into, the last of it first. */
interface Struck {
  readonly taken: Taken[]
  readonly laid: Leg[]
}
/** More of it costs more than it spares. */
const MOST_STRUCK = 6

/**
 * Checks a way against everything; the way with the crossings it makes, or what blocks it. What `struck` holds is looked at first and added
 * to: ways of one task run into the same few things.
 */
export function laidDown(task: PairTask, way: Corners, struck?: Struck): PairWay | Blocked {
  const { cornersMm, ceilingAfter } = way
  const holes = holesOf(task)
  const legs = legsOf(task, way)
  let crossings = 0
  if (struck !== undefined)
    for (const leg of legs) {
      for (const t of struck.taken) {
        const byMm = runsInto(task, leg, t)
        if (byMm > 0) return { by: t.id, byMm }
      }
      for (const other of struck.laid)
        if (meetingBeside(leg, other, holes) === 'overlap') return { by: other.route, byMm: GAP_MM }
    }
  if (ceilingAfter !== null) {
    const near = overheadBlock(task, cornersMm[ceilingAfter]![0])
    if (near !== null) return near
  }
  for (const leg of legs) {
    for (const t of task.taken) {
      const byMm = runsInto(task, leg, t)
      if (byMm <= 0) continue
      note(struck?.taken, t)
      return { by: t.id, byMm }
    }
    for (const other of task.laid) {
      const how = meetingBeside(leg, other, holes)
      if (how === 'overlap') {
        note(struck?.laid, other)
        return { by: other.route, byMm: GAP_MM }
      }
      if (how === 'crossing') crossings += 1
    }
  }
  return { legs, cornersMm, ceilingAfter, crossings, lengthMm: lengthOf(task, way) }
}

function note<T>(struck: T[] | undefined, one: T): void {
  struck?.unshift(one)
  if (struck !== undefined && struck.length > MOST_STRUCK) struck.pop()
}

/** By how much a leg enters what is taken, but for the ends of its own way; 0 where it stays clear. */
function runsInto({ from, to }: PairTask, leg: Leg, t: Taken): number {
  const own = t.id === from.id ? from : t.id === to.id ? to : undefined
  const byMm = intoMm(leg, t, own === undefined ? GAP_MM / 2 : -leg.halfMm)
  if (byMm <= 0 || (own !== undefined && own.item.kind !== 'wireway')) return 0
  return isHoleOf(t, to) || isHoleOf(t, from) ? 0 : byMm
}

/** How two legs meet outside of the boxes over the holes that both may end in. */
export function meetingBeside(leg: Leg, other: Leg, holes: ReturnType<typeof holesOf>): ReturnType<typeof meeting> {
  // The whole leg first: most are far away, and only a near one may share a box.
  const how = meeting(leg, other, GAP_MM)
  if (how === 'clear' || holes.length === 0) return how
  const free = outsideOf(leg, holes, other)
  return free === null ? 'clear' : meeting(free, other, GAP_MM)
}

/** The legs of a way on the walls, each turning where it does; a level one is parted at the corners of the room. */
export function legsOf(task: PairTask, { cornersMm, ceilingAfter }: Corners): readonly Leg[] {
  const last = cornersMm.length - 1
  const turns = (i: number) => (i > 0 && i < last) || (i === last && ceilingAfter === last)
  const legs: Leg[] = []
  for (let i = 1; i <= last; i++) {
    if (i - 1 === ceilingAfter) continue
    const [from, to] = [cornersMm[i - 1]!, cornersMm[i]!]
    const stops = cornersBetween(task.strip, from[0], to[0])
    const points = [from, ...stops.map((s) => [s, from[1]] as const), to]
    for (let k = 1; k < points.length; k++)
      legs.push({
        route: task.route,
        fromMm: points[k - 1]!,
        toMm: points[k]!,
        halfMm: task.halfMm,
        radiusMm: task.radiusMm,
        bent: [k > 1 || turns(i - 1), k < points.length - 1 || turns(i)],
      })
  }
  return legs
}

/** What stands in the way of a crossing of the ceiling that leaves the wall at a place of the strip. */
export function overheadBlock(task: PairTask, sMm: number): Blocked | null {
  const xMm = placeOf(task.strip, sMm, 0, 0)[0]
  const room = task.halfMm + GAP_MM
  const near = task.ceiling.find(
    (c) => c.id !== task.to.id && xMm > c.fromMm - room && xMm < c.toMm + room && !isBeyond(task, c, sMm),
  )
  return near === undefined ? null : { by: near.id, byMm: Math.min(xMm - near.fromMm, near.toMm - xMm) + room }
}

/** A way to a lamp ends at its edge: what hangs behind that is not in the way. */
function isBeyond({ strip, to, halfMm }: PairTask, c: OnCeiling, sMm: number): boolean {
  if (to.reach !== 'across the ceiling' || c.acrossMm === null) return false
  const fromLeft = wallAt(strip, sMm) === 'left'
  const edgeMm = to.item.atMm[1] + (fromLeft ? 0 : to.item.sizeMm[1])
  return fromLeft ? c.acrossMm[0] > edgeMm - EPS - halfMm : c.acrossMm[1] < edgeMm + EPS + halfMm
}

/** Holes in the wall at which the way begins or ends. */
export const holesOf = ({ from, to }: PairTask): readonly (readonly [s: number, z: number])[] =>
  [from, to].filter((e) => e.reach === 'through the wall').map((e) => [e.fromMm, e.lowMm] as const)

/** The hole in the wall behind an outside thing. */
export const isHoleOf = (t: Taken, to: End): boolean =>
  to.reach === 'through the wall' && to.fromMm > t.fromMm && to.fromMm < t.toMm && to.lowMm > t.lowMm && to.lowMm < t.highMm

/** Where a thing stands on the strip; null on a door end, where nothing is led. A thing on the ceiling is reached from the wall `from`. */
export function endOf(strip: Strip, item: PlacedItem, from?: Wall): End | null {
  if (isWall(item.side)) {
    const extent = extentOf(strip, item.side, item)
    if (item.face === 'inside') return { id: item.id, wall: item.side, ...extent, reach: 'on the wall', item }
    const [s, z] = [(extent.fromMm + extent.toMm) / 2, (extent.lowMm + extent.highMm) / 2]
    return { id: item.id, wall: item.side, fromMm: s, toMm: s, lowMm: z, highMm: z, reach: 'through the wall', item }
  }
  if (item.side === 'door end') return null
  const [x, y] = item.atMm
  const [dx, dy] = item.sizeMm
  const nearer: Wall = y + dy / 2 <= strip.body.insideAtMm[1] + strip.endMm / 2 ? 'left' : 'right'
  const wall = from === 'left' || from === 'right' ? from : nearer
  const before = { atMm: [x, y, item.atMm[2]] as const, sizeMm: [dx, dy, item.sizeMm[2]] as const }
  return {
    id: item.id,
    wall,
    ...extentOf(strip, wall, before),
    reach: item.side === 'roof' ? 'across the ceiling' : 'across the floor',
    item,
  }
}

/** Corners of the room that a way passes on its level legs: each is a quarter bend. */
const roomCorners = (strip: Strip, way: PairWay): number =>
  way.cornersMm
    .slice(1)
    .reduce((sum, c, i) => sum + (i === way.ceilingAfter ? 0 : cornersBetween(strip, way.cornersMm[i]![0], c[0]).length), 0)

const EPS = 1e-6
