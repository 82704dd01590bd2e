import type { Problem } from '../../kernel/index.ts'

type Words = Pick<Problem, 'found' | 'wanted' | 'mend'>

/** Longest text that is read: forty years of hours with every column, or five of ten minutes. */
export const LIMIT_CHARACTERS = 96_000_000
/** Most rows after the headings. */
export const LIMIT_ROWS = 1_200_000
/** Longest time between the first and the last row. */
export const LIMIT_YEARS = 60

const cut = (text: string): string => {
  const plain = text.replace(/[\p{C}\p{Z}]+/gu, ' ').trim()
  if (plain === '') return 'an empty cell'
  return plain.length > 60 ? `“${plain.slice(0, 57)}…”` : `“${plain}”`
}

/** Every reason for which a weather file is refused. A code exists once; words are made here. */
export const WEATHER_PROBLEMS = {
  'weather/empty': (): Words => ({
    found: 'nothing',
    wanted: 'a weather file',
    mend: 'Fetch the file again: it holds no line.',
  }),
  'weather/too-large': (characters: number): Words => ({
    found: `${Math.ceil(characters / 1e6)} million characters`,
    wanted: `at most ${LIMIT_CHARACTERS / 1e6} million`,
    mend: 'Cut the file by years, and read the parts one at a time.',
  }),
  'weather/too-many-rows': (rows: number): Words => ({
    found: `${rows} rows`,
    wanted: `at most ${LIMIT_ROWS}`,
    mend: 'Cut the file by years, and read the parts one at a time.',
  }),
  'weather/binary': (): Words => ({
    found: 'characters that stand in no text',
    wanted: 'plain text',
    mend: 'If it is a packed file, unpack it first (.gz is unpacked here); if a workbook, save it as CSV.',
  }),
  'weather/not-known': (first: string): Words => ({
    found: `a first line such as ${cut(first)}`,
    wanted: 'one of the forms of docs/weather-files.md, or a file of columns with --columns',
    mend: 'For a file of columns say which column is what: --columns MAP.yaml; examples lie in examples/weather.',
  }),
  'weather/columns-wanted': (headings: readonly string[]): Words => ({
    found: `columns headed ${headings.slice(0, 14).map(cut).join(', ')}${headings.length > 14 ? ', …' : ''}`,
    wanted: 'a mapping that says which column is what, confirmed by a person',
    mend: 'Write one (examples/weather shows three) and name it: --columns MAP.yaml.',
  }),
  'weather/series-for-panels': (): Words => ({
    found: 'an hourly series made for solar panels: light and temperature, no humidity',
    wanted: 'weather with humidity (relative humidity, dew point or vapour pressure)',
    mend: 'Fetch the typical year (“TMY”) of the same place from the same service: it holds humidity, pressure and infrared too.',
  }),
  'weather/header': (what: string, found: string, wanted: string): Words => ({
    found: found.trim() === '' ? `no ${what}` : `${what} ${cut(found)}`,
    wanted,
    mend: 'Look at the head of the file: it was changed or cut. Fetch it again.',
  }),
  'weather/place-range': (what: string, found: string, wanted: string): Words => ({
    found: `${what} ${cut(found)}`,
    wanted,
    mend: 'Say the place yourself: --place LATITUDE,LONGITUDE,HEIGHT,UTC (degrees north and east, metres, hours ahead of UTC).',
  }),
  'weather/place-missing': (): Words => ({
    found: 'a file that does not say where it was measured',
    wanted: 'latitude, longitude, height and hours ahead of UTC',
    mend: 'Add --place LATITUDE,LONGITUDE,HEIGHT,UTC, for example --place 45.47,-73.74,36,-5, or a “place” to the mapping.',
  }),
  'weather/row-short': (fields: number, wanted: string): Words => ({
    found: `${fields} ${fields === 1 ? 'field' : 'fields'}`,
    wanted,
    mend: 'The line was cut or run together. Mend it from another copy, or fetch the file again.',
  }),
  'weather/row-form': (found: string, wanted: string): Words => ({
    found: cut(found),
    wanted,
    mend: 'The line is shifted or damaged. Mend it from another copy, or fetch the file again.',
  }),
  'weather/not-a-number': (what: string, cell: string): Words => ({
    found: `${what}: ${cut(cell)}`,
    wanted: 'a plain decimal number, or the code for missing',
    mend: 'Mend the cell. If it means “not measured”, leave it empty, or name it under “missing” in the mapping.',
  }),
  'weather/not-a-time': (cell: string, wanted: string): Words => ({
    found: cut(cell),
    wanted,
    mend: 'Mend the date or time of this line, or say in the mapping how it is written.',
  }),
  'weather/no-rows': (): Words => ({
    found: 'headings, and no row behind them',
    wanted: 'one row for each hour',
    mend: 'The file was cut. Fetch it again.',
  }),
  'weather/dates-far': (years: number): Words => ({
    found: `rows ${years} years apart`,
    wanted: `at most ${LIMIT_YEARS} years`,
    mend: 'A year is mistyped in some row. Look at the first and last dates.',
  }),
  'weather/step': (found: string): Words => ({
    found,
    wanted: 'rows 5 minutes to 1 hour apart that divide the hour',
    mend: 'Three-hourly and daily records say too little of the nights: find an hourly one, or use the built-in year.',
  }),
  'weather/gap-long': (what: string, hours: number, from: string): Words => ({
    found: `${what}: ${hours} hours in a row without a value, from ${from}`,
    wanted: 'at most 48, with the same hours known within three days before or after',
    mend: 'Mend the file from another record, take another year, or say --fill-from-normals.',
  }),
  'weather/cells-impossible': (words: string, rows: number, lines: string): Words => ({
    found: `${words} in ${rows} ${rows === 1 ? 'row' : 'rows'}: ${lines}`,
    wanted: 'values that can be; those were taken as not known',
    mend: 'Perhaps two columns changed places, or the unit is another than the one told.',
  }),
  'weather/column-empty': (what: string): Words => ({
    found: `no value of ${what} in the whole file`,
    wanted: 'a value for each hour',
    mend: 'Without it the file says nothing of frost and wet. Take another file, or say --fill-from-normals.',
  }),
  'weather/humidity-missing': (): Words => ({
    found: 'no column of humidity',
    wanted: 'relative humidity, dew point or vapour pressure',
    mend: 'Name the column in the mapping. Without humidity nothing can be said of frost and wet.',
  }),
  'weather/normals-far': (missing: readonly string[]): Words => ({
    found: `no climate near enough to fill from: ${missing.join('; ')}`,
    wanted: 'a place within 500 km of one whose normals the program knows',
    mend: 'Give a file that holds sun or cloud, humidity and wind, or a year made of twelve monthly values of your own.',
  }),
  'weather/more': (count: number): Words => ({
    found: `${count} more lines with trouble of the same kinds`,
    wanted: 'none',
    mend: 'Mend those above first; perhaps they have one cause.',
  }),
  'weather/mapping': (found: string, wanted: string, mend: string): Words => ({ found, wanted, mend }),
  'weather/mapping-column': (name: string, near: string | null, all: readonly string[]): Words => ({
    found: `the column ${cut(name)}, which the file has not`,
    wanted: `one of: ${all.slice(0, 20).map(cut).join(', ')}${all.length > 20 ? ', …' : ''}`,
    mend:
      near === null
        ? 'Write a heading as it stands in the file, or a column’s number counted from 1.'
        : `Did you mean “${near}”?`,
  }),
} as const satisfies Record<string, (...args: never[]) => Words>

export type WeatherProblemCode = keyof typeof WEATHER_PROBLEMS

/** A problem by its code, with the words the catalogue makes. */
export function weatherProblem<C extends WeatherProblemCode>(
  code: C,
  ...args: Parameters<(typeof WEATHER_PROBLEMS)[C]>
): Problem {
  const words = WEATHER_PROBLEMS[code] as (...all: Parameters<(typeof WEATHER_PROBLEMS)[C]>) => Words
  return { code, ...words(...args) }
}

/** Gathers problems, the first twenty in full and the rest as a count: a file that is wrong from a line on is wrong 8000 times. */
export interface Gathered {
  readonly add: <C extends WeatherProblemCode>(
    line: number | null,
    code: C,
    ...args: Parameters<(typeof WEATHER_PROBLEMS)[C]>
  ) => void
  readonly all: () => readonly Problem[]
  readonly count: () => number
}

const MOST_SHOWN = 20

export function gatheredProblems(): Gathered {
  const shown: Problem[] = []
  let count = 0
  return {
    add: (line, code, ...args) => {
      count++
      if (shown.length < MOST_SHOWN) shown.push({ ...weatherProblem(code, ...args), ...(line === null ? {} : { line }) })
    },
    all: () => (count > shown.length ? [...shown, weatherProblem('weather/more', count - shown.length)] : shown),
    count: () => count,
  }
}
