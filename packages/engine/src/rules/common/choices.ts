/** Cells that are one of a few words, by the name of their column or of their row: what a table, and an overlay on it, may say there. */
export const CHOICES = {
  allowed: ['yes', 'no', 'with written acceptance'],
  'sensor-alone': ['yes', 'no'],
  method: ['aggregate working load', 'EN 12195-1'],
  'wind-by': ['ASCE 7-16', 'NBC', 'EN 1991-1-4'],
  'snow-by': ['ASCE 7-16', 'NBC', 'EN 1991-1-3'],
} as const satisfies Readonly<Record<string, readonly string[]>>

/** The words that a cell may hold; null where any will do. */
export function choicesOf(row: string, column: string): readonly string[] | null {
  const all: Readonly<Record<string, readonly string[]>> = CHOICES
  return all[column] ?? (column === 'value' ? (all[row] ?? null) : null)
}
