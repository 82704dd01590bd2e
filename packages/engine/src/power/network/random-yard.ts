import { type Complex, cos, cx, type Random, seeded, sin } from '../../kernel/index.ts'
import { EARTH, type LoadModel, type Network, type NetworkMaker, networkMaker } from './model.ts'

/** An invented yard drawn by a seed: radial or meshed, three or four wires, with transformers of any kind. For tests. */
export interface RandomYard {
  readonly network: Network
  readonly radial: boolean
  readonly words: string
}

const TRANSFORMERS = ['none', 'YY', 'DY', 'YD', 'DD', 'centre tap'] as const
type Kind = (typeof TRANSFORMERS)[number]

export function randomYard(seed: number): RandomYard {
  const r = seeded(seed)
  const net = networkMaker()
  const kind = r.pick(TRANSFORMERS)
  const meshed = r.next() < 0.4
  const four = kind !== 'YD' && kind !== 'DD' && r.next() < 0.6
  const split = kind === 'centre tap'
  const wires = split ? ['a', 'b', 'n'] : four ? ['a', 'b', 'c', 'n'] : ['a', 'b', 'c']
  const volts = split ? 120 : r.pick([120, 230])
  transformer(net, r, kind, volts, wires)
  const at = (i: number) => wires.map((w) => net.wire(`n${i}`, w))
  const nodes = 3 + r.below(7)
  for (let i = 1; i < nodes; i++) line(net, r, at(i - 1 - r.below(Math.min(i, 3))), at(i), `l${i}`)
  let extra = 0
  if (meshed && nodes > 3) {
    extra = 1 + r.below(2)
    for (let k = 0; k < extra; k++) line(net, r, at(1 + k), at(nodes - 1), `loop${k}`)
  }
  const models: readonly LoadModel[] = ['Z', 'I', 'P']
  for (let i = 1; i < nodes; i++) {
    const here = at(i)
    for (let k = 0, n = 1 + r.below(3); k < n; k++) {
      const p = r.between(200, 2500)
      const sVA = cx(p, p * r.between(0, 0.8))
      const phases = wires.length - (wires.includes('n') ? 1 : 0)
      const a = r.below(phases)
      const toNeutral = wires.includes('n') && r.next() < 0.6
      const toEarth = !wires.includes('n') && (kind === 'none' || kind === 'YY' || kind === 'DY') && r.next() < 0.5
      const b = toNeutral ? here[wires.length - 1]! : toEarth ? EARTH : here[(a + 1) % phases]!
      const nominalV = toNeutral || toEarth ? volts : split ? 2 * volts : volts * Math.sqrt(3)
      net.load({ id: `${i}/${k}`, from: here[a]!, to: b, sVA, nominalV, model: r.pick(models) })
    }
  }
  return {
    network: net.done(),
    radial: extra === 0,
    words: `${kind}, ${wires.length} wires, ${nodes} nodes, ${extra === 0 ? 'radial' : 'meshed'}`,
  }
}

function line(net: NetworkMaker, r: Random, from: readonly number[], to: readonly number[], id: string): void {
  const lengthM = r.between(5, 40)
  const mutual = r.next() < 0.5
  const z: Complex[][] = from.map((_, i) =>
    from.map((__, j) =>
      i === j ? cx(0.0008 * lengthM, 0.0003 * lengthM) : mutual ? cx(0.00005 * lengthM, 0.00015 * lengthM) : cx(0),
    ),
  )
  net.line({ id, from: [...from], to: [...to], zOhm: z })
}

/** Source node `s`, transformer, and the volts of node `n0`. */
function transformer(net: NetworkMaker, r: Random, kind: Kind, volts: number, wires: readonly string[]): void {
  const angle = (p: number, v: number): Complex => cx(v * cos((-2 * Math.PI * p) / 3), v * sin((-2 * Math.PI * p) / 3))
  const low = wires.map((w) => net.wire('n0', w))
  const n = wires.indexOf('n')
  if (kind === 'none') {
    wires.forEach((w, i) => {
      net.fix(low[i]!, w === 'n' ? cx(0) : angle(i, volts))
    })
    return
  }
  const primaryV = 7200
  const sVA = r.pick([50_000, 75_000, 150_000])
  if (kind === 'centre tap') {
    const p = net.wire('s', 'a')
    net.fix(p, cx(primaryV))
    net.centreTap({
      id: 'T',
      p1: p,
      p2: EARTH,
      a: low[0]!,
      n: low[2]!,
      b: low[1]!,
      primaryV,
      secondaryV: 2 * volts,
      sVA,
      rPu: 0.012,
      xPu: 0.02,
    })
    net.shunt({ id: 'bond', from: low[2]!, to: EARTH, yS: cx(10) })
    return
  }
  const high = ['a', 'b', 'c'].map((w) => net.wire('s', w))
  high.forEach((wire, i) => {
    net.fix(wire, angle(i, primaryV))
  })
  const pairs = [
    [0, 1],
    [1, 2],
    [2, 0],
  ] as const
  const secondary = kind[1] === 'Y' ? volts : volts * Math.sqrt(3)
  const base = (secondary * secondary) / (sVA / 3)
  const star = n >= 0 ? low[n]! : EARTH
  for (let i = 0; i < 3; i++) {
    const [x, y] = pairs[i]!
    net.winding({
      id: `T${i}`,
      p1: high[kind[0] === 'Y' ? i : x]!,
      p2: kind[0] === 'Y' ? EARTH : high[y]!,
      s1: low[kind[1] === 'Y' ? i : x]!,
      s2: kind[1] === 'Y' ? star : low[y]!,
      ratio: (kind[0] === 'Y' ? primaryV : primaryV * Math.sqrt(3)) / secondary,
      zOhm: cx(0.012 * base, 0.03 * base),
    })
  }
  if (n >= 0) net.shunt({ id: 'bond', from: star, to: EARTH, yS: cx(10) })
}
