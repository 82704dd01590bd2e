import { expect, test } from 'vitest'
import type { BoxWanted, Job } from '../../job/index.ts'
import { faultTemperatures } from './temperatures.ts'

test('a device that its year keeps warm trips from the cold outside after an outage; a cold that was told stands', () => {
  const coldC = (insideColdC: Partial<BoxWanted['insideColdC']>, extremeMinC: number | null) =>
    faultTemperatures(
      { site: { extremeMinC, designMinC: null } } as Job,
      { insideColdC, insideHotC: { high: 40 } } as BoxWanted,
      { run: 'THHN', cord: 'SOOW' },
    ).deviceColdC
  expect(coldC({ low: 3, told: true, computed: true }, -38)).toBe(-38)
  expect(coldC({ low: -50, told: true, computed: true }, -48)).toBe(-50)
  expect(coldC({ low: 3, told: true }, -38)).toBe(3)
  expect(coldC({ low: 3, told: true, computed: true }, null)).toBe(3)
})
