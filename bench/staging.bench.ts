import { seeded } from '../packages/engine/src/kernel/index.ts'
import { type StagingTask, stagedTasks } from '../packages/engine/src/power/staging/index.ts'
import type { Bench } from './run.ts'

const OBJECTIVE = { primary: [0, 1, 2], total: 3, dimensions: 4 }
const LEGS = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 1, 0],
  [0, 1, 1],
  [1, 0, 1],
] as const
/** As plan asks for one box. */
const BOX_WORK = 500_000

/** A yard of heaters in four evening and night waves, runs of whole hours, on three legs. Invented, seeded. */
function yard(count: number): readonly StagingTask[] {
  const random = seeded(60)
  return Array.from({ length: count }, (_, i) => {
    const legs = LEGS[i % LEGS.length] as readonly number[]
    const currentA = random.pick([6.25, 8.33, 12.5, 10.8])
    const runH = 2 + random.below(4)
    const volts = legs.reduce((sum, on) => sum + on, 0) === 2 ? 208 : 120
    return {
      name: `T${i}`,
      load: [...legs.map((on) => on * currentA), volts * currentA],
      runH,
      fromH: 16 + random.below(4) * 2,
      windowH: runH + 1 + random.below(7),
    }
  })
}

const small = yard(15)
const yards = [60, 240, 960].map(yard)
const first = 'staging, 60 machines on three legs'

export const benches: readonly Bench[] = [
  { name: 'staging, 15 machines on three legs', run: () => stagedTasks(small, OBJECTIVE, BOX_WORK).primary.after },
  ...yards.map(
    (tasks): Bench => ({
      name: `staging, ${tasks.length} machines on three legs`,
      run: () => stagedTasks(tasks, OBJECTIVE, BOX_WORK).primary.after,
      ...(tasks.length === 60 ? { limitS: 0.05 } : { against: first, slow: true }),
    }),
  ),
]
