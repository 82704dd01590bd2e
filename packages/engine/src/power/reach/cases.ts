import { abs, cx, Fault, polar, scale, sub } from '../../kernel/index.ts'
import { rulesFor } from '../../rules/index.ts'
import {
  type CaseAnswer,
  diagonal,
  EARTH,
  networkAnswer,
  networkMaker,
  publishedNetworks,
  readNetwork,
  solveNodal,
  wireOf,
  wireVolts,
} from '../network/index.ts'
import {
  exactLoadV,
  impedanceLoadV,
  loadOhm,
  openNeutralV,
  powerLoadV,
  resistanceByArea,
  runDropV,
  tableDropV,
  threeWireV,
} from './drop.ts'
import { fullLoadA, phasorDipFrac, simpleDipFrac, startByCode, wattsOfHp } from './motor-start.ts'

type Given = any

const M_PER_FT = 0.3048
const OHM_PER_M = 1 / 304.8 // of ohm per 1000 ft

const twoWire = (r: number, lengthM: number, currentA: number) =>
  runDropV({ lengthM, currentA, resistanceOhmPerM: r, reactanceOhmPerM: 0, powerFactorFrac: 1, phases: 1 })

/** Published cases of reach and of whole networks, answered by the functions the question itself uses. */
export const reachCases: Record<string, (given: Given) => Record<string, unknown>> = {
  'rch-01': (g) => dropOf(twoWire(g.r_ohm_kft * OHM_PER_M, g.one_way_ft * M_PER_FT, g.I_A), g.V),
  'rch-02': (g) => ({ drop_V: twoWire(g.K_ohm_cmil_ft / g.cmil / M_PER_FT, g.one_way_ft * M_PER_FT, g.I_A) }),
  'rch-03': (g) => dropOf(twoWire(g.r_ohm_kft * OHM_PER_M, g.one_way_ft * M_PER_FT, g.I_A), g.V),
  'rch-05': (g) => {
    const drop = tableDropV({ currentA: g.I_A, lengthM: g.length_m, mVPerAM: g.mV_A_m_35mm2 })
    const most = (g.limit_V * 1000) / (g.I_A * g.length_m)
    const intl = rulesFor('intl', {})
    const fits = intl.sizes.find((s) => {
      const { r, x } = intl.impedanceOhmPerM({ size: s.name, metal: 'cu', where: 'cable', temperatureC: 70 }).value
      return Math.sqrt(3) * Math.hypot(r, x) * 1000 <= most
    })
    return { drop_35_V: drop, max_mV_A_m: most, size_mm2: fits?.areaMm2 }
  },
  'rch-06': (g) => {
    const drop = tableDropV({ currentA: g.I_A, lengthM: g.length_m, mVPerAM: g.mV_A_m })
    const limit = (g.V * g.limit_pct) / 100
    return { drop_V: drop, limit_V: limit, ok: drop <= limit }
  },
  'rch-07': (g) =>
    dropOf(
      twoWire(resistanceByArea({ areaMm2: g.mm2, resistivityOhmMm2PerM: g.rho_ohm_mm2_m }), g.one_way_ft * M_PER_FT, g.I_A),
      g.V,
    ),
  'rch-08': (g) => {
    const loopOhm = cx(g.r_loop_ohm, g.x_loop_ohm)
    const approx = runDropV({
      lengthM: 1,
      currentA: g.I_A,
      resistanceOhmPerM: loopOhm.re / 2,
      reactanceOhmPerM: loopOhm.im / 2,
      powerFactorFrac: g.pf,
      phases: 1,
    })
    return {
      approx_V: approx,
      exact_V: g.V_source - exactLoadV({ sourceV: g.V_source, currentA: g.I_A, powerFactorFrac: g.pf, loopOhm }),
    }
  },
  'rch-09': (g) => {
    const loopOhm = cx(2 * g.r_ohm_kft * OHM_PER_M * g.one_way_m)
    const v = impedanceLoadV({ sourceV: g.V, sVA: cx(g.W), nominalV: g.V, loopOhm })
    return { drop_pct: 100 * (1 - v / g.V), delivered_W: g.W * (v / g.V) ** 2, current_A: v / abs(loadOhm(cx(g.W), g.V)) }
  },
  'rch-10': (g) => ({ V_load: g.P_W.map((p: number) => powerLoadV({ sourceV: g.V, sVA: cx(p), loopOhm: cx(g.loop_ohm) })) }),
  'rch-11': (g) => {
    const [a, b] = g.loads_W_at_120
    const v = openNeutralV({ lineLineV: g.V, aVA: cx(a), bVA: cx(b), nominalV: 120 })
    return { V_a: v.a, V_b: v.b }
  },
  'rch-12': (g) => {
    const z = cx(g.each_conductor_ohm)
    const v = threeWireV({ sourceV: g.V, lineOhm: z, neutralOhm: z, aA: cx(g.I_a_A), bA: cx(g.I_b_A) })
    return { V_a: v.a, V_b: v.b }
  },
  'rch-13': splitService,
  'rch-14': (g) => {
    const start = startByCode({ hp: g.hp, kVAPerHp: g.code_kva_per_hp, voltageV: g.V, phases: 3 })
    const running = fullLoadA({
      shaftW: wattsOfHp(g.hp),
      voltageV: g.V,
      phases: 3,
      powerFactorFrac: g.pf,
      efficiencyFrac: g.efficiency,
    })
    return { fla_A: running, start_kVA: start.startKVA, start_A: start.startA, ratio: start.startA / running }
  },
  'rch-16': (g) => {
    const task = { startPu: g.start_kVA_at_rated / g.gen_kVA, startPowerFactorFrac: g.start_pf, reactancePu: g.xd1 }
    return { dip_simple_pct: 100 * simpleDipFrac(task), dip_phasor_pct: 100 * phasorDipFrac(task) }
  },
  'net-01': (g) => fourNodes(g),
  'net-02': (g) => fourNodes(g),
  'net-05': (g) => fourNodes(g),
  'net-angles-YY': (g) => fourNodes(g),
  'net-angles-DD': (g) => fourNodes(g),
  'net-balanced-YY': (g) => fourNodes(g),
  'net-balanced-DY': (g) => fourNodes(g),
  'net-balanced-YD': (g) => fourNodes(g),
  'net-balanced-DD': (g) => fourNodes(g),
  'net-06': (g) => {
    const one = caseOf(g.data, 'reduced')
    return Object.fromEntries(
      ['634', '646', '671', '675', '611', '652'].map((n) => [`V${n}_pu`, perUnit(one, n).map((v) => v?.[0] ?? null)]),
    )
  },
  'net-06-phasors': (g) => {
    const one = caseOf(g.data, 'reduced')
    return Object.fromEntries(
      ['634', '671', '675'].map((n) => [
        `V${n}`,
        perUnit(one, n).map((v) => {
          const p = polar(v![0], (v![1] * Math.PI) / 180)
          return [p.re, p.im]
        }),
      ]),
    )
  },
  'net-13-full': (g) => {
    const one = caseOf(g.data, 'full')
    return Object.fromEntries(
      Object.keys(one.nodes).flatMap((n) => [
        [`V${n}_pu`, perUnit(one, n).map((v) => v?.[0] ?? null)],
        [`V${n}_deg`, perUnit(one, n).map((v) => v?.[1] ?? null)],
      ]),
    )
  },
}

const dropOf = (drop: number, volts: number) => ({ drop_V: drop, drop_pct: (100 * drop) / volts })

/** rch-13: centre-tapped transformer, three conductors of its service, loads on both legs and across them. */
function splitService(g: Given): Record<string, unknown> {
  const net = networkMaker()
  const p = net.wire('source', 'p')
  net.fix(p, cx(g.source_V))
  const [a, n, b] = ['a', 'n', 'b'].map((w) => net.wire('terminals', w)) as [number, number, number]
  net.centreTap({
    id: 'T',
    p1: p,
    p2: EARTH,
    a,
    n,
    b,
    primaryV: g.source_V,
    secondaryV: 240,
    sVA: g.S_kVA * 1000,
    rPu: g.r_pu,
    xPu: g.x_pu,
  })
  // The neutral is bonded at the transformer's terminals: earth is where the load's neutral shift is read from.
  net.shunt({ id: 'bond', from: n, to: EARTH, yS: cx(1e6) })
  const [la, ln, lb] = ['a', 'n', 'b'].map((w) => net.wire('load', w)) as [number, number, number]
  const z = cx(g.service_each_conductor_ohm[0], g.service_each_conductor_ohm[1])
  net.line({ id: 'service', from: [a, n, b], to: [la, ln, lb], zOhm: diagonal(z, z, z) })
  const wires: Record<string, number> = { a: la, n: ln, b: lb }
  for (const l of g.loads) {
    const [from, to] = l.between.split('-')
    const s = l.kVA * 1000
    net.load({
      id: l.between,
      from: wires[from]!,
      to: wires[to]!,
      sVA: cx(s * l.pf, s * Math.sqrt(1 - l.pf ** 2)),
      nominalV: l.between === 'a-b' ? 240 : 120,
      model: 'P',
    })
  }
  const network = net.done()
  const solved = solveNodal(network)
  const at = (name: string) => wireVolts(solved, wireOf(network, name))
  const between = (x: string, y: string) => abs(sub(at(x), at(y)))
  return {
    terminal_a_V: between('terminals.a', 'terminals.n'),
    terminal_b_V: between('terminals.b', 'terminals.n'),
    load_a_V: between('load.a', 'load.n'),
    load_b_V: between('load.b', 'load.n'),
    load_ab_V: between('load.a', 'load.b'),
    neutral_shift_V: abs(scale(sub(at('load.n'), at('terminals.n')), 1)),
  }
}

function caseOf(data: string, name: string): CaseAnswer {
  const read = readNetwork(publishedNetworks[data] ?? '')
  if (!read.ok) throw new Fault('network/published', read.problems)
  return networkAnswer(read.value, name).cases[name]!
}

/** Wye sides against ground, delta sides between lines, as the publication reports them. */
function fourNodes(g: Given): Record<string, unknown> {
  const one = caseOf(g.data, `${g.connection} ${g.load}`)
  const keys = (node: '2' | '3' | '4') =>
    (node === '2' ? g.connection[0] : g.connection[1]) === 'Y' ? ['a', 'b', 'c'] : ['ab', 'bc', 'ca']
  const of = (node: '2' | '3' | '4') => keys(node).map((k) => one.nodes[node]![k]!)
  return Object.fromEntries(
    (['2', '3', '4'] as const).flatMap((n) => [
      [`V${n}_V`, of(n).map((v) => v.voltageV)],
      [`V${n}_deg`, of(n).map((v) => v.angleDeg)],
    ]),
  )
}

/** Per unit of the node's own base, degrees; null for a phase it does not have. */
function perUnit(one: CaseAnswer, node: string): ([number, number] | null)[] {
  const base = (node === '634' ? 480 : 4160) / Math.sqrt(3)
  return ['a', 'b', 'c'].map((k) => {
    const v = one.nodes[node]?.[k]
    return v === undefined ? null : [v.voltageV / base, v.angleDeg]
  })
}
