import { isLeapYear, isoDay, type Problem, type Result } from '../../kernel/index.ts'
import { pressureAtPa } from '../moist-air.ts'
import { type ColumnOrigin, WEATHER_MEANS, WEATHER_READINGS, type WeatherColumn, type WeatherHours } from '../types.ts'
import { runFindings, sunPathOf } from './acceptance.ts'
import { linesText, weatherFinding } from './finding.ts'
import { filledGaps, gapsIn } from './gaps.ts'
import { type Vapour, vapourOf } from './humidity.ts'
import { type Light, lightOf } from './light.ts'
import { gatheredProblems, weatherProblem } from './problems.ts'
import { type OutOfRange, withinRanges } from './ranges.ts'
import { FORMAT_WORDS, type WeatherFile, type WeatherNote } from './result.ts'
import { rowFindings } from './row-findings.ts'
import { CELL_WORDS, type CellName, type FileRows } from './rows.ts'
import { type HourSlots, slotsOf } from './slots.ts'

const LEAP_YEAR_H = 8784
const DAY_H = 24

type Column = Exclude<CellName, 'dewC' | 'relativeFrac'>
type Columns = Partial<Record<Column, Float64Array>>
const LIGHTS = ['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2'] as const

/** Gaps of these are filled. A filled rain or wind direction would be an invention. */
const FILLED: readonly Column[] = [
  'airC',
  'vapourPa',
  'pressurePa',
  'windMPerS',
  'cloudFrac',
  ...LIGHTS,
  'infraredWPerM2',
  'snowM',
]
/** A long gap in one of these refuses the file; in the others the hours stay unknown. */
const NEEDED: readonly Column[] = ['airC', 'vapourPa', 'windMPerS', ...LIGHTS]

export interface MadeYear {
  /** A typical year made from the monthly climate, on the clock of the place. */
  readonly hours: WeatherHours
  /** “the normals of Bismarck, ND, 12 km away”. */
  readonly words: string
}

/** Rows of any form as whole hours: humidity as vapour, gaps filled or refused by rule, light completed, everything judged and said. */
export function assembled(given: FileRows, normals: MadeYear | null): Result<WeatherFile> {
  const ranged = withinRanges(given)
  const vapour = vapourOf(ranged.rows)
  if (vapour === null && normals === null)
    return { ok: false, problems: [...impossible(ranged.out), weatherProblem('weather/humidity-missing')] }
  const rows: FileRows =
    vapour === null ? ranged.rows : { ...ranged.rows, cells: { ...ranged.rows.cells, vapourPa: vapour.vapourPa } }
  const slots = slotsOf(rows)
  if (slots === null) return { ok: false, problems: [weatherProblem('weather/no-rows')] }
  const notes: WeatherNote[] = [...droppedNotes(slots)]
  for (const said of given.said) notes.push({ kind: 'not read', what: 'columns', count: 0, said })
  const filled = filledColumns(given, slots, normals, notes)
  if (!filled.ok) return { ok: false, problems: [...impossible(ranged.out), ...filled.problems] }
  const columns = withCalm(filled.value)
  const fromNormals = new Set(notes.filter((n) => n.kind === 'filled from the normals').map((n) => n.what))
  const measured = LIGHTS.filter((name) => columns[name] !== undefined && !fromNormals.has(CELL_WORDS[name]))
  const runs: WeatherHours[] = []
  const findings = [...rowFindings({ rows: ranged.rows, slots, out: ranged.out, vapour })]
  for (const { from, to } of runSpans(given, slots)) {
    const part = partOf(columns, from, to)
    const bare = runFrame(given, slots, from, to - from)
    const path = sunPathOf(bare)
    const light = lightOf(
      { globalWPerM2: undefined, beamWPerM2: undefined, diffuseWPerM2: undefined, cloudFrac: undefined, ...part },
      path,
    )
    const run = completed(given, bare, part, { light, vapour, normals, fromNormals })
    runs.push(run)
    findings.push(
      ...runFindings({
        run,
        path,
        format: given.format,
        lineOf: slots.lineOf.subarray(from, to),
        lightMeasured: measured.length === 3,
        globalMeasured: measured.includes('globalWPerM2'),
      }),
    )
    for (const [name, how] of Object.entries(light.how))
      if (runs.length === 1)
        notes.push({ kind: 'worked out', what: CELL_WORDS[name as CellName], count: slots.hoursCount, said: how })
  }
  if (columns.pressurePa === undefined) notes.push(pressureNote(given, slots))
  const refusedForAir = refusals(runs)
  return {
    ok: true,
    value: {
      format: given.format,
      formatWords: FORMAT_WORDS[given.format],
      place: given.place,
      typical: given.typical,
      years: given.years,
      hoursCount: slots.hoursCount,
      runs,
      notes,
      cold: vapour?.cold ?? null,
      refusedForAir,
      findings: [...findings, ...refusedForAir.map((said) => weatherFinding('weather/refused-for-air', 'unknown', said))],
    },
  }
}

/** Where gaps refuse a file, what made them. */
const impossible = (out: readonly OutOfRange[]): readonly Problem[] =>
  out.map(({ words, lines }) => ({
    ...weatherProblem('weather/cells-impossible', words, lines.length, linesText(lines)),
    line: lines[0] as number,
  }))

function droppedNotes(slots: HourSlots): readonly WeatherNote[] {
  const notes: WeatherNote[] = []
  const say = (lines: readonly number[], said: string) => {
    if (lines.length > 0) notes.push({ kind: 'dropped', what: 'rows', count: lines.length, said: `${said}: ${linesText(lines)}` })
  }
  say(slots.leapLines, '29 February of a typical year, which has 365 days')
  say(slots.twiceLines, 'hours that were there already')
  return notes
}

/** Each column on whole hours with its gaps filled; columns without a value are left out. */
function filledColumns(given: FileRows, slots: HourSlots, normals: MadeYear | null, notes: WeatherNote[]): Result<Columns> {
  const found = gatheredProblems()
  const columns: Columns = {}
  for (const [name, values] of Object.entries(slots.cells) as [CellName, Float64Array][]) {
    if (name === 'dewC' || name === 'relativeFrac' || values.every((v) => Number.isNaN(v))) continue
    columns[name] = FILLED.includes(name) ? filledColumn(found, { given, slots, normals, notes, name, values }) : values
  }
  for (const name of ['airC', 'vapourPa'] as const)
    if (columns[name] === undefined && normals === null) found.add(null, 'weather/column-empty', CELL_WORDS[name])
  if (normals !== null) addMissing(columns, given, slots, normals, notes)
  return found.count() > 0 ? { ok: false, problems: found.all() } : { ok: true, value: columns }
}

interface Filling {
  readonly given: FileRows
  readonly slots: HourSlots
  readonly normals: MadeYear | null
  readonly notes: WeatherNote[]
  readonly name: Column
  readonly values: Float64Array
}

function filledColumn(found: ReturnType<typeof gatheredProblems>, of: Filling): Float64Array {
  const { given, slots, normals, notes, name, values } = of
  const filled = filledGaps(values)
  const words = CELL_WORDS[name]
  if (filled.lineCount > 0)
    notes.push({ kind: 'filled', what: words, count: filled.lineCount, said: 'gaps of up to 6 h, by a straight line' })
  if (filled.neighbourCount > 0)
    notes.push({
      kind: 'filled',
      what: words,
      count: filled.neighbourCount,
      said: 'gaps of up to 48 h, from the same hours of the days before and after',
    })
  const source = normals === null ? null : normalColumn(name, normals)
  for (const gap of filled.long) {
    if (source !== null)
      for (let i = gap.from; i < gap.from + gap.count; i++) filled.values[i] = source[normalHour(given, slots, i)] as number
    else if (NEEDED.includes(name))
      found.add(lineBefore(slots, gap.from), 'weather/gap-long', words, gap.count, whenText(given, slots, gap.from))
  }
  const long = filled.long.reduce((n, gap) => n + gap.count, 0)
  if (long > 0 && source !== null && normals !== null)
    notes.push({ kind: 'filled from the normals', what: words, count: long, said: `gaps of over 48 h, from ${normals.words}` })
  else if (long > 0 && !NEEDED.includes(name))
    notes.push({ kind: 'not known', what: words, count: long, said: 'gaps of over 48 h stay unknown' })
  return filled.values
}

/** What the file has not at all: humidity, air, wind; light where there is neither sun nor cloud. */
function addMissing(columns: Columns, given: FileRows, slots: HourSlots, normals: MadeYear, notes: WeatherNote[]): void {
  const dark = LIGHTS.every((name) => columns[name] === undefined) && columns.cloudFrac === undefined
  const wanted: readonly Column[] = ['airC', 'vapourPa', 'windMPerS', ...(dark ? ([...LIGHTS, 'cloudFrac'] as const) : [])]
  for (const name of wanted) {
    const source = columns[name] === undefined ? normalColumn(name, normals) : null
    if (source === null) continue
    columns[name] = Float64Array.from({ length: slots.hoursCount }, (_, i) => source[normalHour(given, slots, i)] as number)
    notes.push({
      kind: 'filled from the normals',
      what: CELL_WORDS[name],
      count: slots.hoursCount,
      said: `the whole column, from ${normals.words}`,
    })
  }
}

const normalColumn = (name: Column, { hours }: MadeYear): Float64Array | null => hours.columns[name]

/** Hour of the made year that an hour of the record falls on; 29 February falls on the 28th. */
function normalHour(given: FileRows, slots: HourSlots, i: number): number {
  const h = slots.firstH + i
  if (given.typical) return h
  const { day, year, hour } = dayAt(h)
  return (day - (isLeapYear(year) && day > 59 ? 1 : 0) - 1) * DAY_H + hour
}

function dayAt(h: number): { readonly year: number; readonly day: number; readonly hour: number } {
  const dayD = Math.floor(h / DAY_H)
  const iso = isoDay(dayD)
  const year = Number(iso.slice(0, 4))
  const day = dayD - Math.floor(Date.UTC(year, 0, 1) / 86_400_000) + 1
  return { year, day, hour: h - dayD * DAY_H }
}

function whenText(given: FileRows, slots: HourSlots, i: number): string {
  const h = slots.firstH + i
  if (!given.typical) return `${isoDay(Math.floor(h / DAY_H))} ${h % DAY_H}:00`
  return `${isoDay(Math.floor(h / DAY_H)).slice(5)} ${h % DAY_H}:00`
}

function lineBefore(slots: HourSlots, at: number): number | null {
  for (let i = at; i >= 0; i--) if ((slots.lineOf[i] as number) > 0) return slots.lineOf[i] as number
  return null
}

/** No direction where no wind blows. */
function withCalm(columns: Columns): Columns {
  const { windFromDeg, windMPerS } = columns
  if (windFromDeg === undefined || windMPerS === undefined) return columns
  return { ...columns, windFromDeg: windFromDeg.map((deg, i) => (windMPerS[i] === 0 ? Number.NaN : deg)) }
}

/** A record of up to a year is one run; a longer one is cut at New Year. */
function runSpans(given: FileRows, slots: HourSlots): readonly { readonly from: number; readonly to: number }[] {
  const all = slots.hoursCount
  if (given.typical || all <= LEAP_YEAR_H) return [{ from: 0, to: all }]
  const spans: { from: number; to: number }[] = []
  let from = 0
  while (from < all) {
    const { year } = dayAt(slots.firstH + from)
    const to = Math.min(all, Date.UTC(year + 1, 0, 1) / 3_600_000 - slots.firstH)
    spans.push({ from, to })
    from = to
  }
  return spans
}

const partOf = (columns: Columns, from: number, to: number): Columns =>
  Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, (values as Float64Array).slice(from, to)]))

type Frame = Pick<WeatherHours, 'place' | 'firstDay' | 'firstHour' | 'year' | 'hoursCount' | 'readingAtH'>

function runFrame(given: FileRows, slots: HourSlots, from: number, hoursCount: number): Frame {
  const h = slots.firstH + from
  const at = given.typical ? { year: null, day: Math.floor(h / DAY_H) + 1, hour: h % DAY_H } : dayAt(h)
  return { place: given.place, firstDay: at.day, firstHour: at.hour, year: at.year, hoursCount, readingAtH: slots.readingAtH }
}

interface Completing {
  readonly light: Light
  readonly vapour: Vapour | null
  readonly normals: MadeYear | null
  readonly fromNormals: ReadonlySet<string>
}

function completed(given: FileRows, frame: Frame, part: Columns, of: Completing): WeatherHours {
  const { light, vapour, normals, fromNormals } = of
  const columns = {} as Record<WeatherColumn, Float64Array | null>
  const origins: Partial<Record<WeatherColumn, ColumnOrigin>> = {}
  for (const name of [...WEATHER_READINGS, ...WEATHER_MEANS]) {
    const isLight = (LIGHTS as readonly string[]).includes(name)
    columns[name] = isLight ? light[name as (typeof LIGHTS)[number]] : (part[name] ?? null)
    if (columns[name] === null) continue
    const worked = light.how[name as (typeof LIGHTS)[number]]
    const taken = given.taken[name]
    if (worked !== undefined) origins[name] = { from: 'worked out', how: worked }
    else if (name === 'vapourPa' && vapour !== null) origins[name] = { from: 'file', how: vapour.how }
    else if (taken !== undefined && !(fromNormals.has(CELL_WORDS[name]) && slotsEmpty(given, name)))
      origins[name] = {
        from: 'file',
        how: fromNormals.has(CELL_WORDS[name]) ? `${taken}; long gaps from ${normals?.words}` : taken,
      }
    else origins[name] = { from: 'generated', how: `from ${normals?.words}` }
  }
  const lightMade = normals !== null && origins.globalWPerM2?.from === 'generated'
  return { ...frame, columns, origins, lightSplit: light.split || (lightMade && normals.hours.lightSplit) }
}

const slotsEmpty = (given: FileRows, name: WeatherColumn): boolean => {
  const values = given.cells[name]
  return values === undefined || values.every((v) => Number.isNaN(v))
}

const pressureNote = (given: FileRows, slots: HourSlots): WeatherNote => ({
  kind: 'default',
  what: CELL_WORDS.pressurePa,
  count: slots.hoursCount,
  said: `not in the file: ${Math.round(pressureAtPa(given.place.elevationM) / 100)} hPa, the standard at ${Math.round(given.place.elevationM)} m, is taken where it counts`,
})

function refusals(runs: readonly WeatherHours[]): readonly string[] {
  const said: string[] = []
  const [first] = runs
  if (first === undefined) return said
  if (first.columns.globalWPerM2 === null)
    said.push(
      'The file holds neither sun nor cloud: what a roof takes and gives back is not known. It reads, but is refused for the air inside a box unless you say --fill-from-normals.',
    )
  if (first.columns.windMPerS === null)
    said.push(
      'The file holds no wind: films and vents cannot be worked out. It is refused for the air inside a box unless you say --fill-from-normals.',
    )
  if (!runs.some((run) => run.hoursCount >= 8760))
    said.push(
      'No whole year stands in the file: it is refused for a year of the air inside a box; a short run may be worked out.',
    )
  for (const name of ['airC', 'vapourPa', 'windMPerS', 'globalWPerM2'] as const)
    if (runs.some((run) => run.columns[name] !== null && gapsIn(run.columns[name]).length > 0))
      said.push(`Some hours hold no ${CELL_WORDS[name]}.`)
  return said
}
