import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { modulePath, readTable, SHELVES, shelfFiles, shelfModule, shelfModulePath, tableFiles, tablesModule } from './tables.ts'

const files = tableFiles()

test('the generated module agrees with the YAML to the byte', () => {
  expect(readFileSync(modulePath, 'utf8')).toBe(tablesModule(files))
})

test('one changed digit in one YAML file makes module and YAML disagree', () => {
  const changed = files.map((f) =>
    f.path === 'us/tables/us-egc.yaml' ? { ...f, text: f.text.replace('[20, "12"', '[20, "14"') } : f,
  )
  expect(tablesModule(changed)).not.toBe(readFileSync(modulePath, 'utf8'))
})

test('a table that cannot be read is refused with its name and what is wrong', () => {
  const egc = files.find((f) => f.path === 'us/tables/us-egc.yaml')!
  const broken = (from: string | RegExp, to: string) => () => readTable({ ...egc, text: egc.text.replace(from, to) })
  expect(broken('[20, "12", "10"]', '[20, "12"]')).toThrow(/us-egc.*row 2 has 2 cells, not 3/)
  expect(broken(/^source: .*$/m, 'source: ""')).toThrow(/“source” must be words/)
  expect(broken('id: us-egc', 'id: us-egg')).toThrow(/differs from the file's name/)
  expect(broken('[20, "12"', '[.nan, "12"')).toThrow(/finite number/)
  expect(broken('title:', 'titel:')).toThrow(/unknown key “titel”/)
  expect(() => tablesModule([egc, egc])).toThrow(/stands in/)
})

const reference = fileURLToPath(new URL('../../shared/reference/power.yaml', import.meta.url))
/** Said in the project's own words where the reference names its own pages or readers. The figures are the same. */
const reworded = (text: string): string =>
  text
    .replace(/^generator fuel chart, as in .+$/, 'approximate fuel chart for diesel sets')
    .replace(/added by the [a-z-]+$/, 'added from the same text')

interface Correction {
  readonly why: string
  readonly rows: (rows: readonly unknown[][]) => unknown[][]
  readonly notes: (notes: readonly string[]) => string[]
}

/** Tables that differ from the reference on purpose: what was put right, and nothing beside it. */
const CORRECTED: Readonly<Record<string, Correction>> = {
  'standard-ratings': {
    why: 'moulded-case frames of intl lacked 200, 315 and 500 A, which lie in the preferred numbers of ISO 3 (R 10 and R 20)',
    rows: (rows) =>
      rows.map(([set, ratings]) =>
        set === 'intl MCCB frames' ? [set, [...(ratings as number[]), 200, 315, 500].toSorted((a, b) => a - b)] : [set, ratings],
      ),
    notes: (notes) => [
      ...notes.slice(0, 2),
      'intl frames: 200, 315 and 500 A stand between as settings or plugs of the next frame; preferred numbers of ISO 3 (R 10 and R 20), catalogue values (common practice, memory). IEC 60947-2 prescribes no list.',
      ...notes.slice(2),
    ],
  },
}

describe.skipIf(!existsSync(reference))(
  'carried over from the reference tables (skipped by name where they are not beside the project)',
  () => {
    interface Printed {
      id: string
      title: string
      units?: Record<string, string>
      columns: string[]
      rows: unknown[][]
      source: string
      provenance: string
      address?: string
      notes?: string[]
    }
    const printed = existsSync(reference) ? (parse(readFileSync(reference, 'utf8')) as { tables: Printed[] }).tables : []
    const ours = new Map(files.map((f) => [readTable(f).id, readTable(f)]))
    test('there is something to compare', () => expect(printed.length).toBeGreaterThan(60))
    test.each(Object.entries(CORRECTED))(
      '%s: what was put right is not in the reference, and is in ours',
      (id, { why, rows }) => {
        const theirs = printed.find((t) => t.id === id)
        expect(theirs, why).toBeDefined()
        expect(rows(theirs?.rows ?? []), why).not.toEqual(theirs?.rows)
      },
    )
    test.each(printed.map((t) => [t.id, t] as const))('%s: every row, unit, source and note', (id, t) => {
      const corrected = CORRECTED[id]
      expect(ours.get(id)).toEqual({
        id,
        title: t.title,
        units: t.units ?? {},
        columns: t.columns,
        rows: corrected?.rows(t.rows) ?? t.rows,
        source: reworded(t.source),
        provenance: reworded(t.provenance),
        address: t.address ?? null,
        notes: corrected?.notes(t.notes ?? []) ?? t.notes ?? [],
      })
    })
  },
)

test.each(SHELVES.filter((shelf) => shelfFiles(shelf).length > 0))('the module of %s agrees with its YAML', (shelf) => {
  expect(readFileSync(shelfModulePath(shelf), 'utf8')).toBe(shelfModule(shelfFiles(shelf)))
})
