import type { RuleSetId } from '../../job/index.ts'
import { Fault, type Source, source } from '../../kernel/index.ts'
import type { Cell, Cited, Table } from '../rule-set.ts'
import { vouched } from './provenance.ts'

/** The tables of one rule set as its functions read them: every look-up brings the row's source along. */
export interface Book {
  readonly set: RuleSetId
  readonly tables: Readonly<Record<string, Table>>
  /** Cells already looked up: tables never change under a book. */
  readonly seen: Map<string, Cited<Exclude<Cell, null>> | null>
  readonly sources: Map<string, Source>
}

export const bookOf = (set: RuleSetId, tables: Readonly<Record<string, Table>>): Book => ({
  set,
  tables,
  seen: new Map(),
  sources: new Map(),
})

/** A row by its first cell, or by several named cells. */
export type Key = string | number | Readonly<Record<string, Cell>>

export function tableOf(book: Book, id: string): Table {
  const table = book.tables[id]
  if (table === undefined) throw new Fault('rules/no-table', { set: book.set, id })
  return table
}

function columnIndex(table: Table, column: string): number {
  const at = table.columns.indexOf(column)
  if (at < 0) throw new Fault('rules/no-column', { table: table.id, column })
  return at
}

/** Index of a row; −1 when there is none. */
export function rowIndex(table: Table, key: Key): number {
  if (typeof key !== 'object') return table.rows.findIndex((row) => String(row[0]) === String(key))
  const wanted = Object.entries(key).map(([column, value]) => [columnIndex(table, column), String(value)] as const)
  return table.rows.findIndex((row) => wanted.every(([at, value]) => String(row[at]) === value))
}

/** One cell with its source; null when the table has no such row, or nothing in that cell. */
export function cellAt(book: Book, id: string, key: Key, column: string): Cited<Exclude<Cell, null>> | null {
  const name = `${id}|${typeof key === 'object' ? JSON.stringify(key) : key}|${column}`
  const known = book.seen.get(name)
  if (known !== undefined) return known
  const found = lookUp(book, id, key, column)
  book.seen.set(name, found)
  return found
}

function lookUp(book: Book, id: string, key: Key, column: string): Cited<Exclude<Cell, null>> | null {
  const table = tableOf(book, id)
  const at = rowIndex(table, key)
  if (at < 0) return null
  const value = table.rows[at]?.[columnIndex(table, column)]
  return value === null || value === undefined ? null : { value, rests: rests(book, table, at, column) }
}

/** One number with its source; null when it is not there. @throws Fault `rules/not-a-number` when the cell holds words */
export function numberOrNull(book: Book, id: string, key: Key, column: string): Cited<number> | null {
  const cell = cellAt(book, id, key, column)
  if (cell === null) return null
  if (typeof cell.value !== 'number') throw new Fault('rules/not-a-number', { id, key, column, found: cell.value })
  return { value: cell.value, rests: cell.rests }
}

/** One number with its source. @throws Fault `rules/no-row` */
export function numberAt(book: Book, id: string, key: Key, column: string): Cited<number> {
  const cell = numberOrNull(book, id, key, column)
  if (cell === null) throw new Fault('rules/no-row', { id, key, column })
  return cell
}

/** One word with its source. @throws Fault `rules/no-row` */
export function wordAt(book: Book, id: string, key: Key, column: string): Cited<string> {
  const cell = cellAt(book, id, key, column)
  if (cell === null) throw new Fault('rules/no-row', { id, key, column })
  return { value: String(cell.value), rests: cell.rests }
}

/** A list of numbers with its source. @throws Fault `rules/no-row` */
export function listAt(book: Book, id: string, key: Key, column: string): Cited<readonly number[]> {
  const cell = cellAt(book, id, key, column)
  if (cell === null || typeof cell.value !== 'object') throw new Fault('rules/no-row', { id, key, column })
  return { value: cell.value, rests: cell.rests }
}

/** A single figure of the set, from `<set>-figures`, else of no one set, else (ca) of the set it grew with. @throws Fault `rules/no-row` */
export const figure = (book: Book, name: string): Cited<number> => numberAt(book, figuresOf(book, name), name, 'value')

/** A single word of the set, as `figure`. @throws Fault `rules/no-row` */
export const word = (book: Book, name: string): Cited<string> => wordAt(book, figuresOf(book, name), name, 'value')

const FIGURES: Record<RuleSetId, readonly string[]> = {
  us: ['us-figures', 'common-figures'],
  ca: ['ca-figures', 'common-figures', 'us-figures'],
  intl: ['intl-figures', 'common-figures'],
}

function figuresOf(book: Book, name: string): string {
  const id = FIGURES[book.set].find((table) => rowIndex(tableOf(book, table), name) >= 0)
  if (id === undefined) throw new Fault('rules/no-row', { id: FIGURES[book.set].join(', '), key: name })
  return id
}

/** First row, in printed order, whose number in `column` is at or above `value`; an empty cell there means “all above”. −1: none. */
export function rowNotOver(table: Table, column: string, value: number): number {
  const at = columnIndex(table, column)
  return table.rows.findIndex((row) => {
    const limit = row[at]
    return typeof limit === 'number' ? value <= limit * (1 + EXACT) : limit === null
  })
}

/**
 * Source of one cell, as cited on paper: the clause of its row, else the table's; the edition where it is another's than the set's;
 * the overlay, where one changed it.
 */
export function rests(book: Book, table: Table, at: number, column: string): Source {
  const name = `${table.id}|${at}|${column}`
  const known = book.sources.get(name)
  if (known !== undefined) return known
  const found = sourceOf(book, table, at, column)
  book.sources.set(name, found)
  return found
}

function sourceOf(book: Book, table: Table, at: number, column: string): Source {
  const row = table.rows[at] ?? []
  const clause = row[table.columns.indexOf('clause')]
  const place = typeof clause === 'string' ? clause : `${shortSource(table.source, book.set)}, row ${String(row[0])}`
  const changed = table.overlaid?.filter((o) => o.row === at && (o.column === column || o.column === '*')).at(-1)
  if (changed !== undefined) {
    const what = changed.column === '*' ? changed.source : `${changed.source} (changes ${place})`
    return source(what, changed.provenance, `${changed.overlay}, ${changed.date}`)
  }
  const by = tableOf(book, 'provenance-by-row')
  const { word: how, edition } = vouched(by, table, at, column)
  if (table.set !== 'common' && table.set !== book.set) {
    return source(place, how, `${edition ?? OWN_EDITION[table.set]}, another set's table`)
  }
  return edition === null ? source(place, how) : source(place, how, edition)
}

const OWN_EDITION: Record<RuleSetId, string> = { us: 'NFPA 70-2023', ca: 'CE Code 2021', intl: 'IEC 60364' }

const OWN_CODE: Record<RuleSetId, RegExp> = {
  us: /NEC|NFPA|UL |ANSI|IEEE|trade/,
  ca: /CE Code|CSA|CE Table/,
  intl: /IEC|EN |BS |VDE/,
}

/** The part of a table's source that names the set's own code, without what stands in brackets. */
function shortSource(text: string, set: RuleSetId): string {
  const parts = text.split('; ')
  const own = parts.find((part) => OWN_CODE[set].test(part)) ?? parts[0] ?? text
  return own.replace(/ \(.*$/, '').replace(/, as in .*$/, '')
}

/** Printed limits and sums of printed figures differ in the last bits; no row hangs on them. */
const EXACT = 1e-9
