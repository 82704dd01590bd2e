import { ok, type Result } from '../../kernel/index.ts'
import type { WeatherPlace } from '../types.ts'
import { fieldsOf, isBlank, nameOf, numberOf } from './cells.ts'
import { placeOf } from './place.ts'
import { type Gathered, gatheredProblems } from './problems.ts'
import { type CellName, type FileRows, isDayOfYear, typicalDayH } from './rows.ts'

/** One field that is read: its number counted from 1. */
export interface FieldRule {
  readonly cell: CellName
  readonly column: number
  readonly heading: string
  /** Values that mean “missing”, and what one unit of the field is in ours. */
  readonly missing: readonly number[]
  readonly factor: number
}

/** @source format of design-program weather files, as in the validation climate's own file (read) and the format's manual (memory) */
const FIELDS: readonly FieldRule[] = [
  { cell: 'airC', column: 7, heading: 'dry bulb', missing: [99.9], factor: 1 },
  { cell: 'dewC', column: 8, heading: 'dew point', missing: [99.9], factor: 1 },
  { cell: 'relativeFrac', column: 9, heading: 'relative humidity', missing: [999], factor: 0.01 },
  { cell: 'pressurePa', column: 10, heading: 'station pressure', missing: [999_999], factor: 1 },
  { cell: 'infraredWPerM2', column: 13, heading: 'horizontal infrared', missing: [9999], factor: 1 },
  { cell: 'globalWPerM2', column: 14, heading: 'global horizontal', missing: [9999], factor: 1 },
  { cell: 'beamWPerM2', column: 15, heading: 'direct normal', missing: [9999], factor: 1 },
  { cell: 'diffuseWPerM2', column: 16, heading: 'diffuse horizontal', missing: [9999], factor: 1 },
  { cell: 'windFromDeg', column: 21, heading: 'wind direction', missing: [999], factor: 1 },
  { cell: 'windMPerS', column: 22, heading: 'wind speed', missing: [999], factor: 1 },
  { cell: 'cloudFrac', column: 24, heading: 'opaque sky cover', missing: [99], factor: 0.1 },
  { cell: 'snowM', column: 31, heading: 'snow depth', missing: [999], factor: 0.01 },
]
const RAIN = { depth: 34, period: 35, missing: 999 } as const

/** Fields of a full row, and the least with which a row still says wind: writers differ in the last ones. */
const FIELDS_FULL = 32
const FIELDS_LEAST = 22
/** The head has eight lines; copies that doubled their line ends have more. */
const HEADER_LINES = 18

export const isEpw = (lines: readonly string[]): boolean => /^\s*"?LOCATION"?\s*,/i.test(lines[0] ?? '')

/**
 * A design-program weather file: eight lines of headings, then a row an hour. The row of hour h covers h − 1 to h; readings are of its end.
 * Hours are local standard time. The year column says nothing in a typical year.
 */
export function epwRows(lines: readonly string[]): Result<FileRows> {
  const found = gatheredProblems()
  const place = epwPlace(found, lines[0] ?? '')
  const perHour = rowsPerHour(found, lines)
  const first = lines.findIndex((line, i) => i >= 1 && i <= HEADER_LINES + 2 && /^\s*"?\d{4}"?\s*,/.test(line))
  if (first < 0) {
    found.add(null, 'weather/no-rows')
    return { ok: false, problems: found.all() }
  }
  const at = lines.flatMap((line, i) => (i >= first && line.trim() !== '' ? [i] : []))
  const need = Math.min(FIELDS_FULL, Math.max(FIELDS_LEAST, fieldsOf(lines[first] as string, ',').length))
  const rows = emptyRows(at.length, [...FIELDS.map((f) => f.cell), 'rainMm'])
  const years = new Set<number>()
  for (const [row, i] of at.entries()) {
    const cells = fieldsOf(lines[i] as string, ',')
    rows.lines[row] = i + 1
    if (cells.length < need) {
      found.add(i + 1, 'weather/row-short', cells.length, `at least ${need}, as the first row has`)
      continue
    }
    rows.startH[row] = stampH(found, i + 1, cells, perHour)
    years.add(numberOf(cells[0] as string))
    for (const rule of FIELDS) rows.cells[rule.cell]![row] = cellOf(found, i + 1, rule, cells[rule.column - 1])
    const period = numberOf(cells[RAIN.period - 1] ?? '')
    const rain = numberOf(cells[RAIN.depth - 1] ?? '')
    rows.cells.rainMm![row] = period === 1 && rain >= 0 && rain !== RAIN.missing ? rain : Number.NaN
  }
  if (found.count() > 0) return { ok: false, problems: found.all() }
  return ok({
    format: 'epw',
    place,
    typical: true,
    years: [...years].sort((a, b) => a - b),
    ...rows,
    stepH: 1 / perHour,
    readingAtH: 1 / perHour,
    taken: { ...takenFrom(FIELDS), rainMm: 'field 34, liquid precipitation depth, where its period is one hour' },
    said: [],
  })
}

function epwPlace(found: Gathered, line: string): WeatherPlace {
  const [, city = '', state = '', country = '', , , latitude = '', longitude = '', clock = '', height = ''] = fieldsOf(line, ',')
  const name = [city, state, country]
    .map(nameOf)
    .filter((part) => part !== '' && part !== '-')
    .join(', ')
  return placeOf(found, 1, { name, latitude, longitude, height, clock })
}

/** From the line DATA PERIODS; one where there is no such line. */
function rowsPerHour(found: Gathered, lines: readonly string[]): number {
  const i = lines.findIndex((line, at) => at < HEADER_LINES + 2 && /^\s*"?DATA PERIODS"?\s*,/i.test(line))
  if (i < 0) return 1
  const count = numberOf(fieldsOf(lines[i] as string, ',')[2] ?? '')
  if (Number.isInteger(count) && count >= 1 && count <= 12 && 60 % count === 0) return count
  found.add(i + 1, 'weather/header', 'rows an hour', fieldsOf(lines[i] as string, ',')[2] ?? '', '1, 2, 3, 4, 6 or 12')
  return 1
}

function stampH(found: Gathered, line: number, cells: readonly string[], perHour: number): number {
  const [, month, day, hour, minute] = cells.slice(0, 5).map(numberOf) as [number, number, number, number, number]
  const fits = isDayOfYear(month, day) && Number.isInteger(hour) && hour >= 1 && hour <= 24
  if (!fits) {
    found.add(line, 'weather/not-a-time', cells.slice(0, 5).join(','), 'year, month, day, hour 1 to 24, minute')
    return Number.NaN
  }
  if (perHour === 1) return typicalDayH(month, day) + hour - 1
  const end = minute === 0 ? 60 : minute
  if (!(end > 0 && end <= 60)) found.add(line, 'weather/not-a-time', cells.slice(0, 5).join(','), 'a minute of 1 to 60')
  return typicalDayH(month, day) + hour - 1 + end / 60 - 1 / perHour
}

/** The number of a field in our units; NaN where the field is blank or holds the code for missing. What is neither is a problem. */
export function cellOf(found: Gathered, line: number, rule: FieldRule, cell: string | undefined): number {
  if (isBlank(cell)) return Number.NaN
  const value = numberOf(cell as string)
  if (Number.isNaN(value)) found.add(line, 'weather/not-a-number', `field ${rule.column}, ${rule.heading}`, cell as string)
  return rule.missing.includes(value) ? Number.NaN : scaled(value, rule.factor)
}

/** Times the factor, without the last bits that a tenth and a hundredth leave. */
export const scaled = (value: number, factor: number): number =>
  factor === 1 || !(Math.abs(value) < 1e9) ? value : Math.round(value * factor * 1e6) / 1e6

export const takenFrom = (fields: readonly FieldRule[]): FileRows['taken'] =>
  Object.fromEntries(fields.map(({ cell, column, heading }) => [cell, `field ${column}, ${heading}`]))

export function emptyRows(count: number, cells: readonly CellName[]) {
  const all: Partial<Record<CellName, Float64Array>> = {}
  for (const cell of cells) all[cell] = new Float64Array(count).fill(Number.NaN)
  return { lines: new Int32Array(count), startH: new Float64Array(count).fill(Number.NaN), cells: all }
}
