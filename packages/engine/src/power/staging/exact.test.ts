import { expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { lowerBounds } from './bounds.ts'
import { SUM_ONLY } from './cases.ts'
import { MOST_EXACT_WORK, planBelow } from './exact.ts'
import { hardDay } from './hard-days.fixture.ts'
import { judgedPeakA, loadHighs } from './judge.fixture.ts'
import { peakOf, profileOf } from './profile.ts'
import type { Objective } from './search.ts'
import { stagedTasks } from './stage.ts'
import { MOST_BOX_WORK } from './stage-box.ts'
import { gridTask, isFixed, type StagingTask } from './task.ts'

const DAYS = 48

test('48 hard days of 15 runs on one, two, three legs: every one is proven, within half the counted work', () => {
  for (let seed = 1; seed <= DAYS; seed++) {
    const { tasks, objective } = hardDay(seed)
    const plan = stagedTasks(tasks, objective)
    expect(plan.primary.proof, `seed ${seed}`).toBe('proven')
    expect(plan.workCount, `seed ${seed}`).toBeLessThan(MOST_EXACT_WORK / 2)
    tasks.forEach((t, i) => {
      const after = ((plan.startH[i] as number) - t.fromH + 24) % 24
      expect(after + t.runH, `seed ${seed} ${t.name}`).toBeLessThanOrEqual(t.windowH + 1e-9)
    })
    const profile = profileOf(
      plan.tasks,
      plan.startH.map((h) => h * 4),
      objective.dimensions,
    )
    expect(Math.max(...objective.primary.map((d) => peakOf(profile, d).value))).toBeCloseTo(plan.primary.after, 9)
  }
})

test('with the work of one box at least nine of ten of them are proven, and what is not is a gap above the bound', () => {
  let proven = 0
  for (let seed = 1; seed <= DAYS; seed++) {
    const { tasks, objective } = hardDay(seed)
    const { primary } = stagedTasks(tasks, objective, MOST_BOX_WORK)
    if (primary.proof === 'proven') proven++
    else expect(primary.gapFrac, `seed ${seed}`).toBeGreaterThan(0)
  }
  expect(proven).toBeGreaterThanOrEqual(0.9 * DAYS)
})

/** @source HiGHS, an integer-programming solver, on a program with one unknown for every run and start. */
test('36 hard days of 8 runs: the peak is the optimum that the judge finds', async () => {
  const highs = await loadHighs()
  let judged = 0
  for (let seed = 1; seed <= 36; seed++) {
    const day = hardDay(seed, 8)
    const theirs = judgedPeakA(highs, day, 3000)
    if (theirs === null) continue
    judged++
    const { primary } = stagedTasks(day.tasks, day.objective)
    expect(primary.after, `seed ${seed}`).toBeCloseTo(theirs, 4)
    expect(primary.proof, `seed ${seed}`).toBe('proven')
  }
  expect(judged).toBeGreaterThanOrEqual(30)
}, 240_000)

/** @source HiGHS, as above. */
test('8 hard days of 15 runs: the peak is the optimum that the judge finds', async () => {
  const highs = await loadHighs()
  let judged = 0
  for (let seed = 2; seed <= 9; seed++) {
    const day = hardDay(seed)
    const theirs = judgedPeakA(highs, day, 4000)
    if (theirs === null) continue
    judged++
    expect(stagedTasks(day.tasks, day.objective).primary.after, `seed ${seed}`).toBeCloseTo(theirs, 4)
  }
  expect(judged).toBeGreaterThanOrEqual(6)
}, 240_000)

/** Least peak of every combination of starts, hour by hour: for a few runs on several legs. */
function leastByTrying(tasks: readonly StagingTask[], { primary }: Objective): number {
  let least = Infinity
  const at: number[] = []
  const go = (i: number): void => {
    if (i < tasks.length) {
      const t = tasks[i] as StagingTask
      const last = t.windowH >= 24 ? 23.75 : t.windowH - t.runH
      for (let s = 0; s <= last + 1e-9; s += 0.25) {
        at[i] = t.fromH + s
        go(i + 1)
      }
      return
    }
    let top = 0
    for (let now = 0.125; now < 24; now += 0.25) {
      for (const d of primary) {
        let sum = 0
        tasks.forEach((t, k) => {
          if ((now - (at[k] as number) + 48) % 24 < t.runH) sum += t.load[d] as number
        })
        top = Math.max(top, sum)
      }
    }
    least = Math.min(least, top)
  }
  go(0)
  return least
}

/** Few runs, some alike, some of them between two legs, some free on the whole circle, beside one that stands. */
function smallDay(seed: number): { tasks: StagingTask[]; objective: Objective } {
  const r = seeded(seed * 31)
  const legs = 1 + (seed % 3)
  const pick = () => {
    const load = new Array<number>(legs).fill(0)
    const first = r.below(legs)
    load[first] = r.pick([1000 / 120, 12.5, 2250 / 208])
    if (legs > 1 && r.below(2) === 0) load[(first + 1) % legs] = load[first] as number
    return load
  }
  const standing: StagingTask = { name: 'S', load: pick(), runH: 1.5, fromH: 23, windowH: 1.5 }
  const moving = Array.from({ length: 3 }, (_, i): StagingTask => {
    const runH = (2 + r.below(6)) / 4
    return { name: `M${i}`, load: pick(), runH, fromH: (21 + r.below(8) / 4) % 24, windowH: runH + (3 + r.below(6)) / 4 }
  })
  const twin = { ...(moving[0] as StagingTask), name: 'T' }
  const free: StagingTask = { name: 'W', load: pick(), runH: 16 + r.below(28) / 4, fromH: r.below(96) / 4, windowH: 24 }
  const last = seed % 4 === 0 ? free : twin
  return {
    tasks: [standing, ...(seed % 4 === 0 ? moving.slice(0, 2) : moving), last],
    objective: { primary: Array.from({ length: legs }, (_, d) => d), total: null, dimensions: legs },
  }
}

test('60 small days with alike, standing and all-day runs on one to three legs: least peak as by every combination, no bound above it', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const { tasks, objective } = smallDay(seed)
    const least = leastByTrying(tasks, objective)
    const { primary } = stagedTasks(tasks, objective)
    expect(primary.after, `seed ${seed}`).toBeCloseTo(least, 6)
    expect(primary.proof, `seed ${seed}`).toBe('proven')
    const highest = Math.max(...lowerBounds(tasks, objective.dimensions).map((b) => b.bound))
    expect(highest, `seed ${seed}`).toBeLessThanOrEqual(least + 1e-6)
    // The search alone, without the bounds and the moves before it.
    const grid = tasks.map(gridTask)
    const fixed = grid.filter(isFixed)
    const standing = profileOf(
      fixed,
      fixed.map((t) => t.starts[0] as number),
      objective.dimensions,
    )
    const moving = grid.flatMap((t, i) => (isFixed(t) ? [] : [i]))
    expect(planBelow(grid, moving, standing, objective, least).kind, `seed ${seed}`).toBe('none')
    expect(planBelow(grid, moving, standing, objective, least + 1e-5).kind, `seed ${seed}`).toBe('found')
  }
})

test('a sum of loads with endless decimals reaches its own bound: it is not rounded up past it', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const r = seeded(seed)
    const volts = r.pick([120, 208, 120_000])
    const always = Array.from({ length: 6 }, () => ((1 + r.below(40)) * 250) / (volts * r.pick([1, 0.9, 0.95])))
    const tasks = always.map((p, i): StagingTask => ({ name: `E${i}`, load: [p], runH: 6, fromH: 0, windowH: 6 }))
    const late = { name: 'L', load: [always[0] as number], runH: 2, fromH: 12, windowH: 4 }
    const { primary } = stagedTasks([...tasks, late], SUM_ONLY)
    const sum = always.reduce((all, p) => all + p, 0)
    expect(primary.after / sum, `seed ${seed}`).toBeCloseTo(1, 9)
    expect(primary.bound / sum, `seed ${seed}`).toBeCloseTo(1, 6)
  }
})

test('when the counted work ends the answer is a gap, and it is the same every time', () => {
  const { tasks, objective } = hardDay(18)
  const once = stagedTasks(tasks, objective, 2000)
  const again = stagedTasks(tasks, objective, 2000)
  expect(once.primary.proof).toBe('gap')
  expect(once.primary.after).toBeGreaterThan(once.primary.bound)
  expect(again.startH).toEqual(once.startH)
  expect(again.workCount).toBe(once.workCount)
})
