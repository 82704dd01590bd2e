import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, number, plain, right } from '../../words.ts'
import { pieceWords } from '../build-words.ts'

export function billBlocks({ bill }: BoxShop): readonly Block[] {
  const floor = bill.lines.some((l) => l.money === null)
  return [
    ...bill.sheets.flatMap((sheet): readonly Block[] => {
      const lines = bill.lines.filter((l) => l.sheet === sheet.sheet)
      if (lines.length === 0) return []
      const open = lines.filter((l) => l.money === null).length
      return [
        {
          k: 'head',
          text: sheet.sheet,
          note: `${sheet.money.toFixed(2)} ${bill.currency}${open === 0 ? '' : `, and ${open} without a price`}`,
        },
        {
          k: 'table',
          small: true,
          columns: [
            col('item', -1.2),
            right('quantity', 17),
            col('per', 9),
            col('counted from', -0.8),
            col('needed by', -1.4),
            right('each', 15),
            right(bill.currency, 15),
            col('price of', 20),
          ],
          rows: lines.map((l): Inline[] => [
            plain(l.what),
            number(l.quantity),
            l.per === 'm2' ? 'm²' : l.per,
            plain(l.from),
            needWords(l.needs),
            l.unitMoney === null ? '–' : l.unitMoney.toFixed(2),
            l.money === null ? 'not known' : l.money.toFixed(2),
            l.date,
          ]),
        },
      ]
    }),
    {
      k: 'facts',
      rows: [
        [[['b', 'together']], [['b', `${floor ? 'at least ' : ''}${bill.totalMoney.toFixed(2)} ${bill.currency}`]]],
        ...(bill.missing.length === 0 ? [] : ([['prices to ask for', reasons(bill.missing)]] as const)),
      ],
    },
  ]
}

function reasons(missing: BoxShop['bill']['missing']): string {
  const whys = [...new Set(missing.map((m) => m.why))]
  return whys.map((why) => `${missing.filter((m) => m.why === why).length} × ${why}`).join(', ')
}

/** All of them as far as a line of paper goes; the list as a file has every one. */
function needWords(needs: readonly string[]): string {
  const words = pieceWords(needs)
  if (words.length <= MOST_NEED_CHARACTERS) return words
  return `${words.slice(0, words.lastIndexOf(',', MOST_NEED_CHARACTERS))} and others: ${needs.length} in all`
}
const MOST_NEED_CHARACTERS = 110
