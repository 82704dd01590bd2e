import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { balanceByHalvingPa, balancePa, crackFlowM3s, type FlowPaths, flowPaths, holeFlowM3s, netFlowKgS } from './index.ts'

const path = fc.record({
  drive: fc.double({ min: -60, max: 60, noNaN: true }),
  size: fc.double({ min: 1e-5, max: 0.3, noNaN: true }),
  denser: fc.double({ min: 0.7, max: 1.4, noNaN: true }),
})

const made = (holes: readonly any[], cracks: readonly any[]): FlowPaths => {
  const paths = flowPaths(holes.length, cracks.length, 0.65)
  ;[...holes, ...cracks].forEach((one, i) => {
    paths.drivePa[i] = one.drive
    paths.inKgS[i] = one.size
    paths.outKgS[i] = one.size * one.denser
  })
  return paths
}

describe('one inside pressure for many openings', () => {
  test('random openings: the sure road and the fast road agree, from any start, and nothing is left over', () => {
    fc.assert(
      fc.property(
        fc.array(path, { minLength: 1, maxLength: 9 }),
        fc.array(path, { maxLength: 4 }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        (holes, cracks, start) => {
          const paths = made(holes, cracks)
          const sure = balanceByHalvingPa(paths)
          const all = paths.flowKgS.reduce((sum, one) => sum + Math.abs(one), 0)
          expect(Math.abs(netFlowKgS(paths, sure))).toBeLessThanOrEqual(1e-9 * all + 1e-10)
          const fast = balancePa(paths, start)
          expect(Math.abs(fast - sure)).toBeLessThan(1e-9)
          expect(Math.abs(netFlowKgS(paths, fast))).toBeLessThanOrEqual(1e-9 * all + 1e-10)
        },
      ),
      { seed: 4, numRuns: 3000 },
    )
  })

  test('a great hole between two small ones: Newton alone would circle it, the bracket comes down on it in under 60 steps', () => {
    for (const small of [1e-2, 1e-3, 1e-4, 1e-5])
      for (const start of [-39, -20, -1, 1, 20, 39]) {
        const paths = made(
          [
            { drive: 0, size: 0.3, denser: 1 },
            { drive: 40, size: small, denser: 0.9 },
            { drive: -40, size: 2 * small, denser: 1.1 },
          ],
          [],
        )
        const sure = balanceByHalvingPa(paths)
        expect(Math.abs(balancePa(paths, start) - sure)).toBeLessThan(1e-9)
      }
  })

  test('one opening alone passes nothing', () => {
    const paths = made([{ drive: 3, size: 0.1, denser: 1 }], [])
    expect(balancePa(paths, 0)).toBe(3)
    expect(paths.flowKgS[0]).toBe(0)
  })

  test('a hole and a crack follow their laws with the sign of the pressure', () => {
    expect(holeFlowM3s(4, 0.01, 0.6, 1.2)).toBeCloseTo(0.01549, 5)
    expect(holeFlowM3s(-4, 0.01, 0.6, 1.2)).toBe(-holeFlowM3s(4, 0.01, 0.6, 1.2))
    expect(crackFlowM3s(4, 0.02, 0.65)).toBeCloseTo(0.02 * 4 ** 0.65, 12)
    for (const dp of [0.00999999999, 0.01000000001]) expect(holeFlowM3s(dp, 1, 1, 2)).toBeCloseTo(0.1, 8)
    expect(() => holeFlowM3s(Number.NaN, 1, 1, 1)).toThrow('air/hole-range')
    expect(() => crackFlowM3s(1, 1, 0.4)).toThrow('air/crack-range')
  })
})

describe('a larger opening', () => {
  const grown = (paths: FlowPaths, nth: number, times: number): FlowPaths => {
    const more = {
      ...paths,
      inKgS: paths.inKgS.slice(),
      outKgS: paths.outKgS.slice(),
      flowKgS: new Float64Array(paths.pathsCount),
    }
    more.inKgS[nth]! *= times
    more.outKgS[nth]! *= times
    return more
  }
  const comesIn = (paths: FlowPaths) => paths.flowKgS.reduce((sum, one) => sum + Math.max(one, 0), 0)

  test('never passes less where all else stands, and the room as a whole never gets less air', () => {
    fc.assert(
      fc.property(
        fc.array(path, { minLength: 1, maxLength: 6 }),
        fc.array(path, { maxLength: 4 }),
        fc.nat(),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (holes, cracks, pick, times) => {
          const paths = made(holes, cracks)
          const nth = pick % paths.pathsCount
          balanceByHalvingPa(paths)
          const more = grown(paths, nth, times)
          balanceByHalvingPa(more)
          const least = (was: number) => was * (1 - 1e-9) - 1e-9
          expect(Math.abs(more.flowKgS[nth]!)).toBeGreaterThanOrEqual(least(Math.abs(paths.flowKgS[nth]!)))
          expect(comesIn(more)).toBeGreaterThanOrEqual(least(comesIn(paths)))
        },
      ),
      { seed: 8, numRuns: 600 },
    )
  })

  test('may take air from another that pulls the same way: what is shown at one vent may fall while the room gets more', () => {
    const three = [
      { drive: 5, size: 0.02, denser: 1 },
      { drive: 4, size: 0.02, denser: 1 },
      { drive: 0, size: 0.02, denser: 1 },
    ]
    const paths = made(three, [])
    balanceByHalvingPa(paths)
    const more = grown(paths, 0, 3)
    balanceByHalvingPa(more)
    expect(more.flowKgS[1]!).toBeLessThan(paths.flowKgS[1]! / 2)
    expect(comesIn(more)).toBeGreaterThan(comesIn(paths))
  })
})
