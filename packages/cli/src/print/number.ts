/** A number as printed: four significant digits, whole from 1000 on, thin groups never (they break copying). */
export function numberText(value: number | string): string {
  if (typeof value === 'string') return value
  if (!Number.isFinite(value)) return 'unknown'
  const size = Math.abs(value)
  if (size >= 1000) return String(Math.round(value))
  const rounded = Number(value.toPrecision(4))
  return size !== 0 && size < 1e-4 ? rounded.toExponential() : String(rounded)
}

export function quantityText(value: number | string, unit: string): string {
  return unit === '' ? numberText(value) : `${numberText(value)} ${unit}`
}

/** Money in whole units; `unknown` where a price that decides is missing. */
export function moneyText(money: number | null, currency: string): string {
  return money === null ? 'price unknown' : `${Math.round(money)} ${currency}`
}
