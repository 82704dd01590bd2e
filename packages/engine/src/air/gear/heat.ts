import { Fault } from '../../kernel/index.ts'
import { numberIn, rowsOf } from '../shelf.ts'

/** Heat of conductors or contacts by their current, W: I²·R of all poles together. @throws Fault `air/heat-range` */
export function currentHeatW(currentA: number, resistanceOhm: number, polesCount: number): number {
  if (!(currentA >= 0 && resistanceOhm >= 0 && polesCount >= 1))
    throw new Fault('air/heat-range', { currentA, resistanceOhm, polesCount })
  return currentA * currentA * resistanceOhm * polesCount
}

/**
 * Heat of a breaker under a current, W: highest loss a pole of table `breaker-loss` · (I/In)² · poles. An upper end; makers state about two
 * thirds. Sizes over the table: its last row, grown with the rating.
 * @throws Fault `air/heat-range`
 * @source IEC 60898-1. Provenance: memory
 */
export function breakerHeatW(ratedA: number, currentA: number, polesCount: number): number {
  if (!(ratedA > 0 && currentA >= 0 && polesCount >= 1)) throw new Fault('air/heat-range', { ratedA, currentA, polesCount })
  const rows = rowsOf('breaker-loss')
  const row = rows.find((one) => numberIn(one, 'rated_up_to') >= ratedA)
  const last = rows.at(-1)!
  const poleW = row === undefined ? (numberIn(last, 'loss') * ratedA) / numberIn(last, 'rated_up_to') : numberIn(row, 'loss')
  const share = currentA / ratedA
  return poleW * share * share * polesCount
}

/** Heat of a transformer, W: no-load loss, and load loss by the square of the load. @throws Fault `air/heat-range` */
export function transformerHeatW(noLoadW: number, loadW: number, loadFrac: number): number {
  if (!(noLoadW >= 0 && loadW >= 0 && loadFrac >= 0)) throw new Fault('air/heat-range', { noLoadW, loadW, loadFrac })
  return noLoadW + loadW * loadFrac * loadFrac
}

/** Heat that steel and copper keep, J/K: 480 J/kgK. @throws Fault `air/heat-range` @source common practice */
export function gearHeatJPerK(massKg: number): number {
  if (!(massKg >= 0)) throw new Fault('air/heat-range', massKg)
  return massKg * METAL_J_PER_KG_K
}
const METAL_J_PER_KG_K = 480
/** Panel and strut of 300 kg to the room's air, W/K; grows with the surface. @source common practice */
export const GEAR_TO_AIR_W_PER_K = 30
