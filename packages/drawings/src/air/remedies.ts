import { formatNumber, THIN } from '@plugstead/engine/kernel'

import { box, type Item, line, type Point, type Scene, text } from '../scene.ts'
import { LINE_MM, wrapped } from './plot.ts'
import { type AirUnits, fixed, GAL_PER_L } from './units.ts'

/** What a year comes to, by its harms and what is spent against them. Null: not known. */
export interface RemedyAmounts {
  /** Hours in which gear is too hot, and too cold; hours with a wet or frosted roof. */
  readonly hotH: number | null
  readonly coldH: number | null
  readonly wetH: number | null
  /** Most that hung under the roof. */
  readonly mostGPerM2: number | null
  /** Water that fell in the year, and what of it fell on gear that no hood stands over. */
  readonly fellL: number | null
  readonly onGearL: number | null
  /** Heater and fan. */
  readonly usedKWh: number | null
}

export interface RemedyRow {
  /** “light roof”. */
  readonly name: string
  readonly after: RemedyAmounts
  /** What it costs, or what it costs more than the row above where rows are stacked; null: not known. */
  readonly money: number | null
  /** Something to be said of it: “a solar fan never runs on the night that frosts”. */
  readonly note: string | null
  /** Share of the years in which everything holds; null: not worked out. */
  readonly holdsFrac: number | null
}

export interface RemedyTable {
  readonly widthMm: number
  /** Units of water; metric unless said. */
  readonly units?: AirUnits
  readonly currency: string
  /** “as it stands”, “nothing done”. */
  readonly base: { readonly name: string; readonly after: RemedyAmounts; readonly holdsFrac: number | null }
  /** One at a time, each against the base; and one on top of the other in the order in which they pay. */
  readonly parts: readonly { readonly title: string; readonly stacked: boolean; readonly rows: readonly RemedyRow[] }[]
  /** “mean of 30 years”. */
  readonly basis: string
}

export const REMEDY_QUANTITIES = ['hotH', 'coldH', 'wetH', 'mostGPerM2', 'fellL', 'onGearL', 'usedKWh'] as const
export type RemedyQuantity = (typeof REMEDY_QUANTITIES)[number]
export const REMEDY_WORDS: Readonly<Record<RemedyQuantity, { readonly words: string; readonly unit: string }>> = {
  hotH: { words: 'too hot', unit: 'h' },
  coldH: { words: 'too cold', unit: 'h' },
  wetH: { words: 'roof wet or frosted', unit: 'h' },
  mostGPerM2: { words: 'most under the roof', unit: 'g/m²' },
  fellL: { words: 'fell', unit: 'l' },
  onGearL: { words: 'on gear', unit: 'l' },
  usedKWh: { words: 'heater and fan', unit: 'kWh' },
}

const LITRES: ReadonlySet<RemedyQuantity> = new Set(['fellL', 'onGearL'])

/** An amount and its unit as a person reads them. */
export const remedyAmount = (q: RemedyQuantity, value: number | null, units: AirUnits = 'metric'): number | null =>
  LITRES.has(q) && units === 'us' && value !== null ? value * GAL_PER_L : value
export const remedyUnit = (q: RemedyQuantity, units: AirUnits = 'metric'): string =>
  LITRES.has(q) && units === 'us' ? 'gal' : REMEDY_WORDS[q].unit

const inUnits = (a: RemedyAmounts, units: AirUnits | undefined): RemedyAmounts => ({
  ...a,
  fellL: remedyAmount('fellL', a.fellL, units),
  onGearL: remedyAmount('onGearL', a.onGearL, units),
})

const NARROW_MM = 150
const NAME_MM = 42
const MONEY_MM = 17
const BAR_MM = 2.6
const GUTTER_MM = 3
/** Quantities beside each other: on a narrow page they stand in two rows. */
const NARROW_COLUMNS = 4
/** A bar with one line of lettering under it; each line more adds one. */
const CELL_MM = BAR_MM + LINE_MM

/**
 * What each measure leaves and takes away: hollow, what there was before it; filled, what is left with it. One scale a quantity, so that bars are
 * compared down a column; the figure beside a bar is what is left and, behind it, the change.
 */
export function airRemedies(told: RemedyTable): Scene {
  const { units } = told
  const table: RemedyTable = {
    ...told,
    base: { ...told.base, after: inUnits(told.base.after, units) },
    parts: told.parts.map((p) => ({ ...p, rows: p.rows.map((r) => ({ ...r, after: inUnits(r.after, units) })) })),
  }
  const narrow = table.widthMm < NARROW_MM
  const left = narrow ? 0.4 : NAME_MM
  const right = table.widthMm - (narrow ? 0 : MONEY_MM)
  const columnsCount = narrow ? NARROW_COLUMNS : REMEDY_QUANTITIES.length
  const colMm = (right - left) / columnsCount
  const tops = topsOf(table)
  const items: Item[] = []
  const heads = REMEDY_QUANTITIES.map((q) => wrapped(`${REMEDY_WORDS[q].words}, ${remedyUnit(q, units)}`, colMm - 1.5))
  const headLines = Math.max(...heads.map((h) => h.length))
  const headRows = Math.ceil(REMEDY_QUANTITIES.length / columnsCount)
  heads.forEach((lines, i) => {
    const [x, y] = [left + (i % columnsCount) * colMm, 3 + Math.floor(i / columnsCount) * headLines * LINE_MM]
    lines.forEach((one, n) => {
      items.push(text([x, y + n * LINE_MM], one, { strong: true }))
    })
  })
  if (!narrow)
    items.push(
      text([table.widthMm - 0.4, 3], 'money,', { anchor: 'end', strong: true }),
      text([table.widthMm - 0.4, 3 + LINE_MM], table.currency, { anchor: 'end', strong: true }),
    )
  let y = 3 + Math.max(headRows * headLines, narrow ? 0 : 2) * LINE_MM + 0.6
  const at = { left, colMm, columnsCount, narrow, widthMm: table.widthMm, tops, currency: table.currency }
  y = rowItems(
    items,
    {
      name: table.base.name,
      after: table.base.after,
      before: table.base.after,
      money: null,
      note: null,
      holdsFrac: table.base.holdsFrac,
      isBase: true,
    },
    y,
    at,
  )
  for (const part of table.parts) {
    y += 1.5
    items.push(line([[0.4, y] as Point, [table.widthMm - 0.4, y] as Point], 'opening'))
    y += LINE_MM + 0.6
    items.push(text([0.4, y], part.title, { strong: true }))
    y += 1.2
    let before = table.base.after
    for (const row of part.rows) {
      y = rowItems(items, { ...row, before, isBase: false }, y, at)
      if (part.stacked) before = row.after
    }
  }
  return { sizeMm: [table.widthMm, y + 1], said: said(table), items }
}

/** Largest of each quantity: the end of its column. */
function topsOf({ base, parts }: RemedyTable): Readonly<Record<RemedyQuantity, number>> {
  const all = [base.after, ...parts.flatMap((p) => p.rows.map((r) => r.after))]
  return Object.fromEntries(REMEDY_QUANTITIES.map((q) => [q, Math.max(1e-9, ...all.map((a) => a[q] ?? 0))])) as Record<
    RemedyQuantity,
    number
  >
}

interface Columns {
  readonly left: number
  readonly colMm: number
  readonly columnsCount: number
  readonly narrow: boolean
  readonly widthMm: number
  readonly tops: Readonly<Record<RemedyQuantity, number>>
  readonly currency: string
}

function rowItems(
  items: Item[],
  row: RemedyRow & { readonly before: RemedyAmounts; readonly isBase: boolean },
  topMm: number,
  at: Columns,
): number {
  const { left, colMm, columnsCount, narrow, widthMm } = at
  const money = row.isBase ? '' : row.money === null ? 'not known' : formatNumber(Math.round(row.money))
  const share = row.holdsFrac === null ? '' : `holds in ${fixed(row.holdsFrac * 100, 0)}${THIN}% of years`
  const room = narrow ? widthMm - 1 : NAME_MM - GUTTER_MM
  const names = wrapped(
    narrow && money !== '' ? `${row.name}: ${money}${row.money === null ? '' : `${THIN}${at.currency}`}` : row.name,
    room,
  )
  const more = [share, ...(row.note === null ? [] : [row.note])].filter((one) => one !== '').flatMap((one) => wrapped(one, room))
  let y = topMm + LINE_MM
  names.forEach((one, n) => {
    items.push(text([0.4, y + n * LINE_MM], one, { strong: true }))
  })
  more.forEach((one, n) => {
    items.push(text([0.4, y + (names.length + n) * LINE_MM], one))
  })
  const nameLines = names.length + more.length
  const barTop = narrow ? y + (nameLines - 1) * LINE_MM + 1.4 : y - BAR_MM + 0.4
  const labels = REMEDY_QUANTITIES.map((q) => labelOf(q, row, colMm - 0.8))
  const cellMm = CELL_MM + (Math.max(...labels.map((l) => l.length)) - 1) * LINE_MM + (narrow ? 1 : 0)
  REMEDY_QUANTITIES.forEach((q, i) => {
    const at1: Point = [left + (i % columnsCount) * colMm, barTop + Math.floor(i / columnsCount) * cellMm]
    items.push(...cellItems({ q, row, label: labels[i]! }, at1, colMm - GUTTER_MM, at.tops[q]))
  })
  const cellsMm = Math.ceil(REMEDY_QUANTITIES.length / columnsCount) * cellMm
  if (!narrow && money !== '') items.push(text([widthMm - 0.4, y], money, { anchor: 'end' }))
  y = narrow ? barTop + cellsMm + 1.2 : Math.max(y + (nameLines - 1) * LINE_MM, barTop + cellsMm) + 0.8
  return y
}

interface Cell {
  readonly after: RemedyAmounts
  readonly before: RemedyAmounts
  readonly isBase: boolean
}

/** What is left and, behind it or where that does not fit under it, the change. */
function labelOf(q: RemedyQuantity, { after, before, isBase }: Cell, roomMm: number): readonly string[] {
  const [left, was] = [after[q], before[q]]
  if (left === null) return wrapped('not known', roomMm)
  return wrapped(`${amount(left)}${was === null || isBase ? '' : ` (${changeSaid(left - was)})`}`, roomMm)
}

function cellItems(
  { q, row, label }: { readonly q: RemedyQuantity; readonly row: Cell; readonly label: readonly string[] },
  [x, y]: Point,
  wide: number,
  top: number,
): readonly Item[] {
  const [after, before] = [row.after[q], row.before[q]]
  const said = label.map((one, n) => text([x, y + BAR_MM + 2.8 + n * LINE_MM], one))
  if (after === null) return said
  const length = (v: number): number => (v / top) * wide
  return [
    ...(before === null ? [] : [box([x, y], Math.max(0.2, length(before)), BAR_MM, 'ampere 1', 'blank')]),
    box(
      [x, y],
      Math.max(0.2, length(after)),
      BAR_MM,
      'ampere 1',
      after > (before ?? after) + 1e-9 ? 'back slant' : 'slant close',
    ),
    ...said,
  ]
}

const amount = (value: number): string =>
  Math.abs(value) >= 100 ? formatNumber(Math.round(value)) : fixed(value, Math.abs(value) < 10 && value !== 0 ? 1 : 0)
const changeSaid = (value: number): string =>
  Math.abs(value) < 0.05 ? '=' : value > 0 ? `+${amount(value)}` : amount(value).replace(/^-/, '−')

function said({ base, parts, basis, currency, units }: RemedyTable): string {
  const amounts = (a: RemedyAmounts): string =>
    REMEDY_QUANTITIES.map(
      (q) => `${REMEDY_WORDS[q].words} ${a[q] === null ? 'not known' : `${amount(a[q])} ${remedyUnit(q, units)}`}`,
    ).join(', ')
  return `What each measure leaves, ${basis}. ${base.name}: ${amounts(base.after)}. ${parts
    .map(
      (p) =>
        `${p.title}: ${p.rows.map((r) => `${r.name}${r.money === null ? '' : ` for ${formatNumber(Math.round(r.money))} ${currency}`}: ${amounts(r.after)}`).join('; ')}`,
    )
    .join('. ')}.`
}
