import type { PlacedItem, PointMm, Side, StrutPiece } from '../../job/index.ts'

export type Axis = 0 | 1 | 2
export type Vector = readonly [number, number, number]

/** From a side into the box, as axis and sign. */
const INWARD: Record<Side, readonly [Axis, 1 | -1]> = {
  left: [1, 1],
  right: [1, -1],
  'blind end': [0, 1],
  'door end': [0, -1],
  roof: [2, -1],
  floor: [2, 1],
}

/** The way a face looks that carries something: into the box on the inside, away from it on the outside. */
export function lookOf(side: Side, face: PlacedItem['face']): { readonly axis: Axis; readonly sign: 1 | -1 } {
  const [axis, sign] = INWARD[side]
  return { axis, sign: face === 'inside' ? sign : sign === 1 ? -1 : 1 }
}

/** Axis a piece runs along, and its two others: the one its slot looks along, and the one across it. */
export interface PieceAxes {
  readonly along: Axis
  readonly look: Axis
  readonly lookSign: 1 | -1
  readonly across: Axis
  readonly fromMm: number
  readonly toMm: number
  readonly lengthM: number
}

export function axesOf(piece: StrutPiece): PieceAxes {
  const spread = [0, 1, 2].map((i) => Math.abs((piece.toMm[i] as number) - (piece.fromMm[i] as number)))
  const along = spread.indexOf(Math.max(...spread)) as Axis
  const wall = lookOf(piece.side, piece.use === 'outside' ? 'outside' : 'inside')
  // A bracket that stands out from the wall looks up: what it carries stands on it.
  const look = wall.axis === along ? (along === 2 ? 1 : 2) : wall.axis
  const lookSign = wall.axis === along ? 1 : wall.sign
  const across = (3 - along - look) as Axis
  const [a, b] = [piece.fromMm[along], piece.toMm[along]]
  return { along, look, lookSign, across, fromMm: Math.min(a, b), toMm: Math.max(a, b), lengthM: Math.abs(a - b) / 1000 }
}

/** Middle of an upright box in the axes of the container. */
export const middleOf = (at: PointMm, size: PointMm): Vector => [at[0] + size[0] / 2, at[1] + size[1] / 2, at[2] + size[2] / 2]
