import { Fault } from '../kernel/index.ts'

/** Digits of a double that printed sums still agree in; what stands behind them is left over by binary arithmetic. */
const SUM_DIGITS = 15

/**
 * Whole cents of an amount, half a cent away from zero. A spreadsheet's ROUND(x, 2) does the same: both look at fifteen digits, so that
 * 1.005 is 1.01 although no double is.
 * @throws Fault `money/not-finite`
 */
export function wholeCents(money: number): number {
  if (!Number.isFinite(money)) throw new Fault('money/not-finite', money)
  const cents = Math.round(Number((Math.abs(money) * 100).toPrecision(SUM_DIGITS)))
  return cents === 0 ? 0 : Math.sign(money) * cents
}

export const roundedMoney = (money: number): number => wholeCents(money) / 100

/**
 * Parts in whole cents whose sum is the rounded sum of the exact parts: each is what the running sum, rounded, gained by it. A part is at
 * most a cent off its exact value. The same rule can be written as a formula of a spreadsheet.
 */
export function partsInCents(exact: readonly number[]): readonly number[] {
  let sum = 0
  let before = 0
  return exact.map((money) => {
    sum += money
    const now = wholeCents(sum)
    const part = now - before
    before = now
    return part
  })
}
