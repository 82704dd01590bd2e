import { assembled } from './admittance.ts'
import { loadFactor } from './load-current.ts'
import { EARTH, type LoadElement, type Network } from './model.ts'
import { pathInLoad } from './path-in-load.ts'
import { selfCheck } from './self-check.ts'
import type { Outcome, Solution } from './solution.ts'
import { factored } from './symmetric-factor.ts'

export interface SolveTask {
  /** Largest |dV|/|V| of the last pass. Default 1e-11: the answer is then good to 1e-9 where volts drop by half. */
  readonly toleranceRatio?: number
  readonly passesMost?: number
}

const TOLERANCE_RATIO = 1e-11
const PASSES_MOST = 120

/**
 * Volts at every wire of any network, looped or radial: nodal admittance, factored once, iterated on the loads.
 *
 *   V ← Yuu⁻¹ (I(V) − Yus Vs), constant impedances inside Y
 *
 * When the passes do not settle, the load is followed from nothing to all of it by Newton steps; a path that turns back
 * before all of it proves that there is no solution, anything else is given up.
 * @throws Fault `network/singular` when a part of the network hangs on nothing
 * @source nodal analysis; the interlaced and incidence forms of the distribution textbooks. Provenance: computed
 */
export function solveNodal(network: Network, task: SolveTask = {}): Solution {
  const { unknown, count, entries, injected, floating } = assembled(network)
  const factor = factored(count, entries)
  const n = network.wires.length
  const volts = new Float64Array(2 * n)
  for (const f of network.fixed) {
    volts[2 * f.wire] = f.volts.re
    volts[2 * f.wire + 1] = f.volts.im
  }
  const x = Float64Array.from(injected)
  factor.solveInPlace(x)
  const moving = network.loads.filter((l) => l.model !== 'Z' && (l.sVA.re !== 0 || l.sVA.im !== 0))
  const finish = (
    outcome: Outcome,
    method: Solution['method'],
    passes: number,
    turnsAtFrac: number | null,
    culprits: readonly string[],
  ): Solution => {
    if (outcome !== 'solved') volts.fill(NaN)
    return {
      outcome,
      volts,
      passes,
      method,
      check: selfCheck(network, volts, floating.leaks),
      floating: floating.wires,
      leaks: floating.leaks,
      turnsAtFrac,
      culprits,
    }
  }
  place(unknown, x, volts)
  if (moving.length === 0) return finish('solved', 'linear', 1, null, [])
  const next = new Float64Array(2 * count)
  const settled = iterate({ moving, unknown, injected, volts, next, solve: factor.solveInPlace, task })
  if (settled.ok) return finish('solved', 'fixed point', settled.passes, null, [])
  place(unknown, x, volts)
  const path = pathInLoad({ moving, unknown, count, volts, open: x, solve: factor.solveInPlace })
  if (path.outcome === 'solved') place(unknown, path.unknowns, volts)
  return finish(path.outcome, 'path in load', settled.passes + path.passes, path.turnsAtFrac, path.culprits)
}

function place(unknown: Int32Array, x: Float64Array, volts: Float64Array): void {
  for (let wire = 0; wire < unknown.length; wire++) {
    const u = unknown[wire]!
    if (u < 0) continue
    volts[2 * wire] = x[2 * u]!
    volts[2 * wire + 1] = x[2 * u + 1]!
  }
}

interface Iteration {
  readonly moving: readonly LoadElement[]
  readonly unknown: Int32Array
  readonly injected: Float64Array
  readonly volts: Float64Array
  readonly next: Float64Array
  readonly solve: (x: Float64Array) => void
  readonly task: SolveTask
}

/** Settled when no load's own volts move any more: all else follows from them. (A floating part's common volts are not steady to rounding.) */
function iterate({ moving, unknown, injected, volts, next, solve, task }: Iteration): { ok: boolean; passes: number } {
  const tolerance = task.toleranceRatio ?? TOLERANCE_RATIO
  const most = task.passesMost ?? PASSES_MOST
  const before = new Float64Array(2 * moving.length).fill(NaN)
  for (let pass = 0; pass <= most; pass++) {
    next.set(injected)
    let moved = 0
    for (let j = 0; j < moving.length; j++) {
      const change = takeCurrent(moving[j]!, unknown, volts, next, before, 2 * j)
      if (Number.isNaN(change) && pass > 0) return { ok: false, passes: pass }
      moved = Math.max(moved, change)
    }
    if (moved < tolerance) return { ok: true, passes: pass }
    solve(next)
    place(unknown, next, volts)
  }
  return { ok: false, passes: most }
}

/** Adds the current a load takes; gives how far its volts moved since the pass before, as a share. NaN where they are none. */
function takeCurrent(
  load: LoadElement,
  unknown: Int32Array,
  volts: Float64Array,
  into: Float64Array,
  before: Float64Array,
  at: number,
): number {
  const { from, to, sVA } = load
  const ur = (from === EARTH ? 0 : volts[2 * from]!) - (to === EARTH ? 0 : volts[2 * to]!)
  const ui = (from === EARTH ? 0 : volts[2 * from + 1]!) - (to === EARTH ? 0 : volts[2 * to + 1]!)
  const square = ur * ur + ui * ui
  const change = Math.hypot(ur - before[at]!, ui - before[at + 1]!) / Math.sqrt(square)
  before[at] = ur
  before[at + 1] = ui
  if (!(square > 0)) return NaN
  const g = loadFactor(load.model, load.nominalV, square)
  const ir = (sVA.re * ur + sVA.im * ui) * g
  const ii = (sVA.re * ui - sVA.im * ur) * g
  const uf = from === EARTH ? -1 : unknown[from]!
  const ut = to === EARTH ? -1 : unknown[to]!
  if (uf >= 0) {
    into[2 * uf]! -= ir
    into[2 * uf + 1]! -= ii
  }
  if (ut >= 0) {
    into[2 * ut]! += ir
    into[2 * ut + 1]! += ii
  }
  return change
}
