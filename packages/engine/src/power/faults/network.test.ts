import { expect, test } from 'vitest'
import type { Complex } from '../../kernel/index.ts'
import { cx } from '../../kernel/index.ts'
import { rulesFor } from '../../rules/index.ts'
import { diagonal, EARTH, networkMaker, solveNodal, wireVolts } from '../network/index.ts'
import { boxLevels, type Place } from './levels.ts'
import { kindA } from './place.ts'
import type { FaultKind } from './result.ts'
import { circuit, set, told, utility, yard } from './yard.fixture.ts'

const temperatures = { coldC: 20, hotC: 75, cordHotC: 75, deviceColdC: 20, deviceHotC: 20, assumed: [] }
const levelsOf = (inputs: ReturnType<typeof yard>, mode: 'network' | 'own set') =>
  boxLevels(inputs.design.boxes[0]!, inputs, {
    mode,
    offer: mode === 'network' ? 'line' : 'set',
    temperatures,
    motorRatio: 0,
    voltageFactor: { max: 1, min: 1 },
    tolerance: false,
  })

/** A bolted fault is a shunt of next to no impedance. */
const BOLT_S = 1e9

function shortA(build: (maker: ReturnType<typeof networkMaker>) => { readonly from: number; readonly to: number }): number {
  const maker = networkMaker()
  const { from, to } = build(maker)
  maker.shunt({ id: 'fault', from, to, yS: cx(BOLT_S) })
  const solved = solveNodal(maker.done())
  const a = wireVolts(solved, from)
  const b = to === EARTH ? cx(0) : wireVolts(solved, to)
  return BOLT_S * Math.hypot(a.re - b.re, a.im - b.im)
}

const ours = (place: Place, kind: FaultKind) => kindA(place.system, place.strong, kind, 1)!

test('split phase: faults by loop sums equal those of the nodal network with the interlaced centre tap, at panel, receptacle and cord end', () => {
  const inputs = yard()
  const levels = levelsOf(inputs, 'network')
  const tree = levels.trees.strong
  const feed = tree.trunk.find((s) => s.kind === 'feed')
  if (feed?.kind !== 'feed') throw new Error('the yard has a feed')
  const run = tree.runs.get('C1')!
  const cord = tree.cords.get('H1')!
  const xr = Math.atan(1.5)
  const network = (to: 'panel' | 'receptacle' | 'cord', kind: 'LL' | 'LN') =>
    shortA((m) => {
      const p = m.wire('grid', 'a')
      m.fix(p, cx(7200))
      m.centreTap({
        id: 't',
        p1: p,
        p2: EARTH,
        a: m.wire('src', 'a'),
        n: EARTH,
        b: m.wire('src', 'b'),
        primaryV: 7200,
        secondaryV: 240,
        sVA: 75_000,
        rPu: 0.018 * Math.cos(xr),
        xPu: 0.018 * Math.sin(xr),
      })
      m.line({
        id: 'feed',
        from: [m.wire('src', 'a'), EARTH, m.wire('src', 'b')].map((w, i) => (i === 1 ? m.wire('src', 'n') : w)),
        to: [m.wire('P', 'a'), m.wire('P', 'n'), m.wire('P', 'b')],
        zOhm: diagonal(feed.phase.ohm, feed.neutral!.ohm, feed.phase.ohm),
      })
      m.shunt({ id: 'tap', from: m.wire('src', 'n'), to: EARTH, yS: cx(BOLT_S * 100) })
      m.line({
        id: 'run',
        from: [m.wire('P', 'a'), m.wire('P', 'n')],
        to: [m.wire('C1', 'a'), m.wire('C1', 'n')],
        zOhm: diagonal(run.phase.ohm, run.neutral!.ohm),
      })
      m.line({
        id: 'cord',
        from: [m.wire('C1', 'a'), m.wire('C1', 'n')],
        to: [m.wire('H1', 'a'), m.wire('H1', 'n')],
        zOhm: diagonal(cord.phase.ohm, cord.neutral!.ohm),
      })
      const at = to === 'panel' ? 'P' : to === 'receptacle' ? 'C1' : 'H1'
      return { from: m.wire(at, 'a'), to: m.wire(at, kind === 'LL' ? 'b' : 'n') }
    })
  expect(ours(levels.panel, 'line-line') / network('panel', 'LL')).toBeCloseTo(1, 5)
  expect(ours(levels.panel, 'line-neutral') / network('panel', 'LN')).toBeCloseTo(1, 5)
  expect(ours(levels.receptacles.get('C1')!, 'line-neutral') / network('receptacle', 'LN')).toBeCloseTo(1, 5)
  expect(ours(levels.cordEnds.get('H1')!, 'line-neutral') / network('cord', 'LN')).toBeCloseTo(1, 5)
})

test('wye: three-phase, line–line and line–neutral faults equal those of the nodal network with mutual source impedances', () => {
  const system = rulesFor('us').systems.find((s) => s.kind === 'wye' && s.lineLineV === 208)!
  const inputs = yard({ system: system.id, offers: [set({ ratedKVA: 125, subtransientPct: told(12) }, { system: system.id })] })
  const levels = levelsOf(inputs, 'own set')
  const feed = levels.trees.strong.trunk.find((s) => s.kind === 'feed')
  if (feed?.kind !== 'feed') throw new Error('the yard has a feed')
  const { z1, z0 } = levels.source.strong
  const mix = (f: (one: number, zero: number) => number): Complex => cx(f(z1.re, z0.re), f(z1.im, z0.im))
  const self = mix((one, zero) => (2 * one + zero) / 3)
  const mutual = mix((one, zero) => (zero - one) / 3)
  const network = (kind: 'LLL' | 'LL' | 'LN') =>
    shortA((m) => {
      const phases = ['a', 'b', 'c']
      phases.forEach((p, i) => {
        const angle = (-2 * Math.PI * i) / 3
        m.fix(m.wire('emf', p), cx(system.lineNeutralV * Math.cos(angle), system.lineNeutralV * Math.sin(angle)))
      })
      const at = (node: string) => phases.map((p) => m.wire(node, p))
      m.line({
        id: 'source',
        from: at('emf'),
        to: at('src'),
        zOhm: phases.map((_, i) => phases.map((_, j) => (i === j ? self : mutual))),
      })
      m.shunt({ id: 'star', from: m.wire('src', 'n'), to: EARTH, yS: cx(BOLT_S * 100) })
      m.line({
        id: 'feed',
        from: [...at('src'), m.wire('src', 'n')],
        to: [...at('P'), m.wire('P', 'n')],
        zOhm: diagonal(feed.phase.ohm, feed.phase.ohm, feed.phase.ohm, feed.neutral!.ohm),
      })
      if (kind === 'LLL') {
        m.shunt({ id: 'bc', from: m.wire('P', 'b'), to: m.wire('star', 'x'), yS: cx(BOLT_S) })
        m.shunt({ id: 'cx', from: m.wire('P', 'c'), to: m.wire('star', 'x'), yS: cx(BOLT_S) })
        return { from: m.wire('P', 'a'), to: m.wire('star', 'x') }
      }
      return { from: m.wire('P', 'a'), to: m.wire('P', kind === 'LL' ? 'b' : 'n') }
    })
  const volts = system.lineNeutralV / (system.lineLineV / Math.sqrt(3))
  // 120 V is not quite 208/√3: the network is driven by 120 V, the line–line loops by 208 V.
  expect((ours(levels.panel, 'three-phase') * volts) / network('LLL')).toBeCloseTo(1, 5)
  expect((ours(levels.panel, 'line-line') * volts) / network('LL')).toBeCloseTo(1, 5)
  expect(ours(levels.panel, 'line-neutral') / network('LN')).toBeCloseTo(1, 5)
})

test('line–line and line–earth loops of a branch: both lines, and line with protective conductor, as in the nodal network', () => {
  const thin = { size: '14 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
  const base = circuit({ id: 'C1', plug: 'H1' })
  const inputs = yard({
    circuits: [{ ...base, connection: 'LL', legs: ['A', 'B'], run: { ...base.run, neutral: null, protective: thin } }],
  })
  const levels = levelsOf(inputs, 'network')
  const { trunk, runs, cords } = levels.trees.strong
  const feed = trunk.find((s) => s.kind === 'feed')
  if (feed?.kind !== 'feed') throw new Error('the yard has a feed')
  const [run, cord] = [runs.get('C1')!, cords.get('H1')!]
  const xr = Math.atan(1.5)
  const network = (at: 'C1' | 'H1', kind: 'LL' | 'LE') =>
    shortA((m) => {
      const p = m.wire('grid', 'a')
      m.fix(p, cx(7200))
      const [a, n, b] = ['a', 'n', 'b'].map((w) => m.wire('src', w)) as [number, number, number]
      m.centreTap({
        ...{ id: 't', p1: p, p2: EARTH, a, n: EARTH, b, primaryV: 7200, secondaryV: 240, sVA: 75_000 },
        ...{ rPu: 0.018 * Math.cos(xr), xPu: 0.018 * Math.sin(xr) },
      })
      m.shunt({ id: 'tap', from: n, to: EARTH, yS: cx(BOLT_S * 100) })
      const three = (node: string, back: string) => [m.wire(node, 'a'), m.wire(node, back), m.wire(node, 'b')]
      // The earth fault comes home through the neutral up to the bond in the panel.
      m.line({
        id: 'feed',
        from: [a, n, b],
        to: three('P', 'n'),
        zOhm: diagonal(feed.phase.ohm, feed.neutral!.ohm, feed.phase.ohm),
      })
      m.line({
        id: 'run',
        from: three('P', 'n'),
        to: three('C1', 'pe'),
        zOhm: diagonal(run.phase.ohm, run.protective!.ohm, run.phase.ohm),
      })
      m.line({
        id: 'cord',
        from: three('C1', 'pe'),
        to: three('H1', 'pe'),
        zOhm: diagonal(cord.phase.ohm, cord.protective!.ohm, cord.phase.ohm),
      })
      return { from: m.wire(at, 'a'), to: m.wire(at, kind === 'LL' ? 'b' : 'pe') }
    })
  for (const [place, at] of [
    [levels.receptacles.get('C1')!, 'C1'],
    [levels.cordEnds.get('H1')!, 'H1'],
  ] as const) {
    expect(ours(place, 'line-line') / network(at, 'LL')).toBeCloseTo(1, 5)
    expect(ours(place, 'line-earth') / network(at, 'LE')).toBeCloseTo(1, 5)
  }
})

test('a bound at the printed impedance is what the box shows at its service without tolerance', () => {
  const levels = levelsOf(yard({ offers: [utility()] }), 'network')
  expect(ours(levels.service, 'line-line')).toBeCloseTo(75_000 / 240 / 0.018, 6)
})
