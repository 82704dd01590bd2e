import type { Shop } from '../assess/index.ts'
import type { BoxDesign, BoxWanted, Circuit, Design, Job, Leg, Phase, Shock, Staging } from '../job/index.ts'
import { designCircuits, type Grown } from '../power/circuits/index.ts'
import { boxesBehind, stageBox } from '../power/staging/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { choiceAt, type Growth, SHOCK } from './grow.ts'
import { jobOf, kvaAmpereA, type Option } from './options.ts'
import { feedsIn, WHOLE, wholeJob } from './whole.ts'

/**
 * A complete design for one option. A box is built once, for every machine it feeds in any phase; in a phase that does not use a
 * circuit, the circuit is spare. Boxes on one service are staged together.
 */
export function designOf(written: Job, shop: Shop, rules: RuleSet, option: Option, growth: Growth): Design {
  const job = jobOf(written, option)
  const whole = wholeJob(job)
  const drafts = job.boxes
    .filter((box) => feedsIn(whole, box.id, WHOLE))
    .map((box) => firstDraft(whole, shop, rules, option, growth, box))
  const legs = Object.assign({}, ...drafts.map((d) => legsOf(d.made.circuits))) as Record<string, readonly Leg[]>
  const starts = Object.assign({}, ...drafts.map((d) => startsBehind(whole, rules, option, d.box, legs))) as Record<
    string,
    number
  >
  const all = drafts.map((draft) => boxDesign(whole, rules, option, draft, starts))
  const boxes = drafts.flatMap((draft, i) => {
    const built = withFeederRuns(all[i]!, all)
    return job.phases
      .filter((phase) => feedsIn(job, draft.box.id, phase.id))
      .map((phase) => inPhase(job, built, draft.box, phase))
  })
  return { boxes, builds: [], pinned: job.pins.map((p) => p.path) }
}

/** The feeder that leaves a box is the feed of the box where it ends: one run, one device. */
function withFeederRuns(built: BoxDesign, all: readonly BoxDesign[]): BoxDesign {
  const ends = new Map(all.filter((b) => b.fedFrom?.box === built.box).map((b) => [`feeder-${b.box}`, b.fedFrom]))
  if (ends.size === 0) return built
  const circuits = built.circuits.map((c) => {
    const end = ends.get(c.id)
    return end == null ? c : { ...c, run: end.run, device: end.device }
  })
  return { ...built, circuits }
}

/** Start times of all that hangs on the supply of a box; nothing of a box that is fed: they come with the box that feeds it. */
function startsBehind(
  job: Job,
  rules: RuleSet,
  option: Option,
  box: BoxWanted,
  legs: Record<string, readonly Leg[]>,
): Record<string, number> {
  if (box.fedFrom !== undefined) return {}
  if (option.control === 'none')
    return Object.assign({}, ...boxesBehind(job, box.id).map((b) => openings(job, b))) as Record<string, number>
  return stageBox({ job, boxId: box.id, phaseId: WHOLE, rules, legsOf: legs, control: option.control }).startH
}

interface Draft {
  readonly box: BoxWanted
  readonly request: Omit<Parameters<typeof designCircuits>[0], 'staging'>
  readonly made: ReturnType<typeof designCircuits>
}

const transferOf = (option: Option, box: BoxWanted) => (box.fedFrom === undefined ? option.transfer : 'none')

/** Circuits and legs with nothing staged. The transfer and an own transformer stand where the supply comes in, not in a box that is fed. */
function firstDraft(job: Job, shop: Shop, rules: RuleSet, option: Option, growth: Growth, box: BoxWanted): Draft {
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
    transformer: box.fedFrom === undefined ? option.transformer : null,
    transfer: transferOf(option, box),
    earthing: earthingFor(rules, option),
  }
  const staging: Staging = { control: option.control, startH: openings(job, box), capA: null }
  return { box, request, made: designCircuits({ ...request, staging }) }
}

function boxDesign(job: Job, rules: RuleSet, option: Option, draft: Draft, starts: Record<string, number>): BoxDesign {
  const { box, request } = draft
  const own = Object.entries(starts).filter(([tag]) => job.plugs.some((p) => p.tag === tag && p.fedBy[WHOLE] === box.id))
  // The cap is held where the supply comes in; the main of a box that is fed holds everything on.
  const capA = option.control === 'interlock' && box.fedFrom === undefined ? capOf(job, rules, option) : null
  const staging: Staging = { control: option.control, startH: Object.fromEntries(own), capA }
  const made = option.control === 'none' ? draft.made : designCircuits({ ...request, staging })
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
    transfer: transferOf(option, box),
    setBond: rules.setBond(option.transfer).value,
    earthing: earthingFor(rules, option),
    fedFrom: made.fedFrom,
  }
}

/** What earlier rounds asked of one box: sizes, and the metres its layout leads. */
function grownFor({ runsM, together, beside, ...sizes }: Growth, job: Job, box: BoxWanted): Grown {
  const laid = runsM?.[box.id]
  const shared = together?.[box.id]
  return {
    ...sizes,
    shock: { ...sizes.shock, ...pinnedShock(job) },
    ...(shared === undefined ? {} : { together: shared }),
    ...(beside?.[box.id] === undefined ? {} : { beside: beside[box.id]! }),
    ...(laid === undefined ? {} : { runsM: laid }),
  }
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
