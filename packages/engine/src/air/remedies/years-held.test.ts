import { expect, test } from 'vitest'
import type { RemedyTable } from '../result.ts'
import { yearsHeld } from './years-held.ts'

const table = (yearsCount: number, failed: RemedyTable['design']['failed']): RemedyTable => {
  const after = {} as RemedyTable['base']['after']
  const design = { name: 'as designed', after, heldYearsCount: yearsCount - failed.length, failed }
  return { box: 'yard', currency: 'USD', yearsCount, base: { name: 'nothing', after }, alone: [], stacked: [], design }
}
const cold = (count: number) => Array.from({ length: count }, (_, i) => ({ year: i + 1, kinds: ['cold' as const] }))

test('27 of 30 made years hold; with 26 it is tight, and what fails in the others is named', () => {
  expect(yearsHeld(table(30, cold(3))).finding.verdict).toBe('holds')
  const tight = yearsHeld(table(30, cold(4))).finding
  expect(tight.verdict).toBe('tight')
  expect(tight.said).toBe('Nothing of the air fails in 26 of 30 made years; the goal is 27. What fails in the others: cold.')
})

test('of fewer years the goal is the whole year above nine tenths', () => {
  expect(yearsHeld(table(5, cold(1))).finding.said).toContain('4 of 5 made years; the goal is 5')
  expect(yearsHeld(table(5, [])).finding.verdict).toBe('holds')
})
