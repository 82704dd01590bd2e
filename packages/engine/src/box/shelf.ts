import { type Cell, Fault, type Row, type Source, shelfOf, source } from '../kernel/index.ts'
import type { BodyFigure } from './result.ts'
import { tables } from './tables.generated.ts'

type TableId = keyof typeof tables

const shelf = shelfOf<TableId>('box', tables)

/** A row by the words of its first cell, with the names of its columns. @throws Fault `box/no-row` */
export const rowOf: (id: TableId, first: string) => Row = shelf.rowOf

/** A number out of a cell: `2050 +/- 50` is 2050, `1.6 middle, 2.0 ends` is 1.6. @throws Fault `box/no-number` */
export function numberIn(cell: Cell | undefined): number {
  const found = typeof cell === 'number' ? cell : Number.parseFloat(String(cell))
  if (!Number.isFinite(found)) throw new Fault('box/no-number', String(cell))
  return found
}

/** Where a row's figures come from. */
export const rowSource = (id: TableId, first: string): Source => shelf.sourceOf(id, rowOf(id, first))

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
