import { atan2 } from '../../kernel/index.ts'
import { LEAK_S } from './admittance.ts'
import { EARTH, type Network } from './model.ts'
import type { Solution } from './solution.ts'

/**
 * One netlist of solved networks, side by side on one earth, for a circuit simulator (AC analysis at 60 Hz): windings as controlled sources, mutual impedances as
 * controlled voltages, each load as the admittance it settled at. What the simulator gives must be the same volts.
 */
export function spiceNetlist(all: readonly { readonly network: Network; readonly solved: Solution }[], rawFile: string): string {
  const out: string[] = ['* networks with their loads as converged admittances']
  all.forEach(({ network, solved }, k) => {
    out.push(...elementLines(network, solved, `y${k}`))
  })
  out.push(
    '.ac lin 1 60 60',
    '.control',
    'set filetype=ascii',
    'set numdgt=15',
    'run',
    `write ${rawFile}`,
    'quit',
    '.endc',
    '.end',
  )
  return `${out.join('\n')}\n`
}

function elementLines(network: Network, solved: Solution, name: string): readonly string[] {
  const out: string[] = []
  const node = (wire: number) => (wire === EARTH ? '0' : `${name}w${wire}`)
  let count = 0
  const fresh = () => `${name}x${count++}`
  /** A complex impedance: resistor and inductor, or two controlled sources where a part is negative or nothing. */
  const impedance = (a: string, b: string, re: number, im: number) => {
    const mid = fresh()
    out.push(`R${mid} ${a} ${mid} ${num(re)}`)
    out.push(`L${mid} ${mid} ${b} ${num(im / OMEGA)}`)
  }
  /** Admittance g + jb between two nodes: g by a controlled current, jb by a capacitor of either sign. */
  const admittance = (a: string, b: string, re: number, im: number) => {
    if (re !== 0) out.push(`G${fresh()} ${a} ${b} ${a} ${b} ${num(re)}`)
    // A lagging load as a negative capacitor: three inductors in a ring have no operating point at direct current.
    if (im !== 0) out.push(`C${fresh()} ${a} ${b} ${num(im / OMEGA)}`)
  }
  for (const f of network.fixed) {
    const magnitude = Math.hypot(f.volts.re, f.volts.im)
    out.push(`V${fresh()} ${node(f.wire)} 0 DC 0 AC ${num(magnitude)} ${num((atan2(f.volts.im, f.volts.re) * 180) / Math.PI)}`)
  }
  for (const line of network.lines) {
    // Each conductor: its own impedance and, in series, what the others induce in it: r_ij + jx_ij times their currents.
    const sense = line.from.map(() => `Vs${fresh()}`)
    const jw = line.from.map(() => fresh())
    line.from.forEach((f, i) => {
      let at = fresh()
      out.push(`${sense[i]} ${node(f)} ${at} 0`)
      for (let j = 0; j < line.from.length; j++) {
        const z = line.zOhm[i]![j]!
        if (i === j || (z.re === 0 && z.im === 0)) continue
        const r = fresh()
        out.push(`H${r} ${at} ${r} ${sense[j]} ${num(z.re)}`)
        const x = fresh()
        out.push(`E${x} ${r} ${x} ${jw[j]} 0 ${num(z.im)}`)
        at = x
      }
      impedance(at, node(line.to[i]!), line.zOhm[i]![i]!.re, line.zOhm[i]![i]!.im)
      // A node whose volts are j·I of this conductor: one henry over ω.
      out.push(`F${fresh()} 0 ${jw[i]} ${sense[i]} 1`)
      out.push(`L${fresh()} ${jw[i]} 0 ${num(1 / OMEGA)}`)
    })
  }
  for (const w of network.windings) {
    const e = fresh()
    const v = `Vs${fresh()}`
    const mid = fresh()
    out.push(`E${e} ${e} ${node(w.s2)} ${node(w.p1)} ${node(w.p2)} ${num(1 / w.ratio)}`)
    out.push(`${v} ${e} ${mid} 0`)
    impedance(mid, node(w.s1), w.zOhm.re, w.zOhm.im)
    out.push(`F${fresh()} ${node(w.p1)} ${node(w.p2)} ${v} ${num(1 / w.ratio)}`)
  }
  for (const s of network.shunts) admittance(node(s.from), node(s.to), s.yS.re, s.yS.im)
  for (const wire of solved.leaks) admittance(node(wire), '0', LEAK_S, 0)
  for (const l of network.loads) {
    const at = (wire: number, k: 0 | 1) => (wire === EARTH ? 0 : solved.volts[2 * wire + k]!)
    const square = (at(l.from, 0) - at(l.to, 0)) ** 2 + (at(l.from, 1) - at(l.to, 1)) ** 2
    const g = l.model === 'P' ? 1 / square : l.model === 'I' ? 1 / (l.nominalV * Math.sqrt(square)) : 1 / l.nominalV ** 2
    admittance(node(l.from), node(l.to), l.sVA.re * g, -l.sVA.im * g)
  }
  return out
}

const OMEGA = 2 * Math.PI * 60
const num = (x: number): string => x.toExponential(16)
