import { abs, cx } from '../../kernel/index.ts'
import type { OpenNeutral } from './result.ts'
import { NEUTRAL, type Yard } from './yard.ts'

/** Above this share of its own volts a machine is in danger. Service bands end below it. */
const OVER_FRAC = 1.1

/**
 * Volts with the feed's neutral open, loads taken as the impedances they are at their nominal volts: the panel's neutral goes
 * where the currents of the legs balance.
 *
 *   V_N = Σ Y_i·V_i / Σ Y_i,   Y_i = 1/(Z_load + Z_run + Z_cord)
 *
 * @source Millman's theorem. Provenance: computed. Branch conductors are counted, the feed's are not: they move it by less than the drop.
 */
export function openNeutral(yard: Yard, on: Uint8Array, panel: number): OpenNeutral | null {
  const { system } = yard
  if (!system.neutral || system.legs.length < 2) return null
  let yr = 0
  let yi = 0
  let ir = 0
  let ii = 0
  const branches: { plug: number; leg: number; share: number }[] = []
  yard.elements.forEach((e) => {
    const plug = yard.plugs[e.plug]!
    const circuit = yard.circuits[plug.circuit]!
    if (circuit.panel !== panel || e.to !== NEUTRAL || on[e.plug] !== 1) return
    const square = e.sVA.re ** 2 + e.sVA.im ** 2
    if (square === 0) return
    const k = e.nominalV ** 2 / square
    const cord = yard.cords[plug.cord]!
    const lr = e.sVA.re * k
    const li = e.sVA.im * k
    const zr = lr + circuit.phaseOhm.re + circuit.neutralOhm.re + cord.phaseOhm.re + cord.neutralOhm.re
    const zi = li + circuit.phaseOhm.im + circuit.neutralOhm.im + cord.phaseOhm.im + cord.neutralOhm.im
    const d = zr * zr + zi * zi
    const gr = zr / d
    const gi = -zi / d
    const v = yard.emf[e.from]!
    yr += gr
    yi += gi
    ir += gr * v.re - gi * v.im
    ii += gr * v.im + gi * v.re
    branches.push({ plug: e.plug, leg: e.from, share: Math.hypot(lr, li) / Math.sqrt(d) })
  })
  const d = yr * yr + yi * yi
  if (d === 0) return null
  const n = cx((ir * yr + ii * yi) / d, (ii * yr - ir * yi) / d)
  const legV: Record<string, number> = {}
  const wires = { A: 0, B: 1, C: 2 } as const
  for (const leg of system.legs) {
    const e = yard.emf[wires[leg]]!
    legV[leg] = abs(cx(e.re - n.re, e.im - n.im))
  }
  const over = branches.map((b) => {
    const e = yard.emf[b.leg]!
    const plug = yard.plugs[b.plug]!
    const voltageV = Math.hypot(e.re - n.re, e.im - n.im) * b.share
    return { plug: plug.tag, voltageV, voltagePct: (100 * voltageV) / plug.nominalV }
  })
  const most = over
    .filter((o) => o.voltagePct > 100 * OVER_FRAC)
    .sort((a, b) => b.voltagePct - a.voltagePct || (a.plug < b.plug ? -1 : 1))
  return { segment: `${yard.panels[panel]!.tree.box.box}/feed`, legV, over: most, outcome: 'solved' }
}
