import type { Assumption, BoxDesign, Circuit, Design, Job, OwnTransformer, SourceMode } from '../job/index.ts'
import { Fault } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import {
  asRun,
  conductorMaker,
  type RunSegment,
  round,
  runMaker,
  type Segment,
  type SourceSegment,
  type TransformerSegment,
  transformerSegment,
} from './segments.ts'
import { sourceImpedance } from './source-impedance.ts'
import type { SourceEnd, SourceState } from './source-task.ts'
import { systemOf } from './systems.ts'

export interface PathContext {
  readonly job: Job
  readonly design: Design
  readonly rules: RuleSet
  readonly mode: SourceMode
  readonly end: SourceEnd
  readonly state: SourceState
  /** Of the conductors in the box and feed: hot for drop and least faults, cold for the most. */
  readonly conductorC: number
  /** Of the cords; as the others when absent. */
  readonly cordC?: number
  /** See `SourceTask`. */
  readonly tolerance?: boolean
}

export type Target =
  | { readonly at: 'source' }
  | { readonly at: 'panel' }
  | { readonly at: 'circuit'; readonly id: string }
  | { readonly at: 'plug'; readonly tag: string }

/** All segments of a box for one source, worked out once. */
export interface ElectricalTree {
  readonly box: BoxDesign
  readonly system: System
  readonly source: SourceSegment
  /** From the source to the panel, in order, the source not among them. */
  readonly trunk: readonly (RunSegment | TransformerSegment)[]
  readonly runs: ReadonlyMap<string, RunSegment>
  /** By plug tag. */
  readonly cords: ReadonlyMap<string, RunSegment>
  /** Circuit of each plug. */
  readonly circuitOf: ReadonlyMap<string, Circuit>
  readonly assumed: readonly Assumption[]
}

/** Segments from the source to a place, source first. */
export function pathTo(box: BoxDesign, target: Target, context: PathContext): readonly Segment[] {
  return pathIn(electricalTree(box, context), target)
}

/**
 * As `pathTo`, in a tree already built.
 * @throws Fault `power/no-such-place`
 */
export function pathIn(tree: ElectricalTree, target: Target): readonly Segment[] {
  if (target.at === 'source') return [tree.source]
  const toPanel: Segment[] = [tree.source, ...tree.trunk]
  if (target.at === 'panel') return toPanel
  const circuit = target.at === 'plug' ? tree.circuitOf.get(target.tag)?.id : target.id
  const run = circuit === undefined ? undefined : tree.runs.get(circuit)
  if (run === undefined) throw new Fault('power/no-such-place', target)
  if (target.at === 'circuit') return [...toPanel, run]
  const cord = tree.cords.get(target.tag)
  return cord === undefined ? [...toPanel, run] : [...toPanel, run, cord]
}

/** Offers of the design that can feed this box, by mode, in the order network, own set, neighbour. */
export function modesOf(box: BoxDesign, job: Job): readonly { readonly mode: SourceMode; readonly offer: string }[] {
  const out: { mode: SourceMode; offer: string }[] = []
  for (const id of [box.offer, box.interim]) {
    const offer = job.offers.find((o) => o.id === id)
    if (offer === undefined) continue
    const mode = MODE_OF[offer.kind]
    if (!out.some((o) => o.mode === mode)) out.push({ mode, offer: offer.id })
  }
  return out.sort((a, b) => MODES.indexOf(a.mode) - MODES.indexOf(b.mode))
}

const MODES: readonly SourceMode[] = ['network', 'own set', 'neighbour']
const MODE_OF = { utility: 'network', generator: 'own set', neighbour: 'neighbour' } as const

/**
 * Every segment of a box, from the source through feed, own transformer, branch runs and cords.
 * @throws Fault `power/no-source` when the design feeds the box from no offer of this mode
 */
export function electricalTree(box: BoxDesign, context: PathContext): ElectricalTree {
  const conductor = conductorMaker(context.rules)
  const make = runMaker(context, conductor)
  const system = systemOf(context.rules, box.system)
  const trunk: (RunSegment | TransformerSegment)[] = []
  const assumed: Assumption[] = []
  let head: SourceSegment
  if (box.fedFrom !== null) {
    const from = feedingBox(box, context.design)
    const upstream = electricalTree(from, context)
    head = upstream.source
    trunk.push(
      ...upstream.trunk,
      make({
        kind: 'box feeder',
        id: `${box.box}/feeder`,
        run: box.fedFrom.run,
        device: box.fedFrom.device,
        bonded: false,
        tt: false,
      }),
    )
    assumed.push(...upstream.assumed)
  } else {
    const offer = context.job.offers.find((o) => o.id === modesOf(box, context.job).find((m) => m.mode === context.mode)?.offer)
    if (offer === undefined) throw new Fault('power/no-source', { box: box.box, mode: context.mode })
    const own = box.transformer
    const supplied = own === null ? system : primarySystem(context.rules, own, offer.system)
    const found = sourceImpedance({ ...context, offer, system: supplied, serviceA: box.serviceA })
    head = { kind: 'source', id: `${offer.id}/source`, said: offer.what, source: found, steps: found.steps }
    assumed.push(...found.assumed)
    const tt = box.earthing === 'TT' && context.mode !== 'own set'
    const bonded = box.panel.bond === 'neutral bonded here'
    const first = own === null ? box.panel.feed : own.primaryRun
    const remainderM = Math.max(0, offer.distanceM - first.lengthM)
    if (remainderM > 0 && context.end === 'weak' && context.mode === 'network') {
      // The utility's own drop: its conductors are not ours to choose; at worst they are like our feed.
      trunk.push(
        make({ kind: 'drop', id: `${box.box}/drop`, run: { ...first, lengthM: remainderM }, device: null, bonded: true, tt }),
      )
    }
    if (remainderM > 0 && context.mode === 'neighbour') {
      trunk.push(make({ kind: 'drop', id: `${box.box}/drop`, run: { ...first, lengthM: remainderM }, device: null, bonded, tt }))
    }
    if (remainderM > 0 && context.mode !== 'own set') {
      assumed.push({
        path: `facts.supply.${offer.id}.distance`,
        said:
          context.mode === 'network'
            ? `${round(remainderM)} m of the supplier's drop: taken as nothing for the most current and as ${first.line.size} for the fewest volts`
            : `${round(remainderM)} m of run from the neighbour taken in ${first.line.size}, as the feed`,
        source: 'bounded by the feed chosen',
      })
    }
    if (own !== null) {
      trunk.push(
        make({ kind: 'primary run', id: `${box.box}/primary`, run: own.primaryRun, device: own.primary, bonded: false, tt }),
      )
      trunk.push(transformerSegment(box.box, own, system))
    }
    trunk.push(
      make({
        kind: 'feed',
        id: `${box.box}/feed`,
        run: box.panel.feed,
        device: own === null ? null : own.primary,
        bonded: bonded || own !== null,
        tt: tt && own === null,
      }),
    )
  }
  const runs = new Map<string, RunSegment>()
  const cords = new Map<string, RunSegment>()
  const circuitOf = new Map<string, Circuit>()
  for (const circuit of box.circuits) {
    runs.set(
      circuit.id,
      make({ kind: 'run', id: `${circuit.id}/run`, run: circuit.run, device: circuit.device, bonded: false, tt: false }),
    )
    for (const plug of circuit.plugs) circuitOf.set(plug, circuit)
    for (const cord of circuit.cords)
      cords.set(
        cord.plug,
        make({
          kind: 'cord',
          id: `${cord.plug}/cord`,
          run: asRun(cord, circuit),
          device: circuit.device,
          bonded: false,
          tt: false,
        }),
      )
  }
  return { box, system, source: head, trunk, runs, cords, circuitOf, assumed }
}

/** System on the primary side: the offer's when the voltages agree, else the rule set's of that voltage. */
function primarySystem(rules: RuleSet, own: OwnTransformer, offered: string): System {
  const named = rules.systems.find((s) => s.id === offered)
  if (named !== undefined && Math.abs(named.lineLineV - own.primaryV) < 0.05 * own.primaryV) return named
  const byVolts = rules.systems.find((s) => Math.abs(s.lineLineV - own.primaryV) < 0.05 * own.primaryV)
  if (byVolts === undefined) throw new Fault('power/system-unknown', { primaryV: own.primaryV, offered })
  return byVolts
}

function feedingBox(box: BoxDesign, design: Design): BoxDesign {
  const from = design.boxes.find((b) => b.box === box.fedFrom?.box && b.phase === box.phase)
  if (from === undefined) throw new Fault('power/no-source', { box: box.box, fedFrom: box.fedFrom?.box })
  return from
}
