import { expect, test } from 'vitest'
import { abs } from '../kernel/index.ts'
import { rulesFor } from '../rules/index.ts'
import { loopsAt, terminalLoops } from './loops.ts'
import { electricalTree, pathIn } from './path.ts'
import { withXOverR } from './plates.ts'
import { exampleInputs } from './reach/example.ts'
import { sourceImpedance } from './source-impedance.ts'

const rules = rulesFor('us', {})
const split = rules.systems.find((s) => s.kind === 'split')!
const wye = rules.systems.find((s) => s.id === 'wye 208/120')!
const span = (value: number) => ({ low: value, high: value, basis: 'plate', told: true })
const offer = (kVA: number, pct: number, xr: number, phases: 1 | 3) => ({
  id: 'U1',
  kind: 'utility' as const,
  what: 'service',
  system: '',
  available: true,
  serviceA: [200],
  transformer: { kVA, impedancePct: span(pct), xOverR: span(xr), phases },
  distanceM: 0,
  leadDays: null,
  oneOffMoney: null,
  earthing: null,
  earthingForbidden: false,
  note: '',
})
const task = {
  mode: 'network' as const,
  serviceA: 200,
  end: 'strong' as const,
  state: 'steady' as const,
  rules,
  tolerance: false,
}

test('a pole transformer of 37.5 kVA, 2.2 %, x/r 1.3 gives 7102 A line–line and 10765 A line–neutral (flt-07)', () => {
  const { loops } = sourceImpedance({ ...task, offer: offer(37.5, 2.2, 1.3, 1), system: split })
  expect(240 / abs(loops.lineLine)).toBeCloseTo(7102, -1)
  expect(Math.abs(120 / abs(loops.lineNeutral!) / 10765 - 1)).toBeLessThan(0.002)
})

test('500 kVA at 208 V and 2 % gives 69.4 kA three-phase (flt-06)', () => {
  const { loops } = sourceImpedance({ ...task, offer: offer(500, 2, 3, 3), system: wye })
  expect(208 / Math.sqrt(3) / abs(loops.threePhase!) / 1000).toBeCloseTo(69.4, 1)
})

test('the strong end never has more impedance than the weak one, for a known and an unknown transformer', () => {
  for (const o of [
    offer(75, 1.8, 1.5, 1),
    (({ transformer: _, ...rest }) => rest)(offer(75, 1.8, 1.5, 1)),
    { ...(({ transformer: _, ...rest }) => rest)(offer(75, 1.8, 1.5, 1)), faultA: { value: 9000, by: 'utility' } },
  ]) {
    const at = (end: 'strong' | 'weak') => abs(sourceImpedance({ ...task, offer: o, system: split, end }).loops.lineLine)
    expect(at('strong')).toBeLessThanOrEqual(at('weak'))
  }
})

test('loops of a path are the sums of its parts, R and X each', () => {
  const inputs = exampleInputs()
  const tree = electricalTree(inputs.design.boxes[0]!, {
    ...inputs,
    mode: 'network',
    end: 'weak',
    state: 'steady',
    conductorC: 75,
  })
  const path = pathIn(tree, { at: 'plug', tag: 'M0' })
  expect(path.map((s) => s.kind)).toEqual(['source', 'feed', 'run', 'cord'])
  const runs = path.flatMap((s) => (s.kind === 'source' || s.kind === 'own transformer' ? [] : [s]))
  const at = terminalLoops(tree.system, tree.source.source.z1, tree.source.source.z0).lineNeutral!
  const r = runs.reduce((a, s) => a + s.phase.ohm.re + s.neutral!.ohm.re, at.re)
  expect(loopsAt(path).lineNeutral!.re).toBeCloseTo(r, 12)
  // The feed's earth fault comes home through the neutral up to the bond.
  expect(runs[0]!.earthReturn).toBe(runs[0]!.neutral)
})

test('x/r keeps the magnitude', () => {
  expect(abs(withXOverR(0.02, 4))).toBeCloseTo(0.02, 14)
})
