import type { Complex } from '../../kernel/index.ts'
import { cx } from '../../kernel/index.ts'
import { solveNodal } from '../network/index.ts'
import { loadFactor } from '../network/load-current.ts'
import type { FlatYard } from './flat-yard.ts'
import { networkOfYard } from './network-of.ts'
import type { Outcome } from './result.ts'
import { NEUTRAL, type Yard } from './yard.ts'

/** Volts and currents of a yard in one state. Complex values are interleaved re, im; four wires to a place. */
export interface YardSolution {
  readonly outcome: Outcome
  readonly culprits: readonly string[]
  readonly passes: number
  /** Across each element. */
  readonly elementV: Float64Array
  readonly elementA: Float64Array
  readonly panelV: Float64Array
  readonly panelA: Float64Array
  readonly runV: Float64Array
  readonly runA: Float64Array
  readonly cordA: Float64Array
  readonly sourceW: number
  readonly loadW: number
  readonly lossW: number
  readonly residualA: number
  readonly imbalanceW: number
}

export interface YardState {
  /** By plug: is it on. */
  readonly on: Uint8Array
  /** Volts behind the source impedance, when not the yard's own. */
  readonly emf?: readonly Complex[]
  /** By plug: taken as this many VA of constant impedance instead of its own load (a motor at standstill). */
  readonly starting?: { readonly plug: number; readonly sVA: Complex; readonly nominalV: number }
}

/** Change of an element's volts in the last pass. The passes shrink by the share of volts lost, so the answer is nearer still. */
const TOLERANCE_RATIO = 1e-11
const PASSES_MOST = 150

/**
 * Volts of a yard by backward–forward passes: currents of the loads are summed up the tree, volts handed down it.
 * Exact for the tree (each wire, neutral among them, carries its own current); when the passes do not settle the nodal solver
 * with its path in load says whether there is a solution at all.
 */
export function solveYard(yard: Yard, state: YardState): YardSolution {
  const { elements, cords, circuits, panels, flat } = yard
  const x: Places = {
    v: new Float64Array(2 * elements.length),
    i: new Float64Array(2 * elements.length),
    cordA: new Float64Array(8 * cords.length),
    runA: new Float64Array(8 * circuits.length),
    runV: new Float64Array(8 * circuits.length),
    panelA: new Float64Array(8 * panels.length),
    panelV: new Float64Array(8 * panels.length),
  }
  const emf = state.emf ?? yard.emf
  const s = loadsInState(yard, state)
  forwardPanels(yard, emf, x)
  for (const e of s.live) startFlat(flat, x, e)
  let passes = 0
  let settled = false
  while (passes < PASSES_MOST) {
    passes++
    if (!currents(s, x)) break
    backward(yard, s, x)
    forwardPanels(yard, emf, x)
    const moved = forwardElements(yard, s, x)
    if (Number.isNaN(moved)) break
    if (moved < TOLERANCE_RATIO * TOLERANCE_RATIO) {
      settled = true
      break
    }
  }
  if (!settled) return byNodal(yard, state, s, x, passes)
  fillPlaces(yard, s, x)
  return balanced(yard, emf, s, x, passes)
}

/** Volts and currents at every place, re and im in turn, four wires to a place. */
interface Places {
  readonly v: Float64Array
  readonly i: Float64Array
  readonly cordA: Float64Array
  readonly runA: Float64Array
  readonly runV: Float64Array
  readonly panelA: Float64Array
  readonly panelV: Float64Array
}

interface Loads {
  readonly p: Float64Array
  readonly q: Float64Array
  readonly vn: Float64Array
  /** 0 impedance, 1 current, 2 power. */
  readonly model: Uint8Array
  /** Elements that draw. */
  readonly live: Int32Array
}

function loadsInState(yard: Yard, state: YardState): Loads {
  const { flat } = yard
  const n = yard.elements.length
  const live = new Int32Array(n)
  let count = 0
  for (let e = 0; e < n; e++) if (state.on[flat.plug[e]!] === 1 || state.starting?.plug === flat.plug[e]) live[count++] = e
  const base = { p: flat.watts, q: flat.vars, vn: flat.nominalV, model: flat.model, live: live.subarray(0, count) }
  const { starting } = state
  if (starting === undefined) return base
  const own = { ...base, p: flat.watts.slice(), q: flat.vars.slice(), vn: flat.nominalV.slice(), model: flat.model.slice() }
  const mine = yard.plugs[starting.plug]!.elements
  for (const e of mine) {
    own.p[e] = starting.sVA.re / mine.length
    own.q[e] = starting.sVA.im / mine.length
    own.vn[e] = starting.nominalV
    own.model[e] = 0
  }
  return own
}

function startFlat(flat: FlatYard, x: Places, e: number): void {
  const at = 8 * flat.panel[e]!
  x.v[2 * e] = x.panelV[at + 2 * flat.from[e]!]! - x.panelV[at + 2 * flat.to[e]!]!
  x.v[2 * e + 1] = x.panelV[at + 2 * flat.from[e]! + 1]! - x.panelV[at + 2 * flat.to[e]! + 1]!
}

function currents(s: Loads, x: Places): boolean {
  const { p, q, vn, model, live } = s
  const { v, i } = x
  for (let k = 0; k < live.length; k++) {
    const e = live[k]!
    const ur = v[2 * e]!
    const ui = v[2 * e + 1]!
    const square = ur * ur + ui * ui
    if (!(square > 0)) return false
    const nominal = vn[e]!
    const kind = model[e]!
    const g = kind === 0 ? 1 / (nominal * nominal) : kind === 2 ? 1 / square : 1 / (nominal * Math.sqrt(square))
    i[2 * e] = (p[e]! * ur + q[e]! * ui) * g
    i[2 * e + 1] = (p[e]! * ui - q[e]! * ur) * g
  }
  return true
}

function backward(yard: Yard, s: Loads, x: Places): void {
  const { flat } = yard
  const { panelA, cordA, runA, i } = x
  panelA.fill(0)
  if (flat.sharedCircuits.length > 0) {
    cordA.fill(0)
    runA.fill(0)
  }
  for (let k = 0; k < s.live.length; k++) {
    const e = s.live[k]!
    const into = flat.alone[e] === 1 ? panelA : cordA
    const at = 8 * (flat.alone[e] === 1 ? flat.panel[e]! : flat.cord[e]!)
    const f = at + 2 * flat.from[e]!
    const t = at + 2 * flat.to[e]!
    const ir = i[2 * e]!
    const ii = i[2 * e + 1]!
    into[f]! += ir
    into[f + 1]! += ii
    into[t]! -= ir
    into[t + 1]! -= ii
  }
  for (const c of flat.sharedCords) addWires(cordA, 8 * c, runA, 8 * yard.cords[c]!.circuit)
  for (const c of flat.sharedCircuits) addWires(runA, 8 * c, panelA, 8 * yard.circuits[c]!.panel)
  for (let p = yard.panels.length - 1; p > 0; p--) addWires(panelA, 8 * p, panelA, 8 * yard.panels[p]!.parent)
}

function addWires(from: Float64Array, at: number, into: Float64Array, to: number): void {
  for (let k = 0; k < 8; k++) into[to + k]! += from[at + k]!
}

function forwardPanels(yard: Yard, emf: readonly Complex[], x: Places): void {
  const { panelA, panelV } = x
  for (let p = 0; p < yard.panels.length; p++) {
    const panel = yard.panels[p]!
    for (let w = 0; w < 4; w++) {
      let re: number
      let im: number
      if (panel.parent < 0) {
        re = emf[w]!.re
        im = emf[w]!.im
        if (w < NEUTRAL) {
          const row = yard.sourceOhm[w]!
          for (let k = 0; k < NEUTRAL; k++) {
            const z = row[k]!
            const ar = panelA[2 * k]!
            const ai = panelA[2 * k + 1]!
            re -= z.re * ar - z.im * ai
            im -= z.re * ai + z.im * ar
          }
        }
      } else {
        re = panelV[8 * panel.parent + 2 * w]!
        im = panelV[8 * panel.parent + 2 * w + 1]!
      }
      const z = w === NEUTRAL ? panel.neutralOhm : panel.phaseOhm
      const ar = panelA[8 * p + 2 * w]!
      const ai = panelA[8 * p + 2 * w + 1]!
      panelV[8 * p + 2 * w] = re - (z.re * ar - z.im * ai)
      panelV[8 * p + 2 * w + 1] = im - (z.re * ai + z.im * ar)
    }
  }
}

function forwardRun(yard: Yard, c: number, x: Places): void {
  const { runV, runA, panelV } = x
  const circuit = yard.circuits[c]!
  for (let w = 0; w < 4; w++) {
    const z = w === NEUTRAL ? circuit.neutralOhm : circuit.phaseOhm
    const ar = runA[8 * c + 2 * w]!
    const ai = runA[8 * c + 2 * w + 1]!
    runV[8 * c + 2 * w] = panelV[8 * circuit.panel + 2 * w]! - (z.re * ar - z.im * ai)
    runV[8 * c + 2 * w + 1] = panelV[8 * circuit.panel + 2 * w + 1]! - (z.re * ai + z.im * ar)
  }
}

/** Hands the volts down to the elements that draw; gives the largest square of a change, as a share. */
function forwardElements(yard: Yard, s: Loads, x: Places): number {
  const { flat } = yard
  const { v, i, panelV } = x
  for (const c of flat.sharedCircuits) forwardRun(yard, c, x)
  let moved = 0
  for (let k = 0; k < s.live.length; k++) {
    const e = s.live[k]!
    let re: number
    let im: number
    if (flat.alone[e] === 1) {
      const at = 8 * flat.panel[e]!
      const f = at + 2 * flat.from[e]!
      const t = at + 2 * flat.to[e]!
      const zr = flat.loopR[e]!
      const zi = flat.loopX[e]!
      const ar = i[2 * e]!
      const ai = i[2 * e + 1]!
      re = panelV[f]! - panelV[t]! - (zr * ar - zi * ai)
      im = panelV[f + 1]! - panelV[t + 1]! - (zr * ai + zi * ar)
    } else {
      re = endPart(yard, x, e, 0)
      im = endPart(yard, x, e, 1)
    }
    const dr = re - v[2 * e]!
    const di = im - v[2 * e + 1]!
    const change = (dr * dr + di * di) / (re * re + im * im)
    if (!(change <= moved)) moved = change
    v[2 * e] = re
    v[2 * e + 1] = im
  }
  return moved
}

/** Real (0) or imaginary (1) part of the volts at the end of an element's cord. */
function endPart(yard: Yard, x: Places, e: number, part: 0 | 1): number {
  const { flat } = yard
  const cord = yard.cords[flat.cord[e]!]!
  const one = (w: number): number => {
    const z = w === NEUTRAL ? cord.neutralOhm : cord.phaseOhm
    const ar = x.cordA[8 * flat.cord[e]! + 2 * w]!
    const ai = x.cordA[8 * flat.cord[e]! + 2 * w + 1]!
    return x.runV[8 * flat.circuit[e]! + 2 * w + part]! - (part === 0 ? z.re * ar - z.im * ai : z.re * ai + z.im * ar)
  }
  return one(flat.from[e]!) - one(flat.to[e]!)
}

/** Cords and runs that the passes took as one loop, and the volts at plugs that are off. */
function fillPlaces(yard: Yard, s: Loads, x: Places): void {
  const { flat } = yard
  for (let k = 0; k < s.live.length; k++) {
    const e = s.live[k]!
    if (flat.alone[e] !== 1) continue
    for (const [a, at] of [
      [x.cordA, 8 * flat.cord[e]!],
      [x.runA, 8 * flat.circuit[e]!],
    ] as const) {
      const f = at + 2 * flat.from[e]!
      const t = at + 2 * flat.to[e]!
      a[f] = x.i[2 * e]!
      a[f + 1] = x.i[2 * e + 1]!
      a[t] = -x.i[2 * e]!
      a[t + 1] = -x.i[2 * e + 1]!
    }
  }
  for (let c = 0; c < yard.circuits.length; c++) forwardRun(yard, c, x)
  let live = 0
  for (let e = 0; e < yard.elements.length; e++) {
    if (s.live[live] === e) live++
    else {
      x.v[2 * e] = endPart(yard, x, e, 0)
      x.v[2 * e + 1] = endPart(yard, x, e, 1)
    }
  }
}

/** Power is counted three ways: out of the source, into the loads, and lost conductor by conductor. */
function balanced(yard: Yard, emf: readonly Complex[], s: Loads, x: Places, passes: number): YardSolution {
  let sourceW = 0
  let lossW = 0
  for (let w = 0; w < NEUTRAL; w++) {
    const ar = x.panelA[2 * w]!
    const ai = x.panelA[2 * w + 1]!
    sourceW += emf[w]!.re * ar + emf[w]!.im * ai
    for (let k = 0; k < NEUTRAL; k++) {
      const z = yard.sourceOhm[w]![k]!
      const br = x.panelA[2 * k]!
      const bi = x.panelA[2 * k + 1]!
      lossW += (z.re * br - z.im * bi) * ar + (z.re * bi + z.im * br) * ai
    }
  }
  const heat = (a: Float64Array, at: number, phase: Complex, neutral: Complex) => {
    for (let w = 0; w < 4; w++) lossW += (w === NEUTRAL ? neutral.re : phase.re) * (a[at + 2 * w]! ** 2 + a[at + 2 * w + 1]! ** 2)
  }
  yard.panels.forEach((p, k) => {
    heat(x.panelA, 8 * k, p.phaseOhm, p.neutralOhm)
  })
  yard.circuits.forEach((c, k) => {
    heat(x.runA, 8 * k, c.phaseOhm, c.neutralOhm)
  })
  yard.cords.forEach((c, k) => {
    heat(x.cordA, 8 * k, c.phaseOhm, c.neutralOhm)
  })
  let loadW = 0
  let residualA = 0
  for (const e of s.live) {
    const kind = s.model[e]!
    const ur = x.v[2 * e]!
    const ui = x.v[2 * e + 1]!
    const g = loadFactor(kind === 0 ? 'Z' : kind === 1 ? 'I' : 'P', s.vn[e]!, ur * ur + ui * ui)
    const ir = (s.p[e]! * ur + s.q[e]! * ui) * g
    const ii = (s.p[e]! * ui - s.q[e]! * ur) * g
    loadW += ur * ir + ui * ii
    residualA = Math.max(residualA, Math.hypot(ir - x.i[2 * e]!, ii - x.i[2 * e + 1]!))
  }
  return {
    outcome: 'solved',
    culprits: [],
    passes,
    elementV: x.v,
    elementA: x.i,
    panelV: x.panelV,
    panelA: x.panelA,
    runV: x.runV,
    runA: x.runA,
    cordA: x.cordA,
    sourceW,
    loadW,
    lossW,
    residualA,
    imbalanceW: Math.abs(sourceW - loadW - lossW),
  }
}

/** What the passes could not settle: solved, proven to have none, or given up by the general solver. */
function byNodal(yard: Yard, state: YardState, s: Loads, x: Places, passes: number): YardSolution {
  const { network, elementOf, ends } = networkOfYard(yard, state)
  const solved = solveNodal(network)
  const total = passes + solved.passes
  const emf = state.emf ?? yard.emf
  if (solved.outcome !== 'solved') {
    for (const a of Object.values(x)) a.fill(NaN)
    const culprits = [...new Set(solved.culprits.map((id) => elementOf.get(id) ?? id))]
    const nothing = { sourceW: NaN, loadW: NaN, lossW: NaN, residualA: NaN, imbalanceW: NaN }
    return {
      outcome: solved.outcome,
      culprits,
      passes: total,
      elementV: x.v,
      elementA: x.i,
      panelV: x.panelV,
      panelA: x.panelA,
      runV: x.runV,
      runA: x.runA,
      cordA: x.cordA,
      ...nothing,
    }
  }
  const at = (wire: number, k: 0 | 1) => (wire < 0 ? 0 : solved.volts[2 * wire + k]!)
  for (const a of Object.values(x)) a.fill(0)
  yard.elements.forEach((_, e) => {
    const [from, to] = ends[e]!
    x.v[2 * e] = at(from, 0) - at(to, 0)
    x.v[2 * e + 1] = at(from, 1) - at(to, 1)
  })
  currents(s, x)
  backward(yard, s, x)
  forwardPanels(yard, emf, x)
  forwardElements(yard, s, x)
  fillPlaces(yard, s, x)
  return balanced(yard, emf, s, x, total)
}

/** Volts between two wires of a place in an interleaved array. */
export function between(a: Float64Array, place: number, from: number, to: number): Complex {
  return cx(a[8 * place + 2 * from]! - a[8 * place + 2 * to]!, a[8 * place + 2 * from + 1]! - a[8 * place + 2 * to + 1]!)
}
