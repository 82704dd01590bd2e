import type { Job } from '../job/index.ts'
import { formatQuantity } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import { jobOf, type Option } from './options.ts'
import { leastNeeds } from './whole.ts'

/**
 * Options that need no design to lose: a service that could not carry the machines even with every leg loaded alike, and an interlock
 * where the same service carries everything on. By id, with the reason.
 */
export function screenedOut(job: Job, rules: RuleSet, system: System, options: readonly Option[]): ReadonlyMap<string, string> {
  const out = new Map<string, string>()
  const needsA = new Map<Option['feeders'], number>()
  for (const option of options) {
    if (option.control === 'interlock') continue
    const needA = needsA.get(option.feeders) ?? Math.max(0, ...leastNeeds(jobOf(job, option), rules, system).map((n) => n.needA))
    needsA.set(option.feeders, needA)
    if (needA > option.serviceA * (1 + SAME))
      out.set(option.id, `${show(needA)} are asked of ${show(option.serviceA)} with the legs loaded alike`)
  }
  return out
}

const show = (currentA: number) => formatQuantity(currentA, 'A')
const SAME = 1e-9
