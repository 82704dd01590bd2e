import { add, type Complex, cx, div, Fault, mul, scale, sub } from '../../kernel/index.ts'
import { floatingParts, inverse } from './admittance.ts'
import { loadFactor } from './load-current.ts'
import { EARTH, type LineElement, type Network, type ShuntElement, type WindingElement } from './model.ts'
import { selfCheck } from './self-check.ts'
import type { Solution } from './solution.ts'

/** One step down the tree: a line, or all windings from one node to another with the earth bonds at their far side. */
type Step =
  | { readonly kind: 'line'; readonly line: LineElement; readonly from: readonly number[]; readonly to: readonly number[] }
  | {
      readonly kind: 'bank'
      readonly windings: readonly WindingElement[]
      readonly wires: readonly number[]
      readonly inverse: readonly (readonly Complex[])[]
    }

const PASSES_MOST = 200
const TOLERANCE_RATIO = 1e-12

/**
 * Backward–forward sweep of a radial network with lines and transformers of any winding, by wires. Null when the network is not
 * radial (two ways to a node), or has earth bonds elsewhere than behind a transformer: the nodal form is for those.
 *
 * A bank takes the currents below it and the volts above it and gives the volts at its own terminals by its small admittance matrix.
 */
export function solveSweep(network: Network): Solution | null {
  const tree = stepsOf(network)
  if (tree === null) return null
  const n = network.wires.length
  const v: Complex[] = Array.from({ length: n }, () => cx(0))
  for (const f of network.fixed) v[f.wire] = f.volts
  flatStart(tree.steps, v)
  const drawn: Complex[] = Array.from({ length: n }, () => cx(0))
  const at = (wire: number): Complex => (wire === EARTH ? cx(0) : v[wire]!)
  let passes = 0
  let moved = Infinity
  const before = new Array<Complex>(network.loads.length).fill(cx(NaN, NaN))
  while (passes < PASSES_MOST && !(moved < TOLERANCE_RATIO)) {
    passes++
    drawn.fill(cx(0))
    moved = 0
    network.loads.forEach((l, k) => {
      const u = sub(at(l.from), at(l.to))
      const square = u.re * u.re + u.im * u.im
      const change = Math.hypot(u.re - before[k]!.re, u.im - before[k]!.im) / Math.sqrt(square)
      moved = Number.isNaN(change) ? Infinity : Math.max(moved, change)
      before[k] = u
      const i = scale(mul(cx(l.sVA.re, -l.sVA.im), u), loadFactor(l.model, l.nominalV, square))
      if (l.from !== EARTH) drawn[l.from] = add(drawn[l.from]!, i)
      if (l.to !== EARTH) drawn[l.to] = sub(drawn[l.to]!, i)
    })
    for (let s = tree.steps.length - 1; s >= 0; s--) backward(tree.steps[s]!, drawn, at)
    for (const step of tree.steps) forward(step, drawn, v, at)
    if (!Number.isFinite(moved) && passes > 2) break
  }
  const volts = new Float64Array(2 * n)
  v.forEach((x, i) => {
    volts[2 * i] = x.re
    volts[2 * i + 1] = x.im
  })
  const outcome = moved < TOLERANCE_RATIO ? 'solved' : 'given up'
  if (outcome !== 'solved') volts.fill(NaN)
  return {
    outcome,
    volts,
    passes,
    method: 'sweep',
    check: selfCheck(network, volts, []),
    floating: floatingParts(network).wires,
    leaks: [],
    turnsAtFrac: null,
    culprits: [],
  }
}

/** Adds to the wires above what flows into this step: through a line unchanged, through a bank by its windings. */
function backward(step: Step, drawn: Complex[], at: (wire: number) => Complex): void {
  if (step.kind === 'line') {
    step.from.forEach((f, i) => {
      drawn[f] = add(drawn[f]!, drawn[step.to[i]!]!)
    })
    return
  }
  const v = bankVolts(step, drawn, at)
  const of = (wire: number): Complex => (wire === EARTH ? cx(0) : (v.get(wire) ?? at(wire)))
  for (const w of step.windings) {
    const i = scale(div(sub(scale(sub(at(w.p1), at(w.p2)), 1 / w.ratio), sub(of(w.s1), of(w.s2))), w.zOhm), 1 / w.ratio)
    if (w.p1 !== EARTH) drawn[w.p1] = add(drawn[w.p1]!, i)
    if (w.p2 !== EARTH) drawn[w.p2] = sub(drawn[w.p2]!, i)
  }
}

function forward(step: Step, drawn: readonly Complex[], v: Complex[], at: (wire: number) => Complex): void {
  if (step.kind === 'bank') {
    for (const [wire, volts] of bankVolts(step, drawn, at)) v[wire] = volts
    return
  }
  step.to.forEach((t, i) => {
    let sum = at(step.from[i]!)
    step.to.forEach((c, j) => {
      sum = sub(sum, mul(step.line.zOhm[i]![j]!, drawn[c]!))
    })
    v[t] = sum
  })
}

/** Volts at a bank's own wires: Y⁻¹ (what its windings drive − what is drawn). */
function bankVolts(
  step: Step & { readonly kind: 'bank' },
  drawn: readonly Complex[],
  at: (wire: number) => Complex,
): Map<number, Complex> {
  const right = step.wires.map((w) => scale(drawn[w]!, -1))
  for (const w of step.windings) {
    const e = div(scale(sub(at(w.p1), at(w.p2)), 1 / w.ratio), w.zOhm)
    const a = step.wires.indexOf(w.s1)
    const b = step.wires.indexOf(w.s2)
    if (a >= 0) right[a] = add(right[a]!, e)
    if (b >= 0) right[b] = sub(right[b]!, e)
  }
  return new Map(step.wires.map((wire, i) => [wire, step.inverse[i]!.reduce((sum, y, j) => add(sum, mul(y, right[j]!)), cx(0))]))
}

function flatStart(steps: readonly Step[], v: Complex[]): void {
  const nothing: Complex[] = v.map(() => cx(0))
  const at = (wire: number): Complex => (wire === EARTH ? cx(0) : v[wire]!)
  for (const step of steps) forward(step, nothing, v, at)
}

function stepsOf(network: Network): { readonly steps: readonly Step[] } | null {
  const reached = new Set<number>(network.fixed.map((f) => f.wire))
  const lines = new Set(network.lines)
  const windings = new Set(network.windings)
  const shunts = new Set(network.shunts)
  if (network.lines.some((l) => l.halfShuntS !== undefined)) return null
  const steps: Step[] = []
  for (let grew = true; grew; ) {
    grew = false
    for (const line of lines) {
      const down = line.from.every((f) => reached.has(f))
      const up = line.to.every((t) => reached.has(t))
      if (down && up) return null
      if (!down && !up) continue
      const [from, to] = down ? [line.from, line.to] : [line.to, line.from]
      if (to.some((t) => reached.has(t))) return null
      steps.push({ kind: 'line', line, from, to })
      for (const t of to) reached.add(t)
      lines.delete(line)
      grew = true
    }
    const next = bankFrom(network, windings, shunts, reached)
    if (next === undefined) continue
    if (next === null) return null
    steps.push(next)
    grew = true
  }
  return lines.size > 0 || windings.size > 0 || shunts.size > 0 ? null : { steps }
}

/** Windings whose primaries are reached, joined by their secondaries. Undefined: none now; null: not radial. */
function bankFrom(
  network: Network,
  left: Set<WindingElement>,
  shunts: Set<ShuntElement>,
  reached: Set<number>,
): Step | null | undefined {
  const ready = [...left].filter((w) => [w.p1, w.p2].every((p) => p === EARTH || reached.has(p)))
  if (ready.length === 0) return undefined
  const bank = [ready[0]!]
  const wires = new Set<number>([ready[0]!.s1, ready[0]!.s2].filter((s) => s !== EARTH))
  for (let grew = true; grew; ) {
    grew = false
    for (const w of ready) {
      if (bank.includes(w) || !sameNode(network, w, ready[0]!)) continue
      bank.push(w)
      for (const s of [w.s1, w.s2]) if (s !== EARTH) wires.add(s)
      grew = true
    }
  }
  const list = [...wires]
  if (list.some((w) => reached.has(w))) return null
  const y: Complex[][] = list.map(() => list.map(() => cx(0)))
  const stamp = (a: number, b: number, k: Complex) => {
    const i = list.indexOf(a)
    const j = list.indexOf(b)
    if (i >= 0) y[i]![i] = add(y[i]![i]!, k)
    if (j >= 0) y[j]![j] = add(y[j]![j]!, k)
    if (i >= 0 && j >= 0) {
      y[i]![j] = sub(y[i]![j]!, k)
      y[j]![i] = sub(y[j]![i]!, k)
    }
  }
  for (const w of bank) {
    stamp(w.s1, w.s2, div(cx(1), w.zOhm))
    left.delete(w)
  }
  let grounded = bank.some((w) => w.s1 === EARTH || w.s2 === EARTH)
  for (const s of [...shunts]) {
    if (!(wires.has(s.from) && s.to === EARTH)) continue
    stamp(s.from, EARTH, s.yS)
    shunts.delete(s)
    grounded = true
  }
  // A floating bank: its currents add up to nothing, so tying the sum of its volts to nothing moves no difference and keeps the matrix sound.
  const tie = 1 / Math.hypot(bank[0]!.zOhm.re, bank[0]!.zOhm.im) / list.length
  if (!grounded) for (const row of y) for (let j = 0; j < row.length; j++) row[j] = add(row[j]!, cx(tie))
  for (const w of list) reached.add(w)
  if (list.length === 0) throw new Fault('network/winding-on-earth', ready[0]!.id)
  return { kind: 'bank', windings: bank, wires: list, inverse: inverse(y) }
}

const nodeOf = (network: Network, w: WindingElement): string => {
  const name = network.wires[w.s1 === EARTH ? w.s2 : w.s1]!
  return name.slice(0, name.lastIndexOf('.'))
}
const sameNode = (network: Network, a: WindingElement, b: WindingElement): boolean => nodeOf(network, a) === nodeOf(network, b)
