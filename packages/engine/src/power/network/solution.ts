import type { Complex } from '../../kernel/index.ts'
import { cx } from '../../kernel/index.ts'
import { EARTH, type Network } from './model.ts'

/** Solved; proven to have no solution; or the iteration gave up, which proves nothing. */
export type Outcome = 'solved' | 'none' | 'given up'

/** What the solver checks of its own answer, from the elements and not from the matrix it solved. */
export interface SelfCheck {
  /** Largest sum of currents at a wire that is not fixed, A. */
  readonly residualA: number
  readonly sourceVA: Complex
  readonly loadVA: Complex
  /** In lines, windings, shunts and leaks. */
  readonly lossVA: Complex
  /** |source − loads − losses|, VA. */
  readonly imbalanceVA: number
  /** Sum of all currents out of the fixed wires and into earth, A: neutral and earth bring back what the phases took. */
  readonly neutralSumA: number
}

export interface Solution {
  readonly outcome: Outcome
  /** re, im of each wire against earth, in the order of `network.wires`. NaN where there is no solution. */
  readonly volts: Float64Array
  readonly passes: number
  readonly method: 'linear' | 'fixed point' | 'path in load' | 'sweep'
  readonly check: SelfCheck
  /** Wires of parts that touch neither earth nor source. */
  readonly floating: readonly number[]
  /** Those of them that got the leak which fixes their common volts. */
  readonly leaks: readonly number[]
  /** Without a solution: share of the constant-power and constant-current load at which the path turns back. */
  readonly turnsAtFrac: number | null
  /** Loads at which the volts fall away, worst first: named when there is no solution or none was found. */
  readonly culprits: readonly string[]
}

/** Volts of a wire against earth. */
export function wireVolts(solution: Pick<Solution, 'volts'>, wire: number): Complex {
  return wire === EARTH ? cx(0) : cx(solution.volts[2 * wire]!, solution.volts[2 * wire + 1]!)
}

/** Index of `node.wire`; −1 when there is none. */
export const wireOf = (network: Network, name: string): number => network.wires.indexOf(name)
