import { Fault, source } from '../../kernel/index.ts'
import type { BoxView, CircuitView } from './box-view.ts'
import { type Check, worded } from './check.ts'
import { lineChecks, runChecks, taskOf, together } from './judge-conductor.ts'
import { type JudgedCord, judgedCords } from './judge-cord.ts'
import { deviceChecks } from './judge-device.ts'
import { outletChecks, shockChecks } from './judge-outlet.ts'

export interface JudgedCircuit {
  readonly id: string
  readonly checks: readonly Check[]
  readonly cords: readonly JudgedCord[]
  readonly ampacityA: number
  readonly carrying: number
}

/** Equal circuits are judged once: what differs between them is only their name, their plugs' names and their ways. */
export type Memo = Map<string, JudgedCircuit>

/** Every check of one circuit in the order of work: device, line, protective, neutral, fill, outlet, shock, cord. */
export function judgedCircuit(view: BoxView, c: CircuitView, memo: Memo): JudgedCircuit {
  if (c.loads.length > 1 || c.strangers.length > 0) return judged(view, c)
  const key = likeness(view, c)
  const known = memo.get(key)
  if (known !== undefined) return renamed(known, c)
  const made = judged(view, c)
  memo.set(key, made)
  return made
}

function judged(view: BoxView, c: CircuitView): JudgedCircuit {
  try {
    const task = taskOf(view, c, view.insideHotC.high)
    return {
      id: c.circuit.id,
      checks: [
        ...deviceChecks(view, c),
        ...lineChecks(view, c),
        ...runChecks(view, c),
        ...outletChecks(view, c),
        ...shockChecks(view, c),
      ],
      cords: judgedCords(view, c),
      ampacityA: view.rules.ampacityA(c.circuit.run.line.size, task).value,
      carrying: task.carrying,
    }
  } catch (error) {
    // A hand-edited design may name a size, an insulation or a family that the set's tables do not hold.
    if (!(error instanceof Fault) || !error.code.startsWith('rules/')) throw error
    const check = worded({
      what: 'not-in-tables',
      title: 'rows of the set',
      basis: 'code',
      rests: source(`tables of ${view.rules.title}`, 'told'),
      verdict: 'unknown',
      found: String(error.message).slice(0, 120),
      wanted: 'a row of the set',
      said: `cannot be judged: a size, insulation, device or raceway of it is in no table of the set (${error.code}).`,
    })
    return { id: c.circuit.id, checks: [check], cords: [], ampacityA: Number.NaN, carrying: 0 }
  }
}

/** What a circuit of one machine, or of the box itself, is, without its names. */
function likeness(view: BoxView, c: CircuitView): string {
  const { circuit } = c
  const mates = circuit.run.raceway?.shared === undefined ? null : together(view, c)
  const loads = c.loads.map(({ plug }) => [
    plug.kind,
    plug.use,
    plug.voltageV,
    plug.phases,
    plug.currentA,
    plug.powerW,
    plug.outlet,
    plug.hoursPerDay,
    plug.dutyFrac,
    plug.essential,
    plug.cordM,
    plug.currentTold,
    plug.motor,
  ])
  const { run } = circuit
  return JSON.stringify([
    c.kind,
    circuit.connection,
    circuit.device,
    circuit.shock,
    circuit.outlet,
    circuit.own,
    circuit.ownLoad,
    circuit.legs,
    run.line,
    run.neutral,
    run.protective,
    run.raceway,
    run.sets,
    mates === null ? null : [mates.circuits, mates.othersCarrying, mates.wires],
    loads,
    circuit.cords.map((k) => [k.type, k.size, k.lengthM, k.jacketMinC, k.sharedWith === undefined]),
    c.kind === 'feeder' ? c.currentA : 0,
    c.kind === 'feeder' ? c.continuousA : 0,
  ])
}

/** The same judgement for another circuit of the same make: ids stand only in the paths of mends and on the cords. */
function renamed(known: JudgedCircuit, c: CircuitView): JudgedCircuit {
  const checks = known.checks.map((check) => underPath(check, `circuits.${known.id}.`, `circuits.${c.circuit.id}.`))
  const leads = c.circuit.cords.filter((k) => k.sharedWith === undefined)
  const cords = known.cords.map((k, i) => {
    const cord = leads[i] ?? k.cord
    return {
      ...k,
      cord,
      plugs: c.circuit.plugs,
      checks: k.checks.map((check) => underPath(check, `cords.${k.cord.plug}.`, `cords.${cord.plug}.`)),
    }
  })
  return { ...known, id: c.circuit.id, checks, cords }
}

function underPath(check: Check, from: string, to: string): Check {
  if (check.mends.length === 0) return check
  return {
    ...check,
    mends: check.mends.map((m) => (m.path.startsWith(from) ? { ...m, path: to + m.path.slice(from.length) } : m)),
  }
}
