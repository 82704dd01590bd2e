import type { Prices } from '../../parts/index.ts'
import { byText } from '../figures.ts'
import { BILL_SHEETS, type Bill, type BillLine } from '../result.ts'
import type { Need } from './lines.ts'

/**
 * Lines at the shop's prices, each rounded to the cent; a sheet is the sum of its lines, the bill the sum of its sheets. What has no price
 * is in no sum: the total is then a floor.
 */
export function priced(needs: readonly Need[], prices: Prices): Bill {
  const missing: { id: string; why: string; countsInSum: boolean }[] = []
  const lines = needs.map((n): BillLine => {
    const row = Object.hasOwn(prices.rows, n.id) ? prices.rows[n.id] : undefined
    if (row === undefined || row.per !== n.per || row.currency !== undefined) {
      missing.push({
        id: n.id,
        why:
          row === undefined
            ? 'no price in the table'
            : row.per !== n.per
              ? `priced per ${row.per}, needed per ${n.per}`
              : `priced in ${row.currency}, never added to ${prices.currency}`,
        countsInSum: false,
      })
      return { ...n, unitMoney: null, money: null, date: '', source: '' }
    }
    if (row.date === '') missing.push({ id: n.id, why: 'its price has no date', countsInSum: true })
    if (row.source === '') missing.push({ id: n.id, why: 'its price has no source', countsInSum: true })
    return {
      ...n,
      unitMoney: row.money,
      money: Math.round(n.quantity * row.money * 100) / 100,
      date: row.date,
      source: row.source,
    }
  })
  const ordered = BILL_SHEETS.flatMap((sheet) => lines.filter((l) => l.sheet === sheet).toSorted((a, b) => byText(a.id, b.id)))
  const sheets = BILL_SHEETS.map((sheet) => {
    const own = ordered.filter((l) => l.sheet === sheet)
    return { sheet, linesCount: own.length, money: cents(own.map((l) => l.money ?? 0)) }
  })
  return { currency: prices.currency, lines: ordered, sheets, totalMoney: cents(sheets.map((s) => s.money)), missing }
}

/** Sum in whole cents, so that no last bit is left over. */
const cents = (all: readonly number[]): number => all.reduce((sum, money) => sum + Math.round(money * 100), 0) / 100
