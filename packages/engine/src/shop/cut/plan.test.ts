import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Fault, seeded } from '../../kernel/index.ts'
import { cutPlan } from './plan.ts'
import type { CutPlan, CutRequest } from './types.ts'

const stock = (id: string, lengthMm: number, costMoney: number | null = null, count: number | null = null) => ({
  ...{ id, lengthMm, costMoney, count },
})
const piece = (id: string, lengthMm: number, count: number, label = id) => ({ id, lengthMm, count, label })
const thirds: CutRequest = { stocks: [stock('S', 3048)], kerfMm: 3, trimMm: 0, pieces: [piece('p', 1016, 12)] }

const tenths = (mm: number): number => Math.round(mm * 10)

/** Read off the plan as a person would with a tape: marks rise by piece and blade, every piece is there once, nothing is lost. */
function expectPlan(request: CutRequest, plan: CutPlan): void {
  const [kerf, trim] = [tenths(request.kerfMm), tenths(request.trimMm)]
  const made = new Map<string, number>()
  for (const bar of plan.bars) {
    let at = trim
    for (const one of bar.pieces) {
      expect(tenths(one.fromMm)).toBe(at)
      expect(tenths(one.sawMm)).toBe(at + tenths(one.lengthMm))
      at = tenths(one.sawMm) + kerf
      expect(one.ids).toHaveLength(bar.times)
      for (const id of one.ids) {
        made.set(id, (made.get(id) ?? 0) + 1)
        expect(tenths(request.pieces.find((p) => p.id === id)!.lengthMm)).toBe(tenths(one.lengthMm))
      }
    }
    const last = bar.pieces.at(-1)!
    expect(tenths(last.sawMm)).toBeLessThanOrEqual(tenths(bar.lengthMm) - trim)
    expect(last.sawn).toBe(tenths(last.sawMm) < tenths(bar.lengthMm))
    const parts = bar.pieces.reduce((sum, one) => sum + tenths(one.lengthMm), 0)
    expect(parts + tenths(bar.sawnOffMm) + tenths(bar.trimMm) + tenths(bar.remnantMm)).toBe(tenths(bar.lengthMm))
    expect(bar.remnantMm).toBeGreaterThanOrEqual(0)
    expect(bar.keep).toBe(bar.remnantMm >= (request.keepMm ?? 300))
  }
  for (const { id, count } of request.pieces) expect([id, made.get(id) ?? 0]).toEqual([id, count])
  for (const { id, count } of request.stocks) {
    const used = plan.bars.reduce((sum, bar) => sum + (bar.stock === id ? bar.times : 0), 0)
    if (count !== null) expect(used).toBeLessThanOrEqual(count)
  }
  expect(plan.bars.reduce((sum, bar) => sum + bar.times, 0)).toBe(plan.count)
}

function shopRequest(seed: number): CutRequest {
  const random = seeded(seed)
  const lengths = 2 + random.below(12)
  return {
    stocks: [
      stock('long', 6096, 41.5, random.below(2) === 0 ? null : 6),
      stock('short', 3048, 23.9),
      ...(random.below(2) === 0 ? [stock('rack', 900 + random.below(20000) / 10, 0, 2)] : []),
    ],
    kerfMm: random.pick([0, 1.6, 2.4, 2.5, 3]),
    trimMm: random.pick([0, 0, 5, 12.7]),
    pieces: Array.from({ length: lengths }, (_, i) => piece(`p${i}`, 150 + random.below(28000) / 10, 1 + random.below(9))),
  }
}

describe('the marks and what is left', () => {
  test('200 random shop lists: parts, kerf, trims and remnant make up the stock to the tenth', () => {
    for (let seed = 1; seed <= 200; seed += 1) {
      const request = shopRequest(seed)
      const plan = cutPlan(request)
      expect([seed, plan.outcome, plan.proven, plan.gap]).toEqual([seed, 'cut', true, 0])
      expectPlan(request, plan)
    }
  })

  test('the last piece may end with the bar, and is then not sawn', () => {
    const plan = cutPlan({ ...thirds, pieces: [piece('p', 1522.5, 2)] })
    expect(plan.bars).toHaveLength(1)
    expect(plan.bars[0]!.pieces.map((one) => [one.fromMm, one.sawMm, one.sawn])).toEqual([
      [0, 1522.5, true],
      [1525.5, 3048, false],
    ])
    expect([plan.bars[0]!.remnantMm, plan.bars[0]!.sawnOffMm]).toEqual([0, 3])
  })

  test('a strip thinner than the blade goes to dust: it is no remnant', () => {
    const [bar] = cutPlan({ ...thirds, pieces: [piece('p', 1521.5, 2)] }).bars
    expect([bar!.remnantMm, bar!.sawnOffMm]).toEqual([0, 5])
  })

  test('a tenth too much takes another bar', () => {
    expect(cutPlan({ ...thirds, pieces: [piece('p', 1522.5, 2)] }).count).toBe(1)
    expect(cutPlan({ ...thirds, pieces: [piece('p', 1522.6, 2)] }).count).toBe(2)
    // 3 × 0.1 + 2 × 0.3 in floating point is above 0.9: whole tenths know better.
    expect(cutPlan({ stocks: [stock('S', 0.9)], kerfMm: 0.3, trimMm: 0, pieces: [piece('p', 0.1, 3)] }).count).toBe(1)
  })

  test('trims come off both ends before anything is marked', () => {
    const plan = cutPlan({ ...thirds, trimMm: 10, pieces: [piece('p', 1512.5, 2)] })
    expect(plan.bars[0]!.pieces.map((one) => one.sawMm)).toEqual([1522.5, 3038])
    expect(plan.bars[0]!.trimMm).toBe(20)
    expect(cutPlan({ ...thirds, trimMm: 10.1, pieces: [piece('p', 1512.5, 2)] }).count).toBe(2)
  })
})

describe('goals in their order', () => {
  test('money first: the cheaper purchase wins over fewer bars', () => {
    const request: CutRequest = {
      ...thirds,
      stocks: [stock('long', 6096, 60), stock('short', 3048, 20)],
      pieces: [piece('p', 1400, 4)],
    }
    const plan = cutPlan(request)
    expect([plan.goal, plan.costMoney, plan.count]).toEqual(['money', 40, 2])
    expect(cutPlan({ ...request, stocks: request.stocks.map((s) => ({ ...s, costMoney: null })) })).toMatchObject({
      goal: 'bars',
      count: 1,
      costMoney: null,
    })
  })

  test('for the same money, fewer bars', () => {
    const plan = cutPlan({
      ...thirds,
      stocks: [stock('long', 6096, 40), stock('short', 3048, 20)],
      pieces: [piece('p', 1400, 4)],
    })
    expect([plan.costMoney, plan.count]).toEqual([40, 1])
  })

  test('then fewer set-ups than the first plan found, never fewer than can be', () => {
    const plan = cutPlan({ ...thirds, stocks: [stock('S', 6000)], pieces: [piece('a', 1500, 8), piece('b', 750, 8)] })
    expect([plan.count, plan.setUps.count]).toEqual([4, 1])
    for (let seed = 1; seed <= 40; seed += 1) {
      const { setUps } = cutPlan(shopRequest(seed))
      expect(setUps.count).toBeGreaterThanOrEqual(setUps.least)
    }
  })

  test('then the longest single remnant: what is left over stands in one bar', () => {
    const plan = cutPlan({
      ...thirds,
      kerfMm: 0,
      stocks: [stock('S', 1000)],
      pieces: [piece('a', 400, 2), piece('b', 300, 2), piece('c', 200, 1)],
    })
    expect([plan.count, plan.remnantMostMm]).toEqual([2, 400])
  })

  test('of lengths without price, the shorter where it does', () => {
    const plan = cutPlan({
      ...thirds,
      stocks: [stock('long', 6096), stock('short', 3048)],
      pieces: [piece('a', 6000, 1), piece('b', 2000, 1)],
    })
    expect(plan.bars.map((bar) => bar.stock).sort()).toEqual(['long', 'short'])
  })
})

test('the order of rows changes nothing', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const request = shopRequest(seed)
    const turned = cutPlan({ ...request, pieces: request.pieces.toReversed(), stocks: request.stocks.toReversed() })
    const { working: a, ...plan } = cutPlan(request)
    const { working: b, ...other } = turned
    expect(other).toEqual(plan)
    expect(b.judgement).toEqual(a.judgement)
  }
})

test('what cannot be cut says so with both numbers', () => {
  expect(cutPlan({ ...thirds, pieces: [piece('a', 3048.1, 1), piece('b', 100, 1)] })).toMatchObject({
    ...{ outcome: 'none', proven: true, bars: [], count: 0, gap: null },
    lacks: [{ kind: 'too long', id: 'a', lengthMm: 3048.1, longestMm: 3048 }],
  })
  expect(cutPlan({ ...thirds, trimMm: 1, pieces: [piece('a', 3047, 1)] }).lacks).toEqual([
    { kind: 'too long', id: 'a', lengthMm: 3047, longestMm: 3046 },
  ])
  expect(cutPlan({ ...thirds, stocks: [stock('S', 3048, null, 2)] }).lacks).toEqual([
    { kind: 'too little', neededMm: 12192, thereMm: 6096 },
  ])
  expect(cutPlan({ ...thirds, stocks: [stock('S', 3048, null, 4)] }).lacks).toEqual([
    { kind: 'no arrangement', neededMm: 12192, thereMm: 12192 },
  ])
  expect(cutPlan({ ...thirds, stocks: [stock('S', 3048, null, 0)] }).outcome).toBe('none')
})

test('nothing to cut needs no bar', () => {
  expect(cutPlan({ ...thirds, pieces: [] })).toMatchObject({ outcome: 'cut', count: 0, bound: 0, proven: true, bars: [] })
})

test('the derivation leads from the material to the gap, and its worths add up to its bound', () => {
  for (let seed = 1; seed <= 30; seed += 1) {
    const request = shopRequest(seed)
    const { working, costMoney, bound } = cutPlan(request)
    expect(working.steps.map((step) => step.symbol)).toEqual(['Σl', 'B₁', 'B₂', 'B', 'gap'])
    expect(working.judgement).toMatchObject({ demand: { value: costMoney }, limit: { value: bound }, relation: '=' })
    const values = new Map(working.steps[2]!.values.map(({ symbol, value }) => [symbol, value as number]))
    const worth = request.pieces.reduce((sum, p) => sum + p.count * values.get(`v(${p.lengthMm})`)!, 0)
    const rent = request.stocks.reduce((sum, s) => sum + (values.get(`r(${s.lengthMm})`) ?? 0) * (s.count ?? 0), 0)
    expect(worth - rent).toBeCloseTo(working.steps[2]!.result as number, 6)
    expect(working.steps[2]!.result as number).toBeLessThanOrEqual(bound + 1e-9)
  }
})

test('numbers out of range are faults, whatever they are', () => {
  const bad: readonly Partial<CutRequest>[] = [
    { kerfMm: -1 },
    { kerfMm: Number.NaN },
    { trimMm: Number.POSITIVE_INFINITY },
    { stocks: [] },
    { stocks: [stock('S', 0)] },
    { stocks: [stock('S', 3048), stock('S', 6096)] },
    { stocks: [stock('S', 3048, -1)] },
    { stocks: [stock('S', 3048, 1, 1.5)] },
    { pieces: [piece('p', -5, 1)] },
    { pieces: [piece('p', 100, 1e6)] },
    { pieces: [piece('p', 100, 1), piece('p', 200, 1)] },
  ]
  for (const change of bad) expect(() => cutPlan({ ...thirds, ...change }), JSON.stringify(change)).toThrow(Fault)
})

test('any list in range is answered, and the answer holds', () => {
  const rows = fc.array(fc.tuple(fc.integer({ min: 1, max: 40_000 }), fc.integer({ min: 0, max: 6 })), {
    minLength: 1,
    maxLength: 8,
  })
  const stocks = fc.array(
    fc.tuple(
      fc.integer({ min: 1, max: 61_000 }),
      fc.option(fc.integer({ min: 0, max: 5000 })),
      fc.option(fc.integer({ min: 0, max: 9 })),
    ),
    {
      minLength: 1,
      maxLength: 4,
    },
  )
  fc.assert(
    fc.property(rows, stocks, fc.integer({ min: 0, max: 50 }), fc.integer({ min: 0, max: 100 }), (pieces, kinds, kerf, trim) => {
      const request: CutRequest = {
        stocks: kinds.map(([tenth, cost, count], i) => stock(`s${i}`, tenth / 10, cost === null ? null : cost / 100, count)),
        pieces: pieces.map(([tenth, count], i) => piece(`p${i}`, tenth / 10, count)),
        kerfMm: kerf / 10,
        trimMm: trim / 10,
      }
      const plan = cutPlan(request)
      if (plan.outcome === 'cut') expectPlan(request, plan)
      else expect(plan.lacks.length).toBeGreaterThan(0)
    }),
    { seed: 11, numRuns: 150 },
  )
})
