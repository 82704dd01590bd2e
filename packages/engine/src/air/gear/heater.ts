import { Fault } from '../../kernel/index.ts'
import { numberIn, rowOf } from '../shelf.ts'

/**
 * Heater that holds a room over the outside, W: ΔT·(ΣU·A + ρc·Q). A bare 20 ft box takes some 400 W a kelvin: heat the cabinet, not the room.
 * @throws Fault `air/heater-range`
 * @source steady balance. Provenance: computed
 */
export function roomHeaterW(riseK: number, lossWPerK: number, airM3PerH: number, heatWhPerM3K: number): number {
  if (!(riseK >= 0 && lossWPerK >= 0 && airM3PerH >= 0 && heatWhPerM3K >= 0))
    throw new Fault('air/heater-range', { riseK, lossWPerK, airM3PerH, heatWhPerM3K })
  return riseK * (lossWPerK + heatWhPerM3K * airM3PerH)
}

/** Loss of a cabinet's surface, W/m²K, table `heater-k`. @throws Fault `air/no-row` */
export const cabinetWPerM2K = (material: string): number => numberIn(rowOf('heater-k', material), 'k')

const OUTDOORS = 2

/**
 * Heater of a cabinet by the makers' rule, W: A·k·ΔT less its own heat, outdoors twice A·k·ΔT less it; never below 0.
 * @throws Fault `air/heater-range`
 * @source enclosure makers' calculation sheets, table `heater-k`. Provenance: read
 */
export function cabinetHeaterW(of: {
  readonly areaM2: number
  readonly lossWPerM2K: number
  readonly riseK: number
  readonly ownHeatW: number
  readonly outdoors: boolean
}): number {
  if (!(of.areaM2 > 0 && of.lossWPerM2K > 0 && of.riseK >= 0 && of.ownHeatW >= 0)) throw new Fault('air/heater-range', of)
  return Math.max(0, of.areaM2 * of.lossWPerM2K * of.riseK * (of.outdoors ? OUTDOORS : 1) - of.ownHeatW)
}

/** Heat is wanted: colder than the setting, or within a margin of the dew point. Null: no humidistat. */
export const heaterWanted = (gearC: number, dewC: number, onBelowC: number, dewMarginK: number | null): boolean =>
  gearC < onBelowC || (dewMarginK !== null && gearC < dewC + dewMarginK)

/** Outside air dries the box: it holds less water by this margin, 0.3 g/kg (common practice). */
export const DRIER_KG_PER_KG = 0.0003
export const outsideDries = (outsideKgPerKg: number, insideKgPerKg: number, marginKgPerKg: number): boolean =>
  outsideKgPerKg < insideKgPerKg - marginKgPerKg
