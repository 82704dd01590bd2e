import { expect, test } from 'vitest'
import { abs, add, cx, type Fault, scale, sub } from '../../kernel/index.ts'
import { rulesFor } from '../../rules/index.ts'
import { halfWindingZ, sequenceLoopZ, terminalLoops } from '../loops.ts'
import { feederZ, generatorZ, transformerCorrectionRatio, transformerZ, withXOverR } from '../plates.ts'
import { faultBoundA, setFaultBoundA } from './fault-bound.ts'
import { comparedA, kappaRatio } from './peak.ts'
import { loopA } from './place.ts'

const wye = rulesFor('us', {}).systems.find((one) => one.id === 'wye 208/120')!

/** Bounds at the printed impedance, tolerance 1 %: as the invented jobs state them. */
const bounds: readonly (readonly [string, number, number])[] = [
  ['groomer yard, 75 kVA 240 V 1.8 %, one phase', faultBoundA({ kVA: 75, voltageV: 240, impedancePct: 1.8, phases: 1 }), 17_360],
  ['fish farm, 200 kVA 400 V 4.5 %', faultBoundA({ kVA: 200, voltageV: 400, impedancePct: 4.5, phases: 3 }), 6_420],
  ['fish farm, 315 kVA 400 V 4.5 %', faultBoundA({ kVA: 315, voltageV: 400, impedancePct: 4.5, phases: 3 }), 10_100],
  ['quarry, 250 kVA 400 V 4 %', faultBoundA({ kVA: 250, voltageV: 400, impedancePct: 4, phases: 3 }), 9_020],
  ['waterworks, 300 kVA 208 V 2.2 %', faultBoundA({ kVA: 300, voltageV: 208, impedancePct: 2.2, phases: 3 }), 37_850],
  ['bus pool, 150 kVA 600 V 3 %', faultBoundA({ kVA: 150, voltageV: 600, impedancePct: 3, phases: 3 }), 4_810],
  ['airstrip, 112.5 kVA 208 V 2.1 %', faultBoundA({ kVA: 112.5, voltageV: 208, impedancePct: 2.1, phases: 3 }), 14_870],
  [
    'winter-road camp, 125 kVA 208 V set, 12 %',
    setFaultBoundA({ kVA: 125, voltageV: 208, subtransientPct: 12, phases: 3 }),
    2_890,
  ],
]
for (const [what, ours, theirs] of bounds) {
  test(`fault bound of ${what}: ${theirs} A within 1 %`, () => expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.01))
}

test('the own 75 kVA transformer of the bus pool gives its 4.63 kA at 4.5 %', () => {
  expect(faultBoundA({ kVA: 75, voltageV: 208, impedancePct: 4.5, phases: 3 }) / 1000).toBeCloseTo(4.63, 2)
})

test('the lowest impedance is nine tenths of the printed one', () => {
  const task = { kVA: 75, voltageV: 240, impedancePct: 1.8, phases: 1 } as const
  expect(faultBoundA({ ...task, lowZ: true }) / faultBoundA(task)).toBeCloseTo(1 / 0.9, 12)
})

test('faults by phase coordinates equal the sums of symmetrical components', () => {
  // A Thevenin source with self impedance s and mutual m per phase: Z1 = Z2 = s − m, Z0 = s + 2m. Faults solved by hand in phase coordinates.
  const E = 230
  const s = cx(0.05, 0.08)
  const m = cx(0.01, 0.02)
  const z1 = sub(s, m)
  const z0 = add(s, scale(m, 2))
  const V = E * Math.sqrt(3)
  const { threePhase, lineLine, lineNeutral } = terminalLoops(wye, z1, z0)
  // Phase a to earth: only a carries current: E / s.
  expect(loopA({ voltageV: E, cRatio: 1, loopZ: lineNeutral! })).toBeCloseTo(E / abs(s), 9)
  expect(sequenceLoopZ(z1, z0)).toEqual(lineNeutral)
  // b to c: Ib = −Ic, driven by V through 2(s − m).
  const bToC = loopA({ voltageV: V, cRatio: 1, loopZ: lineLine })
  expect(bToC).toBeCloseTo(V / abs(scale(sub(s, m), 2)), 9)
  // All three: currents sum to nothing, so each sees s − m.
  const all = loopA({ voltageV: E, cRatio: 1, loopZ: threePhase! })
  expect(all).toBeCloseTo(E / abs(sub(s, m)), 9)
  expect(bToC / all).toBeCloseTo(Math.sqrt(3) / 2, 12)
})

test('a line–neutral fault at a centre tap is 1.33 times the line–line one when all is resistance, 1.67 when all is reactance', () => {
  const ratio = (xOverR: number) => {
    const whole = withXOverR(0.02, xOverR)
    return loopA({ voltageV: 120, cRatio: 1, loopZ: halfWindingZ(whole) }) / loopA({ voltageV: 240, cRatio: 1, loopZ: whole })
  }
  expect(ratio(0)).toBeCloseTo(4 / 3, 3)
  expect(ratio(Infinity)).toBeCloseTo(5 / 3, 3)
})

test('the peak factor runs from 1.02 to 2 and a fault is never counted lower for a low X/R', () => {
  expect(kappaRatio(0)).toBeCloseTo(2, 12)
  expect(kappaRatio(100)).toBeCloseTo(1.02, 12)
  expect(comparedA(9000, 0.5, 10_000)).toBe(9000)
  expect(comparedA(9000, 4.9, 10_000)).toBeCloseTo((9000 * kappaRatio(1 / 4.9)) / kappaRatio(1 / 1.73), 9)
})

test('R and X are kept apart: the magnitude of a sum is below the sum of magnitudes', () => {
  const a = withXOverR(0.01, 0.2)
  const b = withXOverR(0.01, 5)
  expect(abs(add(a, b))).toBeLessThan(0.0171)
})

test('numbers outside their range are our own mistake, with a code', () => {
  const codeOf = (make: () => unknown) => {
    try {
      make()
    } catch (thrown) {
      return (thrown as Fault).code
    }
    return 'none'
  }
  expect(codeOf(() => withXOverR(-1, 2))).toBe('power/impedance-range')
  expect(codeOf(() => withXOverR(Number.NaN, 2))).toBe('power/impedance-range')
  expect(codeOf(() => transformerZ({ ratedVA: 0, voltageV: 240, impedanceFrac: 0.02, xOverRRatio: 1 }))).toBe(
    'power/transformer-range',
  )
  expect(codeOf(() => transformerCorrectionRatio(0, 0.04))).toBe('power/transformer-range')
  expect(codeOf(() => feederZ({ voltageV: 400, shortCircuitA: 0, cRatio: 1, rOverXRatio: 0.1, turnsRatio: 1 }))).toBe(
    'power/feeder-range',
  )
  expect(codeOf(() => generatorZ({ ratedVA: 1, voltageV: 208, subtransientFrac: 0 }))).toBe('power/generator-range')
  expect(codeOf(() => loopA({ voltageV: 230, cRatio: 1, loopZ: cx(0) }))).toBe('faults/no-impedance')
  expect(codeOf(() => kappaRatio(-1))).toBe('faults/peak-range')
})
