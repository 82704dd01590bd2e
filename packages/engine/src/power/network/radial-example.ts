import { type Complex, cos, cx, seeded, sin } from '../../kernel/index.ts'
import { EARTH, type Network, networkMaker } from './model.ts'
import type { Radial } from './radial.ts'

/** An invented radial feeder of n nodes and 3 or 5 wires, for tests and benches: 400 V, mixed loads, mutual terms in every branch. */
export function radialExample(
  nodes: number,
  wires: 3 | 5,
  seed = 3,
): { readonly radial: Radial; readonly sourceV: Float64Array; readonly network: Network } {
  const r = seeded(seed)
  const k = wires
  const parent = new Int32Array(nodes).fill(-1)
  const zOhm = new Float64Array(2 * k * k * nodes)
  const from: number[] = []
  const to: number[] = []
  const w: number[] = []
  const q: number[] = []
  const model: number[] = []
  const loadStart = new Int32Array(nodes + 1)
  const net = networkMaker()
  const names = ['a', 'b', 'c', 'n', 'p']
  const at = (i: number) => names.slice(0, k).map((name) => net.wire(`${i}`, name))
  const sourceV = new Float64Array(2 * k)
  for (let p = 0; p < 3; p++) {
    const angle = (-2 * Math.PI * p) / 3
    sourceV[2 * p] = 230 * cos(angle)
    sourceV[2 * p + 1] = 230 * sin(angle)
  }
  at(0).forEach((wire, p) => {
    net.fix(wire, cx(sourceV[2 * p]!, sourceV[2 * p + 1]!))
  })
  for (let i = 1; i < nodes; i++) {
    parent[i] = i < 4 ? i - 1 : Math.max(0, i - 1 - r.below(6))
    const lengthM = r.between(4, 18)
    const z: Complex[][] = []
    for (let row = 0; row < k; row++) {
      z.push([])
      for (let column = 0; column < k; column++) {
        const one =
          row === column
            ? cx(0.00021 * lengthM, 0.00031 * lengthM)
            : cx(0.00005 * lengthM, (0.00017 - 0.00002 * Math.abs(row - column)) * lengthM)
        z[row]!.push(one)
        zOhm[2 * (k * k * i + k * row + column)] = one.re
        zOhm[2 * (k * k * i + k * row + column) + 1] = one.im
      }
    }
    net.line({ id: `${i}`, from: at(parent[i]!), to: at(i), zOhm: z })
    loadStart[i] = from.length
    for (let p = 0; p < 3; p++) {
      // A feeder four times as long carries a sixteenth per node: it loses about as much at its end.
      const power = r.between(100, 900) * Math.min(1, (123 / nodes) ** 2)
      const kind = r.below(3)
      from.push(p)
      to.push(k === 5 ? 3 : EARTH)
      w.push(power)
      q.push(power * r.between(0, 0.6))
      model.push(kind)
      const wire = at(i)
      net.load({
        id: `${i} ${p}`,
        from: wire[p]!,
        to: k === 5 ? wire[3]! : EARTH,
        sVA: cx(power, q[q.length - 1]!),
        nominalV: 230,
        model: (['Z', 'I', 'P'] as const)[kind]!,
      })
    }
  }
  loadStart[nodes] = from.length
  const radial: Radial = {
    wires: k,
    nodes,
    parent,
    zOhm,
    loadStart,
    loadFrom: Int32Array.from(from),
    loadTo: Int32Array.from(to),
    loadW: Float64Array.from(w),
    loadVar: Float64Array.from(q),
    loadV: new Float64Array(from.length).fill(230),
    loadModel: Uint8Array.from(model),
  }
  return { radial, sourceV, network: net.done() }
}
