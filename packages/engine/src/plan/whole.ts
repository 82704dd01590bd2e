import type { Job } from '../job/index.ts'
import { demandFor } from '../power/needs/index.ts'
import { boxesBehind } from '../power/staging/index.ts'
import type { RuleSet, System } from '../rules/index.ts'

/** Phase that stands for the whole job while a box is designed: it carries every machine the box ever feeds. */
export const WHOLE = 'whole job'

export function wholeJob(job: Job): Job {
  const plugs = job.plugs.map((p) => {
    const box = job.phases.map((phase) => p.fedBy[phase.id]).find((b) => b !== undefined)
    return { ...p, fedBy: box === undefined ? {} : { [WHOLE]: box } }
  })
  return { ...job, plugs, phases: [{ id: WHOLE, fromMonth: 1, toMonth: 1, said: WHOLE }] }
}

/** Does a box feed a machine in this phase, itself or through a box behind it? */
export function feedsIn(job: Job, boxId: string, phaseId: string): boolean {
  const behind = new Set(boxesBehind(job, boxId).map((b) => b.id))
  return job.plugs.some((p) => behind.has(p.fedBy[phaseId] ?? ''))
}

/** Least that each box with a supply of its own can ask of its main: everything on, spread evenly over the legs. */
export function leastNeeds(
  job: Job,
  rules: RuleSet,
  system: System,
): readonly { readonly box: string; readonly needA: number }[] {
  const whole = wholeJob(job)
  return job.boxes.flatMap((box) => {
    if (box.fedFrom !== undefined || !feedsIn(whole, box.id, WHOLE)) return []
    const { demand } = demandFor({ job: whole, boxId: box.id, phaseId: WHOLE, rules, staging: { control: 'none', capA: null } })
    const mean = (of: (leg: (typeof demand.legs)[number]) => number) =>
      demand.legs.reduce((sum, leg) => sum + of(leg), 0) / system.legs.length
    const needA = rules.deviceNeedA({ continuousA: mean((l) => l.continuousA), otherA: mean((l) => l.otherA) }).value
    return [{ box: box.id, needA }]
  })
}
