import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  balancePa,
  carryingFlowM3s,
  columnPa,
  decayLeakM3s,
  dischargeOf,
  doorFlowM3s,
  flowPaths,
  holeFlowM3s,
  leakOfChangesM3s,
  neededOpeningM2,
  neutralLevelM,
  oneSidedFlowM3s,
  openingDischargeRatio,
  SHARP_HOLE,
  stackFlowM3s,
} from './index.ts'

const density = (c: number) => 101_325 / 287.042 / (c + 273.15)

describe('two openings over one another', () => {
  const pair = { lowM2: 0.02, highM2: 0.02, heightM: 1.9, dischargeRatio: 0.61, insideC: 30, outsideC: 15 }
  const balanced = (of: typeof pair) => {
    const paths = flowPaths(2, 0, 0.65)
    const [outside, inside] = [density(of.outsideC), density(of.insideC)]
    for (const [i, [area, z]] of (
      [
        [of.lowM2, 0],
        [of.highM2, of.heightM],
      ] as const
    ).entries()) {
      paths.drivePa[i] = -columnPa(outside, inside, z)
      paths.inKgS[i] = of.dischargeRatio * area * Math.sqrt(2 * outside)
      paths.outKgS[i] = of.dischargeRatio * area * Math.sqrt(2 * inside)
    }
    const p = balancePa(paths, 0)
    return { level: -p / columnPa(outside, inside, 1), inM3s: Math.max(...paths.flowKgS) / outside }
  }

  test('the neutral level of the balance is the printed formula’s, mass for mass', () => {
    for (const highM2 of [0.005, 0.02, 0.06]) {
      const of = { ...pair, highM2 }
      expect(balanced(of).level).toBeCloseTo(neutralLevelM(of), 6)
    }
    // Lighter air needs more pressure to leave: below the middle.
    expect(neutralLevelM(pair)).toBeCloseTo(0.926, 3)
    expect(neutralLevelM({ ...pair, insideC: 15, outsideC: 30 })).toBeCloseTo(1.9 - 0.926, 3)
  })

  test('the hand rule’s flow is within 3 % of the balance', () => {
    expect(Math.abs(stackFlowM3s(pair) / balanced(pair).inM3s - 1)).toBeLessThan(0.03)
  })

  test('as warm inside as outside, nothing flows', () => {
    expect(stackFlowM3s({ ...pair, insideC: 15 })).toBe(0)
    expect(doorFlowM3s(0.9, 2, 0.5, 0, 0)).toBe(0)
    expect(() => stackFlowM3s({ ...pair, lowM2: 0 })).toThrow('air/stack-range')
  })
})

describe('one opening, many needs', () => {
  test('an open door swaps the air of a 20 ft box in under a minute and a half at 40 K, both ways counted', () => {
    expect(33.1 / doorFlowM3s(0.9, 2, 0.5, 40, 0)).toBeLessThan(90)
  })

  test('alone on a wall: warmth in calm, wind when it blows', () => {
    const vent = { widthM: 0.3, heightM: 0.3, dischargeRatio: 0.6, differenceK: 5, meanC: 15 }
    expect(oneSidedFlowM3s({ ...vent, windMPerS: 0 })).toBe(doorFlowM3s(0.3, 0.3, 0.6, 5, 15))
    expect(oneSidedFlowM3s({ ...vent, windMPerS: 20 })).toBeCloseTo(0.025 * 0.09 * 20, 12)
  })

  test('600 W at 8 K need two clear openings of about 0.16 m² each, 1.9 m apart', () => {
    const flow = carryingFlowM3s(600, 8, 1.15, 1006)
    const each = Math.SQRT2 * neededOpeningM2(flow, 1.9, 8, 35, 0.6)
    expect(each).toBeGreaterThan(0.14)
    expect(each).toBeLessThan(0.17)
    const pair = { lowM2: each, highM2: each, heightM: 1.9, dischargeRatio: 0.6, insideC: 35, outsideC: 27 }
    expect(stackFlowM3s(pair)).toBeCloseTo(flow, 12)
    expect(() => carryingFlowM3s(1, 0, 1, 1)).toThrow('air/carry-range')
  })

  test('screens and hoods only ever take away; dirt more, slow air more', () => {
    const bare = { opening: SHARP_HOLE, screen: null, cloggedFrac: 0, hood: null, slow: false }
    const screened = { ...bare, screen: '18 x 16 per inch, 0.28 mm wire' }
    const [a, b, c, d, e] = [
      bare,
      screened,
      { ...screened, slow: true },
      { ...screened, cloggedFrac: 0.5 },
      { ...screened, hood: 'hooded vent with mesh, on face area' },
    ].map(openingDischargeRatio)
    expect(a).toBe(dischargeOf(SHARP_HOLE))
    // Table `screens`: 0.89 of a sharp hole's flow is left.
    expect(b! / a!).toBeCloseTo(0.89, 2)
    expect(c!).toBeLessThan(b!)
    expect(d!).toBeLessThan(c!)
    expect(e!).toBeLessThan(0.25)
    expect(openingDischargeRatio({ ...bare, hood: 'hooded vent with mesh, on face area' })).toBeCloseTo(0.25, 12)
  })
})

describe('cracks', () => {
  test('a box that falls from 200 to 100 Pa: the run of its pressure in small steps takes the same time', () => {
    for (const n of [0.5, 0.65, 1]) {
      const c = decayLeakM3s({ volumeM3: 33.1, fromPa: 200, toPa: 100, timeS: 10, exponentRatio: n, airPa: 101_325 })
      let [p, t] = [200, 0]
      while (p > 100) {
        p -= ((c * p ** n * 101_325) / 33.1) * 1e-3
        t += 1e-3
      }
      expect(t).toBeCloseTo(10, 1)
    }
    expect(() => decayLeakM3s({ volumeM3: 33, fromPa: 100, toPa: 100, timeS: 1, exponentRatio: 0.5, airPa: 1e5 })).toThrow(
      'air/leak-range',
    )
  })

  test('5 changes at 50 Pa come back from the flow at 1 Pa', () => {
    const at1 = leakOfChangesM3s(5, 33.1, 0.65)
    expect((at1 * 50 ** 0.65 * 3600) / 33.1).toBeCloseTo(5, 9)
  })

  test('flow rises with pressure, whatever the hole', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true }), (a, b) => {
        expect((holeFlowM3s(a, 0.02, 0.6, 1.2) - holeFlowM3s(b, 0.02, 0.6, 1.2)) * (a - b)).toBeGreaterThanOrEqual(0)
      }),
      { seed: 9 },
    )
  })
})
