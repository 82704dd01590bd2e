import type { BoxDesign, Circuit, Leg, Plug } from '../../job/index.ts'
import { add, type Complex, cos, cx, scale, sin } from '../../kernel/index.ts'
import type { System } from '../../rules/index.ts'
import type { LoadModel } from '../network/index.ts'
import { type ElectricalTree, electricalTree, type PathContext } from '../path.ts'
import { LINES_OF, type RunSegment } from '../segments.ts'
import { type FlatYard, flatYard } from './flat-yard.ts'

/** Wires of a panel: legs A B C, then the neutral. */
export const NEUTRAL = 3
const WIRE: Record<Leg, number> = { A: 0, B: 1, C: 2 }

/** One two-terminal load between two wires at the end of a cord. A three-phase machine is three of these. */
export interface YardElement {
  readonly plug: number
  readonly from: number
  readonly to: number
  /** At `nominalV`. */
  readonly sVA: Complex
  readonly nominalV: number
  readonly model: LoadModel
}

export interface YardPlug {
  readonly tag: string
  /** Null for the box's own load. */
  readonly plug: Plug | null
  readonly circuit: number
  /** Cord it hangs on: plugs that share one cord have the same number. */
  readonly cord: number
  /** Volts of the system where it is fed. */
  readonly nominalV: number
  readonly elements: readonly number[]
  /** Runs from and for so many hours. */
  readonly startH: number
  readonly hours: number
}

export interface YardCord {
  readonly segment: RunSegment | null
  readonly circuit: number
  readonly phaseOhm: Complex
  readonly neutralOhm: Complex
}

export interface YardCircuit {
  readonly circuit: Circuit
  readonly panel: number
  readonly run: RunSegment
  readonly phaseOhm: Complex
  readonly neutralOhm: Complex
}

export interface YardPanel {
  readonly tree: ElectricalTree
  /** Panel that feeds it; −1: the source. */
  readonly parent: number
  readonly phaseOhm: Complex
  readonly neutralOhm: Complex
  /** Of what lies before the point of supply or the own transformer's terminals: lost, but not in our wires. */
  readonly beforeOhm: { readonly phase: Complex; readonly neutral: Complex }
}

/** Everything one source feeds, as the fast solver reads it: panels, circuits, cords, loads. */
export interface Yard {
  readonly system: System
  /** Volts behind the source impedance, legs then neutral; zero where there is no leg. */
  readonly emf: readonly Complex[]
  /** Source impedance between legs, own and mutual. */
  readonly sourceOhm: readonly (readonly Complex[])[]
  readonly panels: readonly YardPanel[]
  readonly circuits: readonly YardCircuit[]
  readonly cords: readonly YardCord[]
  readonly plugs: readonly YardPlug[]
  readonly elements: readonly YardElement[]
  readonly flat: FlatYard
}

export interface YardTask extends PathContext {
  /** Which end of a power factor that nobody told. */
  readonly powerFactor: 'low' | 'high'
}

/** The yard that begins at a box fed by a source: its own circuits and those of every box fed from it. */
export function yardOf(box: BoxDesign, task: YardTask): Yard {
  const root = electricalTree(box, task)
  const panels: YardPanel[] = []
  const circuits: YardCircuit[] = []
  const cords: YardCord[] = []
  const plugs: YardPlug[] = []
  const elements: YardElement[] = []
  const several = task.design.boxes.some((b) => b.box !== box.box)
  const tags = new Map(task.job.plugs.map((p) => [p.tag, p]))

  const addPanel = (tree: ElectricalTree, parent: number, trunk: readonly RunSegment[]): void => {
    const at = panels.length
    const total = (of: readonly RunSegment[]) => ({
      phase: sum(of.map((s) => s.phase.ohm)),
      neutral: sum(of.map((s) => s.neutral?.ohm ?? cx(0))),
    })
    const all = total(trunk)
    const before =
      tree.source.source.mode === 'network' ? total(trunk.filter((s) => s.kind === 'drop')) : { phase: cx(0), neutral: cx(0) }
    panels.push({ tree, parent, phaseOhm: all.phase, neutralOhm: all.neutral, beforeOhm: before })
    for (const circuit of tree.box.circuits) addCircuit(tree, circuit, at)
    for (const child of task.design.boxes) {
      if (child.fedFrom?.box !== tree.box.box || child.phase !== tree.box.phase) continue
      const childTree = electricalTree(child, task)
      addPanel(childTree, at, [childTree.trunk[childTree.trunk.length - 1] as RunSegment])
    }
  }

  const addCircuit = (tree: ElectricalTree, circuit: Circuit, panel: number): void => {
    const run = tree.runs.get(circuit.id)!
    const index = circuits.length
    circuits.push({ circuit, panel, run, phaseOhm: run.phase.ohm, neutralOhm: run.neutral?.ohm ?? cx(0) })
    const shared = new Map<string, number>()
    const cordFor = (tag: string, key: string): number => {
      const segment = tree.cords.get(tag) ?? null
      const known = shared.get(key)
      if (known !== undefined && (segment === null || cords[known]!.segment !== null)) return known
      if (known !== undefined) {
        cords[known] = { segment, circuit: index, phaseOhm: segment!.phase.ohm, neutralOhm: segment!.neutral?.ohm ?? cx(0) }
        return known
      }
      cords.push({ segment, circuit: index, phaseOhm: segment?.phase.ohm ?? cx(0), neutralOhm: segment?.neutral?.ohm ?? cx(0) })
      shared.set(key, cords.length - 1)
      return cords.length - 1
    }
    circuit.plugs.forEach((tag, i) => {
      const plug = tags.get(tag)
      if (plug === undefined) return
      const cord = cordFor(tag, plug.plugShared ?? tag)
      const made = loadsOf(plug, circuit, tree.system, i, task.powerFactor)
      plugs.push({
        tag,
        plug,
        circuit: index,
        cord,
        nominalV: made.nominalV,
        startH: tree.box.staging.startH[tag] ?? plug.fromH,
        hours: plug.hoursPerDay,
        elements: made.loads.map((l) => elements.push({ ...l, plug: plugs.length }) - 1),
      })
    })
    if (circuit.ownLoad !== undefined) {
      const own = circuit.ownLoad
      const wires =
        circuit.connection === 'LN'
          ? ([WIRE[circuit.legs[0]!], NEUTRAL] as const)
          : ([WIRE[circuit.legs[0]!], WIRE[circuit.legs[1] ?? circuit.legs[0]!]] as const)
      const pf = own.powerFactorFrac
      const q = own.powerW * (Math.sqrt(Math.max(0, 1 - pf * pf)) / Math.max(pf, 0.01))
      const at =
        elements.push({
          plug: plugs.length,
          from: wires[0],
          to: wires[1],
          sVA: cx(own.powerW, q),
          nominalV: own.voltageV,
          model: circuit.own === 'heater' ? 'Z' : 'P',
        }) - 1
      const nominalV = circuit.connection === 'LN' ? tree.system.lineNeutralV : tree.system.lineLineV
      const tag = several ? `${tree.box.box} ${circuit.id}` : circuit.id
      plugs.push({
        tag,
        plug: null,
        circuit: index,
        cord: cordFor(`own ${circuit.id}`, `own ${circuit.id}`),
        nominalV,
        startH: own.fromH,
        hours: own.hoursPerDay,
        elements: [at],
      })
    }
  }

  addPanel(root, -1, afterTransformer(root))
  const { emf, sourceOhm } = sourceOf(root)
  return {
    system: root.system,
    emf,
    sourceOhm,
    panels,
    circuits,
    cords,
    plugs,
    elements,
    flat: flatYard(elements, plugs, cords, circuits),
  }
}

const sum = (all: readonly Complex[]): Complex => all.reduce(add, cx(0))

/** Runs between the last transformer (or the source) and the panel. */
function afterTransformer(tree: ElectricalTree): readonly RunSegment[] {
  const at = tree.trunk.findLastIndex((s) => s.kind === 'own transformer')
  return tree.trunk.slice(at + 1) as readonly RunSegment[]
}

/** Volts of the legs of a system at no load. */
export function legEmf(system: System): readonly Complex[] {
  const zero = cx(0)
  const ln = system.lineNeutralV
  const at = (deg: number, v = ln) => cx(v * cos((deg * Math.PI) / 180), v * sin((deg * Math.PI) / 180))
  if (system.kind === 'split') return [cx(ln), cx(-ln), zero, zero]
  if (system.kind === 'single') return [cx(ln), zero, zero, zero]
  // High-leg delta: A and C beside the centre tap, B at right angles, its volts to neutral √3 of theirs.
  if (system.kind === 'delta' && system.neutral) return [cx(ln), at(90, Math.sqrt(3) * ln), cx(-ln), zero]
  const v = system.lineLineV / Math.sqrt(3)
  return [at(0, v), at(-120, v), at(120, v), zero]
}

/**
 * Source behind an impedance matrix at the panel's voltage. A centre tap couples its halves: what the primary loses, both lose.
 * Behind an own delta–wye the zero sequence is the transformer's alone.
 */
function sourceOf(tree: ElectricalTree): Pick<Yard, 'emf' | 'sourceOhm'> {
  const { source } = tree.source
  const at = tree.trunk.findIndex((s) => s.kind === 'own transformer')
  const own = at < 0 ? null : tree.trunk[at]!
  let z1 = source.z1
  let z0 = source.z0
  let primary = cx(0)
  let tapped = tree.system.kind === 'split' && source.mode !== 'own set'
  if (own !== null && own.kind === 'own transformer') {
    const upstream = scale(
      add(z1, sum((tree.trunk.slice(0, at) as readonly RunSegment[]).map((s) => s.phase.ohm))),
      own.ratio * own.ratio,
    )
    z0 = own.z1
    z1 = own.secondary.kind === 'split' ? own.z1 : add(upstream, own.z1)
    primary = upstream
    tapped = own.secondary.kind === 'split'
  }
  const zero = cx(0)
  if (tapped) {
    // z1 is half of the line–line loop on 240 V: r + jx of the loop = 2 z1; halves on a quarter of that base.
    const loop = scale(z1, 2)
    const common = add(cx((0.5 * loop.re) / 4, (0.8 * loop.im) / 4), scale(primary, 2 / 4))
    const half = cx(loop.re / 4, (0.4 * loop.im) / 4)
    const mine = add(common, half)
    return {
      emf: legEmf(tree.system),
      sourceOhm: [
        [mine, scale(common, -1), zero],
        [scale(common, -1), mine, zero],
        [zero, zero, zero],
      ],
    }
  }
  const wye = tree.system.kind === 'wye'
  const mutual = wye ? scale(cx(z0.re - z1.re, z0.im - z1.im), 1 / 3) : zero
  const mine = wye ? scale(add(scale(z1, 2), z0), 1 / 3) : tree.system.kind === 'single' ? scale(z1, 2) : z1
  return { emf: legEmf(tree.system), sourceOhm: [0, 1, 2].map((i) => [0, 1, 2].map((j) => (i === j ? mine : mutual))) }
}

/** How a machine takes its power as its volts fall. @source table load-model. Provenance: computed (heaters), common practice, memory (motors) */
export const MODEL_OF: Record<Plug['kind'], LoadModel> = {
  heater: 'Z',
  charger: 'P',
  electronic: 'P',
  motor: 'P',
  drive: 'P',
  welder: 'I',
  mixed: 'P',
}

/** Power of a plug at its volts: W, and var by its current when told, else by the end of its power factor. */
export function plugVA(plug: Plug, end: 'low' | 'high'): Complex {
  const k = plug.phases === 3 ? Math.sqrt(3) : 1
  const pf = end === 'low' ? plug.powerFactorFrac.low : plug.powerFactorFrac.high
  const apparent =
    plug.currentTold || plug.powerFactorFrac.told ? plug.voltageV * plug.currentA * k : plug.powerW / Math.max(pf, 0.01)
  return cx(plug.powerW, Math.sqrt(Math.max(0, apparent * apparent - plug.powerW * plug.powerW)))
}

type Load = Omit<YardElement, 'plug'>

function loadsOf(
  plug: Plug,
  circuit: Circuit,
  system: System,
  position: number,
  end: 'low' | 'high',
): { readonly loads: readonly Load[]; readonly nominalV: number } {
  const s = plugVA(plug, end)
  const model = MODEL_OF[plug.kind]
  const lines = circuit.legs.slice(0, LINES_OF[circuit.connection]).map((l) => WIRE[l])
  if (plug.phases === 3 && lines.length === 3) {
    const third = scale(s, 1 / 3)
    const [a, b, c] = lines as [number, number, number]
    const wye = circuit.connection === 'LLLN' && system.kind === 'wye'
    const pairs = wye
      ? ([
          [a, NEUTRAL],
          [b, NEUTRAL],
          [c, NEUTRAL],
        ] as const)
      : ([
          [a, b],
          [b, c],
          [c, a],
        ] as const)
    const nominalV = wye ? plug.voltageV / Math.sqrt(3) : plug.voltageV
    return { loads: pairs.map(([from, to]) => ({ from, to, sVA: third, nominalV, model })), nominalV: system.lineLineV }
  }
  const toNeutral =
    circuit.connection === 'LN' ||
    (circuit.connection.endsWith('N') && nearer(plug.voltageV, system.lineNeutralV, system.lineLineV))
  const from = toNeutral ? lines[position % lines.length]! : lines[0]!
  const to = toNeutral ? NEUTRAL : lines[1]!
  return {
    loads: [{ from, to, sVA: s, nominalV: plug.voltageV, model }],
    nominalV: toNeutral ? system.lineNeutralV : system.lineLineV,
  }
}

const nearer = (v: number, a: number, b: number): boolean => Math.abs(v - a) / a <= Math.abs(v - b) / b
