import { type Problem, parseMoney, parseQuantity, type Result } from '@plugstead/engine/kernel'
import type { Price, Prices } from '@plugstead/engine/parts'
import { type TableRows, tableRows, type Value } from './table-rows.ts'
import { columnName } from './workbook.ts'

/** Heads a list may have, in any order; each may be written in these ways. */
const HEADS = {
  id: ['id', 'item'],
  money: ['price', 'money', 'unit price'],
  per: ['per', 'unit'],
  date: ['date', 'price date'],
  source: ['source', 'quote'],
  supplier: ['supplier'],
  pack: ['pack', 'pack size'],
  waste: ['waste'],
  currency: ['currency'],
} as const
type Head = keyof typeof HEADS
const NEEDED: readonly Head[] = ['id', 'money', 'per', 'date', 'source']
const PER = ['m', 'm2', 'each', 'h'] as const

export interface PriceList {
  readonly prices: Prices
  /** Columns that no head names, and so were not read. */
  readonly notRead: readonly string[]
}

/**
 * A supplier's or the shop's own list as price rows. Every problem with its row and cell, all at once. What begins like a formula is
 * words: nothing in a list is ever worked out. `currency`: of rows that name none.
 */
export async function readPriceList(bytes: Uint8Array, of: { readonly currency?: string } = {}): Promise<Result<PriceList>> {
  const table = await tableRows(bytes)
  return table.ok ? priceRows(table.value, of.currency) : table
}

function priceRows({ rows }: TableRows, currency: string | undefined): Result<PriceList> {
  const problems: Problem[] = []
  const headAt = rows.findIndex((row) => row.some((cell) => cell !== null))
  const heads = (rows[headAt] ?? []).map((cell) => headOf(cell))
  const missing = NEEDED.filter((head) => !heads.includes(head))
  const wanted = Object.values(HEADS)
    .map((names) => names[0])
    .join(', ')
  if (headAt < 0 || missing.length > 0)
    problems.push({
      ...{
        code: 'list/head',
        line: Math.max(1, headAt + 1),
        found: headAt < 0 ? 'an empty list' : `no column for ${missing.map((h) => HEADS[h][0]).join(', ')}`,
      },
      ...{ wanted: `a first row with ${wanted}`, mend: 'Name the columns in the first row.' },
    })
  for (const head of Object.keys(HEADS) as Head[])
    if (heads.filter((h) => h === head).length > 1)
      problems.push({
        ...{ code: 'list/head-twice', line: headAt + 1, found: `two columns “${HEADS[head][0]}”`, wanted: 'each once' },
        mend: 'Take one of them out.',
      })
  if (problems.length > 0) return { ok: false, problems }
  const out = new Map<string, Price & { readonly currency: string }>()
  rows.slice(headAt + 1).forEach((row, i) => {
    if (row.every((cell) => cell === null)) return
    const line = headAt + i + 2
    const cellOf = (head: Head): Value => row[heads.indexOf(head)] ?? null
    const wrong = (head: Head, found: string, want: string, mend: string): null => {
      problems.push({
        code: `list/${head}`,
        line,
        path: `${columnName(Math.max(0, heads.indexOf(head)))}${line}`,
        found,
        wanted: want,
        mend,
      })
      return null
    }
    const price = priceOf(cellOf, wrong, currency)
    if (price === null) return
    if (out.has(price.id)) wrong('id', `${price.id} again`, 'each item once', 'Keep one of the rows.')
    else out.set(price.id, price)
  })
  if (problems.length > 0) return { ok: false, problems }
  const own = currency ?? [...out.values()][0]?.currency ?? 'XXX'
  return {
    ok: true,
    value: {
      prices: {
        currency: own,
        rows: Object.fromEntries(
          [...out].map(([id, { currency: at, ...price }]) => [id, at === own ? price : { ...price, currency: at }]),
        ),
      },
      notRead: (rows[headAt] ?? []).flatMap((cell, i) => (heads[i] === null && cell !== null ? [String(cell)] : [])),
    },
  }
}

function headOf(cell: Value): Head | null {
  const words = String(cell ?? '')
    .trim()
    .toLowerCase()
  return (Object.keys(HEADS) as Head[]).find((head) => HEADS[head].some((name) => name === words)) ?? null
}

type Wrong = (head: Head, found: string, wanted: string, mend: string) => null

const shown = (value: Value): string => (value === null ? 'nothing' : `“${String(value).slice(0, 40)}”`)

function priceOf(
  cell: (head: Head) => Value,
  wrong: Wrong,
  usual: string | undefined,
): (Price & { readonly currency: string }) | null {
  const words = (head: Head): string => String(cell(head) ?? '').trim()
  const id = words('id')
  if (id === '') wrong('id', 'nothing', 'a name as the lists use it', 'Write for example conductor/12 AWG/cu.')
  const amount = amountOf(cell('money'))
  if (amount === null)
    wrong('money', shown(cell('money')), 'an amount of money, 0 or more', 'Write a plain number with a decimal point: 0.55.')
  const currency = words('currency') || amount?.currency || usual || ''
  if (!/^[A-Z]{3}$/.test(currency))
    wrong(
      'currency',
      shown(cell('currency')),
      'a currency of three capital letters',
      'Add a column currency, or say it with --currency.',
    )
  const per = PER.find((p) => p === words('per'))
  if (per === undefined) wrong('per', shown(cell('per')), PER.join(', '), 'Write what the price is for.')
  const date = words('date')
  if (!isDay(date)) wrong('date', shown(cell('date')), 'the day of the price, as 2026-09-15', 'Write year, month and day.')
  const source = words('source')
  if (source === '') wrong('source', 'nothing', 'who said so', 'Write for example the number of the quote.')
  const pack = cell('pack') === null ? undefined : Number(cell('pack'))
  if (pack !== undefined && !(pack > 0 && pack < Infinity))
    wrong('pack', shown(cell('pack')), 'a number above 0', 'Write how much is in one pack, or leave it empty.')
  const waste = wasteOf(cell('waste'))
  if (waste === null) wrong('waste', shown(cell('waste')), 'a share from 0 % to 100 %', 'Write for example 5 %.')
  const supplier = words('supplier')
  if (id === '' || amount === null || !/^[A-Z]{3}$/.test(currency) || per === undefined || !isDay(date) || source === '')
    return null
  if (waste === null || (pack !== undefined && !(pack > 0))) return null
  return {
    ...{ id, money: amount.money, per, date, source, currency },
    ...(supplier === '' ? {} : { supplier }),
    ...(pack === undefined ? {} : { packCount: pack }),
    ...(waste === undefined ? {} : { wasteFrac: waste }),
  }
}

/** A number, or an amount with its currency: `0.55`, `0.55 USD`. A comma could mean two things and is refused. */
function amountOf(value: Value): { readonly money: number; readonly currency: string } | null {
  if (typeof value === 'number') return value >= 0 && value < 1e9 ? { money: value, currency: '' } : null
  if (typeof value !== 'string') return null
  if (/^\d+(\.\d+)?$/.test(value)) return Number(value) < 1e9 ? { money: Number(value), currency: '' } : null
  const read = parseMoney(value, null)
  return read.ok && read.value.amount >= 0 && read.value.amount < 1e9
    ? { money: read.value.amount, currency: read.value.currency }
    : null
}

/** Absent: undefined; not a share: null. A spreadsheet holds 5 % as 0.05. */
function wasteOf(value: Value): number | null | undefined {
  if (value === null) return undefined
  if (typeof value === 'number') return value >= 0 && value <= 1 ? value : null
  const read = parseQuantity(String(value), 'share')
  return read.ok && read.value.value >= 0 && read.value.value <= 1 ? read.value.value : null
}

/** A day that the calendar has. */
const isDay = (words: string): boolean => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(words)) return false
  const at = new Date(`${words}T00:00:00Z`)
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(words)
}
