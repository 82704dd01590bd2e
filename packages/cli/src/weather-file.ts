import { gunzipSync } from 'node:zlib'
import {
  type ColumnMapping,
  type ReadWeatherOptions,
  readColumnMapping,
  readWeather,
  type WeatherFile,
} from '@plugstead/engine/weather'
import type { Given } from './command-line.ts'
import { Unreadable } from './problem.ts'
import { withProgress } from './progress.ts'
import { fileBytes, fileText } from './read-file.ts'

const LARGEST_BYTES = 96 * 1024 * 1024

/**
 * The weather file that a person named, by `--columns`, `--place` and `--fill-from-normals`.
 * @throws Unreadable with every problem
 */
export async function weatherFile(file: string, given: Given): Promise<WeatherFile> {
  const place = placeOption(given)
  const columns = mappingOf(given)
  const text = instrumentText(file)
  const options: ReadWeatherOptions = {
    ...{ file },
    ...(place === undefined ? {} : { place }),
    ...(columns === undefined ? {} : { columns }),
    fillFromNormals: given.options['fill-from-normals'] === true,
  }
  const read = await withProgress('reading the weather …', async () => readWeather(text, options))
  if (!read.ok) throw new Unreadable(...read.problems)
  return read.value
}

/** Text of a file, unpacked where it is packed: UTF-8, else one byte a letter as old programs wrote. */
export function instrumentText(file: string): string {
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
