import type { BoxBody } from '../../box/index.ts'
import type { PlacedItem, PointMm } from '../../job/index.ts'
import { Fault, type Step } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { lookOf } from '../strut/axes.ts'

/** Something that stands in the way, and by how much it takes of depth, width or height. */
export interface Intrusion {
  readonly against: string
  readonly way: 'depth' | 'width' | 'height'
  /** What is missing of the depth, width or height that is asked. */
  readonly byMm: number
}

/** The room kept free before one thing that is worked on live, as an upright box in the axes of the container. */
export interface WorkingSpace {
  readonly item: string
  readonly atMm: PointMm
  readonly sizeMm: PointMm
  readonly condition: 1 | 2 | 3
  readonly depthMm: number
  readonly widthMm: number
  readonly heightMm: number
  /** Free before it, to the nearest wall or thing; null outside, where no wall stands. */
  readonly freeMm: number | null
  readonly intrusions: readonly Intrusion[]
  readonly steps: readonly Step[]
}

export interface SpaceInputs {
  readonly items: readonly PlacedItem[]
  readonly body: Pick<BoxBody, 'insideAtMm' | 'insideMm' | 'outsideMm'>
  readonly rules: RuleSet
  /** Highest volts to earth of the gear. */
  readonly voltsToEarthV: number
  /** Is this thing worked on in front while live? */
  readonly workedOnLive: (item: PlacedItem) => boolean
}

/**
 * Working spaces of everything that is worked on live: depth by the rule set from the front of the enclosure, width and height never less
 * than the gear's; bare steel opposite counts as earthed (condition 2), live gear opposite as condition 3. The width may lie anywhere that
 * holds the gear: it is pushed aside to where least stands in it.
 * @throws Fault `fit/space-range` for a thing on roof or floor
 */
export function workingSpaces(inputs: SpaceInputs): readonly WorkingSpace[] {
  return inputs.items.filter(inputs.workedOnLive).map((item) => spaceOf(inputs, item))
}

function spaceOf(inputs: SpaceInputs, item: PlacedItem): WorkingSpace {
  const { rules, items, body } = inputs
  const look = lookOf(item.side, item.face)
  if (look.axis === 2) throw new Fault('fit/space-range', item.id)
  const depth: 0 | 1 = look.axis
  const side = depth === 0 ? 1 : 0
  const inside = item.face === 'inside'
  const floorMm = inside ? body.insideAtMm[2] : 0
  const front = look.sign === 1 ? item.atMm[look.axis] + item.sizeMm[look.axis] : item.atMm[look.axis]
  const wallMm = look.sign === 1 ? body.insideAtMm[look.axis] + body.insideMm[look.axis] : body.insideAtMm[look.axis]
  const toWall = inside ? Math.abs(wallMm - front) : null
  const opposite = items.some(
    (other) =>
      other.id !== item.id &&
      inside &&
      other.face === 'inside' &&
      faces(lookOf(other.side, other.face), look) &&
      inputs.workedOnLive(other) &&
      meet(item, other, side) &&
      meet(item, other, 2),
  )
  const condition = opposite ? 3 : 2
  const asked = rules.build.workingSpace({
    voltsToEarthV: inputs.voltsToEarthV,
    condition,
    equipmentWidthM: item.sizeMm[side] / 1000,
    equipmentTopM: (item.atMm[2] + item.sizeMm[2] - floorMm) / 1000,
  })
  const depthMm = asked.value.depthM * 1000
  const widthMm = asked.value.widthM * 1000
  const heightMm = asked.value.heightM * 1000
  const place = (from: number): Region => {
    const low: [number, number, number] = [0, 0, floorMm]
    const high: [number, number, number] = [0, 0, floorMm + heightMm]
    low[look.axis] = look.sign === 1 ? front : front - depthMm
    high[look.axis] = low[look.axis] + depthMm
    low[side] = from
    high[side] = from + widthMm
    return { low, high }
  }
  const edges = [
    ...(inside ? [[body.insideAtMm[side] + body.insideMm[side], body.insideAtMm[side]] as const] : []),
    ...items.flatMap((other) =>
      other.id === item.id || other.face !== item.face
        ? []
        : [[other.atMm[side], other.atMm[side] + other.sizeMm[side]] as const],
    ),
  ]
  // A wireway that lies over gear may stand out a little before it.
  const over = (other: PlacedItem): boolean =>
    other.kind === 'wireway' &&
    other.side === item.side &&
    other.atMm[2] >= item.atMm[2] + item.sizeMm[2] - EDGE_MM &&
    (look.sign === 1 ? other.atMm[look.axis] + other.sizeMm[look.axis] - front : front - other.atMm[look.axis]) <=
      1000 * rules.build.aboveGearOutM.value
  const tried = pushes(item.atMm[side], item.sizeMm[side], widthMm, edges).map((from) => {
    const region = place(from)
    const found = [
      ...(inside ? ofWalls(region, body, depth, side) : []),
      ...items.flatMap((other) =>
        other.id === item.id || other.face !== item.face || over(other) ? [] : ofItem(region, other, look, side),
      ),
    ]
    return { region, found, missing: found.reduce((sum, one) => sum + one.byMm, 0) }
  })
  const best = tried.reduce((a, b) => (b.missing < a.missing - 1e-6 ? b : a))
  const ahead = items
    .filter(
      (other) =>
        other.id !== item.id && other.face === item.face && meets(best.region, other, side) && meets(best.region, other, 2),
    )
    .map((other) => (look.sign === 1 ? other.atMm[look.axis] - front : front - other.atMm[look.axis] - other.sizeMm[look.axis]))
    .filter((gap) => gap >= 0)
  const { low, high } = best.region
  return {
    item: item.id,
    atMm: [low[0], low[1], low[2]],
    sizeMm: [high[0] - low[0], high[1] - low[1], high[2] - low[2]],
    condition,
    depthMm,
    widthMm,
    heightMm,
    freeMm: toWall === null ? (ahead.length === 0 ? null : Math.min(...ahead)) : Math.min(toWall, ...ahead),
    intrusions: best.found,
    steps: asked.steps,
  }
}

interface Region {
  readonly low: readonly [number, number, number]
  readonly high: readonly [number, number, number]
}
type Look = ReturnType<typeof lookOf>

/**
 * Near edges that a space of this width may have as far as the gear stays in it: middle on middle first, then, nearest first, both ends of
 * its play and flush against every edge in its way. What stands in it grows and shrinks on lines between these, so none other is better.
 */
function pushes(at: number, size: number, width: number, edges: readonly (readonly [number, number])[]): readonly number[] {
  const middle = at + size / 2 - width / 2
  const most = Math.max(0, (width - size) / 2)
  const flush = edges.flatMap(([low, high]) => [high, low - width]).filter((from) => Math.abs(from - middle) < most)
  return [middle - most, middle + most, ...flush, middle].sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle) || a - b)
}

const faces = (other: Look, look: Look): boolean => other.axis === look.axis && other.sign !== look.sign
const meet = (a: PlacedItem, b: PlacedItem, axis: 0 | 1 | 2): boolean =>
  a.atMm[axis] < b.atMm[axis] + b.sizeMm[axis] - EDGE_MM && b.atMm[axis] < a.atMm[axis] + a.sizeMm[axis] - EDGE_MM
const meets = (region: Region, b: PlacedItem, axis: 0 | 1 | 2): boolean =>
  region.low[axis] < b.atMm[axis] + b.sizeMm[axis] - EDGE_MM && b.atMm[axis] < region.high[axis] - EDGE_MM

/** Touching is not meeting. */
const EDGE_MM = 1e-3

function ofWalls(region: Region, body: SpaceInputs['body'], depth: 0 | 1, side: 0 | 1): readonly Intrusion[] {
  const beyond = (axis: 0 | 1 | 2, way: Intrusion['way'], names: readonly [string, string]): readonly Intrusion[] => {
    const [from, to] = [body.insideAtMm[axis], body.insideAtMm[axis] + body.insideMm[axis]]
    return [
      { against: names[0], way, byMm: from - region.low[axis] },
      { against: names[1], way, byMm: region.high[axis] - to },
    ].filter((one) => one.byMm > EDGE_MM)
  }
  return [
    ...beyond(depth, 'depth', WALLS[depth]),
    ...beyond(side, 'width', WALLS[side]),
    ...beyond(2, 'height', ['floor', 'roof']),
  ]
}

const WALLS: Record<0 | 1, readonly [string, string]> = { 0: ['blind end', 'door end'], 1: ['left wall', 'right wall'] }

/** A thing in the space takes of it by the least way out: forward of it, beside it, or above it. */
function ofItem(region: Region, other: PlacedItem, look: Look, side: 0 | 1): readonly Intrusion[] {
  if (!([0, 1, 2] as const).every((axis) => meets(region, other, axis))) return []
  const near = (axis: 0 | 1 | 2) =>
    Math.min(region.high[axis] - other.atMm[axis], other.atMm[axis] + other.sizeMm[axis] - region.low[axis])
  const depthMm =
    look.sign === 1
      ? region.high[look.axis] - other.atMm[look.axis]
      : other.atMm[look.axis] + other.sizeMm[look.axis] - region.low[look.axis]
  // A thing on the same wall is in the way by how far it comes forward of the gear's front; one opposite by how far it reaches in.
  const same = lookOf(other.side, other.face)
  const forward =
    same.axis === look.axis && same.sign === look.sign
      ? look.sign === 1
        ? other.atMm[look.axis] + other.sizeMm[look.axis] - region.low[look.axis]
        : region.high[look.axis] - other.atMm[look.axis]
      : depthMm
  const ways: readonly Intrusion[] = [
    { against: other.id, way: 'depth', byMm: forward },
    { against: other.id, way: 'width', byMm: near(side) },
    { against: other.id, way: 'height', byMm: region.high[2] - other.atMm[2] },
  ]
  return [ways.reduce((a, b) => (b.byMm < a.byMm - 1e-9 ? b : a))]
}
