import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  adjacentViewFrac,
  boxAreasM2,
  boxExchangeM2,
  boxViews,
  exactHeatW,
  opposedViewFrac,
  radiantBetweenWPerM2K,
  STEFAN_W_PER_M2K4,
  starAreaM2,
} from './index.ts'

const side = fc.double({ min: 0.5, max: 13, noNaN: true })
const inside = fc.record({ lengthM: side, widthM: side, heightM: side })
const emittances = fc.array(fc.double({ min: 0.04, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 })
const temperatures = fc.array(fc.double({ min: -40, max: 80, noNaN: true }), { minLength: 6, maxLength: 6 })
const TWENTY = { lengthM: 5.9, widthM: 2.35, heightM: 2.39 }
const FORTY = { lengthM: 12.03, widthM: 2.35, heightM: 2.39 }

describe('view factors (Howell, catalogue of configuration factors, C-11 and C-14)', () => {
  test('a cube: 0.1998 across, 0.2000 beside', () => {
    expect(opposedViewFrac(1, 1, 1)).toBeCloseTo(0.199825, 6)
    expect(adjacentViewFrac(1, 1, 1)).toBeCloseTo(0.200044, 6)
  })

  test('plates far apart see a·b/(π·c²) of one another, near ones almost all', () => {
    expect(opposedViewFrac(1, 2, 100) * Math.PI * 1e4).toBeCloseTo(2, 2)
    expect(opposedViewFrac(1, 1, 0.001)).toBeGreaterThan(0.997)
  })

  test('what leaves a face of any box lands on the others, and as much comes back', () => {
    fc.assert(
      fc.property(inside, (box) => {
        const views = boxViews(box)
        const areas = boxAreasM2(box)
        for (let i = 0; i < 6; i++) {
          expect(views.slice(i * 6, i * 6 + 6).reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9)
          for (let j = 0; j < 6; j++) expect(areas[i]! * views[i * 6 + j]!).toBeCloseTo(areas[j]! * views[j * 6 + i]!, 8)
        }
      }),
      { seed: 5 },
    )
  })
})

describe('exchange of six grey faces', () => {
  test('heat that leaves sums to nothing, and flows from warm to cold only', () => {
    fc.assert(
      fc.property(inside, emittances, temperatures, (box, e, t) => {
        const heat = exactHeatW(boxExchangeM2(box, e), t)
        expect(heat.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 6)
        expect(heat[t.indexOf(Math.max(...t))]).toBeGreaterThanOrEqual(0)
      }),
      { seed: 6 },
    )
  })

  test('two wide plates close together exchange as 1/(1/ε₁ + 1/ε₂ − 1)', () => {
    const box = { lengthM: 100, widthM: 100, heightM: 0.01 }
    const exchange = boxExchangeM2(box, [0.9, 0.9, 0.9, 0.9, 0.8, 0.3])
    expect(exchange[4 * 6 + 5]! / 1e4).toBeCloseTo(1 / (1 / 0.8 + 1 / 0.3 - 1), 3)
  })

  const starHeatW = (areas: readonly number[], e: readonly number[], t: readonly number[], wrong = false): readonly number[] => {
    const all = areas.reduce((sum, one) => sum + one, 0)
    const arms = areas.map((a, i) => (wrong ? a / ((1 - e[i]!) / e[i]! + 1 / (1 - a / all)) : starAreaM2(a, all, e[i]!)))
    const glow = t.map((c) => STEFAN_W_PER_M2K4 * (c + 273.15) ** 4)
    const middle = arms.reduce((sum, g, i) => sum + g * glow[i]!, 0) / arms.reduce((sum, g) => sum + g, 0)
    return arms.map((g, i) => g * (glow[i]! - middle))
  }
  const worst = (box: typeof TWENTY, e: readonly number[], t: readonly number[], wrong = false) => {
    const exact = exactHeatW(boxExchangeM2(box, e), t)
    const star = starHeatW(boxAreasM2(box), e, t, wrong)
    return Math.max(...star.map((q, i) => Math.abs(q - exact[i]!))) / Math.max(...exact.map(Math.abs))
  }

  test('the star is within 4 % of it in a 20 ft box and 6 % in a 40 ft box, of the largest face’s heat', () => {
    const coats = [
      [0.9, 0.9, 0.9, 0.9, 0.9, 0.9],
      [0.9, 0.9, 0.9, 0.9, 0.05, 0.9],
      [1, 1, 1, 1, 1, 1],
    ]
    const airs = [
      [30, 30, 30, 30, 60, 25],
      [-5, -5, -5, -5, -12, 2],
      [45, 30, 30, 30, 30, 30],
    ]
    for (const e of coats)
      for (const t of airs) {
        expect(worst(TWENTY, e, t)).toBeLessThan(0.041)
        expect(worst(FORTY, e, t)).toBeLessThan(0.062)
      }
  })

  test('with the area share upside down it would be a third off', () => {
    expect(worst(TWENTY, [0.9, 0.9, 0.9, 0.9, 0.9, 0.9], [30, 30, 30, 30, 60, 25], true)).toBeGreaterThan(0.3)
  })

  test('a face larger than the others together, and a slope between two temperatures', () => {
    expect(() => starAreaM2(3, 5, 0.9)).toThrow('air/star-range')
    expect(radiantBetweenWPerM2K(30, 10) * 20).toBeCloseTo(STEFAN_W_PER_M2K4 * (303.15 ** 4 - 283.15 ** 4), 9)
  })
})
