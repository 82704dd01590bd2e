import type { HourSeries } from '../year/types.ts'
import type { LogSensor } from './log.ts'
import { type PairedLog, type PairedSensor, runReadings } from './pair.ts'

/** How far the run is from one sensor. Differences are ours less the logger’s: positive where we are too warm or too damp. */
export interface SensorError {
  readonly sensor: LogSensor
  /** Of the differences: K, or points of humidity. */
  readonly unit: 'K' | '%'
  readonly hoursCount: number
  readonly bias: number
  /** Root of the mean square of the difference. */
  readonly rms: number
  readonly worst: { readonly hour: number; readonly logged: number; readonly ours: number }
  /** Of the differences from each day’s mean, over whole days; null: no swing to speak of, or no whole day. */
  readonly swing: { readonly correlationRatio: number; readonly sizeRatio: number; readonly daysCount: number } | null
}

/** Hours of a day that must be there for its mean. */
const WHOLE_DAY_HOURS = 20
/** A swing below this says nothing but the step of the sensor: root mean square, in K or points. */
const LEAST_SWING = 0.2

/** Error of a run by sensor. Temperatures in °C and K, humidity in % and points. */
export const sensorErrors = (series: HourSeries, log: PairedLog): readonly SensorError[] =>
  log.sensors.map((paired) => sensorError(paired, runReadings(series, paired)))

function sensorError(paired: PairedSensor, run: Float64Array): SensorError {
  const { sensor, hours } = paired
  const by = sensor.place === 'humidity' ? 100 : 1
  const logged = paired.logged.map((v) => v * by)
  const ours = run.map((v) => v * by)
  const n = hours.length
  let sum = 0
  let squares = 0
  let worst = 0
  for (let i = 0; i < n; i++) {
    const d = (ours[i] as number) - (logged[i] as number)
    sum += d
    squares += d * d
    if (Math.abs(d) > Math.abs((ours[worst] as number) - (logged[worst] as number))) worst = i
  }
  return {
    sensor,
    unit: by === 1 ? 'K' : '%',
    hoursCount: n,
    bias: sum / n,
    rms: Math.sqrt(squares / n),
    worst: { hour: hours[worst] as number, logged: logged[worst] as number, ours: ours[worst] as number },
    swing: swingOf(hours, logged, ours),
  }
}

/** Both less the mean of their day: what is left is the daily swing. */
function swingOf(hours: Int32Array, logged: Float64Array, ours: Float64Array): SensorError['swing'] {
  let [xx, yy, xy, count, days] = [0, 0, 0, 0, 0]
  for (let from = 0; from < hours.length; ) {
    const day = Math.floor((hours[from] as number) / 24)
    let to = from
    while (to < hours.length && Math.floor((hours[to] as number) / 24) === day) to++
    if (to - from >= WHOLE_DAY_HOURS) {
      const [meanX, meanY] = [meanOf(logged, from, to), meanOf(ours, from, to)]
      for (let i = from; i < to; i++) {
        const [x, y] = [(logged[i] as number) - meanX, (ours[i] as number) - meanY]
        xx += x * x
        yy += y * y
        xy += x * y
      }
      count += to - from
      days += 1
    }
    from = to
  }
  if (days === 0 || Math.sqrt(xx / count) < LEAST_SWING || yy === 0) return null
  return { correlationRatio: xy / Math.sqrt(xx * yy), sizeRatio: Math.sqrt(yy / xx), daysCount: days }
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let i = from; i < to; i++) sum += values[i] as number
  return sum / (to - from)
}
