import { describe, expect, test } from 'vitest'
import { boxBody } from '../box/index.ts'
import type { YardFacts } from '../job/index.ts'
import { nbcRoofSnow, simpleBeam, tubeSection } from './snow.ts'
import { roofSnowPa, snowOnRoof } from './snow-on-roof.ts'
import { anchorTensionN, broadside, enPeakPressure, roofSuction, tippingPa } from './wind.ts'
import { anchorsFor, windOnBox, windReadingsPa } from './wind-on-box.ts'
import { DOOR, exampleJob, skinWith } from './yard.fixture.ts'

const job = exampleJob('groomer-yard-us')
const wanted = job.boxes[0]
if (wanted === undefined) throw new Error('no box')
const body = boxBody(wanted, null)
const wind = (more: Partial<YardFacts['wind']>): YardFacts['wind'] => ({
  ...{ pressurePa: 1000, pressureIs: null, level: null, heightM: null, coefficientRatio: null, winterFromDeg: null, note: null },
  ...more,
})

describe('what a told pressure may mean', () => {
  test.each([
    [{}, 1000 / 1.3, 1500],
    [{ pressureIs: 'velocity pressure' as const }, 1000, 1500],
    [{ pressureIs: 'velocity pressure' as const, level: 'ultimate' as const }, 1000, 1000],
    [{ pressureIs: 'net pressure' as const, level: 'service' as const, coefficientRatio: 1.25 }, 1200, 1200],
    [{ level: 'ultimate' as const, coefficientRatio: 0.8 }, 1000, 1250],
  ])('%j: from %d to %d Pa at the ultimate level', (told, low, high) => {
    const read = windReadingsPa(wind(told), 1.5)
    expect(read?.low).toBeCloseTo(low, 9)
    expect(read?.high).toBeCloseTo(high, 9)
  })

  test('nobody said: nothing is made up', () => expect(windReadingsPa(wind({ pressurePa: null }), 1.5)).toBeNull())
})

describe('wind on the box', () => {
  const task = {
    yard: { ...job.yard, wind: wind({ pressureIs: 'velocity pressure', level: 'ultimate' }) },
    by: 'ASCE 7-16' as const,
    body,
    lightKg: 2300,
    offYMm: 0,
    icy: false,
  }

  test('every told pressure of one meaning has one end, and lines that give it again', () => {
    const at = windOnBox(task)
    expect(at?.low).toEqual(at?.high)
    const line = (symbol: string) => at?.steps.find((s) => s.symbol === symbol)?.result as number
    expect(line('F high')).toBeCloseTo(1000 * 1.105 * 6.058 * 2.591, 6)
    expect(line('S high')).toBeCloseTo(0.6 * line('F high'), 9)
    expect(line('U high')).toBeCloseTo(1000 * ((0.85 * (1.3 * 1.2955 + 0.7 * 1.1425)) / 2.438) * 6.058 * 2.438, 6)
    expect(line('R high')).toBeCloseTo(0.3 * (0.6 * 2300 * 9.81 - 0.6 * line('U high')), 6)
    expect(line('Mo high')).toBeGreaterThan((0.6 * line('F high') * 2.591) / 2 + 0.6 * line('U high') * 1.219)
    expect(line('Mr high')).toBeCloseTo(0.6 * 2300 * 9.81 * 1.219, 6)
  })

  test('lighter, or off its middle, or on ice: never better', () => {
    const at = (more: Partial<typeof task>) => windOnBox({ ...task, ...more })?.high
    const base = at({})
    expect(at({ lightKg: 2000 })?.gripN).toBeLessThan(base?.gripN ?? 0)
    expect(at({ offYMm: 100 })?.rightNm).toBeLessThan(base?.rightNm ?? 0)
    expect(at({ icy: true })?.gripN).toBeLessThan(base?.gripN ?? 0)
  })

  test('snow on the roof changes nothing: it is no help against sliding', () => {
    const deep = { ...task, yard: { ...task.yard, snow: { groundLoadPa: 9600, depthM: 2, drifting: null } } }
    expect(windOnBox(deep)).toEqual(windOnBox(task))
  })

  test('at the pressure that just tips it the moments are equal', () => {
    const of = { weightN: 2300 * 9.81, armM: 1.219, netRatio: 1.105, lengthM: 6.058, heightM: 2.591 }
    const { momentNm } = broadside({ velocityPa: tippingPa(of), netRatio: 1.105, lengthM: 6.058, heightM: 2.591 })
    expect(momentNm).toBeCloseTo(of.weightN * of.armM, 6)
  })

  test.each(['ASCE', 'EN'] as const)('suction of the roof by %s: mean and arm as summed strip by strip', (by) => {
    const { meanRatio, armM } = roofSuction({ by, lengthM: 6.058, widthM: 2.438, heightM: 2.591 })
    const n = 24_380
    let [force, moment] = [0, 0]
    for (let i = 0; i < n; i += 1) {
      const x = ((i + 0.5) / n) * 2.438
      // EN: e = 2h = 5.182 m; strip F and G to e/10 with F over e/4 at either end, H to e/2 (beyond the roof).
      const c = by === 'ASCE' ? 0.85 * (x < 1.2955 ? 1.3 : 0.7) : x < 0.5182 ? (1.8 * 2.591 + 1.2 * (6.058 - 2.591)) / 6.058 : 0.7
      force += (c * 2.438) / n
      moment += ((c * 2.438) / n) * (2.438 - x)
    }
    expect(meanRatio).toBeCloseTo(force / 2.438, 3)
    expect(armM).toBeCloseTo(moment / force, 3)
  })

  test('peak pressure by EN stands with the square of the roughness factor, not with the factor', () => {
    const { cr, qbPa, qpPa } = enPeakPressure({ vbMPerS: 40.9, z0M: 0.01, heightM: 5 })
    expect(qpPa / ((1 + 7 / Math.log(500)) * qbPa)).toBeCloseTo(cr ** 2, 9)
    expect(() => enPeakPressure({ vbMPerS: 40, z0M: 1, heightM: 1 })).toThrow(/haul\/wind-range/)
  })

  test('anchors: nothing up where the weight holds; shear shares the whole wind, with no friction', () => {
    expect(anchorTensionN({ overturnNm: 10, rightNm: 100, deadFrac: 0.6, leverM: 2, windwardCount: 2 })).toBe(0)
    const end = windOnBox(task)?.high
    if (end === undefined) throw new Error('no wind')
    for (const count of [4, 6]) {
      const { plan } = anchorsFor(task, end, count)
      expect(plan.atMm).toHaveLength(count)
      expect(plan.shearN * count).toBeCloseTo(end.forceN, 9)
    }
    const { plan } = anchorsFor(task, end, 4)
    // Moments about the lee fittings: two anchors, the counted weight, against wind, suction and the open door.
    const uplift =
      1000 * (roofSuction({ by: 'ASCE', lengthM: 6.058, widthM: 2.438, heightM: 2.591 }).meanRatio + 0.55) * 6.058 * 2.438
    expect(plan.tensionN * 2 * 2.259).toBeLessThan((end.forceN * 2.591) / 2 + uplift * 2.438)
    expect(plan.tensionN).toBeGreaterThan(0)
  })
})

describe('snow on the roof', () => {
  test('groundsnow of 9.6 kPa by ASCE on an unheated box: 0.7 · 1.2 · 9.6', () =>
    expect(roofSnowPa(9600, 'ASCE 7-16').high).toBeCloseTo(0.7 * 1.2 * 9600, 9))

  test('little snow by ASCE: the least of 20 psf', () =>
    expect(roofSnowPa(500, 'ASCE 7-16')).toMatchObject({ low: 500, high: 500 }))

  test('by NBC the rain is bounded, and never above the snow', () => {
    const { low, high } = roofSnowPa(2900, 'NBC')
    expect([low, high]).toEqual([2900 * 0.8 + 100, 2900 * 0.8 + 600])
    expect(nbcRoofSnow({ ss: 0.5, sr: 3, cb: 0.8, cw: 1, cs: 1, ca: 1, is: 1 }).load).toBeCloseTo(0.8, 12)
  })

  test('by EN 0.8 of the ground', () => expect(roofSnowPa(2000, 'EN 1991-1-3').high).toBeCloseTo(1600, 9))

  test('a beam’s moment and sag as integrated along it', () => {
    const [w, l, e, i, s] = [2, 2350, 210_000, 40_000, 3600]
    const n = 20_000
    let sag = 0
    for (let k = 0; k < n; k += 1) {
      const x = ((k + 0.5) / n) * l
      const moment = (w * x * (l - x)) / 2
      const virtual = Math.min(x, l - x) / 2
      sag += ((moment * virtual) / (e * i)) * (l / n)
    }
    const beam = simpleBeam({ loadNPerMm: w, spanMm: l, sectionMm3: s, inertiaMm4: i, modulusNPerMm2: e })
    expect(beam.sagMm / sag).toBeCloseTo(1, 6)
    expect(beam.stressNPerMm2).toBeCloseTo((w * l * l) / 8 / s, 9)
  })

  test('a tube 60 × 60 × 3 has 37.1 cm⁴ with sharp corners; EN 10219 prints 35.1 with round ones (memory)', () => {
    const tube = tubeSection({ widthMm: 60, heightMm: 60, wallMm: 3 })
    expect(tube.inertiaMm4 / 1e4).toBeCloseTo(37.1, 1)
    expect(Math.abs(tube.inertiaMm4 / 351_000 - 1)).toBeLessThan(0.06)
    expect(() => tubeSection({ widthMm: 60, heightMm: 60, wallMm: 30 })).toThrow(/haul\/beam-range/)
  })

  test('ribs feel less with less snow, more where stampings end short; a wide opening bends the rail more', () => {
    const at = (pa: number, widthMm: number) =>
      snowOnRoof({
        yard: { ...job.yard, snow: { ...job.yard.snow, groundLoadPa: pa } },
        by: 'EN 1991-1-3',
        body,
        skin: skinWith([{ ...DOOR, widthMm }]),
      })?.value
    expect(at(1000, 900)?.ribPa.high).toBeLessThan(at(2000, 900)?.ribPa.high ?? 0)
    expect(at(1000, 900)?.ribPa.low).toBeLessThan(at(1000, 900)?.ribPa.high ?? 0)
    const [narrow, wide] = [at(2000, 900)?.rail, at(2000, 1800)?.rail]
    expect((wide?.stressPa ?? 0) / (narrow?.stressPa ?? 1)).toBeCloseTo(4, 9)
    expect((wide?.sagM ?? 0) / (narrow?.sagM ?? 1)).toBeCloseTo(16, 9)
  })
})
