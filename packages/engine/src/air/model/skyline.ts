import type { BoxBody } from '../../box/index.ts'
import { type Beside, type Rise, SIDES, type Side } from '../../job/index.ts'
import { atan2, tan } from '../../kernel/index.ts'
import { amount } from '../figures.ts'
import { SIDE_TURN_DEG } from '../year/sun-on-faces.ts'

/** Bearings at which a skyline is told: every two degrees. */
const PARTS = 180
const PART_DEG = 360 / PARTS
const DEGREE = Math.PI / 180

const turned = (deg: number): number => ((deg % 360) + 360) % 360

/** Is a bearing on the way clockwise from one to another? From and to alike: all round. */
const within = (deg: number, { fromDeg, toDeg }: Rise): boolean => {
  const span = turned(toDeg - fromDeg)
  return span === 0 || turned(deg - fromDeg) <= span
}

/**
 * Skyline of each of the six sides, degrees over the level, clockwise from north in equal parts: hills told of the site, and what stands
 * beside the box, seen from the middle of a wall that looks at it, or over the roof. Undefined: flat all round.
 */
export function skylinesOf(of: {
  readonly body: BoxBody
  readonly doorFacesDeg: number
  readonly middleM: (side: Side) => number
  readonly horizon: readonly Rise[]
  readonly beside: readonly Beside[]
}): readonly (readonly number[])[] | undefined {
  const { horizon, beside } = of
  if (horizon.length === 0 && beside.length === 0) return undefined
  return SIDES.map((side) =>
    Array.from({ length: PARTS }, (_, part) => {
      const bearing = (part + 0.5) * PART_DEG
      const hills = horizon.filter((rise) => within(bearing, rise)).map((rise) => rise.heightDeg)
      const near = side === 'floor' ? [] : beside.map((one) => heightDeg(of, side, one, bearing))
      return Math.max(0, ...hills, ...near)
    }),
  )
}

/** How high a thing beside the box stands over the level at a bearing, seen from the middle of a side; 0: it does not. */
function heightDeg(of: Parameters<typeof skylinesOf>[0], side: Side, thing: Beside, bearing: number): number {
  const turn = SIDE_TURN_DEG[SIDES.indexOf(thing.side)] ?? 0
  const off = turned(bearing - of.doorFacesDeg - turn + 180) - 180
  if (Math.abs(off) >= 89) return 0
  // From the middle of the wall that looks at it, or from the middle of the box behind that wall.
  const [lengthMm, widthMm] = of.body.outsideMm
  const halfM = (thing.side === 'left' || thing.side === 'right' ? widthMm : lengthMm) / 2000
  const awayM = thing.distanceM + (side === thing.side ? 0 : halfM)
  const alongM = Math.abs(tan(off * DEGREE)) * awayM
  if (alongM > (thing.lengthM ?? amount('beside-length')) / 2) return 0
  const overM = (thing.heightM ?? amount('beside-height')) - of.middleM(side)
  const reachM = Math.sqrt(awayM * awayM + alongM * alongM)
  return overM <= 0 ? 0 : atan2(overM, reachM) / DEGREE
}
