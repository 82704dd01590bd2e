import { formatNumber, THIN } from '@plugstead/engine/kernel'
import { useWords } from '../words/index.ts'
import type { MoneySpan } from '../worker/protocol.ts'

/** Money of a budget: no cents, both ends written, rounded outwards so that neither end promises too much. */
export function Money({ of }: { readonly of: MoneySpan }) {
  const words = useWords()
  const { lowMoney, likelyMoney, highMoney, isFloor, currency } = of
  const floor = isFloor ? `${words.call.atLeast} ` : ''
  if (highMoney - lowMoney < 1)
    return (
      <>
        {floor}
        {amount(likelyMoney, 1, Math.round)}
        {THIN}
        {currency} <small>{words.call.listed}</small>
      </>
    )
  const to = stepOf(highMoney)
  return (
    <>
      {floor}
      <span className="bounded">
        {amount(lowMoney, to, Math.floor)} … {amount(highMoney, to, Math.ceil)}
        {THIN}
        {currency}
      </span>{' '}
      <small>
        {words.call.likely} {amount(likelyMoney, to, Math.round)}
      </small>
    </>
  )
}

/** Three digits say all that a budget knows. */
const stepOf = (money: number): number => 10 ** Math.max(0, String(Math.floor(money)).length - 3)
const amount = (money: number, to: number, round: (n: number) => number): string =>
  formatNumber(round(money / to) * to, { grouping: ',' })
