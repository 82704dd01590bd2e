import type { SizeName } from '../../job/index.ts'
import { Fault, put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure, numberAt, numberOrNull, rests, rowNotOver, tableOf } from '../common/book.ts'
import { sizeCell } from '../common/size.ts'
import type { Cited, ConductorTask } from '../rule-set.ts'
import type { North } from './spec.ts'

/** Temperature a conductor's insulation may reach, °C. @throws Fault `rules/no-row` for an insulation the set does not know */
export const insulationC = (north: North, insulation: string): Cited<number> =>
  numberAt(north.book, north.insulation, insulation, 'rating')

/** Temperature that the terminals hold the conductor to: as marked, else by the device's rating. */
export function terminalC(north: North, task: ConductorTask): Worked<number> {
  const { book } = north
  const high = figure(book, 'terminal-high')
  if (task.terminalC !== undefined) {
    const marked = Math.min(task.terminalC, 90)
    return {
      value: marked,
      steps: [step('Tt', 'as the terminals are marked', [], marked, '°C', source('marking of the equipment', 'told'))],
    }
  }
  if (task.motor) return { value: high.value, steps: [step('Tt', 'motor circuit', [], high.value, '°C', high.rests)] }
  const to = figure(book, 'terminal-low-to')
  const low = figure(book, 'terminal-low')
  const value = task.deviceA <= to.value ? low : high
  const said = `${task.deviceA <= to.value ? 'up to' : 'over'} ${to.value} A, equipment without a marking`
  return { value: value.value, steps: [step('Tt', said, [put('In', task.deviceA, 'A')], value.value, '°C', value.rests)] }
}

/** Ampacity in the column of a temperature, one conductor, no factors; 0 where the table has none. */
export function columnA(book: Book, size: SizeName, metal: 'cu' | 'al', temperatureC: number): Cited<number> {
  const column = `${metal}${temperatureC}`
  const cell = numberOrNull(book, 'us-ampacity', sizeCell(size), column)
  if (cell !== null) return cell
  if (!tableOf(book, 'us-ampacity').columns.includes(column)) throw new Fault('rules/ampacity-column', column)
  return { value: 0, rests: source(`NEC 310.16, no ${column} value for ${size}`, 'read') }
}

/** Ambient factor: the row that covers the temperature; beyond the table's end nothing may be carried. */
export function ambientFactor(north: North, insulation: number, ambientC: number): Worked<number> {
  const { book } = north
  const at = (symbolC: number, value: number, said: string, from = 'us-ambient'): Worked<number> => {
    const table = tableOf(book, from)
    const row = Math.max(rowNotOver(table, 'ambient_up_to', symbolC), 0)
    return { value, steps: [step('Ca', said, [put('Ta', ambientC, '°C')], value, '', rests(book, table, row, `c${insulation}`))] }
  }
  if (!north.coldRaises) {
    const floor = figure(book, 'no-rise-below')
    if (ambientC <= floor.value) {
      return { value: 1, steps: [step('Ca', `no rise below ${floor.value} °C`, [put('Ta', ambientC, '°C')], 1, '', floor.rests)] }
    }
  }
  const table = tableOf(book, 'us-ambient')
  const row = rowNotOver(table, 'ambient_up_to', ambientC)
  const value = table.rows[row]?.[table.columns.indexOf(`c${insulation}`)]
  if (typeof value !== 'number')
    return at(ambientC, 0, `no factor at this temperature for ${insulation} °C insulation: nothing may be carried`)
  return at(ambientC, value, `row up to ${String(table.rows[row]?.[0])} °C, ${insulation} °C insulation`)
}

/** Factor for more than three current-carrying conductors together. */
export function groupingFactor(north: North, carrying: number): Worked<number> {
  const table = tableOf(north.book, north.grouping)
  const row = rowNotOver(table, 'count_to', carrying)
  const key = String(table.rows[row]?.[0])
  const factor = numberAt(north.book, north.grouping, key, 'factor')
  return {
    value: factor.value,
    steps: [step('Cg', 'current-carrying conductors together', [put('n', carrying)], factor.value, '', factor.rests)],
  }
}

export interface Installed {
  /** Insulation column × ambient × grouping × sets, A. */
  readonly conditionsA: number
  /** Terminal column × sets, no factors, A. */
  readonly terminalA: number
  /** The lesser: what the conductor may carry where it lies and where it ends. */
  readonly value: number
  readonly steps: readonly Step[]
  /** Which of the steps are the terminals'; before them the conditions', after them the lesser of the two. */
  readonly terminalFrom: { readonly from: number; readonly to: number }
}

/**
 * Carrying capacity as installed.
 *
 *   Iz = min( I(insulation) · Ca · Cg , I(terminal) ) · sets
 *
 * @source NEC 310.15, 110.14(C); CE Code Rules 4-004, 4-006. Provenance: per row
 */
export function installed(north: North, size: SizeName, task: ConductorTask): Installed {
  const { book } = north
  const sets = task.sets ?? 1
  const insulation = insulationC(north, task.insulation)
  const base = columnA(book, size, task.metal, insulation.value)
  const ambient = ambientFactor(north, insulation.value, task.ambientC)
  const grouping = groupingFactor(north, task.carrying)
  const terminal = terminalC(north, task)
  const atTerminals = Math.min(terminal.value, insulation.value)
  const end = columnA(book, size, task.metal, atTerminals)
  const conditionsA = base.value * ambient.value * grouping.value * sets
  const terminalA = end.value * sets
  const value = Math.min(conditionsA, terminalA)
  const from = 2 + ambient.steps.length + grouping.steps.length
  return {
    conditionsA,
    terminalA,
    value,
    terminalFrom: { from, to: from + terminal.steps.length + 1 },
    steps: [
      step('I0', `${size} ${task.metal}, ${insulation.value} °C column (${task.insulation})`, [], base.value, 'A', base.rests),
      ...ambient.steps,
      ...grouping.steps,
      step(
        'Ic',
        'I0·Ca·Cg·sets',
        [put('I0', base.value, 'A'), put('Ca', ambient.value), put('Cg', grouping.value), put('sets', sets)],
        conditionsA,
        'A',
        base.rests,
      ),
      ...terminal.steps,
      step('It', `${atTerminals} °C column·sets`, [put('I', end.value, 'A'), put('sets', sets)], terminalA, 'A', end.rests),
      step(
        'Iz',
        'min(Ic, It)',
        [put('Ic', conditionsA, 'A'), put('It', terminalA, 'A')],
        value,
        'A',
        terminal.steps[0]?.rests ?? end.rests,
      ),
    ],
  }
}
