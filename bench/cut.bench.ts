import { cutPlan } from '../packages/engine/src/shop/cut/index.ts'
import { allPatterns, judged, loadHighs } from '../packages/engine/src/shop/cut/judge.fixture.ts'
import { shopList } from '../packages/engine/src/shop/cut/lists.fixture.ts'
import { solved } from '../packages/engine/src/shop/cut/solve.ts'
import type { Bench } from './run.ts'

const highs = await loadHighs()
const PATTERNS_MOST = 300

/** Random shop lists of at most so many lengths and pieces; the worst of them stands alone. */
const lists = Array.from({ length: 60 }, (_, i) => shopList(1000 + i, { lengths: 25, pieces: 200, shortestMm: 200 }))
const timed = lists.map((task) => {
  const started = performance.now()
  if (!solved(task).proven) throw new Error('a list of the bench is not proven')
  return { task, took: performance.now() - started }
})
const order = timed.toSorted((a, b) => a.took - b.took)
const middle = order[order.length >> 1]!.task
const worst = order.at(-1)!.task

/** The slowest found among 9000 lists, by lengths, pieces and shortest. */
const hard = [
  shopList(3218, { lengths: 25, pieces: 250, shortestMm: 150 }),
  shopList(438, { lengths: 25, pieces: 200, shortestMm: 300 }),
]

/** HiGHS is given every way to cut a bar ready-made; lists with too many ways it does not get at all. */
const both = lists
  .map((task) => ({ task, patterns: allPatterns(task, PATTERNS_MOST) }))
  .filter(({ patterns }) => patterns.length <= PATTERNS_MOST)
  .slice(0, 6)

export const benches: readonly Bench[] = [
  { name: 'cut, 25 lengths, 200 pieces: middle of 60 lists', run: () => solved(middle), limitS: 0.02 },
  { name: 'cut, 25 lengths, 200 pieces: worst of 60 lists', run: () => solved(worst), limitS: 0.2 },
  { name: 'cut, the two slowest of 9000 lists, together', run: () => hard.map((task) => solved(task).bound), limitS: 0.3 },
  {
    name: `cut, ${both.length} lists of up to ${PATTERNS_MOST} ways, together: HiGHS`,
    run: () => both.map(({ task, patterns }) => judged(highs, task, patterns)),
    slow: true,
  },
  {
    name: `cut, ${both.length} lists of up to ${PATTERNS_MOST} ways, together: ours`,
    against: `cut, ${both.length} lists of up to ${PATTERNS_MOST} ways, together: HiGHS`,
    run: () => both.map(({ task }) => solved(task).bound),
    slow: true,
  },
  {
    name: 'cut plan with marks, set-ups and working, 12 lengths',
    run: () =>
      cutPlan({
        stocks: [
          { id: 'long', lengthMm: 6096, costMoney: 41.5, count: null },
          { id: 'short', lengthMm: 3048, costMoney: 23.9, count: null },
        ],
        kerfMm: 2.5,
        trimMm: 0,
        pieces: Array.from({ length: 12 }, (_, i) => ({ id: `p${i}`, lengthMm: 305 + 173 * i, count: 3 + (i % 5), label: '' })),
      }),
    limitS: 0.02,
  },
]
