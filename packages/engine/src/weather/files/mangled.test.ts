import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Random, seeded } from '../../kernel/index.ts'
import { climateFrom, madeYear, toldOfNormal } from '../made-year/index.ts'
import { normalNamed } from '../normals.ts'
import { WEATHER_MEANS, WEATHER_READINGS, type WeatherHours } from '../types.ts'
import { type ReadWeatherOptions, readColumnMapping, readWeather, type WeatherFile } from './index.ts'
import { WEATHER_PROBLEMS } from './problems.ts'
import { PLAIN_MAPPING, WRITERS } from './texts.fixture.ts'

const bismarck = climateFrom(toldOfNormal(normalNamed('Bismarck Municipal Arpt [Isis], ND, USA')!))
if (!bismarck.ok) throw new Error('no climate')
const year = madeYear(bismarck.climate, { seed: 3, normal: true })

/** Five days of spring: sun, frost, and few enough rows for thousands of files. */
function cutOf(of: WeatherHours, firstDay: number, days: number): WeatherHours {
  const from = (firstDay - 1) * 24
  const columns = Object.fromEntries(
    Object.entries(of.columns).map(([name, values]) => [name, values?.slice(from, from + days * 24) ?? null]),
  ) as WeatherHours['columns']
  return { ...of, firstDay, hoursCount: days * 24, columns }
}
const short = cutOf(year, 70, 5)
const data = (name: string) => readFileSync(join(import.meta.dirname, '../../../data/weather', name), 'utf8')

const mapped = readColumnMapping(PLAIN_MAPPING)
if (!mapped.ok) throw new Error('no mapping')
const plainOptions: ReadWeatherOptions = {
  columns: mapped.value,
  place: { latitudeDeg: 46.8, longitudeDeg: -100.8, elevationM: 500, utcOffsetH: -7 },
}

const FILES: Readonly<Record<string, readonly [text: string, options: ReadWeatherOptions]>> = {
  'design-program form, made days': [WRITERS.epw(short), {}],
  'third set, published days': [data('phoenix-az-five-days.tmy3.csv'), {}],
  'third set, made days': [WRITERS.tmy3(short), {}],
  'second set, published days': [data('miami-fl-five-days.tm2'), {}],
  'second set, made days': [WRITERS.tmy2(short), {}],
  'European solar service, made days': [WRITERS.pvgis(short), {}],
  'plain columns, made days': [WRITERS.plain(short), plainOptions],
}

const JUNK = [
  '',
  ' ',
  '"',
  ',',
  ';',
  '\t',
  '-',
  '+',
  '.',
  '0',
  '9',
  'e9',
  'NaN',
  'Infinity',
  '1e308',
  '-9900',
  '999999',
  '?',
  '\u0000',
  '\u00e9',
  '\u{1f329}',
  '\r',
  '\n',
  '\ufeff',
  '24:00',
  '\u2212',
] as const

type Mangle = (lines: string[], r: Random) => string
const line = (lines: readonly string[], r: Random) => r.below(lines.length)

/** What copying, mailing, editing and spreadsheets do to a file. */
const MANGLES: Readonly<Record<string, Mangle>> = {
  'cut anywhere': (lines, r) => {
    const text = lines.join('\n')
    return text.slice(0, r.below(text.length))
  },
  'without some lines': (lines, r) => {
    lines.splice(line(lines, r), 1 + r.below(r.next() < 0.5 ? 4 : 60))
    return lines.join('\n')
  },
  'a line twice': (lines, r) => {
    const i = line(lines, r)
    lines.splice(i, 0, lines[i] as string)
    return lines.join('\n')
  },
  'two lines changed about': (lines, r) => {
    const [i, j] = [line(lines, r), line(lines, r)]
    ;[lines[i], lines[j]] = [lines[j] as string, lines[i] as string]
    return lines.join('\n')
  },
  'two columns changed about': (lines, r) => {
    const width = (lines[Math.floor(lines.length / 2)] as string).split(',').length
    const [i, j] = [r.below(width), r.below(width)]
    return lines
      .map((one) => {
        const cells = one.split(',')
        if (cells.length < width) return one
        ;[cells[i], cells[j]] = [cells[j] as string, cells[i] as string]
        return cells.join(',')
      })
      .join('\n')
  },
  'a cell changed': (lines, r) => {
    const i = line(lines, r)
    const cells = (lines[i] as string).split(',')
    cells[r.below(cells.length)] = r.pick(JUNK)
    lines[i] = cells.join(',')
    return lines.join('\n')
  },
  'a column emptied or filled with one thing': (lines, r) => {
    const at = r.below((lines[Math.floor(lines.length / 2)] as string).split(',').length)
    const junk = r.pick(JUNK)
    return lines
      .map((one, i) =>
        i < 2
          ? one
          : one
              .split(',')
              .map((cell, k) => (k === at ? junk : cell))
              .join(','),
      )
      .join('\n')
  },
  'characters put in': (lines, r) => {
    const text = lines.join('\n')
    const at = r.below(text.length)
    return text.slice(0, at) + r.pick(JUNK) + text.slice(at)
  },
  'characters taken out': (lines, r) => {
    const text = lines.join('\n')
    const at = r.below(text.length)
    return text.slice(0, at) + text.slice(at + 1 + r.below(6))
  },
  'a digit changed': (lines, r) => {
    const text = lines.join('\n')
    const digits = [...text.matchAll(/\d/g)]
    const at = digits[r.below(digits.length)]?.index ?? 0
    return text.slice(0, at) + r.below(10) + text.slice(at + 1)
  },
  'decimal commas': (lines) => lines.join('\n').replaceAll(/(\d)\.(\d)/g, '$1,$2'),
  'other ends of lines': (lines, r) => lines.join(r.pick(['\r\n', '\r', '\n\n', '\n\r'])),
  'a mark before and blanks behind': (lines) => `\ufeff${lines.map((one) => `${one}  `).join('\n')}\n\n\n`,
  'every cell in quotes': (lines) =>
    lines
      .map((one) =>
        one === ''
          ? one
          : one
              .split(',')
              .map((cell) => `"${cell}"`)
              .join(','),
      )
      .join('\n'),
  'headings gone': (lines, r) => lines.slice(1 + r.below(3)).join('\n'),
  'another separator': (lines, r) => lines.join('\n').replaceAll(',', r.pick([';', '\t', ' ', '|'])),
  'one byte taken for another': (lines, r) => {
    const text = lines.join('\n')
    const at = r.below(text.length)
    return `${text.slice(0, at)}${String.fromCharCode(text.charCodeAt(at) ^ (1 << r.below(7)))}${text.slice(at + 1)}`
  },
}

const LIMITS: Readonly<Record<string, readonly [number, number]>> = {
  ...{
    airC: [-90, 60],
    vapourPa: [0, 21_000],
    pressurePa: [40_000, 125_000],
    windMPerS: [0, 75],
    windFromDeg: [0, 360],
    cloudFrac: [0, 1],
  },
  ...{
    snowM: [0, 15],
    globalWPerM2: [0, 3000],
    beamWPerM2: [0, 3000],
    diffuseWPerM2: [0, 3000],
    infraredWPerM2: [0, 650],
    rainMm: [0, 1000],
  },
}

/** Every hour that is known lies within what can be; every column that is there says where it came from. */
function expectSound(file: WeatherFile): void {
  let hours = 0
  for (const run of file.runs) {
    hours += run.hoursCount
    for (const name of [...WEATHER_READINGS, ...WEATHER_MEANS]) {
      const values = run.columns[name]
      if (values === null) continue
      const [least, most] = LIMITS[name] as readonly [number, number]
      if (values.length !== run.hoursCount) throw new Error(`${name}: ${values.length} of ${run.hoursCount} hours`)
      for (const v of values) if (!(Number.isNaN(v) || (v >= least && v <= most))) throw new Error(`${name} ${v}`)
      if (run.origins[name] === undefined) throw new Error(`${name} has no origin`)
    }
  }
  if (hours !== file.hoursCount) throw new Error('hours do not add up')
}

/** The same hours, or something is said of what is other. */
function differsInSilence(file: WeatherFile, right: WeatherFile): boolean {
  if (file.notes.length > right.notes.length || file.findings.length > right.findings.length) return false
  if (file.findings.some((f, i) => f.said !== right.findings[i]?.said)) return false
  const of = (w: WeatherFile) => [w.hoursCount, w.runs[0]?.firstDay, w.runs[0]?.hoursCount, w.runs.length].join()
  return of(file) !== of(right)
}

const SEEDED = 80
const KNOWN = new Set<string>(Object.keys(WEATHER_PROBLEMS))

describe.each(Object.entries(FILES))('%s', (_, [text, options]) => {
  const whole = readWeather(text, options)
  if (!whole.ok) throw new Error(JSON.stringify(whole.problems.slice(0, 2)))
  const right = whole.value
  const lines = text.split(/\r?\n/)

  test(`${SEEDED * Object.keys(MANGLES).length} manglings: a reason or a sound reading, and no hour more or less in silence`, () => {
    let [refused, readable] = [0, 0]
    for (const [name, mangle] of Object.entries(MANGLES)) {
      // Those that change nothing by chance are worth one file.
      const times = mangle.length < 2 ? 1 : SEEDED
      for (let k = 0; k < times; k++) {
        const r = seeded(1000 * k + name.length)
        const mangled = mangle([...lines], r)
        const read = readWeather(mangled, options)
        const what = `${name} ${k}`
        if (!read.ok) {
          refused++
          if (read.problems.length === 0) throw new Error(`${what}: refused without a reason`)
          for (const p of read.problems)
            if (!KNOWN.has(p.code) || p.found.length < 3 || p.wanted.length < 3 || p.mend.length < 10)
              throw new Error(`${what}: ${JSON.stringify(p)}`)
          continue
        }
        readable++
        try {
          expectSound(read.value)
        } catch (thrown) {
          throw new Error(`${what}: ${(thrown as Error).message}`)
        }
        if (differsInSilence(read.value, right)) throw new Error(`${what}: other hours, and nothing is said`)
      }
    }
    expect(refused).toBeGreaterThan(200)
    expect(readable).toBeGreaterThan(200)
  })
})

test('blanks, marks, quotes and other ends of lines change no value', () => {
  for (const [name, [text, options]] of Object.entries(FILES)) {
    const right = readWeather(text, options)
    const lines = text.split(/\r?\n/)
    const fixed = name.startsWith('second set')
    const same = {
      'returns and line feeds': lines.join('\r\n'),
      'returns alone': lines.join('\r'),
      'a mark before, blank lines behind': `\ufeff${lines.join('\n')}\n\n\n`,
      ...(fixed ? {} : { 'blanks at the ends': lines.map((one) => (one.trim() === '' ? one : `${one}  `)).join('\n') }),
      ...(fixed || name.startsWith('European')
        ? {}
        : { 'every cell in quotes': MANGLES['every cell in quotes']!([...lines], seeded(1)) }),
    }
    for (const [mangle, mangled] of Object.entries(same)) {
      const read = readWeather(mangled, options)
      if (!read.ok || !right.ok) throw new Error(`${name}, ${mangle}: ${JSON.stringify(read.ok ? [] : read.problems[0])}`)
      expect(read.value.runs[0]!.columns, `${name}, ${mangle}`).toEqual(right.value.runs[0]!.columns)
    }
  }
})
