import type { BoxBody, Member } from '../../box/index.ts'
import type { PointMm, Side } from '../../job/index.ts'

/** Axes of a side: across it, along it and up it. */
const AXES: Readonly<Record<Side, readonly [across: 0 | 1 | 2, along: 0 | 1 | 2, up: 0 | 1 | 2]>> = {
  left: [1, 0, 2],
  right: [1, 0, 2],
  'blind end': [0, 1, 2],
  'door end': [0, 1, 2],
  roof: [2, 0, 1],
  floor: [2, 0, 1],
}

/** Does a side lie at the least of its axis across, or at the most? */
const AT_LEAST: Readonly<Record<Side, boolean>> = {
  left: true,
  right: false,
  'blind end': true,
  'door end': false,
  roof: false,
  floor: true,
}

/** Clear size of a side inside: along and up, m. */
export function insideSizeM(body: BoxBody, side: Side): readonly [alongM: number, upM: number] {
  const [, along, up] = AXES[side]
  return [body.insideMm[along] / 1000, body.insideMm[up] / 1000]
}

export function insideAreaM2(body: BoxBody, side: Side): number {
  const [alongM, upM] = insideSizeM(body, side)
  return alongM * upM
}

const STEEL: ReadonlySet<Member['kind']> = new Set(['corner post', 'corner fitting', 'top rail', 'bottom rail', 'header', 'sill'])

/**
 * Share of a side, seen from inside, that is rail, post or header: steel through and through, which foam on the sheet between them leaves
 * bare. By the members of the body, clipped to the clear inside; members of one side do not overlap there.
 */
export function bareShareFrac(body: BoxBody, side: Side): number {
  const [across, along, up] = AXES[side]
  const nearMm = body.insideAtMm[across] + (AT_LEAST[side] ? 0 : body.insideMm[across])
  const clip = (axis: 0 | 1 | 2, from: PointMm, to: PointMm): number => {
    const low = Math.max(from[axis], body.insideAtMm[axis])
    const high = Math.min(to[axis], body.insideAtMm[axis] + body.insideMm[axis])
    return Math.max(0, high - low)
  }
  const bareMm2 = body.members
    .filter((m) => STEEL.has(m.kind))
    .filter((m) => (AT_LEAST[side] ? m.fromMm[across] <= nearMm : m.toMm[across] >= nearMm))
    .reduce((sum, m) => sum + clip(along, m.fromMm, m.toMm) * clip(up, m.fromMm, m.toMm), 0)
  return Math.min(0.99, bareMm2 / 1e6 / insideAreaM2(body, side))
}
