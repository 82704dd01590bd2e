import type { Problem, Result } from '../../kernel/index.ts'
import type { WeatherPlace } from '../types.ts'
import { assembled } from './assemble.ts'
import { fieldsOf, isBinary, linesOf } from './cells.ts'
import { epwRows, isEpw } from './epw.ts'
import { madeForPlace } from './made-fill.ts'
import type { ColumnMapping } from './mapping.ts'
import { plainRows } from './plain.ts'
import { LIMIT_CHARACTERS, LIMIT_ROWS, weatherProblem } from './problems.ts'
import { isPvgis, pvgisRows } from './pvgis.ts'
import type { WeatherFile } from './result.ts'
import type { FileRows } from './rows.ts'
import { isTmy2, tmy2Rows } from './tmy2.ts'
import { isTmy3, tmy3Rows } from './tmy3.ts'

export interface ReadWeatherOptions {
  /** File as the person named it; put into every problem. */
  readonly file?: string
  /** Which column is what, for a file of plain columns. */
  readonly columns?: ColumnMapping
  /** In place of what the file says of it, or for a file that does not say. */
  readonly place?: Omit<WeatherPlace, 'name'>
  /** The person said “fill from the normals”: what the file lacks comes from a year made of the nearest climate. */
  readonly fillFromNormals?: boolean
}

/**
 * Reads a weather file of any known form into hours. All problems at once, each with its line, what was found, what is wanted and a mend;
 * what reads but does not hold together comes as findings with line numbers. Never throws on any text.
 */
export function readWeather(text: string, options: ReadWeatherOptions = {}): Result<WeatherFile> {
  const rows = rowsOf(text, options)
  const made = rows.ok && options.fillFromNormals === true ? madeForPlace(rows.value.place) : null
  const read = !rows.ok ? rows : made !== null && !made.ok ? made : assembled(rows.value, made?.value ?? null)
  return read.ok ? read : { ok: false, problems: named(read.problems, options.file) }
}

const named = (all: readonly Problem[], file: string | undefined): readonly Problem[] =>
  file === undefined ? all : all.map((one) => ({ ...one, file }))

/** Rows of a file as they stand there, in the units of the engine. */
export function rowsOf(text: string, options: ReadWeatherOptions = {}): Result<FileRows> {
  const refuse = (problem: Problem): Result<never> => ({ ok: false, problems: [problem] })
  if (text.trim() === '') return refuse(weatherProblem('weather/empty'))
  if (text.length > LIMIT_CHARACTERS) return refuse(weatherProblem('weather/too-large', text.length))
  if (isBinary(text)) return refuse(weatherProblem('weather/binary'))
  const lines = linesOf(text)
  if (lines.length > LIMIT_ROWS) return refuse(weatherProblem('weather/too-many-rows', lines.length))
  const told = options.place ?? null
  if (options.columns !== undefined) return plainRows(lines, options.columns, told)
  const read = formOf(lines, told)
  if (!read.ok || options.place === undefined) return read
  // A year that was rolled by whole hours keeps the clock it was rolled to.
  const clock = read.value.format === 'pvgis' ? { utcOffsetH: read.value.place.utcOffsetH } : {}
  return { ok: true, value: { ...read.value, place: { ...read.value.place, ...options.place, ...clock } } }
}

function formOf(lines: readonly string[], told: Omit<WeatherPlace, 'name'> | null): Result<FileRows> {
  if (isEpw(lines)) return epwRows(lines)
  if (isTmy3(lines)) return tmy3Rows(lines)
  if (isTmy2(lines)) return tmy2Rows(lines)
  if (isPvgis(lines)) return pvgisRows(lines, told?.utcOffsetH ?? null)
  const first = lines.find((line) => line.trim() !== '') ?? ''
  const headings = fieldsOf(first, ',')
  return {
    ok: false,
    problems: [
      headings.length >= 3 ? weatherProblem('weather/columns-wanted', headings) : weatherProblem('weather/not-known', first),
    ],
  }
}
