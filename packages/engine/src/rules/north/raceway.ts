import type { SizeName } from '../../job/index.ts'
import { Fault, put, type Source, type Step, step, type Worked } from '../../kernel/index.ts'
import { numberAt, rests, tableOf, wordAt } from '../common/book.ts'
import { sizeCell } from '../common/size.ts'
import type { Cited, RuleSet } from '../rule-set.ts'
import type { North } from './spec.ts'

const MM2_PER_IN2 = 645.16
const ML_PER_IN3 = 16.387064

/** Outside area of an insulated conductor, in². @throws Fault `rules/no-row` for a size or insulation without an area */
export function wireAreaIn2(north: North, wire: { readonly size: SizeName; readonly insulation: string }): Cited<number> {
  const column = wordAt(north.book, north.insulation, wire.insulation, 'area')
  const cell = sizeCell(wire.size)
  if (north.book.set === 'us') return numberAt(north.book, 'us-conductor-area', cell, column.value)
  const mm2 = numberAt(north.book, 'ca-rw90-diameter', cell, column.value)
  return { value: mm2.value / MM2_PER_IN2, rests: mm2.rests }
}

export function wireAreaMm2(north: North, wire: Parameters<typeof wireAreaIn2>[1]): Cited<number> {
  const in2 = wireAreaIn2(north, wire)
  return { value: in2.value * MM2_PER_IN2, rests: in2.rests }
}

/** Sum of the areas and the smallest raceway of a kind that takes them, by the share of its area that their count allows. */
export function racewayFor(
  north: North,
  wires: Parameters<RuleSet['racewayFor']>[0],
  kind: string,
): Worked<string | null> & { readonly areaIn2: number } {
  if (wires.length === 0) throw new Fault('rules/no-wires')
  const table = tableOf(north.book, 'us-conduit')
  if (!table.rows.some((row) => row[0] === kind)) throw new Fault('rules/no-row', { id: 'us-conduit', key: kind })
  const counts = new Map<string, number>()
  for (const w of wires) counts.set(`${w.size}|${w.insulation}`, (counts.get(`${w.size}|${w.insulation}`) ?? 0) + 1)
  const steps: Step[] = []
  let areaIn2 = 0
  for (const [name, count] of counts) {
    const [size = '', insulation = ''] = name.split('|')
    const one = wireAreaIn2(north, { size, insulation })
    areaIn2 += count * one.value
    steps.push(
      step(
        'A',
        `${count} × ${size} ${insulation}`,
        [put('n', count), put('A1', one.value, 'in²')],
        count * one.value,
        'in²',
        one.rests,
      ),
    )
  }
  const fill = fillShare(north, wires.length)
  const neededIn2 = areaIn2 / fill.value
  steps.push(step('A needed', 'ΣA/fill', [put('ΣA', areaIn2, 'in²'), put('fill', fill.value)], neededIn2, 'in²', fill.rests))
  const row = table.rows.findIndex((r) => r[0] === kind && (r[3] as number) * (1 + EXACT) >= neededIn2)
  if (row < 0)
    return { value: null, steps: [...steps, step('raceway', `no ${kind} is large enough`, [], 'none', '', fill.rests)], areaIn2 }
  const trade = String(table.rows[row]?.[1])
  const from = rests(north.book, table, row, 'area100')
  return {
    value: trade,
    areaIn2,
    steps: [
      ...steps,
      step(
        'raceway',
        `smallest ${kind} with that inside area`,
        [put('A100', table.rows[row]?.[3] as number, 'in²')],
        trade,
        'trade size',
        from,
      ),
    ],
  }
}

function fillShare(north: North, count: number): Cited<number> {
  const key = count === 1 ? '1' : count === 2 ? '2' : '3 or more'
  const table = tableOf(north.book, 'us-fill')
  const row = table.rows.findIndex((r) => String(r[0]) === key)
  const percent = numberAt(north.book, 'us-fill', key, 'fill')
  const from: Source =
    north.book.set === 'us' ? rests(north.book, table, row, 'us') : { place: 'CE Code Part I Table 8', provenance: 'memory' }
  return { value: percent.value / 100, rests: from }
}

type BoxTask = Parameters<NonNullable<RuleSet['boxFill']>>[0]

/**
 * Least volume of a box, mL.
 * us: conductors, 2 for a device (of its own wire), 1 for internal clamps and 1 for the first four grounds (largest), ¼ for each more.
 * ca: conductors, 2 for a device, 1 for a pair of connectors; bonding conductors and clamps not counted.
 * @source NEC 314.16(B); CE Code Rule 12-3034, Table 22. Provenance: us read, ca memory
 */
export function boxFill(north: North, task: BoxTask): Worked<number> {
  const us = north.book.set === 'us'
  const each = (size: SizeName): Cited<number> => numberAt(north.book, 'box-fill', sizeCell(size), us ? 'us' : 'ca')
  const unit = us ? 'in³' : 'mL'
  const steps: Step[] = []
  let sum = 0
  const add = (what: string, count: number, size: SizeName): void => {
    if (count === 0) return
    const one = each(size)
    sum += count * one.value
    steps.push(
      step('V', `${what}: ${count} × ${size}`, [put('n', count), put('V1', one.value, unit)], count * one.value, unit, one.rests),
    )
  }
  const bySize = new Map<SizeName, number>()
  for (const size of task.conductors) bySize.set(size, (bySize.get(size) ?? 0) + 1)
  for (const [size, count] of bySize) add('conductors', count, size)
  add('devices', 2 * task.devices, task.deviceWire)
  const largest = largestOf(north, [...task.conductors, task.deviceWire])
  if (us) {
    add('internal clamps', task.clamps ? 1 : 0, largest)
    const firstFour = 4
    const grounds = task.grounds === 0 ? 0 : 1 + Math.max(0, task.grounds - firstFour) / firstFour
    add('grounding conductors', grounds, task.groundSize ?? largest)
  } else add('pairs of connectors', task.connectorPairs ?? 0, largest)
  const value = us ? sum * ML_PER_IN3 : sum
  const last = steps.at(-1)?.rests ?? { place: us ? 'NEC 314.16(B)' : 'CE Code Rule 12-3034', provenance: 'memory' as const }
  return { value, steps: [...steps, step('V box', 'sum', [], sum, unit, last)] }
}

function largestOf(north: North, sizes: readonly SizeName[]): SizeName {
  const order = tableOf(north.book, 'box-fill').rows.map((row) => String(row[0]))
  return sizes.reduce((a, b) => (order.indexOf(String(sizeCell(b))) > order.indexOf(String(sizeCell(a))) ? b : a))
}

export const in3 = (mL: number): number => mL / ML_PER_IN3

/** Sums of printed areas differ in the last bits. */
const EXACT = 1e-9
