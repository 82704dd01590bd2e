import type { Problem, Result } from '../../kernel/index.ts'
import { headingRead, timeHeading, unitOf, zoneInHeading } from './headings.ts'
import { ACCURACY_FRAC, ACCURACY_K, type LoggerLog, type LogMapping, type LogSensor, NO_MAPPING } from './log.ts'
import { logProblem } from './problems.ts'
import { cellsOf, type ListRow, linesOf, type Separator, separatorOf } from './rows.ts'
import { type DayOrder, openDay, stampRead, stampText } from './stamps.ts'

/** Headings stand among the first lines: loggers write a title and their own name above them. */
const LINES_BEFORE_HEADINGS = 60
/** Problems of lines that are told one by one. */
const TOLD_MOST = 20
/** More readings than this that cannot be, and the unit is wrong rather than a contact loose. */
const IMPOSSIBLE_FRAC = 0.1
const LEAST_HOURS = 24

/**
 * A logger's list as columns of readings in °C and fractions, in local standard time. Cells without a number are missing and stay so:
 * nothing is filled. All problems are told, with their lines.
 * `utcOffsetH`: hours east of Greenwich that the clock of the place keeps in winter and summer.
 */
export function readLog(
  text: string,
  given: { readonly utcOffsetH: number; readonly mapping?: LogMapping | undefined },
): Result<LoggerLog> {
  const mapping = given.mapping ?? NO_MAPPING
  const lines = linesOf(text)
  const first = lines.find((line) => line.trim() !== '')
  if (first === undefined) return { ok: false, problems: [logProblem('log/empty', {})] }
  const other = lines.slice(0, LINES_BEFORE_HEADINGS).some((line) => /^plugstead[a-z-]*:/.test(line))
    ? 'a document of this program'
    : otherKind(first)
  if (other !== null) return { ok: false, problems: [logProblem('log/not-a-log', { line: lines.indexOf(first) + 1 }, other)] }
  const headed = headingsOf(lines, mapping)
  if (!headed.ok) return headed
  const list = headed.value
  const rows: ListRow[] = []
  for (let at = list.line; at < lines.length; at++) {
    const line = lines[at] as string
    if (line.trim() !== '') rows.push({ line: at + 1, cells: cellsOf(line, list.separator) })
  }
  return readRows(rows, list, mapping, given.utcOffsetH)
}

interface Headed {
  /** Line of the headings, from 1. */
  readonly line: number
  readonly separator: Separator
  readonly heads: readonly string[]
  readonly timeAt: number
  readonly dateAt: number | null
  readonly columns: readonly { readonly at: number; readonly sensor: LogSensor }[]
  readonly notRead: readonly string[]
}

function otherKind(first: string): string | null {
  if (first.includes('\u0000')) return 'text in UTF-16, two bytes a letter, or no text at all'
  if (/^\s*[{[]/.test(first)) return 'JSON'
  if (/^LOCATION,/i.test(first)) return 'a weather file'
  if (/^%PDF|^PK/.test(first)) return 'a document or workbook, not plain text'
  return null
}

function headingsOf(lines: readonly string[], mapping: LogMapping): Result<Headed> {
  let nearest: Headed | null = null
  for (const [at, line] of lines.slice(0, LINES_BEFORE_HEADINGS).entries()) {
    const separator = separatorOf(line)
    const heads = cellsOf(line, separator)
    if (heads.length < 2) continue
    const timeAt = mapping.time.column === null ? timeColumn(heads) : heads.indexOf(mapping.time.column)
    if (timeAt < 0) continue
    const named = mapping.sensors?.filter(({ column }) => heads.includes(column)) ?? []
    const read = mapping.sensors === null ? heads.filter((head, i) => i !== timeAt && headingRead(head) !== null) : named
    if (read.length === 0) continue
    const dateAt = mapping.time.date === null ? dateColumn(heads, timeAt) : heads.indexOf(mapping.time.date)
    nearest = { line: at + 1, separator, heads, timeAt, dateAt, columns: [], notRead: [] }
    break
  }
  if (nearest === null)
    return { ok: false, problems: [logProblem('log/no-heading', {}, lines.find((l) => l.trim() !== '') ?? '')] }
  return withColumns(nearest, mapping)
}

const timeColumn = (heads: readonly string[]): number => heads.findIndex((head) => timeHeading(head) === 'time')
const dateColumn = (heads: readonly string[], timeAt: number): number | null => {
  const at = heads.findIndex((head, i) => i !== timeAt && timeHeading(head) === 'date')
  return at < 0 ? null : at
}

function withColumns(list: Headed, mapping: LogMapping): Result<Headed> {
  const problems: Problem[] = []
  const place = { line: list.line }
  if (list.dateAt !== null && list.dateAt < 0)
    problems.push(logProblem('log/column-absent', place, mapping.time.date ?? '', list.heads))
  const columns: { at: number; sensor: LogSensor }[] = []
  const add = (at: number, sensor: Omit<LogSensor, 'accuracy'>, accuracy: number | null) => {
    if (columns.some((c) => c.sensor.name === sensor.name)) problems.push(logProblem('log/twice', place, sensor.name))
    const taken = sensor.place === 'humidity' ? ACCURACY_FRAC : ACCURACY_K
    columns.push({ at, sensor: { ...sensor, accuracy: { value: accuracy ?? taken, told: accuracy !== null } } })
  }
  if (mapping.sensors === null) {
    for (const [at, head] of list.heads.entries()) {
      const read = at === list.timeAt || at === list.dateAt ? null : headingRead(head)
      if (read === null) continue
      const unit = read.unit
      if (unit === null && read.oddUnit !== null && unitOf(read.oddUnit) === null && /^[^\d\s]{1,6}$/.test(read.oddUnit))
        problems.push(logProblem('log/unit-wrong', place, head, read.oddUnit))
      else if (unit === null) problems.push(logProblem('log/unit-unknown', place, head))
      else if ((unit === '%') !== (read.place === 'humidity')) problems.push(logProblem('log/unit-wrong', place, head, unit))
      else add(at, { name: head, place: read.place, unit }, null)
    }
  } else
    for (const told of mapping.sensors) {
      const at = list.heads.indexOf(told.column)
      const unit =
        told.unit ?? (at < 0 ? null : (headingRead(`air ${told.column}`)?.unit ?? (told.place === 'humidity' ? '%' : null)))
      if (at < 0) problems.push(logProblem('log/column-absent', place, told.column, list.heads))
      else if (unit === null) problems.push(logProblem('log/unit-unknown', place, told.column))
      else if ((unit === '%') !== (told.place === 'humidity'))
        problems.push(logProblem('log/unit-wrong', place, told.column, unit))
      else add(at, { name: told.name ?? told.column, place: told.place, unit }, told.accuracy?.value ?? null)
    }
  if (problems.length > 0) return { ok: false, problems }
  const read = new Set([list.timeAt, list.dateAt, ...columns.map((c) => c.at)])
  const notRead = list.heads.filter((head, at) => !read.has(at) && head !== '')
  return { ok: true, value: { ...list, columns, notRead } }
}

function readRows(rows: readonly ListRow[], list: Headed, mapping: LogMapping, utcOffsetH: number): Result<LoggerLog> {
  const problems: Problem[] = []
  const stamps = rows.map((row) => stampOf(row, list))
  const order = dayOrder(stamps, mapping.time.dates)
  if (order === 'open') {
    const at = stamps.findIndex((stamp) => openDay(stamp) !== null)
    return { ok: false, problems: [logProblem('log/day-order', { line: rows[at]?.line ?? list.line }, stamps[at] ?? '')] }
  }
  const headZoneH = zoneInHeading(list.heads[list.timeAt] ?? '')
  const told = mapping.time.clock
  const clockH = told === 'standard' ? utcOffsetH : (told ?? headZoneH ?? utcOffsetH)
  const atMin: number[] = []
  const values: number[][] = list.columns.map(() => [])
  const missing = list.columns.map(() => 0)
  const impossible = list.columns.map(() => ({ count: 0, first: '', firstLine: 0 }))
  let before = ''
  let zoned = 0
  let twice = 0
  for (const [i, row] of rows.entries()) {
    const stamp = stamps[i] as string
    const read = stampRead(stamp, order)
    if (read === null) {
      problems.push(logProblem('log/time', { line: row.line }, stamp))
      continue
    }
    if (read.zoneH !== null) zoned += 1
    const at = read.atMin + (utcOffsetH - (read.zoneH ?? clockH)) * 60
    const cells = list.columns.map((column, c) => {
      const cell = row.cells[column.at] ?? ''
      const value = numberOf(cell, list.separator)
      if (value === undefined) {
        problems.push(logProblem('log/number', { line: row.line }, column.sensor.name, cell))
        return Number.NaN
      }
      if (Number.isNaN(value) || mapping.missing.some((code) => code.value === value)) {
        missing[c] = (missing[c] as number) + 1
        return Number.NaN
      }
      const si = siOf(value, column.sensor.unit)
      if (possible(si, column.sensor.unit)) return si
      const odd = impossible[c] as { count: number; first: string; firstLine: number }
      if (odd.count === 0) Object.assign(odd, { first: cell, firstLine: row.line })
      odd.count += 1
      return Number.NaN
    })
    const last = atMin.at(-1)
    if (last !== undefined && at <= last) {
      const same = at === last && cells.every((v, c) => Object.is(v, values[c]?.at(-1)))
      if (same) twice += 1
      else problems.push(logProblem('log/time-back', { line: row.line }, stamp, before))
      continue
    }
    before = stamp
    atMin.push(at)
    for (const [c, v] of cells.entries()) values[c]?.push(v)
  }
  for (const [c, { count, first, firstLine }] of impossible.entries())
    if (count > IMPOSSIBLE_FRAC * rows.length)
      problems.push(logProblem('log/range', { line: firstLine }, list.columns[c]?.sensor.name ?? '', count, rows.length, first))
  if (problems.length > 0) return { ok: false, problems: shortened(problems) }
  const stepMin = medianStep(atMin)
  if (!(stepMin >= 1 && stepMin <= 60))
    return {
      ok: false,
      problems: [
        logProblem(
          atMin.length < 2 ? 'log/short' : 'log/step',
          {},
          ...((atMin.length < 2 ? [0] : [stepText(stepMin)]) as [never]),
        ),
      ],
    }
  const hours = ((atMin.at(-1) as number) - (atMin[0] as number) + stepMin) / 60
  if (hours < LEAST_HOURS) return { ok: false, problems: [logProblem('log/short', {}, Math.floor(hours))] }
  const shiftMin = mapping.time.stamp === 'start' ? stepMin / 2 : mapping.time.stamp === 'end' ? -stepMin / 2 : 0
  const names = list.columns.map((c) => c.sensor.name)
  const notes = [
    zoned === rows.length
      ? 'Its stamps name their zone.'
      : told !== null
        ? 'Its clock is as the mapping says.'
        : headZoneH !== null
          ? 'Its clock is as the heading of the time says.'
          : 'Its stamps name no zone: taken as local standard time, no summer time.',
    ...gapNotes(atMin, stepMin),
    ...missing.flatMap((count, c) => (count === 0 ? [] : [`${names[c]}: ${count} of ${rows.length} readings missing.`])),
    ...impossible.flatMap(({ count, first, firstLine }, c) =>
      count === 0
        ? []
        : [`${names[c]}: ${count} readings that cannot be were left out, the first “${first}” in line ${firstLine}.`],
    ),
    ...(twice === 0 ? [] : [`${twice} lines that stand twice were read once.`]),
    ...(list.notRead.length === 0 ? [] : [`Columns not read: ${list.notRead.join(', ')}.`]),
    ...list.columns.flatMap(({ sensor }) =>
      sensor.accuracy.told
        ? []
        : [`${sensor.name}: may read wrong by ${sensor.place === 'humidity' ? '3 %' : '0.5 K'} (not told, taken).`],
    ),
  ]
  return {
    ok: true,
    value: {
      sensors: list.columns.map((c) => c.sensor),
      atMin: Float64Array.from(atMin, (t) => t + shiftMin),
      values: values.map((column) => Float64Array.from(column)),
      stepMin,
      notes,
    },
  }
}

function stampOf(row: ListRow, list: Headed): string {
  const time = row.cells[list.timeAt] ?? ''
  return list.dateAt === null || list.dateAt < 0 ? time : `${row.cells[list.dateAt] ?? ''} ${time}`.trim()
}

/** Which number of a day with the year last is the month, when the list as a whole can be read in one way only. */
function dayOrder(stamps: readonly string[], told: DayOrder | null): DayOrder | null | 'open' {
  if (told !== null) return told
  const days = stamps.flatMap((stamp) => {
    const day = openDay(stamp)
    return day === null ? [] : [day]
  })
  if (days.length === 0) return null
  if (days.some(([a]) => a > 12)) return 'day first'
  if (days.some(([, b]) => b > 12)) return 'month first'
  return 'open'
}

/** NaN where there is no reading; undefined where the cell is something else. */
function numberOf(cell: string, separator: Separator): number | undefined {
  if (/^(|-+|–|—|nan|n\/a|na|null|none|missing|\.)$/i.test(cell)) return Number.NaN
  const text = (separator === ',' ? cell : cell.replace(',', '.')).replace('−', '-')
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : undefined
}

const siOf = (value: number, unit: LogSensor['unit']): number =>
  unit === 'F' ? ((value - 32) * 5) / 9 : unit === '%' ? value / 100 : value
const possible = (si: number, unit: LogSensor['unit']): boolean => (unit === '%' ? si >= 0 && si <= 1.05 : si >= -90 && si <= 120)

function medianStep(atMin: readonly number[]): number {
  const steps = Float64Array.from(atMin.slice(1), (t, i) => t - (atMin[i] as number)).sort()
  return steps[Math.floor(steps.length / 2)] ?? 0
}

const stepText = (stepMin: number): string => (stepMin < 1 ? `${Math.round(stepMin * 60)} s` : `${Math.round(stepMin)} min`)

function gapNotes(atMin: readonly number[], stepMin: number): readonly string[] {
  const gaps = atMin.slice(1).flatMap((t, i) => {
    const from = atMin[i] as number
    return t - from > 1.5 * stepMin ? [{ from, minutes: t - from - stepMin }] : []
  })
  if (gaps.length === 0) return []
  const longest = gaps.reduce((a, b) => (b.minutes > a.minutes ? b : a))
  const hours = gaps.reduce((sum, gap) => sum + gap.minutes, 0) / 60
  return [
    `${gaps.length} gaps, ${hours.toFixed(1)} h in all, the longest ${(longest.minutes / 60).toFixed(1)} h after ${stampText(longest.from)}; they are left out, not filled.`,
    ...gaps
      .filter(({ from, minutes }) => Math.abs(minutes - 60) < stepMin / 2 + 0.5 && springNight(from + stepMin))
      .map(
        ({ from }) =>
          `One hour is missing after ${stampText(from)}, when clocks are put forward in many countries: if the logger followed summer time, what comes after it is an hour late.`,
      ),
  ]
}

/** Hours 0 to 4 of a night in March, April, September or October. */
function springNight(atMin: number): boolean {
  const at = new Date(atMin * 60_000)
  return at.getUTCHours() <= 4 && [2, 3, 8, 9].includes(at.getUTCMonth())
}

function shortened(problems: readonly Problem[]): readonly Problem[] {
  if (problems.length <= TOLD_MOST) return problems
  return [...problems.slice(0, TOLD_MOST), logProblem('log/many', {}, problems.length - TOLD_MOST)]
}
