import { exp, Fault, log } from '../kernel/index.ts'
import { PHYSICS, STANDARD_PRESSURE_PA, ZERO_C_K } from './constants.ts'
import { saturationOverIcePa, saturationOverLiquidPa } from './saturation.ts'
import { saturationPaFast } from './saturation-fast.ts'

const { molarRatio, dryAirJPerKgK, vapourJPerKgK, dryAirHeatJPerKgK, vapourHeatJPerKgK, vaporisationJPerKg } = PHYSICS

/** Specific volume of moist air: 1/`molarRatio` to the digits of the handbook's form. */
const VAPOUR_VOLUME_RATIO = 1.607858

/**
 * Water in the air, kg per kg of dry air: w = 0.621945 · pᵥ/(p − pᵥ). An ideal mixture: 0.4 to 0.6 % below tables that carry the
 * enhancement factor.
 * @throws Fault `weather/pressure-range` unless 0 ≤ pᵥ < p
 * @source ASHRAE Fundamentals 2017, ch. 1, eq. 20. Provenance: memory
 */
export function humidityRatio(vapourPa: number, pressurePa: number): number {
  if (!(vapourPa >= 0 && vapourPa < pressurePa && pressurePa < Number.POSITIVE_INFINITY)) {
    throw new Fault('weather/pressure-range', { vapourPa, pressurePa })
  }
  return (molarRatio * vapourPa) / (pressurePa - vapourPa)
}

/** Vapour pressure of air that holds this much water: pᵥ = p·w/(0.621945 + w). @throws Fault `weather/pressure-range` */
export function vapourOfRatioPa(ratio: number, pressurePa: number): number {
  if (!(ratio >= 0 && ratio < Number.POSITIVE_INFINITY && pressurePa > 0 && pressurePa < Number.POSITIVE_INFINITY)) {
    throw new Fault('weather/pressure-range', { ratio, pressurePa })
  }
  return (pressurePa * ratio) / (molarRatio + ratio)
}

/** What a relative humidity or a dew point was measured against. Stations mean liquid at all temperatures; some files mean ice below freezing. */
export type Over = 'liquid' | 'ice'

/** Ice only below freezing: above it both are over liquid. */
const over = (airC: number, phase: Over): number =>
  phase === 'ice' && airC < 0 ? saturationOverIcePa(airC) : saturationOverLiquidPa(airC)

/** pᵥ = φ·p_ws(t), φ from 0 up, over liquid or over ice. @throws Fault `weather/saturation-range` or `weather/humidity-range` */
export function vapourOfHumidityPa(of: { readonly airC: number; readonly relativeFrac: number; readonly over: Over }): number {
  if (!(of.relativeFrac >= 0 && of.relativeFrac < Number.POSITIVE_INFINITY)) throw new Fault('weather/humidity-range', of)
  return of.relativeFrac * over(of.airC, of.over)
}

/** pᵥ = p_ws(t_dew), over liquid or over ice. @throws Fault `weather/saturation-range` */
export const vapourOfDewPa = (of: { readonly dewC: number; readonly over: Over }): number => over(of.dewC, of.over)

/** Relative humidity, 0 to 1 and above where the air is oversaturated: φ = pᵥ/p_ws(t). @throws Fault `weather/saturation-range` */
export function relativeFrac(of: { readonly airC: number; readonly vapourPa: number; readonly over: Over }): number {
  if (!(of.vapourPa >= 0 && of.vapourPa < Number.POSITIVE_INFINITY)) throw new Fault('weather/humidity-range', of)
  return of.vapourPa / over(of.airC, of.over)
}

/** Heat of moist air from 0 °C, dry air and liquid, J per kg of dry air: h = 1006 t + w·(2 501 000 + 1860 t). */
export const enthalpyJPerKg = (airC: number, ratio: number): number =>
  dryAirHeatJPerKgK * airC + ratio * (vaporisationJPerKg + vapourHeatJPerKgK * airC)

/** Volume of moist air that holds a kilogram of dry air, m³: v = 287.042 T·(1 + 1.607858 w)/p. @throws Fault `weather/pressure-range` */
export function specificVolumeM3PerKg(of: {
  readonly airC: number
  readonly ratio: number
  readonly pressurePa: number
}): number {
  const kelvin = of.airC + ZERO_C_K
  if (!(kelvin > 0 && kelvin < Number.POSITIVE_INFINITY && of.ratio >= 0 && of.pressurePa > 0)) {
    throw new Fault('weather/pressure-range', of)
  }
  return (dryAirJPerKgK * kelvin * (1 + VAPOUR_VOLUME_RATIO * of.ratio)) / of.pressurePa
}

/** Of moist air: (1 + w)/v. @throws Fault `weather/pressure-range` */
export const airKgPerM3 = (of: { readonly airC: number; readonly ratio: number; readonly pressurePa: number }): number =>
  (1 + of.ratio) / specificVolumeM3PerKg(of)

/** Water as vapour in a cubic metre: pᵥ/(461.5 T). */
export const vapourKgPerM3 = (airC: number, vapourPa: number): number => vapourPa / (vapourJPerKgK * (airC + ZERO_C_K))

/**
 * Pressure of the standard atmosphere at a height: 101 325·(1 − 2.25577e-5 z)^5.2559. −500 to 11 000 m.
 * @throws Fault `weather/elevation-range`
 * @source ASHRAE Fundamentals 2017, ch. 1, eq. 3. Provenance: memory
 */
export function pressureAtPa(elevationM: number): number {
  if (!(elevationM >= -500 && elevationM <= 11_000)) throw new Fault('weather/elevation-range', elevationM)
  return STANDARD_PRESSURE_PA * exp(5.2559 * log(1 - 2.25577e-5 * elevationM))
}

interface WetBulb {
  readonly airC: number
  readonly ratio: number
  readonly pressurePa: number
}

/** Water in the air of these dry and wet bulbs. `ice`: the wick is frozen. kJ, as the handbook prints it. */
function ratioOfBulbs(airC: number, wetC: number, pressurePa: number, ice: boolean): number {
  const saturated = humidityRatio(saturationPaFast(wetC), pressurePa)
  return ice
    ? ((2830 - 0.24 * wetC) * saturated - 1.006 * (airC - wetC)) / (2830 + 1.86 * airC - 2.1 * wetC)
    : ((2501 - 2.326 * wetC) * saturated - 1.006 * (airC - wetC)) / (2501 + 1.86 * airC - 4.186 * wetC)
}

/**
 * Water in the air from a dry and a wet thermometer; below 0 °C the wick is taken as frozen. Negative where the two cannot belong together.
 * @throws Fault `weather/saturation-range`, `weather/pressure-range`
 * @source ASHRAE Fundamentals 2017, ch. 1, eq. 33 and 35. Provenance: memory
 */
export const ratioOfWetBulb = (of: { readonly airC: number; readonly wetC: number; readonly pressurePa: number }): number =>
  ratioOfBulbs(of.airC, of.wetC, of.pressurePa, of.wetC < 0)

const HALVINGS = 44

/**
 * Temperature that a wet, ventilated surface takes: the root of `ratioOfWetBulb`, by halving. A wick that stays above freezing as water is
 * water; only where it cannot is it ice. (Between, a frozen wick would also stand still, a little below 0 °C.) Of oversaturated air: the
 * air's own temperature.
 * @throws Fault `weather/saturation-range`, `weather/pressure-range`
 */
export function wetBulbC({ airC, ratio, pressurePa }: WetBulb): number {
  if (!(ratio >= 0)) throw new Fault('weather/pressure-range', { airC, ratio, pressurePa })
  const wet = airC > 0 && ratioOfBulbs(airC, 0, pressurePa, false) <= ratio
  let low = wet ? 0 : Math.max(-99, airC - 60)
  let high = wet ? airC : Math.min(0, airC)
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2
    if (ratioOfBulbs(airC, middle, pressurePa, !wet) < ratio) low = middle
    else high = middle
  }
  return (low + high) / 2
}
