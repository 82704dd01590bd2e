import type { Leg } from '../../job/index.ts'
import { abs, type Complex, cx } from '../../kernel/index.ts'
import type { LoadState, PlugVolts } from './result.ts'
import { between, solveYard, type YardSolution } from './solve-yard.ts'
import { NEUTRAL, type Yard } from './yard.ts'

/** A set of plugs on together, and the hours of the day with that set. */
export interface OnSet {
  readonly id: string
  readonly hoursH: readonly number[]
  readonly on: Uint8Array
}

/** All on at once, then each hour of the day with a set of its own. A plug that runs in any part of an hour counts in it. */
export function onSets(yard: Yard): readonly OnSet[] {
  const n = yard.plugs.length
  const byKey = new Map<string, { on: Uint8Array; hoursH: number[] }>()
  for (let hour = 0; hour < 24; hour++) {
    const on = new Uint8Array(n)
    for (let p = 0; p < n; p++) on[p] = runsIn(hour, yard.plugs[p]!.startH, yard.plugs[p]!.hours) ? 1 : 0
    const key = on.join('')
    const known = byKey.get(key)
    if (known === undefined) byKey.set(key, { on, hoursH: [hour] })
    else known.hoursH.push(hour)
  }
  const hours = [...byKey.values()].map(({ on, hoursH }) => ({ id: `from ${hoursH[0]} h`, hoursH, on }))
  return [{ id: 'all on', hoursH: [], on: new Uint8Array(n).fill(1) }, ...hours]
}

/** Ends of runs differ in the last bits. */
const TOUCH_H = 1e-6

function runsIn(hour: number, startH: number, hours: number): boolean {
  if (hours >= 24) return true
  if (hours <= 0) return false
  const since = (((hour - startH) % 24) + 24) % 24
  return since < hours - TOUCH_H || 24 - since < 1 - TOUCH_H
}

const LEGS: readonly Leg[] = ['A', 'B', 'C']
const WIRE: Record<Leg, number> = { A: 0, B: 1, C: 2 }

/** Two ends of what nobody told: the weak source at low power factors, the strong one at high. One yard where all was told. */
export interface Ends {
  readonly weak: Yard
  readonly strong: Yard
  readonly bounded: boolean
}

export interface SolvedState {
  readonly set: OnSet
  readonly weak: YardSolution
  readonly strong: YardSolution
}

/**
 * Every state at the weak end. The strong end is solved where it is judged or shown: all on, and, where an interlock holds, the hours;
 * elsewhere it stands as the weak one, which only understates the best.
 */
export function solvedStates(ends: Ends, hoursGovern: boolean): readonly SolvedState[] {
  return onSets(ends.weak).map((set) => {
    const weak = solveYard(ends.weak, { on: set.on })
    const both = ends.bounded && (hoursGovern || set.hoursH.length === 0)
    return { set, weak, strong: both ? solveYard(ends.strong, { on: set.on }) : weak }
  })
}

/** Magnitude of a three-phase plug is its lowest line; of a two-wire one its own. */
export function plugVolts(yard: Yard, solution: YardSolution, plug: number): number {
  const { elements, nominalV } = yard.plugs[plug]!
  let least = Infinity
  for (const e of elements) {
    const v = Math.hypot(solution.elementV[2 * e]!, solution.elementV[2 * e + 1]!)
    const el = yard.elements[e]!
    least = Math.min(least, elements.length === 3 && el.to === NEUTRAL ? (v * nominalV) / yard.system.lineNeutralV : v)
  }
  return least
}

/** Volts at a place between the wires of a plug, as a share of that plug's nominal; the lowest pair of a three-phase one. */
function pairFrac(yard: Yard, plug: number, volts: (from: number, to: number) => Complex): number {
  const p = yard.plugs[plug]!
  let least = Infinity
  for (const e of p.elements) {
    const el = yard.elements[e]!
    const nominal = p.elements.length === 3 && el.to === NEUTRAL ? yard.system.lineNeutralV : p.nominalV
    least = Math.min(least, abs(volts(el.from, el.to)) / nominal)
  }
  return least
}

/** Volts where our own wires begin: behind the source and the supplier's drop. */
function originV(yard: Yard, solution: YardSolution, panel: number): (from: number, to: number) => Complex {
  let root = panel
  while (yard.panels[root]!.parent >= 0) root = yard.panels[root]!.parent
  const { phaseOhm, neutralOhm, beforeOhm } = yard.panels[root]!
  const at = (w: number): Complex => {
    const z =
      w === NEUTRAL
        ? cx(neutralOhm.re - beforeOhm.neutral.re, neutralOhm.im - beforeOhm.neutral.im)
        : cx(phaseOhm.re - beforeOhm.phase.re, phaseOhm.im - beforeOhm.phase.im)
    const ar = solution.panelA[8 * root + 2 * w]!
    const ai = solution.panelA[8 * root + 2 * w + 1]!
    return cx(
      solution.panelV[8 * root + 2 * w]! + z.re * ar - z.im * ai,
      solution.panelV[8 * root + 2 * w + 1]! + z.re * ai + z.im * ar,
    )
  }
  return (from, to) => {
    const a = at(from)
    const b = at(to)
    return cx(a.re - b.re, a.im - b.im)
  }
}

/** The plugs of one panel that are on, in one state. */
export function plugRows(ends: Ends, state: SolvedState, panel: number): readonly PlugVolts[] {
  const { weak: yard } = ends
  const rows: PlugVolts[] = []
  if (state.weak.outcome !== 'solved') return rows
  const origin = originV(yard, state.weak, panel)
  yard.plugs.forEach((p, k) => {
    const circuit = yard.circuits[p.circuit]!
    if (circuit.panel !== panel || state.set.on[k] !== 1) return
    const v = plugVolts(yard, state.weak, k)
    const first = yard.elements[p.elements[0]!]!
    const drawn = state.weak.elementA
    const three = p.elements.length === 3
    const wire = 8 * p.cord + 2 * first.from
    const currentA = three
      ? Math.hypot(state.weak.cordA[wire]!, state.weak.cordA[wire + 1]!)
      : Math.hypot(drawn[2 * p.elements[0]!]!, drawn[2 * p.elements[0]! + 1]!)
    let powerW = 0
    for (const e of p.elements)
      powerW += state.weak.elementV[2 * e]! * drawn[2 * e]! + state.weak.elementV[2 * e + 1]! * drawn[2 * e + 1]!
    const here = v / p.nominalV
    const ratedV = first.to === NEUTRAL && three ? first.nominalV * Math.sqrt(3) : first.nominalV
    const atPanel = pairFrac(yard, k, (from, to) => between(state.weak.panelV, panel, from, to))
    rows.push({
      plug: p.tag,
      circuit: circuit.circuit.id,
      nominalV: p.nominalV,
      voltageV: v,
      bestV: state.strong.outcome === 'solved' ? plugVolts(ends.strong, state.strong, k) : NaN,
      voltagePct: 100 * here,
      totalDropFrac: pairFrac(yard, k, origin) - here,
      branchDropFrac: atPanel - here,
      outletDropFrac: atPanel - pairFrac(yard, k, (from, to) => between(state.weak.runV, p.circuit, from, to)),
      currentA,
      powerW,
      heatLeftFrac: first.model === 'Z' ? (v / ratedV) ** 2 : null,
    })
  })
  return rows
}

/** Drops of one plug at the strong end, for a limit judged at both. */
export function strongDrops(ends: Ends, state: SolvedState, plug: number): { readonly total: number; readonly outlet: number } {
  if (state.strong.outcome !== 'solved') return { total: NaN, outlet: NaN }
  const panel = ends.strong.circuits[ends.strong.plugs[plug]!.circuit]!.panel
  const here = plugVolts(ends.strong, state.strong, plug) / ends.strong.plugs[plug]!.nominalV
  return {
    total: pairFrac(ends.strong, plug, originV(ends.strong, state.strong, panel)) - here,
    outlet:
      pairFrac(ends.strong, plug, (from, to) => between(state.strong.panelV, panel, from, to)) -
      pairFrac(ends.strong, plug, (from, to) => between(state.strong.runV, ends.strong.plugs[plug]!.circuit, from, to)),
  }
}

function panelVolts(yard: Yard, solution: YardSolution, panel: number): Readonly<Record<string, number>> {
  const out: Record<string, number> = {}
  const legs = yard.system.legs
  for (const [k, leg] of legs.entries()) {
    if (yard.system.neutral || legs.length === 1) out[`${leg}-N`] = abs(between(solution.panelV, panel, WIRE[leg], NEUTRAL))
    const next = legs[(k + 1) % legs.length]!
    if (legs.length > 1 && !(legs.length === 2 && k === 1))
      out[`${leg}-${next}`] = abs(between(solution.panelV, panel, WIRE[leg], WIRE[next]))
  }
  return out
}

export function loadState(ends: Ends, state: SolvedState, panel: number): LoadState {
  const { weak } = state
  const amps = (w: number) => Math.hypot(weak.panelA[8 * panel + 2 * w]!, weak.panelA[8 * panel + 2 * w + 1]!)
  const legA: Partial<Record<Leg, number>> = {}
  for (const leg of LEGS) if (ends.weak.system.legs.includes(leg)) legA[leg] = amps(WIRE[leg])
  return {
    id: state.set.id,
    hoursH: state.set.hoursH,
    outcome: weak.outcome,
    culprits: weak.culprits,
    plugs: plugRows(ends, state, panel),
    panelV: panelVolts(ends.weak, weak, panel),
    panelBestV: panelVolts(ends.strong, state.strong, panel),
    legA,
    neutralA: amps(NEUTRAL),
    sourceW: weak.sourceW,
    loadW: weak.loadW,
    lossW: weak.lossW,
    residualA: weak.residualA,
    imbalanceW: weak.imbalanceW,
    passes: weak.passes,
  }
}
