import { airLog, type LogCurve } from '@plugstead/drawings'
import {
  climateForYear,
  headingRead,
  hourEndText,
  hoursOfLog,
  lackingForRun,
  missedSaid,
  readLog,
  readLogMapping,
  timeHeading,
} from '@plugstead/engine/air'
import { type DocumentEdit, type Job, type Plain, valueIn } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import { type BesideLog, besideLog, modelOfJudged, unknownsBefore } from '@plugstead/engine/plan'
import { designYear, readColumnMapping, readWeather, tableHead, type WeatherHours } from '@plugstead/engine/weather'
import type { LoggerAnswer, LoggerAsked, LoggerRow, LoggerUnknown, LogTableAsked, LogTableView } from './logger-types.ts'
import { readTask } from './remedies.ts'
import type { WeatherFileAsked } from './types.ts'
import { drawingOf, pxPerMm } from './views.ts'

/** The middle of what nobody told: the unknowns begin there. */
const END = 'middle'

/** A logger’s list beside the box of a task, as `plugstead year --measured` lays it. `watch`: told the runs of the fit. */
export function loggerBeside(asked: LoggerAsked, watch?: (doneCount: number, ofCount: number) => void): LoggerAnswer {
  const task = readTask(asked.task)
  if (task === null) return { is: 'lacks', lacks: [] }
  const { box } = task
  const mapping = asked.mapping === null ? null : readLogMapping(asked.mapping)
  const { name } = asked.log
  if (mapping?.ok === false) return refused('log', mapping.problems, `${name}, columns`)
  const weather = asked.weather === null ? madeYear(task.job) : hoursIn(asked.weather)
  if ('problems' in weather) return refused('weather', weather.problems, asked.weather?.name ?? '')
  if ('lacks' in weather) return { is: 'lacks', lacks: weather.lacks }
  const [first] = weather.all
  const utcOffsetH = first.place.utcOffsetH
  const log = readLog(asked.log.text, { utcOffsetH, mapping: mapping?.value })
  if (!log.ok) return refused('log', log.problems, name)
  const hours = hoursOfLog(log.value, weather.all)
  const judged = { ...task, end: END } as const
  const made = modelOfJudged(judged)
  if (made === null) return { is: 'lacks', lacks: [`${box} is not laid out in this design.`] }
  const beside = besideLog({
    ...{ model: made.model, hours, log: log.value, box, name },
    ...(watch === undefined ? {} : { watch }),
  })
  if (!beside.ok) return refused('log', beside.problems, name)
  const { trial, found } = beside.value
  const { paired } = trial
  const perMm = pxPerMm(asked)
  const hoursCount = paired.lastHour + 1 - paired.firstHour
  const firstAt = (hours.firstDay - 1) * DAY_H + hours.firstHour + paired.firstHour
  const scene = airLog({
    ...{ widthMm: asked.widthPx / perMm, units: asked.units, hoursCount, curves: curvesOf(trial) },
    ...{ firstDay: Math.floor(firstAt / DAY_H) + 1, firstHour: firstAt % DAY_H, leap: isLeap(hours.year) },
  })
  return {
    is: 'done',
    view: {
      ...{ box, log: name, weather: weather.named, fitless: trial.fitless },
      span: { from: hourEndText(hours, paired.firstHour - 1), to: hourEndText(hours, paired.lastHour) },
      notes: [...log.value.notes, ...paired.notes],
      rows: rowsOf(trial, hours),
      unknowns: trial.fit === null ? [] : unknownsOf(trial.fit.told, unknownsBefore(judged)),
      missed: trial.fit?.missed.map(missedSaid) ?? [],
      readings: trial.fit === null ? null : { count: trial.fit.readingsCount, asideCount: trial.fit.asideCount },
      edits: surveyEdits(asked.task.given.text, box, found),
      drawing: drawingOf(scene, perMm),
    },
  }
}

const DAY_H = 24
const isLeap = (year: number | null): boolean => year !== null && new Date(Date.UTC(year, 1, 29)).getUTCMonth() === 1

const refused = (of: 'log' | 'weather', problems: readonly Problem[], file: string): LoggerAnswer => ({
  ...{ is: 'refused', of },
  problems: problems.map((p) => ({ ...p, file: p.file ?? file })),
})

type Hours = { readonly named: string; readonly all: readonly [WeatherHours, ...WeatherHours[]] }

function madeYear(job: Job): Hours | { readonly lacks: readonly string[] } {
  const found = climateForYear(job)
  if ('lacks' in found) return { lacks: found.lacks.map(({ said }) => said) }
  return { named: '', all: [designYear(found.climate)] }
}

/** All hours of a file, however few: a log is laid beside those of its own days. */
function hoursIn({ name, text, columns, fill }: WeatherFileAsked): Hours | { readonly problems: readonly Problem[] } {
  const mapping = columns === undefined ? undefined : readColumnMapping(columns)
  if (mapping?.ok === false) return { problems: mapping.problems.map((p) => ({ ...p, file: `${name}, columns` })) }
  const read = readWeather(text, {
    ...{ file: name, fillFromNormals: fill === true },
    ...(mapping === undefined ? {} : { columns: mapping.value }),
  })
  if (!read.ok) return { problems: read.problems }
  const [first, ...rest] = read.value.runs
  const lacks = lackingForRun(read.value.runs)
  if (first === undefined || lacks.length > 0)
    return {
      problems: [
        {
          ...{ code: 'weather/refused-for-air', file: name, found: lacks.join('; ') || 'no hours in it' },
          wanted: 'air, humidity, wind and sun for every hour',
          mend: 'Give another file, or one whose sun and cloud may come from the nearest climate.',
        },
      ],
    }
  return { named: name, all: [first, ...rest] }
}

/** Those that the fit looks at: of high and low air their mean. */
function curvesOf({ paired, ours, fittedOurs }: BesideLog['trial']): readonly LogCurve[] {
  return paired.sensors.flatMap((one, s): readonly LogCurve[] => {
    if (!one.fits) return []
    const damp = one.sensor.place === 'humidity'
    const spread = (values: Float64Array): readonly number[] => {
      const out = new Array<number>(paired.lastHour + 1 - paired.firstHour).fill(Number.NaN)
      for (const [i, hour] of one.hours.entries()) out[hour - paired.firstHour] = values[i]! * (damp ? 100 : 1)
      return out
    }
    const after = fittedOurs?.[s]
    return [
      {
        ...{ name: one.sensor.name, quantity: damp ? 'humidity' : 'temperature', logged: spread(one.logged) },
        ...{ ours: spread(ours[s]!), fitted: after === undefined ? null : spread(after) },
      },
    ]
  })
}

const rowsOf = ({ errors, fit }: BesideLog['trial'], hours: WeatherHours): readonly LoggerRow[] =>
  errors.map(({ sensor, unit, hoursCount, bias, rms, worst }, s) => {
    const after = fit?.errors[s]
    return {
      ...{ name: sensor.name, place: sensor.place, unit, hoursCount, bias, rms },
      worst: { when: hourEndText(hours, worst.hour), logged: worst.logged, ours: worst.ours },
      fitted: after === undefined ? null : { bias: after.bias, rms: after.rms },
    }
  })

const unknownsOf = (
  told: NonNullable<BesideLog['trial']['fit']>['told'],
  before: ReturnType<typeof unknownsBefore>,
): readonly LoggerUnknown[] =>
  told.flatMap(({ unknown, value, low, high, told: is, why, with: other }) => {
    const was = before.find(({ id }) => id === unknown.id)
    if (was === undefined) return []
    return [
      {
        ...{ id: unknown.id, unit: unknown.unit, told: is, why, with: other?.id ?? null },
        before: { value: was.value, low: was.low, high: was.high },
        found: { value, low, high },
      },
    ]
  })

/** What was told, into the survey of its box: into the one that stands, else into a new one behind the others. */
export function surveyEdits(text: string, box: string, found: BesideLog['found']): readonly DocumentEdit[] {
  const all = Object.entries(found).map(([id, one]): [string, Plain] => [id, { ...one }])
  if (all.length === 0) return []
  const there = valueIn(text, ['facts', 'surveys'])
  const surveys: readonly Plain[] = Array.isArray(there) ? there : []
  const at = surveys.findIndex((one) => (one as { readonly box?: Plain } | null)?.box === box)
  if (at >= 0) return all.map(([id, value]) => ({ path: ['facts', 'surveys', at, id], value }))
  return [{ path: ['facts', 'surveys'], value: [...surveys, { box, ...Object.fromEntries(all) }] }]
}

const MOST_LINES_BEFORE = 20

/** Headings and first rows of a list; lines that stand above its headings are passed over where nobody says how many. */
export function logTable({ text, between, skipLines }: LogTableAsked): LogTableView | null {
  const told = between === null ? {} : { between }
  const tries = skipLines === null ? Array.from({ length: MOST_LINES_BEFORE }, (_, i) => i) : [skipLines]
  for (const skip of tries) {
    const head = tableHead(text, { ...told, headings: true, skipLines: skip })
    if (head === null || head.columns.length < 2) continue
    // Above its headings a list has words that are cut into fewer columns than its rows.
    if (
      skipLines === null &&
      !head.columns.every(({ cells }) => /\d/.test(cells[0] ?? '')) &&
      !head.columns.some(({ heading }) => timeHeading(heading) !== null)
    )
      continue
    return {
      ...{ between: head.between, headings: head.headings, skipLines: skip },
      columns: head.columns.map(({ heading, cells }) => {
        const time = timeHeading(heading)
        const read = headingRead(heading)
        const guess = time !== null ? { what: time, unit: null } : read === null ? null : { what: read.place, unit: read.unit }
        return { heading, cells, guess }
      }),
    }
  }
  return null
}
