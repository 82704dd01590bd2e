import { describe, expect, test } from 'vitest'
import { Fault } from '../../kernel/index.ts'
import { allPatterns, judged, loadHighs } from './judge.fixture.ts'
import { planted, shopList } from './lists.fixture.ts'
import { type CutTask, costOf, type Use } from './model.ts'
import { solved } from './solve.ts'

const FREE = Number.POSITIVE_INFINITY
const bars = (uses: readonly Use[]): number => uses.reduce((sum, use) => sum + use.times, 0)

/** Every piece cut once, no bar over-filled, no stock overdrawn. */
function expectCut(task: CutTask, uses: readonly Use[]): void {
  task.items.forEach((item, i) => {
    expect(uses.reduce((sum, { pattern, times }) => sum + times * pattern.counts[i]!, 0)).toBe(item.demand)
  })
  task.stocks.forEach((stock, j) => {
    const own = uses.filter(({ pattern }) => pattern.stock === j)
    expect(bars(own)).toBeLessThanOrEqual(stock.limit)
    for (const { pattern } of own) {
      expect(pattern.counts.reduce((sum, n, i) => sum + n * task.items[i]!.size, 0)).toBeLessThanOrEqual(stock.capacity)
      expect(pattern.counts.reduce((sum, n, i) => sum + n * task.items[i]!.size2, 0)).toBeLessThanOrEqual(stock.capacity2)
    }
  })
}

// Judge: HiGHS 1.15 (MIT), the integer program over every pattern, solved to a gap of nothing.
describe('beside an integer program over all patterns', async () => {
  const highs = await loadHighs()

  test('300 random shop lists cost the same to the unit, proven', () => {
    let looked = 0
    let beyondLinear = 0
    for (let seed = 1; looked < 300; seed += 1) {
      const task = shopList(seed, { lengths: 7, pieces: 30, shortestMm: 300 })
      const patterns = allPatterns(task)
      if (patterns.length > 250) continue
      looked += 1
      const ours = solved(task)
      expectCut(task, ours.uses)
      expect([seed, costOf(task, ours.uses), ours.proven, ours.bound]).toEqual([
        seed,
        judged(highs, task, patterns),
        true,
        costOf(task, ours.uses),
      ])
      if (ours.boundKind === 'search') beyondLinear += 1
    }
    expect(beyondLinear).toBeGreaterThan(30)
  })

  test('60 lists with two limits, some of them with too little stock', () => {
    let none = 0
    for (let seed = 1; seed <= 60; seed += 1) {
      const list = shopList(seed, { lengths: 6, pieces: 20, shortestMm: 500 })
      const task: CutTask = {
        items: list.items.map((item, i) => ({ ...item, size2: ((i * 7 + seed) % 13) + 1 })),
        stocks: list.stocks.map((stock) => ({
          ...stock,
          capacity2: 20,
          limit: seed % 3 === 0 ? Math.min(stock.limit, 4) : stock.limit,
        })),
      }
      const ours = solved(task)
      const theirs = judged(highs, task)
      expect([seed, ours.outcome, ours.proven]).toEqual([seed, theirs === null ? 'none' : 'cut', true])
      if (theirs === null) none += 1
      else {
        expectCut(task, ours.uses)
        expect([seed, costOf(task, ours.uses)]).toEqual([seed, theirs])
      }
    }
    expect(none).toBeGreaterThan(3)
  })
})

test('planted lists, cut from full bars at random, come back in as many bars', () => {
  for (const [count, capacity, most] of [
    [5, 6096, 6],
    [12, 3048, 5],
    [15, 1000, 4],
    [25, 120, 6],
    [40, 60, 5],
    [8, 6096, 12],
  ] as const)
    for (let seed = 1; seed <= 4; seed += 1) {
      const task = planted(seed, count, capacity, most)
      const ours = solved(task)
      expectCut(task, ours.uses)
      expect([count, seed, bars(ours.uses), ours.bound, ours.proven]).toEqual([count, seed, count, count, true])
    }
})

test('never more than the plain rule gives, and never below the linear bound', () => {
  for (let seed = 1; seed <= 60; seed += 1) {
    const task = shopList(seed, { lengths: 25, pieces: 200, shortestMm: 150 })
    const ours = solved(task)
    expectCut(task, ours.uses)
    if (ours.plain !== null) expect(costOf(task, ours.uses)).toBeLessThanOrEqual(costOf(task, ours.plain))
    expect(costOf(task, ours.uses) * ours.relaxation!.scale).toBeGreaterThanOrEqual(ours.relaxation!.boundScaled)
    expect([seed, ours.proven]).toEqual([seed, true])
  }
})

test('the worths that prove the linear bound load no bar with more than it costs', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const task = shopList(seed, { lengths: 7, pieces: 30, shortestMm: 300 })
    const { worth, rent, scale, boundScaled } = solved(task).relaxation!
    for (const { stock, counts } of allPatterns(task)) {
      const load = counts.reduce((sum, n, i) => sum + n * worth[i]!, 0)
      expect(load).toBeLessThanOrEqual(task.stocks[stock]!.cost * scale + rent[stock]!)
    }
    const sum = task.items.reduce((all, item, i) => all + item.demand * worth[i]!, 0)
    const rents = task.stocks.reduce((all, stock, j) => all + (rent[j]! > 0 ? rent[j]! * stock.limit : 0), 0)
    expect(boundScaled).toBe(sum - rents)
  }
})

const oneKind = (capacity: number, rows: readonly (readonly [number, number])[]): CutTask => ({
  stocks: [{ capacity, capacity2: 0, cost: 1, limit: FREE }],
  items: rows.map(([size, demand]) => ({ size, size2: 0, demand })),
})

// Fieldhouse, The duality gap in trim problems, SICOP Bulletin 5 (1990): 2 bars by length, 3 needed. Provenance: memory
test('the shortest list whose material bound falls short needs three bars', () => {
  const ours = solved(
    oneKind(132, [
      [44, 2],
      [33, 3],
      [12, 6],
    ]),
  )
  expect([bars(ours.uses), ours.materialBound, ours.proven]).toEqual([3, 2, true])
})

test('lists whose linear bound no plan meets are proven by search, and the judge agrees', async () => {
  const highs = await loadHighs()
  for (const [task, linear, count] of [
    [
      oneKind(36, [
        [18, 5],
        [14, 3],
        [12, 5],
        [7, 3],
      ]),
      5.9667,
      7,
    ],
    [
      oneKind(44, [
        [23, 4],
        [22, 3],
        [17, 1],
        [13, 5],
        [10, 5],
      ]),
      7,
      8,
    ],
    [
      oneKind(106, [
        [62, 5],
        [51, 1],
        [35, 1],
        [34, 3],
        [26, 4],
        [22, 5],
      ]),
      7,
      8,
    ],
  ] as const) {
    const ours = solved(task)
    expect(ours.relaxation!.boundScaled / ours.relaxation!.scale).toBeCloseTo(linear, 4)
    expect([bars(ours.uses), ours.bound, ours.boundKind, ours.proven]).toEqual([count, count, 'search', true])
    expect(judged(highs, task)).toBe(count)
  }
})

test('more stock never costs more', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const task = shopList(seed, { lengths: 10, pieces: 60, shortestMm: 300 })
    const before = solved(task)
    const stock = { capacity: 2 * 2440 + 5, capacity2: 0, cost: task.stocks[0]!.cost, limit: 2 }
    const after = solved({ ...task, stocks: [...task.stocks, stock] })
    expect([before.proven, after.proven]).toEqual([true, true])
    expect(costOf({ ...task, stocks: [...task.stocks, stock] }, after.uses)).toBeLessThanOrEqual(costOf(task, before.uses))
  }
})

test('the same task takes the same work, and work that runs out proves nothing it should not', () => {
  const task = planted(3, 20, 6096, 5)
  const full = solved(task)
  expect(solved(task).work).toBe(full.work)
  const cut = solved(task, 1e5)
  expect(cut.outcome).toBe('cut')
  expectCut(task, cut.uses)
  expect(cut.bound).toBeLessThanOrEqual(20)
  expect(cut.proven).toBe(bars(cut.uses) === 20)
})

test('what is not whole, negative or out of order is a fault', () => {
  const stocks = [{ capacity: 100, capacity2: 0, cost: 1, limit: FREE }]
  for (const items of [
    [{ size: 1.5, size2: 0, demand: 1 }],
    [{ size: 0, size2: 0, demand: 1 }],
    [{ size: 5, size2: 0, demand: -1 }],
    [
      { size: 5, size2: 0, demand: 1 },
      { size: 6, size2: 0, demand: 1 },
    ],
  ])
    expect(() => solved({ stocks, items })).toThrow(Fault)
})
