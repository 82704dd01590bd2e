import { existsSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { adapters } from './adapters.ts'
import { publishedCases } from './cases.generated.ts'
import { runCases } from './run.ts'

/** The engine reads no file: the project's own data is handed to the cases that name it. */
const data = join(import.meta.dirname, '../../data/weather')
const file = (name: string): string => gunzipSync(readFileSync(join(data, basename(name)))).toString('latin1')

for (const one of runCases(publishedCases, adapters, file))
  test(`${one.id} ${one.topic}: ${one.source}`, () => {
    expect(one.reason).toBeUndefined()
    expect(one.values.filter((value) => !value.ok)).toEqual([])
    expect(one.ok).toBe(true)
  })

test('every adapter answers a published case', () => {
  const ids = new Set(publishedCases.map((one) => one.id))
  expect(Object.keys(adapters).filter((id) => !ids.has(id))).toEqual([])
})

interface Reference {
  readonly cases: readonly {
    readonly id: string
    readonly given: Record<string, unknown>
    readonly expect: unknown
    readonly provenance: string
  }[]
}

const path = join(import.meta.dirname, '../../../../../shared/reference/power.yaml')

describe.skipIf(!existsSync(path))('the reference collection of cases (skipped where it is not beside the project)', () => {
  const reference = existsSync(path) ? (parse(readFileSync(path, 'utf8')) as Reference) : { cases: [] }

  test('all of its cases are ours too, none left out', () => {
    const ids = new Set(publishedCases.map((one) => one.id))
    expect(reference.cases.length).toBeGreaterThanOrEqual(81)
    expect(reference.cases.map((one) => one.id).filter((id) => !ids.has(id))).toEqual([])
  })

  test('what each gives, expects and rests on was copied without change', () => {
    for (const theirs of reference.cases) {
      const ours = publishedCases.find((one) => one.id === theirs.id)
      if (ours === undefined) continue
      expect({ id: ours.id, expect: ours.expect, provenance: ours.provenance }).toEqual({
        ...{ id: theirs.id, expect: theirs.expect, provenance: theirs.provenance },
      })
      expect(ours.given, theirs.id).toMatchObject(withFileName(theirs.given))
    }
  })
})

/** Files of data lie elsewhere here: their names are compared, not their folders. */
function withFileName(given: Record<string, unknown>): Record<string, unknown> {
  return typeof given.data === 'string' ? { ...given, data: basename(given.data) } : given
}
