import type { Trade } from '../../shop/result.ts'

/** What one measure against heat and damp asks of the shop. */
export interface MeasureLine {
  /** Row of table `air-measures`. */
  readonly measure: string
  readonly what: string
  /** Row of the price table. */
  readonly id: string
  readonly quantity: number
  readonly per: 'm' | 'm2' | 'each'
  readonly unitMoney: number | null
  readonly materialMoney: number | null
  readonly trade: Trade
  readonly hours: number
  readonly labourMoney: number | null
  /** Material and work together; null: a price is missing. */
  readonly money: number | null
  readonly massKg: { readonly low: number; readonly high: number }
  /** The shop's bill and hours count it already: openings by their frames, a fan and a heater by their circuits. */
  readonly billedAlready: boolean
}

/** What all measures of a design cost: the sum of what is priced, and what is not. */
export interface MeasuresCost {
  readonly box: string
  readonly currency: string
  readonly lines: readonly MeasureLine[]
  /** Of the lines that have a price: a floor where `missing` is not empty. */
  readonly totalMoney: number
  readonly massKg: { readonly low: number; readonly high: number }
  readonly missing: readonly { readonly id: string; readonly why: string }[]
}
