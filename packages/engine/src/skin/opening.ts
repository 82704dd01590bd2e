import type { BodySide, BoxBody, Member } from '../box/index.ts'
import type { Opening, OpeningClass, PointMm, Side } from '../job/index.ts'
import { figure } from './figures.ts'

/** An opening on its side, in the side's own axes: along (x on long sides and roof, y on ends) and up. */
export interface OnSide {
  readonly fromMm: number
  readonly toMm: number
  readonly lowMm: number
  readonly highMm: number
}

export function onSide(opening: Pick<Opening, 'side' | 'atMm' | 'widthMm' | 'heightMm'>): OnSide {
  const along = alongOf(opening.side, opening.atMm)
  const up = upOf(opening.side, opening.atMm)
  return {
    fromMm: along - opening.widthMm / 2,
    toMm: along + opening.widthMm / 2,
    lowMm: up - opening.heightMm / 2,
    highMm: up + opening.heightMm / 2,
  }
}

export const alongOf = (side: Side, [x, y]: PointMm): number => (side === 'blind end' || side === 'door end' ? y : x)
export const upOf = (side: Side, [, y, z]: PointMm): number => (side === 'roof' || side === 'floor' ? y : z)

/** Middle of a place on the outer face of a side. */
export function faceAt(body: BoxBody, side: Side, alongMm: number, upMm: number): PointMm {
  const [lengthMm, widthMm, heightMm] = body.outsideMm
  switch (side) {
    case 'left':
      return [alongMm, 0, upMm]
    case 'right':
      return [alongMm, widthMm, upMm]
    case 'blind end':
      return [0, alongMm, upMm]
    case 'door end':
      return [lengthMm, alongMm, upMm]
    case 'roof':
      return [alongMm, upMm, heightMm]
    case 'floor':
      return [alongMm, upMm, 0]
  }
}

/**
 * What class an opening must have by its size and place: a hole on one flat, a collar, a frame, or a door framed from rail to rail.
 * @source opening rules: 60 mm, 200 mm, one rib pitch; common practice
 */
export function classNeeded(
  body: BoxBody,
  opening: Pick<Opening, 'side' | 'atMm' | 'widthMm' | 'heightMm' | 'use'>,
): OpeningClass {
  if (opening.use === 'personnel door') return 'door'
  const size = Math.max(opening.widthMm, opening.heightMm)
  const side = body.sides[opening.side]
  const place = onSide(opening)
  const pitch = side.corrugation?.pitchMm.value ?? Infinity
  if (size <= figure('hole on a flat at most').value && onOneFlat(side, place)) return 'hole on a flat'
  if (size <= figure('collar at most').value && size <= pitch) return 'collar'
  return 'framed'
}

/** Does it lie on one flat of the sheet? Where nobody measured the first rib, no place is sure. */
export function onOneFlat(side: BodySide, place: OnSide): boolean {
  if (side.corrugation === null) return true
  return side.flats.some((f) => place.fromMm >= f.fromMm - 1e-6 && place.toMm <= f.toMm + 1e-6)
}

/** Must its frame be tied to both rails? @source opening rules: over half the wall's height, or over 1.2 m wide; common practice */
export function mustReachRails(body: BoxBody, opening: Pick<Opening, 'side' | 'widthMm' | 'heightMm'>): boolean {
  const { sheet } = body.sides[opening.side]
  const tall = opening.heightMm > figure('rail to rail above share of height').value * (sheet.highMm - sheet.lowMm)
  return tall || opening.widthMm > figure('rail to rail above width').value
}

export interface Struck {
  readonly member: Member
  readonly byMm: number
}

/** Members of the frame that an opening would cut, and by how much: posts, rails and headers are never cut. */
export function struckBy(body: BoxBody, opening: Pick<Opening, 'side' | 'atMm' | 'widthMm' | 'heightMm'>): readonly Struck[] {
  const place = onSide(opening)
  return body.members
    .filter((m) => !m.mayBeCut && touchesSide(body, opening.side, m))
    .flatMap((member) => {
      const along = [alongOf(opening.side, member.fromMm), alongOf(opening.side, member.toMm)]
      const up = [upOf(opening.side, member.fromMm), upOf(opening.side, member.toMm)]
      const byAlong = Math.min(place.toMm, Math.max(...along)) - Math.max(place.fromMm, Math.min(...along))
      const byUp = Math.min(place.highMm, Math.max(...up)) - Math.max(place.lowMm, Math.min(...up))
      const byMm = Math.min(byAlong, byUp)
      return byMm > 1e-6 ? [{ member, byMm }] : []
    })
    .toSorted((a, b) => b.byMm - a.byMm || (a.member.id < b.member.id ? -1 : 1))
}

/** Does a member stand in the thickness of a side's wall? */
function touchesSide(body: BoxBody, side: Side, m: Member): boolean {
  const [lengthMm, widthMm, heightMm] = body.outsideMm
  const [x0, y0, z0] = m.fromMm
  const [x1, y1, z1] = m.toMm
  const near = WALL_MM
  switch (side) {
    case 'left':
      return y0 < near
    case 'right':
      return y1 > widthMm - near
    case 'blind end':
      return x0 < near
    case 'door end':
      return x1 > lengthMm - near
    case 'roof':
      return z1 > heightMm - near
    case 'floor':
      return z0 < near
  }
}
/** A member this near to the outer face stands in the wall. */
const WALL_MM = 40

/** Clear distance between two openings of one side; negative where they overlap. */
export function betweenMm(a: OnSide, b: OnSide): number {
  const along = Math.max(a.fromMm, b.fromMm) - Math.min(a.toMm, b.toMm)
  const up = Math.max(a.lowMm, b.lowMm) - Math.min(a.highMm, b.highMm)
  return Math.max(along, up)
}
