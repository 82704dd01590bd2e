import type { Run } from '../../job/index.ts'
import { Fault, source } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
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

type Made = Omit<JudgedCircuit, 'cords'>

/**
 * Judgements already made, by what a circuit is: pure functions of it, kept between answers because a plan asks the same circuits again
 * and again. One store for each rule set; it is emptied when it is full.
 */
interface Memo {
  readonly circuits: Map<string, Made>
  readonly cords: Map<string, JudgedCord>
  readonly told: Map<string, unknown>
}
const MEMOS = new WeakMap<RuleSet, Memo>()
const KEPT = 4000

function memoOf(rules: RuleSet): Memo {
  const known = MEMOS.get(rules)
  if (known !== undefined && known.circuits.size < KEPT && known.cords.size < KEPT && known.told.size < KEPT) return known
  const made: Memo = { circuits: new Map(), cords: new Map(), told: new Map() }
  MEMOS.set(rules, made)
  return made
}

/** Judged by itself: neither shared ways, shared raceways nor unknown plugs. */
const alone = (c: CircuitView): boolean =>
  c.loads.length <= 1 && c.strangers.length === 0 && c.circuit.run.raceway?.shared === undefined

function cordLikeness(c: CircuitView): string {
  const cord = c.circuit.cords[0]
  return cord === undefined
    ? ''
    : `${c.loads[0]?.plug.cordM}|${cord.type}|${cord.size}|${cord.lengthM}|${cord.jacketMinC}|${cord.sharedWith}`
}

/** What was told of an equal circuit of the same name before; made once. `names`: everything of it that stands in words. */
export function toldOnce<T>(view: BoxView, c: CircuitView, names: string, make: () => T): T {
  if (!alone(c)) return make()
  const { told } = memoOf(view.rules)
  const key = `${placeKey(view)}|${likeness(view, c)}|${cordLikeness(c)}|${c.circuit.cords[0]?.plug}|${c.circuit.plugs.join()}|${names}`
  const known = told.get(key)
  if (known !== undefined) return known as T
  const made = make()
  told.set(key, made)
  return made
}

/** Every check of one circuit in the order of work: device, line, protective, neutral, fill, outlet, shock, cord. */
export function judgedCircuit(view: BoxView, c: CircuitView): JudgedCircuit {
  const memo = memoOf(view.rules)
  if (!alone(c)) return { ...judged(view, c), cords: cordsOf(view, c) }
  const key = `${placeKey(view)}|${likeness(view, c)}`
  let made = memo.circuits.get(key)
  if (made === undefined) {
    made = judged(view, c)
    memo.circuits.set(key, made)
  }
  const cord = c.circuit.cords[0]
  if (cord === undefined) return { ...renamed(made, c), cords: [] }
  const cordKey = `${key}|${cordLikeness(c)}`
  let judgedCord = memo.cords.get(cordKey)
  if (judgedCord === undefined) {
    judgedCord = cordsOf(view, c)[0]
    if (judgedCord === undefined) return { ...renamed(made, c), cords: [] }
    memo.cords.set(cordKey, judgedCord)
  }
  const known = judgedCord
  const cords = [
    {
      ...known,
      cord,
      plugs: c.circuit.plugs,
      checks: known.checks.map((check) => underPath(check, `cords.${known.cord.plug}.`, `cords.${cord.plug}.`)),
    },
  ]
  return { ...renamed(made, c), cords }
}

function judged(view: BoxView, c: CircuitView): Made {
  return guarded(
    view,
    () => {
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
        ampacityA: view.rules.ampacityA(c.circuit.run.line.size, task).value,
        carrying: task.carrying,
      }
    },
    (check) => ({ id: c.circuit.id, checks: [check], ampacityA: Number.NaN, carrying: 0 }),
  )
}

const cordsOf = (view: BoxView, c: CircuitView): readonly JudgedCord[] =>
  guarded(
    view,
    () => judgedCords(view, c),
    (check) =>
      c.circuit.cords
        .slice(0, 1)
        .map((cord) => ({ cord, plugs: c.circuit.plugs, currentA: c.currentA, ampacityA: Number.NaN, checks: [check] })),
  )

/** A hand-edited design may name a size, an insulation or a family that the set's tables do not hold: unknown, not a crash. */
function guarded<T>(view: BoxView, work: () => T, instead: (check: Check) => T): T {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof Fault) || !error.code.startsWith('rules/')) throw error
    return instead(
      worded({
        what: 'not-in-tables',
        title: 'rows of the set',
        basis: 'code',
        rests: source(`tables of ${view.rules.title}`, 'told'),
        verdict: 'unknown',
        found: String(error.message).slice(0, 120),
        wanted: 'a row of the set',
        said: `cannot be judged: a size, insulation, device or raceway of it is in no table of the set (${error.code}).`,
      }),
    )
  }
}

/** What a judgement takes from the box and the place. */
function placeKey(view: BoxView): string {
  const { insideHotC: h, insideColdC: k, system } = view
  const { site } = view.inputs.job
  return `${system.id}|${h.low}|${h.high}|${h.told}|${k.low}|${k.high}|${k.told}|${site.temporary}|${site.designMinC}|${site.designMaxC}|${view.box.box}`
}

/** What a circuit of one machine, or of the box itself, is, and how many lie beside it, without its names. */
function likeness(view: BoxView, c: CircuitView): string {
  const { circuit } = c
  const crowd = together(view, c)
  const { run, device, shock } = circuit
  const plug = c.loads[0]?.plug
  const load =
    plug === undefined
      ? `${circuit.own}|${c.currentA}|${c.continuousA}`
      : `${plug.kind}|${plug.use}|${plug.voltageV}|${plug.phases}|${plug.currentA}|${plug.powerW}|${plug.outlet}|${plug.hoursPerDay}|${plug.dutyFrac}|${plug.essential}|${plug.currentTold}|${plug.motor === undefined ? '' : JSON.stringify(plug.motor)}`
  const wire = (w: Run['neutral']) => (w === null ? '-' : `${w.size}/${w.metal}/${w.insulation}`)
  return `${c.kind}|${circuit.connection}|${circuit.legs.join('')}|${device.ratingA}|${device.poles}|${device.family}|${shock.kind}|${shock.sensitivityMA}|${shock.form}|${circuit.outlet}|${circuit.own}|${wire(run.line)}|${wire(run.neutral)}|${wire(run.protective)}|${run.raceway?.kind}|${run.raceway?.trade}|${run.sets}|${crowd.circuits}|${crowd.othersCarrying}|${load}`
}

/** The same judgement for another circuit of the same make: ids stand only in the paths of mends and on the cords. */
function renamed(known: Made, c: CircuitView): Made {
  if (known.id === c.circuit.id) return known
  return {
    ...known,
    id: c.circuit.id,
    checks: known.checks.map((check) => underPath(check, `circuits.${known.id}.`, `circuits.${c.circuit.id}.`)),
  }
}

function underPath(check: Check, from: string, to: string): Check {
  if (check.mends.length === 0) return check
  return {
    ...check,
    mends: check.mends.map((m) => (m.path.startsWith(from) ? { ...m, path: to + m.path.slice(from.length) } : m)),
  }
}
