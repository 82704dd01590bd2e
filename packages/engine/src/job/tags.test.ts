import { expect, test } from 'vitest'
import { expandTag, rangeCount } from './tags.ts'

test.each([
  ['G1-4C', 4, ['G1C', 'G2C', 'G3C', 'G4C']],
  ['G5-7H', 3, ['G5H', 'G6H', 'G7H']],
  ['BW1', 3, ['BW1.1', 'BW1.2', 'BW1.3']],
  ['LD1', 1, ['LD1']],
  ['G1-4C', 3, ['G1-4C.1', 'G1-4C.2', 'G1-4C.3']],
  ['BB29-32', 4, ['BB29', 'BB30', 'BB31', 'BB32']],
  ['TK1-4', 1, ['TK1-4']],
  ['X4-1', 4, ['X4-1.1', 'X4-1.2', 'X4-1.3', 'X4-1.4']],
] as const)('%s for %d', (tag, count, tags) => {
  expect(expandTag(tag, count)).toEqual(tags)
})

test('a range says how many it names', () => {
  expect([rangeCount('G1-4C'), rangeCount('LD1'), rangeCount('X4-1'), rangeCount('SM1-5'), rangeCount('A7-7')]).toEqual([
    4,
    null,
    null,
    5,
    null,
  ])
})
