import type { BoxDesign, Circuit, Device, SourceMode } from '../../job/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import { alongRun, loopsAt } from '../loops.ts'
import { type ElectricalTree, electricalTree, modesOf, type PathContext } from '../path.ts'
import { HIGH_TOLERANCE_FRAC, LOW_TOLERANCE_FRAC } from '../plates.ts'
import type { RunSegment, TransformerSegment } from '../segments.ts'
import { setReactances } from '../set-impedance.ts'
import type { Loops, SourceImpedance } from '../source-task.ts'
import { lineVolts, systemOf } from '../systems.ts'
import { motorCurrentA, plugsByTag } from './motors.ts'
import { kappaRatio } from './peak.ts'
import { KINDS_OF, kindA, kindsOfSystem, loopOf, withMotors } from './place.ts'
import type { FaultKind, HighestFault } from './result.ts'
import type { FaultTemperatures } from './temperatures.ts'

/** A place of the box, with its loops at both ends of what is not known. */
export interface Place {
  readonly id: string
  readonly kind: 'service' | 'transformer' | 'main' | 'panel' | 'receptacle' | 'cord end'
  readonly system: System
  readonly kinds: readonly FaultKind[]
  readonly circuit: Circuit | null
  readonly plug: string | null
  /** Lowest impedance, cold, motors behind it. */
  readonly strong: Loops
  /** Highest impedance, hot. */
  readonly weak: Loops
  readonly motorA: number
}

/** A box on one source, every place of it. */
export interface BoxLevels {
  readonly mode: SourceMode
  readonly offer: string
  readonly source: { readonly strong: SourceImpedance; readonly weak: SourceImpedance }
  readonly trees: { readonly strong: ElectricalTree; readonly weak: ElectricalTree }
  readonly voltageFactor: { readonly max: number; readonly min: number }
  readonly service: Place
  readonly transformer: Place | null
  /** Where the device that feeds this box from another stands. */
  readonly feeding: { readonly place: Place; readonly device: Device } | null
  readonly panel: Place
  readonly receptacles: ReadonlyMap<string, Place>
  readonly cordEnds: ReadonlyMap<string, Place>
  /** Paths of what was assumed in it. */
  readonly assumed: readonly string[]
  /** Set only: what moves when the field collapses. */
  readonly set: SetAt | null
}

export interface SetAt {
  readonly ratedA: number
  /** Of the source, per phase, from subtransient to transient and to steady, Ω. */
  readonly toTransientOhm: number
  readonly toSteadyOhm: number
  readonly subtransientS: number
  readonly transientS: number
  readonly subtransientPu: number
  readonly transientPu: number
  readonly steadyPu: number
  readonly boost: boolean | null
}

/** Source positions of a box; one fed from another takes those of the box that feeds it. */
export function positionsOf(box: BoxDesign, context: Pick<PathContext, 'job' | 'design'>): ReturnType<typeof modesOf> {
  let root = box
  for (let i = 0; root.fedFrom !== null && i < context.design.boxes.length; i++) {
    root = context.design.boxes.find((b) => b.box === root.fedFrom?.box && b.phase === root.phase) ?? root
  }
  return modesOf(root, context.job)
}

/**
 * Loops at every place of a box for one source position: strong (lowest impedance, cold, motors) and weak (highest, hot).
 * @throws Fault `power/no-source` when the design feeds the box from no offer of this mode
 */
export function boxLevels(
  box: BoxDesign,
  context: Pick<PathContext, 'job' | 'design' | 'rules'>,
  task: {
    readonly mode: SourceMode
    readonly offer: string
    readonly temperatures: FaultTemperatures
    readonly motorRatio: number
    readonly voltageFactor: { readonly max: number; readonly min: number }
    readonly tolerance?: boolean
    readonly like?: BoxLevels
  },
): BoxLevels {
  const { mode, temperatures: t, voltageFactor } = task
  const base = {
    ...context,
    mode,
    state: 'subtransient' as const,
    ...(task.tolerance === undefined ? {} : { tolerance: task.tolerance }),
  }
  // Runs and cords are the same on every source: only the first position builds them.
  const like = task.like?.trees
  const outside = like === undefined ? box : { ...box, circuits: [] }
  const wiresOf = (tree: ElectricalTree, same: ElectricalTree | undefined): ElectricalTree =>
    same === undefined ? tree : { ...tree, box, runs: same.runs, cords: same.cords, circuitOf: same.circuitOf }
  const strong = wiresOf(electricalTree(outside, { ...base, end: 'strong', conductorC: t.coldC, cordC: t.coldC }), like?.strong)
  const weak = wiresOf(
    electricalTree(outside, { ...base, job: oneSetEach(context.job), end: 'weak', conductorC: t.hotC, cordC: t.cordHotC }),
    like?.weak,
  )
  const motorA = task.motorRatio * motorCurrentA(box, plugsByTag(context.job))
  const { system } = strong
  const supplied = strong.source.source.system
  const cMax = voltageFactor.max
  const trunk = {
    strong: trunkOf(strong, task.tolerance === false ? 1 : LOW_TOLERANCE_FRAC),
    weak: trunkOf(weak, task.tolerance === false ? 1 : HIGH_TOLERANCE_FRAC),
  }
  const upTo = (count: { readonly strong: number; readonly weak: number }) => ({
    strong: loopsAt([strong.source, ...trunk.strong.slice(0, count.strong)]),
    weak: loopsAt([weak.source, ...trunk.weak.slice(0, count.weak)]),
  })
  const nth = (wanted: (s: RunSegment | TransformerSegment) => boolean, after: 0 | 1) => {
    const found = { strong: trunk.strong.findIndex(wanted), weak: trunk.weak.findIndex(wanted) }
    return found.strong < 0 || found.weak < 0 ? null : upTo({ strong: found.strong + after, weak: found.weak + after })
  }
  const place = (
    id: string,
    kind: Place['kind'],
    at: { readonly strong: Loops; readonly weak: Loops },
    of: System,
    more: Partial<Place> = {},
  ): Place => ({
    ...{ id, kind, system: of, kinds: kindsOfSystem(of), circuit: null, plug: null, motorA },
    strong: withMotors(of, at.strong, motorA, cMax),
    weak: at.weak,
    ...more,
  })
  const ratio = box.transformer === null ? 1 : box.transformer.secondaryV / box.transformer.primaryV
  const service = place(`${box.box} service`, 'service', upTo({ strong: 0, weak: 0 }), supplied, { motorA: motorA * ratio })
  const behind = nth((s) => s.kind === 'own transformer', 1)
  const before = nth((s) => s.kind === 'box feeder', 0)
  const panelAt = upTo({ strong: trunk.strong.length, weak: trunk.weak.length })
  const panel = place(box.box, 'panel', panelAt, system)
  const receptacles = new Map<string, Place>()
  const cordEnds = new Map<string, Place>()
  for (const circuit of box.circuits) {
    const kinds = KINDS_OF[circuit.connection]
    const run = { strong: strong.runs.get(circuit.id), weak: weak.runs.get(circuit.id) }
    if (run.strong === undefined || run.weak === undefined) continue
    const end: Place = {
      ...{ id: circuit.id, kind: 'receptacle' as const, system, kinds, circuit, plug: null, motorA },
      ...{ strong: alongRun(panel.strong, run.strong), weak: alongRun(panel.weak, run.weak) },
    }
    receptacles.set(circuit.id, end)
    for (const cord of circuit.cords) {
      const s = strong.cords.get(cord.plug)
      const w = weak.cords.get(cord.plug)
      if (s === undefined || w === undefined) continue
      cordEnds.set(cord.plug, {
        ...end,
        id: cord.plug,
        kind: 'cord end',
        plug: cord.plug,
        strong: alongRun(end.strong, s),
        weak: alongRun(end.weak, w),
      })
    }
  }
  return {
    mode,
    offer: task.offer,
    voltageFactor,
    service,
    panel,
    receptacles,
    cordEnds,
    source: { strong: strong.source.source, weak: weak.source.source },
    assumed: [...new Set([...strong.assumed, ...strong.source.source.assumed, ...weak.assumed, ...t.assumed].map((a) => a.path))],
    trees: { strong, weak },
    transformer: behind === null ? null : place(`${box.box} transformer`, 'transformer', behind, system),
    feeding:
      before === null || box.fedFrom === null
        ? null
        : {
            place: place(`${box.fedFrom.box} feeder to ${box.box}`, 'service', before, systemBefore(box, context)),
            device: box.fedFrom.device,
          },
    set: mode === 'own set' ? setAt(weak.source.source, context) : null,
  }
}

/** At its weakest one set runs and the others rest. */
function oneSetEach(job: PathContext['job']): PathContext['job'] {
  if (!job.offers.some((o) => (o.generator?.sets ?? 1) > 1)) return job
  return {
    ...job,
    offers: job.offers.map((o) => (o.generator === undefined ? o : { ...o, generator: { ...o.generator, sets: 1 } })),
  }
}

/** The trunk with the maker's tolerance on an own transformer. */
function trunkOf(tree: ElectricalTree, share: number): readonly (RunSegment | TransformerSegment)[] {
  if (!tree.trunk.some((s) => s.kind === 'own transformer')) return tree.trunk
  return tree.trunk.map((s) => (s.kind === 'own transformer' ? { ...s, z1: { re: s.z1.re * share, im: s.z1.im * share } } : s))
}

function systemBefore(box: BoxDesign, context: Pick<PathContext, 'design' | 'rules'>): System {
  const from = context.design.boxes.find((b) => b.box === box.fedFrom?.box && b.phase === box.phase)
  return systemOf(context.rules, from?.system ?? box.system)
}

function setAt(source: SourceImpedance, context: { readonly job: PathContext['job']; readonly rules: RuleSet }): SetAt | null {
  const generator = context.job.offers.find((o) => o.id === source.offer)?.generator
  if (generator === undefined || source.ratedKVA === null) return null
  const x = setReactances(context.rules, generator.ratedKVA)
  const xd2Ohm = source.z1.im
  const three = source.system.legs.length === 3
  const v = lineVolts(source.system)
  return {
    ratedA: (source.ratedKVA * 1000) / (v * (three ? Math.sqrt(3) : 1)),
    toTransientOhm: xd2Ohm * (x.xd1Pu / x.xd2Pu - 1),
    toSteadyOhm: xd2Ohm * (x.xdPu / x.xd2Pu - 1),
    ...{ subtransientS: x.td2S, transientS: x.td1S, steadyPu: x.xdPu },
    subtransientPu: generator.subtransientPct.high / 100,
    transientPu: (generator.subtransientPct.high / 100) * (x.xd1Pu / x.xd2Pu),
    boost: generator.boostExcitation,
  }
}

/** Highest of the kinds that can happen here, with X/R, peak and each kind beside it. Null when no loop is known. */
export function highestAt(place: Place, cRatio: number, conductorC: number): HighestFault | null {
  let best: { readonly kind: FaultKind; readonly currentA: number } | null = null
  const byKindA: Partial<Record<FaultKind, number>> = {}
  for (const kind of place.kinds) {
    const currentA = kindA(place.system, place.strong, kind, cRatio)
    if (currentA === null) continue
    byKindA[kind] = currentA
    if (best === null || currentA > best.currentA) best = { kind, currentA }
  }
  if (best === null) return null
  const z = loopOf(place.strong, best.kind)!
  const xOverR = z.re > 0 ? z.im / z.re : Infinity
  const kappa = kappaRatio(z.im > 0 ? z.re / z.im : Infinity)
  return {
    ...best,
    byKindA,
    conductorC,
    motorA: place.motorA,
    xOverRRatio: xOverR,
    peakA: kappa * Math.SQRT2 * best.currentA,
    kappaRatio: kappa,
    comparedA: best.currentA,
    impedance: { r: z.re, x: z.im },
  }
}

/** Highest current of the kinds a device on these wires has to break. */
export function highestOfKinds(
  place: Place,
  kinds: readonly FaultKind[],
  cRatio: number,
): { readonly currentA: number; readonly xOverRRatio: number } | null {
  let best: { currentA: number; xOverRRatio: number } | null = null
  for (const kind of kinds) {
    const currentA = kindA(place.system, place.strong, kind, cRatio)
    if (currentA === null || (best !== null && currentA <= best.currentA)) continue
    const z = loopOf(place.strong, kind)!
    best = { currentA, xOverRRatio: z.re > 0 ? z.im / z.re : Infinity }
  }
  return best
}
