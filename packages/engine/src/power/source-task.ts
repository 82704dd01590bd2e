import type { Assumption, Offer, SourceMode } from '../job/index.ts'
import type { Complex, Provenance, Step } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'

/** `strong`: lowest impedance that is plausible (most current flows). `weak`: highest (fewest volts, least fault current). */
export type SourceEnd = 'strong' | 'weak'
/** What moves: nothing (a set's regulator holds its volts), a motor start, or the first cycles of a fault. Matters for sets only. */
export type SourceState = 'steady' | 'transient' | 'subtransient'

/** Loop impedances seen from a place, Ohm at the voltage of that place. Null where that loop does not exist. */
export interface Loops {
  /** Per phase of a three-phase fault (Z1). */
  readonly threePhase: Complex | null
  readonly lineLine: Complex
  readonly lineNeutral: Complex | null
  /** Through the protective conductor and the neutral–earth bond; null in TT, where the ground itself is the loop. */
  readonly lineEarth: Complex | null
}

/** What stands behind the point of supply, as the network, the faults and the book see it. */
export interface SourceImpedance {
  readonly mode: SourceMode
  readonly offer: string
  readonly end: SourceEnd
  readonly state: SourceState
  readonly system: System
  /** Positive-sequence impedance of one line of a three-phase source; for one phase, half of the line–line loop. */
  readonly z1: Complex
  /** Zero-sequence impedance of a wye source. */
  readonly z0: Complex
  readonly loops: Loops
  /** Rating that the impedance was worked from, when there is one. */
  readonly ratedKVA: number | null
  readonly steps: readonly Step[]
  readonly assumed: readonly Assumption[]
  readonly provenance: Provenance
}

export interface SourceTask {
  readonly offer: Offer
  readonly mode: SourceMode
  readonly system: System
  /** Rating of the service it feeds, A: bounds an unknown transformer from below. */
  readonly serviceA: number
  readonly end: SourceEnd
  readonly state: SourceState
  readonly rules: RuleSet
  /** The ±10 % that a maker may deviate, taken at the strong end. Default true; false gives the bare plate value. */
  readonly tolerance?: boolean
}

export type Found = Pick<SourceImpedance, 'z1' | 'z0' | 'ratedKVA' | 'steps' | 'assumed' | 'provenance'>
