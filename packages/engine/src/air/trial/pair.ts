import { SIDES } from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { HourSeries } from '../year/types.ts'
import type { LoggerLog, LogSensor, SensorPlace } from './log.ts'
import { logProblem } from './problems.ts'
import { stampText } from './stamps.ts'

/** The hours of a run: those of the weather it went through. */
export type RunHours = Pick<WeatherHours, 'firstDay' | 'firstHour' | 'year' | 'hoursCount'>

/** Hourly means of one sensor, and which hour and moment of the run each stands for. */
export interface PairedSensor {
  readonly sensor: LogSensor
  /** Index of the hour in the run, rising. */
  readonly hours: Int32Array
  /** Mean moment of the readings of the hour after its beginning, 0 to 1 h. */
  readonly momentH: Float64Array
  /** °C or a fraction. */
  readonly logged: Float64Array
  /** Whether the fit looks at it: high and low air only by their mean. */
  readonly fits: boolean
}

export interface PairedLog {
  readonly sensors: readonly PairedSensor[]
  /** Paired by day and hour alone: the weather is of no certain year, so it is not that of the log. */
  readonly byCalendar: boolean
  readonly firstHour: number
  readonly lastHour: number
  readonly notes: readonly string[]
}

const DAY_MIN = 1440

/**
 * Each sensor's readings as means of the run's hours. Within an hour the run goes in a straight line from one end to the other, so the
 * mean of both over the same readings is the run's value at their mean moment: nothing is shifted by a stamp or by the step of the logger.
 */
export function pairedLog(log: LoggerLog, run: RunHours): Result<PairedLog> {
  const hourOf = hourFinder(run)
  const sensors = log.sensors.map((sensor, s) => {
    const values = log.values[s] as Float64Array
    const hours: number[] = []
    const momentH: number[] = []
    const logged: number[] = []
    let sum = 0
    let moments = 0
    let count = 0
    let now = -1
    const close = () => {
      // Before the end of the first hour the run has no value to go from.
      if (count > 0 && now > 0) {
        hours.push(now)
        momentH.push(moments / count)
        logged.push(sum / count)
      }
      sum = moments = count = 0
    }
    for (let i = 0; i < log.atMin.length; i++) {
      const value = values[i] as number
      const at = hourOf(log.atMin[i] as number)
      if (at < 0 || Number.isNaN(value)) continue
      const hour = Math.floor(at)
      if (hour !== now) {
        close()
        now = hour
      }
      sum += value
      moments += at - hour
      count += 1
    }
    close()
    return {
      sensor,
      hours: Int32Array.from(hours),
      momentH: Float64Array.from(momentH),
      logged: Float64Array.from(logged),
      fits: true,
    }
  })
  const there = sensors.filter(({ hours }) => hours.length > 0)
  if (there.length === 0) return { ok: false, problems: [apart(log, run)] }
  const all = withMeanAir(there.map(rising))
  const outside = log.atMin.reduce((count, t) => count + (hourOf(t) < 0 ? 1 : 0), 0)
  const notes = [
    ...(outside === 0 ? [] : [`${outside} of its ${log.atMin.length} readings lie outside the hours of the run.`]),
    ...sensors.flatMap(({ sensor, hours }) =>
      hours.length === 0 ? [`${sensor.name}: no reading in the hours of the run.`] : [],
    ),
    ...(run.year === null
      ? [
          'The weather is of no certain year: the log was laid beside the same days and hours of it. What differs is the weather’s as well.',
        ]
      : []),
    ...(all.some((s) => s.sensor.place === 'air high' && s.fits)
      ? ['Only air high was logged: by day it is warmer than the mean of the room.']
      : []),
  ]
  return {
    ok: true,
    value: {
      sensors: all,
      byCalendar: run.year === null,
      firstHour: Math.min(...all.map(({ hours }) => hours[0] as number)),
      lastHour: Math.max(...all.map(({ hours }) => hours.at(-1) as number)),
      notes,
    },
  }
}

/** Minutes since 1970 as hours after the beginning of the run; −1: outside it. */
function hourFinder(run: RunHours): (atMin: number) => number {
  const { year } = run
  if (year !== null) {
    const from = Date.UTC(year, 0, run.firstDay) / 60_000 / 60 + run.firstHour
    return (atMin) => {
      const at = atMin / 60 - from
      return at >= 0 && at < run.hoursCount ? at : -1
    }
  }
  // A year without 29 February; a run that goes round the year's end goes on.
  const first = (run.firstDay - 1) * 24 + run.firstHour
  return (atMin) => {
    const day = Math.floor(atMin / DAY_MIN)
    const date = new Date(day * 86_400_000)
    if (date.getUTCMonth() === 1 && date.getUTCDate() === 29) return -1
    const plain = Date.UTC(2027, date.getUTCMonth(), date.getUTCDate()) - Date.UTC(2027, 0, 1)
    const at = plain / 3_600_000 + (atMin - day * DAY_MIN) / 60 - first
    const round = ((at % 8760) + 8760) % 8760
    return round < run.hoursCount ? round : -1
  }
}

/** Hours in order, each once: a log that goes round the end of a made year comes back to its beginning. */
function rising(paired: PairedSensor): PairedSensor {
  const order = Array.from(paired.hours, (_, i) => i)
    .sort((a, b) => (paired.hours[a] as number) - (paired.hours[b] as number) || a - b)
    .filter((i, n, all) => n === 0 || paired.hours[i] !== paired.hours[all[n - 1] as number])
  return {
    ...paired,
    hours: Int32Array.from(order, (i) => paired.hours[i] as number),
    momentH: Float64Array.from(order, (i) => paired.momentH[i] as number),
    logged: Float64Array.from(order, (i) => paired.logged[i] as number),
  }
}

/** The run knows one air: where high and low were logged, their mean is laid beside it, and the fit looks at that. */
function withMeanAir(sensors: readonly PairedSensor[]): readonly PairedSensor[] {
  const [high, low] = (['air high', 'air low'] as const).map((place) => sensors.find((s) => s.sensor.place === place))
  if (high === undefined || low === undefined) return sensors
  const lowAt = new Map(Array.from(low.hours, (hour, i) => [hour, i] as const))
  const both = Array.from(high.hours, (hour, i) => ({ hour, i, j: lowAt.get(hour) ?? -1 })).filter(({ j }) => j >= 0)
  if (both.length === 0) return sensors
  const half = (a: number | undefined, b: number | undefined) => ((a as number) + (b as number)) / 2
  const mean: PairedSensor = {
    sensor: {
      name: 'air, mean of high and low',
      place: 'air',
      unit: high.sensor.unit,
      accuracy: {
        value:
          Math.sqrt(
            high.sensor.accuracy.value * high.sensor.accuracy.value + low.sensor.accuracy.value * low.sensor.accuracy.value,
          ) / 2,
        told: high.sensor.accuracy.told && low.sensor.accuracy.told,
      },
    },
    hours: Int32Array.from(both, ({ hour }) => hour),
    momentH: Float64Array.from(both, ({ i, j }) => half(high.momentH[i], low.momentH[j])),
    logged: Float64Array.from(both, ({ i, j }) => half(high.logged[i], low.logged[j])),
    fits: true,
  }
  const apart: readonly SensorPlace[] = ['air high', 'air low']
  return [...sensors.map((s) => (apart.includes(s.sensor.place) ? { ...s, fits: false } : s)), mean]
}

function apart(log: LoggerLog, run: RunHours): Problem {
  const days = (from: number, to: number) => `${stampText(from).slice(0, 10)} to ${stampText(to).slice(0, 10)}`
  const from = Date.UTC(run.year ?? 2027, 0, run.firstDay) / 60_000 + run.firstHour * 60
  const weather = days(from, from + (run.hoursCount - 1) * 60)
  return logProblem(
    'log/apart',
    {},
    days(log.atMin[0] as number, log.atMin.at(-1) as number),
    run.year === null ? weather.replaceAll(/\b2027-|\b2028-/g, '') : weather,
  )
}

const ROOF = SIDES.indexOf('roof')
const FLOOR = SIDES.indexOf('floor')
const WALLS = SIDES.map((side, at) => ({ side, at })).filter(({ side }) => side !== 'roof' && side !== 'floor')

/** What a sensor at this place would read at the end of an hour of the run. °C or a fraction. A wall of no told side: the mean of the four. */
export function runReading(series: HourSeries, place: SensorPlace, hour: number): number {
  if (place === 'humidity') return series.relativeFrac[hour] as number
  if (place === 'panel') return series.gearC[hour] as number
  if (place === 'roof') return series.faceC[hour * 6 + ROOF] as number
  if (place === 'floor') return series.faceC[hour * 6 + FLOOR] as number
  if (place === 'wall') return WALLS.reduce((sum, { at }) => sum + (series.faceC[hour * 6 + at] as number), 0) / WALLS.length
  return series.airC[hour] as number
}

/** What the run says for each of a sensor's readings. */
export function runReadings(series: HourSeries, paired: PairedSensor): Float64Array {
  const { place } = paired.sensor
  return Float64Array.from(paired.hours, (hour, i) => {
    const before = runReading(series, place, hour - 1)
    return before + (paired.momentH[i] as number) * (runReading(series, place, hour) - before)
  })
}
