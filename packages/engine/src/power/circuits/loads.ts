import type { Plug } from '../../job/index.ts'
import { put, type Source, type Step, source, step } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'

/** Current of a plug as a circuit sees it. */
export interface PlugLoad {
  readonly plug: Plug
  /** What flows while it runs; of a welder its effective current over the duty. */
  readonly currentA: number
  readonly continuousA: number
  readonly otherA: number
  readonly powerW: number
  readonly apparentVA: number
  readonly motor: boolean
  /** What of it may flow in a neutral, and how much of that is not linear. */
  readonly neutralA: number
  readonly nonLinearA: number
  readonly steps: readonly Step[]
}

/** @source NEC 630.11(A): arc welder, rated current times the square root of its duty cycle. Provenance: memory */
const WELDER: Source = source('NEC 630.11(A), √duty; taken for all sets', 'memory')
const ALWAYS: Source = source('vehicle heaters, tank heaters and chargers are continuous in every set', 'common practice')

/** Machine kinds that run for hours whatever the list says: someone switches them to hand in a cold spell. */
const alwaysContinuous = (plug: Plug): boolean =>
  plug.kind === 'heater' ||
  plug.kind === 'charger' ||
  plug.use === 'vehicle-heater' ||
  plug.use === 'heat-trace' ||
  plug.use === 'charger'

/** Loads already worked out: a plug is plain data and never changes. */
const LOADS = new WeakMap<RuleSet, WeakMap<Plug, PlugLoad>>()

/** Current split by the continuous rule of the set, and the lines it was split by. */
export function plugLoad(plug: Plug, rules: RuleSet): PlugLoad {
  let known = LOADS.get(rules)
  if (known === undefined) {
    known = new WeakMap()
    LOADS.set(rules, known)
  }
  let load = known.get(plug)
  if (load === undefined) {
    load = worked(plug, rules)
    known.set(plug, load)
  }
  return load
}

function worked(plug: Plug, rules: RuleSet): PlugLoad {
  const told = source(
    plug.currentTold ? `current of ${plug.tag} as written` : 'I = P/(U·pf), three-phase P/(√3·U·pf)',
    plug.currentTold ? 'told' : 'computed',
  )
  const nameplate = step(
    'I',
    plug.currentTold ? 'as written' : plug.phases === 3 ? 'P/(√3·U·pf)' : 'P/(U·pf)',
    [put('P', plug.powerW, 'W'), put('U', plug.voltageV, 'V')],
    plug.currentA,
    'A',
    told,
  )
  const apparentVA = plug.currentA * plug.voltageV * (plug.phases === 3 ? Math.sqrt(3) : 1)
  const neutralA = usesNeutral(plug) ? plug.currentA : 0
  const base = {
    plug,
    powerW: plug.powerW,
    apparentVA,
    motor: isMotor(plug),
    neutralA,
    nonLinearA: NON_LINEAR.has(plug.kind) ? neutralA : 0,
  }
  if (plug.kind === 'welder') {
    const currentA = plug.currentA * Math.sqrt(plug.dutyFrac)
    const effective = step('Ieff', 'I·√duty', [put('I', plug.currentA, 'A'), put('duty', plug.dutyFrac)], currentA, 'A', WELDER)
    return { ...base, currentA, continuousA: 0, otherA: currentA, steps: [nameplate, effective] }
  }
  const long = alwaysContinuous(plug)
    ? { value: true, steps: [step('continuous', 'heater or charger: continuous', [], 'yes', '', ALWAYS)] }
    : rules.isContinuous(plug.hoursPerDay, plug.currentA)
  const continuousA = long.value ? plug.currentA : 0
  return { ...base, currentA: plug.currentA, continuousA, otherA: plug.currentA - continuousA, steps: [nameplate, ...long.steps] }
}

/** A three-phase machine that is one balanced load sends nothing home by the neutral; a cabin on three phases may. */
const usesNeutral = (plug: Plug): boolean => plug.phases === 1 || plug.kind === 'mixed' || plug.kind === 'electronic'
const NON_LINEAR: ReadonlySet<Plug['kind']> = new Set(['electronic', 'charger', 'drive'])

/** A motor by its plate: its circuit follows the motor rules of the set. A drive is fed as an ordinary continuous load. */
export const isMotor = (plug: Plug): boolean => plug.kind === 'motor' && plug.motor !== undefined && plug.motor.start !== 'drive'

/** Quarter hours of a day. */
export const SLOTS = 96
const SLOT_H = 0.25
/** A run that touches a quarter hour only by rounding does not count in it. */
const TOUCH_H = 1e-6

/** On at each quarter hour: it starts at `startH` and runs `hoursH`, on a circle of 24 h. */
export function onSlots(startH: number, hoursH: number): readonly boolean[] {
  if (hoursH >= 24 - TOUCH_H) return ALL_DAY
  const on = new Array<boolean>(SLOTS)
  for (let t = 0; t < SLOTS; t++) {
    const since = (((t * SLOT_H - startH) % 24) + 24) % 24
    on[t] = since < hoursH - TOUCH_H || 24 - since < SLOT_H - TOUCH_H
  }
  return on
}

const ALL_DAY: readonly boolean[] = Array(SLOTS).fill(true)

/**
 * Order that hangs on what a plug is and not on its name or row: heavier first. Names come last, so renaming tags among equal machines
 * changes nothing else.
 */
export function byNature(a: Plug, b: Plug): number {
  return (
    b.phases - a.phases ||
    b.voltageV - a.voltageV ||
    b.currentA - a.currentA ||
    b.powerW - a.powerW ||
    text(a.kind, b.kind) ||
    text(a.use, b.use) ||
    text(a.outlet, b.outlet) ||
    a.hoursPerDay - b.hoursPerDay ||
    a.fromH - b.fromH ||
    a.readyH - b.readyH ||
    b.cordM - a.cordM ||
    a.dutyFrac - b.dutyFrac ||
    a.daysPerYear - b.daysPerYear ||
    Number(b.essential) - Number(a.essential) ||
    natural(a.tag, b.tag)
  )
}

const text = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** `G2` before `G10`. */
export function natural(a: string, b: string): number {
  const split = (s: string) => s.match(/\d+|\D+/g) ?? []
  const x = split(a),
    y = split(b)
  for (let i = 0; i < Math.min(x.length, y.length); i++) {
    const n = Number(x[i]) - Number(y[i])
    const here = Number.isNaN(n) ? text(x[i]!, y[i]!) : n
    if (here !== 0) return here
  }
  return x.length - y.length || text(a, b)
}
