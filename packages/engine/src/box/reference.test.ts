import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { publishedCases } from '../check/index.ts'
import { tables } from './tables.generated.ts'

interface Printed {
  readonly id: string
  readonly title: string
  readonly units?: Record<string, string>
  readonly columns: string[]
  readonly rows: unknown[][]
  readonly source: string
  readonly provenance: string
  readonly address?: string
  readonly notes?: string[]
}
interface Case {
  readonly id: string
  readonly given: unknown
  readonly expect: unknown
  readonly provenance: string
}

const path = join(import.meta.dirname, '../../../../../shared/reference/box-and-strut.yaml')
const OURS_ALONE = ['body-figures']

describe.skipIf(!existsSync(path))('carried over from the reference (skipped where it is not beside the project)', () => {
  const reference = existsSync(path)
    ? (parse(readFileSync(path, 'utf8')) as { tables: Printed[]; cases: Case[] })
    : { tables: [], cases: [] }

  test.each(Object.keys(tables).filter((id) => !OURS_ALONE.includes(id)))('table %s: every row, unit, source and note', (id) => {
    const t = reference.tables.find((one) => one.id === id)
    expect(t).toBeDefined()
    expect(tables[id as keyof typeof tables]).toEqual({
      ...{ id, title: t?.title, units: t?.units ?? {}, columns: t?.columns, rows: t?.rows, source: t?.source },
      ...{ provenance: t?.provenance, address: t?.address ?? null, notes: t?.notes ?? [] },
    })
  })

  test('every case of the box is ours too, with what it gives, expects and rests on', () => {
    const theirs = reference.cases.filter((one) => one.id.startsWith('box-'))
    expect(theirs).toHaveLength(10)
    for (const { id, given, expect: wanted, provenance } of theirs)
      expect(publishedCases.find((one) => one.id === id)).toMatchObject({ given, expect: wanted, provenance })
  })
})
