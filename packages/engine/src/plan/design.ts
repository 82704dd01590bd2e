import type { Shop } from '../assess/index.ts'
import type { BoxDesign, BoxWanted, Circuit, Design, Job, Leg, Phase, Shock, Staging } from '../job/index.ts'
import { designCircuits, type Grown } from '../power/circuits/index.ts'
import { stageBox } from '../power/staging/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { choiceAt, type Growth, SHOCK } from './grow.ts'
import { kvaAmpereA, type Option } from './options.ts'

/** Phase that stands for the whole job while a box is designed: it carries every machine the box ever feeds. */
export const WHOLE = 'whole job'

/**
 * A complete design for one option. A box is built once, for every machine it feeds in any phase; in a phase that does not use a
 * circuit, the circuit is spare.
 */
export function designOf(job: Job, shop: Shop, rules: RuleSet, option: Option, growth: Growth): Design {
  const whole = wholeJob(job)
  const boxes: BoxDesign[] = []
  for (const box of job.boxes) {
    if (!whole.plugs.some((p) => p.fedBy[WHOLE] === box.id) && !job.boxes.some((b) => b.fedFrom?.box === box.id)) continue
    const built = boxDesign(whole, shop, rules, option, growth, box)
    for (const phase of job.phases) {
      if (!job.plugs.some((p) => p.fedBy[phase.id] === box.id)) continue
      boxes.push(inPhase(job, built, box, phase))
    }
  }
  return { boxes, builds: [], pinned: job.pins.map((p) => p.path) }
}

export function wholeJob(job: Job): Job {
  const plugs = job.plugs.map((p) => {
    const box = job.phases.map((phase) => p.fedBy[phase.id]).find((b) => b !== undefined)
    return { ...p, fedBy: box === undefined ? {} : { [WHOLE]: box } }
  })
  return { ...job, plugs, phases: [{ id: WHOLE, fromMonth: 1, toMonth: 1, said: WHOLE }] }
}

function boxDesign(job: Job, shop: Shop, rules: RuleSet, option: Option, growth: Growth, box: BoxWanted): BoxDesign {
  const request = {
    job,
    box,
    phase: WHOLE,
    rules,
    prices: shop.prices,
    system: job.system,
    offer: option.offer,
    serviceA: option.serviceA,
    interruptingKA: growth.interruptingKA,
    grown: grownFor(growth, job, box),
    transformer: option.transformer,
    transfer: option.transfer,
    earthing: earthingFor(rules, option),
  }
  const start: Staging = { control: option.control, startH: openings(job, box), capA: null }
  const first = designCircuits({ ...request, staging: start })
  const staged = stageBox({ job, boxId: box.id, phaseId: WHOLE, legsOf: legsOf(first.circuits), control: option.control })
  const capA = option.control === 'interlock' ? capOf(job, rules, option) : null
  const staging: Staging = { control: option.control, startH: option.control === 'none' ? start.startH : staged.startH, capA }
  const made = option.control === 'none' ? first : designCircuits({ ...request, staging })
  return {
    box: box.id,
    phase: WHOLE,
    system: job.system,
    offer: option.offer.id,
    interim: option.interim,
    serviceA: option.serviceA,
    transformer: made.transformer,
    panel: made.panel,
    circuits: made.circuits,
    staging,
    electrode: made.electrode,
    transfer: option.transfer,
    setBond: rules.setBond(option.transfer).value,
    earthing: earthingFor(rules, option),
    fedFrom: made.fedFrom,
  }
}

/** What earlier rounds asked of one box: sizes, and the metres its layout leads. */
function grownFor({ runsM, ...sizes }: Growth, job: Job, box: BoxWanted): Grown {
  const laid = runsM?.[box.id]
  const grown = { ...sizes, shock: { ...sizes.shock, ...pinnedShock(job) } }
  return laid === undefined ? grown : { ...grown, runsM: laid }
}

/** What the interlock may let through: what the main holds, and no more than any set that feeds the box for a time. */
function capOf(job: Job, rules: RuleSet, option: Option): number {
  const system = rules.systems.find((s) => s.id === job.system)
  const interim = job.offers.find((o) => o.id === option.interim)
  const sets = [option.offer, interim].flatMap((o) =>
    o?.generator === undefined || system === undefined ? [] : [kvaAmpereA(o.generator.ratedKVA, system)],
  )
  return Math.min(rules.deviceHoldsA(option.serviceA).value, ...sets)
}

/** Every plug on from the opening of its window. */
function openings(job: Job, box: BoxWanted): Record<string, number> {
  return Object.fromEntries(job.plugs.filter((p) => p.fedBy[WHOLE] === box.id).map((p) => [p.tag, p.fromH]))
}

function legsOf(circuits: readonly Circuit[]): Record<string, readonly Leg[]> {
  return Object.fromEntries(circuits.flatMap((c) => c.plugs.map((plug) => [plug, c.legs])))
}

/** Shock protection that a person pinned, by circuit. */
function pinnedShock(job: Job): Record<string, Shock> {
  return Object.fromEntries(
    job.pins.flatMap((p) => {
      const { head, id, what } = choiceAt(p.path)
      const shock = SHOCK[String(p.value)]
      return head === 'circuits' && what === 'shock' && id !== undefined && shock !== undefined ? [[id, shock]] : []
    }),
  )
}

function inPhase(job: Job, built: BoxDesign, box: BoxWanted, phase: Phase): BoxDesign {
  const fed = new Set(job.plugs.filter((p) => p.fedBy[phase.id] === box.id).map((p) => p.tag))
  const circuits = built.circuits.map((c) => {
    if (c.own !== null || c.plugs.every((p) => fed.has(p))) return c
    const plugs = c.plugs.filter((p) => fed.has(p))
    const cords = c.cords.filter((cord) => fed.has(cord.plug))
    return plugs.length === 0
      ? { ...c, plugs, cords, own: 'spare' as const, label: `${c.label} (not used in ${phase.id})` }
      : { ...c, plugs, cords }
  })
  const startH = Object.fromEntries(Object.entries(built.staging.startH).filter(([tag]) => fed.has(tag)))
  return { ...built, phase: phase.id, circuits, staging: { ...built.staging, startH } }
}

/** A set of ours earths as TN-S; from a network, what the rule set makes of what is offered. */
function earthingFor(rules: RuleSet, { offer }: Option): BoxDesign['earthing'] {
  return offer.kind === 'generator' ? 'TN-S' : rules.earthingOf(offer.earthing, offer.earthingForbidden).value
}
