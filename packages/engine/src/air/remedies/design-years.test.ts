import { expect, test } from 'vitest'
import { climateForYear } from '../facts/climate.ts'
import { yardTask } from './choose.fixture.ts'
import { type DesignYear, designYearsOf, designYearsStepwise } from './design-years.ts'
import { remediesOf } from './table.ts'

const yard = yardTask()
const climate = climateForYear(yard.job)
if ('lacks' in climate) throw new Error('climate')
const task = { ...yard, climate: climate.climate, yearsCount: 1 }

test('a year of the design alone says what the table of remedies says of it, by another road', () => {
  const table = remediesOf(task)
  // What the design comes to hangs on no order of the measures.
  const stacked = table.steps('stacked').map((step) => table.part(step, []))
  const years = designYearsOf(task)
  const parts = years.years.map(years.part)
  expect(parts).toEqual(stacked.map(({ step, fails }) => ({ year: step.year, fails })))
  // Laid out with nothing chosen about its air: something fails, or the comparison would say little.
  expect(parts[0]!.fails).not.toEqual([])
  expect(years.held(parts).design.heldYearsCount).toBe(0)
}, 240_000)

test('years are counted, come in any order, and each is one of those that were asked', () => {
  const years = designYearsOf({ ...task, yearsCount: 30 })
  expect(years.years).toEqual(Array.from({ length: 30 }, (_, i) => i + 1))
  const parts: readonly DesignYear[] = [
    { year: 9, fails: ['drip'] },
    { year: 4, fails: [] },
    { year: 2, fails: ['hot', 'cold'] },
  ]
  const held = years.held(parts)
  expect(held).toMatchObject({ yearsCount: 3, design: { heldYearsCount: 1 } })
  expect(held.design.failed.map((f) => f.year)).toEqual([2, 9])
  const counts: number[] = []
  const of = { ...years, years: [1, 2, 3], part: (year: number): DesignYear => ({ year, fails: [] }) }
  for (const { doneCount, ofCount } of designYearsStepwise(of)) counts.push(doneCount, ofCount)
  expect(counts).toEqual([0, 3, 1, 3, 2, 3])
})
