import type { Job, MoneyTold } from '../job/index.ts'
import { type Source, source } from '../kernel/index.ts'
import type { Trade } from '../shop/result.ts'
import { amountLine, type Draft, type Table } from './lines.ts'

const NOTHING_TOLD: MoneyTold = {
  ...{ welderPerHMoney: null, helperPerHMoney: null, overheadPerHMoney: null, marginFrac: null, usedBoxMoney: null },
  ...{ newBoxMoney: null, haulMoney: null, budgetMoney: null, rentPeriodDays: null, rentWanted: null },
  ...{ buyOrRent: 'both', seasonDays: null, winters: null },
}
export const toldOf = (job: Pick<Job, 'money'>): MoneyTold => job.money.told ?? NOTHING_TOLD

export const told = (place: string): Source => source(place, 'told')

type Rate = ReturnType<Table['unit']>
type Asked = { readonly job: Pick<Job, 'money'> }

export const ownRate = ({ job }: Asked, money: number, path: string): Rate => ({
  price: { money, currency: job.money.currency, date: '' },
  rests: told(path),
})

/** Loaded rate of a trade: the job's, else the shop's. */
export function hourPrice(inputs: Asked, trade: Trade, table: Table): Rate {
  const { electricianPerHMoney, told: of } = inputs.job.money
  const asked =
    { electrician: electricianPerHMoney, welder: of?.welderPerHMoney, helper: of?.helperPerHMoney, painter: null }[trade] ?? null
  return asked === null ? table.unit(`hour/${trade}`, 'h', `${trade}’s hours`) : ownRate(inputs, asked, `needs.money.${trade}`)
}

export function overheadPrice(inputs: Asked, table: Table, what: string): Rate {
  const asked = toldOf(inputs.job).overheadPerHMoney
  return asked === null
    ? table.unit('hour/shop', 'h', `shop overhead of ${what}`)
    : ownRate(inputs, asked, 'needs.money.shop-overhead')
}

/** Hours low, middle, high × a rate; all hours of a trade move together. */
export function hoursLine(
  of: { readonly id: string; readonly group: 'labour' | 'overhead'; readonly box: string; readonly what: string },
  hours: { readonly low: number; readonly middle: number; readonly high: number },
  { price, rests }: Rate,
  trade: Trade,
): Draft {
  return amountLine({
    ...{ ...of, quantity: hours.middle, per: 'h', from: 'hours sheet', rests, drawnWith: `hours ${trade}` },
    ...{ unitMoney: price?.money ?? null, currency: price?.currency ?? '', date: price?.date ?? '' },
    amounts:
      price === null
        ? null
        : { low: hours.low * price.money, likely: hours.middle * price.money, high: hours.high * price.money },
  })
}
