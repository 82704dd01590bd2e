import { Fault, type Figure, type Put, put, type Row, type Source, type Step, shelfOf, source, step } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type TableId = keyof typeof tables

const shelf = shelfOf<TableId>('haul', tables)
export const { rowsOf } = shelf

/** The row whose cells are these. @throws Fault `haul/no-row` */
export const rowOf: (id: TableId, key: Row) => Row = shelf.rowOf

/** @throws Fault `haul/no-number` */
export function numberIn(row: Row, column: string): number {
  const value = row[column]
  if (typeof value !== 'number') throw new Fault('haul/no-number', { column, value })
  return value
}

/** Where a row's figures come from. */
export const sourceOf = (id: TableId, row: Row, words: string): Source =>
  shelf.sourceOf(id, row, `${tables[id].source}, ${words}`)

export type FigureName = (typeof tables)['haul-figures']['rows'][number][0]

/** One of the single figures of `haul-figures`, in the unit its row prints. */
export const figure = (name: FigureName): Figure => shelf.figure('haul-figures', name)

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
