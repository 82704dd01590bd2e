import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { publishedCases } from '../check/index.ts'
import { tables as shelf } from '../parts/tables.generated.ts'
import { tables } from './tables.generated.ts'

interface Printed {
  readonly id: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly unknown[])[]
  readonly provenance: string
}
interface Case {
  readonly id: string
  readonly given: unknown
  readonly expect: unknown
  readonly provenance: string
}

const path = join(import.meta.dirname, '../../../../../shared/reference/box-and-strut.yaml')
const CASES = /^(strut|conduit-strap|screw|ec|weld|lux|space)(-|$)/
const TABLES = /^(strut-.*|thin-sheet-formulas|lux|uf|heights)$/

describe.skipIf(!existsSync(path))('carried over from the reference (skipped where it is not beside the project)', () => {
  const reference = existsSync(path)
    ? (parse(readFileSync(path, 'utf8')) as { tables: Printed[]; cases: Case[] })
    : { tables: [], cases: [] }

  test('every case of hanging, fastening, light and room is ours too, with what it gives, expects and rests on', () => {
    const theirs = reference.cases.filter((one) => CASES.test(one.id))
    expect(theirs).toHaveLength(34)
    for (const { id, given, expect: wanted, provenance } of theirs)
      expect(
        publishedCases.find((one) => one.id === id),
        id,
      ).toMatchObject({ given, expect: wanted, provenance })
  })

  test('every table, row by row', () => {
    const theirs = reference.tables.filter((one) => TABLES.test(one.id))
    expect(theirs).toHaveLength(13)
    const ours: Readonly<Record<string, Omit<Printed, 'id'>>> = { ...shelf, ...tables }
    for (const { id, columns, rows, provenance } of theirs) expect(ours[id], id).toMatchObject({ columns, rows, provenance })
  })
})
