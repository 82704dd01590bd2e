import { exp, Fault } from '../../kernel/index.ts'

/** Least, likely and most: a ≤ m ≤ b. */
export interface ThreePoint {
  readonly low: number
  readonly likely: number
  readonly high: number
}

/** @throws Fault `dates/three-point` */
export function checkThreePoint(of: ThreePoint): void {
  if (!(of.low >= 0 && of.low <= of.likely && of.likely <= of.high && of.high < Infinity))
    throw new Fault('dates/three-point', of)
}

export interface Moments {
  readonly mean: number
  readonly variance: number
}

/**
 * Mean and variance as PERT has them.
 *
 *   t = (a + 4m + b)/6,   σ² = ((b − a)/6)²
 *
 * @source Malcolm, Roseboom, Clark, Fazar, Operations Research 7 (1959) 646. Provenance: memory
 */
export function pertMoments(of: ThreePoint): Moments {
  checkThreePoint(of)
  return { mean: (of.low + 4 * of.likely + of.high) / 6, variance: ((of.high - of.low) / 6) ** 2 }
}

/** Of the triangular distribution: (a + m + b)/3 and (a² + m² + b² − am − ab − mb)/18. */
export function triangularMoments(of: ThreePoint): Moments {
  checkThreePoint(of)
  const { low: a, likely: m, high: b } = of
  return { mean: (a + m + b) / 3, variance: (a * a + m * m + b * b - a * m - a * b - m * b) / 18 }
}

/** Quantile of the triangular distribution at u in [0, 1]. */
export function triangularQuantile(of: ThreePoint, uFrac: number): number {
  const { low: a, likely: m, high: b } = of
  const width = b - a
  if (width <= 0) return m
  const turn = (m - a) / width
  return uFrac < turn ? a + Math.sqrt(uFrac * width * (m - a)) : b - Math.sqrt((1 - uFrac) * width * (b - m))
}

/** Share of the triangular distribution at or below a value. */
export function triangularFrac(of: ThreePoint, value: number): number {
  const { low: a, likely: m, high: b } = of
  if (value >= b) return 1
  if (value <= a) return 0
  return value <= m ? (value - a) ** 2 / ((b - a) * (m - a)) : 1 - (b - value) ** 2 / ((b - a) * (b - m))
}

/**
 * Share of the normal distribution at or below z.
 * @source Abramowitz and Stegun 26.2.17, error below 7.5e-8. Provenance: memory
 */
export function normalFrac(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const tail =
    (exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return z >= 0 ? 1 - tail : tail
}
