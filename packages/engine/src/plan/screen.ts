import type { Job } from '../job/index.ts'
import { formatQuantity } from '../kernel/index.ts'
import { demandFor } from '../power/needs/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import { WHOLE, wholeJob } from './design.ts'
import type { Option } from './options.ts'

/**
 * Options that need no design to lose: a service that could not carry the machines even with every leg loaded alike, and an interlock
 * where the same service carries everything on. By id, with the reason.
 */
export function screenedOut(job: Job, rules: RuleSet, system: System, options: readonly Option[]): ReadonlyMap<string, string> {
  const out = new Map<string, string>()
  const needA = Math.max(0, ...leastNeedsA(job, rules, system))
  for (const option of options) {
    if (option.control === 'interlock') continue
    if (needA > option.serviceA * (1 + SAME))
      out.set(option.id, `${show(needA)} are asked of ${show(option.serviceA)} with the legs loaded alike`)
  }
  return out
}

/** Least that each box with a supply of its own can ask of its main: everything on, spread evenly over the legs. */
function leastNeedsA(job: Job, rules: RuleSet, system: System): readonly number[] {
  const whole = wholeJob(job)
  return job.boxes.flatMap((box) => {
    if (box.fedFrom !== undefined || !whole.plugs.some((p) => p.fedBy[WHOLE] === box.id)) return []
    const { demand } = demandFor({ job: whole, boxId: box.id, phaseId: WHOLE, rules, staging: { control: 'none', capA: null } })
    const mean = (of: (leg: (typeof demand.legs)[number]) => number) =>
      demand.legs.reduce((sum, leg) => sum + of(leg), 0) / system.legs.length
    return [rules.deviceNeedA({ continuousA: mean((l) => l.continuousA), otherA: mean((l) => l.otherA) }).value]
  })
}

const show = (currentA: number) => formatQuantity(currentA, 'A')
const SAME = 1e-9
