import { describe, expect, test } from 'vitest'
import { forkCapacity, forkSplit } from './forks.ts'
import {
  COUNTED,
  directLashingN,
  frictionLashings,
  tiesByLengthCount,
  tiesByWllCount,
  tieWllKg,
  tipShareFrac,
} from './lashing.ts'
import { allowedFor, linesSaid, METHODS, methodsSaid } from './site.ts'
import { leastAngleDeg, legTension, meanLegDeg, nextWll, setWll, stiffSetWll } from './slings.ts'
import { onTiltedBed } from './tilt.ts'
import { axleShare } from './truck.ts'

const FOOT_M = 0.3048
const POUND_KG = 0.45359237

describe('slings', () => {
  test('an upright leg takes its share and no more; a flat one cannot be asked', () => {
    expect(legTension(10_000, 90)).toBeCloseTo(10_000, 9)
    for (const deg of [0, -10, 91, Number.NaN]) expect(() => legTension(1, deg)).toThrow(/haul\/sling-angle-range/)
  })

  test('mode factors of EN 818-4 (memory) at 45 and just over, and none over 60 degrees from the vertical', () => {
    expect(setWll({ legs: 4, legWll: 1000, fromVerticalDeg: 45 })).toBeCloseTo(2100, 9)
    expect(setWll({ legs: 4, legWll: 1000, fromVerticalDeg: 45.1 })).toBeCloseTo(1500, 9)
    expect(setWll({ legs: 2, legWll: 1000, fromVerticalDeg: 30 })).toBeCloseTo(1400, 9)
    expect(() => setWll({ legs: 4, legWll: 1000, fromVerticalDeg: 61 })).toThrow(/haul\/sling-angle-range/)
  })

  test('a stiff box on four legs is held by two: less than the chart of four says, at every angle', () => {
    for (let deg = 0; deg <= 60; deg += 5)
      expect(stiffSetWll(1000, deg)).toBeLessThan(setWll({ legs: 4, legWll: 1000, fromVerticalDeg: deg }))
  })

  test('least angle of bottom slings by length: 60, 45, 37, 30 (ISO 3874, memory), the longer row between two', () => {
    const least = (m: number) => leastAngleDeg('bottom slings with spreader', m).value
    expect([2.991, 6.058, 9.125, 12.192].map(least)).toEqual([60, 45, 37, 30])
    expect(least(4.5)).toBe(45)
    expect(least(16.154)).toBe(30)
  })

  test('next size that is made, none beyond the last', () => {
    expect(nextWll('chain-slings', 2000.1)).toEqual({ sizeMm: 10, wllKg: 3150 })
    expect(nextWll('shackles', 3250)).toEqual({ sizeMm: 0, wllKg: 3250 })
    expect(nextWll('shackles', 17_001)).toBeNull()
  })

  test('angle of a leg: 4 m up over half the diagonal', () => expect(meanLegDeg(1, 1)).toBeCloseTo(45, 9))
})

describe('which way for which box', () => {
  const at = (lengthM: number, load: 'empty' | 'packed') =>
    Object.fromEntries(METHODS.map((method) => [method, allowedFor(method, lengthM, load)]))

  test('20 ft with gear in it: no leaning slings from the top, no narrow pockets', () => {
    expect(at(6.058, 'packed')).toEqual({
      'top spreader, vertical': 'allowed',
      'top slings, inclined': 'not allowed',
      'bottom slings with spreader': 'allowed',
      'forks, wide pockets': 'allowed',
      'forks, narrow pockets': 'not allowed',
      'side-lift frame': 'allowed',
      'tilt-bed': 'allowed',
    })
  })

  test('40 ft: never on forks, even empty; packed not by the side', () => {
    expect(at(12.192, 'empty')['forks, wide pockets']).toBe('not allowed')
    expect(at(12.192, 'packed')['side-lift frame']).toBe('not allowed')
    expect(at(12.192, 'empty')['side-lift frame']).toBe('allowed')
    expect(at(12.192, 'packed')['tilt-bed']).toBe('allowed')
  })

  test('10 ft: leaning slings from the top within limits; 53 ft: on no tilt-bed', () => {
    expect(at(2.991, 'packed')['top slings, inclined']).toBe('allowed with limits')
    expect(at(16.154, 'packed')['tilt-bed']).toBe('not allowed')
  })
})

describe('words of a site', () => {
  test('ways of setting down', () => {
    expect(methodsSaid('tilt-bed').methods).toEqual(['tilt-bed'])
    expect(methodsSaid('lorry crane or barge').methods[0]).toBe('bottom slings with spreader')
    expect(methodsSaid('skids, dragged by a winch tractor')).toEqual({ methods: [], dragged: true })
    expect(methodsSaid(null)).toEqual({ methods: [], dragged: false })
  })

  test.each([
    ['7.2 kV line crosses the access 40 m before the pad, 6.9 m up', 7.2, 6.9, null],
    ['12.5 kV along the back fence, 10.4 m up, 6 m from the yard', 12.5, 10.4, 6],
    ['400/230 V service 5.2 m up, over the gate', 0.4, 5.2, null],
    ['a line somewhere', null, null, null],
  ])('%s', (words, kV, heightM, besideM) => expect(linesSaid(words)).toEqual([{ words, kV, heightM, besideM }]))

  test('“none” is none, and a line behind a semicolon is still one', () => {
    expect(linesSaid('none within 400 m')).toEqual([])
    expect(linesSaid('none on the apron; 25 kV at the gate, 8.8 m up')).toEqual([
      { words: '25 kV at the gate, 8.8 m up', kV: 25, heightM: 8.8, besideM: null },
    ])
  })
})

describe('forks', () => {
  test('nearer than the plate’s centre gives no more than its rating', () =>
    expect(forkCapacity({ rated: 4000, ratedCentreM: 0.6, actualCentreM: 0.4 })).toBe(4000))

  test('both forks together carry the load; it tips beyond half the spacing', () => {
    for (const offM of [0, 0.1, 0.5, 1.02]) {
      const { near, far, tips } = forkSplit({ load: 30_000, spacingM: 2.05, offM })
      expect(near + far).toBeCloseTo(30_000, 9)
      expect(tips).toBe(false)
    }
    expect(forkSplit({ load: 1, spacingM: 2.05, offM: 1.03 }).tips).toBe(true)
    expect(forkSplit({ load: 1, spacingM: 2.05, offM: 0 }).travelOffM).toBeCloseTo(0.205, 12)
  })
})

describe('on the truck', () => {
  test.each([
    [5, 1000, 1],
    [5, 1200, 2],
    [8, 500, 2],
    [10, 9000, 2],
    [10.5, 9000, 3],
    [20, 9000, 3],
    [40, 9000, 5],
  ])('%d ft of %d lb, not blocked: %d tie-downs (49 CFR 393.110, memory)', (feet, pounds, count) =>
    expect(tiesByLengthCount({ lengthM: feet * FOOT_M, massKg: pounds * POUND_KG, blocked: false })).toBe(count),
  )

  test('blocked in front: one each 10 ft', () =>
    expect(tiesByLengthCount({ lengthM: 40 * FOOT_M, massKg: 9000, blocked: true })).toBe(4))

  test('from deck to load counts half: twice as many', () => {
    const task = { massKg: 12_000, wllKg: 2990 }
    expect(tiesByWllCount({ ...task, over: 'over the top' })).toBe(3)
    expect(tiesByWllCount({ ...task, over: 'deck to cargo' })).toBe(5)
    expect(COUNTED['deck to cargo'] * 2).toBe(COUNTED['over the top'])
    expect(tieWllKg('rope of no table')).toBeNull()
  })

  test('no lashing for sliding where the push is not above the friction', () =>
    expect(
      frictionLashings({ massKg: 1000, c: 0.3, cz: 1, friction: 0.3, angleDeg: 80, tensionN: 4000, safety: 1.1, gravity: 9.81 }),
    ).toBe(0))

  test('a flat chain along the way of the push, with no friction, holds the whole push', () =>
    expect(
      directLashingN({
        ...{ massKg: 1000, c: 0.8, cz: 1, friction: 0, frictionShare: 0.75 },
        ...{ alphaDeg: 0, betaDeg: 0, pulling: 2, gravity: 9.81 },
      }),
    ).toBeCloseTo((0.8 * 1000 * 9.81) / 2, 9))

  test('a load twice as wide as its centre is high stands against its own weight', () =>
    expect(tipShareFrac({ armM: 1, heightM: 1, cz: 1 })).toBe(1))

  test('axle and kingpin carry the box between them; behind the axle the kingpin is lifted', () => {
    const inside = axleShare({ massKg: 4200, kingpinToAxleM: 9, centreM: 6 })
    expect(inside.axleKg + inside.kingpinKg).toBeCloseTo(4200, 9)
    expect(axleShare({ massKg: 4200, kingpinToAxleM: 9, centreM: 10 }).kingpinKg).toBeLessThan(0)
  })
})

describe('on a tilted bed', () => {
  test('it runs off exactly from the angle whose tangent is the friction', () => {
    const at = (bedDeg: number) => onTiltedBed({ weightN: 30_000, bedDeg, friction: 0.2 })
    const { slidesAtDeg } = at(0)
    expect(Math.tan((slidesAtDeg * Math.PI) / 180)).toBeCloseTo(0.2, 12)
    expect(at(slidesAtDeg - 0.01)).toMatchObject({ slides: false, holdN: 0 })
    expect(at(slidesAtDeg + 0.01).slides).toBe(true)
  })

  test('pull less hold is twice the friction of the slope', () => {
    const { pullN, holdN } = onTiltedBed({ weightN: 30_000, bedDeg: 20, friction: 0.2 })
    expect(pullN - holdN).toBeCloseTo(2 * 0.2 * 30_000 * Math.cos((20 * Math.PI) / 180), 6)
  })
})
