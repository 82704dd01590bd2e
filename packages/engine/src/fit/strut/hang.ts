import type { PlacedItem, StrutPiece } from '../../job/index.ts'
import { strutFigure } from '../shelf.ts'
import { axesOf, middleOf, type PieceAxes, type Vector } from './axes.ts'
import { GRAVITY_N_PER_KG, type Section } from './section.ts'

/** A bolt through a channel nut that holds a thing to a piece. */
export interface Nut {
  readonly item: string
  readonly piece: string
  /** From the piece's lower end, along it. */
  readonly atM: number
  readonly pointMm: Vector
  readonly inLastInch: boolean
}

/** A thing that says it hangs on a piece but does not sit on it: by how many millimetres, along which way. */
export interface Miss {
  readonly item: string
  readonly piece: string
  readonly byMm: number
  readonly way: 'along the channel' | 'across the channel' | 'off its face' | 'there is no such piece'
}

export interface Hung {
  readonly nuts: readonly Nut[]
  readonly misses: readonly Miss[]
}

/** Where the nuts of a thing sit on the pieces that carry it: near both edges of it, or one in the middle where it is narrow. */
export function nutsOf(
  item: PlacedItem,
  pieces: ReadonlyMap<string, { readonly piece: StrutPiece; readonly section: Section }>,
): Hung {
  const nuts: Nut[] = []
  const misses: Miss[] = []
  const touch = strutFigure('touch').value
  for (const id of item.hangsOn) {
    const held = pieces.get(id)
    if (held === undefined) {
      misses.push({ item: item.id, piece: id, byMm: Number.NaN, way: 'there is no such piece' })
      continue
    }
    const axes = axesOf(held.piece)
    const miss = missOf(item, held.piece, held.section, axes, touch)
    if (miss !== null) {
      misses.push(miss)
      continue
    }
    // A nut keeps off the item's edge, and off the channel's last inch where there is room.
    const inset = strutFigure('nut-from-edge').value
    const off = strutFigure('end-of-channel').value
    const low = Math.max(item.atMm[axes.along] + inset, axes.fromMm + off)
    const high = Math.min(item.atMm[axes.along] + item.sizeMm[axes.along] - inset, axes.toMm - off)
    const at =
      high - low >= strutFigure('second-nut-from').value - 2 * inset
        ? [low, high]
        : [Math.min(Math.max((low + high) / 2, axes.fromMm), axes.toMm)]
    for (const u of at) nuts.push(nutAt(item.id, held.piece, held.section, axes, u))
  }
  return { nuts, misses }
}

function nutAt(item: string, piece: StrutPiece, section: Section, axes: PieceAxes, u: number): Nut {
  const point: [number, number, number] = [...piece.fromMm]
  point[axes.along] = u
  point[axes.look] += axes.lookSign * section.depthM * 1000
  const end = strutFigure('end-of-channel').value
  return {
    item,
    piece: piece.id,
    atM: (u - axes.fromMm) / 1000,
    pointMm: point,
    inLastInch: Math.min(u - axes.fromMm, axes.toMm - u) < end - 1e-9,
  }
}

function missOf(item: PlacedItem, piece: StrutPiece, section: Section, axes: PieceAxes, touch: number): Miss | null {
  const say = (byMm: number, way: Miss['way']): Miss => ({ item: item.id, piece: piece.id, byMm, way })
  const low = item.atMm[axes.along]
  const high = low + item.sizeMm[axes.along]
  const short = Math.max(low - axes.toMm, axes.fromMm - high)
  if (short >= 0) return say(short, 'along the channel')
  const half = (section.widthM * 1000) / 2
  const across = item.atMm[axes.across]
  const beside = Math.max(
    across - (piece.fromMm[axes.across] + half),
    piece.fromMm[axes.across] - half - (across + item.sizeMm[axes.across]),
  )
  if (beside > touch) return say(beside, 'across the channel')
  const face = piece.fromMm[axes.look] + axes.lookSign * section.depthM * 1000
  const back = axes.lookSign === 1 ? item.atMm[axes.look] : item.atMm[axes.look] + item.sizeMm[axes.look]
  const off = Math.abs(back - face)
  return off > touch ? say(off, 'off its face') : null
}

/** Force on a nut in the axes of the container, and what its lips and its friction take of twist, as force. */
export interface NutForce {
  readonly nut: Nut
  readonly forceN: Vector
  readonly pryN: number
  readonly twistN: number
}

/**
 * How a stiff thing shares its weight, and what a vehicle adds, among its nuts: every nut alike elastic along and across the channel and
 * away from it, and, where the nuts alone cannot hold it from turning, with the channel's half width as a lever.
 *
 *   forces Fi = k·(δ + θ×ri), turning Mi = k·ρ²·θ;   ΣFi = F, Σ(ri×Fi + Mi) = 0 about the middle of mass
 *
 * @param g acceleration in the axes of the container, times gravity: standing is [0, 0, −1]
 * @source elastic group of fasteners. Provenance: computed; the lever: common practice
 */
export function nutForces(
  item: PlacedItem,
  nuts: readonly Nut[],
  massKg: number,
  g: Vector,
  pieces: ReadonlyMap<string, { readonly axes: PieceAxes }>,
): readonly NutForce[] {
  if (nuts.length === 0) return []
  const middle = middleOf(item.atMm, item.sizeMm)
  const arms = nuts.map((nut) => nut.pointMm.map((x, i) => (x - (middle[i] as number)) / 1000) as unknown as Vector)
  const reach = strutFigure('nut-reach').value / 1000
  const load = g.map((x) => x * massKg * GRAVITY_N_PER_KG)
  const matrix = groupMatrix(arms, reach)
  const [dx, dy, dz, tx, ty, tz] = solve6(matrix, [...load, 0, 0, 0]) as unknown as readonly [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const turn: Vector = [tx, ty, tz]
  return nuts.map((nut, i) => {
    const r = arms[i] as Vector
    const forceN: Vector = [dx + ty * r[2] - tz * r[1], dy + tz * r[0] - tx * r[2], dz + tx * r[1] - ty * r[0]]
    const { axes } = pieces.get(nut.piece) as { readonly axes: PieceAxes }
    return {
      nut,
      forceN,
      pryN: Math.hypot(turn[axes.along], turn[axes.across]) * reach,
      twistN: Math.abs(turn[axes.look]) * reach,
    }
  })
}

/** Stiffness of the group about the middle of mass, of unit springs. */
function groupMatrix(arms: readonly Vector[], reach: number): number[][] {
  const m = Array.from({ length: 6 }, () => [0, 0, 0, 0, 0, 0])
  const put = (i: number, j: number, v: number) => {
    const row = m[i] as number[]
    row[j] = (row[j] as number) + v
  }
  for (const [x, y, z] of arms) {
    // θ×r as a matrix, and its transpose for the moments.
    const cross = [
      [0, z, -y],
      [-z, 0, x],
      [y, -x, 0],
    ]
    for (let i = 0; i < 3; i++) {
      put(i, i, 1)
      put(3 + i, 3 + i, reach * reach)
      for (let j = 0; j < 3; j++) {
        const c = (cross[i] as number[])[j] as number
        put(i, 3 + j, c)
        put(3 + j, i, c)
        for (let k = 0; k < 3; k++) put(3 + j, 3 + k, c * ((cross[i] as number[])[k] as number))
      }
    }
  }
  return m
}

function solve6(matrix: number[][], right: number[]): readonly number[] {
  const a = matrix.map((row, i) => [...row, right[i] as number])
  for (let i = 0; i < 6; i++) {
    let pivot = i
    for (let r = i + 1; r < 6; r++)
      if (Math.abs((a[r] as number[])[i] as number) > Math.abs((a[pivot] as number[])[i] as number)) pivot = r
    ;[a[i], a[pivot]] = [a[pivot] as number[], a[i] as number[]]
    const row = a[i] as number[]
    for (let r = 0; r < 6; r++) {
      if (r === i) continue
      const other = a[r] as number[]
      const factor = (other[i] as number) / (row[i] as number)
      if (factor !== 0) for (let c = i; c < 7; c++) other[c] = (other[c] as number) - factor * (row[c] as number)
    }
  }
  return a.map((row, i) => (row[6] as number) / (row[i] as number))
}
