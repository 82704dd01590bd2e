import { Fault, type Figure, firmness, type ShelfTable, type Source, shelfOf, source } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

type FitTable = keyof typeof tables

const shelf = shelfOf<FitTable>('fit', tables)

/** One number of a table, by the words of its row and the name of its column, in the printed unit. @throws Fault `fit/no-row`, `fit/no-number` */
export const figureAt = shelf.figure

/** One word of a table. @throws Fault `fit/no-row`, `fit/no-word` */
export function wordAt(id: FitTable, row: string | number, column: string): string {
  const value = shelf.rowOf(id, row)[column]
  if (typeof value !== 'string') throw new Fault('fit/no-word', { id, row, column })
  return value
}

export const strutFigure = (name: string): Figure => figureAt('strut-figures', name)
export const fastenerFigure = (name: string): Figure => figureAt('fastener-figures', name)
export const spaceFigure = (name: string): Figure => figureAt('space-figures', name)

/** Numbers of a row's first and another column, in printed order: points of a printed curve. */
export function curveOf(id: FitTable, column: string): Curve {
  const key = `${id}|${column}`
  const known = curves.get(key)
  if (known !== undefined) return known
  const found = readCurve(id, column)
  curves.set(key, found)
  return found
}

const curves = new Map<string, Curve>()

interface Curve {
  readonly points: readonly (readonly [number, number])[]
  readonly rests: Source
}

function readCurve(id: FitTable, column: string): Curve {
  const table: ShelfTable = tables[id]
  const at = table.columns.indexOf(column)
  const points = table.rows.flatMap((row) => {
    const [x, y] = [row[0], row[at]]
    return typeof x === 'number' && typeof y === 'number' ? [[x, y] as const] : []
  })
  return { points, rests: source(`table ${table.id}, column ${column}`, firmness(table, table.provenance)) }
}

/** Between two printed points on a line; beyond the last one null, before the first one the first. */
export function between(points: readonly (readonly [number, number])[], x: number): number | null {
  const after = points.findIndex(([at]) => at >= x - 1e-9)
  if (after < 0) return null
  const [x1, y1] = points[after] as readonly [number, number]
  if (after === 0) return y1
  const [x0, y0] = points[after - 1] as readonly [number, number]
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}
