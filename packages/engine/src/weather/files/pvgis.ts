import { ok, type Result } from '../../kernel/index.ts'
import { fillSunPath, newSunPath } from '../sun-path.ts'
import { fieldsOf, isBlank, numberOf } from './cells.ts'
import { emptyRows, scaled } from './epw.ts'
import { placePart } from './place.ts'
import { gatheredProblems } from './problems.ts'
import { type CellName, type FileRows, isDayOfYear, typicalDayH } from './rows.ts'

const YEAR_H = 8760

interface NamedRule {
  readonly cell: CellName
  readonly heading: string
  readonly factor: number
}

/** @source typical year of the European solar service, headings and notes of the file (read) */
const COLUMNS: readonly NamedRule[] = [
  { cell: 'airC', heading: 'T2m', factor: 1 },
  { cell: 'relativeFrac', heading: 'RH', factor: 0.01 },
  { cell: 'globalWPerM2', heading: 'G(h)', factor: 1 },
  { cell: 'beamWPerM2', heading: 'Gb(n)', factor: 1 },
  { cell: 'diffuseWPerM2', heading: 'Gd(h)', factor: 1 },
  { cell: 'infraredWPerM2', heading: 'IR(h)', factor: 1 },
  { cell: 'windMPerS', heading: 'WS10m', factor: 1 },
  { cell: 'windFromDeg', heading: 'WD10m', factor: 1 },
  { cell: 'pressurePa', heading: 'SP', factor: 1 },
]
const LIGHTS = ['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2'] as const

const HEAD = /^\s*"?\s*Latitude \(decimal degrees\)\s*:/i
const HEADINGS = /^\s*"?time(\(UTC\))?"?\s*,/i
const SERIES = /\b(G|Gb|Gd|Gr)\(i\)/

export const isPvgis = (lines: readonly string[]): boolean => HEAD.test(lines[0] ?? '')

/**
 * A typical year of the European solar service: readings at whole hours UTC, light at a moment after them. Brought to the clock of the place
 * by whole hours, so that its first hours come from the end of another year; light becomes the mean of each hour. Series made for panels
 * have no humidity and are refused.
 */
export function pvgisRows(lines: readonly string[], toldClockH: number | null): Result<FileRows> {
  const found = gatheredProblems()
  const at = lines.findIndex((line) => HEADINGS.test(line))
  const headings = fieldsOf(lines[at] ?? '', ',').map((h) => h.trim())
  if (at >= 0 && SERIES.test(lines[at] as string) && !headings.includes('RH')) found.add(at + 1, 'weather/series-for-panels')
  else if (at < 0)
    found.add(null, 'weather/header', 'line of headings', '', '“time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP”')
  if (found.count() > 0) return { ok: false, problems: found.all() }
  const value = (name: RegExp) => {
    const i = lines.findIndex((line, k) => k < at && name.test(line))
    return { line: i < 0 ? 1 : i + 1, text: i < 0 ? '' : ((lines[i] as string).split(':')[1] ?? '').trim() }
  }
  const part = (name: RegExp, which: Parameters<typeof placePart>[2]) => {
    const { line, text } = value(name)
    return placePart(found, line, which, text)
  }
  const latitudeDeg = part(HEAD, 'latitude')
  const longitudeDeg = part(/^\s*"?Longitude \(decimal degrees\)/i, 'longitude')
  const elevationM = part(/^\s*"?Elevation \(m\)/i, 'height')
  const offset = value(/^\s*"?Irradiance Time Offset \(h\)/i)
  const lightAtH = offset.text === '' ? 0 : numberOf(offset.text)
  if (!(Math.abs(lightAtH) < 1))
    found.add(offset.line, 'weather/header', 'time offset of the light', offset.text, 'hours, −1 to 1')
  const missing = COLUMNS.filter((c) => !headings.includes(c.heading)).map((c) => c.heading)
  const needed = missing.filter((heading) => ['T2m', 'RH', 'G(h)'].includes(heading))
  if (needed.length > 0) found.add(at + 1, 'weather/header', 'headings', headings.join(','), `also ${needed.join(', ')}`)
  const last = lines.findIndex((line, i) => i > at && line.trim() === '')
  const rowLines = lines.slice(at + 1, last < 0 ? lines.length : last)
  if (rowLines.length === 0) found.add(null, 'weather/no-rows')
  if (found.count() > 0) return { ok: false, problems: found.all() }

  const clockH = Math.round(toldClockH ?? longitudeDeg / 15)
  const used = COLUMNS.filter((c) => headings.includes(c.heading))
  const rows = emptyRows(
    rowLines.length,
    used.map((c) => c.cell),
  )
  const years = new Set<number>()
  for (const [row, text] of rowLines.entries()) {
    const line = at + 2 + row
    rows.lines[row] = line
    const cells = fieldsOf(text, ',')
    if (cells.length < headings.length) {
      found.add(line, 'weather/row-short', cells.length, `${headings.length}, as there are headings`)
      continue
    }
    const stamp = /^\s*(\d{4})(\d{2})(\d{2}):(\d{2})00\s*$/.exec(cells[0] as string)
    const [year, month, day, hour] = (stamp ?? []).slice(1).map(Number) as [number, number, number, number]
    if (stamp === null || !isDayOfYear(month, day) || hour > 23) {
      found.add(line, 'weather/not-a-time', cells[0] as string, 'YYYYMMDD:HH00, UTC')
      continue
    }
    years.add(year)
    rows.startH[row] = (typicalDayH(month, day) + hour + clockH + YEAR_H) % YEAR_H
    for (const rule of used) {
      const cell = cells[headings.indexOf(rule.heading)]
      const number = isBlank(cell) ? Number.NaN : numberOf(cell as string)
      if (Number.isNaN(number) && !isBlank(cell)) found.add(line, 'weather/not-a-number', rule.heading, cell as string)
      rows.cells[rule.cell]![row] = scaled(number, rule.factor)
    }
  }
  if (found.count() > 0) return { ok: false, problems: found.all() }
  const place = {
    name: `${latitudeDeg.toFixed(3)}°, ${longitudeDeg.toFixed(3)}°`,
    ...{ latitudeDeg, longitudeDeg, elevationM, utcOffsetH: clockH },
  }
  const read = inLocalOrder(rows)
  return ok({
    format: 'pvgis',
    place,
    typical: true,
    years: [...years].sort((a, b) => a - b),
    ...read,
    cells: { ...read.cells, ...hourlyLight(read, place, lightAtH) },
    stepH: 1,
    readingAtH: 0,
    taken: Object.fromEntries(used.map((c) => [c.cell, `column ${c.heading}`])),
    said: [
      `The stamps are UTC; the clock of the place is taken ${clockH} h ahead of it${toldClockH === null ? ', by its longitude' : ', as told'}, and the year rolled by that.`,
      `Light stands in the file at a moment ${lightAtH} h after each stamp; it is drawn straight from moment to moment and averaged over each hour.`,
    ],
  })
}

type Rows = ReturnType<typeof emptyRows>

/** From 1 January by the clock of the place. Rows of 29 February (no time) come last. */
function inLocalOrder(rows: Rows): Rows {
  const order = Array.from(rows.startH.keys()).sort(
    (a, b) => rank(rows.startH[a] as number) - rank(rows.startH[b] as number) || a - b,
  )
  const cells = Object.entries(rows.cells).map(([name, values]) => [name, Float64Array.from(order, (i) => values[i] as number)])
  return {
    lines: Int32Array.from(order, (i) => rows.lines[i] as number),
    startH: Float64Array.from(order, (i) => rows.startH[i] as number),
    cells: Object.fromEntries(cells) as Rows['cells'],
  }
}

const rank = (startH: number): number => (Number.isNaN(startH) ? Number.POSITIVE_INFINITY : startH)

/**
 * Means over the hours of light told at moments `atH` after the beginning of each: straight from moment to moment, the ends of a whole year
 * joined, so that the sum of the year stays. What falls into an hour in which the sun is down goes to the lit hour beside it.
 */
function hourlyLight(rows: Rows, place: FileRows['place'], atH: number): Rows['cells'] {
  const known = rows.startH.filter((h) => !Number.isNaN(h))
  const count = known.length
  const whole = count === YEAR_H && known.every((h, i) => h === i)
  const path = newSunPath(count)
  fillSunPath(path, {
    place,
    year: null,
    firstDay: 1 + Math.floor((known[0] ?? 0) / 24),
    firstHour: (known[0] ?? 0) % 24,
    stepH: 1,
  })
  const lit = (i: number) => (path.litFrac[(i + count) % count] as number) > 0
  const out: Rows['cells'] = {}
  for (const name of LIGHTS) {
    const values = rows.cells[name]
    if (values === undefined) continue
    const near = (i: number) => {
      if (whole) return values[(i + count) % count] as number
      const beside = known[i]
      const here = known[i - 1] ?? known[i + 1]
      return beside !== undefined && here !== undefined && Math.abs(beside - here) === 1 ? (values[i] as number) : Number.NaN
    }
    // A moment before the stamp lies in the hour before: the next row's is the one inside.
    const ahead = atH < 0 ? 1 : 0
    const mean = Float64Array.from({ length: count }, (_, i) =>
      hourMean(near(i - 1 + ahead), ahead === 0 ? (values[i] as number) : near(i + 1), near(i + 1 + ahead), atH + ahead),
    )
    if (whole)
      for (let i = 0; i < count; i++) {
        if (lit(i) || !((mean[i] as number) > 0)) continue
        const to = lit(i + 1) ? (i + 1) % count : lit(i - 1) ? (i - 1 + count) % count : i
        if (to !== i) {
          mean[to] = (mean[to] as number) + (mean[i] as number)
          mean[i] = 0
        }
      }
    const all = new Float64Array(rows.startH.length).fill(Number.NaN)
    all.set(mean)
    out[name] = all
  }
  return out
}

/** Mean of the hour 0 to 1 of the broken line through (at − 1, before), (at, here), (at + 1, after), at 0 to 1; without a neighbour, the value itself serves. */
export function hourMean(before: number, here: number, after: number, atH: number): number {
  const b = Number.isNaN(before) ? here : before
  const a = Number.isNaN(after) ? here : after
  const start = atH * b + (1 - atH) * here
  const end = atH * here + (1 - atH) * a
  return (atH * (start + here) + (1 - atH) * (here + end)) / 2
}
