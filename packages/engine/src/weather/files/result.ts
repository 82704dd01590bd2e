import type { Finding } from '../../kernel/index.ts'
import type { WeatherHours, WeatherPlace } from '../types.ts'
import type { ColdRows } from './humidity.ts'
import type { FileFormat } from './rows.ts'

/** What was done to the rows on the way to hours, and to how many of them. */
export interface WeatherNote {
  readonly kind: 'taken' | 'worked out' | 'filled' | 'filled from the normals' | 'not known' | 'dropped' | 'not read' | 'default'
  /** Rows, or a column in words. */
  readonly what: string
  readonly count: number
  readonly said: string
}

/** A weather file as hours. Records of several years are one run for each calendar year. */
export interface WeatherFile {
  readonly format: FileFormat
  readonly formatWords: string
  readonly place: WeatherPlace
  readonly typical: boolean
  /** Years that stand in the rows. Of a typical year: those its months come from. */
  readonly years: readonly number[]
  /** Of all runs, after what was dropped by rule. */
  readonly hoursCount: number
  readonly runs: readonly WeatherHours[]
  readonly notes: readonly WeatherNote[]
  readonly cold: ColdRows | null
  /** Why a year of air inside a box cannot be worked out from it. Empty: it can. */
  readonly refusedForAir: readonly string[]
  readonly findings: readonly Finding[]
}

export const FORMAT_WORDS: Readonly<Record<FileFormat, string>> = {
  epw: 'typical year, design-program form (EPW)',
  tmy3: 'typical year, third set of the United States (TMY3)',
  tmy2: 'typical year, second set of the United States (TMY2)',
  pvgis: 'typical year of the European solar service (PVGIS)',
  columns: 'columns by a mapping',
}
