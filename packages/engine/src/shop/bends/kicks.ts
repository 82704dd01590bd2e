import { cos } from '../../kernel/index.ts'
import { bare, type Feature, freeMm, lackMm, lined, type Made } from './feature.ts'
import { offsetMultiplier, radOf, tangentMm } from './geometry.ts'

/** A kick flatter than this cannot be told from a pipe that is not straight. House rule. */
const FLATTEST_DEG = 3
/** Half of a strap, or of a raceway that steps over, in mm. House rule. */
const HOLD_MM = 20

/**
 * A step into a box behind a corner, made with one bend in the leg before that corner in place of two behind it: the whole of the last leg
 * then stands off by the rise and enters the box square.
 *
 *   L = rise / sin θ along the pipe, rise / tan θ along the axis, from the kick's corner to that of the quarter
 *
 * θ is the steepest whole degree, at most the offset's own, that leaves the bender its hold between kick and quarter and before the kick.
 * No kick at a corner out of the wall: the step lies in its plane there. None where a raceway steps over what it would lift, or where the straps it
 * lifts have no other place within the rule. Published kicks are measured so from the back of the 90.
 */
export function withKicks(all: readonly Feature[], lengthMm: number, made: Made): readonly Feature[] {
  return kicked(kicked(all, lengthMm, made, 'from'), lengthMm, made, 'to')
}

function kicked(all: readonly Feature[], lengthMm: number, made: Made, end: 'from' | 'to'): readonly Feature[] {
  if (!made.flat[end === 'from' ? 0 : 1]) return all
  const pair = end === 'from' ? all.slice(0, 2) : all.slice(-2)
  const step = pair.find((f) => f.kind === 'offset' && f.made === 'bent' && f.atMm < lengthMm / 2 === (end === 'from'))
  const corner = pair.find((f) => f.kind === 'quarter' && f.made === 'bent')
  if (step === undefined || corner === undefined) return all
  const rest = all.filter((f) => f !== step)
  for (let deg = Math.floor(step.angleDeg + 1e-9); deg >= FLATTEST_DEG; deg--) {
    const kick = kickOf(step.riseMm, deg, corner.atMm, made, end)
    const now = end === 'from' ? [corner, kick, ...rest.slice(1)] : [...rest.slice(0, -1), kick, corner]
    if (fits(now, kick, lengthMm, made)) return now
  }
  return all
}

function kickOf(riseMm: number, angleDeg: number, cornerMm: number, { radiusMm }: Made, end: 'from' | 'to'): Feature {
  const runMm = riseMm * offsetMultiplier(angleDeg) * cos(radOf(angleDeg))
  return {
    ...bare('kick', 'bent', end === 'from' ? cornerMm + runMm : cornerMm - runMm),
    riseMm,
    angleDeg,
    corners: [{ offMm: 0, angleDeg, legMm: 0 }],
    reachMm: tangentMm(radiusMm, angleDeg),
    kicks: end === 'from' ? 'before' : 'after',
  }
}

/** Nothing lacks beside the kick or its corner, and nothing holds down what it lifts. */
function fits(all: readonly Feature[], kick: Feature, lengthMm: number, made: Made): boolean {
  const line = lined(all, lengthMm)
  const i = line.indexOf(kick)
  const from = kick.kicks === 'after' ? i - 1 : i - 2
  const lacks = [from, from + 1, from + 2].some((k) => lackMm(line[k]!, line[k + 1]!) > 1e-6)
  if (lacks || made.passedMm.some((mm) => lifts(kick, mm))) return false
  const straps = strapsUnder(kick, made.strapsMm, lengthMm, made)
  if (straps === null) return false
  // A strap that moved sits on straight pipe.
  const beside = kick.kicks === 'after' ? freeMm(line[i - 1]!, kick) : freeMm(kick, line[i + 1]!)
  return straps.every((mm) => made.strapsMm.includes(mm)) || beside >= 2 * HOLD_MM
}

const lifts = (kick: Feature, mm: number): boolean =>
  kick.kicks === 'after' ? mm > kick.atMm - kick.reachMm - HOLD_MM + 1e-6 : mm < kick.atMm + kick.reachMm + HOLD_MM - 1e-6

/**
 * Straps of a raceway with this feature in it: those that a kick lifts off the channel go, and unless another is near enough to the box by
 * the rule one stands right before the kick. Null where that one would be too far from the box.
 *
 * @source NEC 358.30 and its like, by the rule set
 */
export function strapsUnder(f: Feature, strapsMm: readonly number[], lengthMm: number, made: Made): readonly number[] | null {
  if (f.kicks === null || !strapsMm.some((mm) => lifts(f, mm))) return strapsMm
  const [boxMm, side] = f.kicks === 'after' ? [lengthMm, -1] : [0, 1]
  const near = (mm: number): boolean => Math.abs(boxMm - mm) <= made.strapFromBoxMm
  const kept = strapsMm.filter((mm) => !lifts(f, mm))
  if (kept.some(near)) return kept
  const place = f.atMm + side * (f.reachMm + HOLD_MM)
  return near(place) ? [...kept, place].toSorted((a, b) => a - b) : null
}
