import { Fault, sin, tan } from '../../kernel/index.ts'

export const radOf = (deg: number): number => (deg * Math.PI) / 180

/**
 * From the sharp corner of a bend to where its arc begins.
 *
 *   t = R · tan(θ/2)
 *
 * @throws Fault `shop/bend-range`
 */
export function tangentMm(radiusMm: number, angleDeg: number): number {
  if (!(radiusMm > 0 && angleDeg > 0 && angleDeg < 180)) throw new Fault('shop/bend-range', { radiusMm, angleDeg })
  return radiusMm * tan(radOf(angleDeg) / 2)
}

/** Length of the arc along the centre line: R · θ. */
export const arcMm = (radiusMm: number, angleDeg: number): number => radiusMm * radOf(angleDeg)

/**
 * What corner-to-corner measures too much, along the centre line.
 *
 *   gain = 2 · R · tan(θ/2) − R · θ;   0.4292 · R for a quarter
 *
 * @throws Fault `shop/bend-range`
 */
export const gainMm = (radiusMm: number, angleDeg: number): number =>
  2 * tangentMm(radiusMm, angleDeg) - arcMm(radiusMm, angleDeg)

/** Distance between the marks of an offset over its rise: 1 / sin θ. @throws Fault `shop/bend-range` */
export function offsetMultiplier(angleDeg: number): number {
  if (!(angleDeg > 0 && angleDeg <= 90)) throw new Fault('shop/bend-range', { angleDeg })
  return 1 / sin(radOf(angleDeg))
}

/** What an offset shortens the pipe's reach, over its rise: 1/sin θ − 1/tan θ = tan(θ/2). @throws Fault `shop/bend-range` */
export function offsetShrink(angleDeg: number): number {
  if (!(angleDeg > 0 && angleDeg <= 90)) throw new Fault('shop/bend-range', { angleDeg })
  return tan(radOf(angleDeg) / 2)
}

/** One bend of the pipe: at a corner of its axis, by the length of straight axis that leads to it. */
interface Corner {
  /** Sharp-cornered length from the corner before, or from the end. */
  readonly legMm: number
  readonly angleDeg: number
}

/**
 * Developed length of a pipe by two roads: straights and arcs walked one by one, and the sharp-cornered length less every gain.
 *
 *   L = Σ (leg − t before − t after) + Σ R·θ  =  Σ leg − Σ gain
 *
 * Starts of the arcs are along the first road.
 */
export function developed(
  corners: readonly Corner[],
  lastMm: number,
  radiusMm: number,
): { readonly walkedMm: number; readonly lessGainsMm: number; readonly startsMm: readonly number[] } {
  const startsMm: number[] = []
  let walked = 0
  let before = 0
  for (const { legMm, angleDeg } of corners) {
    const t = tangentMm(radiusMm, angleDeg)
    walked += legMm - before - t
    startsMm.push(walked)
    walked += arcMm(radiusMm, angleDeg)
    before = t
  }
  walked += lastMm - before
  const sharp = corners.reduce((sum, c) => sum + c.legMm, lastMm)
  return { walkedMm: walked, lessGainsMm: corners.reduce((sum, c) => sum - gainMm(radiusMm, c.angleDeg), sharp), startsMm }
}
