import { BLOCKED, isEnclosed, NO_BEND, NO_LEVEL, NO_UPRIGHT } from './enclosed.ts'
import { endRoomMm, isLevel, type Leg, outsideOf, saddleReachMm, saddleRiseMm } from './ground.ts'
import {
  type Blocked,
  type Corners,
  ceilingLane,
  EDGE_MM,
  type End,
  facingMm,
  GAP_MM,
  holesOf,
  isHoleOf,
  LEAST_ABOVE_FLOOR_MM,
  laidDown,
  opposed,
  overheadBlock,
  type PairTask,
  type PairWay,
  QUARTER_WEIGHS_MM,
  SADDLE_WEIGHS_MM,
  straightMm,
} from './pair.ts'
import { wallAt } from './strip.ts'

/**
 * Where none of the plain shapes is free: the cheapest orthogonal way on the walls, by a search over bends. From a bend the raceway runs
 * straight for at least two radii, as far as it likes, and bends again; it may cross another raceway where one of the two has room to step
 * over. Lines are those of a fixed grid and of the two ends; ties go to the line that comes first. `soft`: raceways that may be taken up
 * again; they are in nobody's way, but each costs.
 */
export function mazeWay(task: PairTask, soft: readonly Leg[] = []): PairWay | Blocked {
  const found = search(task, gridOf(task, soft))
  return found === null ? { by: 'what hangs between', byMm: GAP_MM } : laidDown(task, found)
}

const STEP_MM = 44
/** How far beyond the two ends a way may lead round. */
const AROUND_MM = 900
/** Bends that are tried before the search is given up: counted work, never the clock. */
const MOST_BENDS = 40_000

interface Grid {
  readonly s: Float64Array
  readonly z: Float64Array
  /** What each crossing of two lines is taken by. */
  readonly bits: Uint8Array
}

/** What crosses here has the room to step over. */
const EASY = 16
/** A raceway lies here that may be taken up. */
const SOFT = 32
/** What taking up another raceway weighs, and each line through what it takes. House rule: the search then takes up few. */
const RIP_WEIGHS_MM = 1500
const SOFT_WEIGHS_MM = 60

function gridOf(task: PairTask, soft: readonly Leg[]): Grid {
  const { strip, from, to, halfMm, radiusMm } = task
  const low = strip.floorMm + LEAST_ABOVE_FLOOR_MM + halfMm
  const high = ceilingLane(task)
  const left = Math.max(halfMm + GAP_MM, Math.min(from.fromMm, to.fromMm) - AROUND_MM)
  const right = Math.min(strip.wholeMm - halfMm - GAP_MM, Math.max(from.toMm, to.toMm) + AROUND_MM)
  const doors = [...doorsS(task, from, to), ...doorsS(task, to, from)]
  // Facing each place where an end is entered, so that a way can cross the ceiling to it.
  const s = lines(left, right, mayCross(task) ? [...doors, ...doors.map((x) => opposed(strip, x))] : doors)
  const z = lines(low, high, [...doorsZ(from), ...doorsZ(to), high])
  const bits = new Uint8Array(s.length * z.length)
  const set = (fromS: number, toS: number, fromZ: number, toZ: number, bit: number) => {
    const [i0, i1] = [firstOver(s, fromS), firstOver(s, toS)]
    const [j0, j1] = [firstOver(z, fromZ), firstOver(z, toZ)]
    for (let i = i0; i < i1; i++) for (let j = j0; j < j1; j++) bits[i * z.length + j]! |= bit
  }
  const room = halfMm + GAP_MM / 2 - EPS
  for (const t of task.taken) {
    if (isHoleOf(t, to) || isHoleOf(t, from)) continue
    const own = t.id === from.id || t.id === to.id
    const r = own ? -EPS : room
    set(t.fromMm - r, t.toMm + r, t.lowMm - r, t.highMm + r, BLOCKED)
  }
  const holes = holesOf(task)
  const riseMm = saddleRiseMm(task)
  for (const whole of task.laid) {
    const l = trimmed(whole, holes)
    if (l === null) continue
    const r = halfMm + l.halfMm + GAP_MM - EPS
    const [s0, s1] = [Math.min(l.fromMm[0], l.toMm[0]), Math.max(l.fromMm[0], l.toMm[0])]
    const [z0, z1] = [Math.min(l.fromMm[1], l.toMm[1]), Math.max(l.fromMm[1], l.toMm[1])]
    const level = isLevel(l)
    set(s0 - r, s1 + r, z0 - r, z1 + r, (level ? NO_LEVEL : NO_UPRIGHT) | NO_BEND)
    // Over its ends nothing is bent: there it turns or enters a box itself.
    for (const [s2, z2] of [l.fromMm, l.toMm]) set(s2 - r, s2 + r, z2 - r, z2 + r, BLOCKED)
    const ends = l.bent.map((bent) => saddleReachMm(l, riseMm) + endRoomMm(l, bent))
    const [low, high] = (level ? l.fromMm[0] < l.toMm[0] : l.fromMm[1] < l.toMm[1]) ? ends : ends.toReversed()
    if (level) set(s0 + low!, s1 - high!, z0 - r, z1 + r, EASY)
    else set(s0 - r, s1 + r, z0 + low!, z1 - high!, EASY)
  }
  for (const l of soft) {
    const r = halfMm + l.halfMm + GAP_MM - EPS
    set(
      Math.min(l.fromMm[0], l.toMm[0]) - r,
      Math.max(l.fromMm[0], l.toMm[0]) + r,
      Math.min(l.fromMm[1], l.toMm[1]) - r,
      Math.max(l.fromMm[1], l.toMm[1]) + r,
      SOFT,
    )
  }
  for (const corner of [strip.leftMm, strip.leftMm + strip.endMm])
    set(corner - radiusMm, corner + radiusMm, -Infinity, Infinity, NO_BEND | NO_UPRIGHT)
  return { s, z, bits }
}

/** A laid leg without what lies in the boxes that this way begins and ends in: two raceways meet there. */
function trimmed(l: Leg, holes: ReturnType<typeof holesOf>): Leg | null {
  return outsideOf(l, holes, {
    ...l,
    fromMm: holes[0] ?? [Infinity, Infinity],
    toMm: holes[1] ?? holes[0] ?? [Infinity, Infinity],
  })
}

function lines(from: number, to: number, exact: readonly number[]): Float64Array {
  const all = exact.filter((x) => x >= from - EPS && x <= to + EPS)
  for (let x = from; x <= to; x += STEP_MM) all.push(x)
  all.sort((a, b) => a - b)
  return Float64Array.from(all.filter((x, i) => i === 0 || x - all[i - 1]! > EPS))
}

/** First index whose line lies beyond. */
function firstOver(lines: Float64Array, x: number): number {
  let [low, high] = [0, lines.length]
  while (low < high) {
    const mid = (low + high) >> 1
    if (lines[mid]! > x) high = mid
    else low = mid + 1
  }
  return low
}

/** Columns and heights at which an end is entered. */
function doorsS({ halfMm, strip }: PairTask, e: End, other: End): readonly number[] {
  if (e.toMm - e.fromMm < EPS) return [e.fromMm]
  const step = 2 * halfMm + GAP_MM
  const room = e.toMm - e.fromMm - 2 * EDGE_MM
  const middle = (e.fromMm + e.toMm) / 2
  const slots =
    room < step ? [middle] : Array.from({ length: Math.floor(room / step) + 1 }, (_, i) => e.fromMm + EDGE_MM + i * step)
  const facing = facingMm(strip, e, other)
  return [...slots, e.fromMm, e.toMm, ...(facing === null ? [] : [facing])]
}
const doorsZ = (e: End): readonly number[] => (e.highMm - e.lowMm < EPS ? [e.lowMm] : [e.lowMm, e.highMm])

interface Door {
  readonly i: number
  readonly j: number
  /** Direction a raceway leaves by: +s, −s, +z, −z. */
  readonly way: 0 | 1 | 2 | 3
}

/** Places on the outline of an end, with the direction that leads away from it. */
function doorsOf(task: PairTask, grid: Grid, e: End): readonly Door[] {
  const { s, z } = grid
  const out: Door[] = []
  const at = (all: Float64Array, x: number) => all.findIndex((v) => Math.abs(v - x) < EPS)
  if (e.reach === 'across the ceiling') {
    const j = at(z, ceilingLane(task))
    return Array.from(s).flatMap((sMm, i) =>
      j >= 0 && sMm > e.fromMm && sMm < e.toMm && overheadBlock(task, sMm) === null
        ? ([0, 1, 3] as const).map((way) => ({ i, j, way }))
        : [],
    )
  }
  if (e.reach === 'through the wall') {
    const [i, j] = [at(s, e.fromMm), at(z, e.lowMm)]
    return i < 0 || j < 0 ? [] : [0, 1, 2, 3].map((way) => ({ i, j, way: way as Door['way'] }))
  }
  const [left, right, low, high] = [at(s, e.fromMm), at(s, e.toMm), at(z, e.lowMm), at(z, e.highMm)]
  z.forEach((zMm, j) => {
    if (e.item.kind === 'wireway' || zMm < e.lowMm + EDGE_MM || zMm > e.highMm - EDGE_MM) return
    if (right >= 0) out.push({ i: right, j, way: 0 })
    if (left >= 0) out.push({ i: left, j, way: 1 })
  })
  for (const sMm of doorsS(task, e, e === task.from ? task.to : task.from)) {
    if (Math.abs(sMm - e.fromMm) < EPS || Math.abs(sMm - e.toMm) < EPS) continue
    const i = at(s, sMm)
    if (i < 0) continue
    if (high >= 0) out.push({ i, j: high, way: 2 })
    if (low >= 0) out.push({ i, j: low, way: 3 })
  }
  return out
}

function search(task: PairTask, grid: Grid): Corners | null {
  const { s, z, bits } = grid
  const { radiusMm: r, to } = task
  const columns = z.length
  const states = 4 * s.length * columns
  const key = (i: number, j: number, way: number) => (i * columns + j) * 4 + way
  // Bit of each direction in which the other end is entered.
  const goals = new Uint8Array(s.length * columns)
  const ends = doorsOf(task, grid, to).map((d) => ({ cell: d.i * columns + d.j, way: d.way ^ 1 }))
  for (const { cell, way } of ends) goals[cell]! |= 1 << way
  const ahead = aheadOf(task, grid)
  const across = mayCross(task)
  const straight = straightMm(task.halfMm)
  const reach = saddleReachMm(task, saddleRiseMm(task))
  const roomToEnd = endRoomMm(task, false)
  const roomToBend = endRoomMm(task, true)
  // To a lamp it bends once more at its end.
  const last = to.reach === 'across the ceiling' ? r : 0
  const heap = new Buckets()
  const starts = doorsOf(task, grid, task.from).map((d) => key(d.i, d.j, d.way))
  const overTo = new Int32Array(s.length).fill(NOT_ASKED)
  const crossing = (i: number): number => {
    if (!across) return -1
    if (overTo[i] === NOT_ASKED) overTo[i] = overhead(task, grid, i)
    return overTo[i]!
  }
  const isStart = new Uint8Array(states)
  for (const k of starts) isStart[k] = 1
  if (isEnclosed({ columns, bits, goals: ends, starts: isStart, across })) return null
  const cost = new Float64Array(states).fill(Infinity)
  const done = new Uint8Array(states)
  const cameFrom = new Int32Array(states).fill(-1)
  // What it costs at least to pass a place straight on, with all that a bend there would leave open: whoever turns into it for more finds nothing.
  const passing = new Float64Array(states).fill(Infinity)
  const roomToAny = Math.max(roomToEnd, roomToBend)
  // The same, after so long a straight that nothing further on asks for more of it: whoever comes after and pays more finds nothing from there.
  const straightOn = new Float64Array(states).fill(Infinity)
  const longEnough = Math.max(2 * r + straight, last + r + straight, reach + roomToAny)
  for (const k of starts) {
    cost[k] = 0
    heap.push(k, ahead(Math.floor((k >> 2) / columns), (k >> 2) % columns, k & 3))
  }
  let best = -1
  let bestCost = Infinity
  let bestEnd = -1
  for (let work = 0; work < MOST_BENDS; work++) {
    const k = heap.pop()
    if (k < 0) break
    if (done[k] === 1) continue
    done[k] = 1
    const cell = k >> 2
    const way = k & 3
    const i0 = Math.floor(cell / columns)
    const j0 = cell % columns
    const here = cost[k]!
    if (here + ahead(i0, j0, way) >= bestCost) break
    const level = way < 2
    const by = (way & 1) === 0 ? 1 : -1
    const line = level ? s : z
    const first = level ? i0 : j0
    const origin = line[first]!
    const stride = level ? by * columns : by
    const stop = by > 0 ? line.length : -1
    const no = BLOCKED | (level ? NO_LEVEL : NO_UPRIGHT)
    const crosses = level ? NO_UPRIGHT : NO_LEVEL
    const start = isStart[k] === 1
    if (!start && here >= passing[k]! + CHEAPER_MM) continue
    const least = (start ? r : 2 * r) + straight - EPS
    const goalLeast = last + (start ? 0 : r + straight)
    const turn = level ? 2 : 0
    let more = 0
    let over = false
    let soft = (bits[cell]! & SOFT) !== 0
    // No bend before this: a saddle of its own ends there.
    let free = 0
    for (let at = cell + stride, p = first + by; p !== stop; at += stride, p += by) {
      const bit = bits[at]!
      const ran = Math.abs(line[p]! - origin)
      if (here + ran + more >= bestCost) break
      if (((goals[at]! >> way) & 1) === 1 && ran >= Math.max(goalLeast, free === 0 ? 0 : free + roomToEnd) - EPS) {
        const whole = here + ran + more
        if (whole < bestCost - EPS) {
          bestCost = whole
          best = k
          bestEnd = at
        }
      }
      if (bit === 0) {
        over = false
        soft = false
      } else {
        if ((bit & no) !== 0) break
        const steps = (bit & NO_BEND) !== 0 && (bit & crosses) !== 0
        if (steps && !over) more += SADDLE_WEIGHS_MM
        if (steps && (bit & EASY) === 0) {
          if (ran < reach + (start ? roomToEnd : roomToBend)) break
          free = ran + reach
        }
        over = steps
        if ((bit & SOFT) !== 0) more += soft ? SOFT_WEIGHS_MM : RIP_WEIGHS_MM
        soft = (bit & SOFT) !== 0
        if ((bit & NO_BEND) !== 0) continue
      }
      if (!start && (free === 0 || ran >= free + roomToAny)) {
        const pass = here + ran + more
        const m = 4 * at + way
        if (pass >= straightOn[m]! + CHEAPER_MM) break
        if (pass < passing[m]!) passing[m] = pass
        if (ran >= longEnough && pass < straightOn[m]!) straightOn[m] = pass
      }
      if (ran < least || (free > 0 && ran < free + roomToBend)) continue
      if (way === 2 && across && p === columns - 1) {
        const n = crossing(i0)
        const next = here + ran + more + task.strip.endMm + 2 * QUARTER_WEIGHS_MM
        if (n >= 0 && next < cost[n]! - EPS) {
          cost[n] = next
          cameFrom[n] = k
          heap.push(n, next + ahead(Math.floor((n >> 2) / columns), columns - 1, 3))
        }
      }
      const next = here + ran + more + QUARTER_WEIGHS_MM
      const n = 4 * at + turn
      const i = level ? p : i0
      const j = level ? j0 : p
      if (next < cost[n]! - EPS && next < passing[n]! + CHEAPER_MM) {
        const whole = next + ahead(i, j, turn)
        if (whole < bestCost) {
          cost[n] = next
          cameFrom[n] = k
          heap.push(n, whole)
        }
      }
      if (next < cost[n + 1]! - EPS && next < passing[n + 1]! + CHEAPER_MM) {
        const whole = next + ahead(i, j, turn + 1)
        if (whole < bestCost) {
          cost[n + 1] = next
          cameFrom[n + 1] = k
          heap.push(n + 1, whole)
        }
      }
    }
  }
  if (best < 0) return null
  const place = (cell: number): readonly [number, number] => [s[Math.floor(cell / columns)]!, z[cell % columns]!]
  const corners: (readonly [number, number])[] = [place(bestEnd)]
  let ceilingAfter: number | null = null
  for (let k = best; k >= 0; k = cameFrom[k]!) {
    const here = place(k >> 2)
    corners.push(here)
    const before = cameFrom[k]!
    if (before < 0) break
    const was = place(before >> 2)
    if (Math.abs(was[0] - here[0]) < EPS || Math.abs(was[1] - here[1]) < EPS || (before & 3) !== 2) continue
    // Up its wall, across the ceiling, and on from there: once.
    if (ceilingAfter !== null) return null
    corners.push([was[0], here[1]])
    ceilingAfter = corners.length - 1
  }
  const whole = corners.length - 1
  const after = ceilingAfter === null ? null : whole - ceilingAfter
  return { cornersMm: corners.toReversed(), ceilingAfter: to.reach === 'across the ceiling' ? whole : after }
}

/** From one long wall to the other, over the ceiling. */
const mayCross = ({ from, to }: PairTask): boolean =>
  from.wall !== to.wall && from.wall !== 'blind end' && to.wall !== 'blind end' && to.reach !== 'across the ceiling'

/** What a way still costs at least from a place in a direction: straight to the other end, by its bends; or over the ceiling. */
function aheadOf(task: PairTask, { s, z }: Grid): (i: number, j: number, way: number) => number {
  const { strip, to } = task
  const [low, high] = to.reach === 'across the ceiling' ? [z[z.length - 1]!, z[z.length - 1]!] : [to.lowMm, to.highMm]
  const off = (x: number, from: number, upTo: number) => Math.max(0, from - x, x - upTo)
  const across = mayCross(task)
  const top = z[z.length - 1]!
  const offS = Float64Array.from(s, (x) => off(x, to.fromMm, to.toMm))
  const offZ = Float64Array.from(z, (y) => off(y, low, high))
  // What is left of the way over the ceiling, but for the height; infinite where there is no such way.
  const overS = Float64Array.from(s, (x) =>
    !across || wallAt(strip, x) === to.wall
      ? Infinity
      : off(opposed(strip, x), to.fromMm, to.toMm) + strip.endMm + 2 * QUARTER_WEIGHS_MM + Math.max(0, top - high),
  )
  return (i, j, way) => {
    const x = s[i]!
    const y = z[j]!
    const ds = offS[i]!
    const dz = offZ[j]!
    const before = way === 0 ? x < to.toMm : way === 1 ? x > to.fromMm : way === 2 ? y < high : y > low
    const turns = before ? ((way < 2 ? dz : ds) > 0 ? 1 : 0) : ds + dz > 0 ? 2 : 0
    return Math.min(ds + dz + turns * QUARTER_WEIGHS_MM, overS[i]! + (top - y))
  }
}

/** The state in which a way comes down the other long wall when it crosses the ceiling from this column; −1 where it cannot. */
function overhead(task: PairTask, grid: Grid, i: number): number {
  const { s, z, bits } = grid
  const wall = wallAt(task.strip, s[i]!)
  if (wall === 'blind end' || overheadBlock(task, s[i]!) !== null) return -1
  const across = opposed(task.strip, s[i]!)
  const there = s.findIndex((x) => Math.abs(x - across) < EPS)
  if (there < 0) return -1
  const at = there * z.length + z.length - 1
  return (bits[at]! & (BLOCKED | NO_UPRIGHT)) !== 0 ? -1 : at * 4 + 3
}

/** Cheapest first to a finger's breadth; of those the one that was put in last. */
class Buckets {
  private readonly at: number[][] = []
  private first = 0

  push(key: number, cost: number): void {
    const n = Math.floor(cost / BUCKET_MM)
    const bucket = this.at[n]
    if (bucket === undefined) this.at[n] = [key]
    else bucket.push(key)
    if (n < this.first) this.first = n
  }

  pop(): number {
    for (; this.first < this.at.length; this.first++) {
      const key = this.at[this.first]?.pop()
      if (key !== undefined) return key
    }
    return -1
  }
}
const BUCKET_MM = 16
const NOT_ASKED = -2
const CHEAPER_MM = 1e-3

const EPS = 1e-6
