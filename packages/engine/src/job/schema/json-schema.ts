import { z } from 'zod'
import { document } from './job.ts'
import { floodGroup } from './site.ts'

/** One row of the table of fields. */
export interface FieldRow {
  /** `needs.machines[].power` */
  readonly path: string
  readonly said: string
  readonly unit: string
  readonly range: string
  readonly need: string
  readonly absent: string
  readonly later: readonly string[]
  readonly required: boolean
}

type Json = Readonly<Record<string, unknown>>

/** The job document as JSON Schema 2020-12: what a person may write. Unit, range and need of each field stand in `x-` keys. */
export function jobJsonSchema(): Json {
  const whole = plain(document)
  // The flood is either a word or a group; zod sees only the word's side of it.
  const site = ['properties', 'facts', 'properties', 'site', 'properties'].reduce<Json>(
    (at, key) => at[key] as Json,
    whole,
  ) as Record<string, Json>
  const { properties, additionalProperties } = plain(floodGroup)
  site.flood = { ...site.flood, properties, additionalProperties }
  const { $schema, ...rest } = whole
  return { $schema, $id: 'plugstead-job-1', ...rest }
}

const plain = (schema: z.ZodType): Json =>
  z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12', unrepresentable: 'any' }) as Json

/** Every field and group of the document, in order. */
export function fieldRows(schema: Json = jobJsonSchema()): readonly FieldRow[] {
  return rowsUnder(schema, '')
}

function rowsUnder(schema: Json, path: string): readonly FieldRow[] {
  const properties = schema.properties as Readonly<Record<string, Json>> | undefined
  const required = (schema.required as readonly string[] | undefined) ?? []
  if (properties !== undefined)
    return Object.entries(properties).flatMap(([key, child]) =>
      rowAndBelow(child, path === '' ? key : `${path}.${key}`, required.includes(key)),
    )
  return []
}

function rowAndBelow(schema: Json, path: string, required: boolean): readonly FieldRow[] {
  const row: FieldRow = {
    path,
    said: String(schema.description ?? ''),
    unit: String(schema['x-unit'] ?? ''),
    range: String(schema['x-range'] ?? ''),
    need: String(schema['x-need'] ?? ''),
    absent: String(schema['x-absent'] ?? ''),
    later: (schema['x-later'] as readonly string[] | undefined) ?? [],
    required,
  }
  const items = schema.items as Json | undefined
  const more = schema.additionalProperties as Json | boolean | undefined
  const below =
    items !== undefined
      ? rowsUnder(items, `${path}[]`)
      : typeof more === 'object'
        ? rowsUnder(more, `${path}.“path of the choice”`)
        : rowsUnder(schema, path)
  return [row, ...below]
}
