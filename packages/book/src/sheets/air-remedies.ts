import {
  airRemedies,
  REMEDY_QUANTITIES,
  REMEDY_WORDS,
  type RemedyAmounts,
  remedyAmount,
  remedyParts,
  remedyUnit,
  shownAmounts,
} from '@plugstead/drawings'
import { yearsHeld } from '@plugstead/engine/air'
import type { Block, Inline, Sheet } from '../content.ts'
import { col, money, plain, right } from '../words.ts'
import { type AirAt, sheet } from './air-sheet.ts'
import { tenths, whole } from './air-words.ts'

/** What each measure buys, where it was asked: picture, and the same as a table, with the design as it is in the last row. */
export function remediesSheets(at: AirAt): readonly Sheet[] {
  const made = at.input.airRemedies?.[at.box.id]
  if (made === undefined) return []
  const parts = remedyParts(made)
  const { design } = made.table
  const held = yearsHeld({ ...made.table, yearsCount: made.stackedYearsCount }).finding
  const cells = (a: RemedyAmounts): readonly Inline[] => REMEDY_QUANTITIES.map((q) => amountSaid(remedyAmount(q, a[q], at.units)))
  return [
    sheet(
      at.box,
      'What each measure buys',
      parts.basis,
      [
        { k: 'drawing', scene: airRemedies({ ...parts, widthMm: at.widthMm, units: at.units }) },
        {
          ...{ k: 'para', small: true },
          text: 'Hollow bar: before the measure. Filled: what is left with it. In brackets: the change. The verdict is that of the design year and its short runs, not of this table.',
        },
        { k: 'head', text: 'The same in figures' },
        {
          ...{ k: 'table', small: true },
          columns: [
            col('measure', -1),
            ...REMEDY_QUANTITIES.map((q) => right(`${REMEDY_WORDS[q].words}, ${remedyUnit(q, at.units)}`, 17)),
            right('money', 22),
          ],
          rows: [
            [[['b', parts.base.name]], ...cells(parts.base.after), '–'],
            ...parts.parts.flatMap((p): Inline[][] => [
              [[['b', p.title]], ...REMEDY_QUANTITIES.map(() => ''), ''],
              ...p.rows.map((r): Inline[] => [
                r.note === null ? r.name : `${r.name}; ${r.note}`,
                ...cells(r.after),
                money(r.money, parts.currency, 'not known'),
              ]),
            ]),
            ...(made.stackedYearsCount === 0
              ? []
              : [[[['b', design.name]], ...cells(shownAmounts(design.after)), '–'] as Inline[]]),
          ],
        },
        ...(made.stackedYearsCount === 0 ? [] : [{ k: 'para' as const, text: `As designed: ${plain(held.said)}` }]),
      ],
      ['customer'],
    ),
  ]
}

/** Where the table, or the share of made years, was not asked: said, with how to ask. */
export function notAskedBlocks({ input, box }: Pick<AirAt, 'input' | 'box'>): readonly Block[] {
  const table = input.airRemedies?.[box.id] === undefined
  const years = !input.assessment.findings.some((f) => f.code === 'air/thirty-years' && f.subject === box.id)
  if (!table && !years) return []
  const what = [
    ...(table ? ['what each measure against heat and damp buys'] : []),
    ...(years ? ['in how many of thirty made years the design holds'] : []),
  ].join(', and ')
  return [
    {
      ...{ k: 'para', small: true },
      text: `Not asked here: ${what}. Both are run on the page of this question, or with book --remedies, and stand in the book then.`,
    },
  ]
}

const amountSaid = (value: number | null): string =>
  value === null ? 'not known' : value !== 0 && Math.abs(value) < 10 ? tenths(value, '') : whole(value, '')
