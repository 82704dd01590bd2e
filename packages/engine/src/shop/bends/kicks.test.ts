import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { outsideMm } from '../../fit/index.ts'
import type { PointMm, RacewayRoute } from '../../job/index.ts'
import { rulesFor } from '../../rules/index.ts'
import type { RacewaySheet } from '../index.ts'
import { bendsWorking } from '../workings.ts'
import { raceways } from '../yard.fixture.ts'
import { benderFor } from './bender.ts'
import { racewaySheets } from './raceway-sheet.ts'

const us = rulesFor('us', { overlays: [] })
/** Things hang on the left side: they stand off it along y. */
const sheets = (own: readonly RacewayRoute[], along: 0 | 1 | 2 = 1): readonly RacewaySheet[] =>
  racewaySheets({ raceways: own, rules: us, racewayMm: outsideMm, standOff: () => ({ along, deepMm: 54 }), stickMm: 3048 })

/** Level, then down into a shallow box whose knock-out stands 13 mm above the channel. */
const drop = (over: Partial<RacewayRoute> = {}): RacewayRoute => ({
  ...raceways[0]!,
  pointsMm: [
    [0, 94, 1500],
    [900, 94, 1500],
    [900, 94, 1100],
  ],
  bends: [
    { kind: 'quarter', atMm: 900, sumDeg: 90, riseMm: 0 },
    { kind: 'offset', atMm: 1138, sumDeg: 20, riseMm: 13 },
  ],
  strapsMm: [500],
  ...over,
})
const rising = (riseMm: number, sumDeg = 20): Partial<RacewayRoute> => ({
  bends: drop().bends.map((b) => (b.kind === 'offset' ? { ...b, riseMm, sumDeg } : b)),
})
const kinds = (s: RacewaySheet): readonly string[] => s.bends.map((b) => `${b.kind} ${b.made}`)
const kickOf = (s: RacewaySheet) => s.bends.find((b) => b.kind === 'kick')

const backward = (r: RacewayRoute, lengthMm: number): RacewayRoute => ({
  ...r,
  pointsMm: r.pointsMm.toReversed(),
  bends: r.bends.map((b) => ({ ...b, atMm: lengthMm - b.atMm })),
  strapsMm: r.strapsMm.map((at) => lengthMm - at),
})

type V = readonly [number, number, number]
const add = (a: V, b: V, k: number): V => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]]

/**
 * Where a pipe ends that is bent as its marks say: straights and arcs added up as vectors in space. Every bend turns from the way the pipe
 * goes to another way, about its own plane; nothing here knows a multiplier, a shrink or a gain.
 */
function walked(s: RacewaySheet, startMm: V, first: V, turnsTo: readonly ((way: V) => V)[]): { endMm: V; way: V } {
  let done = 0
  const marks = s.pieces.flatMap((p) => {
    const before = done
    done += p.developedMm
    return p.marks.map((m) => ({ ...m, startMm: before + m.startMm }))
  })
  expect(marks).toHaveLength(turnsTo.length)
  let [at, way, behind] = [startMm, first, 0]
  marks.forEach((m, i) => {
    at = add(at, way, m.startMm - behind)
    const next = turnsTo[i]!(way)
    const phi = (m.angleDeg * Math.PI) / 180
    const cos = way[0] * next[0] + way[1] * next[1] + way[2] * next[2]
    expect(cos).toBeCloseTo(Math.cos(phi), 12)
    const inward = add(next, way, -cos)
    const unit: V = [inward[0] / Math.sin(phi), inward[1] / Math.sin(phi), inward[2] / Math.sin(phi)]
    at = add(add(at, way, s.radiusMm * Math.sin(phi)), unit, s.radiusMm * (1 - Math.cos(phi)))
    way = next
    behind = m.startMm + s.radiusMm * phi
  })
  return { endMm: add(at, way, done - behind), way }
}

/** A level way tilted off the wall by so many degrees. */
const tilted = (way: V, deg: number): V => {
  const a = (deg * Math.PI) / 180
  return [way[0] * Math.cos(a), Math.sin(a), way[2] * Math.cos(a)]
}

describe('a kick in place of an offset behind a corner', () => {
  test('stands before the corner by rise over sine, one small bend for two, and the pipe ends in the knock-out, square', () => {
    const [s] = sheets([drop()])
    expect(kinds(s!)).toEqual(['kick bent', 'quarter bent'])
    const kick = kickOf(s!)!
    // 5 degrees: multiplier 11.47 (table of a bending page, read). At 6 the bender's 25 mm would lack: 13 × 9.57 = 124 < 107.95 + 25 + 5.7.
    expect(kick.angleDeg).toBe(5)
    expect(kick.multiplier).toBeCloseTo(11.47, 2)
    expect(kick.atMm).toBeCloseTo(900 - 13 / Math.tan((5 * Math.PI) / 180), 9)
    expect(kick.shrinkMm).toBeCloseTo(13 * Math.tan((2.5 * Math.PI) / 180), 9)
    expect(kick.freeAfterMm).toBeCloseTo(
      13 / Math.sin((5 * Math.PI) / 180) - s!.radiusMm * (1 + Math.tan((2.5 * Math.PI) / 180)),
      9,
    )
    expect(kick.freeAfterMm).toBeGreaterThanOrEqual(25)
    const end = walked(s!, [0, 94, 1500], [1, 0, 0], [(way) => tilted(way, 5), () => [0, 0, -1]])
    expect(Math.hypot(...add(end.endMm, [900, 94 + 13, 1100], -1))).toBeLessThan(1e-9)
    expect(end.way).toEqual([0, 0, -1])
    expect(s!.checkMm).toBeCloseTo(s!.developedMm, 9)
    expect(s!.fittings).toMatchObject({ connectors: 2, offsetConnectors: 0, elbows: 0 })
  })

  test('from the first box it stands behind the corner, and the pipe is as long', () => {
    const [s] = sheets([backward(drop(), 1300)])
    expect(kinds(s!)).toEqual(['quarter bent', 'kick bent'])
    const there = sheets([drop()])[0]!
    expect(kickOf(s!)!.atMm).toBeCloseTo(1300 - kickOf(there)!.atMm, 9)
    expect(s!.developedMm).toBeCloseTo(there.developedMm, 9)
    const end = walked(s!, [900, 94 + 13, 1100], [0, 0, 1], [() => tilted([-1, 0, 0], -5), () => [-1, 0, 0]])
    expect(Math.hypot(...add(end.endMm, [0, 94, 1500], -1))).toBeLessThan(1e-9)
  })

  test('its mark, the arrow by take-up, and the quarter turned square to it', () => {
    const [kick, quarter] = sheets([drop()])[0]!.pieces[0]!.marks
    const { radiusMm } = benderFor(drop(), us)
    expect(kick).toMatchObject({ kind: 'kick', angleDeg: 5, turnDeg: null })
    expect(kick!.startMm).toBeCloseTo(900 - 13 / Math.tan((5 * Math.PI) / 180) - radiusMm * Math.tan((2.5 * Math.PI) / 180), 9)
    // 5 in of take-up for 1/2 EMT (markings of hand benders, memory).
    expect(kick!.arrowMm).toBeCloseTo(kick!.startMm + radiusMm + outsideMm('EMT', '1/2') / 2 - 127, 9)
    expect(quarter).toMatchObject({ kind: 'quarter', turnDeg: 90 })
    const [first, second] = sheets([backward(drop(), 1300)])[0]!.pieces[0]!.marks
    expect([first!.turnDeg, second!.turnDeg]).toEqual([null, 90])
  })

  test('a second corner is told against the first, not against the kick between them', () => {
    const u = drop({
      pointsMm: [
        [0, 94, 1100],
        [0, 94, 1500],
        [900, 94, 1500],
        [900, 94, 1100],
      ],
      bends: [
        { kind: 'quarter', atMm: 400, sumDeg: 90, riseMm: 0 },
        { kind: 'quarter', atMm: 1300, sumDeg: 90, riseMm: 0 },
        { kind: 'offset', atMm: 1538, sumDeg: 20, riseMm: 13 },
      ],
    })
    expect(sheets([u])[0]!.pieces[0]!.marks.map((m) => [m.kind, m.turnDeg])).toEqual([
      ['quarter', null],
      ['kick', 90],
      ['quarter', 0],
    ])
  })

  test('is as steep as the bender’s hold lets it be, and never steeper than the offset’s own bends', () => {
    const angle = (over: Partial<RacewayRoute>) => kickOf(sheets([drop(over)])[0]!)?.angleDeg
    expect(angle(rising(20))).toBe(8)
    expect(angle(rising(40))).toBe(10)
    expect(angle(rising(20, 14))).toBe(7)
    // 1/2 in at 3 degrees wants 135.8 mm along the slope: 7.2 mm of rise give 137.6, 7 give 133.8.
    expect(angle(rising(7.2))).toBe(3)
    expect(angle(rising(7))).toBeUndefined()
  })

  test('stays an offset where the leg before the corner is too short for it', () => {
    const leg = (mm: number) =>
      kinds(
        sheets([
          drop({
            pointsMm: [
              [0, 94, 1500],
              [mm, 94, 1500],
              [mm, 94, 1100],
            ],
            bends: [
              { kind: 'quarter', atMm: mm, sumDeg: 90, riseMm: 0 },
              { kind: 'offset', atMm: mm + 238, sumDeg: 20, riseMm: 13 },
            ],
            strapsMm: [],
          }),
        ])[0]!,
      )[0]
    // 50 mm into the connector, half an arc, the run; at 4 or 3 degrees the run is longer.
    const least = 50 + 107.95 * Math.tan((2.5 * Math.PI) / 180) + 13 / Math.tan((5 * Math.PI) / 180)
    expect(leg(least + 0.1)).toBe('kick bent')
    expect(leg(least - 0.1)).toBe('quarter bent')
  })

  test('a strap it lifts goes to right before it, while the rule lets it stand so far from the box', () => {
    const begins = 900 - 13 / Math.tan((5 * Math.PI) / 180) - 107.95 * Math.tan((2.5 * Math.PI) / 180)
    const straps = (lastMm: number, strapsMm: readonly number[]) => {
      const [s] = sheets([drop({ pointsMm: [...drop().pointsMm.slice(0, 2), [900, 94, 1500 - lastMm]], strapsMm })])
      return [s!.bends[0]!.kind, s!.strapsMm]
    }
    expect(straps(400, [begins - 20.1])).toEqual(['kick', [begins - 20.1]])
    // Another is near enough: 914 mm from the box (NEC 358.30, memory).
    expect(straps(400, [500, 1250])).toEqual(['kick', [500]])
    const [kind, moved] = straps(400, [300, 1250])
    expect(kind).toBe('kick')
    expect(moved).toEqual([300, expect.closeTo(begins - 20, 9)])
    const most = 914.4 - (900 - begins + 20)
    expect(straps(most - 1, [300, 1250])[0]).toBe('kick')
    expect(straps(most + 1, [300, 1250])).toEqual(['quarter', [300, 1250]])
    const [s] = sheets([backward(drop({ strapsMm: [300, 1250] }), 1300)])
    expect(s!.strapsMm).toEqual([expect.closeTo(1300 - begins + 20, 9), 1000])
  })

  test('stays one where a raceway steps over what it would lift', () => {
    const over: RacewayRoute = {
      ...raceways[0]!,
      id: 'over',
      pointsMm: [
        [200, 94, 1250],
        [1600, 94, 1250],
      ],
      bends: [{ kind: 'saddle', atMm: 700, sumDeg: 90, riseMm: 30.4 }],
    }
    expect(kinds(sheets([drop(), over]).find((s) => s.id === 'C1')!)).toEqual(['quarter bent', 'offset bent'])
  })

  test('stays one at a corner out of the wall, and where nobody knows the wall', () => {
    expect(kinds(sheets([drop()], 0)[0]!)[0]).toBe('quarter bent')
    expect(kinds(sheets([drop()], 2)[0]!)[0]).toBe('quarter bent')
    const unknown = { raceways: [drop()], rules: us, racewayMm: outsideMm, standOff: () => null, stickMm: 3048 }
    expect(kinds(racewaySheets(unknown)[0]!)[0]).toBe('quarter bent')
  })

  test('counts its own degrees between two pulls: no pull box where the offset would have asked for one', () => {
    const around = drop({
      pointsMm: [
        [0, 94, 1600],
        [2500, 94, 1600],
        [2500, 94, 2000],
        [3400, 94, 2000],
        [3400, 94, 1600],
      ],
      bends: [
        { kind: 'saddle', atMm: 1500, sumDeg: 72, riseMm: 20 },
        { kind: 'quarter', atMm: 2500, sumDeg: 90, riseMm: 0 },
        { kind: 'quarter', atMm: 2900, sumDeg: 90, riseMm: 0 },
        { kind: 'quarter', atMm: 3800, sumDeg: 90, riseMm: 0 },
        { kind: 'offset', atMm: 4038, sumDeg: 20, riseMm: 13 },
      ],
      strapsMm: [],
    })
    // 270 + 72 + 5 and 270 + 72 + 20; 360 between pulls (NEC 358.26, memory).
    expect(sheets([around])[0]!.pullsMm).toHaveLength(0)
    expect(sheets([around], 0)[0]!.pullsMm).toHaveLength(1)
  })

  test('a strap goes before it only where 40 mm of pipe are straight there', () => {
    const { radiusMm } = benderFor(drop(), us)
    const kind = (freeMm: number, strapsMm: readonly number[]) => {
      const leg = freeMm + radiusMm * (1 + Math.tan((2.5 * Math.PI) / 180)) + 13 / Math.tan((5 * Math.PI) / 180)
      const u = drop({
        pointsMm: [
          [0, 94, 1100],
          [0, 94, 1500],
          [leg, 94, 1500],
          [leg, 94, 1100],
        ],
        bends: [
          { kind: 'quarter', atMm: 400, sumDeg: 90, riseMm: 0 },
          { kind: 'quarter', atMm: 400 + leg, sumDeg: 90, riseMm: 0 },
          { kind: 'offset', atMm: 638 + leg, sumDeg: 20, riseMm: 13 },
        ],
        strapsMm,
      })
      return sheets([u])[0]!.bends[1]!.kind
    }
    expect(kind(40.1, [100, 1000])).toBe('kick')
    expect(kind(39.9, [100, 1000])).toBe('quarter')
    expect(kind(39.9, [100])).toBe('kick')
  })

  test('no pull box on its slope, though that is the last straight that holds one', () => {
    const four = drop({
      pointsMm: [
        [0, 94, 2000],
        [0, 94, 1600],
        [2500, 94, 1600],
        [2500, 94, 2000],
        [3400, 94, 2000],
        [3400, 94, 1600],
      ],
      bends: [
        ...[400, 2900, 3300, 4200].map((atMm) => ({ kind: 'quarter' as const, atMm, sumDeg: 90, riseMm: 0 })),
        { kind: 'offset', atMm: 4438, sumDeg: 6, riseMm: 20 },
      ],
      strapsMm: [],
    })
    const [s] = sheets([four])
    const kick = kickOf(s!)!
    // 100 mm of box and 50 of straight at either side of it would have room.
    expect(kick.freeAfterMm).toBeGreaterThan(200)
    expect(s!.pullsMm).toHaveLength(1)
    expect(s!.pullsMm[0]).toBeLessThan(kick.atMm)
  })

  test('no coupling on its slope', () => {
    const long = drop({
      pointsMm: [
        [0, 94, 1500],
        [3200, 94, 1500],
        [3200, 94, 1100],
      ],
      bends: [
        { kind: 'quarter', atMm: 3200, sumDeg: 90, riseMm: 0 },
        { kind: 'offset', atMm: 3438, sumDeg: 6, riseMm: 15 },
      ],
    })
    const [one, two] = sheets([long])[0]!.pieces
    const kick = kickOf(sheets([long])[0]!)!
    expect(kick.freeAfterMm).toBeGreaterThan(150)
    expect(one!.marks).toEqual([])
    expect(two!.marks.map((m) => m.kind)).toEqual(['kick', 'quarter'])
    expect(two!.marks[0]!.startMm).toBeCloseTo(50, 6)
  })
})

test('any raceway with a step at an end is bent to where its knock-out is', () => {
  let kicks = 0
  fc.assert(
    fc.property(
      fc.integer({ min: 250, max: 2500 }),
      fc.integer({ min: 250, max: 2500 }),
      fc.double({ min: 6.1, max: 60, noNaN: true }),
      fc.constantFrom('1/2', '3/4', '1'),
      fc.integer({ min: 6, max: 60 }),
      fc.boolean(),
      fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: null }),
      (levelMm, downMm, riseMm, trade, sumDeg, back, strap) => {
        const whole = levelMm + downMm
        const { radiusMm } = benderFor({ kind: 'EMT', trade }, us)
        const end: PointMm = [levelMm, 94, 1500 - downMm]
        const there = drop({
          trade,
          pointsMm: [[0, 94, 1500], [levelMm, 94, 1500], end],
          bends: [
            { kind: 'quarter', atMm: levelMm, sumDeg: 90, riseMm: 0 },
            { kind: 'offset', atMm: Math.max(levelMm + 1, whole - 1.5 * radiusMm), sumDeg, riseMm },
          ],
          strapsMm: strap === null ? [] : [strap * whole],
        })
        const [s] = sheets([back ? backward(there, whole) : there])
        expect(s!.developedMm).toBeCloseTo(s!.checkMm, 9)
        const kick = kickOf(s!)
        if (kick === undefined) return
        kicks += 1
        expect(s!.short).toBeNull()
        expect(kick.angleDeg).toBeLessThanOrEqual(sumDeg / 2)
        expect(Math.min(kick.freeBeforeMm, kick.freeAfterMm)).toBeGreaterThanOrEqual(25 - 1e-6)
        const deg = kick.angleDeg
        const lifted: V = [levelMm, 94 + riseMm, 1500 - downMm]
        const to = back
          ? walked(s!, lifted, [0, 0, 1], [() => tilted([-1, 0, 0], -deg), () => [-1, 0, 0]])
          : walked(s!, [0, 94, 1500], [1, 0, 0], [(way) => tilted(way, deg), () => [0, 0, -1]])
        expect(Math.hypot(...add(to.endMm, back ? [0, 94, 1500] : lifted, -1))).toBeLessThan(1e-9)
        const steps = bendsWorking('yard', s!, benderFor(s!, us).rests).steps
        expect(steps[steps.length - 1]!.result).toBeCloseTo(s!.developedMm, 9)
      },
    ),
    { seed: 11, numRuns: 500 },
  )
  expect(kicks).toBeGreaterThan(100)
})
