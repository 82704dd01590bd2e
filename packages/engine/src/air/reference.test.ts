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
  readonly columns: readonly unknown[]
  readonly rows: readonly (readonly unknown[])[]
  readonly source: string
  readonly notes?: readonly string[]
}
interface Case {
  readonly id: string
  readonly given: unknown
  readonly expect: Record<string, unknown>
  readonly provenance: string
}

const path = join(import.meta.dirname, '../../../../../shared/reference/air.yaml')
const OURS = /^(film|u|wall-step|node|roof|vent|fan|box-air|moist|wood|mould|corr|heater|hot)-\d/

/** What was put right, by case, and why. */
const CORRECTED: Readonly<Record<string, Record<string, unknown>>> = {
  // Balance of mass, not of volume: nearer the lower of two equal openings when it is warmer inside.
  'vent-02': { neutral_level_above_lower_m: 0.926 },
}
/** Tables that have only some words otherwise: a number written as one, a note moved beside its number. */
const CELLS: Readonly<Record<string, (cell: unknown) => unknown>> = {
  'cp-low-rise': (cell) => (cell === '-0.6' ? -0.6 : cell),
  'gear-limits': (cell) =>
    cell === '-5 (label)'
      ? -5
      : typeof cell === 'string'
        ? cell.replace(/^calibrated at 40 C; derate/, 'lowest from the label; calibrated at 40 C; derate')
        : cell,
}
/** Tables of the reference that are the weather's, or that nothing here reads. */
const ELSEWHERE = [
  'constants',
  'saturation-coefficients',
  'perez-1990',
  'ground-reflectance',
  'ground',
  'sky-models',
  'free-float-with-windows',
  'disagreements',
]

describe.skipIf(!existsSync(path))('carried over from the reference (skipped where it is not beside the project)', () => {
  const reference = existsSync(path)
    ? (parse(readFileSync(path, 'utf8')) as { tables: Printed[]; cases: Case[] })
    : { tables: [], cases: [] }

  test('every case of one moment is ours too, with what it gives, expects and rests on', () => {
    const theirs = reference.cases.filter((one) => OURS.test(one.id))
    expect(theirs).toHaveLength(58)
    for (const { id, given, expect: wanted, provenance } of theirs)
      expect(
        publishedCases.find((one) => one.id === id),
        id,
      ).toMatchObject({
        given,
        expect: { ...wanted, ...CORRECTED[id] },
        provenance,
      })
  })

  test('what was put right differs from the reference', () => {
    for (const [id, values] of Object.entries(CORRECTED))
      expect(reference.cases.find((one) => one.id === id)?.expect).not.toMatchObject(values)
  })

  test('every table of the air is ours too: columns, rows, units, source, notes', () => {
    const theirs = reference.tables.filter((one) => !ELSEWHERE.includes(one.id))
    expect(theirs).toHaveLength(24)
    for (const t of theirs) {
      const ours = (tables as Record<string, Printed>)[t.id]
      const cell = CELLS[t.id] ?? ((one: unknown) => one)
      expect(ours, t.id).toMatchObject({
        title: t.title,
        units: t.units ?? {},
        columns: t.columns.map(String),
        rows: t.rows.map((row) => row.map(cell)),
        source: t.source,
        // Their notes name places on their own pages.
        notes: (t.notes ?? []).map((note) =>
          note.replace(' (air.md section 5)', '').replace(' (see disagreements).', ': the two sources differ.'),
        ),
      })
    }
  })
})
