import { Fault, type Random } from '../kernel/index.ts'

/** Low, likely, high: a triangle of chance. low ≤ likely ≤ high. */
export interface Triangle {
  readonly lowMoney: number
  readonly likelyMoney: number
  readonly highMoney: number
}

/** (a + b + c)/3. @source any text on probability. Provenance: memory */
export const triangleMean = ({ lowMoney: a, likelyMoney: b, highMoney: c }: Triangle): number => (a + b + c) / 3

/** (a² + b² + c² − ab − ac − bc)/18, written as differences so that large amounts lose nothing. Provenance: memory */
export const triangleVariance = ({ lowMoney: a, likelyMoney: b, highMoney: c }: Triangle): number =>
  ((b - a) ** 2 + (c - b) ** 2 + (b - a) * (c - b)) / 18

/** @throws Fault `money/triangle` */
export function checkedTriangle(t: Triangle): Triangle {
  if (!(t.lowMoney <= t.likelyMoney && t.likelyMoney <= t.highMoney && Number.isFinite(t.highMoney - t.lowMoney)))
    throw new Fault('money/triangle', t)
  return t
}

/** One draw, by the inverse of the distribution. */
export function triangleDraw({ lowMoney: a, likelyMoney: b, highMoney: c }: Triangle, random: Random): number {
  const u = random.next()
  const span = c - a
  if (span === 0) return a
  const left = b - a
  return u * span < left ? a + Math.sqrt(u * span * left) : c - Math.sqrt((1 - u) * span * (c - b))
}
