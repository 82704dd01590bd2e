import { Engine, startHelper } from '../engine/client.ts'
import type { Jobs } from '../store/jobs.ts'

/** Workers of their own for pieces of work, with the shop that the tab works for. */
export async function helpersFor(jobs: Jobs, count: number): Promise<readonly Engine[]> {
  const shop = await jobs.shop().catch(() => undefined)
  const own = Array.from({ length: count }, () => new Engine(startHelper))
  if (shop !== undefined) for (const helper of own) void helper.serve(shop)
  return own
}

let ahead: Promise<unknown> = Promise.resolve()

/** What a person waits for goes first: until it is answered, or fails, no worker begins another piece. */
export function first<T>(answer: Promise<T>): Promise<T> {
  ahead = Promise.allSettled([ahead, answer])
  return answer
}

/** Until nobody waits, whoever began to wait meanwhile too. */
async function nobodyWaits(): Promise<void> {
  for (let was: Promise<unknown> | null = null; was !== ahead; ) {
    was = ahead
    await was
  }
}

/** Each worker takes the next piece as soon as it is done with its last; stopped, what is done stays. */
export async function inPieces<Step, Part>(of: {
  readonly helpers: readonly Engine[]
  readonly steps: readonly Step[]
  readonly part: (helper: Engine, step: Step) => Promise<Part | null>
  readonly stopped: () => boolean
  /** Told after each. */
  readonly done: () => void
}): Promise<readonly Part[]> {
  const parts: Part[] = []
  let next = 0
  const take = async (helper: Engine): Promise<void> => {
    while (!of.stopped() && next < of.steps.length) {
      await nobodyWaits()
      if (of.stopped() || next >= of.steps.length) break
      const step = of.steps[next++] as Step
      const part = await of.part(helper, step)
      if (part !== null) parts.push(part)
      of.done()
    }
  }
  await Promise.all(of.helpers.map(take))
  return parts
}
