import { formatNumber } from '../kernel/index.ts'

/** Money in a sentence: to the cent below a thousand, whole above it. */
export const moneyWords = (money: number, currency: string): string =>
  `${Math.abs(money) < 1000 ? money.toFixed(2) : formatNumber(Math.round(money))} ${currency}`

/** A share as per cent with at most one decimal. */
export const percentWords = (frac: number): string =>
  `${formatNumber(Math.round(frac * 1000) / 10, { digits: 4, shortest: true })} %`

/** Margin and mark-up in one sentence, so that nobody takes one for the other. */
export const marginWords = (marginFrac: number, markUpFrac: number): string =>
  `a margin of ${percentWords(marginFrac)} of the price, which is a mark-up of ${percentWords(markUpFrac)} on the cost`
