import { Fault } from '../kernel/index.ts'

/**
 * Price that leaves this share of itself.
 *
 *   price = cost / (1 − margin)
 *
 * A margin of 25 % of the price is a mark-up of a third of the cost.
 * @throws Fault `money/margin-range`
 */
export function priceFrom(costMoney: number, marginFrac: number): number {
  if (!(marginFrac >= 0 && marginFrac < 1)) throw new Fault('money/margin-range', marginFrac)
  return costMoney / (1 - marginFrac)
}

/** Share of the cost that was put on top, from the share of the price that is left. m/(1 − m) */
export const markUpFrac = (marginFrac: number): number => priceFrom(1, marginFrac) - 1

/** Share of the price that is left, from the share of the cost put on top. k/(1 + k) */
export const marginOfMarkUpFrac = (markUp: number): number => markUp / (1 + markUp)
