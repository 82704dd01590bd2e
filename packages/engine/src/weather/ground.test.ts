import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Fault } from '../kernel/index.ts'
import {
  diffusivityM2PerD,
  groundC,
  groundFaceC,
  reflectanceFrac,
  snowConductivityWPerMK,
  snowResistanceM2KPerW,
  waveOfMonths,
} from './index.ts'

const codeOf = (run: () => unknown): string => {
  try {
    run()
  } catch (thrown) {
    return (thrown as Fault).code
  }
  return 'nothing thrown'
}
const wave = { meanC: 8, swingK: 14, coldestDayD: 30 }

test('temperatures in the ground obey the equation of heat: dT/dt = a·d²T/dz², by differences', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 6, noNaN: true }),
      fc.double({ min: 1, max: 365, noNaN: true }),
      fc.double({ min: 0.02, max: 0.2, noNaN: true }),
      (depthM, dayD, diffusivity) => {
        const at = (z: number, d: number) => groundC({ ...wave, depthM: z, diffusivityM2PerD: diffusivity, dayD: d })
        const [dz, dt] = [1e-3, 1e-2]
        const inTime = (at(depthM, dayD + dt) - at(depthM, dayD - dt)) / (2 * dt)
        const inDepth = (at(depthM + dz, dayD) - 2 * at(depthM, dayD) + at(depthM - dz, dayD)) / (dz * dz)
        expect(Math.abs(inTime - diffusivity * inDepth)).toBeLessThan(1e-5)
      },
    ),
    { seed: 5, numRuns: 500 },
  )
})

test('coldest on its day at the surface, the mean for ever deep down', () => {
  const loam = diffusivityM2PerD('moist loam')
  expect(groundC({ ...wave, depthM: 0, diffusivityM2PerD: loam, dayD: 30 })).toBeCloseTo(-6, 9)
  expect(groundC({ ...wave, depthM: 0, diffusivityM2PerD: loam, dayD: 212.5 })).toBeCloseTo(22, 9)
  expect(groundC({ ...wave, depthM: 60, diffusivityM2PerD: loam, dayD: 100 })).toBeCloseTo(8, 4)
})

test('the wave through monthly means is the wave that they were made of', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -15, max: 28, noNaN: true }),
      fc.double({ min: 0.5, max: 30, noNaN: true }),
      fc.double({ min: 1, max: 364, noNaN: true }),
      (meanC, swingK, coldestDayD) => {
        const days = 1200
        const monthly = Array.from({ length: 12 }, (_, m) => {
          let sum = 0
          for (let k = 0; k < days; k++) {
            const dayD = ((m + (k + 0.5) / days) / 12) * 365
            sum += meanC - swingK * Math.cos((2 * Math.PI * (dayD - coldestDayD)) / 365)
          }
          return sum / days
        })
        const found = waveOfMonths(monthly)
        expect(found.meanC).toBeCloseTo(meanC, 6)
        expect(found.swingK).toBeCloseTo(swingK, 4)
        expect(found.coldestDayD).toBeCloseTo(coldestDayD, 3)
      },
    ),
    { seed: 6, numRuns: 50 },
  )
})

test('snow throws back more than bare ground, and stays at melting; denser snow lets more heat through', () => {
  expect(reflectanceFrac('fresh snow')).toBeGreaterThan(reflectanceFrac('grass'))
  expect(groundFaceC(5, 400, true)).toBe(0)
  expect(groundFaceC(-7, 400, true)).toBe(-7)
  expect(groundFaceC(5, 400, false)).toBe(13)
  expect(snowConductivityWPerMK(917)).toBeCloseTo(2.22, 9)
  for (let rho = 60; rho < 900; rho += 20) {
    expect(snowConductivityWPerMK(rho + 10)).toBeGreaterThan(snowConductivityWPerMK(rho))
  }
  expect(snowResistanceM2KPerW({ snowKgPerM3: 200, depthM: 0 })).toBe(0)
})

test('surfaces and soils that are not in the tables, eleven months and snow heavier than ice are refused', () => {
  expect(codeOf(() => reflectanceFrac('marble'))).toBe('weather/no-row')
  expect(codeOf(() => diffusivityM2PerD('air gap under the box: air at outside temperature, ground face by Kusuda'))).toBe(
    'weather/no-number',
  )
  expect(codeOf(() => waveOfMonths(Array(11).fill(5)))).toBe('weather/ground-range')
  expect(codeOf(() => groundC({ ...wave, depthM: -1, diffusivityM2PerD: 0.05, dayD: 1 }))).toBe('weather/ground-range')
  expect(codeOf(() => groundC({ ...wave, depthM: 1, diffusivityM2PerD: 0.05, dayD: Number.NaN }))).toBe('weather/ground-range')
  for (const rho of [40, 918, Number.NaN]) expect(codeOf(() => snowConductivityWPerMK(rho))).toBe('weather/snow-range')
  expect(codeOf(() => snowResistanceM2KPerW({ snowKgPerM3: 200, depthM: -1 }))).toBe('weather/snow-range')
})
