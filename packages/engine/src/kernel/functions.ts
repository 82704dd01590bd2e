import { Fault } from './fault.ts'

/**
 * Sine, exponential and their kin from additions, products, quotients and square roots alone, which IEEE 754 fixes to the last bit: the same
 * document gives the same bytes in every browser and in the terminal. Those of `Math` differ from one release of an engine to the next.
 * All are within 3 units in the last place of the true value (tests, over the ranges stated).
 */

const LN2_HIGH = 0.6931471803691238
const LN2_LOW = 1.9082149292705877e-10
/** π/2 in three parts, the first two short enough that whole multiples of them are exact. */
const HALF_PI = [1.5707963267341256, 6.077100506303966e-11, 2.0222662487959506e-21] as const
const SQRT3 = Math.sqrt(3)

const bits = new DataView(new ArrayBuffer(8))

/** eˣ = 2ᵏ·eʳ, r = x − k·ln 2, |r| ≤ ln 2/2, by Taylor's series. */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x
  if (x > 709.79) return Number.POSITIVE_INFINITY
  if (x < -745.2) return 0
  const k = Math.round(x / (LN2_HIGH + LN2_LOW))
  const high = x - k * LN2_HIGH
  const low = k * LN2_LOW
  const r = high - low
  let tail = 0
  for (let n = 15; n >= 2; n--) tail = ((1 + tail) * r) / n
  // eʳ = 1 + r·(1 + tail), the largest part added last.
  const fraction = r * tail + (high - r - low) + r
  return scaled(1 + fraction, k)
}

/** ln x = k·ln 2 + 2·artanh s, s = (m − 1)/(m + 1), m from √½ to √2. */
export function log(x: number): number {
  if (Number.isNaN(x) || x < 0) return Number.NaN
  if (x === 0) return Number.NEGATIVE_INFINITY
  if (x === Number.POSITIVE_INFINITY) return x
  const small = x < 2.3e-308
  bits.setFloat64(0, small ? x * 2 ** 54 : x)
  const head = bits.getUint32(0)
  let k = (head >>> 20) - 1022 - (small ? 54 : 0)
  bits.setUint32(0, (head & 0x000fffff) | 0x3fe00000)
  let m = bits.getFloat64(0)
  if (m < Math.SQRT1_2) {
    m *= 2
    k -= 1
  }
  const f = m - 1
  const s = f / (2 + f)
  const z = s * s
  let sum = 0
  for (let n = 23; n >= 3; n -= 2) sum = z * (1 / n + sum)
  // 2·s·(1 + sum) = f − s·(f − 2·sum): exact where f is small.
  return k * LN2_HIGH + (f - (s * (f - 2 * sum) - k * LN2_LOW))
}

/** Exact at the powers of ten. */
export function log10(x: number): number {
  const y = log(x) / Math.LN10
  const whole = Math.round(y)
  return Number.isFinite(y) && x === Number(`1e${whole}`) ? whole : y
}

export function sin(x: number): number {
  const [r, low, quarter] = quadrant(x)
  return quarter === 0 ? sine(r, low) : quarter === 1 ? cosine(r, low) : quarter === 2 ? -sine(r, low) : -cosine(r, low)
}

export function cos(x: number): number {
  const [r, low, quarter] = quadrant(x)
  return quarter === 0 ? cosine(r, low) : quarter === 1 ? -sine(r, low) : quarter === 2 ? -cosine(r, low) : sine(r, low)
}

export const tan = (x: number): number => sin(x) / cos(x)

/** From −π/2 to π/2. */
export function atan(x: number): number {
  if (Number.isNaN(x)) return x
  const size = Math.abs(x)
  const turned = size > 1
  const t = turned ? 1 / size : size
  // Above tan 15° the angle is 30° and the rest.
  const far = t > 2 - SQRT3
  const u = far ? (t * SQRT3 - 1) / (SQRT3 + t) : t
  const z = u * u
  let sum = 0
  for (let n = 29; n >= 3; n -= 2) sum = z * (((n - 1) / 2) % 2 === 0 ? 1 / n + sum : sum - 1 / n)
  const rest = u + u * sum
  const angle = far ? Math.PI / 6 + rest : rest
  const whole = turned ? Math.PI / 2 - angle : angle
  return x < 0 || Object.is(x, -0) ? -whole : whole
}

/** Bearing of (x, y) from the x axis, −π to π. */
export function atan2(y: number, x: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN
  const down = y < 0 || Object.is(y, -0)
  const left = x < 0 || Object.is(x, -0)
  if (y === 0) return left ? (down ? -Math.PI : Math.PI) : y
  if (x === 0) return down ? -Math.PI / 2 : Math.PI / 2
  const angle = atan(Math.abs(y) / Math.abs(x))
  const half = left ? Math.PI - angle : angle
  return down ? -half : half
}

/** NaN outside −1 to 1. */
export const acos = (x: number): number => 2 * atan2(Math.sqrt(1 - x), Math.sqrt(1 + x))

/** Angle less the nearest multiple of a right angle, in two parts, and which of four. @throws Fault `kernel/angle-range` beyond 100 000 */
function quadrant(x: number): readonly [r: number, low: number, quarter: number] {
  if (Number.isNaN(x)) return [x, 0, 0]
  if (!(Math.abs(x) <= 1e5)) throw new Fault('kernel/angle-range', x)
  const k = Math.round(x / (Math.PI / 2))
  const high = x - k * HALF_PI[0]
  const next = k * HALF_PI[1]
  const first = high - next
  const tail = high - first - next - k * HALF_PI[2]
  const r = first + tail
  return [r, first - r + tail, ((k % 4) + 4) % 4]
}

/** |r| ≤ π/4; `low`: what r lacks. */
function sine(r: number, low: number): number {
  const z = r * r
  let sum = 0
  for (let n = 17; n >= 3; n -= 2) sum = (-z * (1 + sum)) / (n * (n - 1))
  return r + (r * sum + low * (1 - z / 2))
}

function cosine(r: number, low: number): number {
  const z = r * r
  let sum = 0
  for (let n = 18; n >= 4; n -= 2) sum = (-z * (1 + sum)) / (n * (n - 1))
  const half = z / 2
  const rough = 1 - half
  // 1 − z/2 with what its rounding lost, then the rest.
  return rough + (1 - rough - half - half * sum - r * low)
}

/** Largest exponent that is multiplied out. */
const MULTIPLIED = 64

/**
 * xʸ. Whole y to 64: products alone, so what is exact comes out exact; else e^(y·ln x) of x ≥ 0, within 4 + 2·|y·ln x| units in the last place
 * (test). NaN for x below 0 with another y.
 */
export function power(x: number, y: number): number {
  if (Number.isInteger(y) && Math.abs(y) <= MULTIPLIED) return y < 0 ? 1 / multiplied(x, -y) : multiplied(x, y)
  return x === 0 ? (y > 0 ? 0 : Number.POSITIVE_INFINITY) : exp(y * log(x))
}

function multiplied(x: number, times: number): number {
  let product = 1
  for (let square = x, left = times; left > 0; left >>= 1, square *= square) if (left & 1) product *= square
  return product
}

/** x·2ᵏ, also where 2ᵏ alone would be too large or too small. */
function scaled(x: number, k: number): number {
  if (k > 1023) return x * twoTo(1023) * twoTo(k - 1023)
  if (k < -1022) return x * twoTo(-1022) * twoTo(k + 1022)
  return x * twoTo(k)
}

/** 2ᵏ by its bits, k −1022 to 1023. */
function twoTo(k: number): number {
  bits.setUint32(0, (k + 1023) << 20)
  bits.setUint32(4, 0)
  return bits.getFloat64(0)
}
