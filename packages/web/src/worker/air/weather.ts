import type { WeatherGiven } from '@plugstead/engine/air'
import type { Problem } from '@plugstead/engine/kernel'
import { COLUMN_UNITS, readColumnMapping, readWeather, tableHead, type WeatherFile } from '@plugstead/engine/weather'
import type { WeatherFileAnswer, WeatherFileAsked, WeatherTableAsked, WeatherTableView } from './types.ts'

let given: WeatherGiven | null = null
let givenFile: WeatherFileAsked | null = null

/** The file as it was given; null: the year is made. */
export const weatherFileNow = (): WeatherFileAsked | null => givenFile

/** Hours that a person gave; null: the year is made. */
export const weatherNow = (): WeatherGiven | null => given

/** Takes the hours of a file, read as the terminal reads it. One that cannot be read, or that holds no year, changes nothing. Null: the made year again. */
export function setWeather(asked: WeatherFileAsked | null): WeatherFileAnswer | null {
  if (asked === null) {
    given = null
    givenFile = null
    return null
  }
  const { name, text } = asked
  const columns = asked.columns === undefined ? undefined : readColumnMapping(asked.columns)
  if (columns?.ok === false) return { ok: false, problems: columns.problems.map((p) => ({ ...p, file: `${name}, columns` })) }
  const read = readWeather(text, {
    ...{ file: name, fillFromNormals: asked.fill === true },
    ...(columns === undefined ? {} : { columns: columns.value }),
  })
  if (!read.ok) return read
  const file = read.value
  const year = file.runs.find((run) => run.hoursCount >= YEAR_H)
  if (year === undefined || file.refusedForAir.length > 0) return { ok: false, problems: [refusedOf(file, name)] }
  given = { named: name, hours: year }
  givenFile = asked
  return {
    ok: true,
    value: {
      ...{ named: name, place: file.place.name, hoursCount: file.hoursCount },
      notes: file.notes.map((note) => note.said),
      findings: file.findings.map(({ verdict, said }) => ({ verdict, said })),
    },
  }
}

const YEAR_H = 8760

/** Headings and first rows of a table whose columns nobody has named yet. */
export function weatherTable({ text, between, headings, skipLines }: WeatherTableAsked): WeatherTableView | null {
  const told = { ...(between === null ? {} : { between }), ...(headings === null ? {} : { headings }), skipLines }
  const head = tableHead(text, told)
  return head === null ? null : { ...head, units: COLUMN_UNITS }
}

const refusedOf = (file: WeatherFile, name: string): Problem => ({
  ...{ code: 'weather/refused-for-air', file: name },
  found: file.refusedForAir.length > 0 ? file.refusedForAir.join(' ') : `${file.hoursCount} hours in it, and no whole year`,
  wanted: 'a whole year of hours with air, humidity, wind and sun',
  mend:
    file.runs.some((run) => run.hoursCount >= YEAR_H) && file.format === 'columns'
      ? 'Say below that sun and cloud come from the nearest climate, or give a typical year of the place.'
      : 'Give a typical year of the place.',
})
