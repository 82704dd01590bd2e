import { type Finding, isLeapYear } from '../../kernel/index.ts'
import { PHYSICS } from '../constants.ts'
import { fillSunPath, newSunPath, type SunPath } from '../sun-path.ts'
import type { WeatherHours } from '../types.ts'
import { linesText, rowsText, rowsVerdict, spansText, weatherFinding } from './finding.ts'
import { type FileFormat, typicalMonth } from './rows.ts'

const YEAR_H = 8760
const LEAP_YEAR_H = 8784
/** cos 80°: above it the sum of beam and diffuse is compared. */
const HIGH_SUN = 0.17364817766693036

export interface RunOfFile {
  readonly format: FileFormat
  readonly run: WeatherHours
  readonly path: SunPath
  /** Line of the row of each hour; 0: none. */
  readonly lineOf: Int32Array
  /** All three lights stand in the file. */
  readonly lightMeasured: boolean
  /** The light on the level stands in the file. */
  readonly globalMeasured: boolean
}

/** The path of the sun over the hours of a run, its clock set on by `shiftH`. */
export function sunPathOf(
  run: Pick<WeatherHours, 'place' | 'year' | 'firstDay' | 'firstHour' | 'hoursCount'>,
  shiftH = 0,
): SunPath {
  const path = newSunPath(run.hoursCount)
  fillSunPath(path, { place: run.place, year: run.year, firstDay: run.firstDay, firstHour: run.firstHour + shiftH, stepH: 1 })
  return path
}

/**
 * What does not hold in the hours: a year that is none, more beam than there is outside the air, lights that do not add up, stamps that
 * are shifted, noon off the sun's, sun at night, wind that never blows.
 */
export function runFindings(of: RunOfFile): readonly Finding[] {
  const findings: Finding[] = []
  const { run, path } = of
  const { hoursCount, columns } = run
  const allLines = spansText(of.lineOf, () => true)
  if (hoursCount !== YEAR_H && hoursCount !== LEAP_YEAR_H)
    findings.push(
      weatherFinding(
        'weather/not-a-year',
        'unknown',
        `${hoursCount} hours${run.year === null ? '' : ` from ${run.year}`}: not a whole year of 8760 or 8784 (${allLines}).`,
      ),
    )
  const hours = (bad: (i: number) => boolean): readonly number[] => {
    const at: number[] = []
    for (let i = 0; i < hoursCount; i++) if (bad(i)) at.push(of.lineOf[i] as number)
    return at
  }
  const say = (code: `weather/${string}`, lines: readonly number[], judged: number, said: string) => {
    if (lines.length > 0)
      findings.push(
        weatherFinding(
          code,
          rowsVerdict(lines.length, judged),
          `${said} in ${rowsText(lines.length)} of ${judged}: ${linesText(lines)}.`,
        ),
      )
  }
  const beam = columns.beamWPerM2
  if (beam !== null)
    say(
      'weather/beam-above-outside',
      hours((i) => (beam[i] as number) > 1.05 * PHYSICS.solarWPerM2 * (path.distanceRatio[i] as number)),
      hoursCount,
      'More direct sun than reaches the earth from outside',
    )
  if (of.globalMeasured) findings.push(...nightFindings(of, hours))
  const shifted = of.lightMeasured ? shiftedMonths(of) : { judged: [], months: [] }
  findings.push(...shiftFindings(of, shifted))
  if (of.lightMeasured) findings.push(...closureFindings(of, hours, shifted))
  const noon = of.globalMeasured ? clearNoon(run, path) : null
  // What shifted months bring about is said of them.
  if (noon !== null && Math.abs(noon.afterMin) > NOON_WITHIN_MIN && shifted.months.length === 0)
    findings.push(
      weatherFinding(
        'weather/noon-off',
        'fails',
        `On ${noon.days.length} clear days the middle of the light lies ${Math.abs(noon.afterMin).toFixed(0)} min ${noon.afterMin > 0 ? 'after' : 'before'} solar noon (at most ${NOON_WITHIN_MIN} are accepted), ${linesText(noon.days.map((from) => of.lineOf[from + 12] as number))} at their noon: of the shifts tried, ${shiftWords(nearestShift(-noon.afterMin / 60))} fits best.${mendWords(of, nearestShift(-noon.afterMin / 60))}`,
      ),
    )
  const wind = columns.windMPerS
  if (wind?.every((v) => !(v > 0)))
    findings.push(
      weatherFinding(
        'weather/no-wind',
        'fails',
        `The wind never blows in the whole record, ${allLines}: the column is not what it says.`,
      ),
    )
  return findings
}

const NIGHT_W_PER_M2 = 5

function nightFindings(of: RunOfFile, hours: (bad: (i: number) => boolean) => readonly number[]): readonly Finding[] {
  const global = of.run.columns.globalWPerM2 as Float64Array
  const lit = of.path.litFrac
  // An hour away from rise and set: dawn is not night.
  const dark = (i: number) => [i - 1, i, i + 1].every((k) => (lit[k] ?? 0) === 0)
  let judged = 0
  for (let i = 0; i < of.run.hoursCount; i++) if (dark(i)) judged++
  const lines = hours((i) => dark(i) && (global[i] as number) > NIGHT_W_PER_M2)
  return lines.length === 0
    ? []
    : [
        weatherFinding(
          'weather/sun-at-night',
          rowsVerdict(lines.length, judged),
          `Light over ${NIGHT_W_PER_M2} W/m² while the sun is down in ${rowsText(lines.length)} of ${judged}: ${linesText(lines)}.`,
        ),
      ]
}

/** Months that are shifted are told as such; their rows are not told again. */
function closureFindings(
  of: RunOfFile,
  hours: (bad: (i: number) => boolean) => readonly number[],
  shifted: Shifted,
): readonly Finding[] {
  const month = monthsOf(of.run)
  const told = new Set(shifted.months.map((m) => m.month))
  const { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse } = of.run.columns as Record<string, Float64Array>
  const high = (i: number) =>
    (of.path.upRatio[i] as number) > HIGH_SUN && of.path.litFrac[i] === 1 && !told.has(month[i] as number)
  let judged = 0
  for (let i = 0; i < of.run.hoursCount; i++) if (high(i)) judged++
  const lines = hours((i) => {
    const g = global![i] as number
    const off = g - (beam![i] as number) * (of.path.meanUpRatio[i] as number) - (diffuse![i] as number)
    return high(i) && Math.abs(off) > 0.1 * g + 10
  })
  return lines.length === 0
    ? []
    : [
        weatherFinding(
          'weather/light-does-not-add-up',
          rowsVerdict(lines.length, judged),
          `Light on the level differs from direct and diffuse together by more than 10 % and 10 W/m² in ${rowsText(lines.length)} of ${judged}: ${linesText(lines)}.`,
        ),
      ]
}

/** Tried where the lights do not add up, hours. */
export const SHIFTS_H = [-1, -0.5, 0.5, 1] as const
/** A shift is told when it leaves less than this share of the misfit, and the misfit is worth it. Common practice. */
const BETTER_FRAC = 0.6
const MISFIT_FRAC = 0.02
const ROWS_LEAST = 24

/** By month: mean of |level − diffuse − direct · sine of height| over mean level, in hours with direct sun, with the sun `shiftH` on. NaN: too few. */
export function lightMisfitFracs(of: Pick<RunOfFile, 'run' | 'path'>, shiftH: number): Float64Array {
  const { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse } = of.run.columns as Record<string, Float64Array>
  const path = shiftH === 0 ? of.path : sunPathOf(of.run, shiftH)
  const off = new Float64Array(12)
  const sum = new Float64Array(12)
  const count = new Float64Array(12)
  const month = monthsOf(of.run)
  for (let i = 0; i < of.run.hoursCount; i++) {
    const b = beam![i] as number
    const g = global![i] as number
    if (!(b > 20 && g > 50)) continue
    const m = month[i] as number
    off[m] = (off[m] as number) + Math.abs(g - (diffuse![i] as number) - b * (path.meanUpRatio[i] as number))
    sum[m] = (sum[m] as number) + g
    count[m] = (count[m] as number) + 1
  }
  return off.map((o, m) => ((count[m] as number) < ROWS_LEAST ? Number.NaN : o / (sum[m] as number)))
}

/** Month (0 to 11) of each hour of a run. */
export function monthsOf(run: Pick<WeatherHours, 'year' | 'firstDay' | 'firstHour' | 'hoursCount'>): Uint8Array {
  const first = (run.firstDay - 1) * 24 + run.firstHour
  const leap = run.year !== null && isLeapYear(run.year)
  const yearH = leap ? LEAP_YEAR_H : YEAR_H
  return Uint8Array.from({ length: run.hoursCount }, (_, i) => {
    const h = first + i
    // A run may go on into the next year: then its days are those of a year of 365.
    const within = h < yearH ? h : (h - yearH) % YEAR_H
    return typicalMonth(
      leap && h < yearH && within >= 60 * 24 ? within - 24 : leap && h < yearH && within >= 59 * 24 ? 58 * 24 : within,
    )
  })
}

/** Months (0 to 11) that fit the sun better another way, and how; and those that were judged. */
export interface Shifted {
  readonly judged: readonly number[]
  readonly months: readonly {
    readonly month: number
    readonly shiftH: number
    readonly hereFrac: number
    readonly thereFrac: number
  }[]
}

/** Each month by itself: those of a typical year come from different years, and stations have changed their clocks between them. */
export function shiftedMonths(of: Pick<RunOfFile, 'run' | 'path'>): Shifted {
  const here = lightMisfitFracs(of, 0)
  const tried = SHIFTS_H.map((shiftH) => ({ shiftH, fracs: lightMisfitFracs(of, shiftH) }))
  const judged: number[] = []
  const months: Shifted['months'][number][] = []
  for (let month = 0; month < 12; month++) {
    const hereFrac = here[month] as number
    if (Number.isNaN(hereFrac)) continue
    judged.push(month)
    const best = tried.reduce((a, b) => ((b.fracs[month] as number) < (a.fracs[month] as number) ? b : a))
    const thereFrac = best.fracs[month] as number
    if (hereFrac > MISFIT_FRAC && thereFrac < BETTER_FRAC * hereFrac)
      months.push({ month, shiftH: best.shiftH, hereFrac, thereFrac })
  }
  return { judged, months }
}

function shiftFindings(of: RunOfFile, { judged, months }: Shifted): readonly Finding[] {
  const monthOf = monthsOf(of.run)
  return SHIFTS_H.flatMap((shiftH) => {
    const same = months.filter((m) => m.shiftH === shiftH)
    if (same.length === 0) return []
    const mean = (frac: (m: Shifted['months'][number]) => number) =>
      ((100 * same.reduce((n, m) => n + frac(m), 0)) / same.length).toFixed(1)
    const told = new Set(same.map((m) => m.month))
    const all = same.length === judged.length
    const which = all ? 'In all months that have direct sun' : `In ${same.map((m) => MONTHS[m.month]).join(', ')}`
    return [
      weatherFinding(
        'weather/stamps-shifted',
        all ? 'fails' : 'tight',
        `${which} the light fits the sun best with ${shiftWords(shiftH)}: it then adds up to ${mean((m) => m.thereFrac)} %, as stamped to ${mean((m) => m.hereFrac)} % (${spansText(of.lineOf, (h) => told.has(monthOf[h] as number))}). The rows are taken as stamped.${all ? mendWords(of, shiftH) : ' No clock mends single months: take another year where the walls’ sun decides.'}`,
      ),
    ]
  })
}

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'],
] as const

const shiftWords = (shiftH: number): string =>
  shiftH === 0
    ? 'the stamps as they are'
    : `every row read as ${Math.abs(shiftH)} h ${shiftH > 0 ? 'later' : 'earlier'} than stamped`

/** What a person does where the whole record is off: nobody but they can know whether air and wind moved with the light. */
function mendWords({ format, run: { place } }: RunOfFile, shiftH: number): string {
  const moved = ' If air and wind moved with it,'
  if (shiftH === 0 || format === 'pvgis') return ''
  if (format === 'columns') return `${moved} mend “stamp” or “clock” in the mapping.`
  const clockH = place.utcOffsetH - shiftH
  const told = [place.latitudeDeg, place.longitudeDeg, place.elevationM, clockH].map((n) => Number(n.toFixed(4)))
  return `${moved} read it with --place ${told.join(',')} instead.`
}

const nearestShift = (wantedH: number): number =>
  [0, ...SHIFTS_H].reduce((a, b) => (Math.abs(b - wantedH) < Math.abs(a - wantedH) ? b : a))

export const NOON_WITHIN_MIN = 20
/** A day counts as clear from this share of the light outside the air, and this many of them tell the noon. Common practice. */
const CLEAR_FRAC = 0.62
const CLEAR_DAYS_LEAST = 5

/** How far after solar noon the middle of the light lies on clear days, and the hour each begins with; null where there are fewer than five such days. */
export function clearNoon(
  run: WeatherHours,
  path: SunPath,
): { readonly afterMin: number; readonly days: readonly number[] } | null {
  const global = run.columns.globalWPerM2
  if (global === null) return null
  let sum = 0
  const days: number[] = []
  const lead = (24 - run.firstHour) % 24
  for (let from = lead; from + 24 <= run.hoursCount; from += 24) {
    let [g, gh, o, oh] = [0, 0, 0, 0]
    for (let h = 0; h < 24; h++) {
      const outside = PHYSICS.solarWPerM2 * (path.distanceRatio[from + h] as number) * (path.meanUpRatio[from + h] as number)
      g += global[from + h] as number
      gh += (global[from + h] as number) * (h + 0.5)
      o += outside
      oh += outside * (h + 0.5)
    }
    if (!(g > CLEAR_FRAC * o && o > 1000)) continue
    sum += gh / g - oh / o
    days.push(from)
  }
  return days.length < CLEAR_DAYS_LEAST ? null : { afterMin: (60 * sum) / days.length, days }
}
