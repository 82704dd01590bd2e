import { Fault } from '../../kernel/index.ts'
import type { Ends } from './result.ts'

/** Q of a lagging load, var: P·tan φ. Power factor in (0, 1]. @throws Fault `needs/power-factor-range` */
export function reactiveVar(powerW: number, powerFactorFrac: number): number {
  if (!(powerFactorFrac > 0 && powerFactorFrac <= 1)) throw new Fault('needs/power-factor-range', powerFactorFrac)
  return (powerW * Math.sqrt(1 - powerFactorFrac ** 2)) / powerFactorFrac
}

/** √(P² + Q²). */
export const apparentVA = (powerW: number, var_: number): number => Math.hypot(powerW, var_)

export interface PowerPair {
  readonly powerW: number
  readonly powerFactorFrac: number
}

/**
 * Sum of loads as it flows: watts and vars are added, VA are not.
 *
 *   S = √((ΣP)² + (ΣQ)²) ≤ Σ S,  pf = ΣP/S
 */
export function vectorSum(loads: readonly PowerPair[]): {
  readonly powerW: number
  readonly reactiveVar: number
  readonly vectorVA: number
  readonly plainVA: number
  readonly powerFactorFrac: number
} {
  let p = 0
  let q = 0
  let plain = 0
  for (const load of loads) {
    p += load.powerW
    q += reactiveVar(load.powerW, load.powerFactorFrac)
    plain += load.powerW / load.powerFactorFrac
  }
  const s = apparentVA(p, q)
  return { powerW: p, reactiveVar: q, vectorVA: s, plainVA: plain, powerFactorFrac: s > 0 ? p / s : 1 }
}

/** var that a capacitor must give to bring a load from one power factor to another: P·(tan φ1 − tan φ2). ≥ 0 when it improves. */
export const correctionVar = (powerW: number, fromFrac: number, toFrac: number): number =>
  reactiveVar(powerW, fromFrac) - reactiveVar(powerW, toFrac)

export const ends = (low: number, high: number): Ends => ({ low: Math.min(low, high), high: Math.max(low, high) })
export const both = (value: number): Ends => ({ low: value, high: value })
