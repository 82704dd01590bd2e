import { Fault, put, step } from '../../kernel/index.ts'
import { figure, numberAt, numberOrNull, rowIndex, tableOf, word } from '../common/book.ts'
import { sizeCell } from '../common/size.ts'
import type { RuleSet } from '../rule-set.ts'
import type { North } from './spec.ts'

/** Which columns of Table 9 a raceway is read in. */
const WALL: Readonly<Record<string, 'steel' | 'pvc' | 'al_conduit'>> = {
  EMT: 'steel',
  IMC: 'steel',
  RMC: 'steel',
  steel: 'steel',
  'PVC 40': 'pvc',
  'PVC 80': 'pvc',
  PVC: 'pvc',
  conduit: 'steel',
  tray: 'pvc',
  air: 'pvc',
  cable: 'pvc',
  aluminium: 'al_conduit',
}
const M_PER_KFT = 304.8

/**
 * Resistance and reactance of one conductor at a temperature.
 *
 *   R(T) = R75 · (1 + α·(T − 75))
 *
 * Small sizes by their d.c. resistance (three printed digits), larger ones by the a.c. table, never under the d.c. value. A cord takes
 * the d.c. value and the reactance of a round cord.
 * @throws Fault `rules/where` for a place the table has no column for · `rules/no-row` for a size it does not have
 * @source NEC Chapter 9 Tables 8 and 9. Provenance: per row
 */
export function impedanceOhmPerM(
  north: North,
  wire: Parameters<RuleSet['impedanceOhmPerM']>[0],
): ReturnType<RuleSet['impedanceOhmPerM']> {
  const { book } = north
  const cell = sizeCell(wire.size)
  const dc = numberAt(book, 'us-dc-resistance', cell, wire.metal)
  const alpha = figure(book, wire.metal === 'cu' ? 'resistance-copper' : 'resistance-aluminium')
  const at = figure(book, 'resistance-at')
  const cord = wire.where === 'cord'
  const wall = WALL[wire.where]
  if (!cord && wall === undefined) throw new Fault('rules/where', wire.where)
  const ac = cord || !skinMatters(north, cell) ? null : numberOrNull(book, 'us-ac-impedance', cell, `${wire.metal}_${wall}`)
  const r75 = ac !== null && ac.value > dc.value ? ac : dc
  const x = cord
    ? figure(book, 'cord-reactance')
    : numberAt(book, 'us-ac-impedance', cell, wall === 'steel' ? 'x_steel' : 'x_pvc_al')
  const hot = 1 + alpha.value * (wire.temperatureC - at.value)
  if (!(hot > 0)) throw new Fault('rules/temperature', wire)
  const r = (r75.value / M_PER_KFT) * hot
  const xm = x.value / M_PER_KFT
  return {
    value: { r, x: xm },
    steps: [
      step('R75', `${wire.size} ${wire.metal}, ohm per 1000 ft`, [], r75.value, 'Ω/kft', r75.rests),
      step(
        'r',
        'R75/304.8·(1 + α·(T − T0))',
        [put('α', alpha.value, '1/K'), put('T', wire.temperatureC, '°C'), put('T0', at.value, '°C')],
        r,
        'Ω/m',
        alpha.rests,
      ),
      step('x', 'X/304.8', [put('X', x.value, 'Ω/kft')], xm, 'Ω/m', x.rests),
    ],
  }
}

function skinMatters(north: North, cell: string | number): boolean {
  const table = tableOf(north.book, 'us-dc-resistance')
  return rowIndex(table, cell) >= rowIndex(table, word(north.book, 'skin-from').value)
}
