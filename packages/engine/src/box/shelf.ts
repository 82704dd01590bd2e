import { Fault, type Provenance, type ShelfTable, type Source, source } from '../kernel/index.ts'
import type { BodyFigure } from './result.ts'
import { tables } from './tables.generated.ts'

type TableId = keyof typeof tables
type Cell = string | number | null | readonly number[]

/** A row by the words of its first cell, with the names of its columns. @throws Fault `box/no-row` */
export function rowOf(id: TableId, first: string): Readonly<Record<string, Cell>> {
  const table: ShelfTable = tables[id]
  const row = table.rows.find((cells) => cells[0] === first)
  if (row === undefined) throw new Fault('box/no-row', { id, first })
  return Object.fromEntries(table.columns.map((column, at) => [column, row[at] as Cell]))
}

/** A number out of a cell: `2050 +/- 50` is 2050, `1.6 middle, 2.0 ends` is 1.6. @throws Fault `box/no-number` */
export function numberIn(cell: Cell | undefined): number {
  const found = typeof cell === 'number' ? cell : Number.parseFloat(String(cell))
  if (!Number.isFinite(found)) throw new Fault('box/no-number', String(cell))
  return found
}

/** The weakest word in what a table says of its own firmness. */
export function firmness(said: string): Provenance {
  if (said.includes('memory')) return 'memory'
  if (said.includes('common practice')) return 'common practice'
  return said.includes('read') ? 'read' : 'computed'
}

/** Where a row's figures come from. */
export function rowSource(id: TableId, first: string): Source {
  const own = rowOf(id, first).row_provenance
  return source(`table ${id}, ${first}`, firmness(typeof own === 'string' ? own : tables[id].provenance))
}

export const fromTable = (value: number, id: TableId, first: string): BodyFigure => ({
  value,
  measured: false,
  rests: rowSource(id, first),
})

export const computed = (value: number, place: string): BodyFigure => ({
  value,
  measured: false,
  rests: source(place, 'common practice'),
})

/** A figure measured on the box: wins over any table. */
export const measuredFigure = (value: number, what: string, by: string | null): BodyFigure => ({
  value,
  measured: true,
  rests: source(by === null ? `${what}, measured on the box` : `${what}, measured on the box by ${by}`, 'told'),
})

/** One of our own figures (table `body-figures`). */
export const bodyFigure = (item: string): number => numberIn(rowOf('body-figures', item).value)
