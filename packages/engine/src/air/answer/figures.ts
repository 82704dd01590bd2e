import { Fault, type Figure, type Row, type Source, shelfOf } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

const shelf = shelfOf('air', tables)

export type AnswerFigure = (typeof tables)['air-answer-figures']['rows'][number][0]

/** One of the single figures that the answer is judged by, in the unit its row prints. */
export const figure = (name: AnswerFigure): Figure => shelf.figure('air-answer-figures', name)
export const amount = (name: AnswerFigure): number => figure(name).value

export const rowsOf = (id: 'gear-limits' | 'breaker-heat' | 'wetness' | 'corrosivity' | 'air-settling'): readonly Row[] =>
  shelf.rowsOf(id)

/** Where a row's figures come from, and what the table itself cites. */
export function sourceOf(id: 'gear-limits' | 'breaker-heat' | 'wetness' | 'corrosivity' | 'air-settling', row: Row): Source {
  const first = String(row[tables[id].columns[0]])
  return shelf.sourceOf(id, row, tables[id].source === 'see rows' ? `table ${id}, ${first}` : `${tables[id].source}, ${first}`)
}

/** A printed cell that begins with a number: −5 of “-5 (label)”. Null where the row prints none. @throws Fault `air/no-number` */
export function numberOrNull(row: Row, column: string): number | null {
  const cell = row[column]
  if (cell === null || cell === undefined) return null
  const value = typeof cell === 'number' ? cell : Number.parseFloat(String(cell))
  if (Number.isNaN(value)) throw new Fault('air/no-number', { column, cell })
  return value
}
