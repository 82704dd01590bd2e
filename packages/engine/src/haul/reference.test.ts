import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { publishedCases } from '../check/index.ts'
import { numberIn, rowsOf } from './shelf.ts'

interface Printed {
  readonly id: string
  readonly columns: readonly string[]
  readonly rows: readonly (readonly (string | number | null)[])[]
}
interface Case {
  readonly id: string
  readonly given: unknown
  readonly expect: unknown
  readonly provenance: string
}

const path = join(import.meta.dirname, '../../../../../shared/reference/box-and-strut.yaml')
const OURS = /^(cg|sling|fork|tie|lash|haul|wind|snow|mass)-/

describe.skipIf(!existsSync(path))('carried over from the reference (skipped where it is not beside the project)', () => {
  const reference = existsSync(path)
    ? (parse(readFileSync(path, 'utf8')) as { tables: Printed[]; cases: Case[] })
    : { tables: [], cases: [] }
  const printed = (id: string): Printed['rows'] => reference.tables.find((one) => one.id === id)?.rows ?? []

  test('every case of lifting and hauling is ours too, with what it gives, expects and rests on', () => {
    const theirs = reference.cases.filter((one) => OURS.test(one.id))
    expect(theirs).toHaveLength(29)
    for (const { id, given, expect: wanted, provenance } of theirs)
      expect(publishedCases.find((one) => one.id === id)).toMatchObject({ given, expect: wanted, provenance })
  })

  test('tie-downs: every working load as printed, kilograms before the pounds', () => {
    const grades = ['30', '43', '70', '80', '100']
    const theirs = printed('tiedown-wll').flatMap(([size, ...cells]) =>
      cells.map(
        (cell, i) =>
          [`chain ${String(size).replace(' chain', '')} in grade ${grades[i]}`, Number.parseFloat(String(cell))] as const,
      ),
    )
    expect(theirs).toHaveLength(25)
    const ours = new Map(rowsOf('tiedown-wll').map((row) => [row.kind, row.wll]))
    for (const [kind, wll] of theirs) expect(ours.get(kind), kind).toBe(wll)
  })

  test('mode factors, conduit and strut as printed', () => {
    for (const [legs, to45, to60] of printed('sling-legs')) {
      const row = rowsOf('sling-legs').find((one) => String(one.legs) === String(legs).replace('3 or ', ''))
      expect([row?.to_45, row?.to_60]).toEqual([to45, to60])
    }
    expect(rowsOf('conduit-mass').map((row) => Object.values(row))).toEqual(printed('conduit-mass'))
    const strut = new Map(printed('strut-sections').map((row) => [row[0], row[1]]))
    const steel = rowsOf('strut-mass').filter((row) => !String(row.section).startsWith('aluminium'))
    for (const row of steel) expect(strut.get(row.section as string)).toBe(numberIn(row, 'mass'))
  })

  test('exposures and terrains as printed', () => {
    const said = printed('wind-terms').map((row) => row.join(' '))
    expect(said.find((one) => one.startsWith('exposure B, C, D'))).toContain('alpha 7.0, 9.5, 11.5; zg 1200, 900, 700')
    const asce = rowsOf('wind-terms').filter((row) => row.by === 'ASCE 7-16')
    expect(asce.map((row) => [row.alpha, row.zg])).toEqual([
      [7, 1200],
      [9.5, 900],
      [11.5, 700],
    ])
    expect(said.find((one) => one.startsWith('EN terrain'))).toContain('0.003 (1); 0.01 (1); 0.05 (2); 0.3 (5); 1.0 (10)')
    const en = rowsOf('wind-terms').filter((row) => row.by === 'EN 1991-1-4')
    expect(en.map((row) => [row.z0, row.least_height])).toEqual([
      [0.003, 1],
      [0.01, 1],
      [0.05, 2],
      [0.3, 5],
      [1, 10],
    ])
  })
})
