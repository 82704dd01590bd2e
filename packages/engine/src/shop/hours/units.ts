import { Fault } from '../../kernel/index.ts'
import { amount, FOOT_M } from '../figures.ts'
import type { Hours, Trade } from '../result.ts'
import { tables } from '../tables.generated.ts'

export type LabourItem = (typeof tables)['labour']['rows'][number][0]
export type ShopItem = (typeof tables)['shop-hours']['rows'][number][0]

/** Hours of one, or of one metre, from the installation table. @throws Fault `shop/no-unit` */
export function labourEach(item: LabourItem): number {
  const row = tables.labour.rows.find(([one]) => one === item)
  if (row === undefined) throw new Fault('shop/no-unit', item)
  return row[2].startsWith('100 ft') ? row[1] / (100 * FOOT_M) : row[1]
}

/** @throws Fault `shop/no-unit` */
export function shopEach(item: ShopItem): { readonly trade: Trade; readonly hours: number; readonly per: string } {
  const row = tables['shop-hours'].rows.find(([one]) => one === item)
  if (row === undefined) throw new Fault('shop/no-unit', item)
  return { trade: row[1], hours: row[2], per: row[3] }
}

const INCH_TRADES = ['1/2', '3/4', '1', '1-1/4', '1-1/2', '2', '2-1/2', '3', '3-1/2', '4']
const METRIC_TRADES = ['16 mm', '20 mm', '25 mm', '32 mm', '40 mm', '50 mm', '63 mm', '75 mm', '90 mm', '110 mm']
const FAMILY: Readonly<Record<string, string>> = {
  EMT: 'EMT',
  conduit: 'EMT',
  RMC: 'RMC',
  IMC: 'RMC',
  'PVC 40': 'PVC40',
  'PVC 80': 'PVC40',
}

/** Row that stands for a raceway: of its family, its own size or the next larger printed; beyond the table the largest. */
export function racewayItem(kind: string, trade: string): LabourItem {
  const family = FAMILY[kind] ?? 'RMC'
  const rank = (t: string) => Math.max(INCH_TRADES.indexOf(t), METRIC_TRADES.indexOf(t))
  const rows = tables.labour.rows.flatMap(([item]) => {
    const [word, size] = item.split(' ')
    return word === family && size !== undefined ? [{ item, rank: rank(size) }] : []
  })
  return (rows.find((r) => r.rank >= rank(trade)) ?? rows[rows.length - 1]!).item
}

/** Areas of the wire sizes that the table prints. @source NEC Chapter 9 Table 8. Provenance: memory */
const WIRES: readonly (readonly [LabourItem, number])[] = [
  ['wire 12 AWG', 3.31],
  ['wire 10', 5.26],
  ['wire 8', 8.37],
  ['wire 6', 13.3],
  ['wire 4', 21.15],
  ['wire 2', 33.62],
  ['wire 1/0', 53.49],
  ['wire 4/0', 107.2],
  ['wire 500 kcmil', 253.4],
]

/** Row that stands for a wire: its own area or the next larger printed; beyond the table the largest. */
export const wireItem = (areaMm2: number): LabourItem =>
  (WIRES.find(([, area]) => area >= areaMm2 * 0.99) ?? WIRES[WIRES.length - 1]!)[0]

/** How the middle, low and high of a line come from one figure of a table. */
export interface Spread {
  readonly low: number
  readonly middle: number
  readonly high: number
}

/**
 * Factors on a unit of the table.
 *
 *   without the shop's own factor: middle c, low c low/√2, high c high·√2 — two books differ by 2
 *   with it: middle c·f, ± 20 %; a factor of 1 is one that nobody has counted yet
 *
 * c: the space is congested, 1.15 to 1.30, for installation; 1 for work outside it.
 * @source units of two books differ by a factor of two. Provenance: common practice
 */
export function spreadOf(own: number | undefined, congested: boolean): Spread {
  if (own !== undefined && !(own > 0 && own < 100)) throw new Fault('shop/factor-range', own)
  const [low, high] = congested ? [amount('congested low'), amount('congested high')] : [1, 1]
  const middle = (low + high) / 2
  if (own !== undefined && own !== 1) {
    const by = amount('own factor spread')
    return { low: middle * own * (1 - by), middle: middle * own, high: middle * own * (1 + by) }
  }
  const apart = Math.sqrt(amount('books apart'))
  return { low: low / apart, middle, high: high * apart }
}

export const hoursOf = (quantity: number, each: number, s: Spread): Hours => ({
  low: quantity * each * s.low,
  middle: quantity * each * s.middle,
  high: quantity * each * s.high,
})

export const sumHours = (all: readonly Hours[]): Hours => ({
  low: all.reduce((sum, h) => sum + h.low, 0),
  middle: all.reduce((sum, h) => sum + h.middle, 0),
  high: all.reduce((sum, h) => sum + h.high, 0),
})
