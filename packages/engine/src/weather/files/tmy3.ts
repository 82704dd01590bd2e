import { ok, type Result } from '../../kernel/index.ts'
import { fieldsOf, isBlank, numberOf } from './cells.ts'
import { cellOf, emptyRows, type FieldRule, scaled, takenFrom } from './epw.ts'
import { placeOf } from './place.ts'
import { gatheredProblems } from './problems.ts'
import { type FileRows, isDayOfYear, typicalDayH } from './rows.ts'

const MISSING = -9900

/** @source the third set of typical years of the United States (TMY3), columns as in the files (read) and in its user's manual, NREL/TP-581-43156 (memory) */
const FIELDS: readonly FieldRule[] = [
  { cell: 'globalWPerM2', column: 5, heading: 'GHI', missing: [MISSING], factor: 1 },
  { cell: 'beamWPerM2', column: 8, heading: 'DNI', missing: [MISSING], factor: 1 },
  { cell: 'diffuseWPerM2', column: 11, heading: 'DHI', missing: [MISSING], factor: 1 },
  { cell: 'cloudFrac', column: 29, heading: 'opaque cover', missing: [MISSING], factor: 0.1 },
  { cell: 'airC', column: 32, heading: 'dry bulb', missing: [MISSING], factor: 1 },
  { cell: 'dewC', column: 35, heading: 'dew point', missing: [MISSING], factor: 1 },
  { cell: 'relativeFrac', column: 38, heading: 'relative humidity', missing: [MISSING], factor: 0.01 },
  { cell: 'pressurePa', column: 41, heading: 'pressure', missing: [MISSING], factor: 100 },
  { cell: 'windFromDeg', column: 44, heading: 'wind direction', missing: [MISSING], factor: 1 },
  { cell: 'windMPerS', column: 47, heading: 'wind speed', missing: [MISSING], factor: 1 },
]
const RAIN = { depth: 65, period: 66 } as const
const FIELDS_LEAST = 47
/** Fields after the last that every file has: present weather, and a column that some copies add. */
const FIELDS_FULL = 68

export const isTmy3 = (lines: readonly string[]): boolean =>
  /^\s*"?date \(mm\/dd\/yyyy\)"?\s*,\s*"?time \(hh:mm\)"?\s*,/i.test(lines[1] ?? '')

/** A typical year of the third set: place, headings, a row an hour. The stamp 01:00 to 24:00 is the end of the hour, local standard time. */
export function tmy3Rows(lines: readonly string[]): Result<FileRows> {
  const found = gatheredProblems()
  const [, name = '', state = '', clock = '', latitude = '', longitude = '', height = ''] = fieldsOf(lines[0] ?? '', ',')
  const place = placeOf(found, 1, { name: `${name}, ${state}`, latitude, longitude, height, clock })
  const at = lines.flatMap((line, i) => (i >= 2 && line.trim() !== '' ? [i] : []))
  if (at.length === 0) found.add(null, 'weather/no-rows')
  const need = Math.min(FIELDS_FULL, Math.max(FIELDS_LEAST, fieldsOf(lines[at[0] ?? 0] ?? '', ',').length))
  const rows = emptyRows(at.length, [...FIELDS.map((f) => f.cell), 'rainMm'])
  const years = new Set<number>()
  for (const [row, i] of at.entries()) {
    const cells = fieldsOf(lines[i] as string, ',')
    rows.lines[row] = i + 1
    if (cells.length < need) {
      found.add(i + 1, 'weather/row-short', cells.length, `at least ${need}, as the first row has`)
      continue
    }
    const stamp = /^\s*(\d{1,2})\/(\d{1,2})\/(\d{4})\s*,\s*(\d{1,2}):00(?::00)?\s*$/.exec(`${cells[0]},${cells[1]}`)
    const [month, day, year, hour] = (stamp ?? []).slice(1).map(Number) as [number, number, number, number]
    if (stamp === null || !isDayOfYear(month, day) || hour < 1 || hour > 24) {
      found.add(i + 1, 'weather/not-a-time', `${cells[0]},${cells[1]}`, 'MM/DD/YYYY and 01:00 to 24:00')
      continue
    }
    rows.startH[row] = typicalDayH(month, day) + hour - 1
    years.add(year)
    for (const rule of FIELDS) rows.cells[rule.cell]![row] = cellOf(found, i + 1, rule, cells[rule.column - 1])
    const rain = isBlank(cells[RAIN.depth - 1]) ? Number.NaN : numberOf(cells[RAIN.depth - 1] as string)
    rows.cells.rainMm![row] = numberOf(cells[RAIN.period - 1] ?? '') === 1 && rain >= 0 ? rain : Number.NaN
  }
  if (found.count() > 0) return { ok: false, problems: found.all() }
  const rain = rainMm(rows.cells.rainMm as Float64Array)
  return ok({
    format: 'tmy3',
    place,
    typical: true,
    years: [...years].sort((a, b) => a - b),
    ...rows,
    cells: { ...rows.cells, rainMm: rain.rainMm },
    stepH: 1,
    readingAtH: 1,
    taken: { ...takenFrom(FIELDS), rainMm: `field ${RAIN.depth}, liquid precipitation depth, where its period is one hour` },
    said: rain.said,
  })
}

const INCH_MM = 25.4
/** Share of the depths that must be hundredths of an inch in tenths of a millimetre, and how many there must be. Common practice. */
const TENTHS_FRAC = 0.7
const DEPTHS_LEAST = 10

/**
 * The heading says millimetres; most of these files hold tenths of them: 3, 5, 8, 10, 13 … are 0.01, 0.02, 0.03 … inch so written, and as
 * millimetres they would be ten years of rain in one. The file's own depths decide.
 */
function rainMm(told: Float64Array): { readonly rainMm: Float64Array; readonly said: readonly string[] } {
  const depths = told.filter((v) => v > 0)
  const inches = depths.filter((v) => Math.round(Math.round(v / (INCH_MM / 10)) * (INCH_MM / 10)) === v).length
  if (depths.length < DEPTHS_LEAST || inches < TENTHS_FRAC * depths.length) return { rainMm: told, said: [] }
  return {
    rainMm: told.map((v) => scaled(v, 0.1)),
    said: [
      `Rain is taken as tenths of a millimetre, whatever its heading says: ${inches} of ${depths.length} depths are whole hundredths of an inch so written.`,
    ],
  }
}
