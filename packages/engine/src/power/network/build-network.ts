import { cx, Fault, scale } from '../../kernel/index.ts'
import { type FileTransformer, GROUND, type NetworkFile } from './file-types.ts'
import { diagonal, EARTH, type Network, type NetworkMaker, networkMaker } from './model.ts'

/** A closed switch, a bond without resistance and a regulator stand as this: a millivolt at a thousand amperes. */
const JOINED_OHM = 1e-6

/** The network of one case of a file, wire by wire. @throws Fault `network/no-such-case` */
export function networkOfFile(file: NetworkFile, caseName: string): Network {
  const one = file.cases[caseName]
  if (one === undefined) throw new Fault('network/no-such-case', { caseName, known: Object.keys(file.cases) })
  const net = networkMaker()
  const at = (node: string, wire: string) => (wire === GROUND ? EARTH : net.wire(node, wire))
  for (const s of one.sources) for (const [wire, volts] of Object.entries(s.volts)) net.fix(at(s.node, wire), volts)
  for (const l of one.lines) {
    const c = file.configurations[l.configuration]!
    const half = c.siemensPerM?.map((row) => row.map((y) => scale(y, l.lengthM / 2)))
    net.line({
      id: l.id,
      from: c.wires.map((w) => at(l.from, w)),
      to: c.wires.map((w) => at(l.to, w)),
      zOhm: c.ohmPerM.map((row) => row.map((z) => scale(z, l.lengthM))),
      ...(half === undefined ? {} : { halfShuntS: half }),
    })
  }
  for (const t of one.transformers) addTransformer(net, t)
  for (const r of one.regulators) {
    r.wires.forEach((w, i) => {
      net.winding({
        id: `${r.id} ${w}`,
        p1: at(r.from, w),
        p2: EARTH,
        s1: at(r.to, w),
        s2: EARTH,
        ratio: 1 / (1 + r.stepFrac * r.taps[i]!),
        zOhm: cx(JOINED_OHM),
      })
    })
  }
  for (const s of one.switches) {
    if (s.closed)
      net.line({
        id: `${s.from}-${s.to}`,
        from: s.wires.map((w) => at(s.from, w)),
        to: s.wires.map((w) => at(s.to, w)),
        zOhm: diagonal(...s.wires.map(() => cx(JOINED_OHM))),
      })
  }
  for (const l of one.loads)
    net.load({ id: l.id, from: at(l.node, l.from), to: at(l.node, l.to), sVA: l.sVA, nominalV: l.nominalV, model: l.model })
  for (const e of one.earthed)
    net.shunt({ id: `${e.node}.${e.wire}`, from: at(e.node, e.wire), to: EARTH, yS: cx(1 / Math.max(e.ohm, JOINED_OHM)) })
  return net.done()
}

const PHASES = ['a', 'b', 'c'] as const
/** Delta windings of a step-down bank: on the primary A–C, B–A, C–B so that the low side lags 30°; on the secondary and in DD a–b, b–c, c–a. */
const LAGGING = [
  ['a', 'c'],
  ['b', 'a'],
  ['c', 'b'],
] as const
const RUNNING = [
  ['a', 'b'],
  ['b', 'c'],
  ['c', 'a'],
] as const

function addTransformer(net: NetworkMaker, t: FileTransformer): void {
  const at = (node: string, wire: string, side: string) =>
    wire === GROUND ? EARTH : net.wire(node, wire === 'floating' ? `${t.id} star ${side}` : wire)
  if (t.connection === 'centre tap') {
    const [p1, p2] = t.primaryWires
    const [a, n, b] = t.secondaryWires
    net.centreTap({
      id: t.id,
      p1: at(t.from, p1!, 'p'),
      p2: at(t.from, p2!, 'p'),
      a: at(t.to, a!, 's'),
      n: at(t.to, n!, 's'),
      b: at(t.to, b!, 's'),
      primaryV: t.primaryV,
      secondaryV: t.secondaryV,
      sVA: t.ratedVA,
      rPu: t.resistanceFrac,
      xPu: t.reactanceFrac,
    })
    return
  }
  if (t.connection === 'single') {
    const base = (t.secondaryV * t.secondaryV) / t.ratedVA
    const [p1, p2] = t.primaryWires
    const [s1, s2] = t.secondaryWires
    net.winding({
      id: t.id,
      p1: at(t.from, p1!, 'p'),
      p2: at(t.from, p2!, 'p'),
      s1: at(t.to, s1!, 's'),
      s2: at(t.to, s2!, 's'),
      ratio: t.primaryV / t.secondaryV,
      zOhm: cx(t.resistanceFrac * base, t.reactanceFrac * base),
    })
    return
  }
  const [p, s] = [t.connection[0]!, t.connection[1]!]
  const primary = t.primaryV / (p === 'Y' ? Math.sqrt(3) : 1)
  const secondary = t.secondaryV / (s === 'Y' ? Math.sqrt(3) : 1)
  const base = (secondary * secondary) / (t.ratedVA / 3)
  PHASES.forEach((wire, i) => {
    const delta = s === 'Y' ? LAGGING[i]! : RUNNING[i]!
    const up = p === 'Y' ? [wire, t.primaryStar] : delta
    const down = s === 'Y' ? [wire, t.secondaryStar] : RUNNING[i]!
    net.winding({
      id: `${t.id} ${wire}`,
      p1: at(t.from, up[0]!, 'p'),
      p2: at(t.from, up[1]!, 'p'),
      s1: at(t.to, down[0]!, 's'),
      s2: at(t.to, down[1]!, 's'),
      ratio: primary / secondary,
      zOhm: cx(t.resistanceFrac * base, t.reactanceFrac * base),
    })
  })
}

/** Case names of a file, in its order. */
export const caseNames = (file: NetworkFile): readonly string[] => Object.keys(file.cases)
