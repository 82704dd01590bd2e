import type { Complex } from '../../kernel/index.ts'
import { cx } from '../../kernel/index.ts'
import { loadFactor } from '../network/load-current.ts'
import { solveNodal } from '../network/index.ts'
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
  const { elements, cords, circuits, panels } = yard
  const ne = elements.length
  const v = new Float64Array(2 * ne)
  const i = new Float64Array(2 * ne)
  const cordA = new Float64Array(8 * cords.length)
  const runA = new Float64Array(8 * circuits.length)
  const runV = new Float64Array(8 * circuits.length)
  const panelA = new Float64Array(8 * panels.length)
  const panelV = new Float64Array(8 * panels.length)
  const emf = state.emf ?? yard.emf
  const s = loadsInState(yard, state)
  let passes = 0
  let settled = false
  let moved = Infinity
  forward(yard, emf, panelA, runA, cordA, panelV, runV, v)
  while (passes < PASSES_MOST) {
    passes++
    if (!currents(s, v, i)) break
    backward(yard, i, cordA, runA, panelA)
    const last = forward(yard, emf, panelA, runA, cordA, panelV, runV, v)
    if (Number.isNaN(last)) break
    moved = last
    if (moved < TOLERANCE_RATIO) {
      settled = true
      break
    }
  }
  if (!settled) return byNodal(yard, state, passes)
  return balanced(yard, emf, s, { v, i, cordA, runA, panelA, panelV, runV, passes })
}

interface Loads {
  readonly p: Float64Array
  readonly q: Float64Array
  readonly vn: Float64Array
  /** 0 impedance, 1 current, 2 power, 3 off. */
  readonly model: Uint8Array
}

function loadsInState(yard: Yard, state: YardState): Loads {
  const n = yard.elements.length
  const p = new Float64Array(n)
  const q = new Float64Array(n)
  const vn = new Float64Array(n)
  const model = new Uint8Array(n)
  for (let e = 0; e < n; e++) {
    const el = yard.elements[e]!
    const start = state.starting?.plug === el.plug ? state.starting : undefined
    const share = start === undefined ? 1 : 1 / yard.plugs[el.plug]!.elements.length
    p[e] = start === undefined ? el.sVA.re : start.sVA.re * share
    q[e] = start === undefined ? el.sVA.im : start.sVA.im * share
    vn[e] = start === undefined ? el.nominalV : start.nominalV
    model[e] = start !== undefined ? 0 : state.on[el.plug] !== 1 ? 3 : el.model === 'Z' ? 0 : el.model === 'I' ? 1 : 2
  }
  return { p, q, vn, model }
}

function currents(s: Loads, v: Float64Array, i: Float64Array): boolean {
  const n = s.model.length
  for (let e = 0; e < n; e++) {
    const kind = s.model[e]!
    if (kind === 3) continue
    const ur = v[2 * e]!
    const ui = v[2 * e + 1]!
    const square = ur * ur + ui * ui
    if (!(square > 0)) return false
    const nominal = s.vn[e]!
    const g = kind === 0 ? 1 / (nominal * nominal) : kind === 2 ? 1 / square : 1 / (nominal * Math.sqrt(square))
    const p = s.p[e]!
    const q = s.q[e]!
    i[2 * e] = (p * ur + q * ui) * g
    i[2 * e + 1] = (p * ui - q * ur) * g
  }
  return true
}

function backward(yard: Yard, i: Float64Array, cordA: Float64Array, runA: Float64Array, panelA: Float64Array): void {
  cordA.fill(0)
  runA.fill(0)
  panelA.fill(0)
  for (let e = 0; e < yard.elements.length; e++) {
    const el = yard.elements[e]!
    const cord = 8 * yard.plugs[el.plug]!.cord
    const ir = i[2 * e]!
    const ii = i[2 * e + 1]!
    cordA[cord + 2 * el.from]! += ir
    cordA[cord + 2 * el.from + 1]! += ii
    cordA[cord + 2 * el.to]! -= ir
    cordA[cord + 2 * el.to + 1]! -= ii
  }
  for (let c = 0; c < yard.cords.length; c++) addWires(cordA, 8 * c, runA, 8 * yard.cords[c]!.circuit)
  for (let c = 0; c < yard.circuits.length; c++) addWires(runA, 8 * c, panelA, 8 * yard.circuits[c]!.panel)
  for (let p = yard.panels.length - 1; p > 0; p--) addWires(panelA, 8 * p, panelA, 8 * yard.panels[p]!.parent)
}

function addWires(from: Float64Array, at: number, into: Float64Array, to: number): void {
  for (let k = 0; k < 8; k++) into[to + k]! += from[at + k]!
}

function forward(
  yard: Yard, emf: readonly Complex[], panelA: Float64Array, runA: Float64Array, cordA: Float64Array, panelV: Float64Array, runV: Float64Array, v: Float64Array,
): number {
  for (let p = 0; p < yard.panels.length; p++) {
    const panel = yard.panels[p]!
    for (let w = 0; w < 4; w++) {
      let re: number
      let im: number
      if (panel.parent < 0) {
        re = emf[w]!.re
        im = emf[w]!.im
        if (w < NEUTRAL) {
          for (let k = 0; k < NEUTRAL; k++) {
            const z = yard.sourceOhm[w]![k]!
            const ar = panelA[8 * p + 2 * k]!
            const ai = panelA[8 * p + 2 * k + 1]!
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
  for (let c = 0; c < yard.circuits.length; c++) {
    const circuit = yard.circuits[c]!
    for (let w = 0; w < 4; w++) {
      const z = w === NEUTRAL ? circuit.neutralOhm : circuit.phaseOhm
      const ar = runA[8 * c + 2 * w]!
      const ai = runA[8 * c + 2 * w + 1]!
      runV[8 * c + 2 * w] = panelV[8 * circuit.panel + 2 * w]! - (z.re * ar - z.im * ai)
      runV[8 * c + 2 * w + 1] = panelV[8 * circuit.panel + 2 * w + 1]! - (z.re * ai + z.im * ar)
    }
  }
  let moved = 0
  for (let e = 0; e < yard.elements.length; e++) {
    const el = yard.elements[e]!
    const plug = yard.plugs[el.plug]!
    const cord = yard.cords[plug.cord]!
    const at = 8 * plug.cord
    const run = 8 * plug.circuit
    const zf = el.from === NEUTRAL ? cord.neutralOhm : cord.phaseOhm
    const zt = el.to === NEUTRAL ? cord.neutralOhm : cord.phaseOhm
    const fr = cordA[at + 2 * el.from]!
    const fi = cordA[at + 2 * el.from + 1]!
    const tr = cordA[at + 2 * el.to]!
    const ti = cordA[at + 2 * el.to + 1]!
    const re = runV[run + 2 * el.from]! - (zf.re * fr - zf.im * fi) - (runV[run + 2 * el.to]! - (zt.re * tr - zt.im * ti))
    const im = runV[run + 2 * el.from + 1]! - (zf.re * fi + zf.im * fr) - (runV[run + 2 * el.to + 1]! - (zt.re * ti + zt.im * tr))
    const dr = re - v[2 * e]!
    const di = im - v[2 * e + 1]!
    const change = (dr * dr + di * di) / (re * re + im * im)
    if (!(change <= moved)) moved = change
    v[2 * e] = re
    v[2 * e + 1] = im
  }
  return Math.sqrt(moved)
}

interface Settled {
  readonly v: Float64Array
  readonly i: Float64Array
  readonly cordA: Float64Array
  readonly runA: Float64Array
  readonly panelA: Float64Array
  readonly panelV: Float64Array
  readonly runV: Float64Array
  readonly passes: number
}

/** Power is counted three ways: out of the source, into the loads, and lost conductor by conductor. */
function balanced(yard: Yard, emf: readonly Complex[], s: Loads, x: Settled): YardSolution {
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
  for (let e = 0; e < s.model.length; e++) {
    const kind = s.model[e]!
    if (kind === 3) continue
    const ur = x.v[2 * e]!
    const ui = x.v[2 * e + 1]!
    const g = loadFactor(kind === 0 ? 'Z' : kind === 1 ? 'I' : 'P', s.vn[e]!, ur * ur + ui * ui)
    const ir = (s.p[e]! * ur + s.q[e]! * ui) * g
    const ii = (s.p[e]! * ui - s.q[e]! * ur) * g
    loadW += ur * ir + ui * ii
    residualA = Math.max(residualA, Math.hypot(ir - x.i[2 * e]!, ii - x.i[2 * e + 1]!))
  }
  return {
    outcome: 'solved', culprits: [], passes: x.passes, elementV: x.v, elementA: x.i, panelV: x.panelV, panelA: x.panelA, runV: x.runV, runA: x.runA,
    cordA: x.cordA, sourceW, loadW, lossW, residualA, imbalanceW: Math.abs(sourceW - loadW - lossW),
  }
}

/** What the passes could not settle: solved, proven to have none, or given up by the general solver. */
function byNodal(yard: Yard, state: YardState, passes: number): YardSolution {
  const { network, elementOf } = networkOfYard(yard, state)
  const solved = solveNodal(network)
  const emf = state.emf ?? yard.emf
  const v = new Float64Array(2 * yard.elements.length).fill(NaN)
  const i = new Float64Array(2 * yard.elements.length)
  const cordA = new Float64Array(8 * yard.cords.length)
  const runA = new Float64Array(8 * yard.circuits.length)
  const runV = new Float64Array(8 * yard.circuits.length)
  const panelA = new Float64Array(8 * yard.panels.length)
  const panelV = new Float64Array(8 * yard.panels.length)
  const total = passes + solved.passes
  if (solved.outcome !== 'solved') {
    const culprits = [...new Set(solved.culprits.map((id) => elementOf.get(id) ?? id))]
    const nothing = { sourceW: NaN, loadW: NaN, lossW: NaN, residualA: NaN, imbalanceW: NaN }
    return { outcome: solved.outcome, culprits, passes: total, elementV: v, elementA: i, panelV: panelV.fill(NaN), panelA, runV: runV.fill(NaN), runA, cordA, ...nothing }
  }
  const s = loadsInState(yard, state)
  const at = (wire: number, k: 0 | 1) => (wire < 0 ? 0 : solved.volts[2 * wire + k]!)
  const ends = networkOfYard(yard, state).ends
  yard.elements.forEach((_, e) => {
    const [from, to] = ends[e]!
    v[2 * e] = at(from, 0) - at(to, 0)
    v[2 * e + 1] = at(from, 1) - at(to, 1)
  })
  currents(s, v, i)
  backward(yard, i, cordA, runA, panelA)
  forward(yard, emf, panelA, runA, cordA, panelV, runV, v)
  return balanced(yard, emf, s, { v, i, cordA, runA, panelA, panelV, runV, passes: total })
}

/** Volts between two wires of a place in an interleaved array. */
export function between(a: Float64Array, place: number, from: number, to: number): Complex {
  return cx(a[8 * place + 2 * from]! - a[8 * place + 2 * to]!, a[8 * place + 2 * from + 1]! - a[8 * place + 2 * to + 1]!)
}
