import { z } from 'zod'
import { document } from './job.ts'
import { floodGroup } from './site.ts'
import { pocketsGroup } from './surveys.ts'

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
  /** Questions of the box that read it now. */
  readonly readBy: readonly string[]
  readonly required: boolean
}

type Json = Readonly<Record<string, unknown>>

/** The job document as JSON Schema 2020-12: what a person may write. Unit, range and need of each field stand in `x-` keys. */
export function jobJsonSchema(): Json {
  const whole = plain(document)
  // Each of these is either a word or a group; zod sees only the word's side of it.
  withKeys(whole, ['facts', 'site', 'flood'], floodGroup)
  withKeys(whole, ['facts', 'surveys', 'pockets'], pocketsGroup)
  const { $schema, ...rest } = whole
  return { $schema, $id: 'plugstead-job-1', ...rest }
}

/** Puts the keys of a group into the description of the field at a path. */
function withKeys(whole: Json, path: readonly string[], group: z.ZodType): void {
  const above = path.slice(0, -1).reduce<Json>((at, key) => {
    const child = (at.properties as Readonly<Record<string, Json>>)[key] as Json
    return (child.items as Json | undefined) ?? child
  }, whole)
  const fields = above.properties as Record<string, Json>
  const last = path[path.length - 1] as string
  const { properties, required, additionalProperties } = plain(group)
  fields[last] = { ...fields[last], properties, ...(required === undefined ? {} : { required }), additionalProperties }
}

/** A sheet of the shop's folder as JSON Schema 2020-12. */
export function sheetJsonSchema(schema: z.ZodType, id: string): Json {
  const { $schema, ...rest } = plain(schema)
  return { $schema, $id: id, ...rest }
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
    readBy: (schema['x-read-by'] as readonly string[] | undefined) ?? [],
    required,
  }
  const items = schema.items as Json | undefined
  const more = schema.additionalProperties as Json | boolean | undefined
  const below =
    items !== undefined
      ? rowsUnder(items, `${path}[]`)
      : typeof more === 'object'
        ? rowsUnder(more, `${path}.${path === 'choices' ? '“path of the choice”' : '“name”'}`)
        : rowsUnder(schema, path)
  return [row, ...below]
}
