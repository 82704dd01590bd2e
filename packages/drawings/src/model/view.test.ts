import { SIDES } from '@plugstead/engine/job'
import { describe, expect, test } from 'vitest'
import { yardBox } from '../../test/yard-box.ts'
import { covers, isometric, onFace, planView, sideView } from './view.ts'

const { outsideMm } = yardBox.body

describe('views of the box', () => {
  for (const side of SIDES)
    test(`${side}: inside and outside are mirror images of each other, and neither is upside down`, () => {
      const [inside, outside] = [sideView(side, 'inside', outsideMm), sideView(side, 'outside', outsideMm)]
      const wide = yardBox.body.sides[side].alongMm
      for (const [along, up] of [
        [0, 0],
        [123, 456],
        [wide, 789],
      ] as const) {
        const point = onFace(side, outsideMm, along, up)
        const [a, b] = [inside.at(point), outside.at(point)]
        expect(a[0]).toBeCloseTo(wide - b[0], 9)
        expect(a[1]).toBeCloseTo(b[1], 9)
      }
      expect([inside.eye.axis, inside.eye.sign]).toEqual([outside.eye.axis, outside.eye.sign === 1 ? -1 : 1])
    })

  test('the eye stands where the face is looked at from: outside beyond it, inside within', () => {
    // Left is that of a person in the cargo doors who looks in: y = 0, so from outside the eye lies towards less y.
    expect(sideView('left', 'outside', outsideMm).eye).toEqual({ axis: 1, sign: -1 })
    expect(sideView('right', 'outside', outsideMm).eye).toEqual({ axis: 1, sign: 1 })
    expect(sideView('blind end', 'outside', outsideMm).eye).toEqual({ axis: 0, sign: -1 })
    expect(sideView('door end', 'outside', outsideMm).eye).toEqual({ axis: 0, sign: 1 })
    expect(sideView('roof', 'inside', outsideMm).eye).toEqual({ axis: 2, sign: -1 })
    expect(sideView('floor', 'inside', outsideMm).eye).toEqual({ axis: 2, sign: 1 })
    expect(planView(outsideMm).eye).toEqual({ axis: 2, sign: 1 })
  })

  test('from outside the blind end is left on the left long side and right on the right one', () => {
    const near = (side: 'left' | 'right') => sideView(side, 'outside', outsideMm).at(onFace(side, outsideMm, 0, 0))[0]
    expect(near('left')).toBe(0)
    expect(near('right')).toBe(outsideMm[0])
  })

  test('an upright box covers its true rectangle', () => {
    const { low, high } = covers(sideView('left', 'inside', outsideMm), [1400, 85, 730], [1910, 235, 2250])
    expect(high[0] - low[0]).toBeCloseTo(510, 9)
    expect(high[1] - low[1]).toBeCloseTo(1520, 9)
  })

  test('isometric: the two level axes rise and fall by 30°, the third stands upright, and all keep their lengths', () => {
    const axes = (
      [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const
    ).map(isometric)
    const bearings = axes.map(([x, y]) => (Math.atan2(y, x) * 180) / Math.PI)
    for (const [x, y] of axes) expect(Math.hypot(x, y)).toBeCloseTo(1, 12)
    expect(bearings[1]! - bearings[0]!).toBeCloseTo(60, 9)
    expect(bearings[2]! - bearings[1]!).toBeCloseTo(60, 9)
  })
})
