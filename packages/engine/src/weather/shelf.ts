import { Fault, type Row, shelfOf } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type TableId = keyof typeof tables

const shelf = shelfOf<TableId>('weather', tables)
export const { rowsOf, rowOf, sourceOf, figure } = shelf

/** @throws Fault `weather/no-number` */
export function numberIn(row: Row, column: string): number {
  const value = row[column]
  if (typeof value !== 'number') throw new Fault('weather/no-number', { column, value })
  return value
}

export const radOf = (deg: number): number => (deg * Math.PI) / 180
export const degOf = (rad: number): number => (rad * 180) / Math.PI

/** Every argument a finite number, or a Fault `weather/<what>`. */
export function finite(what: string, of: Readonly<Record<string, number>>): void {
  for (const value of Object.values(of)) if (!Number.isFinite(value)) throw new Fault(`weather/${what}`, of)
}
