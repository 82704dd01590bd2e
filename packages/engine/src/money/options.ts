import type { Trade } from '../shop/result.ts'
import { roundedMoney } from './cents.ts'
import type { CostInputs } from './cost.ts'
import type { Table, UnitPrice } from './lines.ts'
import { priceFrom } from './margin.ts'
import type { PricedOption } from './policy.ts'
import { hourPrice, overheadPrice } from './rates.ts'
import type { Alternate } from './result.ts'

/** Each option at its own price, by the same rates, warranty and margin as the job: an alternate, in no sum. */
export function pricedOptions(inputs: CostInputs, table: Table, marginFrac: number | null): readonly Alternate[] {
  return inputs.policy.options.map((option) => alternate(option, inputs, table, marginFrac))
}

function alternate(option: PricedOption, inputs: CostInputs, table: Table, marginFrac: number | null): Alternate {
  const parts: { readonly count: number; readonly price: UnitPrice | null; readonly what: string }[] = [
    ...option.rows.map(({ id, count }) => ({ count, price: perAny(table, id), what: id })),
    ...Object.entries(option.hours).flatMap(([trade, count]) => [
      { count, price: hourPrice(inputs, trade as Trade, table).price, what: `${trade}’s hours` },
      { count, price: overheadPrice(inputs, table, option.what).price, what: 'shop overhead' },
    ]),
  ]
  const unpriced = parts.filter((p) => p.price === null).map((p) => p.what)
  const others = parts.filter((p) => p.price !== null && p.price.currency !== inputs.job.money.currency).map((p) => p.what)
  if (unpriced.length + others.length > 0 || marginFrac === null)
    return {
      ...{ what: option.what, costMoney: null, priceMoney: null },
      why: [
        ...(unpriced.length === 0 ? [] : [`no price of ${unpriced.join(', ')}`]),
        ...(others.length === 0 ? [] : [`in another currency: ${others.join(', ')}`]),
        ...(marginFrac === null ? ['no margin was told'] : []),
      ].join('; '),
    }
  const cost = parts.reduce((sum, p) => sum + p.count * p.price!.money, 0) * (1 + inputs.policy.warrantyFrac)
  return { what: option.what, costMoney: roundedMoney(cost), priceMoney: roundedMoney(priceFrom(cost, marginFrac)), why: '' }
}

/** A row by its id, whatever it is priced per: the option counts in the row's own unit. */
function perAny(table: Table, id: string): UnitPrice | null {
  const row = table.used(id)
  return table.unit(id, row?.per ?? 'each', 'an option').price
}
