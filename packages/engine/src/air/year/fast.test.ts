import { expect, test } from 'vitest'
import { saturationPa, saturationSlopePaPerK } from '../../weather/index.ts'
import { cubeRoot, naturalFilmWPerM2K, powerOf } from '../surface/index.ts'
import { massFilmMPerS, woodHumidityFrac } from '../water/index.ts'
import { cubeRootFast, POWER_CELLS, POWER_PER_ROOT, powerCubics, SAT_CELLS, SAT_LOW_C, SAT_PER_K, SATURATION } from './fast.ts'
import { LEWIS_TWO_THIRDS } from './kernel.ts'
import { FILM_STABLE, FILM_UNSTABLE, FILM_WALL } from './layout.ts'
import { WOOD_CONTENTS, WOOD_HUMIDITY, WOOD_LOW_C, WOOD_PER_UNIT, WOOD_STEP_C } from './wood.ts'

test('the fast cube root is the cube root from a billionth of a kelvin to a thousand', () => {
  for (let x = 1e-9; x < 1e3; x *= 1.07) expect(Math.abs(cubeRootFast(x) / cubeRoot(x) - 1)).toBeLessThan(1e-12)
  expect(cubeRootFast(0)).toBe(0)
})

test('the cubic pieces of saturation give its pressure and slope, on both sides of freezing', () => {
  for (let t = -60; t < 90; t += 0.37) {
    const at = (t - SAT_LOW_C) * SAT_PER_K
    const cell = Math.floor(at)
    expect(cell).toBeLessThan(SAT_CELLS)
    const u = at - cell
    const c = cell * 4
    const p = SATURATION[c]! + u * (SATURATION[c + 1]! + u * (SATURATION[c + 2]! + u * SATURATION[c + 3]!))
    const slope = SAT_PER_K * (SATURATION[c + 1]! + u * (2 * SATURATION[c + 2]! + 3 * u * SATURATION[c + 3]!))
    expect(Math.abs(p / saturationPa(t) - 1)).toBeLessThan(2e-7)
    expect(Math.abs(slope / saturationSlopePaPerK(t) - 1)).toBeLessThan(2e-5)
  }
})

test('the cubic pieces of a crack’s law are the power', () => {
  for (const n of [0.5, 0.6, 0.65, 1]) {
    const law = powerCubics(n)
    for (let pa = 0.01; pa < 900; pa *= 1.13) {
      const x = Math.sqrt(pa) * POWER_PER_ROOT
      const cell = Math.floor(x)
      expect(cell).toBeLessThan(POWER_CELLS)
      const u = x - cell
      const c = cell * 4
      const got = law[c]! + u * (law[c + 1]! + u * (law[c + 2]! + u * law[c + 3]!))
      expect(Math.abs(got / powerOf(pa, n) - 1)).toBeLessThan(2e-5)
    }
  }
})

test('films written into the loop are the exported films', () => {
  for (const k of [0.3, 4, 25]) {
    const root = cubeRootFast(k)
    expect(FILM_UNSTABLE * root).toBeCloseTo(naturalFilmWPerM2K(k, 1), 12)
    expect(FILM_STABLE * root).toBeCloseTo(naturalFilmWPerM2K(-k, 1), 12)
    expect(FILM_UNSTABLE * root).toBeCloseTo(naturalFilmWPerM2K(-k, -1), 12)
    expect(FILM_STABLE * root).toBeCloseTo(naturalFilmWPerM2K(k, -1), 12)
    expect(FILM_WALL * root).toBeCloseTo(naturalFilmWPerM2K(k, 0), 12)
  }
  expect(5 / (1.2 * 1006 * LEWIS_TWO_THIRDS)).toBeCloseTo(massFilmMPerS(5, 1.2, 1006), 8)
})

test('the grid of wood is the handbook’s curve turned round', () => {
  for (const [u, t] of [
    [0.06, 3],
    [0.12, 21],
    [0.2, 38],
  ] as const) {
    const row = (t - WOOD_LOW_C) / WOOD_STEP_C
    const i = Math.floor(row)
    const j = Math.floor(u * WOOD_PER_UNIT)
    const at = (a: number, b: number) => WOOD_HUMIDITY[a * WOOD_CONTENTS + b]!
    const line = (a: number) => at(a, j) + (u * WOOD_PER_UNIT - j) * (at(a, j + 1) - at(a, j))
    const got = line(i) + (row - i) * (line(i + 1) - line(i))
    expect(Math.abs(got - woodHumidityFrac(t, 100 * u))).toBeLessThan(2e-3)
  }
})
