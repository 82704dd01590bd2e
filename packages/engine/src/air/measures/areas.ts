import type { BoxBody } from '../../box/index.ts'
import type { FitDesign, PlacedItem } from '../../job/index.ts'
import { bareShareFrac, insideAreaM2 } from '../model/bare.ts'
import { gearItems } from '../model/gear.ts'

/** Areas of one box that measures are bought by. */
export interface MeasureAreas {
  /** Outside, developed. */
  readonly roofOutM2: number
  readonly wallsOutM2: number
  /** Sheet inside between rails and posts, developed. */
  readonly roofInM2: number
  readonly wallsInM2: number
  /** Rails, posts and headers inside, of the roof and of the walls. */
  readonly roofBareM2: number
  readonly wallsBareM2: number
  /** Roof seen from above. */
  readonly roofPlanM2: number
  readonly floorM2: number
  /** Along the walls, gear that a hood stands over. */
  readonly gearM: number
}

const WALLS = ['left', 'right', 'blind end', 'door end'] as const

export function measureAreas(body: BoxBody, fit: FitDesign): MeasureAreas {
  const outM2 = (side: (typeof WALLS)[number] | 'roof') => {
    const { alongMm, upMm, corrugation } = body.sides[side]
    return ((alongMm * upMm) / 1e6) * (corrugation?.developedRatio ?? 1)
  }
  const inM2 = (side: (typeof WALLS)[number] | 'roof') =>
    insideAreaM2(body, side) * (1 - bareShareFrac(body, side)) * (body.sides[side].corrugation?.developedRatio ?? 1)
  const bareM2 = (side: (typeof WALLS)[number] | 'roof') => insideAreaM2(body, side) * bareShareFrac(body, side)
  const sum = (of: (side: (typeof WALLS)[number]) => number) => WALLS.reduce((total, side) => total + of(side), 0)
  const items = gearItems(fit).filter((i) => i.side !== 'roof')
  return {
    roofOutM2: outM2('roof'),
    wallsOutM2: sum(outM2),
    roofInM2: inM2('roof'),
    wallsInM2: sum(inM2),
    roofBareM2: bareM2('roof'),
    wallsBareM2: sum(bareM2),
    roofPlanM2: (body.outsideMm[0] * body.outsideMm[1]) / 1e6,
    floorM2: insideAreaM2(body, 'floor'),
    gearM: (['left', 'right', 'blind end', 'door end'] as const).reduce(
      (total, side) => total + coveredMm(items.filter((i) => i.side === side).map(spanMm)) / 1000,
      0,
    ),
  }
}

const spanMm = ({ side, atMm, sizeMm }: PlacedItem): readonly [number, number] => {
  const axis = side === 'left' || side === 'right' ? 0 : 1
  return [atMm[axis], atMm[axis] + sizeMm[axis]]
}

/** Length that spans cover together, each stretch once. */
function coveredMm(spans: readonly (readonly [number, number])[]): number {
  let covered = 0
  let reached = Number.NEGATIVE_INFINITY
  for (const [from, to] of spans.toSorted((a, b) => a[0] - b[0] || a[1] - b[1])) {
    covered += Math.max(0, to - Math.max(from, reached))
    reached = Math.max(reached, to)
  }
  return covered
}
