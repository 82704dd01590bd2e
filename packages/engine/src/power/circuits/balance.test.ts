import { expect, test } from 'vitest'
import type { Leg } from '../../job/index.ts'
import { seeded } from '../../kernel/index.ts'
import { type BalanceItem, type BalanceTask, balancedLegs } from './balance.ts'

const LN: Readonly<Record<number, readonly (readonly Leg[])[]>> = { 2: [['A'], ['B']], 3: [['A'], ['B'], ['C']] }
const LL: Readonly<Record<number, readonly (readonly Leg[])[]>> = {
  2: [['A', 'B']],
  3: [
    ['A', 'B'],
    ['B', 'C'],
    ['C', 'A'],
  ],
}

/** Every assignment, the plain way. */
function exhaustive(task: BalanceTask) {
  let best = { over: Infinity, peak: Infinity, squares: Infinity }
  const pick: number[] = []
  const visit = (i: number): void => {
    if (i === task.items.length) {
      const at = (t: number | null) =>
        task.legs.map((leg) =>
          task.items.reduce((sum, item, k) => {
            const a = Math.round((t === null ? item.allOnA : item.profileA[t]!) * 1000)
            return item.options[pick[k]!]!.includes(leg) ? sum + a : sum
          }, 0),
        )
      const over = Math.max(0, Math.max(...at(null)) - task.allOnLimitA * 1000)
      let peak = 0,
        squares = 0
      for (let t = 0; t < 96; t++) {
        const here = at(t)
        peak = Math.max(peak, ...here)
        squares += here.reduce((s, a) => s + a * a, 0)
      }
      const better = over !== best.over ? over < best.over : peak !== best.peak ? peak < best.peak : squares < best.squares
      if (better) best = { over, peak, squares }
      return
    }
    for (let o = 0; o < task.items[i]!.options.length; o++) {
      pick[i] = o
      visit(i + 1)
    }
  }
  visit(0)
  return best
}

function randomTask(seed: number, legs: 2 | 3, count: number): BalanceTask {
  const random = seeded(seed)
  const items: BalanceItem[] = []
  for (let i = 0; i < count; i++) {
    const amps = random.pick([1.92, 6.25, 8.33, 12.5, 15.83])
    const from = random.below(96),
      length = 4 + random.below(60)
    items.push({
      id: `c${i}`,
      options: random.next() < 0.25 ? LL[legs]! : LN[legs]!,
      profileA: Array.from({ length: 96 }, (_, t) => ((t - from + 96) % 96 < length ? amps : 0)),
      allOnA: amps,
    })
  }
  return {
    legs: legs === 2 ? ['A', 'B'] : ['A', 'B', 'C'],
    items,
    allOnLimitA: random.next() < 0.5 ? Infinity : 12 + 6 * random.below(8),
  }
}

test('legs agree with an exhaustive search on forty random boxes', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const legs = seed % 2 === 0 ? 2 : 3
    const task = randomTask(seed, legs, legs === 2 ? 8 : 6)
    const ours = balancedLegs(task)
    const theirs = exhaustive(task)
    expect(ours.proven, `seed ${seed}`).toBe(true)
    expect(Math.round(ours.overA * 1000), `over, seed ${seed}`).toBe(theirs.over)
    expect(Math.round(ours.peakA * 1000), `peak, seed ${seed}`).toBe(theirs.peak)
    expect(Math.round(ours.sumOfSquaresA2 * 1e6), `squares, seed ${seed}`).toBe(theirs.squares)
  }
})

/** Nine unlike circuits on three phases, such that moves and swaps alone stay more than 1 A above the least peak. */
function hardTask(seed: number): BalanceTask {
  const random = seeded(seed)
  const items: BalanceItem[] = []
  for (let i = 0; i < 9; i++) {
    const amps = 3 + random.below(2000) / 100
    const from = random.below(96)
    const length = 4 + random.below(60)
    const options = random.next() < 0.25 ? LL[3]! : LN[3]!
    items.push({
      id: `c${i}`,
      options,
      profileA: Array.from({ length: 96 }, (_, t) => ((t - from + 96) % 96 < length ? amps : 0)),
      allOnA: amps,
    })
  }
  return { legs: ['A', 'B', 'C'], items, allOnLimitA: Infinity }
}

test('where moves and swaps get stuck the search goes on to the least peak', () => {
  for (const seed of [1, 16]) {
    const task = hardTask(seed)
    const stuck = balancedLegs(task, 0)
    const ours = balancedLegs(task, 1_000_000)
    const theirs = exhaustive(task)
    expect(ours.proven).toBe(true)
    expect(Math.round(ours.peakA * 1000), `seed ${seed}`).toBe(theirs.peak)
    expect(ours.peakA, `seed ${seed}`).toBeLessThan(stuck.peakA - 1)
    expect(stuck.proven).toBe(false)
  }
})

test('seven equal heaters on two legs make four against three', () => {
  const items = Array.from({ length: 7 }, (_, i) => ({
    id: `h${i}`,
    options: LN[2]!,
    profileA: Array(96).fill(12.5) as number[],
    allOnA: 12.5,
  }))
  const ours = balancedLegs({ legs: ['A', 'B'], items, allOnLimitA: Infinity })
  expect(ours.peakA).toBe(50)
  expect(ours.boundA).toBe(50)
  expect(ours.proven).toBe(true)
})

test('machines that never run together share a leg rather than meet others on it', () => {
  const on = (from: number) => Array.from({ length: 96 }, (_, t) => (t >= from && t < from + 48 ? 10 : 0))
  const items = [on(0), on(0), on(48), on(48)].map((profileA, i) => ({ id: `m${i}`, options: LN[2]!, profileA, allOnA: 10 }))
  const ours = balancedLegs({ legs: ['A', 'B'], items, allOnLimitA: Infinity })
  expect(ours.peakA).toBe(10)
})

test('where the count of work runs out the answer says so and keeps a true bound', () => {
  const task = randomTask(7, 3, 30)
  const short = balancedLegs(task, 50)
  const long = balancedLegs(task)
  expect(short.proven && short.triedCount > 50).toBe(false)
  expect(short.boundA).toBeLessThanOrEqual(long.peakA)
  expect(long.peakA).toBeLessThanOrEqual(short.peakA)
})

test('the order in which circuits are written changes no figure', () => {
  for (let seed = 60; seed < 70; seed++) {
    const task = randomTask(seed, 2, 9)
    const a = balancedLegs(task)
    const b = balancedLegs({ ...task, items: [...task.items].reverse() })
    expect([b.overA, b.peakA, b.sumOfSquaresA2]).toEqual([a.overA, a.peakA, a.sumOfSquaresA2])
  }
})

test('a circuit with no legs to choose from is our own mistake', () => {
  expect(() => balancedLegs({ legs: ['A'], items: [{ id: 'x', options: [], profileA: [], allOnA: 1 }], allOnLimitA: 1 })).toThrow(
    'circuits/balance-options',
  )
})
