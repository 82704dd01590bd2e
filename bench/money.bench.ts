import { spreadOf } from '../packages/engine/src/money/index.ts'
import type { Bench } from './run.ts'

/** As many things as a job of two boxes draws: sheets of the bill, trades, bought services, haul, risks that may come. */
const things = Array.from({ length: 28 }, (_, i) => ({
  what: `thing ${i}`,
  chanceFrac: i % 4 === 0 ? 0.2 : 1,
  triangle: { lowMoney: 100 + i, likelyMoney: 150 + 2 * i, highMoney: 300 + 5 * i },
}))

export const benches: readonly Bench[] = [
  { name: 'money, 10,000 draws of 28 things', run: () => spreadOf(things, { drawsCount: 10_000, seed: 1 }), limitS: 0.1 },
]
