import { expect, test } from 'vitest'
import { acos, atan, atan2, cos, exp, log, log10, power, sin, tan } from './functions.ts'
import { seeded } from './random.ts'

/** The language's own, good to a unit or two in the last place, as a second implementation. */
const pairs = [
  ['exp', exp, Math.exp, -700, 700],
  ['exp near nothing', exp, Math.exp, -1e-3, 1e-3],
  ['log', log, Math.log, 1e-9, 1e9],
  ['log near one', log, Math.log, 0.9, 1.1],
  ['log10', log10, Math.log10, 1e-9, 1e9],
  ['sin', sin, Math.sin, -50, 50],
  ['cos', cos, Math.cos, -50, 50],
  ['tan', tan, Math.tan, -1.5, 1.5],
  ['atan', atan, Math.atan, -20, 20],
  ['acos', acos, Math.acos, -1, 1],
] as const

const ulps = (a: number, b: number): number => Math.abs(a - b) / (Math.max(Math.abs(b), Number.MIN_VALUE) * Number.EPSILON)

for (const [name, ours, theirs, from, to] of pairs)
  test(`${name} is within 4 units in the last place of the language’s own`, () => {
    const random = seeded(7)
    let worst = 0
    for (let i = 0; i < 20_000; i++) {
      const x = random.between(from, to)
      worst = Math.max(worst, ulps(ours(x), theirs(x)))
    }
    expect(worst).toBeLessThan(4)
  })

// ECMA-262, 21.3.1: Math.E, Math.LN2, Math.LN10 are the nearest numbers to the true constants. Provenance: memory
test('constants come out to the last digit', () => {
  expect(exp(1)).toBeCloseTo(Math.E, 15)
  expect(log(2)).toBeCloseTo(Math.LN2, 16)
  expect(log(10)).toBeCloseTo(Math.LN10, 15)
  expect(4 * atan(1)).toBeCloseTo(Math.PI, 15)
  expect(sin(Math.PI / 6)).toBeCloseTo(0.5, 15)
  expect(tan(Math.PI / 4)).toBeCloseTo(1, 15)
})

test('what is exact is exact', () => {
  expect([exp(0), log(1), sin(0), cos(0), tan(0), atan(0), acos(1)]).toEqual([1, 0, 0, 1, 0, 0, 0])
  for (let n = -30; n <= 30; n++) expect(log10(Number(`1e${n}`))).toBe(n)
  for (let n = -1000; n <= 1000; n += 37) expect(log(2 ** n) / log(2)).toBeCloseTo(n, 9)
})

test('a power is the language’s own within what is said of it, and a whole one is its product', () => {
  const random = seeded(8)
  for (let i = 0; i < 20_000; i++) {
    const [x, y] = [exp(random.between(-20, 20)), random.between(-10, 10)]
    expect(ulps(power(x, y), x ** y), `${x} ${y}`).toBeLessThan(4 + 2 * Math.abs(y * log(x)))
    expect(power(x, 2)).toBe(x * x)
    expect(power(x, -3)).toBe(1 / (x * (x * x)))
  }
  for (let n = 0; n <= 22; n++) expect(power(10, n)).toBe(Number(`1e${n}`))
  expect([power(0, 0), power(0, 0.5), power(0, -0.5), power(-2, 3), power(2, 0), power(4, 0.5)]).toEqual([
    ...[1, 0, Number.POSITIVE_INFINITY, -8, 1, 2],
  ])
  expect(power(-2, 0.5)).toBeNaN()
})

test('the exponential is right to both ends of what a double can hold', () => {
  for (let x = 709.7; x > 700; x -= 0.01) expect(Math.abs(exp(x) / Math.exp(x) - 1)).toBeLessThan(1e-15)
  // Below the smallest normal number: within its last unit.
  for (let x = -745; x < -700; x += 0.01)
    expect(Math.abs(exp(x) - Math.exp(x))).toBeLessThanOrEqual(Number.MIN_VALUE + 1e-15 * Math.exp(x))
})

test('at the ends', () => {
  expect([exp(710), exp(-746), log(0), log(-1), log(Number.POSITIVE_INFINITY)]).toEqual([
    Number.POSITIVE_INFINITY,
    0,
    Number.NEGATIVE_INFINITY,
    Number.NaN,
    Number.POSITIVE_INFINITY,
  ])
  expect(log(5e-324)).toBeCloseTo(-744.4400719213812, 10)
  expect(acos(1.1)).toBeNaN()
  expect(() => sin(1e6)).toThrow('kernel/angle-range')
  for (const f of [exp, log, sin, cos, tan, atan]) expect(f(Number.NaN)).toBeNaN()
})

test('a bearing is right in every quarter and on every axis', () => {
  for (const [y, x] of [
    [1, 1],
    [1, -1],
    [-1, -1],
    [-1, 1],
    [0, 1],
    [0, -1],
    [-0, 1],
    [-0, -1],
    [1, 0],
    [-1, 0],
    [3, 4],
    [1e-9, -5],
  ] as const)
    expect(ulps(atan2(y, x), Math.atan2(y, x)) <= 2 || Object.is(atan2(y, x), Math.atan2(y, x)), `${y} ${x}`).toBe(true)
})

test('sine and cosine lie on the circle', () => {
  const random = seeded(3)
  for (let i = 0; i < 5000; i++) {
    const x = random.between(-1000, 1000)
    expect(sin(x) ** 2 + cos(x) ** 2).toBeCloseTo(1, 14)
  }
})
