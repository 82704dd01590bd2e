import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { climateFrom, madeYear, toldOfNormal } from '../made-year/index.ts'
import { normalNamed } from '../normals.ts'
import { saturationOverIcePa, saturationOverLiquidPa } from '../saturation.ts'
import type { WeatherHours } from '../types.ts'
import { type ColumnMapping, readColumnMapping, readWeather, type WeatherFile } from './index.ts'
import { hourMean } from './pvgis.ts'
import { PLAIN_MAPPING, rowsOf, WRITERS, type Writer } from './texts.fixture.ts'

const bismarck = climateFrom(toldOfNormal(normalNamed('Bismarck Municipal Arpt [Isis], ND, USA')!))
if (!bismarck.ok) throw new Error('no climate')
const year = madeYear(bismarck.climate, { seed: 7, normal: true })

const mapping = ((read) => {
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
})(readColumnMapping(PLAIN_MAPPING))
const place = (({ name: _, ...rest }) => rest)(year.place)
const optionsOf = (writer: Writer) => (writer === 'plain' ? { columns: mapping, place } : {})

function read(text: string, options: Parameters<typeof readWeather>[1] = {}): WeatherFile {
  const result = readWeather(text, options)
  if (!result.ok) throw new Error(JSON.stringify(result.problems.slice(0, 3)))
  return result.value
}
const problemsOf = (text: string, options: Parameters<typeof readWeather>[1] = {}) => {
  const result = readWeather(text, options)
  return result.ok ? [] : result.problems
}
const codes = (text: string, options: Parameters<typeof readWeather>[1] = {}) => problemsOf(text, options).map((p) => p.code)
const worst = (a: Float64Array, b: (i: number) => number) => a.reduce((most, v, i) => Math.max(most, Math.abs(v - b(i))), 0)

test.each(['epw', 'tmy3', 'tmy2', 'plain', 'pvgis'] as const)(
  'a made year written as %s is read back to what the form can hold',
  (writer) => {
    const file = read(WRITERS[writer](year), optionsOf(writer))
    const rows = rowsOf(year)
    const [run] = file.runs as [WeatherHours]
    expect([file.hoursCount, run.firstDay, run.firstHour, file.runs.length]).toEqual([8760, 1, 0, 1])
    expect(worst(run.columns.airC!, (i) => rows[i]!.t)).toBeLessThan(0.051)
    expect(worst(run.columns.windMPerS!, (i) => rows[i]!.wind)).toBeLessThan(writer === 'plain' ? 0.15 : 0.051)
    expect(worst(run.columns.pressurePa!, (i) => rows[i]!.p)).toBeLessThan(51)
    // A tenth of a degree of dew point is 0.8 % of the vapour at most; a per cent of humidity is a per cent of what air can hold.
    const humid =
      writer === 'plain'
        ? (i: number) => 0.006 * saturationOverLiquidPa(rows[i]!.t) + 8
        : (i: number) => 0.012 * 23.4 * 100 + 0 * i
    for (let i = 0; i < 8760; i += 7)
      if (rows[i]!.t > -10)
        expect(
          Math.abs(run.columns.vapourPa![i]! - Math.min(year.columns.vapourPa![i]!, saturationOverLiquidPa(rows[i]!.t))),
        ).toBeLessThan(humid(i))
    if (writer !== 'pvgis') expect(worst(run.columns.globalWPerM2!, (i) => rows[i]!.ghi)).toBeLessThan(0.51)
    expect(run.readingAtH).toBe({ epw: 1, tmy3: 1, tmy2: 1, plain: 0, pvgis: 0 }[writer])
  },
)

test('light told at a moment becomes the mean of the hour without losing any of the year', () => {
  const sum = (values: Float64Array) => values.reduce((a, b) => a + b, 0)
  const { columns } = read(WRITERS.pvgis(year), optionsOf('pvgis')).runs[0]!
  expect(sum(columns.globalWPerM2!) / sum(year.columns.globalWPerM2!)).toBeCloseTo(1, 4)
})

test('the mean of an hour of light is that of the line through the moments around it', () => {
  // Through (−0.75, 0), (0.25, 1), (1.25, 2) the middle of the hour has 1.25; a bend at the moment itself: two trapezoids by hand.
  expect(hourMean(0, 1, 2, 0.25)).toBeCloseTo(1.25, 12)
  expect(hourMean(0, 4, 0, 0.5)).toBeCloseTo(3, 12)
  expect(hourMean(5, 1, 9, 0)).toBeCloseTo(5, 12)
  expect(hourMean(Number.NaN, 2, Number.NaN, 0.4)).toBe(2)
})

test('a year told in UTC is rolled by whole hours: the last hours of December come first', () => {
  const text = WRITERS.pvgis(year).replace(/(Longitude \(decimal degrees\): )\S+/, '$131')
  const run = read(text).runs[0]!
  const rows = rowsOf(year)
  expect(run.place.utcOffsetH).toBe(2)
  expect([run.columns.airC![0], run.columns.airC![1], run.columns.airC![2]]).toEqual(
    [8758, 8759, 0].map((i) => Number(rows[i]!.t.toFixed(2))),
  )
})

const lines = (writer: Writer) => WRITERS[writer](year).split('\n')

test('29 February of a typical year is dropped and said; an observed one is kept', () => {
  const all = lines('epw')
  const extra = all.slice(8 + 58 * 24, 8 + 59 * 24).map((line) => line.replace(/^2001,2,28,/, '2000,2,29,'))
  const file = read([...all.slice(0, 8 + 59 * 24), ...extra, ...all.slice(8 + 59 * 24)].join('\n'))
  expect(file.hoursCount).toBe(8760)
  expect(file.notes.find((n) => n.kind === 'dropped')).toMatchObject({ count: 24, said: expect.stringContaining('29 February') })
  expect(file.findings.map((f) => f.code)).not.toContain('weather/hour-twice')
  const plain = lines('plain').map((line) => line.replace(/^2001-/, '2004-'))
  const day = plain.slice(1 + 58 * 24, 1 + 59 * 24).map((line) => line.replace('2004-02-28', '2004-02-29'))
  const kept = read([...plain.slice(0, 1 + 59 * 24), ...day, ...plain.slice(1 + 59 * 24)].join('\n'), optionsOf('plain'))
  expect([kept.hoursCount, kept.runs[0]!.year, kept.notes.some((n) => n.kind === 'dropped')]).toEqual([8784, 2004, false])
})

test('an hour that stands twice is taken once, an hour that lacks is filled, each with its line', () => {
  const all = lines('epw')
  const again = all[29]!.replace(/^((?:[^,]*,){6})[^,]*/, '$133.3')
  const file = read([...all.slice(0, 30), again, ...all.slice(30, 40), ...all.slice(42)].join('\n'))
  expect(file.hoursCount).toBe(8760)
  expect(file.findings.map((f) => f.code).slice(0, 2)).toEqual(['weather/hour-twice', 'weather/rows-missing'])
  expect(file.findings[0]!.said).toContain('line 31')
  expect(file.runs[0]!.columns.airC![29 - 8]).toBe(Number(all[29]!.split(',')[6]))
  const [a, b] = [39, 42].map((i) => Number(all[i]!.split(',')[6])) as [number, number]
  expect(file.runs[0]!.columns.airC![40 - 8]).toBeCloseTo(a + (b - a) / 3, 6)
})

test('a gap of two days takes the same hours of the days beside it; a longer one refuses the file and says where', () => {
  const all = lines('plain')
  const two = read([...all.slice(0, 241), ...all.slice(241 + 48)].join('\n'), optionsOf('plain'))
  const note = two.notes.find((n) => n.kind === 'filled' && n.what === 'air temperature')
  expect([two.hoursCount, note?.count]).toEqual([8760, 48])
  const t = (i: number) => Number(all[1 + i]!.split(',')[1])
  // Hour 240 is one day after hour 216, and two days before hour 288, the same hour of the first day that is there again.
  expect(two.runs[0]!.columns.airC![240]).toBeCloseTo((2 * t(216) + t(288)) / 3, 6)
  const long = problemsOf([...all.slice(0, 241), ...all.slice(241 + 49)].join('\n'), optionsOf('plain'))
  expect(long.map((p) => p.code)).toContain('weather/gap-long')
  expect(long.find((p) => p.code === 'weather/gap-long')).toMatchObject({
    line: 241,
    found: expect.stringContaining('2001-01-11 0:00'),
  })
})

test('a long gap is filled from the normals when the person says so, and said', () => {
  const all = lines('plain')
  const file = read([...all.slice(0, 241), ...all.slice(241 + 240)].join('\n'), { ...optionsOf('plain'), fillFromNormals: true })
  expect(file.hoursCount).toBe(8760)
  expect(file.notes.find((n) => n.kind === 'filled from the normals' && n.what === 'air temperature')).toMatchObject({
    count: 240,
  })
  expect(file.runs[0]!.columns.airC!.some((v) => Number.isNaN(v))).toBe(false)
})

test('a file with neither sun nor cloud reads, and is refused for the air inside a box unless it is filled from the normals', () => {
  const bare: ColumnMapping = { ...mapping, columns: { ...mapping.columns, level: undefined, cloud: undefined } }
  const text = WRITERS.plain(year)
  const file = read(text, { columns: bare, place })
  expect([file.hoursCount, file.refusedForAir.length, file.runs[0]!.columns.globalWPerM2]).toEqual([8760, 1, null])
  const filled = read(text, { columns: bare, place, fillFromNormals: true })
  expect(filled.refusedForAir).toEqual([])
  expect(filled.runs[0]!.origins.globalWPerM2).toMatchObject({ from: 'generated' })
})

test('cloud alone gives sun by rule, with the share of direct light split by rule', () => {
  const cloudy: ColumnMapping = { ...mapping, columns: { ...mapping.columns, level: undefined } }
  const run = read(WRITERS.plain(year), { columns: cloudy, place }).runs[0]!
  expect([run.lightSplit, run.origins.globalWPerM2?.from]).toEqual([true, 'worked out'])
  expect(Math.max(...run.columns.globalWPerM2!)).toBeGreaterThan(700)
  expect(run.columns.globalWPerM2![0]).toBe(0)
})

test.each([-1, -0.5, 0.5, 1])('stamps that are %s h off are found, with the shift that mends them', (shiftH) => {
  const text = readFileSync(join(import.meta.dirname, '../../../data/weather/phoenix-az-five-days.tmy3.csv'), 'utf8')
  const place = { latitudeDeg: 33.45, longitudeDeg: -111.983 + 15 * shiftH, elevationM: 337, utcOffsetH: -7 }
  // A place one hour to the east has its noon an hour earlier: its rows are stamped an hour late.
  const file = read(text, { place })
  const finding = file.findings.find((f) => f.code === 'weather/stamps-shifted')
  expect(finding?.verdict).toBe('fails')
  expect(finding?.said).toContain(`${Math.abs(shiftH)} h ${shiftH > 0 ? 'earlier' : 'later'} than stamped`)
  expect(finding?.said).toContain('(lines 3 to 122)')
  // The mend that is offered, taken: the clock of the place set on or back, and nothing is said any more.
  const offered = finding?.said
    .match(/--place (\S+) instead/)?.[1]
    ?.split(',')
    .map(Number) as [number, number, number, number]
  const [latitudeDeg, longitudeDeg, elevationM, utcOffsetH] = offered
  expect([latitudeDeg, elevationM, utcOffsetH]).toEqual([33.45, 337, -7 + shiftH])
  const mended = read(text, { place: { latitudeDeg, longitudeDeg, elevationM, utcOffsetH } })
  expect(mended.findings.map((f) => f.code)).toEqual(['weather/not-a-year', 'weather/refused-for-air'])
})

test('months of a typical year that kept an older clock are named with the lines they stand in, and no clock is offered for them', () => {
  const lines = WRITERS.epw(year).trimEnd().split('\n')
  const own = lines.slice(8).map((line) => line.split(','))
  const late = lines.slice(8).map((line, h) => {
    const cells = line.split(',')
    return [...cells.slice(0, 5), ...(['4', '5', '9'].includes(cells[1]!) ? own[h - 1]! : cells).slice(5)].join(',')
  })
  const found = read([...lines.slice(0, 8), ...late].join('\n')).findings.find((f) => f.code === 'weather/stamps-shifted')
  expect(found?.verdict).toBe('tight')
  expect(found?.said).toContain('In April, May, September')
  // 90 days before April, 61 of it and May, 92 of summer, 30 of September, behind eight lines of head.
  expect(found?.said).toContain('(lines 2169 to 3632 and 5841 to 6560)')
  expect(found?.said).not.toContain('--place')
})

test('five days of a published year as stamped are not called shifted', () => {
  const text = readFileSync(join(import.meta.dirname, '../../../data/weather/phoenix-az-five-days.tmy3.csv'), 'utf8')
  expect(read(text).findings.map((f) => f.code)).toEqual(['weather/not-a-year', 'weather/refused-for-air'])
})

test('humidity of the cold is taken over what the file’s own rows say', () => {
  const over = (ice: boolean) =>
    lines('epw')
      .map((line) => {
        const cells = line.split(',')
        const [t, dew] = [Number(cells[6]), Number(cells[7])]
        const p = ice ? saturationOverIcePa : saturationOverLiquidPa
        if (cells.length < 30 || t >= 0) return line
        cells[8] = ((100 * p(dew)) / p(t)).toFixed(1)
        return cells.join(',')
      })
      .join('\n')
  const [ice, liquid] = [read(over(true)), read(over(false))]
  expect([ice.cold?.over, liquid.cold?.over]).toEqual(['ice', 'liquid'])
  const i = ice.runs[0]!.columns.airC!.findIndex((t) => t < -9)
  const dew = Number(lines('epw')[8 + i]!.split(',')[7])
  expect(ice.runs[0]!.columns.vapourPa![i]).toBeCloseTo(saturationOverIcePa(dew), 6)
  expect(liquid.runs[0]!.columns.vapourPa![i]).toBeCloseTo(saturationOverLiquidPa(dew), 6)
})

test('rows of ten minutes become hours: means, sums of rain, the direction of the mean wind', () => {
  const rows = ['time,t,rh,wind,from,rain']
  for (let i = 0; i < 6 * 48; i++) {
    const [h, m] = [Math.floor(i / 6), (i % 6) * 10]
    rows.push(
      `2020-06-0${1 + Math.floor(h / 24)}T${String(h % 24).padStart(2, '0')}:${String(m).padStart(2, '0')}+02:00,${h + m / 60},50,2,${i % 2 === 0 ? 350 : 20},0.2`,
    )
  }
  const map = readColumnMapping(`plugstead-weather-columns: 1
place: { latitude: 50, longitude: 15, height: 100 m, clock: 1 }
time: { column: time, stamp: beginning }
columns: { air: { column: t, unit: °C }, humidity: { column: rh, unit: "%" }, wind: { column: wind, unit: m/s }, wind-from: { column: from, unit: deg }, rain: { column: rain, unit: mm } }
`)
  if (!map.ok) throw new Error(JSON.stringify(map.problems))
  const run = read(rows.join('\n'), { columns: map.value }).runs[0]!
  // Written two hours ahead of UTC, kept by a clock one hour ahead: the record begins at 23:00 of the day before.
  expect([run.hoursCount, run.firstHour, run.firstDay, run.readingAtH]).toEqual([48, 23, 152, 0.5])
  expect(run.columns.airC![5]).toBeCloseTo(5 + 25 / 60, 9)
  expect(run.columns.rainMm![5]).toBeCloseTo(1.2, 9)
  expect(run.columns.windFromDeg![5]).toBeCloseTo(5, 6)
})

test.each([
  ['', 'weather/empty'],
  ['\n\n', 'weather/empty'],
  ['PK\u0003\u0004\0\0', 'weather/binary'],
  ['hello', 'weather/not-known'],
  ['a,b,c\n1,2,3', 'weather/columns-wanted'],
  ['LOCATION,x\n', 'weather/header'],
  [
    'Latitude (decimal degrees): 45\nLongitude (decimal degrees): 8\nElevation (m): 250\n\ntime,G(i),H_sun,T2m,WS10m,Int\n20160101:0010,0,0,1,1,0',
    'weather/series-for-panels',
  ],
])('what cannot be read is refused with its reason (%#)', (text, code) => {
  expect(codes(text)).toContain(code)
  for (const p of problemsOf(text)) expect([p.found, p.wanted, p.mend].every((words) => words.length > 3)).toBe(true)
})

test('what no place and no year can hold is named by its line, and not taken', () => {
  const text = lines('epw')
    .map((line, i) => (i === 100 ? line.replace(/^((?:[^,]*,){6})[^,]*/, '$1640') : line))
    .join('\n')
  const file = read(text)
  expect(file.findings[0]).toMatchObject({ code: 'weather/out-of-range', verdict: 'tight' })
  expect(file.findings[0]!.said).toContain('line 101')
  expect(Math.max(...file.runs[0]!.columns.airC!)).toBeLessThan(60)
})

test('two columns that changed places are found by what contradicts them', () => {
  const swapped = (a: number, b: number) => read(text(a, b)).findings.map((f) => [f.code, f.verdict])
  const text = (a: number, b: number) =>
    lines('epw')
      .map((line, i) => {
        const cells = line.split(',')
        if (i < 8 || cells.length < 30) return line
        ;[cells[a - 1], cells[b - 1]] = [cells[b - 1]!, cells[a - 1]!]
        return cells.join(',')
      })
      .join('\n')
  expect(swapped(7, 8)).toContainEqual(['weather/dew-above-air', 'fails'])
  expect(codes(text(8, 9))).toContain('weather/gap-long')
  expect(swapped(9, 24)).toContainEqual(['weather/dew-and-humidity-differ', 'fails'])
  expect(swapped(14, 16)).toContainEqual(['weather/light-does-not-add-up', 'fails'])
  expect(codes(text(21, 22))).toEqual(expect.arrayContaining(['weather/cells-impossible', 'weather/gap-long']))
})

test('a place whose latitude and longitude changed about is off its clock', () => {
  const text = WRITERS.epw(year).replace(/^(LOCATION(?:,[^,]*){5}),([^,]*),([^,]*)/, '$1,$3,$2')
  expect(codes(text)).toContain('weather/place-range')
  const lost = WRITERS.epw(year).replace(/^(LOCATION(?:,[^,]*){6}),-/, '$1,')
  expect(read(lost).findings.map((f) => f.code)).toContain('weather/clock-and-longitude')
})

test('a year of three-hourly rows, one before 1901 and one without humidity are refused', () => {
  const rows = lines('plain')
  const every = (n: number) => [rows[0]!, ...rows.slice(1).filter((_, i) => i % n === 0)].join('\n')
  expect(codes(every(3), optionsOf('plain'))).toContain('weather/step')
  expect(codes(rows.join('\n').replaceAll('2001-', '1001-'), optionsOf('plain'))).toContain('weather/not-a-time')
  expect(
    codes(rows.join('\n'), { place, columns: { ...mapping, columns: { ...mapping.columns, humidity: undefined } } }),
  ).toContain('weather/humidity-missing')
  expect(codes(rows.join('\n'), { columns: mapping })).toContain('weather/place-missing')
})

test('a mapping that does not fit is refused with line, what was found and what the file has', () => {
  const wrong = readColumnMapping(PLAIN_MAPPING.replace('stamp: beginning', 'stamp: begining').replace('\ncolumns:', '\ncolums:'))
  expect(wrong.ok ? [] : wrong.problems.map((p) => [p.code, p.line])).toEqual(
    expect.arrayContaining([
      ['job/not-a-choice', 2],
      ['job/unknown-key', 4],
    ]),
  )
  const absent = readColumnMapping(PLAIN_MAPPING.replace('column: sky', 'column: skies'))
  expect(absent.ok && codes(WRITERS.plain(year), { columns: absent.value, place })).toContain('weather/mapping-column')
  expect(readColumnMapping('a: 1').ok).toBe(false)
})
