import { expect, test } from 'vitest'
import type { BoxDesign, Circuit, Job, Plug } from '../../job/index.ts'
import { abs, cx, sub } from '../../kernel/index.ts'
import { diagonal, EARTH, networkMaker, solveNodal, wireVolts } from '../network/index.ts'
import { exampleInputs } from './example.ts'
import { answerReach } from './index.ts'
import { phasorDipFrac } from './motor-start.ts'
import { networkOfYard } from './network-of.ts'
import { openNeutral } from './open-neutral.ts'
import { solveYard } from './solve-yard.ts'
import { started } from './starts.ts'
import { type Yard, yardOf } from './yard.ts'

const task = (inputs: ReturnType<typeof exampleInputs>) => ({
  ...inputs,
  mode: 'network' as const,
  end: 'weak' as const,
  state: 'steady' as const,
  conductorC: 75,
  powerFactor: 'low' as const,
})

/** Second box fed from the first, with one circuit that carries three cords and a three-phase machine. */
function twoBoxes(): { readonly inputs: ReturnType<typeof exampleInputs>; readonly yard: Yard } {
  const inputs = exampleInputs({ system: 'wye', plugs: 12, interim: false })
  const first = inputs.design.boxes[0]!
  const base = inputs.job.plugs[0]!
  const extra: Plug[] = [0, 1, 2].map((k) => ({
    ...base,
    tag: `S${k}`,
    row: 'S',
    machine: 'S',
    powerW: 400,
    currentA: 400 / 120,
  }))
  const three: Plug = {
    ...base,
    tag: 'T0',
    row: 'T',
    machine: 'T',
    kind: 'drive',
    phases: 3,
    voltageV: 208,
    powerW: 6000,
    currentA: 17,
  }
  const shared: Circuit = {
    ...first.circuits[0]!,
    id: 'S',
    plugs: extra.map((p) => p.tag),
    cords: extra.map((p, k) => ({ plug: p.tag, type: 'SEOOW', size: '14 AWG', lengthM: 8 + 4 * k, jacketMinC: -50 })),
  }
  const triple: Circuit = {
    ...first.circuits[0]!,
    id: 'T',
    connection: 'LLL',
    legs: ['A', 'B', 'C'],
    plugs: ['T0'],
    run: { ...first.circuits[0]!.run, neutral: null },
    cords: [{ plug: 'T0', type: 'SEOOW', size: '10 AWG', lengthM: 20, jacketMinC: -50 }],
  }
  const second: BoxDesign = {
    ...first,
    box: 'B2',
    circuits: [shared, triple],
    fedFrom: { box: 'B1', run: { ...first.panel.feed, lengthM: 30 }, device: first.panel.main },
  }
  const job: Job = { ...inputs.job, plugs: [...inputs.job.plugs, ...extra, three] }
  const both = { ...inputs, job, design: { ...inputs.design, boxes: [first, second] } }
  return { inputs: both, yard: yardOf(first, task(both)) }
}

test('a box fed from a box, a run with three cords and a three-phase machine agree with the nodal solution to 1e-8', () => {
  const { yard } = twoBoxes()
  const state = { on: new Uint8Array(yard.plugs.length).fill(1) }
  const ours = solveYard(yard, state)
  const { network, ends } = networkOfYard(yard, state)
  const theirs = solveNodal(network)
  expect(yard.panels.length).toBe(2)
  expect(yard.flat.sharedCircuits.length).toBe(2)
  yard.elements.forEach((_, e) => {
    const v = sub(wireVolts(theirs, ends[e]![0]), wireVolts(theirs, ends[e]![1]))
    expect(Math.hypot(v.re - ours.elementV[2 * e]!, v.im - ours.elementV[2 * e + 1]!) / 120).toBeLessThan(1e-8)
  })
  expect(ours.imbalanceW).toBeLessThan(1e-6 * ours.sourceW)
})

test('both boxes are answered, each with its own plugs', () => {
  const { inputs } = twoBoxes()
  const { result, workings } = answerReach(inputs)
  expect(result.boxes.map((b) => b.box)).toEqual(['B1', 'B2'])
  expect(result.boxes[1]!.states[0]!.plugs.map((p) => p.plug).sort()).toEqual(['S0', 'S1', 'S2', 'T0'])
  expect(new Set(workings.map((w) => w.id)).size).toBe(workings.length)
})

test('an own delta–wye transformer gives the volts of its windings solved one by one', () => {
  const inputs = exampleInputs({ system: 'wye', plugs: 9, interim: false })
  const box = inputs.design.boxes[0]!
  const transformer = {
    kVA: 75,
    primaryV: 480,
    secondaryV: 208,
    impedancePct: 4.5,
    xOverR: 1.3,
    phases: 3 as const,
    noLoadLossW: 0,
    fullLoadLossW: 0,
    primary: box.panel.main,
    primaryRun: { ...box.panel.feed, lengthM: 15, neutral: null },
  }
  const yard = yardOf({ ...box, transformer }, task(inputs))
  const state = { on: new Uint8Array(yard.plugs.length).fill(1) }
  const ours = solveYard(yard, state)
  const upstream = yard.panels[0]!.tree.source.source.z1
  const primaryRun = yard.panels[0]!.tree.trunk.find((s) => s.kind === 'primary run') as {
    readonly phase: { readonly ohm: { re: number; im: number } }
  }
  const net = networkMaker()
  const wires = (node: string, names: string) => [...names].map((w) => net.wire(node, w))
  const source = wires('source', 'abc')
  source.forEach((w, i) => {
    const a = (-2 * Math.PI * i) / 3
    net.fix(w, cx((480 / Math.sqrt(3)) * Math.cos(a), (480 / Math.sqrt(3)) * Math.sin(a)))
  })
  const high = wires('high', 'abc')
  const z = cx(upstream.re + primaryRun.phase.ohm.re, upstream.im + primaryRun.phase.ohm.im)
  net.line({ id: 'up', from: source, to: high, zOhm: diagonal(z, z, z) })
  const low = wires('low', 'abc')
  const base = 208 ** 2 / 75000
  const size = (0.045 * base) / Math.hypot(1, 1.3)
  ;[
    [0, 2],
    [1, 0],
    [2, 1],
  ].forEach(([x, y], i) => {
    net.winding({
      id: `${i}`,
      p1: high[x!]!,
      p2: high[y!]!,
      s1: low[i]!,
      s2: EARTH,
      ratio: (480 * Math.sqrt(3)) / 208,
      zOhm: cx(size, 1.3 * size),
    })
  })
  const panel = wires('panel', 'abcn')
  const { phaseOhm, neutralOhm } = yard.panels[0]!
  net.line({ id: 'feed', from: low, to: panel.slice(0, 3), zOhm: diagonal(phaseOhm, phaseOhm, phaseOhm) })
  net.shunt({
    id: 'neutral',
    from: panel[3]!,
    to: EARTH,
    yS: { re: neutralOhm.re / abs(neutralOhm) ** 2, im: -neutralOhm.im / abs(neutralOhm) ** 2 },
  })
  yard.elements.forEach((e, k) => {
    const end = wires(`e${k}`, 'xy')
    const plug = yard.plugs[e.plug]!
    const [c, r] = [yard.cords[plug.cord]!, yard.circuits[plug.circuit]!]
    const of = (w: number) =>
      w === 3
        ? cx(c.neutralOhm.re + r.neutralOhm.re, c.neutralOhm.im + r.neutralOhm.im)
        : cx(c.phaseOhm.re + r.phaseOhm.re, c.phaseOhm.im + r.phaseOhm.im)
    net.line({ id: `c${k}`, from: [panel[e.from]!, panel[e.to]!], to: end, zOhm: diagonal(of(e.from), of(e.to)) })
    net.load({ id: `${k}`, from: end[0]!, to: end[1]!, sVA: e.sVA, nominalV: e.nominalV, model: e.model })
  })
  const network = net.done()
  const theirs = solveNodal(network)
  yard.elements.forEach((_, k) => {
    const at = (w: string) => wireVolts(theirs, network.wires.indexOf(`e${k}.${w}`))
    expect(abs(sub(at('x'), at('y')))).toBeCloseTo(Math.hypot(ours.elementV[2 * k]!, ours.elementV[2 * k + 1]!), 6)
  })
})

test('an open neutral puts the volts where the nodal solution puts them, loads as impedances', () => {
  const inputs = exampleInputs({ plugs: 9, interim: false })
  const made = yardOf(inputs.design.boxes[0]!, task(inputs))
  const yard: Yard = { ...made, elements: made.elements.map((e) => ({ ...e, model: 'Z' as const })) }
  const on = new Uint8Array(yard.plugs.length).fill(1)
  const found = openNeutral(yard, on, 0)!
  const net = networkMaker()
  const [a, b, n] = ['a', 'b', 'n'].map((w) => net.wire('panel', w)) as [number, number, number]
  net.fix(a, cx(120))
  net.fix(b, cx(-120))
  yard.elements.forEach((e, k) => {
    const plug = yard.plugs[e.plug]!
    const [c, r] = [yard.cords[plug.cord]!, yard.circuits[plug.circuit]!]
    const end = net.wire(`e${k}`, 'x')
    const back = e.to === 3 ? n : e.to === 1 ? b : a
    const z =
      e.to === 3
        ? cx(
            c.phaseOhm.re + r.phaseOhm.re + c.neutralOhm.re + r.neutralOhm.re,
            c.phaseOhm.im + r.phaseOhm.im + c.neutralOhm.im + r.neutralOhm.im,
          )
        : cx(1e-3)
    net.line({ id: `${k}`, from: [e.from === 0 ? a : b], to: [end], zOhm: [[z]] })
    net.load({ id: `${k}`, from: end, to: back, sVA: e.sVA, nominalV: e.nominalV, model: 'Z' })
  })
  const network = net.done()
  const solved = solveNodal(network)
  const volts = (leg: number) => abs(sub(wireVolts(solved, leg), wireVolts(solved, n)))
  expect(found.legV.A).toBeCloseTo(volts(a), 3)
  expect(found.legV.B).toBeCloseTo(volts(b), 3)
  expect(Math.max(volts(a), volts(b))).toBeGreaterThan(125)
})

test('a start behind X′d alone dips by the phasor formula (rch-16)', () => {
  const inputs = exampleInputs({ system: 'wye', plugs: 4 })
  const box = inputs.design.boxes[0]!
  const short = (m: number) => ({ ...box.panel.feed, lengthM: m })
  const bare: BoxDesign = {
    ...box,
    panel: { ...box.panel, feed: short(0) },
    circuits: box.circuits.map((c) => ({
      ...c,
      run: { ...c.run, lengthM: 0 },
      cords: c.cords.map((k) => ({ ...k, lengthM: 0 })),
    })),
  }
  const own = { ...task(inputs), mode: 'own set' as const }
  const steady = yardOf(bare, own)
  const transient = yardOf(bare, { ...own, state: 'transient' })
  const at = steady.plugs.findIndex((p) => p.plug?.kind === 'motor')
  const found = started({
    steady,
    transient,
    plug: at,
    on: Uint8Array.from(steady.plugs, (_, k) => (k === at ? 1 : 0)),
    rules: inputs.rules,
    end: 'low',
  })
  // One-phase start on a set whose z0 is less than z1: the impedance of that loop is (2 z1 + z0)/3.
  const own1 = transient.sourceOhm[0]![0]!
  const sVA = found.dip.startA * 120
  const reactancePu = own1.im / (120 ** 2 / sVA)
  expect(found.dip.atMachinePct).toBeCloseTo(100 * phasorDipFrac({ startPu: 1, startPowerFactorFrac: 0.2, reactancePu }), 0)
})
