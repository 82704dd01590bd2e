import { describe, expect, test } from 'vitest'
import { numberIn, rowOf } from '../shelf.ts'
import {
  offNormalDeg,
  pressureAtRatio,
  roofPressureRatio,
  underPressureRatio,
  wallPressureRatio,
  wallPressures,
  windPa,
} from './index.ts'

describe('wind on the faces of a box', () => {
  test('table `cp-low-rise`: square plan as published (Swami & Chandra 1987), long and short wall of a 20 ft box', () => {
    const printed = { 'square plan': 1, 'long wall of a 20 ft box (2.485:1)': 2.4848, 'short wall of a 20 ft box': 1 / 2.4848 }
    for (const [wall, ratio] of Object.entries(printed))
      for (const deg of [0, 30, 60, 90, 120, 150, 180])
        expect(
          Math.abs(wallPressureRatio(deg, ratio) - numberIn(rowOf('cp-low-rise', wall), String(deg))),
          `${wall} ${deg}`,
        ).toBeLessThan(0.0011)
  })

  test('left or right of the normal is the same, a turn more changes nothing, a list reads as the formula', () => {
    const list = wallPressures(2.4848)
    for (const deg of [-350, -170, -10, 0, 33.3, 190, 340, 359.9, 720]) {
      expect(pressureAtRatio(list, deg)).toBeCloseTo(pressureAtRatio(list, -deg), 12)
      expect(Math.abs(pressureAtRatio(list, deg) - wallPressureRatio(offNormalDeg(deg), 2.4848))).toBeLessThan(2e-4)
    }
    expect(offNormalDeg(350)).toBe(10)
    expect(offNormalDeg(-190)).toBe(170)
    expect(() => pressureAtRatio(list, Number.NaN)).toThrow('air/wind-pressure-range')
    expect(() => wallPressureRatio(181, 1)).toThrow('air/wind-pressure-range')
  })

  test('roof −0.7 along and −0.8 across, underside −0.3', () => {
    expect([0, 45, 90, 135, 180, 270].map(roofPressureRatio)).toEqual([-0.7, -0.7, -0.8, -0.7, -0.7, -0.8])
    expect(underPressureRatio()).toBe(-0.3)
    expect(windPa(0.603 + 0.364, 1.2, 3)).toBeCloseTo(5.222, 3)
  })
})
