import { describe, expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { dualSimplex } from './dual-simplex.ts'
import { allPatterns, judged, loadHighs } from './judge.fixture.ts'
import { shopList } from './lists.fixture.ts'
import { costOf } from './model.ts'
import { type Row, roundedCuts } from './rounded-cuts.ts'
import { solved } from './solve.ts'
import { passes } from './whole-proof.ts'

// Judge: HiGHS 1.15 (MIT), the integer program over every pattern.
test('lists whose relaxation just meets a target that no plan meets: the judge agrees, in little work', async () => {
  const highs = await loadHighs()
  for (const [seed, pieces, shortestMm] of [
    [1156, 200, 200],
    [118, 100, 400],
  ] as const) {
    const task = shopList(seed, { lengths: 25, pieces, shortestMm })
    const ours = solved(task)
    expect([seed, ours.proven, costOf(task, ours.uses)]).toEqual([seed, true, judged(highs, task, allPatterns(task))])
    expect(ours.work).toBeLessThan(2e7)
  }
}, 240_000)

test('the hardest of 9000 random shop lists are proven, each in less than a hundredth of the work there is', () => {
  for (const [seed, pieces, shortestMm] of [
    [93, 200, 150],
    [438, 200, 300],
    [753, 200, 300],
    [1098, 200, 200],
    [1365, 200, 150],
  ] as const) {
    const ours = solved(shopList(seed, { lengths: 25, pieces, shortestMm }))
    expect([seed, ours.proven]).toEqual([seed, true])
    expect(ours.work, String(seed)).toBeLessThan(6e7)
  }
})

/** A small covering program with few ways, some of their numbers limited. */
function program(seed: number): { readonly cost: Float64Array; readonly rows: readonly Row[] } {
  const random = seeded(seed)
  const n = 3 + random.below(5)
  const rows = Array.from(
    { length: 2 + random.below(4) },
    (): Row => ({ of: Float64Array.from({ length: n }, () => random.below(4)), least: random.below(9) }),
  )
  const limit: Row = { of: Float64Array.from({ length: n }, (_, p) => (p < 2 ? -1 : 0)), least: -random.below(4) }
  return { cost: Float64Array.from({ length: n }, () => 1 + random.below(6)), rows: [...rows, limit] }
}

describe('the pieces of it, over 300 random programs', async () => {
  const highs = await loadHighs()
  const relaxation = ({ cost, rows }: ReturnType<typeof program>): number | null => {
    const sum = (of: ArrayLike<number>) => Array.from(of, (a, p) => `${a < 0 ? '-' : '+'} ${Math.abs(a)} x${p}`).join(' ')
    const text = rows.map((row, r) => `r${r}: ${sum(row.of)} >= ${row.least}`)
    const answer = highs.solve(['Minimize', `c: ${sum(cost)}`, 'Subject To', ...text, 'End'].join('\n'))
    return answer.Status === 'Optimal' ? answer.ObjectiveValue : null
  }

  test('the dual simplex finds the judge’s optimum, and its weights show where there is none', () => {
    let none = 0
    for (let seed = 1; seed <= 300; seed += 1) {
      const { cost, rows } = program(seed)
      const ours = dualSimplex(cost, rows, 1e6, { left: 1e9 })!
      const theirs = relaxation({ cost, rows })
      expect([seed, ours.times === null]).toEqual([seed, theirs === null])
      if (ours.times !== null) {
        expect(ours.times.reduce((sum, x, p) => sum + x * cost[p]!, 0)).toBeCloseTo(theirs!, 6)
        continue
      }
      none += 1
      const weigh = (of: (row: Row) => number) => rows.reduce((sum, row, r) => sum + ours.weights[r]! * of(row), 0)
      cost.forEach((c, p) => {
        expect(weigh((row) => row.of[p]!)).toBeLessThanOrEqual(c + 1e-3)
      })
      expect(weigh((row) => row.least)).toBeGreaterThan(1e6)
    }
    expect(none).toBeGreaterThan(10)
  })

  test('weights prove what is below the optimum, and no weights what is not', () => {
    for (let seed = 1; seed <= 300; seed += 1) {
      const { cost, rows } = program(seed)
      const least = relaxation({ cost, rows })
      if (least === null || least < 1) continue
      const most = cost.map(() => 20)
      const random = seeded(seed)
      const proven = (room: number, weights: readonly number[]) => passes({ rows, cost, most, room, scale: 2 ** 20 }, weights)
      const lp = dualSimplex(cost, rows, 0.9 * least, { left: 1e9 })!
      expect([seed, proven(0.9 * least, lp.weights ?? [])]).toEqual([seed, true])
      for (let turn = 0; turn < 50; turn += 1)
        expect([
          seed,
          proven(
            Math.ceil(least),
            rows.map(() => random.between(0, 5)),
          ),
        ]).toEqual([seed, false])
    }
  })

  test('a rounded row leaves out the fractional plan and no whole one', () => {
    let cuts = 0
    for (let seed = 1; seed <= 300; seed += 1) {
      const { cost, rows } = program(seed)
      const lp = dualSimplex(cost, rows, 1e6, { left: 1e9 })!
      if (lp.times === null) continue
      const made = roundedCuts(rows, lp.times, lp.weighings(), { left: 1e9 })
      const meets = (row: Row, x: ArrayLike<number>) => row.of.reduce((sum, a, p) => sum + a * x[p]!, 0) >= row.least - 1e-6
      for (const cut of made) expect(meets(cut, lp.times)).toBe(false)
      cuts += made.length
      const x = [...cost].map(() => 0)
      const random = seeded(seed)
      for (let turn = 0; turn < 400; turn += 1) {
        x.forEach((_, p) => {
          x[p] = random.below(5)
        })
        if (rows.every((row) => meets(row, x))) for (const cut of made) expect([seed, meets(cut, x)]).toEqual([seed, true])
      }
    }
    expect(cuts).toBeGreaterThan(200)
  })
})
