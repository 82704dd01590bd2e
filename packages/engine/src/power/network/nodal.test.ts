import { expect, test } from 'vitest'
import { abs, cx, sub } from '../../kernel/index.ts'
import { diagonal, EARTH, networkMaker } from './model.ts'
import { solveNodal } from './nodal.ts'
import { wireOf, wireVolts } from './solution.ts'

function oneLoad(watts: number, loopOhm: number, volts: number) {
  const net = networkMaker()
  const s = net.wire('source', 'a')
  const l = net.wire('load', 'a')
  net.fix(s, cx(volts))
  net.line({ id: 'cord', from: [s], to: [l], zOhm: diagonal(cx(loopOhm)) })
  net.load({ id: 'M1', from: l, to: EARTH, sVA: cx(watts), nominalV: volts, model: 'P' })
  return net.done()
}

test('a constant-power load on a resistive loop settles where the quadratic says (rch-10)', () => {
  const network = oneLoad(3500, 0.927, 120)
  const solved = solveNodal(network)
  expect(solved.outcome).toBe('solved')
  const exact = 60 + Math.sqrt(3600 - 3500 * 0.927)
  expect(abs(wireVolts(solved, wireOf(network, 'load.a')))).toBeCloseTo(exact, 8)
})

test('beyond the nose of the curve there is proven to be no solution, at Vs²/(4R), and the load is named', () => {
  const solved = solveNodal(oneLoad(4000, 0.927, 120))
  expect(solved.outcome).toBe('none')
  expect(solved.turnsAtFrac! * 4000).toBeCloseTo((120 * 120) / (4 * 0.927), 0)
  expect(solved.culprits).toEqual(['M1'])
})

test('just under the nose the path in load still arrives', () => {
  const limit = (120 * 120) / (4 * 0.927)
  const network = oneLoad(limit * 0.9999, 0.927, 120)
  const solved = solveNodal(network)
  expect(solved.outcome).toBe('solved')
  expect(abs(wireVolts(solved, wireOf(network, 'load.a')))).toBeCloseTo(60 + Math.sqrt(3600 - limit * 0.9999 * 0.927), 4)
})

test('an open neutral divides by the loads (rch-11)', () => {
  const net = networkMaker()
  const [a, b, n] = [net.wire('p', 'a'), net.wire('p', 'b'), net.wire('p', 'n')]
  net.fix(a, cx(120))
  net.fix(b, cx(-120))
  net.load({ id: 'A', from: a, to: n, sVA: cx(1500), nominalV: 120, model: 'Z' })
  net.load({ id: 'B', from: n, to: b, sVA: cx(300), nominalV: 120, model: 'Z' })
  const solved = solveNodal(net.done())
  const at = (w: number) => wireVolts(solved, w)
  expect(abs(sub(at(a), at(n)))).toBeCloseTo(40, 3)
  expect(abs(sub(at(n), at(b)))).toBeCloseTo(200, 3)
})
