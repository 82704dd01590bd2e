import type { BoxBody } from '../../box/index.ts'
import type { SkinDesign } from '../../job/index.ts'
import type { ShelfItem } from '../../parts/index.ts'
import { type Face, type Wall, type WallSide, wallOf } from './wall.ts'

/** A thing and where its middle is: u along its side, z (y on roof and floor) from the underside of the box. */
export interface Spot {
  readonly item: ShelfItem
  readonly side: WallSide | 'roof' | 'floor' | 'door end'
  readonly face: Face
  readonly uMm: number
  readonly zMm: number
  readonly pinned: boolean
}

/** What could not be placed, against what, and how much room is wanting. */
export interface Clash {
  readonly what: string
  readonly against: string
  readonly byMm: number
}

/** Sides of this box: where equipment hangs, what is opposite, where people come in. */
export interface Sides {
  readonly equipment: 'left' | 'right'
  readonly opposite: 'left' | 'right'
  /** Where the working door is: a personnel door, or the cargo doors. */
  readonly door: {
    readonly side: 'left' | 'right' | 'blind end' | 'door end'
    readonly fromMm: number
    readonly toMm: number
    readonly id: string
  }
}

export interface Task {
  readonly body: BoxBody
  readonly skin: SkinDesign | null
  readonly sides: Sides
  readonly items: readonly ShelfItem[]
  readonly pinned: readonly Spot[]
  readonly handleAtMostMm: number
  /** Clear depth the rule set asks before gear worked on live, by condition, and least width and height. */
  readonly depthMm: Readonly<Record<2 | 3, number>>
  readonly leastWidthMm: number
  readonly leastHeightMm: number
  /** By side and face: `left inside`. */
  readonly walls: ReadonlyMap<string, Wall>
}

/**
 * Equipment hangs on the long side opposite the working door; where the door is in an end, on the side where cords leave, else on the left.
 * @source the trade's order of the walls. Provenance: common practice
 */
export function sidesOf(body: BoxBody, skin: SkinDesign | null): Sides {
  const door = (skin?.openings ?? []).filter((o) => o.use === 'personnel door').toSorted((a, b) => (a.id < b.id ? -1 : 1))[0]
  if (door !== undefined && (door.side === 'left' || door.side === 'right' || door.side === 'blind end')) {
    const along = door.side === 'blind end' ? 1 : 0
    const equipment = door.side === 'blind end' ? preferred(skin) : other(door.side)
    return {
      equipment,
      opposite: other(equipment),
      door: {
        side: door.side,
        fromMm: door.atMm[along] - door.widthMm / 2,
        toMm: door.atMm[along] + door.widthMm / 2,
        id: door.id,
      },
    }
  }
  const equipment = preferred(skin)
  const [, y] = body.insideAtMm
  return {
    equipment,
    opposite: other(equipment),
    door: { side: 'door end', fromMm: y, toMm: y + body.insideMm[1], id: 'cargo doors' },
  }
}

const preferred = (skin: SkinDesign | null): 'left' | 'right' => (skin?.cordSide === 'right' ? 'right' : 'left')
const other = (side: 'left' | 'right'): 'left' | 'right' => (side === 'left' ? 'right' : 'left')

/** Walls of a box from both faces, those that have sheet and flats to hang on. `lanes`: what keeps off where raceways come down. */
export function wallsOf(body: BoxBody, skin: SkinDesign | null, lanes = false): ReadonlyMap<string, Wall> {
  const walls = new Map<string, Wall>()
  for (const side of ['left', 'right', 'blind end'] as const)
    for (const face of ['inside', 'outside'] as const) {
      const wall = wallOf(body, side, face, skin, lanes)
      if (wall !== null) walls.set(`${side} ${face}`, wall)
    }
  return walls
}
