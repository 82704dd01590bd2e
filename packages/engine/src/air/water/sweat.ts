import { Fault } from '../../kernel/index.ts'
import { numberIn, rowsOf, type TableId } from '../shelf.ts'

const SWEAT: TableId = 'sweat-stages'
/** Water under a roof from which a code of practice expects drips from a flat underside, kg/m². @source BS 5250:2002, in the notes of table `sweat-stages`. Provenance: memory */
export const DRIP_WARNING_KG_PER_M2 = 0.25
/** Share of it that hangs under a strut line, bolts or edges before it falls. @source common practice */
export const STRUT_HOLDS_FRAC = 0.5

const stageFrom = (stage: number): number => {
  const row = rowsOf(SWEAT).find((one) => one.stage === stage)
  if (row === undefined) throw new Fault('air/no-row', { table: SWEAT, stage })
  return numberIn(row, 'water_from') / 1000
}

/** Water that hangs under a roof until single drops fall, and on a wall until it runs, kg/m². @source table `sweat-stages`, stages 5 and 2 */
export const ROOF_HOLDS_KG_PER_M2 = stageFrom(5)
export const WALL_HOLDS_KG_PER_M2 = stageFrom(3)

/** Stage (0 dry to 6 dripping all the time) of a film on the underside of a roof. @throws Fault `air/film-range` below 0 */
export function sweatStage(filmKgPerM2: number): number {
  if (!(filmKgPerM2 >= 0)) throw new Fault('air/film-range', filmKgPerM2)
  let stage = 0
  for (const row of rowsOf(SWEAT)) if (filmKgPerM2 * 1000 > numberIn(row, 'water_from')) stage = numberIn(row, 'stage')
  return stage
}

/** What falls of a film that a face cannot hold, kg/m²: frost holds on until it melts, water over the threshold goes. */
export const fallsKgPerM2 = (waterKgPerM2: number, holdsKgPerM2: number): number => Math.max(0, waterKgPerM2 - holdsKgPerM2)

/** Nights alike until a film stands at a threshold, when the roof's underside does not dry by day. @throws Fault `air/nights-range` */
export function nightsUntil(holdsKgPerM2: number, rateKgPerM2S: number, nightS: number): number {
  if (!(holdsKgPerM2 >= 0 && nightS > 0) || Number.isNaN(rateKgPerM2S))
    throw new Fault('air/nights-range', { holdsKgPerM2, rateKgPerM2S, nightS })
  return rateKgPerM2S > 0 ? holdsKgPerM2 / (rateKgPerM2S * nightS) : Number.POSITIVE_INFINITY
}
