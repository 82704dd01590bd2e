import { type Complex, cx, div } from '../../kernel/index.ts'
import { inverse, LEAK_S } from './admittance.ts'
import { loadFactor } from './load-current.ts'
import { EARTH, type Network } from './model.ts'
import type { SelfCheck } from './solution.ts'

/**
 * Sums currents and powers element by element: Kirchhoff at each wire, source = loads + losses, and what comes home through
 * neutral and earth. Uses the volts only, not the factored matrix.
 */
export function selfCheck(network: Network, volts: Float64Array, leaks: readonly number[]): SelfCheck {
  const n = network.wires.length
  const sum = new Float64Array(2 * (n + 1))
  const at = (wire: number) => (wire === EARTH ? n : wire)
  const v = (wire: number): Complex => (wire === EARTH ? cx(0) : cx(volts[2 * wire]!, volts[2 * wire + 1]!))
  let lossRe = 0
  let lossIm = 0
  const leaves = (wire: number, i: Complex) => {
    sum[2 * at(wire)]! += i.re
    sum[2 * at(wire) + 1]! += i.im
  }
  const lose = (u: Complex, i: Complex) => {
    lossRe += u.re * i.re + u.im * i.im
    lossIm += u.im * i.re - u.re * i.im
  }
  for (const line of network.lines) {
    const y = inverse(line.zOhm)
    line.from.forEach((from, row) => {
      const i = { re: 0, im: 0 }
      line.from.forEach((f, column) => {
        const d = minus(v(f), v(line.to[column]!))
        addProduct(i, y[row]![column]!, d)
      })
      leaves(from, i)
      leaves(line.to[row]!, cx(-i.re, -i.im))
      lose(minus(v(from), v(line.to[row]!)), i)
      if (line.halfShuntS === undefined) return
      for (const ends of [line.from, line.to]) {
        const shunt = { re: 0, im: 0 }
        ends.forEach((wire, column) => {
          addProduct(shunt, line.halfShuntS![row]![column]!, v(wire))
        })
        leaves(ends[row]!, shunt)
        leaves(EARTH, cx(-shunt.re, -shunt.im))
        lose(v(ends[row]!), shunt)
      }
    })
  }
  for (const w of network.windings) {
    const up = minus(v(w.p1), v(w.p2))
    const us = minus(v(w.s1), v(w.s2))
    const i = div(cx(up.re / w.ratio - us.re, up.im / w.ratio - us.im), w.zOhm)
    const ip = cx(i.re / w.ratio, i.im / w.ratio)
    leaves(w.p1, ip)
    leaves(w.p2, cx(-ip.re, -ip.im))
    leaves(w.s1, cx(-i.re, -i.im))
    leaves(w.s2, i)
    lose(up, ip)
    lose(us, cx(-i.re, -i.im))
  }
  const through = (from: number, to: number, y: Complex) => {
    const i = { re: 0, im: 0 }
    const u = minus(v(from), v(to))
    addProduct(i, y, u)
    leaves(from, i)
    leaves(to, cx(-i.re, -i.im))
    lose(u, i)
  }
  for (const s of network.shunts) through(s.from, s.to, s.yS)
  for (const wire of leaks) through(wire, EARTH, cx(LEAK_S))
  let loadRe = 0
  let loadIm = 0
  for (const load of network.loads) {
    const u = minus(v(load.from), v(load.to))
    const square = u.re * u.re + u.im * u.im
    if (square === 0) continue
    const g = loadFactor(load.model, load.nominalV, square)
    const i = cx((load.sVA.re * u.re + load.sVA.im * u.im) * g, (load.sVA.re * u.im - load.sVA.im * u.re) * g)
    leaves(load.from, i)
    leaves(load.to, cx(-i.re, -i.im))
    loadRe += u.re * i.re + u.im * i.im
    loadIm += u.im * i.re - u.re * i.im
  }
  const held = new Set(network.fixed.map((f) => f.wire))
  let sourceRe = 0
  let sourceIm = 0
  let homeRe = sum[2 * n]!
  let homeIm = sum[2 * n + 1]!
  let residualA = 0
  for (let wire = 0; wire < n; wire++) {
    const i = cx(sum[2 * wire]!, sum[2 * wire + 1]!)
    if (!held.has(wire)) {
      residualA = Math.max(residualA, Math.hypot(i.re, i.im))
      continue
    }
    const u = v(wire)
    sourceRe += u.re * i.re + u.im * i.im
    sourceIm += u.im * i.re - u.re * i.im
    homeRe += i.re
    homeIm += i.im
  }
  return {
    residualA: Number.isNaN(volts[0]!) ? NaN : residualA,
    sourceVA: cx(sourceRe, sourceIm),
    loadVA: cx(loadRe, loadIm),
    lossVA: cx(lossRe, lossIm),
    imbalanceVA: Math.hypot(sourceRe - loadRe - lossRe, sourceIm - loadIm - lossIm),
    neutralSumA: Math.hypot(homeRe, homeIm),
  }
}

const minus = (a: Complex, b: Complex): Complex => cx(a.re - b.re, a.im - b.im)

function addProduct(sum: { re: number; im: number }, a: Complex, b: Complex): void {
  sum.re += a.re * b.re - a.im * b.im
  sum.im += a.re * b.im + a.im * b.re
}
