import { type Complex, cx, div, Fault, scale } from '../../kernel/index.ts'
import { EARTH, type LineElement, type Network, type WindingElement } from './model.ts'
import type { Entry } from './symmetric-factor.ts'

/** Leak from each wire at the windings of a part that touches neither earth nor source, S: it fixes the common volts and moves nothing else. */
export const LEAK_S = 1e-8

/** Receives an admittance between two points (or a point and itself); called once per unordered pair of wires. */
export type Stamp = (a: number, b: number, y: Complex) => void

/** Inverse of a small complex matrix, by elimination with pivoting. @throws Fault `network/singular` */
export function inverse(z: readonly (readonly Complex[])[]): Complex[][] {
  const n = z.length
  const a = z.map((row, i) => [...row, ...row.map((_, j) => (i === j ? cx(1) : cx(0)))])
  for (let k = 0; k < n; k++) {
    let best = k
    for (let i = k + 1; i < n; i++) if (size2(a[i]![k]!) > size2(a[best]![k]!)) best = i
    ;[a[k], a[best]] = [a[best]!, a[k]!]
    const pivot = a[k]![k]!
    if (!(size2(pivot) > 0)) throw new Fault('network/singular', k)
    a[k] = a[k]!.map((v) => div(v, pivot))
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const f = a[i]![k]!
      a[i] = a[i]!.map((v, j) => {
        const p = a[k]![j]!
        return cx(v.re - (f.re * p.re - f.im * p.im), v.im - (f.re * p.im + f.im * p.re))
      })
    }
  }
  return a.map((row) => row.slice(n))
}

const size2 = (v: Complex): number => v.re * v.re + v.im * v.im

/** Series admittance +Y, −Y, −Y, +Y and half the shunt at each end. */
export function stampLine(line: LineElement, stamp: Stamp): void {
  const y = inverse(line.zOhm)
  const n = line.from.length
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const yij = y[i]![j]!
      stamp(line.from[i]!, line.to[j]!, scale(yij, -1))
      if (j < i) continue
      const half = line.halfShuntS?.[i]?.[j] ?? cx(0)
      const own = cx(yij.re + half.re, yij.im + half.im)
      stampPair(line.from[i]!, line.from[j]!, i === j, own, stamp)
      stampPair(line.to[i]!, line.to[j]!, i === j, own, stamp)
    }
  }
}

/** Two ends on the same wire: both orders of the product fall on its diagonal. */
function stampPair(a: number, b: number, same: boolean, y: Complex, stamp: Stamp): void {
  stamp(a, b, a === b && !same ? scale(y, 2) : y)
}

/** Incidence [1/n, −1/n, −1, +1] on (p1, p2, s1, s2). */
export function stampWinding(winding: WindingElement, stamp: Stamp): void {
  const y = div(cx(1), winding.zOhm)
  const k = 1 / winding.ratio
  stampIncidence(
    [
      [winding.p1, k],
      [winding.p2, -k],
      [winding.s1, -1],
      [winding.s2, 1],
    ],
    y,
    stamp,
  )
}

export function stampBetween(from: number, to: number, y: Complex, stamp: Stamp): void {
  stampIncidence(
    [
      [from, 1],
      [to, -1],
    ],
    y,
    stamp,
  )
}

function stampIncidence(ends: readonly (readonly [number, number])[], y: Complex, stamp: Stamp): void {
  for (let i = 0; i < ends.length; i++) {
    for (let j = i; j < ends.length; j++) {
      const [a, ca] = ends[i]!
      const [b, cb] = ends[j]!
      stampPair(a, b, i === j, scale(y, ca * cb), stamp)
    }
  }
}

export interface Floating {
  /** Wires of parts that neither earth nor a fixed wire reaches through lines, windings and shunts. */
  readonly wires: readonly number[]
  /** Those of them that get the leak: the terminals of the part's windings, or all where it has none. */
  readonly leaks: readonly number[]
}

export function floatingParts(network: Network): Floating {
  const n = network.wires.length
  const parent = Array.from({ length: n + 1 }, (_, i) => i)
  const root = (i: number): number => {
    let at = i
    while (parent[at] !== at) at = parent[at]!
    parent[i] = at
    return at
  }
  const at = (wire: number) => (wire === EARTH ? n : wire)
  const join = (a: number, b: number) => {
    parent[root(at(a))] = root(at(b))
  }
  for (const f of network.fixed) join(f.wire, EARTH)
  for (const line of network.lines) {
    line.from.forEach((f, i) => {
      join(f, line.to[i]!)
    })
    if (line.halfShuntS !== undefined) for (const f of line.from) join(f, EARTH)
  }
  for (const w of network.windings) {
    join(w.p1, w.p2)
    join(w.s1, w.s2)
  }
  for (const s of network.shunts) join(s.from, s.to)
  const ground = root(n)
  const wires: number[] = []
  for (let i = 0; i < n; i++) if (root(i) !== ground) wires.push(i)
  if (wires.length === 0) return { wires, leaks: wires }
  const terminals = new Set(network.windings.flatMap((w) => [w.p1, w.p2, w.s1, w.s2]))
  const wound = new Set(wires.filter((w) => terminals.has(w)).map(root))
  return { wires, leaks: wires.filter((w) => terminals.has(w) || !wound.has(root(w))) }
}

export interface Assembled {
  /** Place of each wire among the unknowns, −1 for a fixed one. */
  readonly unknown: Int32Array
  readonly count: number
  readonly entries: readonly Entry[]
  /** −Y_us V_s, on the unknowns. */
  readonly injected: Float64Array
  readonly floating: Floating
}

/** Lines, windings, shunts, leaks and constant-impedance loads as one symmetric matrix on the unknown wires. */
export function assembled(network: Network): Assembled {
  const n = network.wires.length
  const volts = new Float64Array(2 * n)
  const unknown = new Int32Array(n)
  for (const f of network.fixed) {
    unknown[f.wire] = -1
    volts[2 * f.wire] = f.volts.re
    volts[2 * f.wire + 1] = f.volts.im
  }
  let count = 0
  for (let i = 0; i < n; i++) if (unknown[i] === 0) unknown[i] = count++
  const entries: Entry[] = []
  const injected = new Float64Array(2 * count)
  const inject = (at: number, y: Complex, from: number) => {
    injected[2 * at]! -= y.re * volts[2 * from]! - y.im * volts[2 * from + 1]!
    injected[2 * at + 1]! -= y.re * volts[2 * from + 1]! + y.im * volts[2 * from]!
  }
  const stamp: Stamp = (a, b, y) => {
    if (a === EARTH || b === EARTH) return
    const ua = unknown[a]!
    const ub = unknown[b]!
    if (ua >= 0 && ub >= 0) entries.push({ row: ua, column: ub, re: y.re, im: y.im })
    else if (ua >= 0) inject(ua, y, b)
    else if (ub >= 0) inject(ub, y, a)
  }
  for (const line of network.lines) stampLine(line, stamp)
  for (const winding of network.windings) stampWinding(winding, stamp)
  for (const shunt of network.shunts) stampBetween(shunt.from, shunt.to, shunt.yS, stamp)
  for (const load of network.loads) {
    if (load.model !== 'Z') continue
    const g = 1 / (load.nominalV * load.nominalV)
    stampBetween(load.from, load.to, cx(load.sVA.re * g, -load.sVA.im * g), stamp)
  }
  const floating = floatingParts(network)
  for (const wire of floating.leaks) stamp(wire, wire, cx(LEAK_S))
  return { unknown, count, entries, injected, floating }
}
