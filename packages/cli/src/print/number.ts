import { formatNumber, formatQuantity } from '@plugstead/engine/kernel'

/** Four digits, as in a working. */
export function quantityText(value: number | string, unit: string): string {
  return formatQuantity(value, unit, { digits: 4 })
}

/** Money in whole units; `price unknown` where a price that decides is missing. */
export function moneyText(money: number | null, currency: string): string {
  return money === null ? 'price unknown' : `${formatNumber(Math.round(money))} ${currency}`
}
