import type { Design, Job } from '../../job/index.ts'
import { newMemory, type Verdict, worst } from '../../kernel/index.ts'
import { assess } from '../assess.ts'
import type { Shop } from '../types.ts'
import { onlyFor } from './only.ts'
import type { Judged, TurningInput, TurningPoint, TurningPoints } from './types.ts'

/** Steps away from today's value, as shares of it: the first that turns the verdict is halved down to the point. */
const STEPS_FRAC = [0.02, 0.05, 0.1, 0.2, 0.4, 0.7, 1, 2, 4]
/** A point is found to this share of today's value: three digits are shown. */
const NEAR_FRAC = 5e-4
const MOST_HALVINGS = 12

/**
 * Each input's nearest value at which the verdict of one finding turns, the design and everything else as they are. Steps outwards on both
 * sides, then halves the step in which it turned: work is counted, and every judgement is `assess` itself with a memory of what stays.
 */
export function turningPoints(
  job: Job,
  design: Design,
  shop: Shop,
  judged: Judged,
  inputs: readonly TurningInput[],
  most = 240,
): TurningPoints {
  const memory = onlyFor(judged.question, newMemory())
  let judgedCount = 0
  const verdictOf = (j: Job, d: Design): Verdict | null => {
    judgedCount += 1
    const found = assess(j, d, shop, { memory }).findings.filter((f) => f.code === judged.code && f.subject === judged.subject)
    return found.length === 0 ? null : worst(found.map((f) => f.verdict))
  }
  const now = verdictOf(job, design)
  const known = new Map<string, Verdict | null>()
  const points: TurningPoint[] = []
  let cut = false
  for (const input of inputs) {
    if (judgedCount >= most) {
      cut = true
      break
    }
    const at = (value: number): Verdict | null => {
      const key = `${input.id} ${value}`
      if (!known.has(key)) {
        const changed = input.set(job, design, value)
        known.set(key, verdictOf(changed.job, changed.design))
      }
      return known.get(key)!
    }
    points.push(pointOf(input, now, at))
  }
  const far = (p: TurningPoint): number =>
    p.turnsAt === null ? Number.POSITIVE_INFINITY : Math.abs(p.turnsAt - p.value) / Math.max(Math.abs(p.value), 1e-9)
  return { points: points.toSorted((a, b) => far(a) - far(b) || (a.id < b.id ? -1 : 1)), judgedCount, cut }
}

function pointOf(input: TurningInput, now: Verdict | null, at: (value: number) => Verdict | null): TurningPoint {
  const { id, words, unit, value } = input
  const scale = Math.max(Math.abs(value), 1e-9)
  // A verdict that is gone with the change says nothing of where it turned.
  const turned = (v: number): boolean => at(v) !== now && at(v) !== null
  let from = { up: value, down: value }
  for (const frac of STEPS_FRAC) {
    for (const way of ['down', 'up'] as const) {
      const to = within(input, value + (way === 'up' ? 1 : -1) * frac * scale)
      if (to === from[way]) continue
      if (turned(to)) {
        const turnsAt = halved(from[way], to, turned, NEAR_FRAC * scale)
        return { id, words, unit, value, turnsAt, becomes: at(turnsAt) }
      }
      from = { ...from, [way]: to }
    }
  }
  return { id, words, unit, value, turnsAt: null, becomes: null }
}

const within = ({ least, most }: TurningInput, value: number): number => Math.min(most, Math.max(least, value))

/** The end of the shortest stretch in which it turns: there it has turned. */
function halved(holds: number, turns: number, turned: (value: number) => boolean, near: number): number {
  let [a, b] = [holds, turns]
  for (let i = 0; i < MOST_HALVINGS && Math.abs(b - a) > near; i++) {
    const middle = (a + b) / 2
    if (turned(middle)) b = middle
    else a = middle
  }
  return b
}
