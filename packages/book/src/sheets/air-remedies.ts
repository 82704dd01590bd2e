import { airRemedies, REMEDY_QUANTITIES, REMEDY_WORDS, type RemedyAmounts, remedyAmount, remedyUnit } from '@plugstead/drawings'
import { formatNumber, THIN } from '@plugstead/engine/kernel'
import type { Inline, Sheet } from '../content.ts'
import { col, money, right } from '../words.ts'
import { type AirAt, sheet } from './air-sheet.ts'
import { tenths, whole } from './air-words.ts'

/** What each measure buys, where it was weighed: picture, and the same as a table. */
export function remediesSheets(at: AirAt): readonly Sheet[] {
  const table = at.input.airRemedies?.[at.box.id]
  if (table === undefined) return []
  const cells = (a: RemedyAmounts): readonly Inline[] => REMEDY_QUANTITIES.map((q) => amountSaid(remedyAmount(q, a[q], at.units)))
  const share = (frac: number | null): string => (frac === null ? '–' : `${formatNumber(Math.round(frac * 100))}${THIN}%`)
  return [
    sheet(
      at.box,
      'What each measure buys',
      table.basis,
      [
        { k: 'drawing', scene: airRemedies({ ...table, widthMm: at.widthMm, units: at.units }) },
        {
          ...{ k: 'para', small: true },
          text: 'Hollow bar: before the measure. Filled: what is left with it. In brackets: the change. The verdict is that of the design year and its short runs, not of this table.',
        },
        { k: 'head', text: 'The same in figures' },
        {
          ...{ k: 'table', small: true },
          columns: [
            col('measure', -1),
            ...REMEDY_QUANTITIES.map((q) => right(`${REMEDY_WORDS[q].words}, ${remedyUnit(q, at.units)}`, 21)),
            right('holds in years', 16),
            right('money', 22),
          ],
          rows: [
            [[['b', table.base.name]], ...cells(table.base.after), share(table.base.holdsFrac), '–'],
            ...table.parts.flatMap((p): Inline[][] => [
              [[['b', p.title]], ...REMEDY_QUANTITIES.map(() => ''), '', ''],
              ...p.rows.map((r): Inline[] => [
                r.note === null ? r.name : `${r.name}; ${r.note}`,
                ...cells(r.after),
                share(r.holdsFrac),
                money(r.money, table.currency, 'not known'),
              ]),
            ]),
          ],
        },
      ],
      ['customer'],
    ),
  ]
}

const amountSaid = (value: number | null): string =>
  value === null ? 'not known' : value !== 0 && Math.abs(value) < 10 ? tenths(value, '') : whole(value, '')
