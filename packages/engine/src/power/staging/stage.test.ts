import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { seeded } from '../../kernel/index.ts'
import { compulsoryBound, lowerBounds, spanBounds, surelyInsideH, wholeWindowBounds } from './bounds.ts'
import { SUM_ONLY, stagingCases, tasksOfCase } from './cases.ts'
import { planBelow } from './exact.ts'
import { profileOf } from './profile.ts'
import { stagedTasks } from './stage.ts'
import { gridTask, isFixed, type StagingTask } from './task.ts'

const published: readonly { id: string; given: never; expect: Record<string, number>; tolerance: { absolute: number } }[] = parse(
  readFileSync(new URL('../../../check/staging.yaml', import.meta.url), 'utf8'),
)

for (const c of published) {
  test(`${c.id}: bound and proven optimum as by exhaustive search`, () => {
    const ours = stagingCases[c.id]?.(c.given) ?? {}
    for (const [key, value] of Object.entries(c.expect))
      expect(Math.abs((ours[key] as number) - value), key).toBeLessThanOrEqual(c.tolerance.absolute)
  })
}

test('plain energy over whole windows gives 5.667 for the two kinds of stg-04, below the energetic 7', () => {
  const tasks = tasksOfCase([
    { n: 4, kW: 1.5, h: 3, window_h: [10.5, 16.5] },
    { n: 4, kW: 1, h: 4, window_h: [10.5, 16.5] },
  ])
  expect(wholeWindowBounds(tasks, 1)[0]?.value).toBeCloseTo(34 / 6, 9)
  expect(spanBounds(tasks, 1, true)[0]?.value).toBeCloseTo(7, 9)
  expect(compulsoryBound(tasks.map((t) => ({ ...t, p: t.load[0] as number }))).value).toBeCloseTo(4, 9)
})

const boundsOf = (tasks: readonly StagingTask[]) => lowerBounds(tasks, 1)[0]?.bounds ?? []

/** Least peak by trying every combination of starts on the quarter-hour, written apart from the search: hours on a circle, no profile kept. */
function leastPeakByTrying(tasks: readonly StagingTask[]): number {
  const choices = tasks.map((t) => {
    const starts: number[] = []
    const last = t.windowH >= 24 ? 23.75 : t.windowH - t.runH
    for (let s = 0; s <= last + 1e-9; s += 0.25) starts.push((t.fromH + s) % 24)
    return starts
  })
  let least = Infinity
  const at: number[] = []
  const highest = () => {
    let top = 0
    for (let now = 0.125; now < 24; now += 0.25) {
      let sum = 0
      tasks.forEach((t, i) => {
        if ((now - (at[i] as number) + 24) % 24 < t.runH) sum += t.load[0] as number
      })
      top = Math.max(top, sum)
    }
    return top
  }
  const go = (i: number): void => {
    if (i === tasks.length) {
      least = Math.min(least, highest())
      return
    }
    for (const s of choices[i] as number[]) {
      at[i] = s
      go(i + 1)
    }
  }
  go(0)
  return least
}

function randomTasks(seed: number, count: number, widest: number): StagingTask[] {
  const r = seeded(seed)
  return Array.from({ length: count }, (_, i) => {
    const runH = (1 + r.below(8)) / 4
    const windowH = runH + r.below(widest) / 4
    return { name: `T${i}`, load: [(1 + r.below(6)) / 2], runH, fromH: r.below(12) / 4 + (seed % 3 === 0 ? 22 : 6), windowH }
  })
}

test('120 random small days, some across midnight: the peak is the least of every combination of starts, and is said to be proven', () => {
  for (let seed = 1; seed <= 120; seed++) {
    const tasks = randomTasks(seed, 3 + (seed % 2), seed % 2 === 0 ? 8 : 6)
    const plan = stagedTasks(tasks, SUM_ONLY)
    const least = leastPeakByTrying(tasks)
    expect(plan.primary.after, `seed ${seed}`).toBeCloseTo(least, 9)
    expect(plan.primary.proof, `seed ${seed}`).toBe('proven')
    for (const b of boundsOf(tasks)) expect(b.value, `seed ${seed} ${b.rule}`).toBeLessThanOrEqual(least + 1e-9)
  }
})

test('the exact search alone finds a plan just above the least peak of every combination, and none below it', () => {
  for (let seed = 200; seed < 280; seed++) {
    const tasks = randomTasks(seed, 4, 7)
    const grid = tasks.map(gridTask)
    const moving = grid.flatMap((t, i) => (isFixed(t) ? [] : [i]))
    const fixed = grid.filter(isFixed)
    const standing = profileOf(
      fixed,
      fixed.map((t) => t.starts[0] as number),
      1,
    )
    const least = leastPeakByTrying(tasks)
    const above = planBelow(grid, moving, standing, SUM_ONLY, least + 0.01)
    expect(above.kind, `seed ${seed}`).toBe('found')
    expect(planBelow(grid, moving, standing, SUM_ONLY, least).kind, `seed ${seed}`).toBe('none')
  }
})

test('runs free on the whole circle: least peak as by trying, bounds not above it', () => {
  for (let seed = 1; seed <= 6; seed++) {
    const r = seeded(seed + 500)
    const tasks: StagingTask[] = [
      { name: 'F', load: [1 + r.below(3)], runH: 5 + r.below(8), fromH: 0, windowH: 24 },
      { name: 'G', load: [1 + r.below(3)], runH: 9 + r.below(8), fromH: 0, windowH: 24 },
      { name: 'H', load: [2], runH: 9, fromH: 20, windowH: 10 },
    ]
    const plan = stagedTasks(tasks, SUM_ONLY)
    const least = leastPeakByTrying(tasks)
    expect(plan.primary.after, `seed ${seed}`).toBeCloseTo(least, 9)
    for (const b of boundsOf(tasks)) expect(b.value, `seed ${seed} ${b.rule}`).toBeLessThanOrEqual(least + 1e-9)
  }
})

test('the hours that cannot fall outside a span are the least overlap over every allowed start', () => {
  const r = seeded(77)
  for (let k = 0; k < 400; k++) {
    const runH = (1 + r.below(40)) / 4
    const windowH = Math.min(23.75, runH + r.below(40) / 4)
    const task = { p: 1, runH, fromH: r.below(96) / 4, windowH }
    const from = r.below(96) / 4
    const length = (1 + r.below(95)) / 4
    let least = Infinity
    for (let s = 0; s <= windowH - runH + 1e-9; s += 0.25) {
      let inside = 0
      for (let q = 0.125; q < runH; q += 0.25) if ((task.fromH + s + q - from + 48) % 24 < length) inside += 0.25
      least = Math.min(least, inside)
    }
    expect(surelyInsideH(task, from, length, true), JSON.stringify({ task, from, length })).toBeCloseTo(least, 9)
  }
})

test('two legs: the higher leg is made least, not the sum', () => {
  const onLeg = (name: string, load: readonly number[]): StagingTask => ({ name, load, runH: 2, fromH: 0, windowH: 4 })
  const tasks = [onLeg('a1', [12.5, 0]), onLeg('a2', [12.5, 0]), onLeg('b1', [0, 12.5]), onLeg('b2', [0, 12.5])]
  const plan = stagedTasks(tasks, { primary: [0, 1], total: null, dimensions: 2 })
  expect(plan.primary).toMatchObject({ after: 12.5, bound: 12.5, proof: 'proven' })
})

test('the order of the tasks changes neither the peak nor, with names, the starts', () => {
  const tasks = tasksOfCase([
    { n: 4, kW: 1.5, h: 2, window_h: [0, 7] },
    { n: 3, kW: 1, h: 3, window_h: [0, 5] },
    { n: 2, kW: 2.25, h: 2, window_h: [2, 7] },
  ])
  const forth = stagedTasks(tasks, SUM_ONLY)
  const back = stagedTasks([...tasks].reverse(), SUM_ONLY)
  const byName = (names: readonly StagingTask[], starts: readonly number[]) =>
    Object.fromEntries(names.map((t, i) => [t.name, starts[i]]))
  expect(byName([...tasks].reverse(), back.startH)).toEqual(byName(tasks, forth.startH))
})

test('every run lies inside its window and the profile holds the energy of all runs', () => {
  const tasks = randomTasks(9, 12, 40)
  const plan = stagedTasks(tasks, SUM_ONLY)
  tasks.forEach((t, i) => {
    const after = ((plan.startH[i] as number) - t.fromH + 24) % 24
    expect(after + t.runH).toBeLessThanOrEqual(t.windowH + 1e-9)
  })
  const energy = profileOf(
    plan.tasks,
    plan.startH.map((h) => h * 4),
    1,
  ).reduce((sum, kW) => sum + kW / 4, 0)
  expect(energy).toBeCloseTo(
    tasks.reduce((sum, t) => sum + (t.load[0] as number) * t.runH, 0),
    9,
  )
})

test('a run that is no whole number of quarter-hours is proven on the grid only, unless a bound is reached', () => {
  const tasks = [0, 1, 2].map((k) => ({ name: `R${k}`, load: [1], runH: 1.1, fromH: 0.1, windowH: 2.9 }))
  const plan = stagedTasks(tasks, SUM_ONLY)
  expect(['proven', 'proven on the grid']).toContain(plan.primary.proof)
  expect(plan.primary.after).toBe(2)
})

test('a window shorter than the run is our own mistake, not a plan', () => {
  expect(() => stagedTasks([{ name: 'X', load: [1], runH: 5, fromH: 0, windowH: 4 }], SUM_ONLY)).toThrowError(
    /staging\/task-range/,
  )
})
