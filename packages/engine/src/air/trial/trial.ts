import type { Result } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { surroundingsOf, yearOf } from '../year/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { boxUnknowns, modelWith } from './box-unknowns.ts'
import { type SensorError, sensorErrors } from './errors.ts'
import { fitRunsCount, fitted } from './fit.ts'
import type { LoggerLog } from './log.ts'
import { type PairedLog, pairedLog, runReadings } from './pair.ts'
import { partOfHours } from './part-of-hours.ts'
import { LEAST_DAYS, type Missed, missedSensors, type Told, toldUnknowns } from './told.ts'

/** A log laid beside the run of a box, and what it tells of the box. */
export interface Trial {
  readonly paired: PairedLog
  readonly errors: readonly SensorError[]
  /** Of each sensor, what the run says for its readings: °C or a fraction. */
  readonly ours: readonly Float64Array[]
  /** The same with every unknown as found; null: nothing was fitted. */
  readonly fittedOurs: readonly Float64Array[] | null
  /** Null: nothing was fitted; `fitless` says why. */
  readonly fit: {
    readonly told: readonly Told[]
    readonly missed: readonly Missed[]
    /** With every unknown as found. */
    readonly errors: readonly SensorError[]
    /** Readings set aside because a fan, a heater or a thaw came on or went off, of so many. */
    readonly asideCount: number
    readonly readingsCount: number
    readonly runsCount: number
  } | null
  readonly fitless: string
}

/** The box goes through so many hours of weather before the log begins, to forget where it began. */
const LEAD_HOURS = 480

/**
 * `watch`: told the runs done and to be done, before each.
 * @throws what the run of the box throws
 */
export function trialOf(
  given: { readonly model: BoxModel; readonly hours: WeatherHours; readonly run: YearRun; readonly stepsPerHour: number },
  log: LoggerLog,
  watch: (doneCount: number, ofCount: number) => void = () => {},
): Result<Trial> {
  const { model, hours, run, stepsPerHour } = given
  const read = pairedLog(log, hours)
  if (!read.ok) return read
  const paired = read.value
  const errors = sensorErrors(run.series, paired)
  const ours = paired.sensors.map((sensor) => runReadings(run.series, sensor))
  const fitless = whyNotFitted(paired)
  if (fitless !== '') return { ok: true, value: { paired, errors, ours, fittedOurs: null, fit: null, fitless } }
  const from = Math.max(0, paired.firstHour - LEAD_HOURS)
  const part = partOfHours(hours, from, paired.lastHour + 1)
  const around = surroundingsOf(model, part, { stepsPerHour })
  const own: PairedLog = {
    ...paired,
    firstHour: paired.firstHour - from,
    lastHour: paired.lastHour - from,
    sensors: paired.sensors.map((s) => ({ ...s, hours: s.hours.map((h) => h - from) })),
  }
  const unknowns = boxUnknowns(model)
  const ofCount = fitRunsCount(unknowns.length) + 1
  let doneCount = 0
  const through = (values: readonly number[]) => {
    watch(Math.min(doneCount++, ofCount - 1), ofCount)
    return yearOf(modelWith(model, values), around, { firstRunHours: Math.min(LEAD_HOURS, part.hoursCount - 1) }).series
  }
  const fit = fitted(unknowns, through, own)
  const last = through(fit.values)
  const after = sensorErrors(last, own).map((e) => ({ ...e, worst: { ...e.worst, hour: e.worst.hour + from } }))
  return {
    ok: true,
    value: {
      ...{ paired, errors, ours, fitless, fittedOurs: own.sensors.map((sensor) => runReadings(last, sensor)) },
      fit: {
        ...{ told: toldUnknowns(fit), missed: missedSensors(fit), errors: after, runsCount: fit.runsCount },
        asideCount: fit.sensors.reduce((sum, s) => sum + s.asideCount, 0),
        readingsCount: fit.sensors.reduce((sum, s) => sum + s.rests.length, 0),
      },
    },
  }
}

function whyNotFitted(paired: PairedLog): string {
  if (paired.byCalendar)
    return 'Nothing is fitted: the weather is of no certain year, and what it did otherwise than the log’s would be taken for the box.'
  const days = (paired.lastHour + 1 - paired.firstHour) / 24
  if (days < LEAST_DAYS)
    return `Nothing is fitted: the log holds ${days.toFixed(1)} days of this weather, and ${LEAST_DAYS} are needed.`
  return ''
}
