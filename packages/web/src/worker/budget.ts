import type { Assessment } from '@plugstead/engine/assess'
import type { BudgetAnswer } from './protocol.ts'

/** The price of the plan with the ends of its cost carried through the margin; what is passed through bears none. */
export function budgetOf({
  price,
  spread,
  groups,
  lacking,
  currency,
}: Pick<Assessment['results']['money'], 'price' | 'spread' | 'groups' | 'lacking' | 'currency'>): BudgetAnswer | null {
  if (spread === null || price.costMoney <= 0) return null
  const asked = (cost: number): number => (cost - price.passedMoney) / (1 - (price.marginFrac ?? 0)) + price.passedMoney
  const likelyMoney = price.priceMoney ?? price.costMoney
  return {
    lowMoney: Math.min(likelyMoney, asked(spread.lowMoney)),
    likelyMoney,
    highMoney: Math.max(likelyMoney, asked(spread.highMoney)),
    ...{ isFloor: price.isFloor, currency, marginFrac: price.marginFrac, groups, lacking: lacking.map((l) => l.what) },
    tax: price.tax === null ? null : { name: price.tax.name, frac: price.tax.frac },
  }
}
