import { describe, expect, test } from 'vitest'
import { seeded } from '../kernel/index.ts'
import { bridle, diagonalShareFrac, evenCornerShareFrac, legTension, meanLegDeg, twoPointShare } from './slings.ts'
import { type Place, threeLegTensionsN, threeSupportsN, type Vector, worstOfFourN } from './statics.ts'

const W = 30_000
const random = seeded(7)
const { between } = random

/** Sum of the pulls of slings from points to a hook, less the weight they hold: nothing, where they stand still. */
function residualN(hook: Vector, points: readonly Vector[], pulls: readonly number[], weightN: number): number {
  const sum = [0, 0, -weightN]
  points.forEach((point, i) => {
    const way = [hook[0] - point[0], hook[1] - point[1], hook[2] - point[2]]
    const length = Math.hypot(...way)
    for (let axis = 0; axis < 3; axis += 1) sum[axis] = (sum[axis] ?? 0) + ((pulls[i] ?? 0) * (way[axis] ?? 0)) / length
  })
  return Math.hypot(...sum)
}

test('300 random tetrahedra of three slings and a hook: pulls and weight sum to nothing', () => {
  let worst = 0
  for (let i = 0; i < 300; i += 1) {
    const hook: Vector = [between(-1, 1), between(-1, 1), between(3, 6)]
    const points = [
      [between(-4, -1), between(-2, -1), between(-0.5, 0.5)],
      [between(1, 4), between(-2, -1), between(-0.5, 0.5)],
      [between(-1, 1), between(1, 3), between(-0.5, 0.5)],
    ] as const satisfies readonly Vector[]
    const pulls = threeLegTensionsN(hook, points as never, W)
    worst = Math.max(worst, residualN(hook, points, pulls, W) / W)
  }
  expect(worst).toBeLessThan(1e-12)
})

test('three even slings pull W/(3·sin α), to nine digits', () => {
  for (const deg of [30, 45, 60, 75]) {
    const hook: Vector = [0, 0, Math.tan((deg * Math.PI) / 180)]
    const at = (turn: number): Vector => [Math.cos(turn), Math.sin(turn), 0]
    const pulls = threeLegTensionsN(hook, [at(0), at((2 * Math.PI) / 3), at((4 * Math.PI) / 3)], W)
    for (const pull of pulls) expect(pull / (W / (3 * Math.sin((deg * Math.PI) / 180)))).toBeCloseTo(1, 9)
  }
})

test('slings that lie in one plane are refused', () => {
  const flat: [Vector, Vector, Vector] = [
    [-1, 0, 0],
    [1, 0, 0],
    [0, 0, 0],
  ]
  expect(() => threeLegTensionsN([0, 0, 2], flat, W)).toThrow(/haul\/slings-flat/)
})

test('300 random triangles of supports: forces and moments sum to nothing', () => {
  for (let i = 0; i < 300; i += 1) {
    const points: [Place, Place, Place] = [
      [between(-3, -1), between(-2, 0)],
      [between(1, 3), between(-2, 0)],
      [between(-1, 1), between(1, 3)],
    ]
    const at: Place = [between(-4, 4), between(-4, 4)]
    const forces = threeSupportsN(points, at, W)
    const moment = (axis: 0 | 1): number => forces.reduce((sum, f, k) => sum + f * ((points[k] as Place)[axis] - at[axis]), 0)
    expect(Math.abs(forces[0] + forces[1] + forces[2] - W) / W).toBeLessThan(1e-12)
    expect(Math.abs(moment(0)) / W).toBeLessThan(1e-11)
    expect(Math.abs(moment(1)) / W).toBeLessThan(1e-11)
  }
})

describe('four supports under a stiff box', () => {
  const [l, w] = [5.853, 2.259]
  const corners: [Place, Place, Place, Place] = [
    [0, 0],
    [0, w],
    [l, w],
    [l, 0],
  ]

  test('the worst corner of 300 random centres: between the even share and the diagonal rule, and as the closed form', () => {
    for (let i = 0; i < 300; i += 1) {
      const [el, ew] = [between(-1.2, 1.2), between(-0.5, 0.5)]
      const four = { lengthM: l, widthM: w, offLengthM: el, offWidthM: ew }
      const worst = worstOfFourN(corners, [l / 2 + el, w / 2 + ew], W) / W
      expect(worst).toBeGreaterThanOrEqual(evenCornerShareFrac(four) - 1e-12)
      expect(worst).toBeLessThanOrEqual(diagonalShareFrac(four) + 1e-12)
      // One free force t along the diagonals, each of four at least 0: greatest corner ½ + 2·min(|e|/2L, |e|/2W) while that exceeds the even one.
      const [u, v] = [Math.abs(el) / (2 * l), Math.abs(ew) / (2 * w)]
      expect(worst).toBeCloseTo(0.5 + 2 * Math.min(u, v), 9)
    }
  })

  test('a centre in the middle: half on one corner, not a quarter', () => {
    expect(worstOfFourN(corners, [l / 2, w / 2], W)).toBeCloseTo(W / 2, 9)
  })

  test('a centre outside the four is no standing at all', () => {
    expect(() => worstOfFourN(corners, [l + 0.1, w / 2], W)).toThrow(/haul\/over-no-support/)
  })
})

test('a bridle keeps its level pulls equal and holds all, whatever the offset; its near leg is the exact one', () => {
  for (let i = 0; i < 200; i += 1) {
    const [d1M, d2M, hookM] = [between(0.2, 4), between(0.2, 4), between(1, 6)]
    const [s1M, s2M] = [Math.hypot(d1M, hookM), Math.hypot(d2M, hookM)]
    const legs = bridle({ load: W, d1M, d2M, hookM, s1M, s2M })
    expect(legs.level1 / legs.level2).toBeCloseTo(1, 9)
    expect((legs.t1 * hookM) / s1M + (legs.t2 * hookM) / s2M).toBeCloseTo(W, 6)
    const share = twoPointShare({ load: W, nearM: d1M, farM: d2M })
    expect(legTension(share.near, meanLegDeg(hookM, d1M)) / legs.t1).toBeCloseTo(1, 9)
  }
})
