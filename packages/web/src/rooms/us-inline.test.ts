import { expect, test } from 'vitest'
import { inUs, titleInUs, unitOfTitle } from './us-inline.ts'

/** A foot is 0.3048 m, an inch 25.4 mm, a pound 0.45359237 kg. @source NIST SP 811, appendix B. Provenance: memory */
test('bare figures of a column follow the unit its title ends with', () => {
  expect(unitOfTitle('m')).toBe('m')
  expect(unitOfTitle('from left, mm')).toBe('mm')
  expect(unitOfTitle('each, USD')).toBeNull()
  expect(unitOfTitle('all on, A')).toBeNull()
  expect(inUs('30', 'm')).toBe('98.4')
  expect(inUs('120 × 90', 'mm')).toBe('4.72 × 3.54')
  expect(inUs('–', 'm')).toBe('–')
  expect(titleInUs('from left, mm', 'mm')).toBe('from left, in')
})
