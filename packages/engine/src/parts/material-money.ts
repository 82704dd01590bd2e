import type { BoxDesign } from '../job/index.ts'
import { type Material, materialsOf } from './materials.ts'
import type { Prices } from './prices.ts'

export interface MaterialLine {
  /** Row of the price table: `conductor/12 AWG/cu`. */
  readonly id: string
  /** What it is for, in words: “branch circuits”. */
  readonly for: string
  readonly quantity: number
  readonly per: string
  readonly unitMoney: number
  /** quantity × unitMoney, rounded to the cent; the lines sum to the total. */
  readonly money: number
  readonly date: string
  readonly source: string
}

/** Something needed without a price, or with a price that nobody dated or signed. */
export interface MissingPrice {
  readonly id: string
  readonly for: string
  readonly quantity: number
  readonly why: string
}

export interface MaterialMoney {
  /** Of the price table; never added to money of another currency. */
  readonly currency: string
  readonly lines: readonly MaterialLine[]
  readonly totalMoney: number
  readonly missing: readonly MissingPrice[]
}

/**
 * Material and work of one box at the prices of a table. Each line is rounded to the cent and the total is their sum. What has no
 * price is named in `missing` and is in no line: the total is then a floor. A price without date or source counts and is named too.
 */
export function materialMoney(box: BoxDesign, prices: Prices): MaterialMoney {
  return pricedMaterials(materialsOf(box), prices)
}

/** The same for any list of things. */
export function pricedMaterials(needs: readonly Material[], prices: Prices): MaterialMoney {
  const lines: MaterialLine[] = []
  const missing: MissingPrice[] = []
  let cents = 0
  for (const need of needs) {
    const price = Object.hasOwn(prices.rows, need.id) ? prices.rows[need.id] : undefined
    const flag = (why: string) => missing.push({ id: need.id, for: need.for, quantity: need.quantity, why })
    if (price === undefined) {
      flag('no price in the table')
      continue
    }
    if (price.per !== need.per) {
      flag(`priced per ${price.per}, needed per ${need.per}`)
      continue
    }
    if (price.currency !== undefined) {
      flag(`priced in ${price.currency}, never added to ${prices.currency}`)
      continue
    }
    if (price.date === '') flag('its price has no date')
    if (price.source === '') flag('its price has no source')
    const here = Math.round(need.quantity * price.money * 100)
    cents += here
    lines.push({ ...need, unitMoney: price.money, money: here / 100, date: price.date, source: price.source })
  }
  return { currency: prices.currency, lines, totalMoney: cents / 100, missing }
}
