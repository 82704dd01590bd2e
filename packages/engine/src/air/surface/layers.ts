import { Fault } from '../../kernel/index.ts'
import { between, numberIn, rowOf, rowsOf } from '../shelf.ts'

/** Resistance of one layer across it, m²K/W. @throws Fault `air/layer-range` */
export function layerM2KPerW(thicknessM: number, conductsWPerMK: number): number {
  if (!(thicknessM >= 0 && conductsWPerMK > 0 && thicknessM < Number.POSITIVE_INFINITY))
    throw new Fault('air/layer-range', { thicknessM, conductsWPerMK })
  return thicknessM / conductsWPerMK
}

/** A material of table `materials`. Vapour resistance in still air's; null where it hangs on the moisture. */
export function material(name: string): {
  readonly conductsWPerMK: number
  readonly densityKgPerM3: number
  readonly heatJPerKgK: number
  readonly vapourRatio: number | null
} {
  const row = rowOf('materials', name)
  return {
    conductsWPerMK: numberIn(row, 'k'),
    densityKgPerM3: numberIn(row, 'rho'),
    heatJPerKgK: numberIn(row, 'c'),
    vapourRatio: typeof row.mu === 'number' ? row.mu : null,
  }
}

/**
 * U of layers in a row between two films, W/m²K: 1/(R inside + ΣR + R outside).
 * @throws Fault `air/layer-range`
 * @source ISO 6946, 6.7.1. Provenance: memory
 */
export function layeredUWPerM2K(insideM2KPerW: number, layersM2KPerW: readonly number[], outsideM2KPerW: number): number {
  const all = [insideM2KPerW, ...layersM2KPerW, outsideM2KPerW]
  const sum = all.reduce((total, one) => total + one, 0)
  if (!(all.every((one) => one >= 0) && sum > 0 && sum < Number.POSITIVE_INFINITY)) throw new Fault('air/layer-range', all)
  return 1 / sum
}

/** Share of an area and its own U or resistance. */
export interface Bridge {
  readonly areaFrac: number
  readonly uWPerM2K: number
}

/**
 * Mean U of paths side by side, W/m²K: ΣfU. The upper limit of resistance turned round: heat takes the bare steel's road alone. What of it also
 * spreads sideways in the sheet lies above this.
 * @throws Fault `air/bridge-range` unless the shares make 1
 * @source ISO 6946, 6.7.2.3, upper limit. Provenance: memory
 */
export function bridgedUWPerM2K(paths: readonly Bridge[]): number {
  const share = paths.reduce((sum, one) => sum + one.areaFrac, 0)
  if (!(Math.abs(share - 1) < 1e-9 && paths.every((one) => one.areaFrac >= 0 && one.uWPerM2K >= 0)))
    throw new Fault('air/bridge-range', paths)
  return paths.reduce((sum, one) => sum + one.areaFrac * one.uWPerM2K, 0)
}

/** Which way heat goes through it. */
export type HeatWay = 'up' | 'horizontal' | 'down'

/** Resistance of a shut air layer, both faces of emittance 0.9, m²K/W; straight between the printed thicknesses. 0 to 0.3 m. @throws Fault `air/layer-range` */
export function airLayerM2KPerW(thicknessM: number, way: HeatWay): number {
  const rows = rowsOf('air-layers')
  const mm = thicknessM * 1000
  const xs = rows.map((row) => numberIn(row, 'thickness'))
  if (!(mm >= xs[0]! && mm <= xs.at(-1)!)) throw new Fault('air/layer-range', thicknessM)
  return between(
    xs,
    rows.map((row) => numberIn(row, way)),
    mm,
  )
}

/** Film resistances of the codes, for U on paper only: the hourly run works out its films. */
export function codeFilmM2KPerW(standard: 'ISO 6946' | 'ASHRAE', place: string, direction: string): number {
  return numberIn(rowOf('film-coefficients', { standard, place, direction }), 'R')
}
