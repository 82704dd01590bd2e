import type { BoxDesign } from '../../job/index.ts'
import { type Complex, cx } from '../../kernel/index.ts'
import { diagonal, EARTH, type Network, networkMaker } from '../network/index.ts'
import type { YardState } from './solve-yard.ts'
import { NEUTRAL, type Yard, type YardTask, yardOf } from './yard.ts'

const NAMES = ['a', 'b', 'c', 'n'] as const

export interface NetworkOf {
  readonly network: Network
  /** Plug of each load id. */
  readonly elementOf: ReadonlyMap<string, string>
  /** Wires each element hangs between. */
  readonly ends: readonly (readonly [number, number])[]
}

/** The whole network behind one source, all on: every wire of every run and cord, for whoever wants volts at each place. */
export function networkOf(box: BoxDesign, task: YardTask): NetworkOf {
  const yard = yardOf(box, task)
  return networkOfYard(yard, { on: new Uint8Array(yard.plugs.length).fill(1) })
}

/** A yard in one state as a network for the nodal solver. Nodes: `source`, `terminals`, panels by box, circuits by id, cords `C3/G4C`. */
export function networkOfYard(yard: Yard, state: YardState): NetworkOf {
  const net = networkMaker()
  const emf = state.emf ?? yard.emf
  const legs = [0, 1, 2].filter((w) => emf[w]!.re !== 0 || emf[w]!.im !== 0)
  const wires = [...legs, NEUTRAL]
  const source = wires.map((w) => net.wire('source', NAMES[w]!))
  source.forEach((wire, k) => {
    net.fix(wire, emf[wires[k]!]!)
  })
  const nothing = (z: Complex) => z.re === 0 && z.im === 0
  /** Wires of the next place; one that has no impedance on the way is the same wire. */
  const along = (id: string, node: string, from: readonly number[], phase: Complex, neutral: Complex): number[] => {
    const z = wires.map((w) => (w === NEUTRAL ? neutral : phase))
    const to = from.map((f, k) => (nothing(z[k]!) ? f : net.wire(node, NAMES[wires[k]!]!)))
    const moved = to.flatMap((t, k) => (t === from[k] ? [] : [k]))
    if (moved.length > 0)
      net.line({ id, from: moved.map((k) => from[k]!), to: moved.map((k) => to[k]!), zOhm: diagonal(...moved.map((k) => z[k]!)) })
    return to
  }
  const stiff = legs.every((w) => nothing(yard.sourceOhm[w]![w]!))
  const terminals = stiff ? source : source.map((s, k) => (wires[k] === NEUTRAL ? s : net.wire('terminals', NAMES[wires[k]!]!)))
  if (!stiff) {
    net.line({
      id: 'source',
      from: source.slice(0, legs.length),
      to: terminals.slice(0, legs.length),
      zOhm: legs.map((w) => legs.map((k) => yard.sourceOhm[w]![k]!)),
    })
  }
  const panels: number[][] = []
  for (const p of yard.panels) {
    const name = p.tree.box.box
    panels.push(along(`${name}/feed`, `panel ${name}`, p.parent < 0 ? terminals : panels[p.parent]!, p.phaseOhm, p.neutralOhm))
  }
  const nameOf = (c: Yard['circuits'][number]) => `${yard.panels[c.panel]!.tree.box.box}/${c.circuit.id}`
  const runs = yard.circuits.map((c) => along(`${nameOf(c)} run`, nameOf(c), panels[c.panel]!, c.phaseOhm, c.neutralOhm))
  const cords = yard.cords.map((c, k) => along(`cord ${k}`, `cord ${k}`, runs[c.circuit]!, c.phaseOhm, c.neutralOhm))
  const elementOf = new Map<string, string>()
  const ends: [number, number][] = []
  yard.elements.forEach((e, k) => {
    const plug = yard.plugs[e.plug]!
    const from = cords[plug.cord]![wires.indexOf(e.from)]!
    const to = cords[plug.cord]![wires.indexOf(e.to)] ?? EARTH
    ends.push([from, to])
    const start = state.starting?.plug === e.plug ? state.starting : undefined
    if (start === undefined && state.on[e.plug] !== 1) return
    const share = 1 / plug.elements.length
    const id = `${plug.tag} ${k}`
    elementOf.set(id, plug.tag)
    const load =
      start === undefined
        ? e
        : { sVA: cx(start.sVA.re * share, start.sVA.im * share), nominalV: start.nominalV, model: 'Z' as const }
    net.load({ id, from, to, sVA: load.sVA, nominalV: load.nominalV, model: load.model })
  })
  return { network: net.done(), elementOf, ends }
}
