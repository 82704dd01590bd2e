import type { Circuit, Run, SizeName, Wire } from '../../job/index.ts'
import type { Step } from '../../kernel/index.ts'
import type { ConductorTask, RuleSet, System } from '../../rules/index.ts'
import { type Connection, hasNeutral, POLES } from './connection.ts'

export interface WireTask {
  readonly rules: RuleSet
  readonly system: System
  readonly connection: Connection
  readonly continuousA: number
  readonly otherA: number
  readonly motor: boolean
  readonly multiOutlet: boolean
  readonly nonLinearFrac: number
  readonly deviceA: number
  readonly deviceFamily: string
  readonly ambientC: number
  /** Circuits in the raceway, this one among them, and load-carrying conductors of the others. */
  readonly circuits: number
  readonly othersCarrying: number
  readonly lengthM: number
  readonly metal: 'cu' | 'al'
  readonly insulation: string
  readonly racewayKind: string
  /** Size that the load alone asks for where what lies beside it may still change; absent: what is found here. */
  readonly grownFrom?: SizeName
}

/** Conductors that count for grouping: lines, and the neutral where the set counts it. */
export function carryingOf(
  connection: Connection,
  system: System,
  nonLinearFrac: number,
  rules: RuleSet,
): { readonly count: number; readonly steps: readonly Step[] } {
  const lines = POLES[connection]
  if (!hasNeutral(connection)) return { count: lines, steps: [] }
  const counts = rules.neutralCounts({ connection, system, nonLinearFrac })
  return { count: lines + (counts.value ? 1 : 0), steps: counts.steps }
}

export function conductorTask(task: WireTask): ConductorTask {
  const own = carryingOf(task.connection, task.system, task.nonLinearFrac, task.rules).count
  return {
    metal: task.metal,
    insulation: task.insulation,
    continuousA: task.continuousA,
    otherA: task.otherA,
    deviceA: task.deviceA,
    deviceFamily: task.deviceFamily,
    loaded: own >= 3 ? 3 : 2,
    carrying: own + task.othersCarrying,
    circuits: task.circuits,
    ambientC: task.ambientC,
    multiOutlet: task.multiOutlet,
    motor: task.motor,
  }
}

export interface Wired {
  readonly run: Run
  /** What the load alone asked for, before it was grown for drop or fault. */
  readonly base: SizeName
  /** Null: no size of the list passes every check; the largest was taken. */
  readonly found: SizeName | null
}

/** Line, neutral and protective conductor of one circuit and the raceway they lie in. `least`: what earlier rounds asked for. */
export function wired(task: WireTask, least: SizeName | undefined): Wired {
  const { rules } = task
  const found = rules.conductorFor(conductorTask(task)).value
  const base = found ?? rules.sizes[rules.sizes.length - 1]!.name
  const line = heavier(rules, base, least)
  const protective = rules.protectiveFor({
    deviceA: task.deviceA,
    line,
    grownFrom: task.grownFrom ?? base,
    metal: task.metal,
  }).value
  const wire = (size: SizeName): Wire => ({ size, metal: task.metal, insulation: task.insulation })
  const neutral = hasNeutral(task.connection) ? wire(line) : null
  const wires = raceWires({ connection: task.connection, line: wire(line), neutral, protective: wire(protective) })
  const trade = rules.racewayFor(wires, task.racewayKind).value
  const raceway = trade === null ? null : { kind: task.racewayKind, trade }
  return {
    run: { lengthM: task.lengthM, line: wire(line), neutral, protective: wire(protective), raceway, sets: 1 },
    base,
    found,
  }
}

/** Every wire of a circuit that lies in its raceway. */
export function raceWires(run: {
  readonly connection: Connection
  readonly line: Wire
  readonly neutral: Wire | null
  readonly protective: Wire | null
}): readonly Wire[] {
  return [
    ...Array<Wire>(POLES[run.connection]).fill(run.line),
    ...(run.neutral === null ? [] : [run.neutral]),
    ...(run.protective === null ? [] : [run.protective]),
  ]
}

export const circuitWires = (circuit: Circuit): readonly Wire[] => raceWires({ ...circuit.run, connection: circuit.connection })

export function heavier(rules: RuleSet, a: SizeName, b: SizeName | undefined): SizeName {
  if (b === undefined) return a
  return sizeIndex(rules, b) > sizeIndex(rules, a) ? b : a
}

export const sizeIndex = (rules: RuleSet, size: SizeName): number => rules.sizes.findIndex((s) => s.name === size)
