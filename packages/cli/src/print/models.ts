import type { Module } from '@plugstead/engine/parts'
import { CHANGE_CAUTIONS } from '@plugstead/engine/plan'
import {
  limitWords,
  type ModelLimits,
  type ModelMoved,
  type ModelPlaces,
  type Moved,
  type Price,
  type Ranked,
  type Ranking,
} from '@plugstead/engine/rank'
import { moneyText } from './number.ts'
import { table } from './table.ts'
import { labelled, wrapped } from './wrap.ts'

const COLUMN = 10

/** What would do for a call, best first, and why each is not better. */
export function rankingText({ ranked, rankedBy, rankedByBecause }: Ranking): string {
  const rows = ranked.map((row) => [
    String(row.rankCount),
    row.kind,
    row.revision === null ? row.id : `${row.id} ${row.revision}`,
    row.does === 'not' ? 'does not do' : row.does,
    row.earliest ?? 'unknown',
    shownPrice(row.price),
  ])
  const columns = [
    { head: '', side: 'right' as const },
    { head: 'what' },
    { head: 'name' },
    { head: 'does', wraps: true },
    { head: 'earliest' },
    { head: rankedBy === 'sale' ? 'sale' : 'rent', side: 'right' as const },
  ]
  return [
    table(columns, rows),
    wrapped(`Ranked by ${rankedBy}: ${rankedByBecause}. The other kind of price stands beside, in no ranking.`),
    ...ranked.map(rowText),
    [
      ...CHANGE_CAUTIONS,
      'Each row is a judgement of what was told. A licensed person and the authority having jurisdiction decide.',
    ]
      .map((said) => labelled('caution', said, COLUMN, 2))
      .join('\n'),
  ].join('\n\n')
}

const shownPrice = (price: Price): string =>
  price.isPriced ? `${price.isFloor ? '≥ ' : ''}${moneyText(price.totalMoney, price.currency)}` : 'unknown'

const priceText = (price: Price): string =>
  `${price.lines.map((l) => `${l.what} ${l.money === null ? 'unknown' : moneyText(l.money, price.currency)}${l.from === undefined ? '' : ` (${l.from})`}`).join('; ')}${price.lacking.length === 0 ? '' : `. In no sum: ${price.lacking.slice(0, MOST_LACKING).join(', ')}${price.lacking.length > MOST_LACKING ? ` and ${price.lacking.length - MOST_LACKING} more` : ''}`}`
/** All of them stand in the JSON. */
const MOST_LACKING = 4

const floor = (is: boolean): string => (is ? 'at least ' : '')

function rowText(row: Ranked): string {
  const lines: (readonly [string, string])[] = [
    ['verdict', row.unknown.length === 0 ? row.verdict : `${row.verdict}; nobody told enough for ${row.unknown.join(', ')}`],
    ...row.reasons.map(
      (r) =>
        [
          r.reason,
          r.said.length > 2
            ? `${r.said.slice(0, 2).join(' ')} And ${r.said.length - 2} more (${r.codes.join(', ')}).`
            : r.said.join(' '),
        ] as const,
    ),
    ...changeRows(row),
    [row.price.is === 'sale' ? 'sale' : 'rent', priceText(row.price)],
    [`as ${row.priceBeside.is === 'sale' ? 'sale' : 'rent'}`, shownPrice(row.priceBeside)],
    ...(row.whyNotBetter === '' ? [] : [['not better', row.whyNotBetter] as const]),
  ]
  const head = `${row.rankCount}  ${row.name}${row.revision === null ? '' : `, revision ${row.revision}`}: ${row.does === 'not' ? 'does not do' : `does ${row.does}`}`
  return [wrapped(head, { hang: 3 }), ...lines.map(([label, text]) => labelled(label, text, Math.max(COLUMN, 13), 3))].join('\n')
}

function changeRows({ changes }: Ranked): readonly (readonly [string, string])[] {
  if (changes === null) return []
  const { hours: h, currency } = { hours: changes.hours, currency: '' }
  const still = changes.stillFails.length === 0 ? '' : ` Still fails: ${changes.stillFails.join(', ')}.`
  return [
    ...changes.parts.map(
      (p) =>
        [
          p.action,
          `${p.quantity === 1 ? '' : `${p.quantity} × `}${p.what}${p.what.includes(p.tag) ? '' : `, ${p.tag}`}: ${p.needed}`,
        ] as const,
    ),
    [
      'work',
      `${floor(changes.hoursAreFloor)}${h.low.toFixed(1)} to ${h.high.toFixed(1)} h, ${changes.days} working days of one person; parts ${floor(changes.moneyIsFloor)}${Math.round(changes.materialMoney)}${currency}.${still}`,
    ],
  ]
}

type GoodFor = ModelLimits & {
  readonly name: string
  readonly price: { readonly amount: number; readonly currency: string; readonly date: string }
  readonly drawings: readonly string[]
  readonly movedOn: readonly Moved[]
}

/** One code says enough on a screen; all of them stand in the JSON. */
const firstOf = (codes: readonly string[]): string =>
  codes.length > 1 ? `${codes[0]} and ${codes.length - 1} more` : (codes[0] ?? '')

/** What one model is good for, as it was judged. */
export function limitsText(row: GoodFor): string {
  const rows = [
    ...row.limits.map((l) => [l.name, limitWords(l), firstOf(l.fails)]),
    ...row.lift.map((v) => [`set down by ${v.name}`, v.verdict, firstOf(v.codes)]),
    ...row.papers.map((v) => [`papers: ${v.name}`, v.verdict, firstOf(v.codes)]),
  ]
  return [
    wrapped(
      `${row.name}, revision ${row.revision}: ${moneyText(row.price.amount, row.price.currency)} (${row.price.date}), ${row.massKg} kg, ${row.drawings.join(', ')}`,
      { hang: 2 },
    ),
    ...row.movedOn.map((m) =>
      wrapped(`drawn with ${m.what} ${m.was}; the shop has ${m.now}, and this is judged with that`, { indent: 2, hang: 4 }),
    ),
    ...(row.failsMild.length === 0
      ? []
      : [wrapped(`Fails even in a mild place: ${row.failsMild.join(', ')}`, { indent: 2, hang: 4 })]),
    table([{ head: 'limit' }, { head: 'holds to' }, { head: 'then fails', wraps: true }], rows, 2),
    ...[...row.lift.map((v) => ({ ...v, name: `set down by ${v.name}` })), ...row.papers].flatMap((v) =>
      v.missing.map((what) => wrapped(`${v.name}: ${what}`, { indent: 2, hang: 4 })),
    ),
  ].join('\n')
}

/** In which places nothing of a model’s air fails; null: not asked, or stopped. */
export function placesText(of: readonly ModelPlaces[] | null): string {
  if (of === null)
    return wrapped(
      'Air: not asked, or stopped. In which places each model stays dry and cool enough through a year is said with --places.',
    )
  return of.map(placesOfModel).join('\n\n')
}

function placesOfModel({ model, places, coldestMonthC, hottestMonthC }: ModelPlaces): string {
  const named = (verdicts: readonly string[]) => places.filter((p) => verdicts.includes(p.verdict)).map((p) => p.place)
  const [good, unknown] = [named(['holds', 'tight']), named(['unknown'])]
  const band =
    coldestMonthC === null || hottestMonthC === null
      ? ''
      : `, months of ${Math.round(coldestMonthC)} to ${Math.round(hottestMonthC)} °C on the mean`
  const counts = new Map<string, number>()
  for (const p of places) if (p.verdict === 'fails') for (const code of p.codes) counts.set(code, (counts.get(code) ?? 0) + 1)
  const fails = [...counts].toSorted((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).map(([code, n]) => `${code} in ${n}`)
  return [
    wrapped(`${model}, air through a year of each of ${places.length} places: nothing fails in ${good.length}${band}`, {
      hang: 2,
    }),
    ...(good.length === 0 ? [] : [wrapped(good.join('; '), { indent: 2, hang: 4 })]),
    ...(unknown.length === 0 ? [] : [wrapped(`Unknown in ${unknown.length}: ${unknown.join('; ')}`, { indent: 2, hang: 4 })]),
    ...(fails.length === 0 ? [] : [wrapped(`Fails elsewhere: ${fails.join(', ')}`, { indent: 2, hang: 4 })]),
  ].join('\n')
}

export function modulesText(
  rows: readonly (Module & { readonly usedBy: readonly string[] })[],
  moved: readonly (Moved & { readonly model: string })[],
): string {
  if (rows.length === 0) return 'The shop has no modules: name their sheets under modules in shop.yaml.'
  const list = table(
    [
      { head: 'module' },
      { head: 'rev' },
      { head: 'kg', side: 'right' },
      { head: 'price', side: 'right' },
      { head: 'of' },
      { head: 'used by', wraps: true },
    ],
    rows.map((m) => [
      m.id,
      m.revision,
      `${m.massKg}${m.massMeasured ? ' weighed' : ''}`,
      `${m.price.amount} ${m.price.currency}`,
      m.price.date,
      m.usedBy.join(', ') || 'none',
    ]),
  )
  const lines = moved.map((m) => wrapped(`${m.model} was drawn with ${m.what} ${m.was}; the shop has ${m.now}`, { hang: 2 }))
  return [list, ...(lines.length === 0 ? [] : [lines.join('\n')])].join('\n\n')
}

/** What a new sheet of a module moves in each model that uses it. */
export function movedText(module: Module, models: readonly ModelMoved[]): string {
  const head = `${module.name}, revision ${module.revision}: ${models.length === 0 ? 'no model uses it' : `used by ${models.map((m) => m.model).join(', ')}`}`
  return [
    wrapped(head, { hang: 2 }),
    ...models.map(({ model, revision, moved }) =>
      [
        `${model}, revision ${revision}`,
        moved.length === 0
          ? '  nothing moved'
          : table(
              [{ head: 'what', wraps: true }, { head: 'was' }, { head: 'now' }],
              moved.map((m) => [m.what, m.was, m.now]),
              2,
            ),
      ].join('\n'),
    ),
  ].join('\n\n')
}
