import { answerFaults } from '../packages/engine/src/power/faults/index.ts'
import { circuit, plug, set, utility, yard } from '../packages/engine/src/power/faults/yard.fixture.ts'
import type { Bench } from './run.ts'

const boxOf = (count: number) => {
  const tags = Array.from({ length: count }, (_, i) => `H${i + 1}`)
  return yard({
    offers: [utility(), set()],
    interim: 'set',
    plugs: tags.map((tag) => plug(tag)),
    circuits: tags.map((tag, i) => circuit({ id: `C${i + 1}`, plug: tag, cordM: 10 + i })),
  })
}

/** Two source positions each; growth shown at 7, 28 and 112 machines. */
export const benches: readonly Bench[] = [7, 28, 112].map((count) => {
  const inputs = boxOf(count)
  return {
    name: `faults of one box, ${count} machines, two sources`,
    run: () => answerFaults(inputs),
    ...(count === 28 ? { limitS: 0.001 } : {}),
  }
})
