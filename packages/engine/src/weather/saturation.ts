import { exp, Fault, log } from '../kernel/index.ts'
import { TRIPLE_POINT_C, ZERO_C_K } from './constants.ts'
import { numberIn, rowOf } from './shelf.ts'

const COLUMNS = ['C1', 'C2', 'C3', 'C4', 'C5', 'C6', 'C7'] as const
type Coefficients = readonly [number, number, number, number, number, number, number]
const coefficients = (phase: string): Coefficients => {
  const row = rowOf('saturation-coefficients', phase)
  return COLUMNS.map((column) => numberIn(row, column)) as unknown as Coefficients
}
const ICE = coefficients('ice')
const LIQUID = coefficients('liquid')
/** Printed down to −100 °C over ice and up to 200 °C over liquid; the liquid row is also read below freezing, over supercooled water. */
const COLDEST_C = -100
const HOTTEST_C = 200

function logPressure(c: Coefficients, kelvin: number): number {
  return c[0] / kelvin + c[1] + kelvin * (c[2] + kelvin * (c[3] + kelvin * (c[4] + kelvin * c[5]))) + c[6] * log(kelvin)
}

/** d(ln p)/dT, per kelvin. */
function logSlope(c: Coefficients, kelvin: number): number {
  return -c[0] / (kelvin * kelvin) + c[2] + kelvin * (2 * c[3] + kelvin * (3 * c[4] + kelvin * 4 * c[5])) + c[6] / kelvin
}

function inRange(airC: number): number {
  if (!(airC >= COLDEST_C && airC <= HOTTEST_C)) throw new Fault('weather/saturation-range', airC)
  return airC + ZERO_C_K
}

const phaseAt = (airC: number): Coefficients => (airC < TRIPLE_POINT_C ? ICE : LIQUID)

/**
 * Pressure of vapour that stands over ice below the triple point (0.01 °C) and over liquid above: ln p = C₁/T + C₂ + C₃T + C₄T² + C₅T³ + C₆T⁴ + C₇ ln T.
 * −100 to 200 °C. The two meet at 0.01 °C to 6 parts in 10⁹, so there is no step at freezing.
 * @throws Fault `weather/saturation-range`
 * @source Hyland & Wexler 1983, as in ASHRAE Fundamentals ch. 1, eq. 5 and 6 (table `saturation-coefficients`)
 */
export function saturationPa(airC: number): number {
  return exp(logPressure(phaseAt(airC), inRange(airC)))
}

/** Over liquid at all temperatures, also supercooled: what weather stations mean by humidity. @throws Fault `weather/saturation-range` */
export function saturationOverLiquidPa(airC: number): number {
  return exp(logPressure(LIQUID, inRange(airC)))
}

/** Over ice. @throws Fault `weather/saturation-range` above 1 °C, where there is none */
export function saturationOverIcePa(airC: number): number {
  if (airC > 1) throw new Fault('weather/saturation-range', airC)
  return exp(logPressure(ICE, inRange(airC)))
}

/** Rise of `saturationPa` per kelvin: dp/dT = p · d(ln p)/dT. @throws Fault `weather/saturation-range` */
export function saturationSlopePaPerK(airC: number): number {
  const kelvin = inRange(airC)
  const phase = phaseAt(airC)
  return exp(logPressure(phase, kelvin)) * logSlope(phase, kelvin)
}

/** Newton on ln p, a nearly straight function of 1/T: from the start below, six steps reach the last bits over the whole range (tests). */
const STEPS = 6

function inverse(c: Coefficients, vapourPa: number, factor: number, offsetK: number): number {
  const coldest = exp(logPressure(c, COLDEST_C + ZERO_C_K))
  if (!(vapourPa >= coldest && vapourPa <= exp(logPressure(c, HOTTEST_C + ZERO_C_K)))) {
    throw new Fault('weather/vapour-range', vapourPa)
  }
  const wanted = log(vapourPa)
  // Magnus' form, solved for temperature, is the first guess.
  const y = wanted - log(611.2)
  let kelvin = (offsetK * y) / (factor - y) + ZERO_C_K
  for (let i = 0; i < STEPS; i++) kelvin -= (logPressure(c, kelvin) - wanted) / logSlope(c, kelvin)
  return kelvin - ZERO_C_K
}

/** Temperature at which vapour of this pressure begins to settle as dew, over liquid also below freezing. @throws Fault `weather/vapour-range` */
export const dewC = (vapourPa: number): number => inverse(LIQUID, vapourPa, 17.62, 243.12)

/** Temperature at which it begins to settle as frost, over ice. @throws Fault `weather/vapour-range` beyond what can stand over ice */
export function frostC(vapourPa: number): number {
  if (vapourPa > 660) throw new Fault('weather/vapour-range', vapourPa)
  return inverse(ICE, vapourPa, 22.46, 272.62)
}

const TRIPLE_PA = exp(logPressure(ICE, TRIPLE_POINT_C + ZERO_C_K))

/** Inverse of `saturationPa`: frost point below 0.01 °C, dew point above. @throws Fault `weather/vapour-range` */
export const dewOrFrostC = (vapourPa: number): number => (vapourPa < TRIPLE_PA ? frostC(vapourPa) : dewC(vapourPa))
