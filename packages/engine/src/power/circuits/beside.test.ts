import { expect, test } from 'vitest'
import { NIPPLE_MOST_M, type RacewayRoute } from '../../job/index.ts'
import { answerCircuits } from './answer.ts'
import { besideIn, worstCrowd } from './beside.ts'
import { designOf, yardOf } from './yards.fixture.ts'

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

const laid = (...raceways: readonly RacewayRoute[]) => ({ items: [], raceways })
const bunch = (...others: readonly string[]) => [{ in: 'raceway', others }]

test('in a nipple nobody counts, in a longer raceway everybody counts the others', () => {
  expect(besideIn(laid(raceway(1000 * NIPPLE_MOST_M, 'A', 'B')))).toEqual({})
  expect(besideIn(laid(raceway(1000 * NIPPLE_MOST_M + 1, 'B', 'A', 'C')))).toEqual({
    A: bunch('B', 'C'),
    B: bunch('A', 'C'),
    C: bunch('A', 'B'),
  })
})

test('a circuit alone in its raceway has nobody beside it; of two raceways each counts for itself', () => {
  expect(besideIn(laid(raceway(5000, 'A')))).toEqual({})
  expect(besideIn(laid(raceway(700, 'A', 'B'), raceway(900, 'A', 'C'))).A).toEqual([...bunch('B'), ...bunch('C')])
})

const piece = { id: 'wireway left', kind: 'wireway', side: 'left', face: 'inside', atMm: [0, 41, 2266], sizeMm: [5000, 102, 102] }
const tap = (id: string, xMm: number, into: boolean, ...circuits: readonly string[]) =>
  ({
    id,
    from: into ? 'panel' : 'wireway left',
    to: into ? 'wireway left' : `outlet ${id}`,
    circuits,
    pointsMm: into
      ? [
          [xMm, 90, 2251],
          [xMm, 90, 2266],
        ]
      : [
          [xMm, 90, 2266],
          [xMm, 90, 1000],
        ],
  }) as unknown as RacewayRoute

test('in a wireway those count that lie in one section, not all that lie in it somewhere', () => {
  const fit = {
    items: [piece as never],
    raceways: [
      tap('in', 2000, true, 'A', 'B', 'C'),
      tap('a', 1000, false, 'A'),
      tap('b', 3000, false, 'B'),
      tap('c', 4000, false, 'C'),
    ],
  }
  expect(besideIn(fit)).toEqual({ B: [{ in: 'wireway', others: ['C'] }], C: [{ in: 'wireway', others: ['B'] }] })
})

// NEC 376.22(B): adjusted only where more than 30 current-carrying conductors lie at one cross section (read in an account of the 2014 text).
test('in a wireway 30 carrying conductors lie as if alone, the 31st makes all count', () => {
  const crowd = (others: number) =>
    worstCrowd({
      mates: [],
      bunches: [{ in: 'wireway', others: Array.from({ length: others }, (_, i) => `C${i}`) }],
      own: 2,
      carrying: () => 2,
      uncountedTo: 30,
    })
  expect(crowd(14)).toEqual({ circuits: 1, othersCarrying: 0 })
  expect(crowd(15)).toEqual({ circuits: 16, othersCarrying: 30 })
})

// NEC 376.22(B) and 310.15(C)(1): from 41 carrying conductors on, 35 % is left of the table. Provenance: memory
test('a circuit judged alone before is judged anew where all others lie beside it', () => {
  const { box, inputs } = yardOf()
  const ids = box.circuits.filter((c) => c.own === null).map((c) => c.id)
  const lies = (fit: object) => {
    const design = { ...designOf(box), builds: [{ box: box.box, fit }] } as unknown as typeof inputs.design
    return answerCircuits({ ...inputs, design }).findings.filter((f) => f.verdict === 'fails' && ids.includes(f.subject))
  }
  const alone = lies({ items: [], raceways: ids.map((id) => raceway(5000, id)) })
  const crowded = lies({ items: [], raceways: [raceway(5000, ...ids)] })
  expect(alone).toEqual([])
  expect(new Set(crowded.map((f) => f.subject)).size).toBe(ids.length)
  expect(lies({ items: [], raceways: ids.map((id) => raceway(5000, id)) })).toEqual([])
})
