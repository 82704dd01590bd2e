import { exp, Fault, power } from '../../kernel/index.ts'

/** One double seen as two words, for its exponent. */
const double = new Float64Array(1)
const words = new Uint32Array(double.buffer)
double[0] = 1
/** Where the leading word lies on this machine. */
const HEAD = words[1] === 0 ? 0 : 1
/** (1023 − 1023/3)·2²⁰, less the mean error of a third of the leading bits. */
const THIRD_BIAS = 715094163
/** Below it a double's leading bits hold no exponent; a difference of temperatures that small is none. */
const TINY = 2.3e-308

/**
 * Cube root of x ≥ 0 from additions, products and quotients alone: a third of the leading bits, then Halley's step twice. Within 4e-14 of it
 * relatively (test): the films hang on it a million times a year.
 * @throws Fault `air/root-range` below 0
 */
export function cubeRoot(x: number): number {
  if (!(x >= 0 && x < Number.POSITIVE_INFINITY)) throw new Fault('air/root-range', x)
  if (x < TINY) return 0
  double[0] = x
  words[HEAD] = ((words[HEAD]! / 3) | 0) + THIRD_BIAS
  words[1 - HEAD] = 0
  let root = double[0]!
  let cube = root * root * root
  root *= (cube + x + x) / (cube + cube + x)
  cube = root * root * root
  return root * ((cube + x + x) / (cube + cube + x))
}

/** xⁿ of x ≥ 0, any n > 0. @throws Fault `air/root-range` */
export function powerOf(x: number, n: number): number {
  if (!(x >= 0 && n > 0)) throw new Fault('air/root-range', { x, n })
  return power(x, n)
}

const PARTS = 64
const LOWEST = -1022

/**
 * xⁿ for one n, for loops that ask it a hundred thousand times: 2^(n·e) and the n-th power of the nearest 64th from tables, the rest by five
 * terms of the binomial series. Within 1e-12 of xⁿ relatively (test). x ≥ 0.
 * @throws Fault `air/root-range` for n outside 0 to 1
 */
export function powerLaw(n: number): (x: number) => number {
  if (!(n > 0 && n <= 1)) throw new Fault('air/root-range', n)
  const twos = Float64Array.from({ length: 2046 }, (_, i) => exp(n * (i + LOWEST) * Math.LN2))
  const parts = Float64Array.from({ length: PARTS }, (_, i) => powerOf(1 + (i + 0.5) / PARTS, n))
  const inverses = Float64Array.from({ length: PARTS }, (_, i) => 1 / (1 + (i + 0.5) / PARTS))
  const [b2, b3, b4, b5] = [(n - 1) / 2, (n - 2) / 3, (n - 3) / 4, (n - 4) / 5]
  return (x) => {
    if (x < TINY) return 0
    double[0] = x
    const head = words[HEAD]!
    words[HEAD] = (head & 0x000fffff) | 0x3ff00000
    const part = (head >>> 14) & (PARTS - 1)
    const r = double[0]! * inverses[part]! - 1
    const series = 1 + n * r * (1 + b2 * r * (1 + b3 * r * (1 + b4 * r * (1 + b5 * r))))
    return twos[(head >>> 20) - 1]! * parts[part]! * series
  }
}
