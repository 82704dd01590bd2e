import { Fault, type Provenance, type Put, put, type ShelfTable, type Source, type Step, source, step } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type TableId = keyof typeof tables
type Cell = string | number | null | readonly number[]
type Row = Readonly<Record<string, Cell>>

/** A figure and the row it rests on. */
export interface Figure {
  readonly value: number
  readonly rests: Source
}

const named = Object.fromEntries(
  Object.entries(tables).map(([id, table]: [string, ShelfTable]) => [
    id,
    table.rows.map((cells): Row => Object.fromEntries(table.columns.map((column, at) => [column, cells[at] as Cell]))),
  ]),
)

/** Rows of a table with the names of its columns. */
export const rowsOf = (id: TableId): readonly Row[] => named[id] ?? []

/** The row whose cells are these. @throws Fault `haul/no-row` */
export function rowOf(id: TableId, key: Row): Row {
  const row = rowsOf(id).find((one) => Object.entries(key).every(([column, value]) => one[column] === value))
  if (row === undefined) throw new Fault('haul/no-row', { id, ...key })
  return row
}

/** @throws Fault `haul/no-number` */
export function numberIn(row: Row, column: string): number {
  const value = row[column]
  if (typeof value !== 'number') throw new Fault('haul/no-number', { column, value })
  return value
}

/** The weakest word in what a table says of its own firmness. */
const firmness = (said: string): Provenance => {
  if (said.includes('memory')) return 'memory'
  if (said.includes('common practice')) return 'common practice'
  return said.includes('read') ? 'read' : 'computed'
}

/** Where a row's figures come from. */
export function sourceOf(id: TableId, row: Row, words: string): Source {
  const own = row.row_provenance
  const place = typeof row.clause === 'string' ? row.clause : `${tables[id].source}, ${words}`
  return source(place, firmness(typeof own === 'string' ? own : tables[id].provenance))
}

export type FigureName = (typeof tables)['haul-figures']['rows'][number][0]

/** One of the single figures of `haul-figures`, in the unit its row prints. */
export function figure(name: FigureName): Figure {
  const row = rowOf('haul-figures', { figure: name })
  return { value: numberIn(row, 'value'), rests: sourceOf('haul-figures', row, name) }
}

export const amount = (name: FigureName): number => figure(name).value

type In = readonly (readonly [symbol: string, value: number | string, unit: string])[]

/** One line of arithmetic or statics. */
export const line = (
  symbol: string,
  expression: string,
  values: In,
  result: number | string,
  unit: string,
  rests: Source = source('statics', 'computed'),
): Step =>
  step(
    symbol,
    expression,
    values.map(([s, v, u]): Put => put(s, v, u)),
    result,
    unit,
    rests,
  )

/** Every argument a finite number, or a Fault `haul/<what>`. */
export function finite(what: string, of: Readonly<Record<string, number>>): void {
  if (!Object.values(of).every(Number.isFinite)) throw new Fault(`haul/${what}`, of)
}

export const radOf = (deg: number): number => (deg * Math.PI) / 180
export const degOf = (rad: number): number => (rad * 180) / Math.PI
