import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { numberIn, rowOf } from '../shelf.ts'
import {
  balancePa,
  fanCoefficientM3s,
  fanDrivePa,
  fanFlowM3s,
  flowPaths,
  motorA,
  motorRpm,
  panelA,
  panelKneeV,
  STALL_FRAC,
  solarFanAt,
  solarSpeeds,
  speedAtFrac,
} from './index.ts'

const CURVE = { freeFlowM3s: 0.14, shutPa: 45 }
const item = (name: string) => numberIn(rowOf('fan-panel', name), 'value')
const PANEL = {
  lightWPerM2: item('panel: irradiance of the data'),
  shortA: item('panel: short-circuit current'),
  openV: item('panel: open-circuit voltage'),
  bestW: item('panel: greatest power'),
  bestV: item('panel: voltage there'),
}
const MOTOR = {
  armatureOhm: item('motor 24 V 20.3 W: armature'),
  speedVPerRpm: item('motor 24 V 20.3 W: voltage per speed'),
  loadNmPerRpm2: item('motor 24 V 20.3 W: load torque'),
}

describe('a fan as one more path of the balance', () => {
  /** A fan out at full or part speed and one hole in. */
  const run = (areaM2: number, speed: number) => {
    const rho = 1.2
    const paths = flowPaths(2, 0, 0.65)
    paths.drivePa.set([0, fanDrivePa(CURVE.shutPa, speed, 'out')])
    paths.inKgS.set([0.6 * areaM2 * Math.sqrt(2 * rho), fanCoefficientM3s(CURVE) * rho])
    paths.outKgS.set(paths.inKgS)
    const p = balancePa(paths, 0)
    return { p, outM3s: -paths.flowKgS[1]! / rho }
  }

  test('with nothing in its way it blows free, shut in it holds its shut pressure', () => {
    expect(run(100, 1).outM3s).toBeCloseTo(0.14, 5)
    expect(run(1e-7, 1).p).toBeCloseTo(-45, 3)
  })

  test('between, its flow is that of its own curve against the pressure it makes', () => {
    for (const area of [0.005, 0.02, 0.1])
      for (const speed of [0.3, 1]) {
        const { p, outM3s } = run(area, speed)
        expect(outM3s).toBeCloseTo(fanFlowM3s(CURVE, -p, speed), 9)
      }
    expect(run(0.02, 0.5).outM3s / run(0.02, 1).outM3s).toBeCloseTo(0.5, 9)
  })

  test('the wind that beats it blows back through it', () => {
    expect(fanFlowM3s(CURVE, 60, 1)).toBeLessThan(0)
    expect(fanFlowM3s(CURVE, 45, 1)).toBe(0)
    expect(() => fanFlowM3s(CURVE, Number.NaN, 1)).toThrow('air/fan-range')
    expect(() => fanCoefficientM3s({ freeFlowM3s: 0, shutPa: 1 })).toThrow('air/fan-range')
  })
})

describe('a fan on a panel', () => {
  test('where they meet, the panel gives what the motor takes', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 1200, noNaN: true }), (light) => {
        const { voltageV, currentA, rpm } = solarFanAt(PANEL, MOTOR, light, 0)
        expect(panelA(PANEL, panelKneeV(PANEL), voltageV, light)).toBeCloseTo(currentA, 9)
        expect(MOTOR.armatureOhm * currentA + MOTOR.speedVPerRpm * rpm).toBeCloseTo(voltageV, 9)
      }),
      { seed: 10 },
    )
  })

  test('a panel’s best point is on its curve', () => {
    expect(panelA(PANEL, panelKneeV(PANEL), PANEL.bestV, PANEL.lightWPerM2) * PANEL.bestV).toBeCloseTo(PANEL.bestW, 9)
  })

  test('no sun, no flow; a fan that sticks stays until there is light enough', () => {
    expect(solarFanAt(PANEL, MOTOR, 0, 0).rpm).toBe(0)
    const startA = STALL_FRAC * 0.846
    expect(solarFanAt(PANEL, MOTOR, 150, startA).rpm).toBe(0)
    expect(solarFanAt(PANEL, MOTOR, 300, startA).rpm).toBeGreaterThan(0)
    expect(motorRpm(MOTOR, -1)).toBe(0)
    expect(motorA(MOTOR, 0)).toBe(0)
  })

  test('more light never slows it; the list for loops reads as the point itself', () => {
    const speeds = solarSpeeds(PANEL, MOTOR, 0)
    for (let i = 1; i < speeds.length; i++) expect(speeds[i]!).toBeGreaterThanOrEqual(speeds[i - 1]!)
    expect(speedAtFrac(speeds, 750)).toBeCloseTo(1, 12)
    const exact = solarFanAt(PANEL, MOTOR, 412, 0).rpm / solarFanAt(PANEL, MOTOR, 750, 0).rpm
    expect(speedAtFrac(speeds, 412)).toBeCloseTo(exact, 3)
    expect(speedAtFrac(speeds, 5000)).toBe(speeds.at(-1))
    expect(() => speedAtFrac(speeds, -1)).toThrow('air/fan-range')
  })
})
