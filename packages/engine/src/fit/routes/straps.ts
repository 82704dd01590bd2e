import type { RacewayBend } from '../../job/index.ts'
import { leastStraps } from '../strut/formulas.ts'

/**
 * Where straps sit along a raceway of length L: one within `fromBox` of each end and of each pull box, and never farther apart than
 * `every`; none on a bend. Distances from the beginning, mm, rising.
 *
 *   in a stretch between boxes: n = 1 + ⌈(l − 2a)/s⌉ straps for l > 2a, else one in the middle; a: distance from the box, s: spacing
 *
 * @source NEC 358.30 and its like, by the rule set. The count: common practice
 */
export function strapsAlong(of: {
  readonly lengthMm: number
  readonly bends: readonly RacewayBend[]
  readonly radiusMm: number
  readonly pullsMm: readonly number[]
  readonly everyMm: number
  readonly fromBoxMm: number
}): readonly number[] {
  const ends = [0, ...of.pullsMm, of.lengthMm]
  const straps: number[] = []
  for (let i = 1; i < ends.length; i++) {
    const [from, to] = [ends[i - 1]!, ends[i]!]
    const length = to - from
    if (length < SHORTEST_MM) continue
    // A little inside the limit, so that a strap moved off a bend still stands within it.
    const a = Math.min(of.fromBoxMm * SHARE, length / 2)
    const count = leastStraps({ lengthM: length / 1000, fromBoxM: a / 1000, everyM: (of.everyMm * SHARE) / 1000 })
    for (let k = 0; k < count; k++)
      straps.push(offBend(count === 1 ? from + length / 2 : from + a + (k * (length - 2 * a)) / (count - 1), of))
  }
  return straps
}

/** A nipple between two boxes needs no strap of its own: both boxes hold it. Common practice. */
const SHORTEST_MM = 450
const SHARE = 0.8

function offBend(atMm: number, of: { readonly bends: readonly RacewayBend[]; readonly radiusMm: number }): number {
  const reach = of.radiusMm + 40
  const on = of.bends.find((b) => Math.abs(b.atMm - atMm) < reach)
  if (on === undefined) return atMm
  return atMm < on.atMm || on.atMm - reach > 0 ? on.atMm - reach : on.atMm + reach
}
