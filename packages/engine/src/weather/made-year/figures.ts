import { Fault } from '../../kernel/index.ts'
import { figure, rowOf, type TableId } from '../shelf.ts'
import type { tables } from '../tables.generated.ts'

export type FigureName = (typeof tables)['made-year-figures']['rows'][number][0]

/** One of the figures of table `made-year-figures`, in the unit its row prints. */
export const amount = (name: FigureName): number => figure('made-year-figures', name).value

/** The list of numbers in a row. @throws Fault `weather/no-number` */
export function listOf(id: TableId, key: Parameters<typeof rowOf>[1], column: string): readonly number[] {
  const value = rowOf(id, key)[column]
  if (!Array.isArray(value)) throw new Fault('weather/no-number', { id, column })
  return value as readonly number[]
}
