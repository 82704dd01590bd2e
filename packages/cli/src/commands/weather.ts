import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { outputName } from '@plugstead/engine/answer'
import {
  type ColumnMapping,
  normalsNear,
  type ReadWeatherOptions,
  readColumnMapping,
  readWeather,
  type WeatherFile,
  type WeatherNote,
  weatherSummary,
} from '@plugstead/engine/weather'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { weatherCsv, weatherText } from '../print/weather.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { fileBytes, fileText } from '../read-file.ts'
import { writeFiles } from '../write-files.ts'

const LARGEST_BYTES = 96 * 1024 * 1024

/** A weather file as hours: what stands in it, what was done to it, what speaks against it. */
export async function run(given: Given): Promise<Outcome> {
  const [file = ''] = given.operands
  const place = placeOption(given)
  const columns = mappingOf(given)
  const text = textOf(file)
  const options: ReadWeatherOptions = {
    ...{ file },
    ...(place === undefined ? {} : { place }),
    ...(columns === undefined ? {} : { columns }),
    fillFromNormals: given.options['fill-from-normals'] === true,
  }
  const read = await withProgress('reading the weather …', async () => readWeather(text, options))
  if (!read.ok) throw new Unreadable(...read.problems)
  const weather = read.value
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

/** Text of a file, unpacked where it is packed: UTF-8, else one byte a letter as old programs wrote. */
function textOf(file: string): string {
  const bytes = fileBytes(file, LARGEST_BYTES)
  const packed = bytes[0] === 0x1f && bytes[1] === 0x8b
  const plain = packed ? unpacked(file, bytes) : bytes
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(plain)
  } catch {
    return new TextDecoder('latin1').decode(plain)
  }
}

function unpacked(file: string, bytes: Uint8Array): Uint8Array {
  try {
    return gunzipSync(bytes, { maxOutputLength: LARGEST_BYTES })
  } catch (error) {
    const large = (error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE'
    throw new Unreadable({
      ...{ code: 'file/packed', file },
      found: large ? `over ${LARGEST_BYTES / 1024 / 1024} MB when unpacked` : 'a packed file that is cut off or damaged',
      wanted: 'a whole file packed with gzip',
      mend: large
        ? 'Cut it into parts, and give them one at a time.'
        : 'Fetch it again, or unpack it with another program and give that.',
    })
  }
}

function mappingOf(given: Given): ColumnMapping | undefined {
  const file = given.options.columns
  if (typeof file !== 'string') return undefined
  const read = readColumnMapping(fileText(file))
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  return read.value
}

const LIMITS = [
  [-90, 90],
  [-180, 180],
  [-450, 6000],
  [-12, 14],
] as const

function placeOption(given: Given): ReadWeatherOptions['place'] {
  const told = given.options.place
  if (typeof told !== 'string') return undefined
  const parts = told.split(',').map((part) => part.trim())
  const numbers = parts.map((part) => (/^[+-]?\d+(\.\d+)?$/.test(part) ? Number(part) : Number.NaN))
  const fits =
    parts.length === 4 && LIMITS.every(([least, most], i) => (numbers[i] as number) >= least && (numbers[i] as number) <= most)
  if (!fits)
    throw new Unreadable({
      ...{ code: 'command-line/place', found: `--place ${told}` },
      wanted:
        'four numbers: degrees north −90 to 90, degrees east −180 to 180, metres −450 to 6000, hours ahead of UTC −12 to 14',
      mend: 'Write for example --place 46.8,-100.8,502,-6, without blanks.',
    })
  const [latitudeDeg, longitudeDeg, elevationM, utcOffsetH] = numbers as [number, number, number, number]
  return { latitudeDeg, longitudeDeg, elevationM, utcOffsetH }
}
