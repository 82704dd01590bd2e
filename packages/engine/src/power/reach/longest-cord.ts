import type { SizeName } from '../../job/index.ts'
import { abs, add, type Complex, scale } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { currentAt, longestM } from './drop.ts'
import type { CordReach } from './result.ts'
import { between, type YardSolution } from './solve-yard.ts'
import { NEUTRAL, type Yard } from './yard.ts'

/** Conductors the current of one element passes on its way: phases and neutrals counted, three-phase ones by balance. */
export function loopOf(yard: Yard, plug: number): { readonly phases: number; readonly neutrals: number } {
  const p = yard.plugs[plug]!
  const el = yard.elements[p.elements[0]!]!
  if (p.elements.length === 3) return el.to === NEUTRAL ? { phases: 1, neutrals: 0 } : { phases: 3, neutrals: 0 }
  return el.to === NEUTRAL ? { phases: 1, neutrals: 1 } : { phases: 2, neutrals: 0 }
}

export interface LongestTask {
  readonly yard: Yard
  readonly solution: YardSolution
  readonly plug: number
  /** Volts the machine must keep, by what asks for it, as shares of nominal. */
  readonly leastFrac: readonly { readonly by: CordReach['longest'][number]['by']; readonly frac: number }[]
  readonly rules: RuleSet
  readonly ohmPerM: (size: SizeName) => Complex
  readonly ampacityA: (size: SizeName) => number
}

/**
 * Longest cord of each gauge that still holds here, rounded down to a tenth of a metre. The panel's volts are held where this state
 * left them; a run shared with other cords is held at its end. Null where the gauge does not carry the load.
 */
export function longestCords(task: LongestTask): CordReach['longest'] {
  const { yard, solution, plug } = task
  const p = yard.plugs[plug]!
  const el = yard.elements[p.elements[0]!]!
  const circuit = yard.circuits[p.circuit]!
  const loop = loopOf(yard, plug)
  const alone = circuit.circuit.plugs.length <= 1
  const start = abs(
    alone ? between(solution.panelV, circuit.panel, el.from, el.to) : between(solution.runV, p.circuit, el.from, el.to),
  )
  const nominal = p.elements.length === 3 && el.to === NEUTRAL ? yard.system.lineNeutralV : p.nominalV
  const fixed = alone ? add(scale(circuit.phaseOhm, loop.phases), scale(circuit.neutralOhm, loop.neutrals)) : { re: 0, im: 0 }
  const need = task.leastFrac.reduce((a, b) => (b.frac > a.frac ? b : a))
  const currentA = currentAt(el.sVA, el.nominalV, el.model, need.frac * nominal)
  const lineA = abs(currentA) * (loop.phases === 3 ? Math.sqrt(3) : 1)
  return task.rules.cordSizes().map((size) => {
    if (task.ampacityA(size) < lineA * (1 - 1e-9)) return { size, lengthM: null, by: 'ampacity' as const }
    const z = scale(task.ohmPerM(size), loop.phases + loop.neutrals)
    const m = longestM({ panelV: start, leastV: need.frac * nominal, currentA, fixedOhm: fixed, loopOhmPerM: z })
    return { size, lengthM: m === null ? null : Math.floor(m * 10) / 10, by: need.by }
  })
}
