import { solveDense } from './dense.ts'
import { loadFactor, loadSlope } from './load-current.ts'
import { EARTH, type LoadElement } from './model.ts'
import type { Outcome } from './solution.ts'

export interface PathTask {
  readonly moving: readonly LoadElement[]
  readonly unknown: Int32Array
  readonly count: number
  /** With the fixed wires filled in. */
  readonly volts: Float64Array
  /** Unknowns with every moving load at nothing. */
  readonly open: Float64Array
  readonly solve: (x: Float64Array) => void
}

export interface PathFound {
  readonly outcome: Outcome
  readonly unknowns: Float64Array
  readonly passes: number
  readonly turnsAtFrac: number | null
  readonly culprits: readonly string[]
}

/** Newton steps in all; a path that needs more is given up. */
const NEWTON_MOST = 900
/** Beyond this many moving loads the dense step is too large to be worth it. */
const PORTS_MOST = 400
const RESIDUAL_PU = 1e-12
/** A turn is believed once the step across it is this short. */
const TURN_STEP = 1e-4

/**
 * Follows the volts at the moving loads from no load to all of it, λ from 0 to 1, by arc length:
 *
 *   v − v_open + λ·Z·i(v) = 0,   Z the impedance between the loads' terminals
 *
 * Arrives at λ = 1: solved. λ turns back before 1: the branch that begins at no load ends there, and no steady state at
 * this load can be reached from switching on: `none`. Steps run out: `given up`.
 * @source continuation by pseudo arc length (Keller); the fold is the nose of the P–V curve. Provenance: memory
 */
export function pathInLoad(task: PathTask): PathFound {
  const { moving } = task
  const m = moving.length
  const gaveUp = (passes: number, culprits: readonly string[]): PathFound => ({
    outcome: 'given up',
    unknowns: task.open,
    passes,
    turnsAtFrac: null,
    culprits,
  })
  if (m > PORTS_MOST) return gaveUp(0, [])
  const ports = portsOf(task)
  const size = 2 * m + 1
  let point = new Float64Array(size)
  point.set(ports.open)
  let tangent = new Float64Array(size)
  tangent[size - 1] = 1
  if (!ports.tangentAt(point, tangent, tangent)) return gaveUp(0, [])
  let ds = 0.2
  let newtons = 0
  while (newtons < NEWTON_MOST) {
    // A step that would pass λ = 1 ends on it.
    const guess = point.map((p, i) => p + ds * tangent[i]!)
    if (guess[size - 1]! >= 1) {
      const target = point.slice()
      const share = (1 - point[size - 1]!) / (tangent[size - 1]! * ds)
      for (let i = 0; i < size; i++) target[i]! += share * ds * tangent[i]!
      target[size - 1] = 1
      const done = ports.correct(target, null, RESIDUAL_PU)
      newtons += done.newtons
      if (done.ok && ports.near(target, point))
        return { outcome: 'solved', unknowns: ports.unknownsAt(target), passes: newtons, turnsAtFrac: null, culprits: [] }
      ds /= 2
      if (ds < TURN_STEP / 16) return gaveUp(newtons, ports.worst(tangent))
      continue
    }
    const found = ports.correct(guess, { tangent, at: guess.slice() }, RESIDUAL_PU)
    newtons += found.newtons
    const next = new Float64Array(size)
    if (!found.ok || !ports.near(guess, point) || !ports.tangentAt(guess, tangent, next)) {
      ds /= 2
      if (ds < TURN_STEP / 16) return gaveUp(newtons, ports.worst(tangent))
      continue
    }
    const turned = next[size - 1]! <= 0
    if (turned && ds > TURN_STEP) {
      ds /= 4
      continue
    }
    if (turned) {
      const turnsAtFrac = Math.max(point[size - 1]!, guess[size - 1]!)
      if (turnsAtFrac >= 1) return gaveUp(newtons, ports.worst(next))
      return { outcome: 'none', unknowns: task.open, passes: newtons, turnsAtFrac, culprits: ports.worst(next) }
    }
    point = guess
    tangent = next
    if (found.newtons <= 4) ds = Math.min(0.5, ds * 1.5)
  }
  return gaveUp(newtons, ports.worst(tangent))
}

/** The network as its moving loads see it, volts in shares of each load's nominal. */
function portsOf({ moving, unknown, count, volts, open, solve }: PathTask) {
  const m = moving.length
  const size = 2 * m + 1
  const z = new Float64Array(2 * m * m)
  const x = new Float64Array(2 * count)
  const ends = moving.map((l) => [l.from === EARTH ? -1 : unknown[l.from]!, l.to === EARTH ? -1 : unknown[l.to]!] as const)
  const fixedPart = (wire: number, k: 0 | 1) => (wire === EARTH || unknown[wire]! >= 0 ? 0 : volts[2 * wire + k]!)
  const openV = new Float64Array(2 * m)
  const between = (from: Float64Array, j: number, k: 0 | 1) => {
    const [a, b] = ends[j]!
    return (a < 0 ? 0 : from[2 * a + k]!) - (b < 0 ? 0 : from[2 * b + k]!)
  }
  for (let j = 0; j < m; j++) {
    const l = moving[j]!
    for (const k of [0, 1] as const)
      openV[2 * j + k] = (between(open, j, k) + fixedPart(l.from, k) - fixedPart(l.to, k)) / l.nominalV
    x.fill(0)
    const [a, b] = ends[j]!
    if (a >= 0) x[2 * a] = 1
    if (b >= 0) x[2 * b]! -= 1
    solve(x)
    for (let i = 0; i < m; i++) for (const k of [0, 1] as const) z[2 * (i * m + j) + k] = between(x, i, k) / moving[i]!.nominalV
  }
  /** F and, when asked, its Jacobian (size × size, last row left to the caller). */
  const evaluate = (p: Float64Array, f: Float64Array, jacobian: Float64Array | null): boolean => {
    const lambda = p[size - 1]!
    for (let i = 0; i < 2 * m; i++) f[i] = p[i]! - openV[i]!
    jacobian?.fill(0)
    if (jacobian !== null) for (let i = 0; i < 2 * m; i++) jacobian[i * size + i] = 1
    for (let j = 0; j < m; j++) {
      const l = moving[j]!
      const vn = l.nominalV
      const ur = p[2 * j]! * vn
      const ui = p[2 * j + 1]! * vn
      const square = ur * ur + ui * ui
      if (!(square > 0)) return false
      const g = loadFactor(l.model, vn, square)
      const dg = loadSlope(l.model, vn, square)
      // I = c·g with c = S*·u; dI/dur = S*·g + c·dg·2ur, dI/dui = jS*·g + c·dg·2ui.
      const { re: sp, im: sq } = l.sVA
      const cr = sp * ur + sq * ui
      const ci = sp * ui - sq * ur
      const ir = cr * g
      const ii = ci * g
      const arr = (sp * g + cr * dg * 2 * ur) * vn
      const ari = (-sq * g + ci * dg * 2 * ur) * vn
      const air = (sq * g + cr * dg * 2 * ui) * vn
      const aii = (sp * g + ci * dg * 2 * ui) * vn
      for (let i = 0; i < m; i++) {
        const zr = z[2 * (i * m + j)]!
        const zi = z[2 * (i * m + j) + 1]!
        const dr = zr * ir - zi * ii
        const di = zr * ii + zi * ir
        f[2 * i]! += lambda * dr
        f[2 * i + 1]! += lambda * di
        if (jacobian === null) continue
        const r0 = 2 * i * size
        const r1 = r0 + size
        jacobian[r0 + 2 * j]! += lambda * (zr * arr - zi * ari)
        jacobian[r1 + 2 * j]! += lambda * (zr * ari + zi * arr)
        jacobian[r0 + 2 * j + 1]! += lambda * (zr * air - zi * aii)
        jacobian[r1 + 2 * j + 1]! += lambda * (zr * aii + zi * air)
        jacobian[r0 + size - 1]! += dr
        jacobian[r1 + size - 1]! += di
      }
    }
    return true
  }
  const jac = new Float64Array(size * size)
  const f = new Float64Array(size)
  return {
    open: openV,
    /** Newton onto the path, on the plane across the tangent or (null) at the λ given. Moves `p`. */
    correct(
      p: Float64Array,
      plane: { tangent: Float64Array; at: Float64Array } | null,
      tolerance: number,
    ): { ok: boolean; newtons: number } {
      for (let k = 1; k <= 12; k++) {
        if (!evaluate(p, f, jac)) return { ok: false, newtons: k }
        f[size - 1] = 0
        for (let i = 0; i < size; i++) {
          jac[(size - 1) * size + i] = plane === null ? (i === size - 1 ? 1 : 0) : plane.tangent[i]!
          if (plane !== null) f[size - 1]! += plane.tangent[i]! * (p[i]! - plane.at[i]!)
        }
        let worst = 0
        for (let i = 0; i < size; i++) worst = Math.max(worst, Math.abs(f[i]!))
        if (Number.isNaN(worst)) return { ok: false, newtons: k }
        if (worst < tolerance) return { ok: true, newtons: k }
        if (!solveDense(size, jac, f)) return { ok: false, newtons: k }
        for (let i = 0; i < size; i++) p[i]! -= f[i]!
      }
      return { ok: false, newtons: 12 }
    },
    /** Unit tangent at a point on the path, pointing onward from the last one. */
    tangentAt(p: Float64Array, last: Float64Array, into: Float64Array): boolean {
      if (!evaluate(p, f, jac)) return false
      const right = new Float64Array(size)
      right[size - 1] = 1
      for (let i = 0; i < size; i++) jac[(size - 1) * size + i] = last[i]!
      if (!solveDense(size, jac, right)) return false
      let length = 0
      for (let i = 0; i < size; i++) length += right[i]! * right[i]!
      for (let i = 0; i < size; i++) into[i] = right[i]! / Math.sqrt(length)
      return !Number.isNaN(length)
    },
    /** No load may jump to another branch in one step. */
    near(p: Float64Array, q: Float64Array): boolean {
      for (let i = 0; i < size; i++) if (!(Math.abs(p[i]! - q[i]!) < 0.6)) return false
      return true
    },
    worst(tangent: Float64Array): string[] {
      const moved = moving
        .map((l, j) => ({ id: l.id, by: Math.hypot(tangent[2 * j]!, tangent[2 * j + 1]!) }))
        .sort((a, b) => b.by - a.by || (a.id < b.id ? -1 : 1))
      const most = moved[0]?.by ?? 0
      return moved.filter((w) => w.by > 0.5 * most).map((w) => w.id)
    },
    unknownsAt(p: Float64Array): Float64Array {
      const out = Float64Array.from(open)
      x.fill(0)
      moving.forEach((l, j) => {
        const ur = p[2 * j]! * l.nominalV
        const ui = p[2 * j + 1]! * l.nominalV
        const g = loadFactor(l.model, l.nominalV, ur * ur + ui * ui)
        const ir = (l.sVA.re * ur + l.sVA.im * ui) * g
        const ii = (l.sVA.re * ui - l.sVA.im * ur) * g
        const [a, b] = ends[j]!
        if (a >= 0) {
          x[2 * a]! -= ir
          x[2 * a + 1]! -= ii
        }
        if (b >= 0) {
          x[2 * b]! += ir
          x[2 * b + 1]! += ii
        }
      })
      solve(x)
      for (let i = 0; i < out.length; i++) out[i]! += x[i]!
      return out
    },
  }
}
