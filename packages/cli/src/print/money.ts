import type { Assessment } from '@plugstead/engine/assess'
import { marginWords, moneyWords, percentWords } from '@plugstead/engine/money'
import { labelled } from './wrap.ts'

const COLUMN = 9

/** What it costs, sells for and rents for, in a few lines; empty where nothing is priced. */
export function moneyText({ results }: Pick<Assessment, 'results'>): string {
  const { price, currency, beside, spread, rent, comparison, lines } = results.money
  if (lines.every((l) => l.money === null)) return ''
  const floor = price.isFloor ? 'at least ' : ''
  const others = beside.map((b) => `; beside, never added, ${moneyWords(b.money, b.currency)}`).join('')
  const rows: readonly (readonly [string, string | null])[] = [
    [
      'cost',
      `${floor}${moneyWords(price.costMoney, currency)}${others}.${spread === null ? '' : ` Eight times in ten between ${moneyWords(spread.lowMoney, currency)} and ${moneyWords(spread.highMoney, currency)}.`}`,
    ],
    [
      'price',
      price.priceMoney === null || price.marginFrac === null
        ? 'No margin was told: there is none.'
        : `${floor}${moneyWords(price.priceMoney, currency)} before tax: ${marginWords(price.marginFrac, price.markUpFrac ?? 0)}.${price.tax === null ? ' No tax was told.' : ` With ${price.tax.name}, ${percentWords(price.tax.frac)}: ${moneyWords(price.totalMoney ?? 0, currency)}.`}`,
    ],
    [
      'rent',
      rent === null
        ? null
        : `${rent.isFloor ? 'at least ' : ''}${moneyWords(rent.rateMoney, currency)} for ${Number(rent.periodDays.toFixed(2))} days, before tax; haul each way apart.`,
    ],
    [
      'instead',
      comparison === null || comparison.ways.length === 0
        ? null
        : `${comparison.ways.map((w) => `${w.what} ${w.isFloor ? 'at least ' : ''}${moneyWords(w.presentMoney, currency)}${w.winters === null ? '' : ` (${moneyWords(w.winters.mildMoney, currency)} if winters are mild, ${moneyWords(w.winters.hardMoney, currency)} if hard)`}`).join('; ')}. Worth today, over the stay.`,
    ],
  ]
  return ['Money', ...rows.flatMap(([label, text]) => (text === null ? [] : [labelled(label, text, COLUMN, 2)]))].join('\n')
}
