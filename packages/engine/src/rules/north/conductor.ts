import type { SizeName } from '../../job/index.ts'
import { Fault, put, type Source, type Step, step, type Worked } from '../../kernel/index.ts'
import { figure, numberOrNull, tableOf, word } from '../common/book.ts'
import { ratingAtOrAboveA } from '../common/ratings.ts'
import { sizeCell } from '../common/size.ts'
import type { ConductorCheck, ConductorTask, Size } from '../rule-set.ts'
import { ambientFactor, columnA, groupingFactor, installed, insulationC, terminalC } from './ampacity.ts'
import type { North } from './spec.ts'

/**
 * Every check of one size, in the order of the code: terminals, conditions of use, protection by the device (or the next rating up where
 * that is allowed), small-conductor cap.
 * @source NEC 110.14(C), 310.15, 240.4; CE Code Rules 4-004, 4-006, 8-104, 14-104. Provenance: per row
 */
export function conductorChecks(north: North, size: SizeName, task: ConductorTask): readonly ConductorCheck[] {
  const { book } = north
  const holdsShare = figure(book, 'device-holds')
  const loadA = task.continuousA + task.otherA
  const ratedA = task.continuousA / holdsShare.value + task.otherA
  const plain = north.conditionsCarry === 'the current'
  const carryA = plain ? loadA : ratedA
  const as = installed(north, size, task)
  const puts = [put('continuous', task.continuousA, 'A'), put('other', task.otherA, 'A')]
  const split = as.terminalFrom
  const checks: ConductorCheck[] = [
    {
      what: 'terminals',
      holds: !over(ratedA, as.terminalA),
      demandA: ratedA,
      limitA: as.terminalA,
      steps: [
        ...as.steps.slice(split.from, split.to),
        step('I1', `continuous/${holdsShare.value} + other ≤ It`, puts, ratedA, 'A', holdsShare.rests),
      ],
    },
    {
      what: 'conditions',
      holds: !over(carryA, as.conditionsA),
      demandA: carryA,
      limitA: as.conditionsA,
      steps: [
        ...as.steps.slice(0, split.from),
        step(
          'I2',
          plain ? 'continuous + other ≤ Ic' : `continuous/${holdsShare.value} + other ≤ Ic`,
          puts,
          carryA,
          'A',
          holdsShare.rests,
        ),
      ],
    },
  ]
  if (task.motor) {
    const motor = figure(book, 'motor-conductor-ratio')
    const why = 'motor circuit: its overload relay protects the conductor, the device may be above it'
    checks.push({
      what: 'protected',
      holds: true,
      demandA: ratedA,
      limitA: as.value,
      steps: [step('In', why, [put('In', task.deviceA, 'A')], task.deviceA, 'A', motor.rests)],
    })
  } else {
    checks.push(protectedBy(north, as.value, [...as.steps.slice(split.to)], task))
    const cap = capCheck(north, size, task)
    if (cap !== null) checks.push(cap)
  }
  const parallel = parallelCheck(north, size, task)
  return parallel === null ? checks : [...checks, parallel]
}

/** Smallest size that passes every check. Null when no single size of the list does; more sets may. */
export function conductorFor(north: North, sizes: readonly Size[], task: ConductorTask): Worked<SizeName | null> {
  const light = tooLight(north, task)
  for (const [i, { name }] of sizes.entries()) {
    if (light(name)) continue
    const checks = conductorChecks(north, name, task)
    if (!checks.every((c) => c.holds)) continue
    const before = sizes[i - 1]
    const lost = before === undefined ? [] : [lostStep(before.name, conductorChecks(north, before.name, task))]
    const chosen = step('size', 'smallest that passes every check', [], name, '', restsOf(checks))
    return { value: name, steps: [...checks.flatMap((c) => c.steps), ...lost, chosen] }
  }
  const largest = sizes.at(-1)
  if (largest === undefined) return { value: null, steps: [] }
  const checks = conductorChecks(north, largest.name, task)
  return { value: null, steps: [...checks.flatMap((c) => c.steps), lostStep(largest.name, checks)] }
}

/** A size that the first two checks send away by their numbers alone needs no lines written for it. */
function tooLight(north: North, task: ConductorTask): (size: SizeName) => boolean {
  const { book } = north
  const sets = task.sets ?? 1
  const insulation = insulationC(north, task.insulation).value
  const factor = ambientFactor(north, insulation, task.ambientC).value * groupingFactor(north, task.carrying).value * sets
  const terminal = Math.min(terminalC(north, task).value, insulation)
  const loadA = task.continuousA + task.otherA
  const ratedA = task.continuousA / figure(book, 'device-holds').value + task.otherA
  const carryA = north.conditionsCarry === 'the current' ? loadA : ratedA
  return (size) =>
    over(carryA, columnA(book, size, task.metal, insulation).value * factor) ||
    over(ratedA, columnA(book, size, task.metal, terminal).value * sets)
}

const NAMES: Record<ConductorCheck['what'], string> = {
  terminals: 'terminals',
  conditions: 'as installed',
  protected: 'protection by the device',
  'small-conductor': 'small-conductor cap',
  overload: 'overload',
}

function lostStep(size: SizeName, checks: readonly ConductorCheck[]): Step {
  const lost = checks.find((c) => !c.holds) as ConductorCheck
  const puts = [put('asked', lost.demandA, 'A'), put('gives', lost.limitA, 'A')]
  return step('next smaller', `${size} does not do: ${NAMES[lost.what]}`, puts, size, '', restsOf([lost]))
}

/** @throws Fault `rules/no-steps`: every check writes at least one line */
function restsOf(checks: readonly ConductorCheck[]): Source {
  const last = checks.at(-1)?.steps.at(-1)
  if (last === undefined) throw new Fault('rules/no-steps')
  return last.rests
}

function protectedBy(north: North, ampacityA: number, lines: readonly Step[], task: ConductorTask): ConductorCheck {
  const to = figure(north.book, 'next-up-to')
  const puts = [put('In', task.deviceA, 'A'), put('Iz', ampacityA, 'A')]
  const found = (holds: boolean, limitA: number, steps: readonly Step[]): ConductorCheck => ({
    what: 'protected',
    holds,
    demandA: task.deviceA,
    limitA,
    steps,
  })
  if (!over(task.deviceA, ampacityA)) {
    return found(true, ampacityA, [
      ...lines,
      step('In ≤ Iz', 'the device does not exceed the ampacity', puts, 'holds', '', to.rests),
    ])
  }
  if (task.multiOutlet) {
    return found(false, ampacityA, [
      ...lines,
      step('In ≤ Iz', 'no next rating up on a branch circuit with more than one receptacle', puts, 'fails', '', to.rests),
    ])
  }
  const next = ratingAtOrAboveA(north.book, north.ratings, ampacityA)
  const allowed = task.deviceA <= to.value && next.value !== null && !over(task.deviceA, next.value)
  const said = `next standard rating above the ampacity, up to ${to.value} A`
  return found(allowed, task.deviceA <= to.value ? (next.value ?? ampacityA) : ampacityA, [
    ...lines,
    ...next.steps,
    step('In ≤ next(Iz)', said, puts, allowed ? 'holds' : 'fails', '', to.rests),
  ])
}

/** Null for sizes the rule does not name. A named size without a value for this metal may not be used. */
function capCheck(north: North, size: SizeName, task: ConductorTask): ConductorCheck | null {
  if (!tableOf(north.book, north.smallConductor).rows.some((row) => String(row[0]) === String(sizeCell(size)))) return null
  const cap = numberOrNull(north.book, north.smallConductor, sizeCell(size), task.metal)
  const rests = cap?.rests ?? figure(north.book, 'next-up-to').rests
  const limitA = (cap?.value ?? 0) * (task.sets ?? 1)
  return {
    what: 'small-conductor',
    holds: !over(task.deviceA, limitA),
    demandA: task.deviceA,
    limitA,
    steps: [step('cap', 'largest device for a small conductor', [put('In', task.deviceA, 'A')], limitA, 'A', rests)],
  }
}

function parallelCheck(north: North, size: SizeName, task: ConductorTask): ConductorCheck | null {
  const sets = task.sets ?? 1
  if (sets <= 1) return null
  const from = word(north.book, 'parallel-from')
  const order = tableOf(north.book, 'us-ampacity').rows.map((row) => String(row[0]))
  const holds = order.indexOf(String(sizeCell(size))) >= order.indexOf(from.value)
  const asked = step(
    'sets',
    `conductors in parallel from ${from.value} AWG up`,
    [put('sets', sets)],
    holds ? 'holds' : 'fails',
    '',
    from.rests,
  )
  return { what: 'conditions', holds, demandA: sets, limitA: holds ? sets : 1, steps: [asked] }
}

const over = (demandA: number, limitA: number): boolean => demandA > limitA * (1 + EXACT)
/** Products of printed figures differ in the last bits; no size hangs on them. */
const EXACT = 1e-9
