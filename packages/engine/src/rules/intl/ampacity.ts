import type { SizeName } from '../../job/index.ts'
import { Fault, put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure, numberOrNull, rests, rowNotOver, tableOf, wordAt } from '../common/book.ts'
import { sizeCell } from '../common/size.ts'
import { overloadRatio } from '../common/trip.ts'
import type { Cited, ConductorCheck, ConductorTask, Size } from '../rule-set.ts'

/** Singles in conduit on a wall, the way the box's circuits lie. */
const USUAL_METHOD = 'B1'
const BUNCHED = 'bunched in air, on a surface, embedded or enclosed'

/** It of the tables: one circuit alone, 30 °C; 0 where there is none. @throws Fault `rules/insulation` · `rules/method` */
export function tableA(
  book: Book,
  size: SizeName,
  task: { readonly insulation: string; readonly loaded: 2 | 3; readonly metal: 'cu' | 'al'; readonly method?: string },
): Cited<number> {
  if (task.metal !== 'cu') throw new Fault('rules/insulation', { metal: task.metal, why: 'no table of aluminium conductors' })
  const stem = wordAt(book, 'intl-insulation', task.insulation, 'table').value
  const id = `${stem}${task.loaded}`
  const method = task.method ?? USUAL_METHOD
  if (!tableOf(book, id).columns.includes(method)) throw new Fault('rules/method', method)
  return numberOrNull(book, id, sizeCell(size), method) ?? { value: 0, rests: source(`${id}: no ${size}`, 'read') }
}

/** Ambient factor of an insulation: the row at or above the temperature; beyond the table's end nothing may be carried. */
export function ambientFactor(book: Book, insulation: string, ambientC: number): Worked<number> {
  const column = wordAt(book, 'intl-insulation', insulation, 'ambient').value
  const table = tableOf(book, 'intl-ambient')
  const row = rowNotOver(table, 'ambient', ambientC)
  const value = table.rows[row]?.[table.columns.indexOf(column)]
  const puts = [put('Ta', ambientC, '°C')]
  if (typeof value !== 'number') {
    const last = rests(book, table, table.rows.length - 1, column)
    return { value: 0, steps: [step('Ca', 'beyond the table: nothing may be carried', puts, 0, '', last)] }
  }
  return {
    value,
    steps: [
      step('Ca', `row ${String(table.rows[row]?.[0])} °C, ${insulation}`, puts, value, '', rests(book, table, row, column)),
    ],
  }
}

/** Factor for circuits together: the column at or above the count; beyond the table's end nothing may be carried. */
export function groupingFactor(book: Book, circuits: number): Worked<number> {
  const table = tableOf(book, 'intl-grouping')
  const column = table.columns.slice(1).find((name) => Number(name.slice(1)) >= circuits)
  const puts = [put('n', circuits)]
  if (column === undefined) {
    return {
      value: 0,
      steps: [
        step('Cg', 'more circuits than the table knows: nothing may be carried', puts, 0, '', rests(book, table, 0, 'n20')),
      ],
    }
  }
  const factor = numberOrNull(book, 'intl-grouping', BUNCHED, column)
  if (factor === null) throw new Fault('rules/no-row', { id: 'intl-grouping', column })
  return { value: factor.value, steps: [step('Cg', 'circuits bunched or in one conduit', puts, factor.value, '', factor.rests)] }
}

export interface Installed {
  readonly conditionsA: number
  /** What the 70 °C terminals allow: PVC column, hot ambient counted, no grouping. */
  readonly terminalA: number
  readonly value: number
  readonly steps: readonly Step[]
  /** The steps from here on are the terminals'. */
  readonly terminalFrom: number
}

/**
 * Carrying capacity as installed.
 *
 *   Iz = min( It·Ca·Cg , It(PVC)·Ca(PVC, never above 1) )·sets
 *
 * The second part holds conductors of 90 °C to terminals made for 70 °C, unless they are marked for 90 °C (`terminalC`).
 * @source IEC 60364-5-52 523.1, Tables B.52.2 to B.52.17. Provenance: per row
 */
export function installed(book: Book, size: SizeName, task: ConductorTask): Installed {
  const sets = task.sets ?? 1
  const it = tableA(book, size, task)
  const ambient = ambientFactor(book, task.insulation, task.ambientC)
  const grouping = groupingFactor(book, task.circuits)
  const conditionsA = it.value * ambient.value * grouping.value * sets
  const steps: Step[] = [
    step(
      'It',
      `${size} ${task.insulation}, ${task.loaded} loaded, method ${task.method ?? USUAL_METHOD}`,
      [],
      it.value,
      'A',
      it.rests,
    ),
    ...ambient.steps,
    ...grouping.steps,
    step(
      'Ic',
      'It·Ca·Cg·sets',
      [put('It', it.value, 'A'), put('Ca', ambient.value), put('Cg', grouping.value), put('sets', sets)],
      conditionsA,
      'A',
      it.rests,
    ),
  ]
  const terminalFrom = steps.length
  const rule = source('IEC 60364-5-52 523.1 note: terminals for 70 °C', 'memory')
  if (task.insulation === PVC || task.terminalC === 90) {
    const why = task.terminalC === 90 ? 'terminals marked for 90 °C' : 'terminals for 70 °C, as the insulation'
    return {
      conditionsA,
      terminalA: conditionsA,
      value: conditionsA,
      terminalFrom,
      steps: [...steps, step('Iz', why, [put('Ic', conditionsA, 'A')], conditionsA, 'A', rule)],
    }
  }
  const cool = tableA(book, size, { ...task, insulation: PVC })
  const hot = ambientFactor(book, PVC, task.ambientC)
  const factor = Math.min(hot.value, 1)
  const terminalA = cool.value * factor * sets
  const value = Math.min(conditionsA, terminalA)
  steps.push(
    step('It70', `${size}, PVC column: terminals for 70 °C`, [], cool.value, 'A', cool.rests),
    step(
      'I70',
      'It70·Ca(PVC, at most 1)·sets',
      [put('It70', cool.value, 'A'), put('Ca', factor), put('sets', sets)],
      terminalA,
      'A',
      rule,
    ),
    step('Iz', 'min(Ic, I70)', [put('Ic', conditionsA, 'A'), put('I70', terminalA, 'A')], value, 'A', rule),
  )
  return { conditionsA, terminalA, value, terminalFrom, steps }
}

/**
 * IB ≤ In ≤ Iz and I2 ≤ 1.45·Iz on one size, at the terminals too.
 * @source IEC 60364-4-43 433.1. Provenance: memory
 */
export function conductorChecks(book: Book, size: SizeName, task: ConductorTask): readonly ConductorCheck[] {
  const limit = figure(book, 'overload-limit')
  const ratio = overloadRatio(book, task.deviceFamily, task.deviceA)
  const loadA = task.continuousA + task.otherA
  const tripA = ratio.value * task.deviceA
  const neededA = Math.max(loadA, task.deviceA)
  const as = installed(book, size, task)
  const puts = [put('IB', loadA, 'A'), put('In', task.deviceA, 'A')]
  return [
    {
      what: 'terminals',
      holds: !over(neededA, as.terminalA),
      demandA: neededA,
      limitA: as.terminalA,
      steps: as.steps.slice(as.terminalFrom),
    },
    {
      what: 'conditions',
      holds: !over(neededA, as.conditionsA),
      demandA: neededA,
      limitA: as.conditionsA,
      steps: [
        ...as.steps.slice(0, as.terminalFrom),
        step('In ≤ Iz', 'max(IB, In), all current counts as continuous', puts, neededA, 'A', limit.rests),
      ],
    },
    {
      what: 'overload',
      holds: !over(tripA, limit.value * as.value),
      demandA: tripA,
      limitA: limit.value * as.value,
      steps: [
        step(
          'I2',
          'conventional tripping current',
          [put('k', ratio.value), put('In', task.deviceA, 'A')],
          tripA,
          'A',
          ratio.rests,
        ),
        step('I2 ≤ 1.45·Iz', `${limit.value}·Iz`, [put('Iz', as.value, 'A')], limit.value * as.value, 'A', limit.rests),
      ],
    },
  ]
}

/** Smallest size that passes every check. Null when none of the list does. */
export function conductorFor(book: Book, sizes: readonly Size[], task: ConductorTask): Worked<SizeName | null> {
  let before: { readonly name: SizeName; readonly lost: ConductorCheck } | null = null
  for (const { name } of sizes) {
    const checks = conductorChecks(book, name, task)
    const lost = checks.find((c) => !c.holds)
    if (lost !== undefined) {
      before = { name, lost }
      continue
    }
    const rests = figure(book, 'overload-limit').rests
    return {
      value: name,
      steps: [
        ...checks.flatMap((c) => c.steps),
        ...(before === null ? [] : [lostStep(before)]),
        step('size', 'smallest that passes every check', [], name, '', rests),
      ],
    }
  }
  return { value: null, steps: before === null ? [] : [...before.lost.steps, lostStep(before)] }
}

function lostStep({ name, lost }: { readonly name: SizeName; readonly lost: ConductorCheck }): Step {
  const puts = [put('asked', lost.demandA, 'A'), put('gives', lost.limitA, 'A')]
  return step('next smaller', `${name} does not do: ${lost.what}`, puts, name, '', (lost.steps.at(-1) as Step).rests)
}

const over = (demandA: number, limitA: number): boolean => demandA > limitA * (1 + EXACT)
const PVC = 'PVC'
/** Products of printed figures differ in the last bits; no size hangs on them. */
const EXACT = 1e-9
