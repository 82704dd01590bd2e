import { Fault, type Provenance, type ShelfTable, type Source, source } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type FitTable = keyof typeof tables

/** A number of a printed table with the row it stands in. */
export interface Figure {
  readonly value: number
  readonly rests: Source
}

/** One number of a table, by the words of its row and the name of its column, in the printed unit. @throws Fault `fit/no-figure` */
export function figureAt(id: FitTable, row: string | number, column: string): Figure {
  const key = `${id}|${row}|${column}`
  const known = figures.get(key)
  if (known !== undefined) return known
  const found = lookUp(id, row, column)
  figures.set(key, found)
  return found
}

/** Figures already looked up: printed tables never change. */
const figures = new Map<string, Figure>()

function lookUp(id: FitTable, row: string | number, column: string): Figure {
  const table: ShelfTable = tables[id]
  const at = table.columns.indexOf(column)
  const cells = table.rows.find((one) => String(one[0]) === String(row))
  const value = cells?.[at]
  if (typeof value !== 'number') throw new Fault('fit/no-figure', { id, row, column })
  return { value, rests: rowSource(table, cells ?? []) }
}

/** One word of a table. @throws Fault `fit/no-figure` */
export function wordAt(id: FitTable, row: string | number, column: string): string {
  const table: ShelfTable = tables[id]
  const value = table.rows.find((one) => String(one[0]) === String(row))?.[table.columns.indexOf(column)]
  if (typeof value !== 'string') throw new Fault('fit/no-figure', { id, row, column })
  return value
}

export const strutFigure = (name: string): Figure => figureAt('strut-figures', name, 'value')
export const fastenerFigure = (name: string): Figure => figureAt('fastener-figures', name, 'value')
export const lightFigure = (name: string): Figure => figureAt('light-figures', name, 'value')
export const spaceFigure = (name: string): Figure => figureAt('space-figures', name, 'value')

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

function rowSource(table: ShelfTable, row: ShelfTable['rows'][number]): Source {
  const say = (column: string) => row[table.columns.indexOf(column)]
  const [clause, own] = [say('clause'), say('row_provenance')]
  const how = firmness(table, typeof own === 'string' ? own : table.provenance)
  return source(typeof clause === 'string' ? clause : `table ${table.id}, ${String(row[0])}`, how)
}

/** The weakest word a line names. A row read at a place whose address is not given counts as recalled. */
function firmness(table: ShelfTable, said: string): Provenance {
  if (said.includes('memory')) return 'memory'
  if (said.includes('common practice')) return 'common practice'
  if (!/\bread\b/.test(said)) return 'computed'
  return table.address?.includes('host dropped') && /\bread [a-g]\b/.test(said) ? 'memory' : 'read'
}
