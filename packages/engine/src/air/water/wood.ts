import { Fault } from '../../kernel/index.ts'

/** The handbook's curves are for −1 to 49 °C; outside they are held at these ends. */
const COLDEST_C = -1.1
const HOTTEST_C = 48.9
/** Wettest air that the curves are read at: above, wood takes up liquid water. */
const WETTEST = 0.995

/**
 * Moisture of solid wood in balance with air, % of its dry mass:
 *
 *   M = 1800/W·[Kh/(1 − Kh) + (K₁Kh + 2K₁K₂K²h²)/(1 + K₁Kh + K₁K₂K²h²)]
 *
 * Temperature held to −1.1 … 48.9 °C, humidity to 99.5 %. Plywood lies 1 to 2 points lower, drying wood about 2 points higher (memory).
 * @throws Fault `air/wood-range`
 * @source Forest Products Laboratory, Wood Handbook FPL-GTR-190, eq. 4-5. Provenance: read
 */
export function woodMoisturePct(woodC: number, relativeFrac: number): number {
  if (!(relativeFrac >= 0) || Number.isNaN(woodC)) throw new Fault('air/wood-range', { woodC, relativeFrac })
  const t = Math.min(Math.max(woodC, COLDEST_C), HOTTEST_C)
  const w = 349 + t * (1.29 + t * 0.0135)
  const k = 0.805 + t * (0.000736 - t * 0.00000273)
  const k1 = 6.27 - t * (0.00938 + t * 0.000303)
  const k2 = 1.91 + t * (0.0407 - t * 0.000293)
  const x = k * Math.min(relativeFrac, WETTEST)
  const one = k1 * x
  const two = k1 * k2 * x * x
  return (1800 / w) * (x / (1 - x) + (one + 2 * two) / (1 + one + two))
}

/** Rise of `woodMoisturePct` with humidity, % per 1. @throws Fault `air/wood-range` */
export function woodMoistureSlopePct(woodC: number, relativeFrac: number): number {
  if (!(relativeFrac >= 0) || Number.isNaN(woodC)) throw new Fault('air/wood-range', { woodC, relativeFrac })
  const t = Math.min(Math.max(woodC, COLDEST_C), HOTTEST_C)
  const w = 349 + t * (1.29 + t * 0.0135)
  const k = 0.805 + t * (0.000736 - t * 0.00000273)
  const k1 = 6.27 - t * (0.00938 + t * 0.000303)
  const k2 = 1.91 + t * (0.0407 - t * 0.000293)
  const x = k * Math.min(relativeFrac, WETTEST)
  const one = k1 * x
  const two = k1 * k2 * x * x
  const below = 1 + one + two
  const first = 1 / ((1 - x) * (1 - x))
  const second = ((k1 + 4 * k1 * k2 * x) * below - (one + 2 * two) * (k1 + 2 * k1 * k2 * x)) / (below * below)
  return ((1800 * k) / w) * (first + second)
}

const STEPS = 9

/**
 * Humidity with which wood of this moisture stands in balance, 0 to 0.995: the curve turned round. Newton from `startFrac` (that of the step
 * before serves), nine steps, each held to half the way to an end.
 * @throws Fault `air/wood-range`
 */
export function woodHumidityFrac(woodC: number, moisturePct: number, startFrac = 0.6): number {
  if (!(moisturePct >= 0)) throw new Fault('air/wood-range', { woodC, moisturePct })
  if (moisturePct >= woodMoisturePct(woodC, WETTEST)) return WETTEST
  let h = Math.min(Math.max(startFrac, 0.01), WETTEST)
  for (let n = 0; n < STEPS; n++) {
    const next = h - (woodMoisturePct(woodC, h) - moisturePct) / woodMoistureSlopePct(woodC, h)
    h = next > WETTEST ? (h + WETTEST) / 2 : next < 0 ? h / 2 : next
  }
  return h
}

/** How the floor's layers resist vapour. */
export interface FloorVapour {
  readonly topM: number
  readonly thicknessM: number
  /** Wood against still air, μ. */
  readonly vapourResistanceRatio: number
  /** Paint or resin face: factor on the top's resistance; 1 none, 10 painted (common practice). */
  readonly paintedRatio: number
}

/**
 * Vapour conductance from air to the middle of the top layer, kg/(m²·s·Pa): film and half the top layer in a row.
 * @throws Fault `air/floor-range`
 */
export function floorTopKgPerM2SPa(floor: FloorVapour, filmKgPerM2SPa: number, airKgPerMSPa: number): number {
  if (!(filmKgPerM2SPa > 0 && airKgPerMSPa > 0 && floor.topM > 0)) throw new Fault('air/floor-range', { floor, filmKgPerM2SPa })
  const half = (floor.topM / 2) * (floor.vapourResistanceRatio / airKgPerMSPa) * floor.paintedRatio
  return 1 / (1 / filmKgPerM2SPa + half)
}

/** The same between the middles of the top layer and of the rest. @throws Fault `air/floor-range` */
export function floorInnerKgPerM2SPa(floor: FloorVapour, airKgPerMSPa: number): number {
  if (!(floor.thicknessM > floor.topM && airKgPerMSPa > 0)) throw new Fault('air/floor-range', floor)
  return airKgPerMSPa / (floor.vapourResistanceRatio * (floor.thicknessM / 2))
}

/** Water in or out of a floor between two states of balance, kg: ΔM·dry mass. */
export const woodWaterKg = (dryKg: number, fromPct: number, toPct: number): number => (dryKg * (toPct - fromPct)) / 100
