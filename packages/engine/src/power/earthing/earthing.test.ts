import { expect, test } from 'vitest'
import { tables } from '../../rules/index.ts'
import {
  buriedWireOhm,
  electrodeEnds,
  ringOhm,
  rodInFrostOhm,
  rodOhm,
  rodsByFactorOhm,
  rodsByLambda,
  soilRatio,
  touchTimeS,
  touchTnV,
  touchTtV,
  twoRodsOhm,
} from './index.ts'

const rod = { soilOhmM: 100, lengthM: 2.44, diameterM: 0.0159 }
const lists = { factors: tables['rod-multiple'].rows, lambdas: tables['rod-lambda'].rows }
const told = (value: number) => ({ low: value, high: value, basis: 'told', told: true })

test('two rods far apart come to half of one, near each other to more', () => {
  const one = rodOhm(rod)
  expect(twoRodsOhm({ ...rod, spacingM: 1000 }) / one).toBeCloseTo(0.5, 3)
  expect(twoRodsOhm({ ...rod, spacingM: 3 })).toBeGreaterThan(one / 2)
  // The printed factor of two rods one length apart, 1.16 (IEEE 142 Table 4-5), against the formula just beyond one length.
  expect((twoRodsOhm({ ...rod, spacingM: 2.45 }) / one) * 2).toBeCloseTo(1.16, 1)
})

test('the hollow square of four rods has λ = 1 + 1 + 1/√2 (BS 7430 Table 3)', () => {
  const four = rodsByLambda({ oneOhm: 50, soilOhmM: 100, spacingM: 5, count: 2, shape: 'hollow square' }, lists.lambdas)
  expect(four.lambdaRatio).toBeCloseTo(2 + 1 / Math.sqrt(2), 2)
  expect(four.rods).toBe(4)
})

test('factors between printed counts lie on a straight line; beyond the table is our own mistake', () => {
  expect(rodsByFactorOhm(100, 6, lists.factors)).toBeCloseTo((100 / 6) * 1.52, 9)
  expect(() => rodsByFactorOhm(100, 25, lists.factors)).toThrow('earthing/rod-count')
  expect(() => rodsByLambda({ oneOhm: 1, soilOhmM: 1, spacingM: 1, count: 11, shape: 'line' }, lists.lambdas)).toThrow(
    'earthing/rod-count',
  )
})

test('a buried wire of half the length lies near twice the value, a ring below the wire of its perimeter', () => {
  const wire = { soilOhmM: 100, lengthM: 20, wireM: 0.0093, depthM: 0.75 }
  expect(buriedWireOhm({ ...wire, lengthM: 10 }) / buriedWireOhm(wire)).toBeGreaterThan(1.6)
  expect(buriedWireOhm(wire)).toBeCloseTo((100 / (Math.PI * 20)) * (Math.log(40 / Math.sqrt(0.0093 * 0.75)) - 1), 9)
  expect(ringOhm({ soilOhmM: 100, perimeterM: 20, wireM: 0.0093, depthM: 0.75 })).toBeGreaterThan(buriedWireOhm(wire))
})

test('frost to nothing is the thawed rod, frost to its tip the frozen one, between it rises', () => {
  const at = (frostM: number) => rodInFrostOhm({ lengthM: 2.44, diameterM: 0.0159, thawedOhmM: 600, frozenOhmM: 4000, frostM })
  expect(at(0)).toBeCloseTo(rodOhm({ ...rod, soilOhmM: 600 }), 9)
  expect(at(3)).toBeCloseTo(rodOhm({ ...rod, soilOhmM: 4000 }), 9)
  // By hand at 1.5 m: 0.94 m thawed beside 1.5 m frozen.
  const hand = 1 / (1 / rodOhm({ ...rod, soilOhmM: 600, lengthM: 0.94 }) + 1 / rodOhm({ ...rod, soilOhmM: 4000, lengthM: 1.5 }))
  expect(at(1.5)).toBeCloseTo(hand, 9)
  expect(at(1.5)).toBeGreaterThan(at(0.5))
})

test('soil at −15 °C is 33 times that at 10 °C, water at 0 °C 1.39 times, ice 3.0 (US Bureau of Standards)', () => {
  const rows = tables['soil-temperature'].rows
  expect(soilRatio(-15, rows)).toBeCloseTo(3300 / 99, 6)
  expect(soilRatio(-40, rows)).toBeCloseTo(3300 / 99, 6)
  expect(soilRatio(0, rows)).toBeCloseTo(138 / 99, 6)
  expect(soilRatio(-1e-9, rows)).toBeCloseTo(300 / 99, 4)
  expect(soilRatio(20, rows)).toBeCloseTo(72 / 99, 6)
  expect(soilRatio(-10, rows)).toBeCloseTo(Math.sqrt(790 * 3300) / 99, 6)
})

test('the electrode of the groomer yard is worst in frost and stays far above 25 Ω at both ends', () => {
  const electrode = {
    kind: 'rods',
    count: 2,
    lengthM: 2.44,
    diameterM: 0.0159,
    spacingM: 3,
    conductor: { size: '6 AWG', metal: 'cu', insulation: 'bare' },
  } as const
  const ends = electrodeEnds(electrode, { soilOhmM: told(600), frozenSoilOhmM: told(4000), frostDepthM: told(1.5) }, lists)
  expect(ends.low).toBeCloseTo(twoRodsOhm({ soilOhmM: 600, lengthM: 2.44, diameterM: 0.0159, spacingM: 3 }), 9)
  expect(ends.high).toBe(ends.frozen?.high)
  expect(ends.high).toBeGreaterThan(ends.thawed.high)
  const dry = electrodeEnds(electrode, { soilOhmM: told(600), frozenSoilOhmM: told(4000), frostDepthM: told(0) }, lists)
  expect(dry.frozen).toBeNull()
})

test('touch voltage: half of 0.8 Uo with equal conductors, RA·IΔn in TT; times by the row at or above', () => {
  expect(touchTnV({ lineEarthV: 230, lineOhm: 1, protectiveOhm: 1 })).toBeCloseTo(92, 9)
  expect(touchTtV({ electrodeOhm: 1666, residualA: 0.03 })).toBeCloseTo(49.98, 6)
  const rows = tables['touch-voltage'].rows
  expect(touchTimeS(50, rows)).toBe(Infinity)
  expect(touchTimeS(51, rows)).toBe(0.6)
  expect(touchTimeS(92, rows)).toBe(0.34)
  expect(touchTimeS(500, rows)).toBe(0)
})
