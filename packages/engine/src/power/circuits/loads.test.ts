import { expect, test } from 'vitest'
import { rulesFor } from '../../rules/index.ts'
import { byNature, natural, onSlots, plugLoad, SLOTS } from './loads.ts'
import { plugOf } from './yards.fixture.ts'

const us = rulesFor('us')

test.each([
  [0.2, 0.45],
  [0.3, 0.55],
  [0.4, 0.63],
  [0.5, 0.71],
  [0.6, 0.78],
])('a welder at duty %f counts with %f of its rated current', (duty, multiplier) => {
  // Multipliers as printed for an arc welder with transformer (NEC 630.11(A)), two digits, 0.6 rounded up.
  const load = plugLoad(plugOf({ tag: 'W', powerW: 9600, voltageV: 240, pf: 0.8, kind: 'welder', dutyFrac: duty }), us)
  expect(Math.abs(load.currentA / 50 - multiplier)).toBeLessThanOrEqual(0.0055)
  expect([load.continuousA, load.otherA]).toEqual([0, load.currentA])
})

test('a heater on a two-hour timer is continuous all the same, a pump of one hour is not', () => {
  const heater = plugLoad(plugOf({ tag: 'H', powerW: 1500, voltageV: 120, hoursPerDay: 2 }), us)
  expect(heater.continuousA).toBe(12.5)
  const pump = plugLoad(
    plugOf({ tag: 'P', powerW: 900, voltageV: 120, pf: 0.57, kind: 'motor', use: 'pump', hoursPerDay: 1 }),
    us,
  )
  expect(pump.continuousA).toBe(0)
})

test('a run across midnight is on in both halves of the day', () => {
  const on = onSlots(23, 4)
  expect(on.filter(Boolean).length).toBe(16)
  expect([on[91], on[92], on[0], on[11], on[12]]).toEqual([false, true, true, true, false])
})

test('a start between quarter hours counts in every quarter it touches', () => {
  const on = onSlots(6.1, 0.5)
  expect(on.map((x, t) => (x ? t : -1)).filter((t) => t >= 0)).toEqual([24, 25, 26])
})

test('all day is all day', () => {
  expect(onSlots(5, 24).filter(Boolean).length).toBe(SLOTS)
})

test('names decide only among equals: a heavier machine comes first whatever it is called', () => {
  const light = plugOf({ tag: 'A1', powerW: 100, voltageV: 120 }),
    heavy = plugOf({ tag: 'Z9', powerW: 1500, voltageV: 120 })
  expect([light, heavy].sort(byNature)[0]).toBe(heavy)
  expect(['G10', 'G2', 'G1'].sort(natural)).toEqual(['G1', 'G2', 'G10'])
})
