import { Fault } from '../../kernel/index.ts'
import { saturationOverLiquidPa } from '../saturation.ts'

/** Cells of half a kelvin, cubic through values and slopes. */
const FIRST_C = -99
const LAST_C = 120
const PER_K = 2
const CELLS = cells()

function cells(): Float64Array {
  const slope = (airC: number) => (saturationOverLiquidPa(airC + 0.01) - saturationOverLiquidPa(airC - 0.01)) / 0.02 / PER_K
  const count = (LAST_C - FIRST_C) * PER_K
  const out = new Float64Array(4 * count)
  for (let i = 0; i < count; i++) {
    const [left, right] = [FIRST_C + i / PER_K, FIRST_C + (i + 1) / PER_K]
    const [p0, p1] = [saturationOverLiquidPa(left), saturationOverLiquidPa(right)]
    const [m0, m1] = [slope(left), slope(right)]
    out.set([p0, m0, 3 * (p1 - p0) - 2 * m0 - m1, m0 + m1 - 2 * (p1 - p0)], 4 * i)
  }
  return out
}

/** `saturationOverLiquidPa` for loops, −99 to 120 °C, within 3e-6 of it. @throws Fault `weather/saturation-range` */
export function saturationOverLiquidPaFast(airC: number): number {
  if (!(airC >= FIRST_C && airC < LAST_C)) throw new Fault('weather/saturation-range', airC)
  const x = (airC - FIRST_C) * PER_K
  const i = Math.floor(x)
  const u = x - i
  const k = 4 * i
  return (CELLS[k] as number) + u * ((CELLS[k + 1] as number) + u * ((CELLS[k + 2] as number) + u * (CELLS[k + 3] as number)))
}
