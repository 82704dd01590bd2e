import { shelfOf } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type TableId = keyof typeof tables

/** Printed tables of weather: places, clearness, residuals, shapes of the day. */
export const { rowsOf, rowOf, sourceOf, figure } = shelfOf<TableId>('weather', tables)
