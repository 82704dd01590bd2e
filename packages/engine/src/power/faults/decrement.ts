import { exp, Fault } from '../../kernel/index.ts'

export interface SetReactance {
  readonly ratedA: number
  /** Subtransient, transient and steady reactance, per unit on its own kVA. */
  readonly subtransientPu: number
  readonly transientPu: number
  readonly steadyPu: number
  readonly subtransientS: number
  readonly transientS: number
  /** Current its excitation keeps up, over rated; null: none, the steady reactance rules. */
  readonly sustainedRatio: number | null
}

/**
 * Symmetrical short-circuit current of a set at a time after the fault.
 *
 *   I(t) = (I″ − I′)·e^(−t/T″) + (I′ − I)·e^(−t/T′) + I,   I″ = Ir/x″, I′ = Ir/x′, I = Ir/x or what the excitation sustains
 *
 * t ≥ 0. @throws Fault `faults/decrement-range`
 * @source decrement of a synchronous machine, IEEE 141. Provenance: computed from the stated formula
 */
export function decrementA(set: SetReactance, timeS: number): number {
  const { ratedA, subtransientPu, transientPu, steadyPu } = set
  const inRange = ratedA > 0 && subtransientPu > 0 && transientPu >= subtransientPu && steadyPu >= transientPu && timeS >= 0
  if (!inRange || !(set.subtransientS > 0 && set.transientS > 0)) throw new Fault('faults/decrement-range', { set, timeS })
  const first = ratedA / subtransientPu
  const second = ratedA / transientPu
  const last = sustainedA(set)
  return (first - second) * exp(-timeS / set.subtransientS) + (second - last) * exp(-timeS / set.transientS) + last
}

/** What stays: the excitation's sustained current, else rated over the steady reactance. */
export const sustainedA = (set: SetReactance): number =>
  set.sustainedRatio === null
    ? set.ratedA / set.steadyPu
    : Math.min(set.ratedA * set.sustainedRatio, set.ratedA / set.transientPu)

/** First time at which the current is below a limit, by halving; null when it never is, 0 when it starts below. */
export function belowS(set: SetReactance, limitA: number): number | null {
  if (decrementA(set, 0) <= limitA) return 0
  const last = sustainedA(set)
  if (last >= limitA) return null
  let low = 0
  let high = set.transientS
  while (decrementA(set, high) > limitA) high *= 2
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (decrementA(set, middle) > limitA) low = middle
    else high = middle
  }
  return high
}
