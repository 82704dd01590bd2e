import type { BoxBody } from '../../box/index.ts'
import type { ItemKind, Opening, OpeningUse, PointMm, SkinDesign } from '../../job/index.ts'
import { CHANNEL_MM, HOLE_GAP_MM, HOLE_MOST_MM, OPENING_GAP_MM, TOLERANCE_MM } from './rules.ts'

export type WallSide = 'left' | 'right' | 'blind end'
export type Face = 'inside' | 'outside'

/** A rectangle on a wall: u along it (x on long sides, y on the blind end), z from the underside of the box. */
export interface Rect {
  readonly id: string
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
  /** Kinds that may stand before it: those that an opening leads into. */
  readonly before?: readonly ItemKind[]
  /** Room for a raceway that comes down: kept free as long as there is another place. */
  readonly lane?: true
}

/** Openings that lead into what stands before them. */
export const LEADS_INTO: Readonly<Partial<Record<OpeningUse, readonly ItemKind[]>>> = {
  fan: ['fan'],
  'meter entry': ['meter', 'service disconnect'],
  'raceway entry': ['meter', 'service disconnect', 'transfer', 'panel', 'junction box', 'surge device'],
  stub: ['stub', 'junction box'],
}

/** A wall seen from one face: where on it things may hang, where channel finds a flat, and what is in the way. */
export interface Wall {
  readonly side: WallSide
  readonly face: Face
  readonly fromMm: number
  readonly toMm: number
  /** Of the plane that the back of the channel lies on, across the wall. */
  readonly planeMm: number
  /** +1 where things stand towards greater y (x on the blind end), −1 the other way. */
  readonly out: 1 | -1
  readonly floorMm: number
  readonly ceilingMm: number
  /** Middles of the flats that this face's channel can bear on: none in a dent or an opening. Things hang between the first and the last. */
  readonly flatsMm: readonly number[]
  /** Where no thing hangs: openings with room about them, dents, doors that swing. */
  readonly blocked: readonly Rect[]
  /** Openings and dents by their own edges: where no channel passes. */
  readonly holes: readonly Rect[]
}

/** Left free at each end of the blind end, so that things on it and on the long sides do not meet in the corner. */
const CORNER_MM = 480

/** The wall of a side from one face, with dents, openings and swings of doors as what is in the way. Null: no sheet to hang on. */
export function wallOf(body: BoxBody, side: WallSide, face: Face, skin: SkinDesign | null, lanes = false): Wall | null {
  const s = body.sides[side]
  if (s.corrugation === null) return null
  const along = side === 'blind end' ? 1 : 0
  const across = side === 'blind end' ? 0 : 1
  const insideFrom = body.insideAtMm[along]
  const insideTo = insideFrom + body.insideMm[along]
  const corner = side === 'blind end' ? CORNER_MM : TOLERANCE_MM
  const outer = face === 'outside'
  const fromMm = outer ? s.sheet.fromMm : Math.max(insideFrom + corner, s.sheet.fromMm)
  const toMm = outer ? s.sheet.toMm : Math.min(insideTo - corner, s.sheet.toMm)
  const far = side === 'right'
  const inPlane = body.insideAtMm[across] + (far ? body.insideMm[across] : 0)
  const outPlane = far ? body.outsideMm[across] : 0
  const inwards = far ? -1 : 1
  const holes = [...dents(body, side), ...openings(side, skin, () => 0)]
  const swing = face === 'outside' ? swings(body, side, skin) : []
  const kind = face === 'inside' ? 'inner' : 'outer'
  const flatsMm = s.flats
    .filter((f) => f.kind === kind)
    .map((f) => (f.fromMm + f.toMm) / 2)
    .filter((u) => u >= fromMm + CHANNEL_MM / 2 && u <= toMm - CHANNEL_MM / 2)
    .filter((u) => !holes.some((b) => u + CHANNEL_MM > b.fromMm && u - CHANNEL_MM < b.toMm && !isHole(b)))
  const [first, last] = [flatsMm[0], flatsMm[flatsMm.length - 1]]
  if (first === undefined || last === undefined) return null
  const ceilingMm = body.insideAtMm[2] + body.insideMm[2]
  return {
    side,
    face,
    fromMm: first,
    toMm: last,
    planeMm: face === 'inside' ? inPlane : outPlane,
    out: (face === 'inside' ? inwards : -inwards) as 1 | -1,
    floorMm: body.floor.topMm,
    ceilingMm,
    flatsMm,
    blocked: [
      ...[...dents(body, side), ...openings(side, skin, roomAbout), ...swing].map((b) =>
        isHole(b) ? b : widened(b, flatsMm, first, last),
      ),
      ...(lanes && face === 'inside' ? lanesOver(side, skin, ceilingMm) : []),
    ],
    holes,
  }
}

/** What is in the way, up to the flats on either side: between them no channel finds a bearing. */
function widened(b: Rect, flats: readonly number[], first: number, last: number): Rect {
  const before = flats.filter((u) => u <= b.fromMm)
  return {
    ...b,
    fromMm: before[before.length - 1] ?? Math.min(b.fromMm, first),
    toMm: flats.find((u) => u >= b.toMm) ?? Math.max(b.toMm, last),
  }
}

function dents(body: BoxBody, side: WallSide): readonly Rect[] {
  return body.sides[side].dents.map((d, i) => ({
    id: `dent ${i + 1}`,
    fromMm: d.fromMm,
    toMm: d.toMm,
    lowMm: d.lowMm,
    highMm: d.highMm,
  }))
}

/** Room about an opening: its frame and weld, or the raceway that comes through a hole. */
const roomAbout = (o: Opening): number => (o.shape === 'round' ? HOLE_GAP_MM : OPENING_GAP_MM)

/** A hole so small that channel passes on either side of it without losing a bearing. */
export const isHole = (r: Rect): boolean => r.toMm - r.fromMm <= HOLE_MOST_MM

function openings(side: WallSide, skin: SkinDesign | null, about: (o: Opening) => number): readonly Rect[] {
  const along = side === 'blind end' ? 1 : 0
  return (skin?.openings ?? [])
    .filter((o) => o.side === side)
    .map((o) => {
      const before = LEADS_INTO[o.use]
      return {
        id: o.id,
        fromMm: o.atMm[along] - o.widthMm / 2 - about(o),
        toMm: o.atMm[along] + o.widthMm / 2 + about(o),
        lowMm: o.atMm[2] - o.heightMm / 2 - about(o),
        highMm: o.atMm[2] + o.heightMm / 2 + about(o),
        ...(before === undefined ? {} : { before }),
      }
    })
}

/** Above each hole of an outside thing: where its raceway comes down from a wireway. */
function lanesOver(side: WallSide, skin: SkinDesign | null, ceilingMm: number): readonly Rect[] {
  return openings(side, skin, (o) => (o.use === 'cord exit' && o.shape === 'round' ? LANE_MM : Number.NaN)).flatMap((r) =>
    Number.isNaN(r.fromMm) ? [] : [{ ...r, lowMm: r.highMm, highMm: ceilingMm, before: ['fan' as const], lane: true as const }],
  )
}
/** Half of what a raceway and its room take. House rule. */
const LANE_MM = 45

/** Where open doors lie against the outside of a long side: cargo leaves that fold right back, and a personnel door on either hand. */
function swings(body: BoxBody, side: WallSide, skin: SkinDesign | null): readonly Rect[] {
  const leaves = body.doors
    .filter((d) => d.side === 'door end' && d.mostDeg > 180 && side !== 'blind end')
    .filter((d) => d.hingeMm[1] < body.outsideMm[1] / 2 === (side === 'left'))
    .map((d) => ({
      id: `open ${d.id}`,
      fromMm: body.outsideMm[0] - d.widthMm,
      toMm: body.outsideMm[0],
      lowMm: d.hingeMm[2],
      highMm: d.hingeMm[2] + d.heightMm,
    }))
  const along = side === 'blind end' ? 1 : 0
  const persons = (skin?.openings ?? [])
    .filter((o) => o.use === 'personnel door' && o.side === side)
    .map((o) => ({
      id: `open ${o.id}`,
      fromMm: o.atMm[along] - 1.5 * o.widthMm,
      toMm: o.atMm[along] + 1.5 * o.widthMm,
      lowMm: o.atMm[2] - o.heightMm / 2,
      highMm: o.atMm[2] + o.heightMm / 2,
    }))
  return [...leaves, ...persons]
}

/** Corner and size in the box of a thing on a wall: `u`, `z` its middle, on the face of the channel or `offMm` from the wall. */
export function solidAt(
  wall: Pick<Wall, 'side' | 'planeMm' | 'out'>,
  of: {
    readonly uMm: number
    readonly zMm: number
    readonly widthMm: number
    readonly heightMm: number
    readonly depthMm: number
  },
  offMm: number = CHANNEL_MM,
): { readonly atMm: PointMm; readonly sizeMm: PointMm } {
  const near = wall.planeMm + wall.out * offMm
  const across = Math.min(near, near + wall.out * of.depthMm)
  const u = of.uMm - of.widthMm / 2
  const z = of.zMm - of.heightMm / 2
  return wall.side === 'blind end'
    ? { atMm: [across, u, z], sizeMm: [of.depthMm, of.widthMm, of.heightMm] }
    : { atMm: [u, across, z], sizeMm: [of.widthMm, of.depthMm, of.heightMm] }
}

/** A point on the plane of the wall. */
export const pointOn = (wall: Wall, uMm: number, zMm: number): PointMm =>
  wall.side === 'blind end' ? [wall.planeMm, uMm, zMm] : [uMm, wall.planeMm, zMm]
