import { readColumnMapping } from '@plugstead/engine/weather'
import { afterEach, expect, test } from 'vitest'
import { hoursTable, madeYear } from '../../../test/typical-year.ts'
import { type ColumnsForm, formOf, lacking, mappingText } from '../../air/columns-form.ts'
import { setWeather, weatherNow, weatherTable } from './weather.ts'

afterEach(() => {
  setWeather(null)
})

const PLACE = { name: 'Made place', latitude: '47.48', longitude: '-111.38', height: '3675 ft', clock: '-7' }
const TEXT = hoursTable()
const LOOK = { text: TEXT.slice(0, 4000), between: null, headings: null, skipLines: 1 }
const head = weatherTable(LOOK)!

/** What the headings do not say, said. */
function said(): ColumnsForm {
  const form = formOf(head, PLACE)
  return {
    ...{ ...form, stamp: 'end' },
    columns: form.columns.map((c, i) => (i === 3 ? { what: 'dew-point', unit: '°F' } : c)),
  }
}
const mappingOf = (form: ColumnsForm): string => mappingText({ name: 'station 7.csv', head, form, skipLines: 1 })

test('headings fill in what they say; what they do not say is asked for, the meaning of the time above all', () => {
  const form = formOf(head, PLACE)
  expect(form.columns.map((c) => `${c.what} ${c.unit}`.trim())).toEqual([
    ...['time', 'time of day', 'air °F', 'dew-point', 'pressure hPa', 'wind mph', 'level W/m2', ''],
  ])
  expect(lacking(form)).toEqual(['unit', 'stamp'])
  expect(lacking(said())).toEqual([])
  expect(lacking({ ...said(), place: { ...PLACE, latitude: 'north' } })).toEqual(['place'])
  expect(lacking({ ...said(), columns: said().columns.slice(1) })).toEqual(['time'])
  expect(lacking({ ...said(), columns: [...said().columns, { what: 'air', unit: 'C' }] })).toEqual(['twice'])
})

test('the text that is kept is a mapping that the terminal reads, all of it said', () => {
  const read = readColumnMapping(mappingOf({ ...said(), missing: 'NA, -9999', decimal: 'comma', clock: 'UTC' }))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  expect(read.value).toMatchObject({
    ...{ between: 'semicolon', decimal: 'comma', headings: true, 'skip-lines': 1, missing: ['NA', '-9999'] },
    place: { name: 'Made place', latitude: 47.48, longitude: -111.38, clock: -7 },
    time: { column: 'Date', and: 'Clock', order: 'year first', stamp: 'end', clock: 'UTC' },
    columns: { air: { column: 'Temp (°F)', unit: '°F' }, 'dew-point': { column: 'Dew Point', unit: '°F' } },
  })
  expect(read.value.place!.height).toBeCloseTo(1120.14, 2)
})

test('two columns of one heading, or of none, are named by their number', () => {
  const twice = { ...head, columns: head.columns.map((c) => ({ ...c, heading: 'x' })) }
  expect(mappingText({ name: 'a', head: twice, form: said(), skipLines: 0 })).toContain('air: { column: 3, unit: "°F" }')
})

test('hours of a table are the hours they were made of, in the units that were said', () => {
  const answer = setWeather({ name: 'station 7.csv', text: TEXT, columns: mappingOf(said()) })
  if (answer?.ok !== true) throw new Error(JSON.stringify(answer))
  expect(answer.value.hoursCount).toBe(8760)
  const [read, made] = [weatherNow()!.hours.columns, madeYear().columns]
  for (const h of [0, 1, 2000, 4500, 8759]) {
    expect(read.airC![h]).toBeCloseTo(made.airC![h]!, 1)
    expect(read.windMPerS![h]).toBeCloseTo(made.windMPerS![h]!, 1)
    expect(Math.abs(read.globalWPerM2![h]! - made.globalWPerM2![h]!)).toBeLessThan(1)
  }
  // The unit and the meaning of the time change what is read.
  const celsius = said().columns.map((c) => (c.what === 'air' ? { ...c, unit: '°C' } : c))
  expect(setWeather({ name: 'a.csv', text: TEXT, columns: mappingOf({ ...said(), columns: celsius }) })?.ok).not.toBe(true)
})

test('without sun or cloud it is refused, and taken when a person says that they come from the nearest climate', () => {
  const columns = mappingOf({ ...said(), columns: said().columns.map((c) => (c.what === 'level' ? { what: '', unit: '' } : c)) })
  const bare = setWeather({ name: 'a.csv', text: TEXT, columns })
  expect(bare).toMatchObject({
    ok: false,
    problems: [{ code: 'weather/refused-for-air', mend: expect.stringContaining('nearest climate') }],
  })
  expect(setWeather({ name: 'a.csv', text: TEXT, columns, fill: true })?.ok).toBe(true)
})

test('a cell that is no number is refused with its line', () => {
  const lines = TEXT.split('\n')
  lines[100] = lines[100]!.replace(/;[^;]+;/, ';noon;')
  const answer = setWeather({ name: 'a.csv', text: lines.join('\n'), columns: mappingOf(said()) })
  expect(answer).toMatchObject({ ok: false, problems: [{ file: 'a.csv', line: 101 }] })
  expect(weatherNow()).toBeNull()
})
