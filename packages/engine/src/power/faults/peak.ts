import { exp, Fault } from '../../kernel/index.ts'

/**
 * Peak factor of the first loop.
 *
 *   κ = 1.02 + 0.98 · e^(−3 R/X)
 *
 * 1.02 where all is resistance, 2 where none is. @throws Fault `faults/peak-range`
 * @source IEC 60909-0:2016, 9.1.1. Provenance: memory
 */
export function kappaRatio(rOverXRatio: number): number {
  if (!(rOverXRatio >= 0)) throw new Fault('faults/peak-range', { rOverXRatio })
  return 1.02 + 0.98 * exp(-3 * rOverXRatio)
}

/** X/R at which a breaker of this rating is tested: `[up to kA, X/R]`. @source UL 489 test power factors 0.5, 0.3, 0.2. Provenance: memory */
const TEST_X_OVER_R: readonly (readonly [number, number])[] = [
  [10_000, 1.73],
  [20_000, 3.18],
  [Infinity, 4.9],
]

export function testXOverRRatio(interruptingA: number): number {
  for (const [upToA, ratio] of TEST_X_OVER_R) if (interruptingA <= upToA) return ratio
  return 4.9
}

/**
 * Fault current to compare with a rating that was tested at a lower X/R: raised by the ratio of the peak factors, never lowered.
 *
 *   I' = I · max(1, κ(X/R here)/κ(X/R of the test))
 *
 * @source common multiplying-factor practice for low-voltage breakers (table `interrupting`). Provenance: memory
 */
export function comparedA(currentA: number, hereXOverRRatio: number, interruptingA: number): number {
  const here = kappaRatio(hereXOverRRatio === 0 ? Infinity : 1 / hereXOverRRatio)
  const test = kappaRatio(1 / testXOverRRatio(interruptingA))
  return currentA * Math.max(1, here / test)
}
