import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cutAnswer, cutFindings } from './cut-answer.ts'
import { readCutFile } from './cut-file.ts'

const good = { stock_length: 3048, kerf: 3, items: [{ size: 1016, demand: 12 }] }

function answered(raw: unknown) {
  const read = readCutFile(JSON.stringify(raw))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return { file: read.value, answer: cutAnswer(read.value) }
}
function codes(raw: unknown): readonly string[] {
  const read = readCutFile(typeof raw === 'string' ? raw : JSON.stringify(raw, null, 2))
  return read.ok ? [] : read.problems.map((problem) => problem.code)
}

describe('all shapes of a list', () => {
  test('capacity alone: no kerf', () => {
    const { answer, file } = answered({ capacity: 3048, items: good.items })
    expect([answer.count, answer.proven, cutFindings(answer, file, 'x')]).toEqual([4, true, []])
  })

  test('stock and kerf', () => expect(answered(good).answer.count).toBe(6))

  test('several lengths with money and counts', () => {
    const { answer } = answered({
      stocks: [
        { length: 3048, cost: 20.5 },
        { length: 2040, cost: 0, count: 1 },
      ],
      kerf: 3,
      items: [{ size: 1016, demand: 4 }],
    })
    expect(answer).toMatchObject({ cost: 20.5, count: 2, proven: true, goal: 'money' })
  })

  test('two limits, as pairs or under keys of their own', () => {
    // By length two bars would do; by the second limit two pieces are the most of a bar.
    const pairs = answered({
      capacity: [100, 10],
      items: [
        { size: [20, 5], demand: 6 },
        { size: [30, 0.5], demand: 2 },
      ],
    })
    const keys = answered({
      capacity: 100,
      capacity2: 10,
      items: [
        { size: 20, size2: 5, demand: 6 },
        { size: 30, size2: 0.5, demand: 2 },
      ],
    })
    expect(pairs.answer).toMatchObject({ count: 4, proven: true })
    const snake = answered({
      capacity: 100,
      capacity_2: 10,
      items: [
        { size: 20, size_2: 5, demand: 6 },
        { size: 30, size_2: 0.5, demand: 2 },
      ],
    })
    expect(snake.answer).toEqual(keys.answer)
    expect({ ...keys.answer, work: 0 }).toEqual({ ...pairs.answer, work: 0 })
    for (const { pieces } of pairs.answer.patterns)
      expect(pieces.reduce((sum, one) => sum + one.count * (one.size as readonly number[])[1]!, 0)).toBeLessThanOrEqual(10)
  })

  test('the larger of two material bounds counts', () => {
    expect(answered({ capacity: [100, 10], items: [{ size: [1, 10], demand: 7 }] }).answer).toMatchObject({
      materialBound: 7,
      count: 7,
    })
  })

  test('a trim comes off both ends', () => {
    expect(answered({ ...good, kerf: 0, trim: 0 }).answer.count).toBe(4)
    expect(answered({ ...good, kerf: 0, trim: 0.5 }).answer.count).toBe(6)
  })

  test('inches are cut in inches, and what is left is told in millimetres', () => {
    const { answer } = answered({ stock_length: 120, kerf: 0.125, unit: 'in', items: [{ size: 39.875, demand: 3 }] })
    expect(answer).toMatchObject({ count: 1, unit: 'in' })
    expect(answer.patterns[0]).toMatchObject({ stock: 120, remnantMm: 0, marks: [39.875, 79.875, 119.875], sawn: 0.375 })
    expect(
      answered({ stock_length: 121, kerf: 0.125, unit: 'in', items: [{ size: 39.875, demand: 3 }] }).answer.patterns[0]!
        .remnantMm,
    ).toBe(25.4)
  })
})

describe('what is noted or fails', () => {
  const findings = (raw: unknown) => {
    const { answer, file } = answered(raw)
    return cutFindings(answer, file, 'list').map(({ code, verdict, said }) => ({ code, verdict, said }))
  }

  test('a kerf typed as 0 is taken, and noted', () => {
    expect(findings({ ...good, kerf: 0 })).toMatchObject([{ code: 'shop/cut-no-kerf', verdict: 'tight' }])
    expect(findings(good)).toEqual([])
  })

  test('a part longer than its stock fails with both numbers', () => {
    expect(findings({ ...good, trim: 10, items: [{ size: 3048, demand: 1 }] })).toEqual([
      {
        code: 'shop/cut-too-long',
        verdict: 'fails',
        said: 'A piece of 3048 mm is longer than the longest stock, 3028 mm between its trims.',
      },
    ])
  })

  test('too little stock fails with both numbers', () => {
    const [short] = findings({ stocks: [{ length: 3048, count: 2 }], items: good.items })
    expect(short).toMatchObject({ code: 'shop/cut-stock-short', verdict: 'fails' })
    expect(short!.said).toContain('12192')
    expect(short!.said).toContain('6096')
  })
})

describe('what cannot be read', () => {
  test('is told with every problem at once, each with its line', () => {
    const text =
      '{\n  "stock_length": -5,\n  "kerf": "3",\n  "items": [\n    { "size": 0, "demand": 1.5 },\n    { "size": 3, "demnd": 1 }\n  ]\n}'
    const read = readCutFile(text)
    expect(read.ok).toBe(false)
    if (read.ok) return
    expect(read.problems.map(({ code, line, path }) => `${code} ${line} ${path}`)).toEqual([
      'cut/number 3 kerf',
      'cut/number 5 items[0].size',
      'cut/number 5 items[0].demand',
      'cut/key-unknown 6 items[1].demnd',
      'cut/number 6 items[1].demand',
      'cut/number 2 stock_length',
    ])
    expect(read.problems[0]!.mend).toContain('without quotes')
    for (const problem of read.problems) expect(problem.mend).not.toBe('')
  })

  test('names what it is', () => {
    expect(codes('not JSON')).toEqual(['cut/not-json'])
    expect(codes('{"capacity": 10, "items": [')).toEqual(['cut/not-json'])
    expect(codes('[]')).toEqual(['cut/not-a-list'])
    expect(codes('null')).toEqual(['cut/not-a-list'])
    expect(codes('{"capacity": NaN, "items": []}')).toEqual(['cut/not-json'])
    expect(codes('{"capacity": 1e999, "items": [{"size": 1, "demand": 1}]}')).toEqual(['cut/number'])
    expect(codes({})).toEqual(['cut/list', 'cut/stock'])
    expect(codes({ ...good, capacity: 5 })).toEqual(['cut/stock'])
    expect(codes({ ...good, items: [] })).toEqual(['cut/list'])
    expect(codes({ ...good, items: [5] })).toEqual(['cut/row'])
    expect(codes({ ...good, kerfMm: 3 })).toEqual(['cut/key-unknown'])
    expect(codes({ ...good, kerf: 4000 })).toEqual(['cut/kerf-too-wide'])
    expect(codes({ ...good, unit: 'furlong' })).toEqual(['cut/unit'])
    expect(codes({ ...good, items: [{ size: 1 / 3, demand: 1 }] })).toEqual(['cut/too-fine'])
    expect(codes({ ...good, items: [{ size: 1, demand: 30_000 }] })).toEqual(['cut/too-many'])
    expect(codes({ stocks: [{ length: 5, cost: 1 }, { length: 4 }], items: good.items })).toEqual(['cut/cost-missing'])
    expect(codes({ capacity: [10, 5], items: [{ size: 3, demand: 1 }] })).toEqual(['cut/second-missing'])
    expect(codes({ capacity: [10, 5, 2], items: [{ size: 3, demand: 1 }] })).toEqual(['cut/pair'])
    expect(codes('{"capacity": 10, "kerf": 1, "kerf": 2, "items": [{"size": 3, "demand": 1}]}')).toEqual(['cut/key-twice'])
    expect(codes(`{"capacity": ${'['.repeat(40)}${']'.repeat(40)}}`)).toEqual(['cut/too-deep'])
    expect(codes(`"${'x'.repeat(2_000_001)}"`)).toEqual(['cut/too-large'])
  })

  test('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json(),
          fc.string(),
          fc.jsonValue().map((v) => JSON.stringify({ ...good, items: v, kerf: v })),
        ),
        (text) => {
          const read = readCutFile(text)
          if (!read.ok) expect(read.problems.length).toBeGreaterThan(0)
        },
      ),
      { seed: 5, numRuns: 500 },
    )
  })
})

const folder = join(import.meta.dirname, '../../../../../../shared/data/cutting-stock')
const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.json')) : []

describe.skipIf(names.length === 0)(
  'the lists with a proven optimum that may lie beside the project (skipped where they do not)',
  () => {
    test('are all there', () => expect(names.length).toBeGreaterThanOrEqual(12))

    for (const name of names)
      test(`${name} is met and proven`, () => {
        const raw = JSON.parse(readFileSync(join(folder, name), 'utf8'))
        const { answer } = answered(raw)
        expect(answer.proven).toBe(true)
        expect(answer.bound).toBe(raw.optimum_cost ?? raw.optimum_bins ?? raw.optimum_sticks_with_kerf)
        expect(answer.count).toBe(raw.optimum_bins ?? raw.optimum_sticks_with_kerf ?? raw.optimum_sticks_at_that_cost)
        if (raw.optimum_cost !== undefined) expect(answer.cost).toBe(raw.optimum_cost)
        expect(answer.linearBound).toBeCloseTo(raw.lower_bound_lp ?? raw.lower_bound_lp_with_kerf ?? raw.lower_bound_lp_cost, 3)
        if (raw.first_fit_decreasing_bins !== undefined) expect(answer.ffdCount).toBe(raw.first_fit_decreasing_bins)
        const kerf = raw.kerf ?? 0
        for (const { size, demand } of raw.items as { size: number; demand: number }[])
          expect(
            answer.patterns.reduce((sum, p) => sum + p.times * (p.pieces.find((one) => one.size === size)?.count ?? 0), 0),
          ).toBe(demand)
        for (const { stock, pieces } of answer.patterns) {
          const used = pieces.reduce((sum, one) => sum + one.count * ((one.size as number) + kerf), 0)
          expect(used).toBeLessThanOrEqual((stock as number) + kerf)
        }
      })
  },
)
