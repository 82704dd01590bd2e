import { pressureAtPa } from '../moist-air.ts'
import { CELL_WORDS, type CellName, type FileRows } from './rows.ts'

/** What a cell may hold at most on this earth; outside it is no measurement. */
interface Range {
  readonly least: number
  readonly most: number
  readonly words: string
}

/**
 * Ranges of acceptance. Air −90 to 60 °C, relative humidity 0 to 105 % and pressure within 12 % of the standard are the rule of acceptance
 * of the design; the others are common practice.
 */
const RANGES: Readonly<Record<Exclude<CellName, 'pressurePa'>, Range>> = {
  airC: { least: -90, most: 60, words: '−90 to 60 °C' },
  dewC: { least: -100, most: 40, words: '−100 to 40 °C' },
  relativeFrac: { least: 0, most: 1.05, words: '0 to 105 %' },
  vapourPa: { least: 0, most: 7400, words: '0 to 7400 Pa' },
  windMPerS: { least: 0, most: 75, words: '0 to 75 m/s' },
  windFromDeg: { least: 0, most: 360, words: '0 to 360°' },
  cloudFrac: { least: 0, most: 1, words: '0 to 100 %' },
  snowM: { least: 0, most: 15, words: '0 to 15 m' },
  globalWPerM2: { least: 0, most: 1600, words: '0 to 1600 W/m²' },
  beamWPerM2: { least: 0, most: 1500, words: '0 to 1500 W/m²' },
  diffuseWPerM2: { least: 0, most: 1200, words: '0 to 1200 W/m²' },
  infraredWPerM2: { least: 40, most: 650, words: '40 to 650 W/m²' },
  rainMm: { least: 0, most: 150, words: '0 to 150 mm' },
}

/** Instruments read a little below nothing at night. Common practice. */
const DARK_W_PER_M2 = -20
const PRESSURE_WITHIN_FRAC = 0.12

export interface OutOfRange {
  readonly cell: CellName
  readonly words: string
  /** Lines of the rows, in order. */
  readonly lines: readonly number[]
}

/** Rows whose cells lie within what can be; the others are taken as not known, and named. */
export function withinRanges(rows: FileRows): { readonly rows: FileRows; readonly out: readonly OutOfRange[] } {
  const standard = pressureAtPa(rows.place.elevationM)
  const out: OutOfRange[] = []
  const cells: Partial<Record<CellName, Float64Array>> = {}
  for (const [name, values] of Object.entries(rows.cells) as [CellName, Float64Array][]) {
    const { least, most, words } = name === 'pressurePa' ? pressureRange(standard) : RANGES[name]
    const lines: number[] = []
    const sun = name === 'globalWPerM2' || name === 'beamWPerM2' || name === 'diffuseWPerM2'
    cells[name] = values.map((value, i) => {
      if (value >= least && value <= most) return value + 0
      if (Number.isNaN(value)) return value
      if (sun && value < 0 && value >= DARK_W_PER_M2) return 0
      if (name === 'infraredWPerM2' && value === 0) return Number.NaN
      lines.push(rows.lines[i] as number)
      return Number.NaN
    })
    if (lines.length > 0) out.push({ cell: name, words: `${CELL_WORDS[name]} outside ${words}`, lines })
  }
  return { rows: { ...rows, cells }, out }
}

function pressureRange(standard: number): Range {
  const least = standard * (1 - PRESSURE_WITHIN_FRAC)
  const most = standard * (1 + PRESSURE_WITHIN_FRAC)
  return {
    least,
    most,
    words: `${Math.round(least / 100)} to ${Math.round(most / 100)} hPa (within 12 % of what the height says)`,
  }
}
