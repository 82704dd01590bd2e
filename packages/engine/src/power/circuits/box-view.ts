import type { BoxDesign, BoxWanted, Circuit, Leg, Plug, Span } from '../../job/index.ts'
import type { Step } from '../../kernel/index.ts'
import type { Outlet, RuleSet, System } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'
import { systemOf } from '../systems.ts'
import type { Subject } from './check.ts'
import { outletOf } from './connection.ts'
import { onSlots, type PlugLoad, plugLoad, SLOTS } from './loads.ts'
import { ownSplit } from './own-circuits.ts'
import { MOST_INSIDE_C } from './request.ts'

/** A design's circuit with the loads that hang on it, read once for every check. */
export interface CircuitView {
  readonly circuit: Circuit
  readonly kind: 'machines' | 'own' | 'feeder' | 'spare'
  readonly loads: readonly PlugLoad[]
  /** Plugs of the circuit that the job does not know, or does not feed from this box in this phase. */
  readonly strangers: readonly string[]
  /** Plugs by physical outlet: rows that share a plug are together. */
  readonly outlets: readonly (readonly PlugLoad[])[]
  readonly outlet: Outlet | null
  readonly currentA: number
  readonly continuousA: number
  readonly otherA: number
  readonly powerW: number
  readonly apparentVA: number
  /** What of it may flow in a neutral. */
  readonly neutralA: number
  readonly nonLinearFrac: number
  readonly steps: readonly Step[]
  readonly profileA: readonly number[]
}

export interface BoxView {
  readonly inputs: Inputs
  readonly rules: RuleSet
  readonly box: BoxDesign
  readonly wanted: BoxWanted | null
  readonly system: System
  readonly subject: Subject
  readonly circuits: readonly CircuitView[]
  /** Plugs this box feeds in this phase. */
  readonly plugs: readonly Plug[]
  /** Ends that conductors and devices are judged at: where nobody told it, not above what any of them is made for. */
  readonly insideHotC: Span
  /** Hot end as bounded or told. */
  readonly unventilatedC: number
  readonly insideColdC: Span
  /** Boxes of the design that this one feeds. */
  readonly fed: readonly BoxView[]
}

/** Names: the tag alone where the design holds one box and phase; else with box and phase, so that no two are the same. */
export function subjectIn(view: BoxView, tag: string): Subject {
  const many = view.inputs.design.boxes.length > 1
  return { subject: tag, prefix: many ? `${tag}@${view.box.box}·${view.box.phase}` : tag }
}

const UNTOLD: Span = { low: -40, high: 60, basis: 'no box of this name in the job', told: false }

const clipped = (span: Span): Span =>
  span.told ? span : { ...span, low: Math.min(span.low, MOST_INSIDE_C), high: Math.min(span.high, MOST_INSIDE_C) }

export function boxView(inputs: Inputs, box: BoxDesign): BoxView {
  const { job, rules, design } = inputs
  const system = systemOf(rules, box.system)
  const wanted = job.boxes.find((b) => b.id === box.box) ?? null
  const plugs = job.plugs.filter((p) => p.fedBy[box.phase] === box.box)
  const byTag = new Map(plugs.map((p) => [p.tag, p]))
  const fed = design.boxes
    .filter((b) => b.fedFrom?.box === box.box && b.phase === box.phase && b.box !== box.box)
    .map((b) => boxView(inputs, b))
  const many = design.boxes.length > 1
  const subject = { subject: box.box, prefix: many ? `${box.box}·${box.phase}` : box.box }
  return {
    inputs,
    rules,
    box,
    wanted,
    system,
    subject,
    plugs,
    fed,
    circuits: box.circuits.map((c) => circuitView(c, box, rules, byTag, fed)),
    insideHotC: clipped(wanted?.insideHotC ?? UNTOLD),
    unventilatedC: wanted?.insideHotC.high ?? UNTOLD.high,
    insideColdC: wanted?.insideColdC ?? UNTOLD,
  }
}

function circuitView(
  circuit: Circuit,
  box: BoxDesign,
  rules: RuleSet,
  byTag: ReadonlyMap<string, Plug>,
  fed: readonly BoxView[],
): CircuitView {
  const loads = circuit.plugs.flatMap((tag) => {
    const plug = byTag.get(tag)
    return plug === undefined ? [] : [plugLoad(plug, rules)]
  })
  const strangers = circuit.plugs.filter((tag) => !byTag.has(tag))
  const outlet = outletOf(rules, circuit.outlet)
  const own = circuit.ownLoad
  if (circuit.plugs.length === 0 && own !== undefined) {
    const currentA = own.powerW / (own.voltageV * own.powerFactorFrac)
    const split = ownSplit(rules, circuit.own ?? 'control', own.hoursPerDay, currentA)
    const profileA = onSlots(own.fromH, own.hoursPerDay).map((on) => (on ? currentA : 0))
    return {
      circuit,
      kind: 'own',
      loads,
      strangers,
      outlets: [],
      outlet,
      currentA,
      ...split,
      powerW: own.powerW,
      apparentVA: own.powerW / own.powerFactorFrac,
      neutralA: currentA,
      nonLinearFrac: 0,
      steps: [],
      profileA,
    }
  }
  if (circuit.plugs.length === 0) {
    const target = circuit.own === null ? fed.find((v) => circuit.id === `feeder-${v.box.box}`) : undefined
    if (target === undefined) {
      return {
        circuit,
        kind: circuit.own === null ? 'feeder' : 'spare',
        loads,
        strangers,
        outlets: [],
        outlet,
        currentA: 0,
        continuousA: 0,
        otherA: 0,
        powerW: 0,
        apparentVA: 0,
        neutralA: 0,
        nonLinearFrac: 0,
        steps: [],
        profileA: NOTHING,
      }
    }
    const legs = legSums(target)
    const worst = [...legs.values()].reduce((a, b) => (b.allOnA > a.allOnA ? b : a))
    return {
      circuit,
      kind: 'feeder',
      loads,
      strangers,
      outlets: [],
      outlet,
      currentA: worst.allOnA,
      continuousA: worst.continuousA,
      otherA: worst.allOnA - worst.continuousA,
      powerW: [...legs.values()].reduce((s, l) => s + l.powerW, 0),
      apparentVA: [...legs.values()].reduce((s, l) => s + l.apparentVA, 0),
      neutralA: Math.max(...[...legs.values()].map((l) => l.neutralA)),
      nonLinearFrac: 0,
      steps: [],
      profileA: worst.profileA,
    }
  }
  const profileA = Array<number>(SLOTS).fill(0)
  let currentA = 0,
    continuousA = 0,
    powerW = 0,
    apparentVA = 0,
    nonLinearA = 0,
    neutralA = 0
  for (const load of loads) {
    currentA += load.currentA
    continuousA += load.continuousA
    powerW += load.powerW
    apparentVA += load.apparentVA
    neutralA += load.neutralA
    nonLinearA += load.nonLinearA
    const on = onSlots(box.staging.startH[load.plug.tag] ?? load.plug.fromH, load.plug.hoursPerDay)
    for (let t = 0; t < SLOTS; t++) if (on[t]) profileA[t]! += load.currentA
  }
  return {
    circuit,
    kind: 'machines',
    loads,
    strangers,
    outlets: physicalOutlets(circuit, loads),
    outlet,
    currentA,
    continuousA,
    otherA: currentA - continuousA,
    powerW,
    apparentVA,
    neutralA,
    nonLinearFrac: neutralA > 0 ? nonLinearA / neutralA : 0,
    steps: loads.flatMap((l) => l.steps),
    profileA,
  }
}

const NOTHING: readonly number[] = Array(SLOTS).fill(0)

/** Plugs together that share one physical plug, as the job or the cords of the design say. */
function physicalOutlets(circuit: Circuit, loads: readonly PlugLoad[]): readonly (readonly PlugLoad[])[] {
  const groups = new Map<string, PlugLoad[]>()
  for (const load of loads) {
    const lead = circuit.cords.find((c) => c.plug === load.plug.tag)?.sharedWith
    const key = load.plug.plugShared === undefined ? `plug ${lead ?? load.plug.tag}` : `shared ${load.plug.plugShared}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [load])
    else group.push(load)
  }
  return [...groups.values()]
}

export interface LegSum {
  powerW: number
  apparentVA: number
  allOnA: number
  continuousA: number
  neutralA: number
  nonLinearA: number
  generalVA: number
  largestMotorA: number
  readonly profileA: number[]
}

/** What each leg carries: a load between two legs counts its full current and half its watts on each. */
export function legSums(view: BoxView): ReadonlyMap<Leg, LegSum> {
  const sums = new Map<Leg, LegSum>(
    view.system.legs.map((leg) => [
      leg,
      {
        powerW: 0,
        apparentVA: 0,
        allOnA: 0,
        continuousA: 0,
        neutralA: 0,
        nonLinearA: 0,
        generalVA: 0,
        largestMotorA: 0,
        profileA: Array<number>(SLOTS).fill(0),
      },
    ]),
  )
  for (const c of view.circuits) {
    const legs = c.circuit.legs.filter((leg) => sums.has(leg))
    const from = c.kind === 'feeder' ? view.fed.find((v) => c.circuit.id === `feeder-${v.box.box}`) : undefined
    const fedLegs = from === undefined ? null : legSums(from)
    for (const leg of legs) {
      const sum = sums.get(leg)!
      const theirs = fedLegs?.get(leg)
      sum.powerW += theirs?.powerW ?? c.powerW / legs.length
      sum.apparentVA += theirs?.apparentVA ?? c.apparentVA / legs.length
      sum.allOnA += theirs?.allOnA ?? c.currentA
      sum.continuousA += theirs?.continuousA ?? c.continuousA
      const neutral = c.circuit.connection.endsWith('N')
      sum.neutralA += theirs?.neutralA ?? (neutral ? c.neutralA : 0)
      sum.nonLinearA += theirs?.nonLinearA ?? (neutral ? c.neutralA * c.nonLinearFrac : 0)
      sum.largestMotorA = Math.max(
        sum.largestMotorA,
        theirs?.largestMotorA ?? 0,
        ...c.loads.filter((l) => l.motor).map((l) => l.currentA),
      )
      const profile = theirs?.profileA ?? c.profileA
      for (let t = 0; t < SLOTS; t++) sum.profileA[t]! += profile[t]!
    }
  }
  return sums
}
