import type { Ranked } from '@plugstead/engine/rank'
import type { MoneySpan } from './protocol.ts'

interface Hours {
  readonly low: number
  readonly middle: number
  readonly high: number
}

const HOURS_LINE = /^hours of the (shop|changes)$/

/** A price with both its ends: what the hours cost runs with the hours, all else stands as listed. */
export function spanOf(price: Ranked['price'], hours: readonly Hours[]): MoneySpan {
  const sum = (of: keyof Hours): number => hours.reduce((all, h) => all + h[of], 0)
  const labour = price.lines.reduce((all, l) => all + (HOURS_LINE.test(l.what) ? (l.money ?? 0) : 0), 0)
  const middle = sum('middle')
  const at = (end: number): number => price.totalMoney + (middle > 0 ? labour * (end / middle - 1) : 0)
  return {
    ...{ lowMoney: at(sum('low')), likelyMoney: price.totalMoney, highMoney: at(sum('high')) },
    ...{ isFloor: price.isFloor, currency: price.currency },
  }
}
