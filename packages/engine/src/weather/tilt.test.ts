import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Fault } from '../kernel/index.ts'
import {
  airMassRatio,
  anglesOf,
  type Brightness,
  beamOnPlaneWPerM2,
  brightHorizonParts,
  cosBetween,
  fillBrightness,
  groundOnPlaneWPerM2,
  hayDaviesParts,
  hayDaviesWPerM2,
  isotropicWPerM2,
  perezParts,
  perezWPerM2,
  planeNormal,
  skyViewFrac,
  towardSun,
} from './index.ts'

const OUTSIDE = 1361

/** Sun over 6° to overhead, light as an hour may bring it, a plane of any slope and bearing. */
const scene = fc
  .record({
    hourAngle: fc.double({ min: -1.8, max: 1.8, noNaN: true }),
    declination: fc.double({ min: -0.409, max: 0.409, noNaN: true }),
    latitudeDeg: fc.double({ min: -60, max: 60, noNaN: true }),
    beamWPerM2: fc.double({ min: 0, max: 1100, noNaN: true }),
    diffuseWPerM2: fc.double({ min: 1, max: 500, noNaN: true }),
    slopeDeg: fc.double({ min: 0, max: 180, noNaN: true }),
    facesDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  })
  .map((one) => ({
    ...one,
    sun: towardSun({ latitudeDeg: one.latitudeDeg, declinationRad: one.declination, hourAngleRad: one.hourAngle }),
  }))
  .filter(({ sun }) => sun.upRatio > 0.1)

function skyOn(
  one: { sun: ReturnType<typeof towardSun>; beamWPerM2: number; diffuseWPerM2: number },
  slopeDeg: number,
  facesDeg: number,
) {
  const { sun, beamWPerM2, diffuseWPerM2 } = one
  const normal = planeNormal({ slopeDeg, facesDeg })
  const cosIncidence = cosBetween(sun, normal)
  const cosSlope = normal.upRatio
  const { zenithDeg } = anglesOf(sun)
  const brightness: Brightness = { sunRatio: 0, horizonRatio: 0 }
  fillBrightness(brightness, beamWPerM2, diffuseWPerM2, OUTSIDE, (zenithDeg * Math.PI) / 180, airMassRatio(zenithDeg))
  const sinSlope = Math.sqrt(Math.max(0, 1 - cosSlope * cosSlope))
  const light = { beamWPerM2, diffuseWPerM2, outsideWPerM2: OUTSIDE, cosIncidence, upRatio: sun.upRatio, cosSlope }
  return {
    ...{ brightness, light, cosIncidence, cosSlope },
    even: isotropicWPerM2(diffuseWPerM2, cosSlope),
    hayDavies: hayDaviesWPerM2(beamWPerM2, diffuseWPerM2, OUTSIDE, cosIncidence, sun.upRatio, cosSlope),
    perez: perezWPerM2(brightness, diffuseWPerM2, cosIncidence, sun.upRatio, cosSlope, sinSlope),
  }
}

describe('light on planes', () => {
  test('a level plane takes the global light, by every form of the sky', () => {
    fc.assert(
      fc.property(scene, (one) => {
        const on = skyOn(one, 0, one.facesDeg)
        const global = one.beamWPerM2 * one.sun.upRatio + one.diffuseWPerM2
        const rest = beamOnPlaneWPerM2(one.beamWPerM2, on.cosIncidence) + groundOnPlaneWPerM2(global, 0.6, on.cosSlope)
        for (const sky of [on.even, on.hayDavies, on.perez]) expect(rest + sky).toBeCloseTo(global, 6)
      }),
      { seed: 6, numRuns: 1000 },
    )
  })

  test('a mirrored plane under a mirrored sun takes the same', () => {
    fc.assert(
      fc.property(scene, (one) => {
        const mirrored = { ...one, sun: { ...one.sun, eastRatio: -one.sun.eastRatio } }
        const [a, b] = [skyOn(one, one.slopeDeg, one.facesDeg), skyOn(mirrored, one.slopeDeg, 360 - one.facesDeg)]
        expect(b.hayDavies).toBeCloseTo(a.hayDavies, 6)
        expect(b.perez).toBeCloseTo(a.perez, 6)
        expect(b.cosIncidence).toBeCloseTo(a.cosIncidence, 9)
      }),
      { seed: 7, numRuns: 1000 },
    )
  })

  test('parts sum to the whole, none but the horizon is negative, and the brightness around the sun stays within 0 to 1', () => {
    fc.assert(
      fc.property(scene, (one) => {
        const on = skyOn(one, one.slopeDeg, one.facesDeg)
        expect(on.brightness.sunRatio).toBeGreaterThanOrEqual(0)
        expect(on.brightness.sunRatio).toBeLessThanOrEqual(1)
        const perez = perezParts({ ...on.light, ...on.brightness })
        expect(Math.min(perez.evenWPerM2, perez.sunWPerM2)).toBeGreaterThanOrEqual(0)
        expect(on.perez).toBeCloseTo(Math.max(0, perez.evenWPerM2 + perez.sunWPerM2 + perez.horizonWPerM2), 6)
        const hay = hayDaviesParts(on.light)
        expect(on.hayDavies).toBeCloseTo(hay.evenWPerM2 + hay.sunWPerM2, 6)
        expect(brightHorizonParts(on.light).evenWPerM2).toBeGreaterThanOrEqual(hay.evenWPerM2)
      }),
      { seed: 8, numRuns: 1000 },
    )
  })

  test('a wall and its opposite see the whole sky and the whole ground between them', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 180, noNaN: true }), (slopeDeg) => {
        const c = planeNormal({ slopeDeg, facesDeg: 0 }).upRatio
        expect(skyViewFrac(c) + skyViewFrac(-c)).toBeCloseTo(1, 12)
        expect(groundOnPlaneWPerM2(500, 0.2, c) + groundOnPlaneWPerM2(500, 0.2, -c)).toBeCloseTo(100, 9)
      }),
      { seed: 9 },
    )
    expect(groundOnPlaneWPerM2(500, 0.2, -1)).toBe(100)
    expect(beamOnPlaneWPerM2(800, -0.5)).toBe(0)
  })

  test('where the printed coefficients would take more than the whole sky to the sun, it is held at the whole', () => {
    const brightness: Brightness = { sunRatio: 0, horizonRatio: 0 }
    // ε 3.5 (bin 6), Δ 0.018, sun nearly overhead: 1.132 − 1.237·0.018 − 0.412·0.1 = 1.068.
    fillBrightness(brightness, 62.5, 25, OUTSIDE, 0.1, 1)
    expect(brightness.sunRatio).toBe(1)
    // And where they would be negative, bin 1 at a low sun: −0.008 + 0.588 Δ − 0.062 z.
    fillBrightness(brightness, 0, 10, OUTSIDE, 1.5, 2)
    expect(brightness.sunRatio).toBe(0)
  })

  test('at night, and without sky light, there is none on any plane', () => {
    const brightness: Brightness = { sunRatio: 9, horizonRatio: 9 }
    fillBrightness(brightness, 500, 0, OUTSIDE, 1, 2)
    expect(brightness).toEqual({ sunRatio: 0, horizonRatio: 0 })
    expect(perezWPerM2(brightness, 0, 0.5, 0.5, 0, 1)).toBe(0)
    expect(hayDaviesWPerM2(0, 0, OUTSIDE, 0.5, 0.5, 0)).toBe(0)
  })

  test('negative light and no light outside are refused', () => {
    const codes = [
      () => fillBrightness({ sunRatio: 0, horizonRatio: 0 }, -1, 10, OUTSIDE, 1, 2),
      () => fillBrightness({ sunRatio: 0, horizonRatio: 0 }, 1, Number.NaN, OUTSIDE, 1, 2),
      () => fillBrightness({ sunRatio: 0, horizonRatio: 0 }, 1, 10, 0, 1, 2),
      () => hayDaviesParts({ beamWPerM2: 1, diffuseWPerM2: -1, outsideWPerM2: 1, cosIncidence: 1, upRatio: 1, cosSlope: 1 }),
    ].map((run) => {
      try {
        run()
      } catch (thrown) {
        return (thrown as Fault).code
      }
      return 'nothing thrown'
    })
    expect(codes).toEqual(codes.map(() => 'weather/light-range'))
  })
})
