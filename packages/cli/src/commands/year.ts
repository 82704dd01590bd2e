import { join } from 'node:path'
import {
  boxModelOf,
  climateForYear,
  type EndName,
  hourColumns,
  hourEndText,
  type LoggerLog,
  MODEL_ENDS,
  readLog,
  readLogMapping,
  runSummary,
  surroundingsOf,
  surveyLines,
  type Trial,
  trialOf,
  yearOf,
} from '@plugstead/engine/air'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import { boxBody } from '@plugstead/engine/box'
import { type Job, UNTOLD_CLIMATE } from '@plugstead/engine/job'
import { designYear, overGroundM, type WeatherFile, type WeatherHours } from '@plugstead/engine/weather'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT } from '../exit-code.ts'
import { judged, type Opened, openJob } from '../job-file.ts'
import { written, writtenText } from '../lists.ts'
import { CAUTION } from '../print/assessment.ts'
import { csvText } from '../print/csv.ts'
import { wrapped } from '../print/wrap.ts'
import { trialText, yearText } from '../print/year.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { fileText } from '../read-file.ts'
import { instrumentText, weatherFile } from '../weather-file.ts'

/** Quarter-hour steps: what a box of bare steel needs. */
const STEPS_PER_HOUR = 4
/** Farther than this from the site, the file's weather is another place's. */
const NEAR_M = 50_000

/** One box of a job through the hours of a year, and beside what a logger wrote. */
export async function run(given: Given): Promise<Outcome> {
  const end = (typeof given.options.end === 'string' ? given.options.end : 'middle') as EndName
  const mapping = logMapping(given)
  const opened = openJob(given)
  const box = boxNamed(given, opened.job)
  const weather = await weatherOf(given, opened)
  if ('lacks' in weather)
    return {
      code: EXIT.unknown,
      text: `${['The hours cannot be made:', ...weather.lacks.map((said) => wrapped(`- ${said}`, { hang: 2 })), wrapped('Write it in the job, or give a file with --weather.')].join('\n')}\n`,
      result: { box, lacks: weather.lacks },
    }
  const log = typeof given.options.measured === 'string' ? logOf(given.options.measured, mapping, weather.all) : null
  const hours = log === null ? (weather.all[0] as WeatherHours) : runOfLog(log, weather.all)
  const { design, assessment } = await judged(given, opened)
  const build = design.builds.find((one) => one.box === box)
  if (build === undefined)
    throw new Unreadable({
      ...{ code: 'year/no-build', found: `no build for the box ${box} in the design`, wanted: 'a design in which it is built' },
      mend: 'Plan the job anew, or name another box with --box.',
    })
  const { job, shop } = opened
  const made = boxModelOf({
    ...{ job, design, build, rules: rulesOf(job, shop), end: MODEL_ENDS[end] },
    body: boxBody(
      job.boxes.find((one) => one.id === box) as Job['boxes'][number],
      job.surveys.find((s) => s.box === box) ?? null,
    ),
    reach: assessment.results.reach.boxes,
    weighed: assessment.results.haul.boxes.find((one) => one.box === box)?.items ?? null,
  })
  const year = await withProgress('running the hours …', () =>
    yearOf(made.model, surroundingsOf(made.model, hours, { stepsPerHour: STEPS_PER_HOUR })),
  )
  const summary = runSummary(year)
  const trial =
    log === null
      ? null
      : await withProgress('laying it beside the log …', () =>
          tried(given, { model: made.model, hours, run: year, stepsPerHour: STEPS_PER_HOUR }, log),
        )
  const lines =
    trial?.fit === null || trial === null || log === null
      ? []
      : surveyLines(trial.fit.told, {
          box,
          ...foundBy(given, trial, hours),
          missed: trial.fit.missed.map(({ sensor }) => sensor.name),
        })
  const folder = given.options.out
  const files =
    typeof folder === 'string'
      ? await written([{ path: join(folder, outputName(opened.file, `${box}.hours.csv`)), data: hoursCsv(year, hours) }])
      : []
  // A file brings its own place.
  const notes =
    typeof given.options.weather === 'string' ? made.notes.filter(({ path }) => !PLACE_PATHS.includes(path)) : made.notes
  const said = [...weather.said, ...notes.map(({ said }) => `${said}.`.replace(/\.\.$/, '.'))]
  return {
    code: EXIT.holds,
    text: `${[
      yearText({ box, end, hours, named: weather.named, said, run: year, summary }),
      ...(trial === null || log === null ? [] : [trialText({ trial, log, hours, lines })]),
      CAUTION,
      ...writtenText(files),
    ].join('\n\n')}\n`,
    result: {
      box,
      end,
      weather: {
        named: weather.named,
        year: hours.year,
        firstDay: hours.firstDay,
        firstHour: hours.firstHour,
        hours: hours.hoursCount,
        place: hours.place,
      },
      stepsPerHour: year.stepsPerHour,
      energyResidualFrac: year.energyResidualFrac,
      waterResidualFrac: year.waterResidualFrac,
      summary,
      said,
      trial:
        trial === null || log === null
          ? null
          : {
              notes: [...log.notes, ...trial.paired.notes],
              byCalendar: trial.paired.byCalendar,
              errors: trial.errors,
              fit: trial.fit,
              fitless: trial.fitless,
              lines,
            },
      files,
    },
  }
}

const PLACE_PATHS = ['latitude', 'longitude', 'elevation', 'time-zone'].map((key) => `facts.site.${key}`)

function boxNamed(given: Given, job: Job): string {
  const { box } = given.options
  const ids = job.boxes.map(({ id }) => id)
  if (typeof box === 'string' && !ids.includes(box))
    throw new Unreadable({
      ...{
        code: 'command-line/box',
        found: `--box ${box}`,
        wanted: ids.length === 0 ? 'a job with a box' : `one of: ${ids.join(', ')}`,
      },
      mend: 'Name a box as the job does.',
    })
  const first = typeof box === 'string' ? box : ids[0]
  if (first === undefined)
    throw new Unreadable({
      ...{ code: 'year/no-box', found: 'a job without a box', wanted: 'a box under “boxes”' },
      mend: 'Write for example “boxes: [{ id: yard, length: 20 ft }]”.',
    })
  return first
}

interface Weather {
  readonly named: string
  readonly all: readonly WeatherHours[]
  readonly said: readonly string[]
}

/** The hours of the file; without one, the made design year of the job's place. */
async function weatherOf(given: Given, { job }: Opened): Promise<Weather | { readonly lacks: readonly string[] }> {
  const file = given.options.weather
  if (typeof file !== 'string') {
    const found = climateForYear(job)
    if ('lacks' in found) return { lacks: found.lacks.map(({ said }) => said) }
    const { climate } = found
    return {
      named: `made design year of ${climate.place.name} (seed 1, no weather that was)`,
      all: [designYear(climate)],
      said: climate.filled.map(({ said }) => `Weather: ${said}.`),
    }
  }
  const read = await weatherFile(file, given)
  const all = yearsAsked(given, read, file)
  const lacks = lacking(all)
  if (lacks.length > 0)
    throw new Unreadable({
      ...{ code: 'weather/refused-for-air', file, found: lacks.join('; '), wanted: 'air, humidity, wind and sun for every hour' },
      mend: 'Give another file, or let what it lacks be taken from the nearest climate with --fill-from-normals.',
    })
  return { named: file, all, said: fileSaid(read, job.climate ?? UNTOLD_CLIMATE, file) }
}

/** Columns without which no box can be run, in words. */
const NEEDED = [
  ['airC', 'the temperature of the air'],
  ['vapourPa', 'its humidity'],
  ['windMPerS', 'the wind'],
  ['globalWPerM2', 'the sun on the level'],
  ['beamWPerM2', 'the direct sun'],
  ['diffuseWPerM2', 'the light of the sky'],
] as const

const lacking = (all: readonly WeatherHours[]): readonly string[] =>
  NEEDED.flatMap(([name, what]) => {
    if (all.some((one) => one.columns[name] === null)) return [`${what} is not there`]
    const gap = all.some((one) => one.columns[name]?.some((v) => !Number.isFinite(v)) === true)
    return gap ? [`hours without ${what}`] : []
  })

function yearsAsked(given: Given, read: WeatherFile, file: string): readonly WeatherHours[] {
  const { year } = given.options
  if (typeof year !== 'string') return read.runs
  const own = read.runs.filter((one) => String(one.year) === year)
  if (own.length > 0) return own
  const there = read.runs.flatMap((one) => (one.year === null ? [] : [one.year]))
  throw new Unreadable({
    ...{
      code: 'command-line/year',
      file,
      found: `--year ${year}`,
      wanted: there.length === 0 ? 'no --year: the file is of no certain year' : `one of: ${there.join(', ')}`,
    },
    mend: 'Leave --year out to take the first, or with --measured the one of the log.',
  })
}

function fileSaid(read: WeatherFile, told: NonNullable<Job['climate']>, file: string): readonly string[] {
  const spot = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg, elevationM: 0 })
  const awayM =
    told.latitudeDeg === null || told.longitudeDeg === null
      ? 0
      : overGroundM(spot(told.latitudeDeg, told.longitudeDeg), spot(read.place.latitudeDeg, read.place.longitudeDeg))
  return [
    ...(awayM > NEAR_M ? [`The weather is of a place ${Math.round(awayM / 1000)} km from the site.`] : []),
    ...(read.findings.length === 0
      ? []
      : [`What its own rows say against the weather: ${read.findings.length} findings; see “plugstead weather ${file}”.`]),
  ]
}

function logMapping(given: Given) {
  const file = given.options['log-columns']
  if (typeof file !== 'string') return undefined
  if (typeof given.options.measured !== 'string')
    throw new Unreadable({
      ...{
        code: 'command-line/log-columns',
        found: '--log-columns without --measured',
        wanted: 'the log whose columns they are',
      },
      mend: 'Add --measured LOG.csv.',
    })
  const read = readLogMapping(fileText(file))
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  return read.value
}

function logOf(file: string, mapping: ReturnType<typeof logMapping>, all: readonly WeatherHours[]): LoggerLog {
  const read = readLog(instrumentText(file), { utcOffsetH: (all[0] as WeatherHours).place.utcOffsetH, mapping })
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  return read.value
}

/** Of several years, the one in which most of the log lies. */
function runOfLog(log: LoggerLog, all: readonly WeatherHours[]): WeatherHours {
  const minutesIn = (one: WeatherHours): number => {
    if (one.year === null) return 0
    const from = Date.UTC(one.year, 0, one.firstDay) / 60_000 + one.firstHour * 60
    return log.atMin.reduce((count, t) => count + (t >= from && t < from + one.hoursCount * 60 ? 1 : 0), 0)
  }
  return all.reduce((best, one) => (minutesIn(one) > minutesIn(best) ? one : best))
}

function tried(given: Given, of: Parameters<typeof trialOf>[0], log: LoggerLog): Trial {
  const read = trialOf(of, log)
  const file = String(given.options.measured)
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  return read.value
}

/** From what, and up to which day: the last of the log. */
function foundBy(given: Given, { paired }: Trial, hours: WeatherHours): { readonly by: string; readonly on: string } {
  const [from, to] = [hourEndText(hours, paired.firstHour - 1), hourEndText(hours, paired.lastHour)]
  const count = paired.sensors.filter(({ fits }) => fits).length
  return {
    by: `fitted to ${outputName(String(given.options.measured).replace(/\.csv$/i, ''), 'csv')}, ${count} sensors, ${from.slice(0, 10)} to ${to.slice(0, 10)}`,
    on: to.slice(0, 10),
  }
}

function hoursCsv(run: ReturnType<typeof yearOf>, hours: WeatherHours): string {
  const columns = hourColumns(run, hours)
  const rows = Array.from({ length: run.hoursCount }, (_, h) => [hourEndText(hours, h), ...columns.map((column) => column.at(h))])
  return csvText(['end of the hour, standard time', ...columns.map(({ head }) => head)], rows)
}
