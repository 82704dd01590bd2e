import type { Finding } from '../../kernel/index.ts'
import { PHYSICS } from '../constants.ts'
import { fillSunPath, newSunPath, type SunPath } from '../sun-path.ts'
import type { WeatherHours } from '../types.ts'
import { linesText, rowsText, rowsVerdict, weatherFinding } from './finding.ts'

const YEAR_H = 8760
const LEAP_YEAR_H = 8784
/** cos 80°: above it the sum of beam and diffuse is compared. */
const HIGH_SUN = 0.17364817766693036

export interface RunOfFile {
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
  if (hoursCount !== YEAR_H && hoursCount !== LEAP_YEAR_H)
    findings.push(
      weatherFinding(
        'weather/not-a-year',
        'unknown',
        `${hoursCount} hours${run.year === null ? '' : ` from ${run.year}`}: not a whole year of 8760 or 8784.`,
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
  const shifted = of.lightMeasured ? shiftFinding(of) : null
  if (shifted !== null) findings.push(shifted)
  if (of.lightMeasured) findings.push(...closureFindings(of, hours))
  const noon = of.globalMeasured ? noonMin(run, path) : null
  if (noon !== null && Math.abs(noon) > NOON_WITHIN_MIN)
    findings.push(
      weatherFinding(
        'weather/noon-off',
        'fails',
        `On clear days the middle of the light lies ${Math.abs(noon).toFixed(0)} min ${noon > 0 ? 'after' : 'before'} solar noon (at most ${NOON_WITHIN_MIN} are accepted)${shifted === null ? `: of the shifts tried, ${shiftWords(nearestShift(-noon / 60))} fits best` : ''}.`,
      ),
    )
  const wind = columns.windMPerS
  if (wind?.every((v) => !(v > 0)))
    findings.push(
      weatherFinding('weather/no-wind', 'fails', 'The wind never blows in the whole record: the column is not what it says.'),
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

function closureFindings(of: RunOfFile, hours: (bad: (i: number) => boolean) => readonly number[]): readonly Finding[] {
  const { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse } = of.run.columns as Record<string, Float64Array>
  const high = (i: number) => (of.path.upRatio[i] as number) > HIGH_SUN && of.path.litFrac[i] === 1
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

/** Mean of |level − diffuse − direct · sine of height| over mean level, in hours with direct sun, with the sun `shiftH` on. */
export function lightMisfitFrac(of: Pick<RunOfFile, 'run' | 'path'>, shiftH: number): number {
  const { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse } = of.run.columns as Record<string, Float64Array>
  const path = shiftH === 0 ? of.path : sunPathOf(of.run, shiftH)
  let [off, sum, count] = [0, 0, 0]
  for (let i = 0; i < of.run.hoursCount; i++) {
    const b = beam![i] as number
    const g = global![i] as number
    if (!(b > 20 && g > 50)) continue
    off += Math.abs(g - (diffuse![i] as number) - b * (path.meanUpRatio[i] as number))
    sum += g
    count++
  }
  return count < ROWS_LEAST ? Number.NaN : off / sum
}

function shiftFinding(of: RunOfFile): Finding | null {
  const here = lightMisfitFrac(of, 0)
  if (!(here > MISFIT_FRAC)) return null
  const tried = SHIFTS_H.map((shiftH) => ({ shiftH, misfit: lightMisfitFrac(of, shiftH) }))
  const best = tried.reduce((a, b) => (b.misfit < a.misfit ? b : a))
  if (!(best.misfit < BETTER_FRAC * here)) return null
  return weatherFinding(
    'weather/stamps-shifted',
    'fails',
    `The light fits the sun best with ${shiftWords(best.shiftH)}: level light then differs from direct and diffuse by ${(100 * best.misfit).toFixed(1)} %, as stamped by ${(100 * here).toFixed(1)} %.`,
  )
}

const shiftWords = (shiftH: number): string =>
  shiftH === 0
    ? 'the stamps as they are'
    : `every row read as ${Math.abs(shiftH)} h ${shiftH > 0 ? 'later' : 'earlier'} than stamped`

const nearestShift = (wantedH: number): number =>
  [0, ...SHIFTS_H].reduce((a, b) => (Math.abs(b - wantedH) < Math.abs(a - wantedH) ? b : a))

export const NOON_WITHIN_MIN = 20
/** A day counts as clear from this share of the light outside the air, and this many of them tell the noon. Common practice. */
const CLEAR_FRAC = 0.62
const CLEAR_DAYS_LEAST = 5

/** How far after solar noon the middle of the light lies on clear days, minutes; null where there are fewer than five such days. */
export function noonMin(run: WeatherHours, path: SunPath): number | null {
  const global = run.columns.globalWPerM2
  if (global === null) return null
  let [sum, days] = [0, 0]
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
    days++
  }
  return days < CLEAR_DAYS_LEAST ? null : (60 * sum) / days
}
