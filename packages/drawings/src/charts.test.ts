import { expect, test } from 'vitest'
import { decades, roundStep } from './chart-axis.ts'
import { demandDay } from './demand-day.ts'
import { weightOf } from './one-line.ts'
import { timeCurrent } from './time-current.ts'

test('axis steps are 1, 2, 2.5 or 5 times a power of ten and never more than asked', () => {
  for (const top of [0.7, 3, 9.9, 41, 100, 237, 1800]) {
    const step = roundStep(top, 4)
    expect(top / step).toBeLessThanOrEqual(4.0001)
    expect([1, 2, 2.5, 5]).toContain(Number((step / 10 ** Math.floor(Math.log10(step) + 1e-9)).toFixed(6)))
  }
})

test('decades hold what they were given', () => {
  expect(decades(12, 3100)).toEqual({ from: 1, to: 4 })
  expect(decades(10, 1000)).toEqual({ from: 1, to: 3 })
})

const lane = (value: number, service: number | null) => ({
  name: 'leg A',
  before: new Array<number>(96).fill(value * 1.5),
  bound: value,
  service,
  groups: [{ name: 'heaters', after: new Array<number>(96).fill(value) }],
})
const words = (service: number | null): readonly string[] =>
  demandDay({ widthMm: 185, laneMm: 40, unit: 'A', lanes: [lane(40, service)] }).items.flatMap((i) =>
    i.kind === 'text' ? [i.text] : [],
  )

test('before, staged, bound and supply are named on their own marks', () => {
  const said = words(70).join('|')
  for (const word of ['before 60', 'staged 40', 'bound 40', 'supply 70']) expect(said).toContain(word)
})

test('a supply far above the day is not drawn, for the day would be flat', () => {
  expect(words(400).join('|')).not.toContain('supply')
})

test('the staged steps are as high as their amperes: twice the ampere, twice the height', () => {
  const height = (value: number): number => {
    const scene = demandDay({
      widthMm: 185,
      laneMm: 40,
      unit: 'A',
      lanes: [
        {
          name: 'a',
          before: new Array<number>(96).fill(100),
          bound: null,
          service: null,
          groups: [{ name: 'g', after: new Array<number>(96).fill(value) }],
        },
      ],
    })
    const step = scene.items.find((i) => i.kind === 'line' && i.hatch !== undefined)
    if (step?.kind !== 'line') throw new Error('no step drawn')
    const ys = step.pointsMm.map((p) => p[1])
    return Math.max(...ys) - Math.min(...ys)
  }
  expect(height(80) / height(40)).toBeCloseTo(2, 9)
})

test('a decade is as wide as the next, and the fault levels stand where they belong', () => {
  const scene = timeCurrent({
    widthMm: 185,
    heightMm: 84,
    bands: [],
    damage: [
      {
        name: 'd',
        points: [
          [10, 100],
          [1000, 0.01],
        ],
      },
    ],
    decay: [],
    levels: [
      { name: 'low', currentA: 10 },
      { name: 'mid', currentA: 100 },
      { name: 'high', currentA: 1000 },
    ],
  })
  const cuts = scene.items
    .filter((i) => i.kind === 'line' && i.line === 'cut')
    .map((i) => (i.kind === 'line' ? i.pointsMm[0]![0] : 0))
  expect(cuts.length).toBe(3)
  expect(cuts[1]! - cuts[0]!).toBeCloseTo(cuts[2]! - cuts[1]!, 9)
})

test('heavier line, more ampere', () => {
  expect([10, 20, 50, 200].map(weightOf)).toEqual([1, 2, 3, 4])
})
