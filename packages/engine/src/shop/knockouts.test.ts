import { expect, test } from 'vitest'
import { tables as fitTables } from '../fit/tables.generated.ts'
import { knockouts } from './knockouts.ts'
import { tables } from './tables.generated.ts'
import { build } from './yard.fixture.ts'

// NEMA knockout diameters in inches, nominal, least, most, as a reference page prints them. Provenance: read
const PRINTED = [
  ['1/2', 0.875, 0.859, 0.906],
  ['3/4', 1.109, 1.094, 1.141],
  ['1', 1.375, 1.359, 1.406],
  ['1-1/4', 1.734, 1.719, 1.766],
  ['1-1/2', 1.984, 1.969, 2.016],
  ['2', 2.469, 2.453, 2.5],
  ['2-1/2', 2.969, 2.953, 3],
  ['3', 3.594, 3.578, 3.625],
  ['3-1/2', 4.125, 4.094, 4.156],
  ['4', 4.641, 4.609, 4.672],
] as const

test('holes are the printed ones to a tenth of a millimetre, and every one is wider than its thread', () => {
  for (const [trade, ...inches] of PRINTED) {
    const row = tables['knock-out'].rows.find((one) => one[0] === trade)!
    inches.forEach((inch, i) => {
      expect(Math.abs((row[1 + i] as number) - inch * 25.4)).toBeLessThanOrEqual(0.1)
    })
  }
  for (const [kind, trade, od] of fitTables['raceway-outside'].rows) {
    const row = tables['knock-out'].rows.find((one) => one[0] === trade)!
    // A connector for thin tube is threaded as rigid pipe of its size.
    if (kind !== 'EMT') expect([trade, row[2] >= od - 0.01]).toEqual([trade, true])
  }
})

test('every end of a raceway in an enclosure has its hole, once', () => {
  const { fit } = build
  const rows = knockouts(fit)
  const ends = fit.raceways.flatMap((r) => [r.from, r.to]).filter((id) => fit.items.some((i) => i.id === id))
  expect(ends.length).toBeGreaterThan(3)
  expect(rows.reduce((sum, r) => sum + r.count, 0)).toBe(ends.length)
  for (const r of rows) expect(r.hole).not.toBeNull()
  const odd = knockouts({ ...fit, raceways: fit.raceways.slice(0, 1).map((r) => ({ ...r, trade: '9/16' })) })
  expect(odd.map((r) => r.hole)).toEqual(odd.map(() => null))
})
