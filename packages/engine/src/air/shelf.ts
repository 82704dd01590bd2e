import { Fault, type Row, shelfOf } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type TableId = keyof typeof tables

const shelf = shelfOf<TableId>('air', tables)
export const { rowsOf, rowOf, sourceOf } = shelf

/** @throws Fault `air/no-number` */
export function numberIn(row: Row, column: string): number {
  const value = row[column]
  if (typeof value !== 'number') throw new Fault('air/no-number', { column, value })
  return value
}

/** Words of a row. @throws Fault `air/no-words` */
export function wordsIn(row: Row, column: string): string {
  const value = row[column]
  if (typeof value !== 'string') throw new Fault('air/no-words', { column, value })
  return value
}

/** Value at x on straight lines through rising points, held at both ends. */
export function between(xs: readonly number[], ys: readonly number[], x: number): number {
  let i = 1
  while (i < xs.length - 1 && x > xs[i]!) i++
  const share = Math.min(Math.max((x - xs[i - 1]!) / (xs[i]! - xs[i - 1]!), 0), 1)
  return ys[i - 1]! + share * (ys[i]! - ys[i - 1]!)
}
