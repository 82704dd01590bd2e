import type { z } from 'zod'
import { type Opened, readSheet, special } from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'

/** Sheets of the shop's folder, and the version of each that this program writes and the highest it reads. */
const SHEETS = { model: 1, module: 1, yard: 1, hire: 1 } as const
export type SheetName = keyof typeof SHEETS

const keyOf = (name: SheetName): `plugstead-${SheetName}` => `plugstead-${name}`

/** First line of a sheet: `plugstead-model: 1`. */
export const versionField = (name: SheetName) =>
  special<number>(
    (value) =>
      value === SHEETS[name]
        ? { ok: true, value }
        : {
            ok: false,
            problems: [
              {
                ...{ code: 'stock/version', found: String(value), wanted: `version ${SHEETS[name]}` },
                mend: `Write “${keyOf(name)}: ${SHEETS[name]}”.`,
              },
            ],
          },
    { type: 'integer', unit: 'none', range: String(SHEETS[name]), examples: [SHEETS[name]] },
    { said: 'Version of the sheet.', need: 'must', absent: 'the sheet cannot be read' },
  )

/** Another kind of file, or one that a later version wrote: then nothing else of it is looked at, and it is left as it was. */
function stranger(name: SheetName, doc: Opened): Problem | null {
  const key = keyOf(name)
  const raw = doc.raw
  const fields = raw !== null && typeof raw === 'object' && !Array.isArray(raw) ? (raw as Record<string, unknown>) : {}
  if (!(key in fields))
    return {
      ...{ code: 'stock/not-a-sheet', line: 1, column: 1 },
      found: Object.keys(fields).length === 0 ? 'no keys' : `keys such as “${Object.keys(fields)[0]?.slice(0, 40)}”`,
      wanted: `a sheet that begins with “${key}: ${SHEETS[name]}”`,
      mend: `Write “${key}: ${SHEETS[name]}” as its first line, or name the file where it belongs in shop.yaml.`,
    }
  const version = fields[key]
  if (typeof version !== 'number' || version <= SHEETS[name]) return null
  return {
    ...{ code: 'stock/newer-version', ...doc.placeOf([key]), path: key, found: String(version) },
    ...{
      wanted: `version ${SHEETS[name]} or lower`,
      mend: 'Update the program, or ask for an older save. The file was not changed.',
    },
  }
}

export function readStockSheet<S extends z.ZodType>(name: SheetName, schema: S, text: string): Result<z.output<S>> {
  const read = readSheet(text, { schema, stranger: (doc) => stranger(name, doc) })
  return read.ok ? { ok: true, value: read.value.sheet } : read
}
