import type { Plug } from '../../job/index.ts'
import { type Complex, cx, type Step } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { START_PF, startA } from './motor-start.ts'
import type { Outcome, StartDip } from './result.ts'
import { between, solveYard, type YardSolution } from './solve-yard.ts'
import { plugVolts } from './states.ts'
import { NEUTRAL, type Yard } from './yard.ts'

/** One start at one locked-rotor power factor. */
export interface Started {
  readonly outcome: Outcome
  readonly culprits: readonly string[]
  readonly dip: StartDip
  readonly steps: readonly Step[]
}

/** Motors that are switched straight or in steps onto the line; a drive starts from nothing. */
export const startsOnLine = (plug: Plug | null): plug is Plug =>
  plug !== null && plug.kind === 'motor' && plug.motor !== undefined && plug.motor.start !== 'drive'

/**
 * A motor starts as an impedance while all else runs; the whole yard is solved again. An own set stands behind X′d, its inner volts
 * those that gave the steady state before.
 */
export function started(task: {
  readonly steady: Yard
  /** The same yard with the source as it is in a transient. */
  readonly transient: Yard
  readonly plug: number
  readonly on: Uint8Array
  readonly rules: RuleSet
  readonly end: keyof typeof START_PF
  /** The yard with all else on, when it was solved already. */
  readonly before?: YardSolution
}): Started {
  const { steady, transient, plug, rules } = task
  const machine = steady.plugs[plug]!
  const told = machine.plug!
  const drawn = startA(told, rules)
  const pf = START_PF[task.end]
  const va = drawn.value * told.voltageV * (told.phases === 3 ? Math.sqrt(3) : 1)
  const others = task.on.slice()
  others[plug] = 0
  const before = task.before ?? solveYard(steady, { on: others })
  const wye = machine.elements.length === 3 && steady.elements[machine.elements[0]!]!.to === NEUTRAL
  const during =
    before.outcome === 'solved'
      ? solveYard(transient, {
          on: others,
          emf: innerVolts(steady, transient, before),
          starting: {
            plug,
            sVA: cx(va * pf, va * Math.sqrt(1 - pf * pf)),
            nominalV: wye ? told.voltageV / Math.sqrt(3) : told.voltageV,
          },
        })
      : before
  const panel = steady.circuits[machine.circuit]!.panel
  const pct = (v: number, nominalV: number) => (100 * v) / nominalV
  const dip = (a: number, b: number) => 100 * (1 - b / a)
  const neighbours =
    during.outcome !== 'solved'
      ? []
      : steady.plugs.flatMap((p, k) => {
          if (k === plug || others[k] !== 1) return []
          const was = plugVolts(steady, before, k)
          const is = plugVolts(transient, during, k)
          return [{ plug: p.tag, voltagePct: pct(is, p.nominalV), dipPct: dip(was, is) }]
        })
  const first = steady.elements[machine.elements[0]!]!
  const at = (s: YardSolution) => {
    const v = between(s.panelV, panel, first.from, first.to)
    return Math.hypot(v.re, v.im)
  }
  return {
    outcome: during.outcome,
    culprits: during.culprits,
    steps: drawn.steps,
    dip: {
      plug: machine.tag,
      startA: drawn.value,
      startPowerFactorFrac: pf,
      atMachinePct: dip(plugVolts(steady, before, plug), plugVolts(transient, during, plug)),
      atPanelPct: dip(at(before), at(during)),
      neighbours,
      below85: neighbours.filter((n) => n.voltagePct < 85).map((n) => n.plug),
      below70: neighbours.filter((n) => n.voltagePct < 70).map((n) => n.plug),
    },
  }
}

/** Inner volts of the source that hold the terminals where they were: E′ = V + Z′·I − what the steady source lost. */
function innerVolts(steady: Yard, transient: Yard, before: YardSolution): readonly Complex[] {
  return steady.emf.map((e, w) => {
    if (w >= NEUTRAL) return e
    let re = e.re
    let im = e.im
    for (let k = 0; k < NEUTRAL; k++) {
      const zr = transient.sourceOhm[w]![k]!.re - steady.sourceOhm[w]![k]!.re
      const zi = transient.sourceOhm[w]![k]!.im - steady.sourceOhm[w]![k]!.im
      const ar = before.panelA[2 * k]!
      const ai = before.panelA[2 * k + 1]!
      re += zr * ar - zi * ai
      im += zr * ai + zi * ar
    }
    return cx(re, im)
  })
}
