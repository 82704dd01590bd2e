import { expect, test } from 'vitest'
import { decades, roundStep } from './chart-axis.ts'
import { demandDay } from './demand-day.ts'
import { weightOf } from './one-line.ts'
import { priceStack } from './price-stack.ts'
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

const stack = (over: Partial<Parameters<typeof priceStack>[0]> = {}) =>
  priceStack({
    ...{ widthMm: 185, currency: 'USD', isFloor: false, workings: {}, costMoney: 300 },
    groups: [
      { name: 'material', money: 200 },
      { name: 'labour', money: 100 },
    ],
    margin: { words: 'margin', money: 100, priceMoney: 400 },
    tax: null,
    range: { lowMoney: 280, middleMoney: 310, highMoney: 350 },
    ...over,
  })
const bars = (scene: ReturnType<typeof priceStack>): readonly (readonly [from: number, to: number])[] =>
  scene.items.flatMap((i) =>
    i.kind === 'line' && i.closed
      ? [[Math.min(...i.pointsMm.map((p) => p[0])), Math.max(...i.pointsMm.map((p) => p[0]))] as const]
      : [],
  )

test('each part of the price begins where the one above ends, at one scale, and the sums are as long as their parts', () => {
  const [material, labour, cost, margin, price] = bars(stack()) as [...(readonly [number, number])[]]
  expect(labour![0]).toBeCloseTo(material![1], 9)
  expect(cost![0]).toBeCloseTo(material![0], 9)
  expect(cost![1]).toBeCloseTo(labour![1], 9)
  expect(margin![0]).toBeCloseTo(cost![1], 9)
  expect(price![1]).toBeCloseTo(margin![1], 9)
  expect((material![1] - material![0]) / (labour![1] - labour![0])).toBeCloseTo(2, 9)
})

test('the price is the cut line that the drawn cost is held against; without a margin there is none', () => {
  const cut = (scene: ReturnType<typeof priceStack>) =>
    scene.items.flatMap((i) => (i.kind === 'line' && i.line === 'cut' && !i.closed ? [i.pointsMm[0]![0]] : []))
  const scene = stack()
  expect(cut(scene)).toHaveLength(1)
  expect(cut(scene)[0]).toBeCloseTo(bars(scene)[4]![1], 9)
  expect(cut(stack({ margin: null }))).toEqual([])
  expect(stack({ margin: null }).said).toContain('no margin was told')
  const floor = stack({ isFloor: true })
  expect(floor.said).toContain('cost at least 300 USD')
  expect(
    floor.items.flatMap((i) => (i.kind === 'text' ? [i.text] : [])).filter((words) => words.startsWith('at least')),
  ).toHaveLength(2)
})
