import { z } from 'zod'
import { choice, group, nearest, plain, quantity, range, readSheet, special, text, yesNo } from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'
import { weatherProblem } from './problems.ts'
import type { CellName } from './rows.ts'

const VERSION = 1
const KEY = 'plugstead-weather-columns'

/** Units in which a column may be written, and what one of each is in ours: times the factor, and the shift of the scale added. */
export interface UnitRule {
  readonly factor: number
  readonly shiftK: number
  /** A sum over the row's time becomes a rate, or a rate a sum: multiplied by the row's length in hours to this power. */
  readonly perStep?: 1 | -1
}
const by = (factor: number, shiftK = 0): UnitRule => ({ factor, shiftK })

const TEMPERATURES = { '°C': by(1), C: by(1), degC: by(1), '°F': by(5 / 9, -160 / 9), F: by(5 / 9, -160 / 9), K: by(1, -273.15) }
const PRESSURES = { Pa: by(1), hPa: by(100), mbar: by(100), kPa: by(1000), inHg: by(3386.389) }
const LIGHTS = {
  'W/m2': by(1),
  'W/m²': by(1),
  'Wh/m2': { ...by(1), perStep: -1 },
  'kWh/m2': { ...by(1000), perStep: -1 },
  'MJ/m2': { ...by(1e6 / 3600), perStep: -1 },
} as const
const SHARES = { '%': by(0.01), '1': by(1) }
const DEPTHS = { m: by(1), cm: by(0.01), mm: by(0.001), in: by(0.0254) }

interface ColumnKind {
  readonly cell: CellName
  readonly said: string
  readonly units: Readonly<Record<string, UnitRule>>
}

/** Columns a mapping may name. */
export const COLUMN_KINDS = {
  air: { cell: 'airC', said: 'Air temperature.', units: TEMPERATURES },
  'dew-point': { cell: 'dewC', said: 'Dew point.', units: TEMPERATURES },
  humidity: { cell: 'relativeFrac', said: 'Relative humidity.', units: SHARES },
  vapour: { cell: 'vapourPa', said: 'Vapour pressure.', units: PRESSURES },
  pressure: { cell: 'pressurePa', said: 'Air pressure at the station, not brought down to the sea.', units: PRESSURES },
  wind: {
    cell: 'windMPerS',
    said: 'Wind speed.',
    units: { 'm/s': by(1), 'km/h': by(1 / 3.6), mph: by(0.44704), kn: by(1852 / 3600), kt: by(1852 / 3600) },
  },
  'wind-from': {
    cell: 'windFromDeg',
    said: 'Where the wind comes from, by angle or by point of the compass.',
    units: { deg: by(1), '°': by(1), points: by(1) },
  },
  level: { cell: 'globalWPerM2', said: 'Sun on the level, direct and diffuse together.', units: LIGHTS },
  direct: { cell: 'beamWPerM2', said: 'Direct sun on a plane that faces it.', units: LIGHTS },
  diffuse: { cell: 'diffuseWPerM2', said: 'Diffuse light on the level.', units: LIGHTS },
  infrared: { cell: 'infraredWPerM2', said: 'Infrared that the sky sends down.', units: LIGHTS },
  cloud: {
    cell: 'cloudFrac',
    said: 'Cloud, opaque where the file knows.',
    units: { tenths: by(0.1), oktas: by(0.125), ...SHARES },
  },
  rain: {
    cell: 'rainMm',
    said: 'Rain and melted snow.',
    units: { mm: by(1), in: by(25.4), 'mm/h': { ...by(1), perStep: 1 }, 'kg/m2/s': { ...by(3600), perStep: 1 } },
  },
  snow: { cell: 'snowM', said: 'Depth of the snow on the ground.', units: DEPTHS },
} as const satisfies Record<string, ColumnKind>
export type ColumnKey = keyof typeof COLUMN_KINDS

/** A heading as it stands in the file, or the number of the column counted from 1. */
export type ColumnRef = string | number

const NEEDED = { need: 'must', absent: 'the file cannot be read' } as const
const FREE = { need: 'assumed' } as const

const columnRef = (said: string) =>
  special<ColumnRef>(
    (value) => {
      if (typeof value === 'string' && value.trim() !== '' && value.length <= 200) return { ok: true, value: value.trim() }
      if (typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= 500) return { ok: true, value }
      const problem = weatherProblem(
        'weather/mapping',
        String(value).slice(0, 60),
        'a heading of the file, or a column’s number from 1 on',
        'Write for example “Temp (C)” or 3.',
      )
      return { ok: false, problems: [problem] }
    },
    { type: ['string', 'integer'], unit: 'none', range: 'a heading, or 1 to 500', examples: ['Temp (C)', 3] },
    { said, ...NEEDED },
  )

const columnOf = (kind: ColumnKind) =>
  z
    .strictObject({
      column: columnRef('Which column.'),
      unit: choice(Object.keys(kind.units), {
        said: 'Its unit.',
        ...FREE,
        absent: 'the unit in brackets in the heading',
      }).optional(),
      'running-sum': yesNo({
        said: 'The column is summed on from row to row: the step from the row before counts.',
        ...FREE,
        absent: 'no',
      }).optional(),
      'starts-again-with': columnRef('A running sum starts again where this column changes.').optional(),
    })
    .meta(group(kind.said, 'assumed', 'not known'))

const degrees = (said: string, most: number) =>
  plain(range(-most, most, `−${most} to ${most} degrees`), false, { said, ...NEEDED })

export const columnsSchema = z.strictObject({
  [KEY]: special<number>(
    (value) =>
      value === VERSION
        ? { ok: true, value }
        : {
            ok: false,
            problems: [weatherProblem('weather/mapping', String(value), `version ${VERSION}`, `Write “${KEY}: ${VERSION}”.`)],
          },
    { type: 'integer', unit: 'none', range: String(VERSION), examples: [VERSION] },
    { said: 'Version of the mapping.', ...NEEDED },
  ),
  title: text({ said: 'What the file is.', ...FREE, absent: 'the file’s name' }, 200).optional(),
  note: text({ said: 'Anything else.', ...FREE, absent: 'nothing' }).optional(),
  place: z
    .strictObject({
      name: text({ said: 'Name of the place.', ...FREE, absent: 'none' }, 80).optional(),
      latitude: degrees('Degrees north.', 90),
      longitude: degrees('Degrees east.', 180),
      height: quantity('length', range(-450, 6000, '−450 to 6000 m'), { said: 'Height over the sea.', ...NEEDED }),
      clock: plain(range(-12, 14, '−12 to 14'), false, {
        said: 'Hours by which the clock of the place, without summer time, is ahead of UTC.',
        ...NEEDED,
      }),
    })
    .meta(group('Where it was measured. --place goes before it.', 'must', 'say --place'))
    .optional(),
  between: choice(['comma', 'semicolon', 'tab', 'blanks'], {
    said: 'What stands between two columns.',
    ...FREE,
    absent: 'comma',
  }).optional(),
  decimal: choice(['point', 'comma'], { said: 'What stands between whole and tenths.', ...FREE, absent: 'point' }).optional(),
  headings: yesNo({ said: 'The first line that is read holds headings.', ...FREE, absent: 'yes' }).optional(),
  'skip-lines': plain(range(0, 1000, '0 to 1000'), true, { said: 'Lines before it.', ...FREE, absent: '0' }).optional(),
  missing: z
    .array(text({ said: 'What stands for “not measured”.', ...NEEDED }, 40))
    .meta(group('What stands for “not measured”, as text in quotes. An empty cell always does.', 'assumed', 'nothing'))
    .optional(),
  time: z
    .strictObject({
      column: columnRef('Date and time, year first: 2012-01-31 13:00. A second column may follow under “and”.').optional(),
      and: columnRef('Time of day, where it stands in a column of its own.').optional(),
      year: columnRef('Year, where the parts stand in columns.').optional(),
      month: columnRef('Month, 1 to 12.').optional(),
      day: columnRef('Day of the month.').optional(),
      hour: columnRef('Hour, 0 to 24.').optional(),
      minute: columnRef('Minute.').optional(),
      order: choice(['year first', 'day first', 'month first'], {
        said: 'How a date is written.',
        ...FREE,
        absent: 'year first',
      }).optional(),
      stamp: choice(['beginning', 'middle', 'end'], {
        said: 'Which moment of the time that a row covers is written.',
        need: 'must',
        absent: 'the file cannot be read',
      }),
      clock: choice(['local', 'UTC'], {
        said: 'Whose clock it is. A zone written at the time goes before it.',
        ...FREE,
        absent: 'local, without summer time',
      }).optional(),
    })
    .meta(group('Where the time stands, and what it means.', 'must', 'the file cannot be read')),
  columns: z
    .strictObject(
      Object.fromEntries(Object.entries(COLUMN_KINDS).map(([key, kind]) => [key, columnOf(kind).optional()])) as Record<
        ColumnKey,
        z.ZodOptional<ReturnType<typeof columnOf>>
      >,
    )
    .meta(group('Which column is what.', 'must', 'the file cannot be read')),
})

export type ColumnMapping = z.output<typeof columnsSchema>

/** Reads a mapping of columns (YAML or JSON). All problems at once, each with its line; never throws. */
export function readColumnMapping(input: string): Result<ColumnMapping> {
  const read = readSheet(input, { schema: columnsSchema, stranger })
  if (!read.ok) return read
  const { time } = read.value.sheet
  const parts = time.year !== undefined && time.month !== undefined && time.day !== undefined && time.hour !== undefined
  if (time.column === undefined && !parts)
    return refuse(
      'time',
      'no column of time',
      '“column”, or “year”, “month”, “day” and “hour”',
      'Name the column or columns that hold the time.',
    )
  return { ok: true, value: read.value.sheet }
}

function refuse(path: string, found: string, wanted: string, mend: string): Result<never> {
  return { ok: false, problems: [{ ...weatherProblem('weather/mapping', found, wanted, mend), path }] }
}

function stranger(doc: { readonly raw: unknown }): Problem | null {
  const raw = doc.raw
  const keys = raw !== null && typeof raw === 'object' && !Array.isArray(raw) ? Object.keys(raw) : []
  if (keys.includes(KEY)) return null
  const first = keys[0] ?? 'no keys'
  const near = nearest(KEY, keys)
  return {
    ...weatherProblem(
      'weather/mapping',
      first.slice(0, 60),
      `a mapping that begins with “${KEY}: ${VERSION}”`,
      near === null ? `Write “${KEY}: ${VERSION}” as its first line.` : `Did you mean “${KEY}”?`,
    ),
    ...{ line: 1, column: 1 },
  }
}
