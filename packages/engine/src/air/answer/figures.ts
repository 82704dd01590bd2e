import { type Figure, type Row, type Source, shelfOf } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

const shelf = shelfOf('air', tables)

export type AnswerFigure = (typeof tables)['air-answer-figures']['rows'][number][0]

/** One of the single figures that the answer is judged by, in the unit its row prints. */
export const figure = (name: AnswerFigure): Figure => shelf.figure('air-answer-figures', name)
export const amount = (name: AnswerFigure): number => figure(name).value

type Told = 'corrosivity' | 'air-settling'
export const rowsOf = (id: Told): readonly Row[] => shelf.rowsOf(id)

/** Where a row's figures come from, as the table cites it. */
export const sourceOf = (id: Told, row: Row): Source =>
  shelf.sourceOf(id, row, `${tables[id].source}, ${String(row[tables[id].columns[0]])}`)
