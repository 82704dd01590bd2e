import { Fault, type ShelfTable, type Source, source } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

/** K = L·W/(h·(L + W)), h from the lights down to the face that is read. @throws Fault `parts/light-range` @source lumen method. Provenance: read */
export function roomIndex(of: { readonly lengthM: number; readonly widthM: number; readonly aboveM: number }): number {
  if (!(of.lengthM > 0 && of.widthM > 0 && of.aboveM > 0)) throw new Fault('parts/light-range', of)
  return (of.lengthM * of.widthM) / (of.aboveM * (of.lengthM + of.widthM))
}

export interface Utilisation {
  readonly factor: number
  /** The room index lies below the table's first column: the first column was taken, and the light may be less. */
  readonly belowTable: boolean
  readonly rests: Source
}

/**
 * Utilisation factor by reflectances and room index, linear between columns; below the first column the first, above the last the last.
 * @throws Fault `parts/light-range` for reflectances that are no row of the table
 * @source table `uf`. Provenance: read
 */
export function utilisation(of: {
  readonly ceiling: number
  readonly wall: number
  readonly floor: number
  readonly index: number
}): Utilisation {
  const table: ShelfTable = tables.uf
  const row = table.rows.find((r) => r[0] === of.ceiling && r[1] === of.wall && r[2] === of.floor)
  if (row === undefined || !(of.index > 0)) throw new Fault('parts/light-range', of)
  const points = table.columns.slice(3).map((column, i) => [Number(column), row[i + 3] as number] as const)
  const [first, last] = [points[0] as readonly [number, number], points[points.length - 1] as readonly [number, number]]
  return {
    factor: onLine(points, Math.min(of.index, last[0])),
    belowTable: of.index < first[0],
    rests: source(`table uf, reflectances ${of.ceiling} ${of.wall} ${of.floor}`, 'read'),
  }
}

/** Between two printed points on a line; before the first one the first. */
function onLine(points: readonly (readonly [number, number])[], x: number): number {
  const after = points.findIndex(([at]) => at >= x - 1e-9)
  const [x1, y1] = points[after] as readonly [number, number]
  if (after === 0) return y1
  const [x0, y0] = points[after - 1] as readonly [number, number]
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}

/**
 * Lamps for a level: N = E·A/(F·UF·MF), not yet rounded up.
 * @throws Fault `parts/light-range`
 * @source lumen method. Provenance: read
 */
export function lampsFor(of: {
  readonly levelLx: number
  readonly areaM2: number
  readonly fluxLm: number
  readonly utilisation: number
  readonly maintenance: number
}): number {
  if (!Object.values(of).every((n) => n > 0 && n < Infinity)) throw new Fault('parts/light-range', of)
  return (of.levelLx * of.areaM2) / (of.fluxLm * of.utilisation * of.maintenance)
}

/**
 * Light that falls straight from lamps on an upright face, each lamp a small disc that shines down: E = Σ Φ/π · cosα·cosβ/d².
 * α from straight down, β from the face's own direction; lamps behind the face give nothing.
 * @source point method with a cosine emitter. Provenance: computed
 */
export function directLx(of: {
  readonly at: readonly [number, number, number]
  readonly facing: readonly [number, number, number]
  readonly lamps: readonly { readonly at: readonly [number, number, number]; readonly fluxLm: number }[]
}): number {
  return of.lamps.reduce((sum, lamp) => {
    const to = [0, 1, 2].map((i) => (lamp.at[i] as number) - (of.at[i] as number))
    const d = Math.hypot(...to)
    if (d === 0) return sum
    const cosFace = to.reduce((dot, x, i) => dot + x * (of.facing[i] as number), 0) / d
    const cosDown = (to[2] as number) / d
    return cosFace <= 0 || cosDown <= 0 ? sum : sum + ((lamp.fluxLm / Math.PI) * cosDown * cosFace) / (d * d)
  }, 0)
}
