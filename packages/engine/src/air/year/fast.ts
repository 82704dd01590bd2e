import { saturationOverLiquidPa, saturationPa, saturationSlopePaPerK, TRIPLE_POINT_C } from '../../weather/index.ts'
import { powerOf } from '../surface/index.ts'

/**
 * Numbers for the hot loop: tables and bit work in place of exponentials and roots. Each is held equal to the formula it stands for by a test.
 */

const f64 = new Float64Array(1)
const u32 = new Uint32Array(f64.buffer)
f64[0] = 1
/** Which half of a double holds its exponent on this machine. */
const HI = u32[1] === 0 ? 0 : 1
const THIRD_BIAS = 715094163

/** Cube root of x ≥ 0 by two of Halley's steps, within 1e-12; below 1e-12 nothing. */
export function cubeRootFast(x: number): number {
  if (!(x > 1e-12)) return 0
  f64[0] = x
  u32[HI] = ((u32[HI]! * 0.3333333333333333) | 0) + THIRD_BIAS
  let y = f64[0]!
  let c = y * y * y
  y = (y * (c + x + x)) / (c + c + x)
  c = y * y * y
  return (y * (c + x + x)) / (c + c + x)
}

/** A knot on the triple point, where the slope breaks. */
export const SAT_LOW_C = TRIPLE_POINT_C - 100
export const SAT_PER_K = 2
export const SAT_CELLS = 500

/** Cubic pieces of saturation pressure, half a kelvin each: four coefficients a cell, of the share of the cell. */
export const SATURATION: Float64Array = cubics(saturationPa, saturationSlopePaPerK)

/** The same over water, also below freezing: where fog forms. */
export const SATURATION_OVER_WATER: Float64Array = cubics(
  saturationOverLiquidPa,
  (atC) => (saturationOverLiquidPa(atC + 0.01) - saturationOverLiquidPa(atC - 0.01)) / 0.02,
)

function cubics(pa: (atC: number) => number, paPerK: (atC: number) => number): Float64Array {
  const out = new Float64Array(SAT_CELLS * 4)
  const w = 1 / SAT_PER_K
  for (let i = 0; i < SAT_CELLS; i++) {
    const a = SAT_LOW_C + i * w + 1e-9
    const b = a + w - 2e-9
    const [p0, p1] = [pa(a), pa(b)]
    const m0 = paPerK(a) * w
    const m1 = paPerK(b) * w
    out[i * 4] = p0
    out[i * 4 + 1] = m0
    out[i * 4 + 2] = 3 * (p1 - p0) - 2 * m0 - m1
    out[i * 4 + 3] = 2 * (p0 - p1) + m0 + m1
  }
  return out
}

/** Cells of xⁿ over the root of x, 0 to 32 Pa's root (1024 Pa). */
export const POWER_PER_ROOT = 32
export const POWER_CELLS = 1024

let last: { readonly n: number; readonly cubics: Float64Array } | null = null

/** Cubic pieces of x^n over √x: four coefficients a cell of 1/32. Read, never written: those of the last exponent are kept. */
export function powerCubics(n: number): Float64Array {
  if (last?.n !== n) last = { n, cubics: madeCubics(n) }
  return last.cubics
}

function madeCubics(n: number): Float64Array {
  const out = new Float64Array(POWER_CELLS * 4)
  const w = 1 / POWER_PER_ROOT
  const f = (u: number) => (u === 0 ? 0 : powerOf(u, 2 * n))
  const slope = (u: number) => (n === 0.5 ? 1 : u === 0 ? 0 : 2 * n * powerOf(u, 2 * n - 1))
  for (let i = 0; i < POWER_CELLS; i++) {
    const [p0, p1, m0, m1] = [f(i * w), f((i + 1) * w), slope(i * w) * w, slope((i + 1) * w) * w]
    out[i * 4] = p0
    out[i * 4 + 1] = m0
    out[i * 4 + 2] = 3 * (p1 - p0) - 2 * m0 - m1
    out[i * 4 + 3] = 2 * (p0 - p1) + m0 + m1
  }
  return out
}
