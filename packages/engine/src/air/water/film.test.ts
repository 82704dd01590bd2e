import { expect, test } from 'vitest'
import { saturationPa } from '../../weather/index.ts'
import { depositKgPerM2S, heldKgPerM2S, massFilmMPerS, meltedKgPerM2, thawedC } from './index.ts'

test('dew and frost on the roof underside, g/m²h (worked apart from the stated formula)', () => {
  const film = massFilmMPerS(3, 1.2, 1006)
  expect(film).toBeCloseTo(0.002727, 6)
  const rate = (airC: number, rh: number, roofC: number) => depositKgPerM2S(film, rh * saturationPa(airC), airC, roofC) * 3.6e6
  expect(rate(-8, 0.9, -13)).toBeCloseTo(6.15, 1)
  expect(rate(5, 0.85, 0)).toBeCloseTo(9.12, 1)
  expect(rate(25, 0.8, 18)).toBeCloseTo(30.07, 1)
})

test('no more dries than there is', () => {
  expect(heldKgPerM2S(-1, 0.05, 900)).toBe(-0.05 / 900)
  expect(heldKgPerM2S(-1e-9, 0.05, 900)).toBe(-1e-9)
  expect(heldKgPerM2S(1, 0, 900)).toBe(1)
})

test('a face stands at 0 °C while frost melts or water freezes, and no heat is lost', () => {
  const heat = 7222
  for (const [frost, water, at] of [
    [0.15, 0, 2],
    [0.01, 0, 2],
    [0, 0.2, -3],
    [0, 0.01, -3],
    [0, 0, 5],
  ] as const) {
    const melted = meltedKgPerM2(frost, water, at, heat)
    const then = thawedC(at, melted, heat)
    expect(melted * 333_600 + then * heat).toBeCloseTo(at * heat, 8)
    expect(Math.min(frost - melted, water + melted)).toBeGreaterThanOrEqual(0)
    if (at > 0 && frost > melted) expect(then).toBeCloseTo(0, 10)
    if (at < 0 && water + melted > 0) expect(then).toBeCloseTo(0, 10)
  }
  expect(() => meltedKgPerM2(-1, 0, 0, 1)).toThrow('air/melt-range')
})
