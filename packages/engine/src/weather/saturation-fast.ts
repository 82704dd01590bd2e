import { Fault } from '../kernel/index.ts'
import { TRIPLE_POINT_C } from './constants.ts'
import { saturationPa, saturationSlopePaPerK } from './saturation.ts'

/** Cells of half a kelvin with a knot on the triple point, where the slope breaks. */
const PER_K = 2
const BELOW_COUNT = 200
const ABOVE_COUNT = 300
const FIRST_C = TRIPLE_POINT_C - BELOW_COUNT / PER_K
const COLDEST_C = -99.9
const HOTTEST_C = 150

/** Value, then three coefficients of u, u², u³ across each cell, u from 0 to 1. */
const CELLS = cubics()

function cubics(): Float64Array {
  const cells = new Float64Array(4 * (BELOW_COUNT + ABOVE_COUNT))
  for (let i = 0; i < BELOW_COUNT + ABOVE_COUNT; i++) {
    // Inside its own side of the break by a billionth of a kelvin, so that both ends are of one phase.
    const inward = 1e-9
    const left = FIRST_C + i / PER_K + inward
    const right = FIRST_C + (i + 1) / PER_K - inward
    const [p0, p1] = [saturationPa(left), saturationPa(right)]
    const [m0, m1] = [saturationSlopePaPerK(left) / PER_K, saturationSlopePaPerK(right) / PER_K]
    const rise = p1 - p0
    cells.set([p0, m0, 3 * rise - 2 * m0 - m1, m0 + m1 - 2 * rise], 4 * i)
  }
  return cells
}

function placeOf(airC: number): number {
  if (!(airC >= COLDEST_C && airC <= HOTTEST_C)) throw new Fault('weather/saturation-range', airC)
  return (airC - FIRST_C) * PER_K
}

/**
 * `saturationPa` for loops: cubic pieces of half a kelvin through its values and slopes. −99.9 to 150 °C, within 1e-6 of it (3e-8 from −40 °C up).
 * @throws Fault `weather/saturation-range`
 */
export function saturationPaFast(airC: number): number {
  const x = placeOf(airC)
  const i = Math.floor(x)
  const u = x - i
  const k = 4 * i
  return (CELLS[k] as number) + u * ((CELLS[k + 1] as number) + u * ((CELLS[k + 2] as number) + u * (CELLS[k + 3] as number)))
}

/** Slope of `saturationPaFast`, its exact derivative, per kelvin. @throws Fault `weather/saturation-range` */
export function saturationSlopePaPerKFast(airC: number): number {
  const x = placeOf(airC)
  const i = Math.floor(x)
  const u = x - i
  const k = 4 * i
  return PER_K * ((CELLS[k + 1] as number) + u * (2 * (CELLS[k + 2] as number) + u * 3 * (CELLS[k + 3] as number)))
}

const MOST_PA = saturationPaFast(HOTTEST_C)

/** Inverse of `saturationPaFast`: halving to the cell, then three Newton steps in it. @throws Fault `weather/vapour-range` */
export function dewOrFrostCFast(vapourPa: number): number {
  let low = 0
  let high = BELOW_COUNT + ABOVE_COUNT
  if (!(vapourPa >= (CELLS[0] as number) && vapourPa <= MOST_PA)) {
    throw new Fault('weather/vapour-range', vapourPa)
  }
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((CELLS[4 * middle] as number) <= vapourPa) low = middle
    else high = middle
  }
  const k = 4 * low
  const [a, b, c, d] = [CELLS[k] as number, CELLS[k + 1] as number, CELLS[k + 2] as number, CELLS[k + 3] as number]
  let u = (vapourPa - a) / b
  for (let n = 0; n < 3; n++) u -= (a + u * (b + u * (c + u * d)) - vapourPa) / (b + u * (2 * c + 3 * u * d))
  return FIRST_C + (low + u) / PER_K
}
