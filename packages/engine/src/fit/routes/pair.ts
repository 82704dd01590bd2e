import type { PlacedItem } from '../../job/index.ts'
import { extentOf, intoMm, type Leg, meeting, type Taken } from './ground.ts'
import { cornersBetween, isWall, placeOf, type Strip, type Wall } from './strip.ts'

/** A thing a raceway begins or ends at, on the strip; a thing on the ceiling or the floor hangs before the nearer long wall. */
export interface End {
  readonly id: string
  readonly wall: Wall
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
  /** Ways in: through the wall behind (an outside thing), or across the ceiling or floor from the wall to it. */
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
  readonly taken: readonly Taken[]
  readonly laid: readonly Leg[]
  /** Ceiling crossings that lie already, by their x. */
  readonly crossings: readonly { readonly xMm: number; readonly halfMm: number }[]
}

/** A way found: corners on the strip, and where it leaves the walls for the ceiling. */
export interface PairWay {
  readonly legs: readonly Leg[]
  readonly cornersMm: readonly (readonly [s: number, z: number])[]
  /** Index of the corner after which it crosses the ceiling to the next corner; null: it stays on the walls. */
  readonly ceilingAfter: number | null
  /** Saddles over raceways that lie already. */
  readonly saddles: readonly { readonly leg: number; readonly atMm: readonly [s: number, z: number]; readonly over: string }[]
  readonly lengthMm: number
}

export interface Blocked {
  readonly by: string
  readonly byMm: number
}

/** Clear room between raceways, and between a raceway and anything else: room for a strap and a hand. House rule. */
export const GAP_MM = 25
/** Nothing is laid lower than this above the floor: wet boots, mice, a broom. House rule. */
const LEAST_ABOVE_FLOOR_MM = 150
/** From the edge of an enclosure to the middle of its nearest knock-out. Common practice. */
const EDGE_MM = 32
const STEP_MM = 20
/** What one quarter bend and one saddle weigh against length when ways are compared. House rule: the time of making them. */
const QUARTER_WEIGHS_MM = 250
const SADDLE_WEIGHS_MM = 1000

/**
 * The cheapest way between two things on walls (and once across the ceiling), orthogonal, clear of everything that hangs there, over
 * other raceways only by a saddle. Tries every lane and knock-out in a fixed order; ties stay with the first. Null with what stands in
 * the way of the last that was tried.
 */
export function pairWay(task: PairTask): PairWay | Blocked {
  let best: PairWay | null = null
  let bestCost = Infinity
  let blocked: Blocked = { by: task.to.id, byMm: 0 }
  for (const corners of ways(task)) {
    const bound = lengthOf(task, corners) + QUARTER_WEIGHS_MM * Math.max(0, corners.cornersMm.length - 2)
    if (bound >= bestCost) continue
    const tried = laidDown(task, corners)
    if ('by' in tried) {
      if (best === null) blocked = tried
      continue
    }
    const cost = bound + SADDLE_WEIGHS_MM * tried.saddles.length
    if (cost < bestCost) {
      best = tried
      bestCost = cost
    }
  }
  return best ?? blocked
}

interface Corners {
  readonly cornersMm: readonly (readonly [s: number, z: number])[]
  readonly ceilingAfter: number | null
}

function* ways(task: PairTask): Generator<Corners> {
  const { strip, from, to } = task
  const toward = Math.sign(middle(to) - middle(from)) || 1
  const fromEdge = toward > 0 ? from.toMm : from.fromMm
  const toEdge = toward > 0 ? to.fromMm : to.toMm
  const lanes = lanesOf(task)
  const wallToWall = to.reach === 'on the wall' || to.reach === 'through the wall'
  const sAll = slots(from, toward)
  const tAll = slots(to, -toward)
  if (wallToWall) {
    for (const z of lanes) {
      const leaves = within(from, z)
      const enters = within(to, z)
      if (leaves && enters) yield wall([fromEdge, z], [toEdge, z])
      if (leaves && z > to.highMm) for (const t of tAll) yield wall([fromEdge, z], [t, z], [t, to.highMm])
      if (leaves && z < to.lowMm) for (const t of tAll) yield wall([fromEdge, z], [t, z], [t, to.lowMm])
      for (const s of sAll) {
        if (z > from.highMm && enters) yield wall([s, from.highMm], [s, z], [toEdge, z])
        if (z > from.highMm && z > to.highMm)
          for (const t of tAll)
            yield Math.abs(s - t) < EPS
              ? wall([s, from.highMm], [t, to.highMm])
              : wall([s, from.highMm], [s, z], [t, z], [t, to.highMm])
        if (z < from.lowMm && z < to.lowMm) for (const t of tAll) yield wall([s, from.lowMm], [s, z], [t, z], [t, to.lowMm])
      }
    }
    if (to.highMm < from.lowMm || to.lowMm > from.highMm)
      for (const s of sAll) if (s > to.fromMm && s < to.toMm) yield straight(task, s)
  }
  const high = strip.ceilingMm - GAP_MM - task.halfMm
  if (to.reach === 'across the ceiling') {
    for (const z of [...lanes, high])
      for (const t of tAll) {
        if (within(from, z))
          yield {
            cornersMm: [
              [fromEdge, z],
              [t, z],
              [t, high],
            ],
            ceilingAfter: 2,
          }
        for (const s of sAll)
          if (z > from.highMm) {
            if (Math.abs(s - t) < EPS)
              yield {
                cornersMm: [
                  [s, from.highMm],
                  [s, high],
                ],
                ceilingAfter: 1,
              }
            else
              yield {
                cornersMm: [
                  [s, from.highMm],
                  [s, z],
                  [t, z],
                  [t, high],
                ],
                ceilingAfter: z === high ? 2 : 3,
              }
          }
      }
  } else if (from.wall !== to.wall && from.wall !== 'blind end' && to.wall !== 'blind end') {
    for (const t of tAll) {
      const opposite = opposed(strip, t)
      for (const z of lanes)
        if (within(from, z))
          yield {
            cornersMm: [
              [fromEdge, z],
              [opposite, z],
              [opposite, high],
              [t, high],
              [t, to.highMm],
            ],
            ceilingAfter: 2,
          }
    }
    for (const s of sAll) {
      const opposite = opposed(strip, s)
      for (const t of tAll) {
        if (Math.abs(opposite - t) < EPS)
          yield {
            cornersMm: [
              [s, from.highMm],
              [s, high],
              [t, high],
              [t, to.highMm],
            ],
            ceilingAfter: 1,
          }
        for (const z of lanes)
          if (z > to.highMm)
            yield {
              cornersMm: [
                [s, from.highMm],
                [s, high],
                [opposite, high],
                [opposite, z],
                [t, z],
                [t, to.highMm],
              ],
              ceilingAfter: 1,
            }
      }
    }
  }
}

const wall = (...cornersMm: readonly (readonly [number, number])[]): Corners => ({ cornersMm, ceilingAfter: null })

function straight({ from, to }: PairTask, s: number): Corners {
  return to.highMm < from.lowMm ? wall([s, from.lowMm], [s, to.highMm]) : wall([s, from.highMm], [s, to.lowMm])
}

const middle = (e: End): number => (e.fromMm + e.toMm) / 2
const within = (e: End, z: number): boolean => z >= e.lowMm + EDGE_MM && z <= e.highMm - EDGE_MM

/** The place on the other long wall that faces this one. */
const opposed = (strip: Strip, s: number): number => strip.wholeMm - s

/** Heights a raceway may run at, low first: on a fixed grid, so that many run side by side. */
function lanesOf({ strip, halfMm }: PairTask): readonly number[] {
  const low = strip.floorMm + LEAST_ABOVE_FLOOR_MM + halfMm
  const high = strip.ceilingMm - GAP_MM - halfMm
  return Array.from({ length: Math.max(0, Math.floor((high - low) / STEP_MM) + 1) }, (_, i) => low + i * STEP_MM)
}

/** Knock-outs in the top or bottom of a thing, the one nearest to where the raceway goes first. */
function slots(e: End, toward: number): readonly number[] {
  const room = e.toMm - e.fromMm
  if (room < 2 * EDGE_MM + STEP_MM) return [middle(e)]
  const count = Math.floor((room - 2 * EDGE_MM) / STEP_MM) + 1
  const all = Array.from({ length: count }, (_, i) => e.fromMm + EDGE_MM + i * STEP_MM)
  return toward > 0 ? all.toReversed() : all
}

function lengthOf(task: PairTask, { cornersMm, ceilingAfter }: Corners): number {
  let sum = 0
  for (let i = 1; i < cornersMm.length; i++) {
    const [a, b] = [cornersMm[i - 1]!, cornersMm[i]!]
    sum += i - 1 === ceilingAfter ? task.strip.endMm : Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1])
  }
  return sum
}

/** Checks a way against everything; the legs, the saddles it needs, or what blocks it. */
function laidDown(task: PairTask, way: Corners): PairWay | Blocked {
  const { cornersMm, ceilingAfter } = way
  const legs: Leg[] = []
  const saddles: PairWay['saddles'][number][] = []
  for (let i = 1; i < cornersMm.length; i++) {
    const leg: Leg = { route: task.route, fromMm: cornersMm[i - 1]!, toMm: cornersMm[i]!, halfMm: task.halfMm }
    if (i - 1 === ceilingAfter) {
      const xMm = placeOf(task.strip, cornersMm[ceilingAfter]![0], 0, 0)[0]
      const near = task.crossings.find((c) => Math.abs(c.xMm - xMm) < c.halfMm + task.halfMm + GAP_MM)
      if (near !== undefined)
        return { by: 'another raceway on the ceiling', byMm: near.halfMm + task.halfMm + GAP_MM - Math.abs(near.xMm - xMm) }
      continue
    }
    for (const t of task.taken) {
      if (t.id === task.from.id || t.id === task.to.id) continue
      const byMm = intoMm(leg, t, GAP_MM / 2)
      if (byMm > 0) return { by: t.id, byMm }
    }
    for (const other of task.laid) {
      const how = meeting(leg, other, GAP_MM)
      if (how === 'overlap') return { by: other.route, byMm: GAP_MM }
      if (how === 'crossing') {
        const level = Math.abs(leg.fromMm[1] - leg.toMm[1]) < EPS
        saddles.push({
          leg: i - 1,
          atMm: level ? [other.fromMm[0], leg.fromMm[1]] : [leg.fromMm[0], other.fromMm[1]],
          over: other.route,
        })
      }
    }
    legs.push(leg)
  }
  return { legs, cornersMm, ceilingAfter, saddles, lengthMm: lengthOf(task, way) }
}

/** Where a thing stands on the strip; null on a door end, where nothing is led. */
export function endOf(strip: Strip, item: PlacedItem): End | null {
  if (isWall(item.side))
    return {
      id: item.id,
      wall: item.side,
      ...extentOf(strip, item.side, item),
      reach: item.face === 'outside' ? 'through the wall' : 'on the wall',
      item,
    }
  if (item.side === 'door end') return null
  const [x, y] = item.atMm
  const [dx, dy] = item.sizeMm
  const nearer: Wall = y + dy / 2 <= strip.body.insideAtMm[1] + strip.endMm / 2 ? 'left' : 'right'
  const before = { atMm: [x, y, item.atMm[2]] as const, sizeMm: [dx, dy, item.sizeMm[2]] as const }
  return {
    id: item.id,
    wall: nearer,
    ...extentOf(strip, nearer, before),
    reach: item.side === 'roof' ? 'across the ceiling' : 'across the floor',
    item,
  }
}

/** Corners of the room that a way passes on its level legs: each is a quarter bend. */
export const roomCorners = (strip: Strip, way: PairWay): readonly number[] =>
  way.legs.flatMap((l) => cornersBetween(strip, l.fromMm[0], l.toMm[0]))

const EPS = 1e-6
