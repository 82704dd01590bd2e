import { readFileSync } from 'node:fs'
import { materialMoney, readPrices } from '../packages/engine/src/parts/index.ts'
import { answerCircuits, balancedLegs, designCircuits } from '../packages/engine/src/power/circuits/index.ts'
import { GROOMER_PLUGS, yardOf } from '../packages/engine/src/power/circuits/yards.fixture.ts'
import type { Bench } from './run.ts'

const read = readPrices(readFileSync(new URL('../shop/prices/invented-2026.yaml', import.meta.url), 'utf8'))
if (!read.ok) throw new Error('the price table cannot be read')
const prices = read.value

/** The groomer yard of 28 plugs, a quarter of it, and four times it under other tags. */
const plugsOf = (count: number) =>
  Array.from({ length: count }, (_, i) => {
    const plug = GROOMER_PLUGS[i % GROOMER_PLUGS.length]!
    const turn = Math.floor(i / GROOMER_PLUGS.length)
    return turn === 0 ? plug : { ...plug, tag: `${plug.tag}-${turn}`, machine: `${plug.machine}-${turn}` }
  })

const yards = [7, 28, 112].map((count) => ({
  count,
  yard: yardOf({ plugs: plugsOf(count), prices, request: { serviceA: 800 } }),
}))
const { box } = yards[1]!.yard
const items = Array.from({ length: 14 }, (_, i) => ({
  id: `c${i}`,
  options: [['A'], ['B'], ['C']] as const,
  profileA: Array.from({ length: 96 }, (_, t) => (t >= i * 4 && t < i * 4 + 40 ? 5 + i : 0)),
  allOnA: 5 + i,
}))

export const benches: readonly Bench[] = [
  ...yards.map(({ count, yard }) => ({
    name: `circuits of one box, ${count} machines, judged`,
    run: () => answerCircuits(yard.inputs),
    ...(count === 28 ? { limitS: 0.001 } : {}),
  })),
  ...yards.map(({ count, yard }) => ({
    name: `circuits of one box, ${count} machines, designed`,
    run: () => designCircuits(yard.request),
  })),
  {
    name: 'circuits of one box, 28 machines, judged and every list read',
    against: 'circuits of one box, 28 machines, judged',
    run: () => JSON.stringify(answerCircuits(yards[1]!.yard.inputs).result),
  },
  {
    name: 'legs of 14 unlike circuits on three phases',
    run: () => balancedLegs({ legs: ['A', 'B', 'C'], items, allOnLimitA: 1000 }),
  },
  { name: 'material of one box priced', run: () => materialMoney(box, prices) },
]
