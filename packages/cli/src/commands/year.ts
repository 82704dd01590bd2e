import { join } from 'node:path'
import {
  climateForYear,
  type EndName,
  hourColumns,
  hourEndText,
  hoursOfLog,
  type LoggerLog,
  lackingForRun,
  readLog,
  readLogMapping,
  runSummary,
  surroundingsOf,
  yearOf,
} from '@plugstead/engine/air'
import { outputName } from '@plugstead/engine/answer'
import { type Job, UNTOLD_CLIMATE } from '@plugstead/engine/job'
import { type BesideLog, besideLog, LOG_STEPS_PER_HOUR, modelOfJudged } from '@plugstead/engine/plan'
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
  const hours = log === null ? (weather.all[0] as WeatherHours) : hoursOfLog(log, weather.all)
  const { design, assessment } = await judged(given, opened)
  const of = { job: opened.job, shop: opened.shop, design, results: assessment.results, box, end }
  const made = modelOfJudged(of)
  if (made === null)
    throw new Unreadable({
      ...{ code: 'year/no-build', found: `no build for the box ${box} in the design`, wanted: 'a design in which it is built' },
      mend: 'Plan the job anew, or name another box with --box.',
    })
  const year = await withProgress('running the hours …', () =>
    yearOf(made.model, surroundingsOf(made.model, hours, { stepsPerHour: LOG_STEPS_PER_HOUR })),
  )
  const summary = runSummary(year)
  const beside =
    log === null
      ? null
      : await withProgress('laying it beside the log …', () =>
          tried(given, { model: made.model, hours, run: year, log, box, name: listName(given) }),
        )
  const trial = beside?.trial ?? null
  const lines = beside?.lines ?? []
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
  const lacks = lackingForRun(all)
  if (lacks.length > 0)
    throw new Unreadable({
      ...{ code: 'weather/refused-for-air', file, found: lacks.join('; '), wanted: 'air, humidity, wind and sun for every hour' },
      mend: 'Give another file, or let what it lacks be taken from the nearest climate with --fill-from-normals.',
    })
  return { named: file, all, said: fileSaid(read, job.climate ?? UNTOLD_CLIMATE, file) }
}

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

function tried(given: Given, of: Parameters<typeof besideLog>[0]): BesideLog {
  const read = besideLog(of)
  const file = String(given.options.measured)
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  return read.value
}

const listName = (given: Given): string => outputName(String(given.options.measured).replace(/\.csv$/i, ''), 'csv')

function hoursCsv(run: ReturnType<typeof yearOf>, hours: WeatherHours): string {
  const columns = hourColumns(run, hours)
  const rows = Array.from({ length: run.hoursCount }, (_, h) => [hourEndText(hours, h), ...columns.map((column) => column.at(h))])
  return csvText(['end of the hour, standard time', ...columns.map(({ head }) => head)], rows)
}
