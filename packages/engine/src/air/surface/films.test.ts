import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exp, log } from '../../kernel/index.ts'
import {
  cubeRoot,
  mcAdamsFilmWPerM2K,
  naturalFilmWPerM2K,
  powerLaw,
  powerOf,
  terrainOf,
  windAtHeightRatio,
  windFilmWPerM2K,
} from './index.ts'

describe('roots', () => {
  test('a cube root is that of the machine within 4e-14', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1e12, noNaN: true }), (x) => {
        expect(Math.abs(cubeRoot(x) / Math.cbrt(x) - 1)).toBeLessThan(4e-14)
      }),
      { seed: 1, numRuns: 2000 },
    )
    expect(cubeRoot(0)).toBe(0)
    expect(cubeRoot(27)).toBeCloseTo(3, 12)
    expect(() => cubeRoot(-1)).toThrow('air/root-range')
  })

  test('the fast power is the power', () => {
    for (const n of [0.5, 0.6, 0.65, 1]) {
      const law = powerLaw(n)
      fc.assert(
        fc.property(fc.double({ min: 1e-9, max: 1e6, noNaN: true }), (x) => {
          expect(Math.abs(law(x) / exp(n * log(x)) - 1)).toBeLessThan(1e-12)
        }),
        { seed: 2, numRuns: 2000 },
      )
      expect(law(0)).toBe(0)
    }
    expect(() => powerLaw(0)).toThrow('air/root-range')
    expect(powerOf(2, 0.5)).toBeCloseTo(Math.SQRT2, 14)
  })
})

describe('films (Walton 1983; McAdams 1954; worked apart from the formulas)', () => {
  test('10 K on a roof warmer than the air, one colder, a wall', () => {
    expect(naturalFilmWPerM2K(10, 1)).toBeCloseTo(3.251, 3)
    expect(naturalFilmWPerM2K(-10, 1)).toBeCloseTo(1.637, 3)
    expect(naturalFilmWPerM2K(10, 0)).toBeCloseTo(2.822, 3)
  })

  test('a ceiling is a roof upside down', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true }), (k, cos) => {
        expect(naturalFilmWPerM2K(k, cos)).toBe(naturalFilmWPerM2K(-k, -cos))
        expect(naturalFilmWPerM2K(k, cos)).toBeGreaterThanOrEqual(0)
      }),
      { seed: 3 },
    )
  })

  test('wind on wall and roof of a 20 ft box', () => {
    const wall = (v: number, w: number) => windFilmWPerM2K(v, 2 * (6.058 + 2.591), 6.058 * 2.591, 1.11, w)
    expect(wall(1, 1)).toBeCloseTo(2.96, 2)
    expect(wall(5, 1)).toBeCloseTo(6.61, 2)
    expect(wall(10, 0.5)).toBeCloseTo(4.67, 2)
    expect(mcAdamsFilmWPerM2K(4)).toBeCloseTo(21.27, 1)
    expect(mcAdamsFilmWPerM2K(10)).toBeCloseTo(43.21, 1)
  })

  test('what lies outside the domain is a fault', () => {
    expect(() => naturalFilmWPerM2K(Number.NaN, 0)).toThrow('air/film-range')
    expect(() => naturalFilmWPerM2K(1, 1.1)).toThrow('air/film-range')
    expect(() => windFilmWPerM2K(-1, 1, 1, 1, 1)).toThrow('air/film-range')
    expect(() => mcAdamsFilmWPerM2K(Number.NaN)).toThrow('air/film-range')
  })
})

test('wind of an open mast at a box 2.6 m high, over three grounds (ASHRAE ch. 24)', () => {
  const mast = terrainOf('open')
  const at = (word: 'open' | 'country' | 'town') => 5 * windAtHeightRatio(mast, 10, terrainOf(word), 2.6)
  expect([at('open'), at('country'), at('town')].map((v) => Number(v.toFixed(2)))).toEqual([4.14, 2.66, 1.44])
  expect(windAtHeightRatio(mast, 10, mast, 10)).toBeCloseTo(1, 12)
  expect(() => windAtHeightRatio(mast, 0, mast, 2)).toThrow('air/terrain-range')
})
