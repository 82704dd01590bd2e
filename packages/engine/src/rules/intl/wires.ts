import type { SizeName } from '../../job/index.ts'
import { Fault, put, step, type Worked } from '../../kernel/index.ts'
import { type Book, cellAt, figure, numberAt, numberOrNull, rests, rowNotOver, tableOf } from '../common/book.ts'
import { sizeCell, sizeName } from '../common/size.ts'
import type { Cited, RuleSet, Size } from '../rule-set.ts'

const M_PER_KM = 1000

/**
 * Resistance and reactance of one conductor: R(T) = R20·(1 + α·(T − 20)), class 2 in fixed wiring, class 5 in cords.
 * @throws Fault `rules/no-row` for a size or metal the table does not have
 * @source IEC 60228 Tables 2 and 3; reactance common practice. Provenance: per row
 */
export function impedanceOhmPerM(
  book: Book,
  wire: Parameters<RuleSet['impedanceOhmPerM']>[0],
): ReturnType<RuleSet['impedanceOhmPerM']> {
  if (wire.metal !== 'cu') throw new Fault('rules/no-row', { id: 'intl-conductor-r', column: wire.metal })
  const r20 = numberAt(
    book,
    'intl-conductor-r',
    sizeCell(wire.size),
    wire.where === 'cord' ? 'class5_flexible' : 'class2_stranded',
  )
  const [alpha, at, x] = [figure(book, 'resistance-copper'), figure(book, 'resistance-at'), figure(book, 'reactance')]
  const hot = 1 + alpha.value * (wire.temperatureC - at.value)
  if (!(hot > 0)) throw new Fault('rules/temperature', wire)
  const r = (r20.value / M_PER_KM) * hot
  const xm = x.value / M_PER_KM
  return {
    value: { r, x: xm },
    steps: [
      step('R20', `${wire.size} copper, ohm per km`, [], r20.value, 'Ω/km', r20.rests),
      step(
        'r',
        'R20/1000·(1 + α·(T − T0))',
        [put('α', alpha.value, '1/K'), put('T', wire.temperatureC, '°C'), put('T0', at.value, '°C')],
        r,
        'Ω/m',
        alpha.rests,
      ),
      step('x', 'X/1000', [put('X', x.value, 'mΩ/m')], xm, 'Ω/m', x.rests),
    ],
  }
}

/** Cord ampacity by the cord table and the ambient factor of its insulation; the cold does not raise it. @source DIN VDE 0298-4. Provenance: per row */
export function cordAmpacityA(book: Book, cord: Parameters<RuleSet['cordAmpacityA']>[0]): Worked<number> {
  const rating = numberAt(book, 'cord-jackets', cord.type, 'rating')
  const base = numberAt(book, 'intl-cord-ampacity', sizeCell(cord.size), cord.loaded === 3 ? 'three_loaded' : 'two_loaded')
  const table = tableOf(book, 'intl-cord-ambient')
  const row = rowNotOver(table, 'ambient', cord.ambientC)
  const factor = row < 0 ? 0 : (table.rows[row]?.[1] as number)
  const from = rests(book, table, row < 0 ? table.rows.length - 1 : row, 'factor')
  const value = base.value * factor
  return {
    value,
    steps: [
      step('I0', `${cord.size} ${cord.type}, ${cord.loaded} loaded`, [], base.value, 'A', base.rests),
      step(
        'Tc',
        'temperature rating of the cord; its ambient factor is taken as for 60 °C, the lowest',
        [],
        rating.value,
        '°C',
        rating.rests,
      ),
      step(
        'Ca',
        row < 0 ? 'beyond the table: nothing may be carried' : `row ${String(table.rows[row]?.[0])} °C`,
        [put('Ta', cord.ambientC, '°C')],
        factor,
        '',
        from,
      ),
      step('Iz', 'I0·Ca', [put('I0', base.value, 'A'), put('Ca', factor)], value, 'A', base.rests),
    ],
  }
}

export const cordSizes = (book: Book): readonly SizeName[] =>
  tableOf(book, 'intl-cord-ampacity').rows.map((row) => sizeName(row[0] as number))

/** Protective conductor by the line conductor: S to 16 mm², 16 to 35 mm², then half, the next standard size up. @source IEC 60364-5-54 Table 54.2 */
export function protectiveFor(book: Book, sizes: readonly Size[], line: SizeName): Worked<SizeName> {
  const table = tableOf(book, 'intl-pe')
  const s = Number(sizeCell(line))
  const at = s <= 16 ? 0 : s <= 35 ? 1 : 2
  const cell = String(table.rows[at]?.[1])
  const wanted = cell === 'S' ? s : cell === 'S/2' ? s / 2 : Number(cell)
  const value = sizes.find((size) => size.areaMm2 >= wanted)?.name
  if (value === undefined) throw new Fault('rules/no-row', { id: 'intl-pe', line })
  const puts = [put('S', s, 'mm²'), put('wanted', wanted, 'mm²')]
  return {
    value,
    steps: [
      step('PE', `${String(table.rows[at]?.[0])}: ${cell}, next standard size`, puts, value, '', rests(book, table, at, 'pe')),
    ],
  }
}

/** Earthing conductor: the protective conductor's rule, and what ground asks of copper: 25 mm² bare in it, 16 mm² protected to the rod. */
export function earthConductorFor(
  book: Book,
  sizes: readonly Size[],
  task: Parameters<RuleSet['electrodeConductorFor']>[0],
): Worked<SizeName> {
  const pe = protectiveFor(book, sizes, task.line)
  const least = figure(book, task.electrode === 'ring' ? 'earth-conductor-bare' : 'earth-conductor-protected')
  const value = Number(sizeCell(pe.value)) >= least.value ? pe.value : sizeName(least.value)
  return {
    value,
    steps: [
      ...pe.steps,
      step('earthing conductor', 'at least, in ground', [put('least', least.value, 'mm²')], value, '', least.rests),
    ],
  }
}

/** k from the table of the standard: line conductors, or a cord by its insulation. @throws Fault `rules/no-row` */
export function adiabaticK(book: Book, wire: { readonly metal: 'cu' | 'al'; readonly insulation: string }): Worked<number> {
  const named = cellAt(book, 'intl-insulation', wire.insulation, 'k_row')
  const row = named === null ? cordKRow(book, wire.insulation) : String(named.value)
  const conductor = wire.metal === 'cu' ? 'copper' : 'aluminium'
  const table = tableOf(book, 'intl-k')
  const at = table.rows.findIndex(
    (r) => r[0] === conductor && sameInsulation(String(r[1]), row) && String(r[2]).startsWith('phase'),
  )
  const k = table.rows[at]?.[table.columns.indexOf('k')]
  if (typeof k !== 'number') throw new Fault('rules/no-row', { id: 'intl-k', key: wire })
  return { value: k, steps: [step('k', `${conductor}, ${row}`, [], k, 'A√s/mm²', rests(book, table, at, 'k'))] }
}

function cordKRow(book: Book, type: string): string {
  const final = numberOrNull(book, 'cord-jackets', type, 'final')
  if (final === null) throw new Fault('rules/no-row', { id: 'intl-insulation, cord-jackets', key: type })
  return final.value >= RUBBER_FINAL_C ? 'rubber 60 C' : 'PVC up to 300 mm2'
}

const sameInsulation = (printed: string, wanted: string): boolean =>
  printed === wanted || (wanted.startsWith('PVC') && printed === 'PVC') || (wanted.startsWith('XLPE') && printed === 'XLPE')

/** Outside area of an insulated conductor by its diameter. */
export function wireAreaMm2(book: Book, wire: { readonly size: SizeName }): Cited<number> {
  const d = numberAt(book, 'intl-conductor-diameter', sizeCell(wire.size), 'd')
  return { value: circleMm2(d.value), rests: d.rests }
}

/** Smallest conduit whose inside, times the space factor, takes the conductors. Cable tray takes anything. @source EN 61386; factor common practice */
export function racewayFor(book: Book, wires: Parameters<RuleSet['racewayFor']>[0], kind: string): Worked<string | null> {
  if (wires.length === 0) throw new Fault('rules/no-wires')
  if (kind === 'tray')
    return {
      value: 'tray',
      steps: [
        step('raceway', 'cable tray: no share of a cross-section', [], 'tray', '', { place: 'IEC 61537', provenance: 'memory' }),
      ],
    }
  if (kind !== 'conduit') throw new Fault('rules/no-row', { id: 'intl-conduit', key: kind })
  const areas = wires.map((w) => numberAt(book, 'intl-conductor-diameter', sizeCell(w.size), 'd'))
  const areaMm2 = areas.reduce((sum, d) => sum + circleMm2(d.value), 0)
  const fill = figure(book, 'raceway-fill')
  const neededMm2 = areaMm2 / (fill.value / 100)
  const table = tableOf(book, 'intl-conduit')
  const at = table.rows.findIndex((row) => circleMm2(row[1] as number) >= neededMm2)
  const first = areas[0]?.rests ?? fill.rests
  const steps = [
    step('ΣA', `${wires.length} conductors, π/4·d²`, [], areaMm2, 'mm²', first),
    step('A needed', 'ΣA/fill', [put('fill', fill.value, '%')], neededMm2, 'mm²', fill.rests),
  ]
  if (at < 0) return { value: null, steps: [...steps, step('raceway', 'no conduit is large enough', [], 'none', '', fill.rests)] }
  const trade = String(table.rows[at]?.[0])
  return {
    value: trade,
    steps: [
      ...steps,
      step(
        'raceway',
        'smallest conduit with that inside area',
        [put('d', table.rows[at]?.[1] as number, 'mm')],
        trade,
        '',
        rests(book, table, at, 'd'),
      ),
    ],
  }
}

const circleMm2 = (dMm: number): number => (Math.PI / 4) * dMm * dMm
/** Rubber may reach 200 °C at a short circuit, PVC 160 °C (table intl-k). */
const RUBBER_FINAL_C = 200
