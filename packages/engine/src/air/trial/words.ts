import { formatNumber } from '../../kernel/index.ts'
import type { SensorError } from './errors.ts'
import type { RunHours } from './pair.ts'
import { stampText } from './stamps.ts'
import type { Missed, Told } from './told.ts'

/** End of an hour of the run: `2027-01-14 13:00`; `01-14 13:00` where it is of no year. */
export function hourEndText(run: RunHours, hour: number): string {
  const at = Date.UTC(run.year ?? 2027, 0, run.firstDay) / 60_000 + (run.firstHour + hour + 1) * 60
  const text = stampText(at)
  return run.year === null ? text.slice(5) : text
}

const fixed = (value: number): string =>
  value
    .toFixed(1)
    .replace(/^-(?=0\.0$)/, '')
    .replace('-', '−')
const SWING_TOGETHER = 0.9
const SWING_LOOSE = 0.6

/** One sensor’s error in a sentence or two. */
export function errorSaid(error: SensorError, run: RunHours): string {
  const { unit, bias, rms, worst, swing } = error
  const damp = unit === '%'
  const of = damp ? 'points' : 'K'
  const reading = damp ? '%' : '°C'
  const side =
    Math.abs(bias) < 0.05
      ? 'neither above nor below it on average'
      : `${fixed(Math.abs(bias))} ${of} ${damp ? (bias > 0 ? 'damper' : 'drier') : bias > 0 ? 'warmer' : 'colder'} on average`
  return [
    `${error.sensor.name}: ours is ${side}, and ${fixed(rms)} ${of} off as a rule (root of the mean square, ${error.hoursCount} hours).`,
    `Worst at ${hourEndText(run, worst.hour)}: logged ${fixed(worst.logged)} ${reading}, ours ${fixed(worst.ours)} ${reading}.`,
    swingSaid(swing),
  ].join(' ')
}

function swingSaid(swing: SensorError['swing']): string {
  if (swing === null) return 'No daily swing to compare.'
  const { correlationRatio: r, sizeRatio, daysCount } = swing
  const together =
    r >= SWING_TOGETHER
      ? 'goes with the logger’s'
      : r >= SWING_LOOSE
        ? 'goes loosely with the logger’s'
        : r > 0
          ? 'hardly goes with the logger’s'
          : 'goes against the logger’s'
  const percent = Math.round((sizeRatio - 1) * 100)
  const size = percent === 0 ? 'of the same size' : `${Math.abs(percent)} % ${percent > 0 ? 'larger' : 'smaller'}`
  return `Its daily swing ${together} (correlation ${r.toFixed(2).replace('-', '−')}, ${daysCount} days) and is ${size}.`
}

/** What the log tells of one unknown, in sentences. */
export function toldSaid(told: Told): string {
  const { unknown, value, low, high, effectiveCount } = told
  const percent = unknown.unit === '1'
  const number = (v: number) => formatNumber(percent ? v * 100 : v)
  const unit = percent ? '%' : unknown.unit
  const beside = told.with === null ? '' : ` It can hardly be told from ${told.with.id}: one up, the other with it fits as well.`
  const count = `Its readings count as ${formatNumber(Math.round(effectiveCount))} that stand alone.`
  return told.told
    ? `${unknown.said}: ${number(value)} ${unit}, in 95 of 100 cases between ${number(low)} and ${number(high)} ${unit}. ${count}${beside}`
    : `${unknown.said}: cannot be told from this log. ${told.why}${beside}`
}

/** What a sensor says that no value of the unknowns explains. */
export function missedSaid({ sensor, mean, rms }: Missed): string {
  const damp = sensor.place === 'humidity'
  const by = damp ? 100 : 1
  const of = damp ? 'points' : 'K'
  const number = (v: number) => fixed(Math.abs(v) * by)
  return `${sensor.name}: after the fit it still reads ${number(mean)} ${of} ${mean > 0 ? 'above' : 'below'} ours on average, with ${number(rms)} ${of} that come and go; it should be right to ${number(sensor.accuracy.value)} ${of}. Something else of the box, its weather or the sensor’s place is wrong: look for it before using what was found, whose bands are then too narrow.`
}
