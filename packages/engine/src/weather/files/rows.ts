import type { WeatherPlace } from '../types.ts'

export const FILE_FORMATS = ['epw', 'tmy3', 'tmy2', 'pvgis', 'columns'] as const
export type FileFormat = (typeof FILE_FORMATS)[number]

/** What a cell may hold, in the units of the engine. `relativeFrac` and `dewC` become vapour pressure; they are not kept. */
export const CELL_NAMES = [
  ...(['airC', 'dewC', 'relativeFrac', 'vapourPa', 'pressurePa', 'windMPerS', 'windFromDeg', 'cloudFrac', 'snowM'] as const),
  ...(['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2', 'infraredWPerM2', 'rainMm'] as const),
] as const
export type CellName = (typeof CELL_NAMES)[number]

/** In words, for notes and findings. */
export const CELL_WORDS: Readonly<Record<CellName, string>> = {
  airC: 'air temperature',
  dewC: 'dew point',
  relativeFrac: 'relative humidity',
  vapourPa: 'vapour pressure',
  pressurePa: 'air pressure',
  windMPerS: 'wind speed',
  windFromDeg: 'wind direction',
  cloudFrac: 'cloud',
  snowM: 'snow on the ground',
  globalWPerM2: 'sun on the level',
  beamWPerM2: 'direct sun',
  diffuseWPerM2: 'diffuse light',
  infraredWPerM2: 'infrared of the sky',
  rainMm: 'rain',
}

/** Rows of a file as they stand there, in the units of the engine; nothing filled, nothing judged. */
export interface FileRows {
  readonly format: FileFormat
  readonly place: WeatherPlace
  /** A year put together from several: it has 365 days and no date of its own. */
  readonly typical: boolean
  /** Years that stand in the rows, rising. */
  readonly years: readonly number[]
  /** Line of each row in the file. */
  readonly lines: Int32Array
  /**
   * Where the time that a row covers begins, on the clock of the place: hours since 1 January 1970, or, for a typical year, since its own
   * 1 January. NaN: a 29 February of a typical year.
   */
  readonly startH: Float64Array
  /** Time that a row covers. */
  readonly stepH: number
  /** Moment of the readings after that beginning. */
  readonly readingAtH: number
  readonly cells: Readonly<Partial<Record<CellName, Float64Array>>>
  /** Which column of the file each was taken from, in words. */
  readonly taken: Readonly<Partial<Record<CellName, string>>>
  /** Columns of the file that nothing reads, and what else a person should know. */
  readonly said: readonly string[]
}

const MONTH_STARTS_D = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365] as const
const MONTH_DAYS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

export const isDayOfYear = (month: number, day: number): boolean =>
  Number.isInteger(month) &&
  Number.isInteger(day) &&
  month >= 1 &&
  month <= 12 &&
  day >= 1 &&
  day <= (MONTH_DAYS[month - 1] as number)

/** Hours from 1 January of a year of 365 days to the beginning of a day; NaN for 29 February. */
export const typicalDayH = (month: number, day: number): number =>
  month === 2 && day === 29 ? Number.NaN : ((MONTH_STARTS_D[month - 1] as number) + day - 1) * 24

/** Month (0 to 11) of an hour of a year of 365 days. */
export function typicalMonth(hour: number): number {
  const day = Math.floor(hour / 24)
  let month = 0
  while (month < 11 && day >= (MONTH_STARTS_D[month + 1] as number)) month++
  return month
}
