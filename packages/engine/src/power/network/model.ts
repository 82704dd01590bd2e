import type { Complex } from '../../kernel/index.ts'
import { cx, Fault } from '../../kernel/index.ts'

/** Index of the ground itself. */
export const EARTH = -1

/** A point of the network: one wire at one place. Neutral and earthed wires are wires like the others. */
export type WireIndex = number

/** Conductors in parallel run, with mutual terms. V_from − V_to = Z · I, half of the shunt admittance at each end. */
export interface LineElement {
  readonly id: string
  readonly from: readonly WireIndex[]
  readonly to: readonly WireIndex[]
  readonly zOhm: readonly (readonly Complex[])[]
  readonly halfShuntS?: readonly (readonly Complex[])[]
}

/** One winding pair: ideal ratio n = V_p/V_s, all leakage on the secondary. */
export interface WindingElement {
  readonly id: string
  readonly p1: WireIndex
  readonly p2: WireIndex
  readonly s1: WireIndex
  readonly s2: WireIndex
  readonly ratio: number
  readonly zOhm: Complex
}

export interface ShuntElement {
  readonly id: string
  readonly from: WireIndex
  readonly to: WireIndex
  readonly yS: Complex
}

/** Constant impedance, current or power: |I| ∝ |V|, 1, 1/|V|, at the power factor of S, kept to the actual volts. */
export type LoadModel = 'Z' | 'I' | 'P'

export interface LoadElement {
  readonly id: string
  readonly from: WireIndex
  readonly to: WireIndex
  /** Taken at `nominalV`, W + jvar. */
  readonly sVA: Complex
  readonly nominalV: number
  readonly model: LoadModel
}

export interface FixedWire {
  readonly wire: WireIndex
  readonly volts: Complex
}

export interface Network {
  /** `node.wire`, by index. */
  readonly wires: readonly string[]
  readonly fixed: readonly FixedWire[]
  readonly lines: readonly LineElement[]
  readonly windings: readonly WindingElement[]
  readonly shunts: readonly ShuntElement[]
  readonly loads: readonly LoadElement[]
}

export interface NetworkMaker {
  /** Index of `node.wire`, made when new. */
  wire(node: string, wire: string): WireIndex
  fix(wire: WireIndex, volts: Complex): void
  line(element: LineElement): void
  winding(element: WindingElement): void
  shunt(element: ShuntElement): void
  load(element: LoadElement): void
  /** Centre-tapped transformer, interlaced: leakage r + jx per unit on its rating, secondary volts line to line. */
  centreTap(task: {
    readonly id: string
    readonly p1: WireIndex
    readonly p2: WireIndex
    readonly a: WireIndex
    readonly n: WireIndex
    readonly b: WireIndex
    readonly primaryV: number
    readonly secondaryV: number
    readonly sVA: number
    readonly rPu: number
    readonly xPu: number
  }): void
  done(): Network
}

/** Gathers a network, wire by wire and element by element. */
export function networkMaker(): NetworkMaker {
  const wires: string[] = []
  const index = new Map<string, number>()
  const fixed: FixedWire[] = []
  const lines: LineElement[] = []
  const windings: WindingElement[] = []
  const shunts: ShuntElement[] = []
  const loads: LoadElement[] = []
  const wire = (node: string, name: string): WireIndex => {
    const key = `${node}.${name}`
    let at = index.get(key)
    if (at === undefined) {
      at = wires.length
      wires.push(key)
      index.set(key, at)
    }
    return at
  }
  return {
    wire,
    fix: (at, volts) => void fixed.push({ wire: at, volts }),
    line: (element) => {
      const n = element.from.length
      if (element.to.length !== n || element.zOhm.length !== n || element.zOhm.some((row) => row.length !== n)) {
        throw new Fault('network/line-shape', element.id)
      }
      lines.push(element)
    },
    winding: (element) => void windings.push(element),
    shunt: (element) => void shunts.push(element),
    load: (element) => void loads.push(element),
    centreTap: ({ id, p1, p2, a, n, b, primaryV, secondaryV, sVA, rPu, xPu }) => {
      const inner = wire(id, 'inner')
      const primaryOhm = (primaryV * primaryV) / sVA
      const half = secondaryV / 2
      const halfOhm = (half * half) / sVA
      lines.push({ id: `${id}/primary`, from: [p1], to: [inner], zOhm: [[cx(0.5 * rPu * primaryOhm, 0.8 * xPu * primaryOhm)]] })
      const zOhm = cx(rPu * halfOhm, 0.4 * xPu * halfOhm)
      windings.push({ id: `${id}/a`, p1: inner, p2, s1: a, s2: n, ratio: primaryV / half, zOhm })
      windings.push({ id: `${id}/b`, p1: inner, p2, s1: n, s2: b, ratio: primaryV / half, zOhm })
    },
    done: () => ({ wires, fixed, lines, windings, shunts, loads }),
  }
}

/** Diagonal impedance matrix: conductors without mutual terms. */
export function diagonal(...z: readonly Complex[]): Complex[][] {
  return z.map((zi, i) => z.map((_, j) => (i === j ? zi : cx(0))))
}
