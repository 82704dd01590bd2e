import { expect, test } from 'vitest'
import { shopList } from './lists.fixture.ts'
import { type CutTask, costOf, type Use } from './model.ts'
import { fewerSetUps, largerRemnant, leastSetUps } from './set-ups.ts'
import { solved } from './solve.ts'

const free = (task: CutTask, { pattern }: Use): number =>
  pattern.counts.reduce((sum, n, i) => sum - n * task.items[i]!.size, task.stocks[pattern.stock]!.capacity)
const mostFree = (task: CutTask, uses: readonly Use[]): number => Math.max(...uses.map((use) => free(task, use)))

function expectSame(task: CutTask, before: readonly Use[], after: readonly Use[]): void {
  expect(costOf(task, after)).toBe(costOf(task, before))
  expect(after.length).toBeLessThanOrEqual(before.length)
  task.items.forEach((item, i) => {
    expect(after.reduce((sum, use) => sum + use.times * use.pattern.counts[i]!, 0)).toBe(item.demand)
  })
  for (const use of after) {
    expect(free(task, use)).toBeGreaterThanOrEqual(0)
    const second = use.pattern.counts.reduce((sum, n, i) => sum + n * task.items[i]!.size2, 0)
    expect(second).toBeLessThanOrEqual(task.stocks[use.pattern.stock]!.capacity2)
  }
}

test('the same pieces from the same bars, in fewer ways over many lists, and never in more', () => {
  let [before, after] = [0, 0]
  for (let seed = 1; seed <= 60; seed += 1) {
    const task = shopList(seed, { lengths: 20, pieces: 120, shortestMm: 300 })
    const { uses } = solved(task)
    const fewer = fewerSetUps(task, uses)
    expectSame(task, uses, fewer)
    expect(fewer.length).toBeGreaterThanOrEqual(leastSetUps(task))
    before += uses.length
    after += fewer.length
  }
  expect(after).toBeLessThan(0.85 * before)
})

test('a longer remnant in no more ways, with a second limit kept', () => {
  let longer = 0
  for (let seed = 1; seed <= 150; seed += 1) {
    const list = shopList(seed, { lengths: 8, pieces: 25, shortestMm: 400 })
    const task: CutTask = {
      items: list.items.map((item, i) => ({ ...item, size2: ((i * 5 + seed) % 9) + 1 })),
      stocks: list.stocks.map((stock) => ({ ...stock, capacity2: 16 })),
    }
    const { uses } = solved(task)
    const moved = largerRemnant(task, uses)
    expectSame(task, uses, moved)
    expect(mostFree(task, moved)).toBeGreaterThanOrEqual(mostFree(task, uses))
    if (mostFree(task, moved) > mostFree(task, uses)) longer += 1
  }
  expect(longer).toBeGreaterThan(5)
})

test('what is left over is gathered into one bar', () => {
  const task: CutTask = {
    stocks: [{ capacity: 100, capacity2: 0, cost: 1, limit: Number.POSITIVE_INFINITY }],
    items: [
      { size: 40, size2: 0, demand: 2 },
      { size: 30, size2: 0, demand: 2 },
      { size: 20, size2: 0, demand: 1 },
    ],
  }
  const uses: readonly Use[] = [
    { pattern: { stock: 0, counts: [2, 0, 0] }, times: 1 },
    { pattern: { stock: 0, counts: [0, 2, 1] }, times: 1 },
  ]
  // 160 of 200: all that is free, 40, behind one cut.
  expect(mostFree(task, largerRemnant(task, uses))).toBe(40)
})
