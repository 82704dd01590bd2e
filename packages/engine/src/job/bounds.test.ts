import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import {
  FROZEN_RATIO,
  impedancePct,
  motorEfficiencyFrac,
  POWER_FACTOR,
  SOIL_OHM_M,
  SUBTRANSIENT,
  soilOhmM,
  subtransientPct,
  TRANSFORMERS,
  xOverR,
} from './bounds.ts'

const FILE = new URL('../../../../../shared/reference/power.yaml', import.meta.url)
const there = existsSync(FILE)
interface Table {
  readonly id: string
  readonly rows: readonly (readonly (string | number | null)[])[]
}
const table = (id: string): Table => {
  const found = (parse(readFileSync(FILE, 'utf8')) as { tables: readonly Table[] }).tables.find((t) => t.id === id)
  if (found === undefined) throw new Error(`no table ${id}`)
  return found
}

test.skipIf(!there)('transformer ranges are those of the table transformer-typical, row by row', () => {
  const rows = table('transformer-typical').rows
  let compared = 0
  for (const [kind, ours] of Object.entries(TRANSFORMERS)) {
    const theirs = rows.filter((r) => r[0] === kind)
    expect(ours).toHaveLength(theirs.length)
    for (const [i, row] of theirs.entries()) {
      const ends =
        String(row[2])
          .match(/\d+(?:\.\d+)?/g)
          ?.map(Number) ?? []
      expect(ours[i], `${kind} ${row[1]}`).toEqual({ kVA: row[1], lowPct: ends[0], highPct: ends[1] ?? ends[0], xOverR: row[4] })
      compared++
    }
  }
  expect(compared).toBe(rows.length)
})

test.skipIf(!there)('soil ranges are those of the table soil', () => {
  const theirs = table('soil').rows.flatMap((r) => (r[2] === null || r[0] === 'concrete 1:3' ? [] : [[r[2], r[3]]]))
  expect(
    Object.entries(SOIL_OHM_M)
      .filter(([kind]) => kind !== 'dry sand')
      .map(([, ends]) => ends),
  ).toEqual(theirs)
})

test.skipIf(!there)('subtransient reactance by size is that of the table generator-react', () => {
  expect(table('generator-react').rows.map((r) => Number(r[1]) * 100)).toEqual(SUBTRANSIENT.map(([, pct]) => pct))
})

test('a told size lies inside its range, an odd size between its neighbours', () => {
  expect(impedancePct('us', 1, 75)).toMatchObject({ low: 1.5, high: 2.5, told: false })
  expect(impedancePct('us', 1, 60)).toMatchObject({ low: 1.5, high: 3 })
  expect(impedancePct('intl', 3, 5000)).toMatchObject({ low: 5, high: 6 })
  expect(xOverR('us', 1, 75)).toMatchObject({ low: 1.4, high: 1.6 })
  expect(xOverR('us', 1, 5)).toMatchObject({ low: 1.1, high: 1.1 })
})

test('every range has its low end below its high end, and says where it is from', () => {
  for (const [low, high] of [...Object.values(POWER_FACTOR), ...Object.values(SOIL_OHM_M), FROZEN_RATIO])
    expect(low).toBeLessThanOrEqual(high)
  for (const span of [soilOhmM(undefined), soilOhmM('rocky'), subtransientPct(50), subtransientPct(5000)]) {
    expect(span.low).toBeLessThan(span.high)
    expect(span.basis.length).toBeGreaterThan(5)
    expect(span.told).toBe(false)
  }
  expect(soilOhmM(undefined)).toMatchObject({ low: 2, high: 100_000 })
})

test('an assumed efficiency is never that of a better motor than its size allows', () => {
  for (const shaftW of [100, 750, 5000, 7500, 50_000]) expect(motorEfficiencyFrac(shaftW)).toBeLessThan(0.95)
  expect(motorEfficiencyFrac(500)).toBeLessThan(motorEfficiencyFrac(5000))
})
