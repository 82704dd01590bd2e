import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { normalsNear, type WeatherFile, type WeatherNote, weatherSummary } from '@plugstead/engine/weather'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { weatherCsv, weatherText } from '../print/weather.ts'
import { weatherFile } from '../weather-file.ts'
import { writeFiles } from '../write-files.ts'

/** A weather file as hours: what stands in it, what was done to it, what speaks against it. */
export async function run(given: Given): Promise<Outcome> {
  const [file = ''] = given.operands
  const weather = await weatherFile(file, given)
  const near = normalsNear(weather.place)
  const summary = weatherSummary(weather, near)
  const folder = given.options.out
  const files =
    typeof folder === 'string'
      ? [{ path: join(folder, outputName(file.replace(/\.gz$/i, ''), 'hours.csv')), data: weatherCsv(weather) }]
      : []
  await writeFiles(files)
  const paths = files.map(({ path }) => path)
  return {
    code: exitOf(weather.findings.length === 0 ? ['holds'] : weather.findings.map((finding) => finding.verdict)),
    text: weatherText(weather, summary, near) + paths.map((path) => `\nWritten: ${path}\n`).join(''),
    findings: weather.findings,
    result: {
      format: weather.format,
      place: weather.place,
      typical: weather.typical,
      years: weather.years,
      hours: weather.hoursCount,
      runs: weather.runs.map(({ year, firstDay, firstHour, hoursCount, readingAtH, lightSplit }) => ({
        ...{ year, firstDay, firstHour, hoursCount, readingAtH, lightSplit },
      })),
      ...notesByKind(weather),
      refusedForAir: weather.refusedForAir,
      humidity: weather.cold,
      ...summary,
      normal: { id: near.normal.id, name: near.normal.name, distanceM: near.distanceM, higherM: near.higherM, said: near.said },
      files: paths,
    },
  }
}

function notesByKind({ notes }: WeatherFile) {
  const of = (...kinds: readonly WeatherNote['kind'][]) =>
    notes.filter((note) => kinds.includes(note.kind)).map(({ what, count, said }) => ({ what, count, said }))
  return {
    filled: of('filled', 'filled from the normals'),
    dropped: of('dropped'),
    workedOut: of('worked out'),
    notKnown: of('not known', 'default'),
    said: of('taken', 'not read'),
  }
}
