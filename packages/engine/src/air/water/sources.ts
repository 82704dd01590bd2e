import { numberIn, rowOf, rowsOf } from '../shelf.ts'

/** Water that a source brings in, both ends of what the trade says, in the row's own unit. @throws Fault `air/no-row` @source common practice */
export function waterSource(name: string): { readonly low: number; readonly high: number; readonly unit: string } {
  const row = rowOf('water-sources', name)
  return { low: numberIn(row, 'low'), high: numberIn(row, 'high'), unit: String(row.unit) }
}

export const WATER_SOURCES: readonly string[] = rowsOf('water-sources').map((row) => String(row.source))
