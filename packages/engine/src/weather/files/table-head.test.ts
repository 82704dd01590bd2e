import { describe, expect, test } from 'vitest'
import { readColumnMapping } from './mapping.ts'
import { COLUMN_UNITS, columnGuess, tableHead } from './table-head.ts'

describe('headings and first rows of a table', () => {
  test('what stands between, whether there are headings, and the first cells of each column', () => {
    const head = tableHead('when;Temp (°F);RH (%)\n2020-01-01 00:00;12,5;80\n\n2020-01-01 01:00;11,5;81\n')!
    expect([head.between, head.headings]).toEqual(['semicolon', true])
    expect(head.columns.map((c) => [c.heading, c.cells, c.guess])).toEqual([
      ['when', ['2020-01-01 00:00', '2020-01-01 01:00'], { what: 'time', unit: null }],
      ['Temp (°F)', ['12,5', '11,5'], { what: 'air', unit: '°F' }],
      ['RH (%)', ['80', '81'], { what: 'humidity', unit: '%' }],
    ])
  })

  test('columns between blanks without headings are named by nothing, and nothing is guessed', () => {
    const head = tableHead('2013 10 1 1 0.0 281.2\n2013 10 1 2 0.0 281.0\n')!
    expect([head.between, head.headings]).toEqual(['blanks', false])
    expect(head.columns.map((c) => [c.heading, c.guess])).toEqual(Array(6).fill(['', null]))
  })

  test('lines before the table are passed over; what is told goes before what is guessed; a text that is no table is none', () => {
    const text = 'Station 7, made\na,b,c\n1,2,3\n'
    expect(tableHead(text, { skipLines: 1 })!.columns.map((c) => c.heading)).toEqual(['a', 'b', 'c'])
    expect(tableHead('a,b,c\n1,2,3\n', { headings: false })!.columns[0]).toEqual({ heading: '', cells: ['a', '1'], guess: null })
    expect(tableHead('a;b c d\n1;2 3 4\n', { between: 'blanks' })!.columns).toHaveLength(3)
    expect(tableHead('bring milk\nand bread\n')).toBeNull()
    expect(tableHead('\u0000\u0001')).toBeNull()
  })

  // Headings of three published station records, by whose mappings in examples/weather they are read.
  test.each([
    ['Date/Time', 'time', null],
    ['Temp (C)', 'air', 'C'],
    ['Dew Point Temp (C)', 'dew-point', 'C'],
    ['Rel Hum (%)', 'humidity', '%'],
    ['Wind Spd (km/h)', 'wind', 'km/h'],
    ['Stn Press (kPa)', 'pressure', 'kPa'],
    ['DEWP', 'dew-point', null],
    ['PRES', 'pressure', null],
    ['TEMP', 'air', null],
    ['year', 'year', null],
    ['hour', 'hour', null],
    ['wind_dir', 'wind-from', null],
    ['GHI (W/m2)', 'level', 'W/m2'],
    ['Precip (mm)', 'rain', 'mm'],
  ])('“%s” says %s', (heading, what, unit) => expect(columnGuess(heading)).toEqual({ what, unit }))

  test.each(['No', 'Visibility (km)', 'Wind gust (km/h)', 'Wet bulb (C)', 'Weather', 'Temp max (C)'])(
    '“%s” says nothing that is taken',
    (heading) => expect(columnGuess(heading)).toBeNull(),
  )

  test('every unit that is offered is one that a mapping takes', () => {
    for (const [key, units] of Object.entries(COLUMN_UNITS))
      for (const unit of units) {
        const text = `plugstead-weather-columns: 1\ntime: { column: t, stamp: end }\ncolumns: { ${key}: { column: x, unit: "${unit}" } }\n`
        expect(readColumnMapping(text).ok, `${key} ${unit}`).toBe(true)
      }
  })
})
