import type { Ranked } from '@plugstead/engine/rank'
import type { MoneySpan } from './protocol.ts'

interface Hours {
  readonly low: number
  readonly middle: number
  readonly high: number
}

const HOURS = 'hours of the changes'
const PARTS = 'parts of the changes'
const MARGIN = 'margin on what is done'

/** A price with both its ends: what the hours cost, and the margin on them, runs with the hours; all else stands as listed. */
export function spanOf(price: Ranked['price'], hours: readonly Hours[]): MoneySpan {
  const sum = (of: keyof Hours): number => hours.reduce((all, h) => all + h[of], 0)
  const line = (what: string): number => price.lines.find((l) => l.what === what)?.money ?? 0
  const done = line(HOURS) + line(PARTS)
  const labour = done > 0 ? line(HOURS) * (1 + line(MARGIN) / done) : 0
  const middle = sum('middle')
  const at = (end: number): number => price.totalMoney + (middle > 0 ? labour * (end / middle - 1) : 0)
  return {
    ...{ lowMoney: at(sum('low')), likelyMoney: price.totalMoney, highMoney: at(sum('high')) },
    ...{ isFloor: price.isFloor, currency: price.currency },
  }
}
