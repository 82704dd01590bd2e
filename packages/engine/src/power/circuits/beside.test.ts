import { expect, test } from 'vitest'
import { NIPPLE_MOST_M, type RacewayRoute } from '../../job/index.ts'
import { besideIn } from './beside.ts'

const raceway = (lengthMm: number, ...circuits: readonly string[]): RacewayRoute =>
  ({
    id: 'r',
    circuits,
    pointsMm: [
      [0, 0, 0],
      [lengthMm / 2, 0, 0],
      [lengthMm / 2, 0, lengthMm / 2],
    ],
  }) as unknown as RacewayRoute

test('in a nipple nobody counts, in a longer raceway everybody counts the others', () => {
  expect(besideIn([raceway(1000 * NIPPLE_MOST_M, 'A', 'B')])).toEqual({})
  expect(besideIn([raceway(1000 * NIPPLE_MOST_M + 1, 'B', 'A', 'C')])).toEqual({ A: ['B', 'C'], B: ['A', 'C'], C: ['A', 'B'] })
})

test('a circuit alone in its raceway has nobody beside it; two raceways add their neighbours', () => {
  expect(besideIn([raceway(5000, 'A')])).toEqual({})
  expect(besideIn([raceway(700, 'A', 'B'), raceway(900, 'A', 'C')]).A).toEqual(['B', 'C'])
})
