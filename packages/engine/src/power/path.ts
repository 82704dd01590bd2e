import type {
  Assumption,
  BoxDesign,
  Circuit,
  Cord,
  Design,
  Device,
  Job,
  OwnTransformer,
  Run,
  SizeName,
  SourceMode,
  Wire,
} from '../job/index.ts'
import { add, type Complex, cx, Fault, put, type Step, scale, source, step } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import {
  type Loops,
  type SourceEnd,
  type SourceImpedance,
  type SourceState,
  sourceImpedance,
  terminalLoops,
  withXOverR,
} from './source-impedance.ts'

/** One conductor of a segment, all its parallel sets together. */
export interface ConductorZ {
  readonly size: SizeName
  readonly metal: 'cu' | 'al'
  readonly sets: number
  readonly ohmPerM: Complex
  readonly ohm: Complex
}

/** A length of conductors between two places. */
export interface RunSegment {
  readonly kind: 'drop' | 'feed' | 'box feeder' | 'primary run' | 'run' | 'cord'
  /** Unique in a box: `P/feed`, `C4/run`, `G4C/cord`. */
  readonly id: string
  readonly said: string
  readonly lengthM: number
  readonly temperatureC: number
  readonly phase: ConductorZ
  readonly neutral: ConductorZ | null
  readonly protective: ConductorZ | null
  /** What an earth fault beyond it comes home through: the protective conductor, or the neutral up to the bond; null through the ground (TT). */
  readonly earthReturn: ConductorZ | null
  /** Device at its head that protects it. Null: none of ours (the utility's side). */
  readonly device: Device | null
  readonly insulation: string
  readonly steps: readonly Step[]
}

/** The box's own transformer. */
export interface TransformerSegment {
  readonly kind: 'own transformer'
  readonly id: string
  readonly said: string
  readonly transformer: OwnTransformer
  /** Positive-sequence leakage per line on the secondary; for one phase half of the line–line loop. */
  readonly z1: Complex
  /** V secondary over V primary, line to line. */
  readonly ratio: number
  readonly secondary: System
  readonly device: Device
  readonly steps: readonly Step[]
}

export interface SourceSegment {
  readonly kind: 'source'
  readonly id: string
  readonly said: string
  readonly source: SourceImpedance
  readonly steps: readonly Step[]
}

export type Segment = SourceSegment | TransformerSegment | RunSegment

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

/** The rule set's system of this id. */
export function systemOf(rules: RuleSet, id: string): System {
  const found = rules.systems.find((s) => s.id === id)
  if (found === undefined) throw new Fault('power/system-unknown', id)
  return found
}

/** Conductors of a circuit that carry load current. */
export const LINES_OF: Record<Circuit['connection'], number> = { LN: 1, LL: 2, LLN: 2, LLL: 3, LLLN: 3 }
export const hasNeutral = (circuit: Circuit): boolean => circuit.connection.endsWith('N')

/**
 * Loop impedances at the end of a path: sums of R and of X, each kept; an own transformer brings what stands before it
 * over by its ratio squared, and a delta–wye one stops the zero sequence.
 */
export function loopsAt(path: readonly Segment[]): Loops {
  let loops: Loops | null = null
  for (const segment of path) {
    if (segment.kind === 'source') loops = segment.source.loops
    else if (loops === null) throw new Fault('power/path-without-source', segment.id)
    else loops = segment.kind === 'own transformer' ? throughTransformer(loops, segment) : alongRun(loops, segment)
  }
  if (loops === null) throw new Fault('power/path-without-source')
  return loops
}

function alongRun(loops: Loops, run: RunSegment): Loops {
  const z = run.phase.ohm
  const plus = (loop: Complex | null, back: ConductorZ | null) =>
    loop === null || back === null ? null : add(loop, add(z, back.ohm))
  return {
    threePhase: loops.threePhase === null ? null : add(loops.threePhase, z),
    lineLine: add(loops.lineLine, scale(z, 2)),
    lineNeutral: plus(loops.lineNeutral, run.neutral),
    lineEarth: plus(loops.lineEarth, run.earthReturn),
  }
}

function throughTransformer(loops: Loops, t: TransformerSegment): Loops {
  const upstream1 = scale(loops.threePhase ?? scale(loops.lineLine, 0.5), t.ratio * t.ratio)
  const z1 = add(upstream1, t.z1)
  if (t.secondary.kind !== 'split') return terminalLoops(t.secondary, z1, t.z1)
  // Behind a centre tap what stands on the primary side is common to both halves: a quarter of the line–line loop.
  const own = terminalLoops(t.secondary, t.z1, t.z1)
  const lineNeutral = add(own.lineNeutral!, scale(upstream1, 2 / 4))
  return { threePhase: null, lineLine: scale(z1, 2), lineNeutral, lineEarth: lineNeutral }
}

function transformerSegment(boxId: string, own: OwnTransformer, secondary: System): TransformerSegment {
  const three = own.phases === 3
  const base = (own.secondaryV * own.secondaryV) / (own.kVA * 1000)
  const z1 = withXOverR((own.impedancePct / 100) * (three ? base : base / 2), own.xOverR)
  const ratio = own.secondaryV / own.primaryV
  const said = `own transformer ${own.kVA} kVA, ${own.primaryV} to ${own.secondaryV} V`
  const steps = [
    step(
      'Z_T',
      three ? 'u_z·V₂²/S' : 'u_z·V₂²/S, one line half of it',
      [put('u_z', own.impedancePct, '%'), put('V₂', own.secondaryV, 'V'), put('S', own.kVA, 'kVA'), put('x/r', own.xOverR)],
      `${round(z1.re * 1000)} + j${round(z1.im * 1000)}`,
      'mΩ per line',
      source('per unit on its own rating', 'computed'),
    ),
  ]
  return {
    kind: 'own transformer',
    id: `${boxId}/transformer`,
    said,
    transformer: own,
    z1,
    ratio,
    secondary,
    device: own.primary,
    steps,
  }
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

function asRun(cord: Cord, circuit: Circuit): Run {
  const wire: Wire = { size: cord.size, metal: 'cu', insulation: cord.type }
  const neutral = hasNeutral(circuit) ? wire : null
  return { lengthM: cord.lengthM, line: wire, neutral, protective: wire, raceway: null, sets: 1 }
}

type Impedance = ReturnType<RuleSet['impedanceOhmPerM']>

/** Impedances a rule set has given: its tables never change, so each wire is asked for once and not once a tree. */
const KNOWN = new WeakMap<RuleSet, Map<string, Impedance>>()

/** The rule set's impedance of a wire. */
function conductorMaker(rules: RuleSet): (wire: Wire, where: string, temperatureC: number) => Impedance {
  const known = KNOWN.get(rules) ?? new Map<string, Impedance>()
  KNOWN.set(rules, known)
  return (wire, where, temperatureC) => {
    const key = `${wire.size}|${wire.metal}|${where}|${temperatureC}`
    let found = known.get(key)
    if (found === undefined) {
      found = rules.impedanceOhmPerM({ size: wire.size, metal: wire.metal, where, temperatureC })
      known.set(key, found)
    }
    return found
  }
}

interface RunTask {
  readonly kind: RunSegment['kind']
  readonly id: string
  readonly run: Run
  readonly device: Device | null
  /** Neutral and earth are one up to its far end: an earth fault comes home through the neutral. */
  readonly bonded: boolean
  readonly tt: boolean
}

function runMaker(context: PathContext, impedance: ReturnType<typeof conductorMaker>): (task: RunTask) => RunSegment {
  return ({ kind, id, run, device, bonded, tt }) => {
    const temperatureC = kind === 'cord' ? (context.cordC ?? context.conductorC) : context.conductorC
    const where = kind === 'cord' ? 'cord' : (run.raceway?.kind ?? 'cable')
    const of = (wire: Wire | null): ConductorZ | null => {
      if (wire === null) return null
      const { r, x } = impedance(wire, where, temperatureC).value
      const ohmPerM = cx(r / run.sets, x / run.sets)
      return { size: wire.size, metal: wire.metal, sets: run.sets, ohmPerM, ohm: scale(ohmPerM, run.lengthM) }
    }
    const phase = of(run.line)!
    const neutral = of(run.neutral)
    const protective = of(run.protective)
    const earthReturn = tt ? null : bonded ? (neutral ?? protective) : (protective ?? neutral)
    return {
      kind,
      id,
      said: `${round(run.lengthM)} m of ${run.line.size}${kind === 'cord' ? ' cord' : ''}`,
      lengthM: run.lengthM,
      temperatureC,
      phase,
      neutral,
      protective,
      earthReturn,
      device,
      insulation: run.line.insulation,
      get steps() {
        return runSteps(impedance(run.line, where, temperatureC).steps, run, phase)
      },
    }
  }
}

/** Lines of derivation are made when somebody reads them: a box has hundreds and most are never shown. */
function runSteps(perM: readonly Step[], run: Run, phase: ConductorZ): readonly Step[] {
  return [
    ...perM,
    step(
      'R + jX',
      run.sets > 1 ? '(r + jx)·L/sets' : '(r + jx)·L',
      [
        put('r', phase.ohmPerM.re * run.sets, 'Ω/m'),
        put('x', phase.ohmPerM.im * run.sets, 'Ω/m'),
        put('L', run.lengthM, 'm'),
        put('sets', run.sets),
      ],
      `${round(phase.ohm.re * 1000)} + j${round(phase.ohm.im * 1000)}`,
      'mΩ',
      source('length times impedance per metre', 'computed'),
    ),
  ]
}

const round = (n: number): string => Number(n.toPrecision(4)).toString()
