import { existsSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'

const folder = fileURLToPath(new URL('../../engine/data/weather/', import.meta.url))
const kept = new Map<string, string>()

/** Text of a weather file that a published case names, out of the project's own data. */
export function caseFile(name: string): string {
  const file = basename(name)
  const before = kept.get(file)
  if (before !== undefined) return before
  if (!existsSync(folder + file)) throw new Error(`the file ${file} is not at hand`)
  const text = new TextDecoder('latin1').decode(gunzipSync(readFileSync(folder + file)))
  kept.set(file, text)
  return text
}
