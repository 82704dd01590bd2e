import type { BoxBody } from '../../box/index.ts'
import type { Fixing, PlacedItem, PointMm, StrutPiece } from '../../job/index.ts'
import type { Clash, Spot, Task } from './plan-of.ts'
import {
  CHANNEL_MM,
  LEVEL_FIRST_MM,
  LEVEL_STEP_MM,
  SECTION,
  SECTION_DOUBLE,
  TWO_RAILS_MM,
  UPRIGHT_LEAST_MM,
  UPRIGHT_MOST_MM,
} from './rules.ts'
import { isHole, pointOn, type Rect, type Wall } from './wall.ts'

/** Channel of one box, and which pieces carry which thing. */
export interface Grid {
  readonly strut: readonly StrutPiece[]
  /** Ids of pieces, by id of the thing. */
  readonly carries: Readonly<Record<string, readonly string[]>>
}

/**
 * Channel behind everything that hangs: uprights on inner flats in whole pitches, rails between them at the levels that things need, level
 * with the uprights' faces; rails on outer flats outside; rails across the ceiling between the top side rails; bearers under what stands.
 */
export function gridFor(task: Pick<Task, 'body' | 'walls'>, spots: readonly Spot[]): Grid {
  const strut: StrutPiece[] = []
  const carries: Record<string, string[]> = {}
  for (const wall of task.walls.values()) {
    const here = spots.filter((s) => s.side === wall.side && s.face === wall.face)
    if (wall.face === 'inside') ladder(wall, here, strut, carries)
    else outer(wall, here, strut, carries)
  }
  ceiling(
    task.body,
    spots.filter((s) => s.side === 'roof'),
    strut,
    carries,
  )
  for (const spot of spots.filter((s) => s.side === 'floor')) bearers(task.body, spot, strut, carries)
  return {
    strut: strut.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    carries: Object.fromEntries(Object.entries(carries).map(([id, by]) => [id, by.toSorted()])),
  }
}

/** Things behind which no channel passes: an opening or a dent lies where their rails would. */
export function floatClashes(task: Pick<Task, 'walls'>, spots: readonly Spot[], grid: Grid): readonly Clash[] {
  return spots.flatMap((spot) => {
    if (grid.carries[spot.item.id] !== undefined) return []
    const wall = task.walls.get(`${spot.side} ${spot.face}`)
    const [from, to] = edges(spot)
    const near = wall?.holes.toSorted((a, b) => gapTo(a, from, to) - gapTo(b, from, to) || (a.id < b.id ? -1 : 1))[0]
    return [{ what: spot.item.id, against: near?.id ?? `${spot.side} without channel`, byMm: CHANNEL_MM }]
  })
}

const gapTo = (hole: Rect, from: number, to: number): number => Math.max(hole.fromMm - to, from - hole.toMm, 0)

type Carries = Record<string, string[]>
const carry = (carries: Carries, item: string, piece: string) => {
  const had = carries[item]
  if (had === undefined) carries[item] = [piece]
  else if (!had.includes(piece)) had.push(piece)
}

/** Levels of the rails behind a thing, from the underside of the box: those of the house grid that it covers, else its own middle. */
export function railLevels(floorMm: number, spot: Pick<Spot, 'zMm' | 'item'>): readonly number[] {
  const half = spot.item.part.heightMm / 2
  // A fan stands before its opening: the rails pass above and below it.
  if (spot.item.kind === 'fan') return [spot.zMm - half + CHANNEL_MM / 2 + 2, spot.zMm + half - CHANNEL_MM / 2 - 2]
  const levels: number[] = []
  for (let z = floorMm + LEVEL_FIRST_MM; z <= spot.zMm + half - CHANNEL_MM; z += LEVEL_STEP_MM)
    if (z >= spot.zMm - half + CHANNEL_MM) levels.push(z)
  const [first, last] = [levels[0], levels[levels.length - 1]]
  if (spot.item.part.heightMm < TWO_RAILS_MM || first === undefined || last === undefined)
    return [levels.find((l) => Math.abs(l - spot.zMm) < 1) ?? spot.zMm]
  return first === last ? [spot.zMm - half + CHANNEL_MM, spot.zMm + half - CHANNEL_MM] : [first, last]
}

const edges = (spot: Spot): readonly [number, number] => [
  spot.uMm - spot.item.part.widthMm / 2,
  spot.uMm + spot.item.part.widthMm / 2,
]

/** Uprights for things that hang between two flats: from the flat before the first to the flat after the last, 0.4–0.6 m apart where the flats allow. */
export function uprightsFor(
  wall: Pick<Wall, 'flatsMm' | 'blocked'>,
  spans: readonly (readonly [number, number])[],
): readonly number[] {
  const chosen = new Set<number>()
  for (const [from, to] of clustered(spans)) {
    const flats = wall.flatsMm
    let at = flats.findLast((u) => u <= from + 1e-6) ?? flats[0]
    if (at === undefined) continue
    chosen.add(at)
    while (at < to - 1e-6) {
      const here: number = at
      const next = nextUpright(wall, here)
      if (next === undefined) break
      chosen.add(next)
      at = next
    }
  }
  return [...chosen].toSorted((a, b) => a - b)
}

/** Farthest flat within 0.6 m, no nearer than 0.4 m where there is one; the flats on either side of what is in the way. */
function nextUpright({ flatsMm, blocked }: Pick<Wall, 'flatsMm' | 'blocked'>, at: number): number | undefined {
  const after = flatsMm.filter((u) => u > at + 1e-6)
  const barrier = Math.min(Infinity, ...blocked.filter((b) => b.fromMm > at + 1e-6 && !isHole(b)).map((b) => b.fromMm))
  const within = after.filter((u) => u <= at + UPRIGHT_MOST_MM + 1e-6 && u <= barrier + 1e-6)
  return within.findLast((u) => u >= at + UPRIGHT_LEAST_MM - 1e-6) ?? within[within.length - 1] ?? after[0]
}

/** Spans that stand less than an upright's spacing apart, and nothing between them, share their channel. */
function clustered(
  spans: readonly (readonly [number, number])[],
  parted: (from: number, to: number) => boolean = () => false,
): readonly (readonly [number, number])[] {
  const out: [number, number][] = []
  for (const [from, to] of spans.toSorted((a, b) => a[0] - b[0])) {
    const last = out[out.length - 1]
    if (last !== undefined && from - last[1] <= UPRIGHT_MOST_MM && !parted(last[1], from)) last[1] = Math.max(last[1], to)
    else out.push([from, to])
  }
  return out
}

function ladder(wall: Wall, spots: readonly Spot[], strut: StrutPiece[], carries: Carries): void {
  const uprights = uprightsFor(wall, spots.map(edges))
  const topMm = wall.ceilingMm - CHANNEL_MM - 5
  uprights.forEach((u, i) => {
    const id = `upright ${wall.side} ${i + 1}`
    const at = (z: number): PointMm => pointOn(wall, u, z)
    const fixings: readonly Fixing[] = [
      { atMm: at(wall.floorMm), how: 'weld to pad' },
      { atMm: at((wall.floorMm + topMm) / 2), how: 'weld to pad' },
      { atMm: at(topMm), how: 'weld to rail' },
    ]
    strut.push({
      id,
      use: 'upright',
      section: SECTION,
      pattern: 'holes',
      side: wall.side,
      fromMm: at(wall.floorMm),
      toMm: at(topMm),
      fixings,
    })
  })
  const levels = new Map<number, Spot[]>()
  for (const spot of spots)
    for (const z of railLevels(wall.floorMm, spot))
      levels.set(Math.round(z * 10) / 10, [...(levels.get(Math.round(z * 10) / 10) ?? []), spot])
  for (const [z, here] of [...levels].toSorted((a, b) => a[0] - b[0])) {
    for (let i = 1; i < uprights.length; i++) {
      const [from, to] = [uprights[i - 1]! + CHANNEL_MM / 2, uprights[i]! - CHANNEL_MM / 2]
      const carried = here.filter((s) => edges(s)[0] < to - 1e-6 && edges(s)[1] > from + 1e-6)
      if (carried.length === 0 || blockedAt(wall, from, to, z)) continue
      const id = `rail ${wall.side} ${i} at ${Math.round(z - wall.floorMm)}`
      for (const s of carried) carry(carries, s.item.id, id)
      const [a, b] = [pointOn(wall, from, z), pointOn(wall, to, z)]
      strut.push({
        id,
        use: 'rail',
        section: SECTION,
        pattern: 'holes',
        side: wall.side,
        fromMm: a,
        toMm: b,
        fixings: [a, b].map((atMm) => ({ atMm, how: 'channel nut' })),
      })
    }
  }
}

/** Does an opening or dent lie behind a piece of rail? */
const blockedAt = (wall: Wall, from: number, to: number, z: number): boolean =>
  wall.holes.some(
    (b) => b.fromMm < to - 1e-6 && b.toMm > from + 1e-6 && b.lowMm < z + CHANNEL_MM / 2 && b.highMm > z - CHANNEL_MM / 2,
  )

/** Rails on pads welded to the outer flats, a flat beyond their things at either end; none passes an opening. */
function outer(wall: Wall, spots: readonly Spot[], strut: StrutPiece[], carries: Carries): void {
  const levels = new Map<number, Spot[]>()
  for (const spot of spots)
    for (const z of outsideLevels(spot)) {
      const level = Math.round(z * 10) / 10
      levels.set(level, [...(levels.get(level) ?? []), spot])
    }
  for (const [z, all] of [...levels].toSorted((a, b) => a[0] - b[0])) {
    const crossing = (from: number, to: number) => blockedAt(wall, from, to, z)
    clustered(all.map(edges), crossing).forEach(([from, to], g) => {
      const here = all.filter((s) => edges(s)[0] >= from - 1e-6 && edges(s)[1] <= to + 1e-6)
      const [first, last] = bearings(wall, from, to, crossing)
      const id = `outside ${wall.side} ${g + 1} at ${Math.round(z - wall.floorMm)}`
      for (const s of here) carry(carries, s.item.id, id)
      strut.push({
        id,
        use: 'outside',
        section: SECTION,
        pattern: 'holes',
        side: wall.side,
        fromMm: pointOn(wall, Math.min(first - CHANNEL_MM / 2, from), z),
        toMm: pointOn(wall, Math.max(last + CHANNEL_MM / 2, to), z),
        fixings: padsBetween(wall, first, last).map((u) => ({ atMm: pointOn(wall, u, z), how: 'weld to pad' as const })),
      })
    })
  }
}

/** Outer flats that a rail reaches to at either end: beyond its things where no opening lies between, two at least where there are two. */
function bearings(
  wall: Wall,
  from: number,
  to: number,
  crossing: (from: number, to: number) => boolean,
): readonly [number, number] {
  const open = wall.flatsMm.filter((u) => !crossing(Math.min(u, from), Math.max(u, to)))
  const before = open.filter((u) => u <= from + 1e-6)
  const after = open.filter((u) => u >= to - 1e-6)
  const first = before[before.length - 1] ?? open[0] ?? from
  const last = after[0] ?? open[open.length - 1] ?? to
  if (last - first > 1e-6) return [first, last]
  return [before[before.length - 2] ?? first, after[1] ?? last]
}

/** Half of a pad's reach on one flat, where a rail has but that one. */
const PAD_MM = 25

function padsBetween(wall: Wall, first: number, last: number): readonly number[] {
  const flats = wall.flatsMm.filter((u) => u >= first - 1e-6 && u <= last + 1e-6)
  return flats.length >= 2 ? flats : [(flats[0] ?? first) - PAD_MM, (flats[0] ?? last) + PAD_MM]
}

/** Half the distance between two outside rails: of what is large, and of a meter base. */
const OUTSIDE_HALVES_MM = [280, 120] as const

/** Rails behind an outside thing: two about its middle, so that neighbours of one height share them. */
function outsideLevels(spot: Spot): readonly number[] {
  // A receptacle stands over the hole of its raceway: its rail passes above it.
  if (spot.item.kind === 'receptacle') return [spot.zMm + spot.item.part.heightMm / 2 - CHANNEL_MM / 2 - 2]
  const half = OUTSIDE_HALVES_MM.find((h) => h <= spot.item.part.heightMm / 2 - CHANNEL_MM)
  return half === undefined ? [spot.zMm] : [spot.zMm - half, spot.zMm + half]
}

/** Half the distance between the two rails of a strip of light. */
const LIGHT_RAIL_MM = 400

/** Across the box between the top side rails, nothing through the roof: two behind each strip, moved off the uprights below. */
function ceiling(body: BoxBody, spots: readonly Spot[], strut: StrutPiece[], carries: Carries): void {
  const [, y0] = body.insideAtMm
  const z = body.insideAtMm[2] + body.insideMm[2]
  const wanted = spots.flatMap((s) =>
    s.item.part.widthMm > 2 * LIGHT_RAIL_MM ? [s.uMm - LIGHT_RAIL_MM, s.uMm + LIGHT_RAIL_MM] : [s.uMm],
  )
  const xs = [...new Set(wanted.map((x) => Math.round(x)))].toSorted((a, b) => a - b)
  xs.forEach((x, i) => {
    const id = `ceiling ${i + 1}`
    const [a, b]: readonly PointMm[] = [
      [x, y0, z],
      [x, y0 + body.insideMm[1], z],
    ]
    if (a === undefined || b === undefined) return
    for (const s of spots)
      if (edges(s)[0] <= x + CHANNEL_MM / 2 && edges(s)[1] >= x - CHANNEL_MM / 2) carry(carries, s.item.id, id)
    strut.push({
      id,
      use: 'ceiling rail',
      section: SECTION,
      pattern: 'holes',
      side: 'roof',
      fromMm: a,
      toMm: b,
      fixings: [a, b].map((atMm) => ({ atMm, how: 'weld to rail' })),
    })
  })
}

/** Two double channels along the box under what stands, over three crossmembers at least. */
function bearers(body: BoxBody, spot: Spot, strut: StrutPiece[], carries: Carries): void {
  const { widthMm, depthMm } = spot.item.part
  const [x0] = body.insideAtMm
  const longMm = Math.min(body.insideMm[0], Math.max(widthMm, 2 * body.floor.crossmemberPitchMm + CHANNEL_MM))
  const fromX = Math.min(Math.max(spot.uMm - longMm / 2, x0), x0 + body.insideMm[0] - longMm)
  for (const [k, share] of [0.2, 0.8].entries()) {
    const y = spot.zMm + (share - 0.5) * depthMm
    const [a, b]: readonly [PointMm, PointMm] = [
      [fromX, y, body.floor.topMm],
      [fromX + longMm, y, body.floor.topMm],
    ]
    const id = `bearer ${spot.item.id} ${k + 1}`
    carry(carries, spot.item.id, id)
    strut.push({
      id,
      use: 'rail',
      section: SECTION_DOUBLE,
      pattern: 'solid',
      side: 'floor',
      fromMm: a,
      toMm: b,
      fixings: [a, b].map((atMm) => ({ atMm, how: 'weld to rail' })),
    })
  }
}

/** Corner and size of each thing where it was put. */
export function placedItems(
  spots: readonly Spot[],
  grid: Grid,
  solid: (spot: Spot) => Pick<PlacedItem, 'atMm' | 'sizeMm'>,
): readonly PlacedItem[] {
  return spots
    .map((s) => ({
      id: s.item.id,
      kind: s.item.kind,
      what: s.item.what,
      part: s.item.part.id,
      side: s.side,
      face: s.face,
      ...solid(s),
      massKg: s.item.part.massKg,
      circuits: s.item.circuits,
      hangsOn: grid.carries[s.item.id] ?? [],
    }))
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
}
