import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { publishedCases } from '../check/index.ts'
import { tables } from './tables.generated.ts'

interface Reference {
  readonly tables: readonly {
    readonly id: string
    readonly columns: unknown
    readonly rows: readonly (readonly unknown[])[]
    readonly source: string
    readonly provenance: string
  }[]
  readonly cases: readonly {
    readonly id: string
    readonly given: unknown
    readonly expect: unknown
    readonly provenance: string
  }[]
}

const path = join(import.meta.dirname, '../../../../../shared/reference/air.yaml')
const OURS = /^(psy|sun|tilt|split|sky|ground|snow)-/
/** They need a year's file and are run beside what reads it. */
const ELSEWHERE = ['tilt-05', 'sky-03']
const TABLES = ['constants', 'saturation-coefficients', 'perez-1990', 'ground-reflectance', 'ground', 'sky-models'] as const
/** Another case bears the id `snow-01` already. */
const ourId = (id: string) => (id === 'snow-01' ? 'air-snow-01' : id)

describe.skipIf(!existsSync(path))('carried over from the reference (skipped where it is not beside the project)', () => {
  const reference = existsSync(path) ? (parse(readFileSync(path, 'utf8')) as Reference) : { tables: [], cases: [] }

  test('every case of moist air, sun, sky and ground is ours too, with what it gives, expects and rests on', () => {
    const theirs = reference.cases.filter(({ id }) => OURS.test(id) && !ELSEWHERE.includes(id))
    expect(theirs).toHaveLength(24)
    for (const { id, given, expect: wanted, provenance } of theirs)
      expect(
        publishedCases.find((one) => one.id === ourId(id)),
        id,
      ).toMatchObject({ given, expect: wanted, provenance })
  })

  test.each(TABLES)('table %s: every row, source and provenance as printed', (id) => {
    const theirs = reference.tables.find((one) => one.id === id)
    expect(theirs).toBeDefined()
    // Which programs use which factor is not said here.
    const rows = theirs?.rows.map((row) =>
      row.map((cell) =>
        typeof cell === 'string'
          ? cell.replace(/factor 0\.784 \(.+$/, 'factor 0.784, 0.467 and 0.9 are all in public use')
          : cell,
      ),
    )
    const { columns, source, provenance } = tables[id]
    expect({ columns, rows: tables[id].rows, source, provenance }).toEqual({
      ...{ columns: theirs?.columns, rows, source: theirs?.source, provenance: theirs?.provenance },
    })
  })
})
