/**
 * Writes the JSON Schemas of the job document, of the sheets of the shop's folder and of the mapping of a weather file, and the table of the job's fields, all from the schemas
 * that the readers use.
 *
 *   node scripts/schema.ts           writes schema/*.schema.json and the table in docs/job-document.md
 *   node scripts/schema.ts --check   writes nothing; exit 1 when one of them does not agree
 */
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { type FieldRow, fieldRows, jobJsonSchema, sheetJsonSchema } from '../packages/engine/src/job/schema/json-schema.ts'
import { hireSchema, modelSchema, moduleSchema, yardSchema } from '../packages/engine/src/parts/index.ts'
import { columnsSchema } from '../packages/engine/src/weather/index.ts'
import { writeOrCheck } from './generated.ts'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
export const schemaPath = join(root, 'schema/job.schema.json')
export const docsPath = join(root, 'docs/job-document.md')

const BEGIN = '<!-- fields: begin -->'
const END = '<!-- fields: end -->'

export const schemaText = (): string => `${JSON.stringify(jobJsonSchema(), null, 2)}\n`

/** The page with its table of fields replaced; everything else stays as it was. */
export function withFieldTable(page: string): string {
  const from = page.indexOf(BEGIN)
  const to = page.indexOf(END)
  if (from < 0 || to < from) throw new Error(`${docsPath} has no marks for the table of fields`)
  return `${page.slice(0, from + BEGIN.length)}\n${fieldTable(fieldRows())}\n${page.slice(to)}`
}

function fieldTable(rows: readonly FieldRow[]): string {
  const head = '| field | what it is | unit | range | need | when absent |\n|---|---|---|---|---|---|'
  return [head, ...rows.map(line)].join('\n')
}

function line(row: FieldRow): string {
  const verb = row.readBy.length === 0 ? 'Kept' : 'Later also'
  const later = row.later.length === 0 ? '' : ` *${verb} for ${row.later.join(', ')}.*`
  const cells = [
    `\`${row.path}\`${row.required ? ' ●' : ''}`,
    `${row.said}${later}`,
    row.unit === 'none' ? '' : row.unit,
    row.range,
    row.need,
    row.absent,
  ]
  return `| ${cells.map((c) => c.replaceAll('|', '\\|')).join(' | ')} |`
}

/** Sheets of the shop's folder and the mapping of a weather file, by the file that holds their schema. */
export const sheetTexts = (): readonly (readonly [path: string, text: string])[] =>
  Object.entries({
    ...{ model: modelSchema, module: moduleSchema, yard: yardSchema, hire: hireSchema },
    'weather-columns': columnsSchema,
  }).map(([name, schema]) => [
    join(root, `schema/${name}.schema.json`),
    `${JSON.stringify(sheetJsonSchema(schema, `plugstead-${name}-1`), null, 2)}\n`,
  ])

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  writeOrCheck(schemaPath, schemaText(), 'npm run schema')
  for (const [path, text] of sheetTexts()) writeOrCheck(path, text, 'npm run schema')
  writeOrCheck(docsPath, withFieldTable(readFileSync(docsPath, 'utf8')), 'npm run schema')
}
