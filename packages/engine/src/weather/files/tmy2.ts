import { ok, type Result } from '../../kernel/index.ts'
import { numberOf } from './cells.ts'
import { emptyRows, scaled } from './epw.ts'
import { placeOf } from './place.ts'
import { gatheredProblems } from './problems.ts'
import { type CellName, type FileRows, isDayOfYear, typicalDayH } from './rows.ts'

interface SliceRule {
  readonly cell: CellName
  /** Characters counted from 0, the second not included; two characters of flags follow. */
  readonly from: number
  readonly to: number
  readonly heading: string
  readonly missing: number
  readonly factor: number
}

/** @source the second set of typical years of the United States (TMY2), NREL/SP-463-7668, table 3-2; positions read from the file and from a public reader's format string */
const SLICES: readonly SliceRule[] = [
  { cell: 'globalWPerM2', from: 17, to: 21, heading: 'global horizontal', missing: 9999, factor: 1 },
  { cell: 'beamWPerM2', from: 23, to: 27, heading: 'direct normal', missing: 9999, factor: 1 },
  { cell: 'diffuseWPerM2', from: 29, to: 33, heading: 'diffuse horizontal', missing: 9999, factor: 1 },
  { cell: 'cloudFrac', from: 63, to: 65, heading: 'opaque cover', missing: 99, factor: 0.1 },
  { cell: 'airC', from: 67, to: 71, heading: 'dry bulb', missing: 9999, factor: 0.1 },
  { cell: 'dewC', from: 73, to: 77, heading: 'dew point', missing: 9999, factor: 0.1 },
  { cell: 'relativeFrac', from: 79, to: 82, heading: 'relative humidity', missing: 999, factor: 0.01 },
  { cell: 'pressurePa', from: 84, to: 88, heading: 'pressure', missing: 9999, factor: 100 },
  { cell: 'windFromDeg', from: 90, to: 93, heading: 'wind direction', missing: 999, factor: 1 },
  { cell: 'windMPerS', from: 95, to: 98, heading: 'wind speed', missing: 999, factor: 0.1 },
  { cell: 'snowM', from: 133, to: 136, heading: 'snow depth', missing: 999, factor: 0.01 },
]
const ROW_CHARACTERS = 142
const HEAD =
  /^\s*(\d{5})\s+(.{1,22}?)\s+(\S{2})\s+(-?\d{1,2})\s+([NS])\s*(\d{1,2})\s+(\d{1,2})\s+([EW])\s*(\d{1,3})\s+(\d{1,2})\s+(-?\d{1,4})\s*$/

export const isTmy2 = (lines: readonly string[]): boolean =>
  HEAD.test(lines[0] ?? '') || (/^\s?\d{5}\s/.test(lines[0] ?? '') && /^ \d{8}\d{4}\d{4}/.test(lines[1] ?? ''))

/** A typical year of the second set: one line of place, then rows of 142 characters in fixed columns. Hour 1 to 24 is the end of the hour. */
export function tmy2Rows(lines: readonly string[]): Result<FileRows> {
  const found = gatheredProblems()
  const head = HEAD.exec(lines[0] ?? '')
  if (head === null)
    found.add(
      1,
      'weather/header',
      'place',
      lines[0] ?? '',
      'station, city, state, clock, N or S degrees minutes, E or W degrees minutes, metres',
    )
  const [, , city = '', state = '', clock = '', ns = '', latD = '', latM = '', ew = '', lonD = '', lonM = '', height = ''] =
    head ?? []
  const angle = (deg: string, min: string, back: boolean) => String((back ? -1 : 1) * (Number(deg) + Number(min) / 60))
  const place = placeOf(head === null ? gatheredProblems() : found, 1, {
    name: `${city}, ${state}`,
    latitude: angle(latD, latM, ns === 'S'),
    longitude: angle(lonD, lonM, ew === 'W'),
    height,
    clock,
  })
  const at = lines.flatMap((line, i) => (i >= 1 && line.trim() !== '' ? [i] : []))
  if (at.length === 0) found.add(null, 'weather/no-rows')
  const rows = emptyRows(
    at.length,
    SLICES.map((s) => s.cell),
  )
  const years = new Set<number>()
  for (const [row, i] of at.entries()) {
    const line = lines[i] as string
    rows.lines[row] = i + 1
    if (line.length !== ROW_CHARACTERS) {
      found.add(i + 1, 'weather/row-form', line, `a row of ${ROW_CHARACTERS} characters (this has ${line.length})`)
      continue
    }
    const [year, month, day, hour] = [1, 3, 5, 7].map((from) => numberOf(line.slice(from, from + 2))) as [
      number,
      number,
      number,
      number,
    ]
    if (!(isDayOfYear(month, day) && hour >= 1 && hour <= 24)) {
      found.add(i + 1, 'weather/not-a-time', line.slice(0, 9), 'year, month, day and hour 1 to 24, two characters each')
      continue
    }
    rows.startH[row] = typicalDayH(month, day) + hour - 1
    years.add(1900 + year)
    for (const { cell, from, to, heading, missing, factor } of SLICES) {
      const text = line.slice(from, to)
      const value = numberOf(text)
      if (Number.isNaN(value)) found.add(i + 1, 'weather/not-a-number', `characters ${from + 1} to ${to}, ${heading}`, text)
      if (!/^[A-Z?][0-9]$/.test(line.slice(to, to + 2)))
        found.add(
          i + 1,
          'weather/row-form',
          line.slice(from, to + 2),
          `${heading} and two characters of flags at characters ${from + 1} to ${to + 2}`,
        )
      rows.cells[cell]![row] = value === missing ? Number.NaN : scaled(value, factor)
    }
  }
  if (found.count() > 0) return { ok: false, problems: found.all() }
  return ok({
    format: 'tmy2',
    place,
    typical: true,
    years: [...years].sort((a, b) => a - b),
    ...rows,
    stepH: 1,
    readingAtH: 1,
    taken: Object.fromEntries(SLICES.map(({ cell, from, to, heading }) => [cell, `characters ${from + 1} to ${to}, ${heading}`])),
    said: [],
  })
}
