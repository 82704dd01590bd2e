import { expect, test } from 'vitest'
import { type Figure, figureOf, isMissed, table } from './figures.ts'

const figure = (measured: readonly number[], of: Figure['of'] = 'median'): Figure => ({
  ...{ what: 'a thing', goal: 30, unit: 'ms', measured, of },
})

test('medians, the 95th of a hundred, the largest', () => {
  expect(figureOf(figure([3, 1, 2]))).toBe(2)
  expect(figureOf(figure([4, 1, 2, 3]))).toBe(2.5)
  const hundred = Array.from({ length: 100 }, (_, i) => 100 - i)
  expect(figureOf(figure(hundred, 'p95'))).toBe(95)
  expect(figureOf(figure(hundred, 'largest'))).toBe(100)
})

test('missed is past a third over the goal; nothing measured is missed', () => {
  expect([isMissed(figure([40])), isMissed(figure([40.1])), isMissed(figure([]))]).toEqual([false, true, true])
  expect(table([figure([35])])).toMatch(/a thing +35\.0 ms +30\.0 ms +1\.17 × +median of 1 +over$/)
})
