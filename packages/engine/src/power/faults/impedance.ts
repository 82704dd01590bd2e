import { Fault } from '../../kernel/index.ts'
import type { Impedance } from './result.ts'

export const addZ = (...all: readonly Impedance[]): Impedance => {
  let r = 0
  let x = 0
  for (const z of all) {
    r += z.r
    x += z.x
  }
  return { r, x }
}

export const scaleZ = (z: Impedance, k: number): Impedance => ({ r: z.r * k, x: z.x * k })
export const magnitudeOhm = (z: Impedance): number => Math.hypot(z.r, z.x)

/**
 * R and X of a magnitude by its X/R.
 *
 *   R = |Z| / √(1 + (X/R)²),   X = R · X/R
 *
 * @throws Fault `faults/impedance-range` when |Z| < 0, X/R < 0 or either is not a number
 */
export function splitZ(magnitude: number, xOverR: number): Impedance {
  if (!(magnitude >= 0 && xOverR >= 0)) throw new Fault('faults/impedance-range', { magnitude, xOverR })
  if (xOverR === Infinity) return { r: 0, x: magnitude }
  const r = magnitude / Math.sqrt(1 + xOverR * xOverR)
  return { r, x: r * xOverR }
}
