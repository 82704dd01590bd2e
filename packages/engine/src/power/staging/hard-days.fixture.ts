import { seeded } from '../../kernel/index.ts'
import type { Objective } from './search.ts'
import type { StagingTask } from './task.ts'

export interface HardDay {
  readonly tasks: readonly StagingTask[]
  readonly objective: Objective
}

const PLATES_A = [4.2, 6.25, 8.33, 10.8, 12.5]

/**
 * Seeded days that are hard to prove, invented for the tests: runs of 2–16 quarter-hours, every length and window another, on one, two or
 * three legs by turns; of two or three legs a third of the plugs stand between two. Odd seeds take five plates, even ones any tenth of an ampere.
 */
export function hardDay(seed: number, count = 15): HardDay {
  const r = seeded(seed * 7919)
  const legs = 1 + (seed % 3)
  const tasks = Array.from({ length: count }, (_, i): StagingTask => {
    const currentA = seed % 2 === 1 ? r.pick(PLATES_A) : (20 + r.below(140)) / 10
    const on = new Array<number>(legs).fill(0)
    const first = r.below(legs)
    on[first] = currentA
    const between = legs > 1 && r.below(3) === 0
    if (between) on[(first + 1) % legs] = currentA
    const runH = (2 + r.below(15)) / 4
    return {
      name: `H${String(i).padStart(2, '0')}`,
      load: [...on, currentA * (between ? 208 : 120)],
      runH,
      fromH: (16 + r.below(48) / 4) % 24,
      windowH: runH + (4 + r.below(37)) / 4,
    }
  })
  return { tasks, objective: { primary: Array.from({ length: legs }, (_, d) => d), total: legs, dimensions: legs + 1 } }
}
