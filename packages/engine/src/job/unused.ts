import { z } from 'zod'
import { document } from './schema/job.ts'

interface Inside {
  readonly type: string
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>
  readonly innerType?: z.core.$ZodType
  readonly element?: z.core.$ZodType
}

type Marks = Readonly<Partial<Record<'x-later' | 'x-read-by', unknown>>>

const insideOf = (schema: z.core.$ZodType): Inside => schema._zod.def as unknown as Inside

/** Keys of a document that only questions not built yet will read: `facts.site.snow`, `needs.shifts`. List positions are left out. */
export function unusedKeys(raw: unknown): readonly string[] {
  const out = new Set<string>()
  visit(document, raw, '', out)
  return [...out]
}

function visit(schema: z.core.$ZodType, value: unknown, path: string, out: Set<string>): void {
  if (value === undefined || value === null) return
  const inside = insideOf(schema)
  if (inside.type === 'optional' && inside.innerType !== undefined) {
    visit(inside.innerType, value, path, out)
    return
  }
  const about = z.globalRegistry.get(schema as z.ZodType) as Marks | undefined
  if (about?.['x-later'] !== undefined && about['x-read-by'] === undefined) {
    out.add(path)
    return
  }
  if (inside.type === 'object' && inside.shape !== undefined && typeof value === 'object') {
    for (const [key, child] of Object.entries(value)) {
      const of = inside.shape[key]
      if (of !== undefined) visit(of, child, path === '' ? key : `${path}.${key}`, out)
    }
  } else if (inside.type === 'array' && inside.element !== undefined && Array.isArray(value)) {
    for (const child of value) visit(inside.element, child, path, out)
  }
}
