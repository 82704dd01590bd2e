import type { RemedyAmounts, RemedyRow, RemedyTable } from '@plugstead/engine/air'
import { table } from './table.ts'
import { wrapped } from './wrap.ts'

const RIGHT = { side: 'right' as const }
const whole = (value: number): string => String(Math.round(value)).replace('-', '−')
const tenths = (value: number): string => (value < 9.95 ? (Math.round(value * 10) / 10).toFixed(1) : whole(value))
const money = (value: number | null): string => (value === null ? 'unpriced' : whole(value))

const HEADS = [
  { head: 'measure' },
  { head: 'cost', ...RIGHT },
  { head: 'wrong', ...RIGHT },
  { head: 'hot', ...RIGHT },
  { head: 'cold', ...RIGHT },
  { head: 'wet', ...RIGHT },
  { head: 'frost', ...RIGHT },
  { head: 'g/m²', ...RIGHT },
  { head: 'litres', ...RIGHT },
  { head: 'gear l', ...RIGHT },
  { head: 'kWh', ...RIGHT },
]

const cells = (of: RemedyAmounts): readonly string[] => [
  ...[of.wrongH, of.hotH, of.coldH, of.wetH, of.frostH, of.mostGPerM2].map(whole),
  ...[tenths(of.fellL), tenths(of.onGearL), whole(of.heaterKWh + of.fanKWh)],
]
/** Names as short as their column: the words of a row stand in full in the list of its file. */
const NAME_CHARS = 14
const named = (row: RemedyRow): string => (row.name.length <= NAME_CHARS ? row.name : row.id)

/** The table, 80 columns wide, with what was found of the years in which the design holds. */
export function remediesText(of: RemedyTable, held: string): string {
  const rows = (list: readonly RemedyRow[], plus: string) =>
    list.map((row) => [`${plus}${named(row)}`, money(row.money), ...cells(row.after)])
  const notes = of.alone.flatMap((row) => (row.note === null ? [] : [wrapped(`${row.name}: ${row.note}.`, { hang: 2 })]))
  const { after } = of.design
  return [
    wrapped(
      `What each measure buys box ${of.box}: means of ${of.yearsCount} made ${of.yearsCount === 1 ? 'year' : 'years'}, at the middle of what nobody measured`,
    ),
    'One at a time',
    table(HEADS, [['nothing done', '0', ...cells(of.base.after)], ...rows(of.alone, '')]),
    'One on top of the other, in the order of what they pay',
    table(HEADS, [
      ['nothing done', '0', ...cells(of.base.after)],
      ...rows(of.stacked, '+ '),
      ['as designed', '', ...cells(after)],
    ]),
    [
      wrapped(
        `cost in ${of.currency}, at once; in the second table what each adds. “wrong”: hours a year in which gear is too hot or too cold, water lies or falls on it, or the roof may drip. “g/m²”: most that hung under the roof in any of the years. “litres”: what fell, “gear l”: of it on gear.`,
      ),
      ...notes,
      wrapped(`As designed: ${held}`),
    ].join('\n'),
  ].join('\n\n')
}

/** Heads and rows of the list. */
export function remediesRows(of: RemedyTable): readonly [readonly string[], readonly (readonly (string | number)[])[]] {
  const keys = Object.keys(of.base.after) as (keyof RemedyAmounts)[]
  const round = (value: number) => Math.round(value * 1000) / 1000
  const line = (part: string, name: string, cost: number | null, after: RemedyAmounts, note: string | null) => [
    ...[part, name, cost ?? ''],
    ...keys.map((k) => round(after[k])),
    note ?? '',
  ]
  return [
    ['part', 'measure', `cost ${of.currency}`, ...keys, 'note'],
    [
      line('alone', of.base.name, 0, of.base.after, null),
      ...of.alone.map((r) => line('alone', r.name, r.money, r.after, r.note)),
      ...of.stacked.map((r) => line('stacked', r.name, r.money, r.after, r.note)),
      line('design', of.design.name, null, of.design.after, `holds in ${of.design.heldYearsCount} of ${of.yearsCount} years`),
    ],
  ]
}
