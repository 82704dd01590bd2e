import { exp, Fault, log } from '../kernel/index.ts'

export interface Term {
  /** For one period, effective. ≥ 0; 0: interest is not counted. */
  readonly interestFrac: number
  /** > 0 */
  readonly periodsCount: number
}

const inRange = ({ interestFrac, periodsCount }: Term): boolean =>
  interestFrac >= 0 && interestFrac < Infinity && periodsCount > 0 && periodsCount < Infinity

/**
 * Equal payment at the end of each period that pays back 1 lent at the start.
 *
 *   CRF = i / (1 − (1 + i)^−n),   1/n without interest
 *
 * @throws Fault `money/term-range`
 * @source engineering economy. Provenance: memory
 */
export function capitalRecoveryFrac(term: Term): number {
  if (!inRange(term)) throw new Fault('money/term-range', term)
  const { interestFrac: i, periodsCount: n } = term
  return i === 0 ? 1 / n : i / lessOne(n * logOfOneMore(i))
}

/** ln(1 + x) without loss for small x ≥ 0. @source Goldberg, What every computer scientist should know about floating-point arithmetic, theorem 4. Provenance: memory */
function logOfOneMore(x: number): number {
  const more = 1 + x
  return more === 1 ? x : (x * log(more)) / (more - 1)
}

/** 1 − e^−x without loss for small x > 0, by the same device. */
function lessOne(x: number): number {
  const e = exp(-x)
  return e === 1 ? x : e === 0 ? 1 : ((1 - e) * x) / -log(e)
}

/** Equal payment at the end of each period that grows to 1 at the end: SFF = CRF − i. @throws Fault `money/term-range` */
export const sinkingFundFrac = (term: Term): number => capitalRecoveryFrac(term) - term.interestFrac

/**
 * What a thing costs each period that is bought for P and worth S at the end.
 *
 *   CR = (P − S) · CRF + S · i
 *
 * @throws Fault `money/term-range`
 */
export function recoveryMoney(of: Term & { readonly costMoney: number; readonly residualMoney: number }): number {
  return (of.costMoney - of.residualMoney) * capitalRecoveryFrac(of) + of.residualMoney * of.interestFrac
}

/** Worth today of 1 paid so many periods from now. @throws Fault `money/term-range` */
export function presentFrac(interestFrac: number, periods: number): number {
  if (!(interestFrac >= 0 && periods >= 0 && periods < Infinity)) throw new Fault('money/term-range', { interestFrac, periods })
  return exp(-periods * logOfOneMore(interestFrac))
}

/** Worth today of 1 paid at the end of each of n periods; for ever: 1/i. @throws Fault `money/term-range` */
export function annuityFrac(term: Term): number {
  if (term.periodsCount === Infinity && term.interestFrac > 0) return 1 / term.interestFrac
  return 1 / capitalRecoveryFrac(term)
}

/**
 * Interest at which payments at the end of each period, the first today, are worth nothing together. Bisection between −99 % and 1000 %;
 * null where the worth does not change its sign between them.
 */
export function returnFrac(payments: readonly number[]): number | null {
  const worth = (i: number): number => payments.reduceRight((later, money) => money + later / (1 + i), 0)
  let [low, high] = [-0.99, 10]
  if (!(worth(low) * worth(high) < 0)) return null
  const rising = worth(low) < worth(high)
  for (let step = 0; step < BISECTIONS; step += 1) {
    const middle = (low + high) / 2
    if (worth(middle) < 0 === rising) low = middle
    else high = middle
  }
  return (low + high) / 2
}
/** Halves the span to below the last bit of its middle. */
const BISECTIONS = 60
