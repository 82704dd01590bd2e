import { nearest } from '../../job/index.ts'
import { ok, type Result } from '../../kernel/index.ts'
import type { WeatherPlace } from '../types.ts'
import { fieldsOf, nameOf, numberOf } from './cells.ts'
import { COLUMN_KINDS, type ColumnKey, type ColumnMapping, type ColumnRef, type UnitRule } from './mapping.ts'
import { type Gathered, gatheredProblems, LIMIT_YEARS } from './problems.ts'
import { CELL_WORDS, type CellName, type FileRows } from './rows.ts'
import { stampReader } from './stamps.ts'

const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t', blanks: ' ' } as const
const YEAR_H = 8766

interface Taken {
  readonly key: ColumnKey
  readonly cell: CellName
  readonly at: number
  readonly heading: string
  readonly unit: UnitRule
  readonly points: boolean
  readonly running: boolean
  /** Column at which a running sum starts again; −1: none. */
  readonly restart: number
}

/** Rows of plain text by a mapping that a person confirmed. */
export function plainRows(
  lines: readonly string[],
  mapping: ColumnMapping,
  told: Omit<WeatherPlace, 'name'> | null,
): Result<FileRows> {
  const found = gatheredProblems()
  const between = mapping.between ?? 'comma'
  const split = (line: string) =>
    (between === 'blanks' ? line.trim().split(/[ \t]+/) : fieldsOf(line, SEPARATORS[between])).map((cell) => cell.trim())
  const skip = mapping['skip-lines'] ?? 0
  const headed = mapping.headings ?? true
  const at = lines.flatMap((line, i) => (i >= skip && line.trim() !== '' ? [i] : []))
  const head = headed ? at.shift() : undefined
  const headings = head === undefined ? [] : split(lines[head] as string)
  const width = head === undefined ? split(lines[at[0] ?? 0] ?? '').length : headings.length
  if (at.length === 0) found.add(null, 'weather/no-rows')
  const place = placeFrom(mapping, told)
  if (place === null) found.add(null, 'weather/place-missing')
  const column = (ref: ColumnRef): number => {
    const i = typeof ref === 'number' ? ref - 1 : headings.indexOf(ref)
    if (i >= 0 && i < width) return i
    const all = headed ? headings : [`1 to ${width}`]
    found.add(
      head === undefined ? null : head + 1,
      'weather/mapping-column',
      String(ref),
      typeof ref === 'string' ? nearest(ref, headings) : null,
      all,
    )
    return -1
  }
  const taken = takenColumns(found, mapping, headings, column)
  const stamp = stampReader(mapping.time, column)
  if (found.count() > 0 || place === null) return { ok: false, problems: found.all() }

  const missing = new Set([...(mapping.missing ?? []), ''])
  const missingNumbers = new Set([...missing].filter((text) => text !== '').map(numberOf))
  const comma = mapping.decimal === 'comma'
  const count = at.length
  const stampsH = new Float64Array(count).fill(Number.NaN)
  const linesOf = new Int32Array(count)
  const raw = taken.map(() => new Float64Array(count).fill(Number.NaN))
  const restarts = taken.map(({ restart }) => (restart < 0 ? null : new Array<string>(count).fill('')))
  const years = new Set<number>()
  for (const [row, i] of at.entries()) {
    const cells = split(lines[i] as string)
    linesOf[row] = i + 1
    if (cells.length !== width && cells.length < width) {
      found.add(i + 1, 'weather/row-short', cells.length, `${width}, as the ${headed ? 'headings' : 'first row'} have`)
      continue
    }
    const when = stamp(cells, place.utcOffsetH)
    if (when === null) {
      found.add(i + 1, 'weather/not-a-time', stamp.shown(cells), stamp.wanted)
      continue
    }
    stampsH[row] = when.h
    years.add(when.year)
    for (const [k, one] of taken.entries()) {
      const cell = cells[one.at] as string
      if (one.restart >= 0) restarts[k]![row] = cells[one.restart] as string
      if (missing.has(cell)) continue
      const value = one.points ? compassDeg(cell) : numberOf(comma ? cell.replace(',', '.') : cell)
      if (value === null) continue
      if (missingNumbers.has(value)) continue
      if (Number.isNaN(value)) found.add(i + 1, 'weather/not-a-number', `${CELL_WORDS[one.cell]}, column “${one.heading}”`, cell)
      raw[k]![row] = value
    }
  }
  const stepH = found.count() > 0 ? 1 : stepOf(found, stampsH)
  if (found.count() > 0) return { ok: false, problems: found.all() }
  const cells: Partial<Record<CellName, Float64Array>> = {}
  for (const [k, one] of taken.entries()) {
    const told1 = one.running ? steps(raw[k] as Float64Array, restarts[k] ?? null) : (raw[k] as Float64Array)
    const factor = one.unit.factor * (one.unit.perStep === undefined ? 1 : one.unit.perStep === 1 ? stepH : 1 / stepH)
    cells[one.cell] = told1.map((v) => Math.round((v * factor + one.unit.shiftK) * 1e9) / 1e9)
  }
  const back = { beginning: 0, middle: stepH / 2, end: stepH }[mapping.time.stamp]
  const used = new Set(taken.map((t) => t.at))
  const notRead = headings.filter((h, i) => !used.has(i) && !stamp.columns.includes(i) && h !== '')
  return ok({
    format: 'columns',
    place,
    typical: false,
    years: [...years].sort((a, b) => a - b),
    lines: linesOf,
    startH: stampsH.map((h) => h - back),
    stepH,
    readingAtH: back,
    cells,
    taken: Object.fromEntries(taken.map((t) => [t.cell, `column “${t.heading}”`])),
    said: notRead.length === 0 ? [] : [`Columns that nothing reads: ${notRead.map(nameOf).join(', ')}.`],
  })
}

function placeFrom(mapping: ColumnMapping, told: Omit<WeatherPlace, 'name'> | null): WeatherPlace | null {
  const own = mapping.place
  const name = nameOf(own?.name ?? mapping.title ?? '')
  if (told !== null) return { name, ...told }
  if (own === undefined) return null
  return { name, latitudeDeg: own.latitude, longitudeDeg: own.longitude, elevationM: own.height, utcOffsetH: own.clock }
}

function takenColumns(
  found: Gathered,
  mapping: ColumnMapping,
  headings: readonly string[],
  column: (ref: ColumnRef) => number,
): readonly Taken[] {
  const all: Taken[] = []
  for (const key of Object.keys(COLUMN_KINDS) as ColumnKey[]) {
    const own = mapping.columns[key]
    if (own === undefined) continue
    const at = column(own.column)
    if (at < 0) continue
    const heading = headings[at] ?? `${at + 1}`
    const units: Readonly<Record<string, UnitRule>> = COLUMN_KINDS[key].units
    const unit = own.unit ?? /[([]\s*([^)\]]+?)\s*[)\]]\s*$/.exec(heading)?.[1]
    const rule = unit === undefined || !Object.hasOwn(units, unit) ? undefined : units[unit]
    if (rule === undefined) {
      found.add(
        null,
        'weather/mapping',
        `${key}: ${unit === undefined ? 'no unit' : `the unit “${unit.slice(0, 20)}”`}`,
        `one of: ${Object.keys(units).join(', ')}`,
        'Write “unit:” beside the column.',
      )
      continue
    }
    const again = own['starts-again-with']
    all.push({
      ...{ key, cell: COLUMN_KINDS[key].cell, at, heading, unit: rule, points: unit === 'points' },
      running: own['running-sum'] ?? false,
      restart: again === undefined ? -1 : column(again),
    })
  }
  if (all.length === 0 && found.count() === 0)
    found.add(
      null,
      'weather/mapping',
      'no column',
      `some of: ${Object.keys(COLUMN_KINDS).join(', ')}`,
      'Name the columns under “columns:”.',
    )
  return all
}

const POINTS = ['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE', 'S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW']
const NO_POINT = new Set(['C', 'CV', 'VAR', 'VRB', 'CALM', 'VARIABLE'])

/** Null: calm or turning. NaN: no point of the compass. */
function compassDeg(cell: string): number | null {
  const word = cell.toUpperCase()
  if (NO_POINT.has(word)) return null
  const i = POINTS.indexOf(word)
  return i < 0 ? Number.NaN : i * 22.5
}

/** What a running sum grew by from row to row; after a new start, its value. */
function steps(sums: Float64Array, restart: readonly string[] | null): Float64Array {
  return sums.map((sum, i) => {
    const before = i === 0 ? Number.NaN : (sums[i - 1] as number)
    const again = i === 0 || (restart !== null && restart[i] !== restart[i - 1]) || sum < before
    return again ? sum : sum - before
  })
}

const STEP_LEAST_H = 5 / 60
const NEAR_H = 1 / 3600

/** Time between rows: the most frequent one; it must divide the hour. */
function stepOf(found: Gathered, stampsH: Float64Array): number {
  const first = stampsH[0] as number
  let [least, most] = [first, first]
  const apart = new Map<number, number>()
  for (let i = 1; i < stampsH.length; i++) {
    const h = stampsH[i] as number
    if (h < least) least = h
    if (h > most) most = h
    const seconds = Math.round(Math.abs(h - (stampsH[i - 1] as number)) * 3600)
    if (seconds > 0) apart.set(seconds, (apart.get(seconds) ?? 0) + 1)
  }
  const years = Math.round((most - least) / YEAR_H)
  if (years > LIMIT_YEARS) {
    found.add(null, 'weather/dates-far', years)
    return 1
  }
  const [usual] = [...apart].sort((a, b) => b[1] - a[1] || a[0] - b[0])
  const stepH = usual === undefined ? 1 : usual[0] / 3600
  const parts = 1 / stepH
  if (stepH < STEP_LEAST_H - NEAR_H || stepH > 1 + NEAR_H || Math.abs(parts - Math.round(parts)) > 1e-3)
    found.add(
      null,
      'weather/step',
      `rows ${stepH >= 1 ? `${Number(stepH.toFixed(2))} h` : `${Number((stepH * 60).toFixed(2))} min`} apart`,
    )
  return 1 / Math.max(1, Math.round(parts))
}
