import type { SizeName } from '../../job/index.ts'
import { Fault, put, type Step, step, type Worked } from '../../kernel/index.ts'
import { figure, numberAt, rests, rowNotOver, tableOf, word } from '../common/book.ts'
import { sizeCell, sizeName } from '../common/size.ts'
import type { RuleSet } from '../rule-set.ts'
import { columnA } from './ampacity.ts'
import type { North } from './spec.ts'

type Task = Parameters<RuleSet['protectiveFor']>[0]

/** The sizes of the ampacity table in order; those of the protective tables are among them. */
const orderOf = (north: North, size: SizeName): number => {
  const at = tableOf(north.book, 'us-ampacity').rows.findIndex((row) => String(row[0]) === String(sizeCell(size)))
  if (at < 0) throw new Fault('rules/no-row', { id: 'us-ampacity', key: size })
  return at
}

function byDevice(
  north: North,
  id: 'us-egc' | 'ca-bonding',
  currentA: number,
  metal: 'cu' | 'al',
  what: string,
): Worked<SizeName> {
  const table = tableOf(north.book, id)
  const row = rowNotOver(table, 'device', currentA)
  const cell = table.rows[row]?.[table.columns.indexOf(metal)]
  if (typeof cell !== 'string') throw new Fault('rules/no-row', { id, key: currentA, column: metal })
  const value = sizeName(cell)
  return {
    value,
    steps: [
      step(
        'PE',
        `by ${what}, not over ${String(table.rows[row]?.[0])} A`,
        [put('I', currentA, 'A')],
        value,
        '',
        rests(north.book, table, row, metal),
      ),
    ],
  }
}

/** Never larger than the conductors of the circuit. */
function notLarger(north: North, pe: Worked<SizeName>, line: SizeName): Worked<SizeName> {
  if (orderOf(north, pe.value) <= orderOf(north, line)) return pe
  const last = pe.steps.at(-1) as Step
  return {
    value: line,
    steps: [...pe.steps, step('PE', 'need not be larger than the circuit conductors', [put('line', line)], line, '', last.rests)],
  }
}

/**
 * Equipment grounding conductor by the device, grown with the line conductors in the ratio of circular mils.
 *
 *   area ≥ area(table) · area(line) / area(line the load asked for)
 *
 * @source NEC Table 250.122, 250.122(B). Provenance: per row
 */
export function groundingFor(north: North, task: Task): Worked<SizeName> {
  const base = byDevice(north, 'us-egc', task.deviceA, task.metal, 'the device')
  if (orderOf(north, task.line) <= orderOf(north, task.grownFrom)) return notLarger(north, base, task.line)
  const mils = (size: SizeName) => numberAt(north.book, 'us-dc-resistance', sizeCell(size), 'area')
  const ratio = mils(task.line).value / mils(task.grownFrom).value
  const wanted = ratio * mils(base.value).value
  const table = tableOf(north.book, 'us-dc-resistance')
  const row = table.rows.find(
    (r) => (r[1] as number) >= wanted * (1 - EXACT) && Number.isFinite(r[1] as number) && !/^1[68]$/.test(String(r[0])),
  )
  if (row === undefined) throw new Fault('rules/no-row', { id: 'us-dc-resistance', wanted })
  const value = sizeName(String(row[0]))
  const puts = [
    put('A line', mils(task.line).value, 'cmil'),
    put('A load asked', mils(task.grownFrom).value, 'cmil'),
    put('A table', mils(base.value).value, 'cmil'),
  ]
  const grown = step('PE', 'grown in proportion of circular mils', puts, value, '', {
    place: 'NEC 250.122(B)',
    provenance: 'memory',
  })
  return notLarger(north, { value, steps: [...base.steps, grown] }, task.line)
}

/** Bonding conductor by the device, or by the ampacity of the line conductor where that was made larger. @source CE Code Table 16, Rule 10-616 */
export function bondingFor(north: North, task: Task): Worked<SizeName> {
  const base = byDevice(north, 'ca-bonding', task.deviceA, task.metal, 'the device')
  if (orderOf(north, task.line) <= orderOf(north, task.grownFrom)) return notLarger(north, base, task.line)
  const high = figure(north.book, 'terminal-high')
  const ampacity = columnA(north.book, task.line, task.metal, high.value)
  const grown = byDevice(
    north,
    'ca-bonding',
    Math.max(ampacity.value, task.deviceA),
    task.metal,
    'the ampacity of the larger conductor (Rule 10-616(3)(b))',
  )
  return notLarger(
    north,
    {
      value: grown.value,
      steps: [...base.steps, step('I', `ampacity of ${task.line}`, [], ampacity.value, 'A', ampacity.rests), ...grown.steps],
    },
    task.line,
  )
}

/** Grounding electrode conductor by the largest line conductor, no larger than its electrode can use. @source NEC 250.66 */
export function groundingElectrodeFor(north: North, task: Parameters<RuleSet['electrodeConductorFor']>[0]): Worked<SizeName> {
  const table = tableOf(north.book, 'us-gec')
  const at = orderOf(north, task.line)
  const row = table.rows.findIndex((r) => {
    const upTo = String(r[task.metal === 'cu' ? 0 : 1])
    return upTo.startsWith('over') || at <= upToOrder(north, upTo)
  })
  const column = `gec_${task.metal}`
  const cell = String(table.rows[row]?.[table.columns.indexOf(column)])
  const byTable = sizeName(cell)
  const limit = word(north.book, `grounding-to-${task.electrode}-${task.metal}`)
  const most = sizeName(limit.value)
  const value = orderOf(north, byTable) <= orderOf(north, most) ? byTable : most
  return {
    value,
    steps: [
      step('GEC', 'by the largest line conductor', [put('line', task.line)], byTable, '', rests(north.book, table, row, column)),
      step('GEC', `need not be larger for ${task.electrode}`, [put('most', most)], value, '', limit.rests),
    ],
  }
}

/** A step of the table may name a size that is not in the ampacity list (1750 kcmil): the last one below it. */
function upToOrder(north: North, cell: string): number {
  const rows = tableOf(north.book, 'us-ampacity').rows
  const exact = rows.findIndex((row) => String(row[0]) === cell)
  return exact >= 0 ? exact : rows.length - 1
}

/** A product of printed areas that means a printed area. */
const EXACT = 1e-9
