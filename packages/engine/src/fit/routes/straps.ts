import type { RacewayBend } from '../../job/index.ts'

/**
 * Where straps sit along a raceway: one within `fromBox` of each end and of each pull box, never farther apart than `every`, none on a
 * bend. Distances from the beginning, mm, rising. As few as the rule lets: each as far on as it may. Where bends leave no straight place
 * within the rule the next straight place is taken, and the judgement says so.
 *
 *   a straight stretch of length l between boxes: n = 1 + ⌈(l − 2a)/s⌉ straps for l > 2a, else one; a: distance from the box, s: spacing
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
    if (to - from < HELD_BY_BOXES_MM) continue
    const places = straightPlaces(of, from, to)
    if (places.length === 0) continue
    let at = from
    let reach = SHARE * of.fromBoxMm
    while (to - at > SHARE * of.fromBoxMm || at === from) {
      const next = places.findLast((p) => p > at && p <= at + reach) ?? places.find((p) => p > at)
      if (next === undefined) break
      straps.push(next)
      at = next
      reach = SHARE * of.everyMm
    }
  }
  return straps
}

/** Every 10 mm where the raceway is straight. */
function straightPlaces(
  of: { readonly bends: readonly RacewayBend[]; readonly radiusMm: number },
  from: number,
  to: number,
): readonly number[] {
  const clear = of.radiusMm + STRAP_MM
  const places: number[] = []
  for (let p = from + STEP_MM; p < to; p += STEP_MM) if (!of.bends.some((b) => Math.abs(b.atMm - p) < clear)) places.push(p)
  return places
}

/** A nipple between two boxes needs no strap of its own: both boxes hold it. Common practice. */
export const HELD_BY_BOXES_MM = 450
/** A little inside the rule, so that a strap moved by a hand's breadth still stands within it. House rule. */
const SHARE = 0.9
const STRAP_MM = 20
const STEP_MM = 10
