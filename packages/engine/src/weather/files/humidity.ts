import { saturationOverIcePa, saturationOverLiquidPa } from '../saturation.ts'
import type { FileRows } from './rows.ts'

export type Over = 'liquid' | 'ice'

/** What the file's own cold rows say of its humidity. */
export interface ColdRows {
  /** Rows colder than −8 °C that hold air temperature, dew point and relative humidity. */
  readonly rowsCount: number
  /** Mean misfit between dew point and relative humidity, once over liquid water, once over ice. NaN without such rows. */
  readonly liquidPct: number
  readonly icePct: number
  readonly over: Over
}

const COLD_C = -8
/** Fewer rows decide nothing. */
const ROWS_LEAST = 24
const COLDEST_C = -100
const HOTTEST_C = 200

const inTable = (airC: number): boolean => airC >= COLDEST_C && airC <= HOTTEST_C

/** Over ice below freezing, over liquid above: NaN outside the table. */
export function saturationOverPa(airC: number, over: Over): number {
  if (!inTable(airC)) return Number.NaN
  return over === 'ice' && airC < 0 ? saturationOverIcePa(airC) : saturationOverLiquidPa(airC)
}

/**
 * Whether the humidity below freezing is meant over liquid water or over ice, by the rows colder than −8 °C: the mean of
 * |100·p(t_dew)/p(t) − φ|, once with each. Stations mean liquid at all temperatures; files that design programs wrote anew may mean ice.
 * Liquid where the file has fewer than 24 such rows, or not both columns.
 */
export function coldRows(rows: Pick<FileRows, 'cells'>): ColdRows {
  const { airC, dewC, relativeFrac } = rows.cells
  let rowsCount = 0
  let liquid = 0
  let ice = 0
  if (airC !== undefined && dewC !== undefined && relativeFrac !== undefined)
    for (let i = 0; i < airC.length; i++) {
      const t = airC[i] as number
      const dew = dewC[i] as number
      const shown = 100 * (relativeFrac[i] as number)
      if (!(t < COLD_C && inTable(t) && inTable(dew) && dew < 0 && shown > 0 && shown <= 105)) continue
      rowsCount++
      liquid += Math.abs((100 * saturationOverPa(dew, 'liquid')) / saturationOverPa(t, 'liquid') - shown)
      ice += Math.abs((100 * saturationOverPa(dew, 'ice')) / saturationOverPa(t, 'ice') - shown)
    }
  const liquidPct = rowsCount === 0 ? Number.NaN : liquid / rowsCount
  const icePct = rowsCount === 0 ? Number.NaN : ice / rowsCount
  return { rowsCount, liquidPct, icePct, over: rowsCount >= ROWS_LEAST && icePct < liquidPct ? 'ice' : 'liquid' }
}

/** Below −10 °C air holds little more than stands over ice: the rest is ice fog. Common practice. */
const FOG_C = -10
const FOG_RATIO = 1.1

export interface Vapour {
  readonly vapourPa: Float64Array
  readonly how: string
  readonly cold: ColdRows
  /** Rows above what air can hold in the cold, brought down to it. */
  readonly cappedLines: readonly number[]
}

/** Vapour pressure of each row, by the column that is trusted most: as told, by dew point, by relative humidity. Null: the file has none of them. */
export function vapourOf(rows: Pick<FileRows, 'cells' | 'lines'>): Vapour | null {
  const { airC, dewC, relativeFrac, vapourPa: told } = rows.cells
  const some = (of: Float64Array | undefined) => of?.some((v) => !Number.isNaN(v)) === true
  if (!some(told) && !some(dewC) && !(some(relativeFrac) && some(airC))) return null
  const cold = coldRows(rows)
  const count = rows.lines.length
  const vapourPa = new Float64Array(count).fill(Number.NaN)
  const by = { told: 0, dew: 0, relative: 0 }
  const cappedLines: number[] = []
  for (let i = 0; i < count; i++) {
    const t = airC?.[i] ?? Number.NaN
    const dew = dewC?.[i] ?? Number.NaN
    const relative = relativeFrac?.[i] ?? Number.NaN
    let value = told?.[i] ?? Number.NaN
    if (!Number.isNaN(value)) by.told++
    else if (inTable(dew)) {
      value = saturationOverPa(dew, cold.over)
      by.dew++
    } else if (inTable(t) && relative >= 0) {
      value = relative * saturationOverPa(t, cold.over)
      by.relative++
    }
    if (t < FOG_C && inTable(t) && value > FOG_RATIO * saturationOverIcePa(t)) {
      value = FOG_RATIO * saturationOverIcePa(t)
      cappedLines.push(rows.lines[i] as number)
    }
    vapourPa[i] = value
  }
  const parts = [
    ...(by.told > 0 ? [`as it stands (${by.told} rows)`] : []),
    ...(by.dew > 0 ? [`from the dew point (${by.dew} rows)`] : []),
    ...(by.relative > 0 ? [`from relative humidity (${by.relative} rows)`] : []),
  ]
  return {
    vapourPa,
    how: `${parts.join(', ')}, below freezing over ${cold.over === 'ice' ? 'ice' : 'liquid water'}`,
    cold,
    cappedLines,
  }
}
