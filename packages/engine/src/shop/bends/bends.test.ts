import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { outsideMm } from '../../fit/index.ts'
import type { RacewayRoute } from '../../job/index.ts'
import { rulesFor } from '../../rules/index.ts'
import { answerShop, type RacewaySheet } from '../index.ts'
import { bendsWorking } from '../workings.ts'
import { raceways, yardInputs } from '../yard.fixture.ts'
import { benderFor } from './bender.ts'
import { developed, gainMm, offsetMultiplier, offsetShrink, tangentMm } from './geometry.ts'
import { racewaySheets } from './raceway-sheet.ts'

const us = rulesFor('us', { overlays: [] })
const intl = rulesFor('intl', { overlays: [] })
const sheets = (own: readonly RacewayRoute[], deepMm = 0): readonly RacewaySheet[] =>
  racewaySheets({ raceways: own, rules: us, racewayMm: outsideMm, standOff: () => ({ along: 1, deepMm }), stickMm: 3048 })
const sheet = (id: string): RacewaySheet => sheets(raceways).find((s) => s.id === id)!

type P = readonly [number, number]

/** Length of a polyline whose corners are rounded, by adding up short chords: knows no formula for arcs or gains. */
function chordsMm(points: readonly P[], radius: number): number {
  const out: P[] = [points[0]!]
  for (let i = 1; i < points.length - 1; i++) {
    const [a, b, c] = [points[i - 1]!, points[i]!, points[i + 1]!]
    const unit = (p: P, q: P): P => {
      const l = Math.hypot(q[0] - p[0], q[1] - p[1])
      return [(q[0] - p[0]) / l, (q[1] - p[1]) / l]
    }
    const [u, v] = [unit(b, a), unit(b, c)]
    const between = Math.acos(u[0] * v[0] + u[1] * v[1])
    const t = radius / Math.tan(between / 2)
    const half = unit([0, 0], [u[0] + v[0], u[1] + v[1]])
    const d = radius / Math.sin(between / 2)
    const centre: P = [b[0] + half[0] * d, b[1] + half[1] * d]
    const from = Math.atan2(b[1] + u[1] * t - centre[1], b[0] + u[0] * t - centre[0])
    let sweep = Math.atan2(b[1] + v[1] * t - centre[1], b[0] + v[0] * t - centre[0]) - from
    while (sweep > Math.PI) sweep -= 2 * Math.PI
    while (sweep < -Math.PI) sweep += 2 * Math.PI
    for (let k = 0; k <= 2000; k++)
      out.push([
        centre[0] + radius * Math.cos(from + (sweep * k) / 2000),
        centre[1] + radius * Math.sin(from + (sweep * k) / 2000),
      ])
  }
  out.push(points[points.length - 1]!)
  return out.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - out[i]![0], p[1] - out[i]![1]), 0)
}

describe('bends of a raceway', () => {
  test('two quarters: developed length by arcs, by gains and by short chords', () => {
    const s = sheet('C1')
    // 4 1/4 in to the centre line of the hand bender for 1/2 EMT (markings of hand benders, memory).
    expect(s.radiusMm).toBeCloseTo(107.95, 6)
    expect(s.axisMm).toBe(3000)
    const chords = chordsMm(
      [
        [0, 0],
        [0, 800],
        [1500, 800],
        [1500, 100],
      ],
      s.radiusMm,
    )
    expect(s.developedMm).toBeCloseTo(chords, 3)
    expect(s.checkMm).toBeCloseTo(s.developedMm, 9)
    // Gain of a quarter: 2R − πR/2.
    expect(s.developedMm).toBeCloseTo(3000 - 2 * (2 - Math.PI / 2) * 107.95, 6)
  })

  test('an offset and the corner that no bender has room for', () => {
    const s = sheet('C2')
    expect(s.bends.map((b) => [b.kind, b.made])).toEqual([
      ['offset', 'bent'],
      ['quarter', 'pull elbow'],
    ])
    const [first, nipple] = s.pieces
    const shoulder = 1.6 * outsideMm('EMT', '1/2')
    const run = 13 / Math.tan((10 * Math.PI) / 180)
    const chords = chordsMm(
      [
        [0, 0],
        [400 - run / 2, 0],
        [400 + run / 2, 13],
        [2600 - shoulder, 13],
      ],
      s.radiusMm,
    )
    expect(first!.developedMm).toBeCloseTo(chords, 3)
    expect(nipple).toMatchObject({ nipple: true, from: 'pull elbow', to: 'box' })
    expect(nipple!.developedMm).toBeCloseTo(50 - shoulder, 9)
    expect(s.fittings).toEqual({ connectors: 2, offsetConnectors: 0, couplings: 0, elbows: 1, pullBoxes: 0, nipples: 1 })
  })

  test('a saddle of three bends', () => {
    const s = sheet('own-light')
    const run = 30.4 / Math.tan((22.5 * Math.PI) / 180)
    const chords = chordsMm(
      [
        [0, 0],
        [0, 800 - run],
        [30.4, 800],
        [0, 800 + run],
        [0, 1400],
        [-1106, 1400],
      ],
      s.radiusMm,
    )
    expect(s.developedMm).toBeCloseTo(chords, 3)
    expect(s.pieces[0]!.marks.map((m) => m.angleDeg)).toEqual([22.5, 45, 22.5, 90])
    // The middle bend sits on the crossed raceway by its notch, the others by the arrow.
    expect(s.pieces[0]!.marks.map((m) => m.arrowMm === null)).toEqual([false, true, false, false])
  })

  test('marks: the stub of a quarter is its height less the take-up', () => {
    const s = sheet('C1')
    const [first, second] = s.pieces[0]!.marks
    // 5 in for 1/2 EMT (markings of hand benders, memory); a stub is measured to the back of its bend.
    expect(first!.arrowMm).toBeCloseTo(800 + outsideMm('EMT', '1/2') / 2 - 127, 6)
    expect(first!.startMm).toBeCloseTo(800 - s.radiusMm, 6)
    expect(second!.startMm - first!.startMm).toBeCloseTo(1500 - 2 * s.radiusMm + (Math.PI / 2) * s.radiusMm, 6)
    // Up, along, down: a U in one plane.
    expect(second!.turnDeg).toBe(0)
  })

  test('turns the pipe for a Z and out of its plane', () => {
    const route = (last: readonly [number, number, number]): RacewayRoute => ({
      ...raceways[0]!,
      pointsMm: [[0, 0, 0], [0, 0, 800], [1500, 0, 800], last],
    })
    const turn = (last: readonly [number, number, number]) => sheets([route(last)])[0]!.pieces[0]!.marks[1]!.turnDeg
    expect(turn([1500, 0, 1500])).toBe(180)
    expect(Math.abs(turn([1500, 700, 800])!)).toBe(90)
    expect(turn([1500, 700, 800])).toBe(-turn([1500, -700, 800])!)
  })

  test('the rule set’s radius where no table knows the bender, and no take-up then', () => {
    const own = { ...raceways[0]!, kind: 'conduit', trade: '20 mm' }
    const s = racewaySheets({ raceways: [own], rules: intl, racewayMm: outsideMm, standOff: () => null, stickMm: 3000 })[0]!
    // 3 times the outside diameter (guidance to BS 7671, memory).
    expect(s.radiusMm).toBeCloseTo(60, 9)
    expect(s.bends.every((b) => b.takeUpMm === null)).toBe(true)
    expect(s.pieces[0]!.marks.every((m) => m.arrowMm === null)).toBe(true)
  })

  test('sticks are joined by couplings off the bends, and together are the whole', () => {
    const long: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 0, 0],
        [3000, 0, 0],
        [3000, 0, 2000],
      ],
      bends: [{ kind: 'quarter', atMm: 3000, sumDeg: 90, riseMm: 0 }],
    }
    const [s] = sheets([long])
    const [one, two] = s!.pieces
    // A coupling at 3048 would sit in the bend: it moves to 50 mm before its arc.
    expect(one!.developedMm).toBeCloseTo(3000 - s!.radiusMm - 50, 6)
    expect(one!.axisToMm).toBeCloseTo(one!.developedMm, 6)
    expect(two!.marks[0]!.startMm).toBeCloseTo(50, 6)
    expect(one!.developedMm + two!.developedMm).toBeCloseTo(s!.checkMm, 6)
    expect(s!.fittings.couplings).toBe(1)
  })

  test('saddles that would run into each other are made as one, and their pull boxes fall away', () => {
    const at = [500, 560, 620, 680, 740]
    const level: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 0, 0],
        [2500, 0, 0],
      ],
      bends: at.map((atMm) => ({ kind: 'saddle', atMm, sumDeg: 90, riseMm: 30 })),
      pullsMm: [710],
    }
    const [s] = sheets([level])
    expect(s!.bends.map((b) => b.kind)).toEqual(['long saddle'])
    expect(s!.pullsMm).toEqual([])
    const run = 30 / Math.tan((22.5 * Math.PI) / 180)
    const half = 120 + 15
    const chords = chordsMm(
      [
        [0, 0],
        [620 - half - run, 0],
        [620 - half, 30],
        [620 + half, 30],
        [620 + half + run, 0],
        [2500, 0],
      ],
      s!.radiusMm,
    )
    expect(s!.developedMm).toBeCloseTo(chords, 3)
  })

  test('no stretch between two pulls bends more than the set allows', () => {
    const level: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 0, 0],
        [6000, 0, 0],
      ],
      bends: [600, 1400, 2200, 3000, 3800, 4600].map((atMm) => ({ kind: 'saddle', atMm, sumDeg: 90, riseMm: 30 })),
    }
    const [s] = sheets([level])
    expect(s!.pullsMm).toHaveLength(1)
    const before = s!.bends.filter((b) => b.atMm < s!.pullsMm[0]!).length
    // 360° between pulls (NEC 358.26, memory).
    expect(Math.max(before, 6 - before) * 90).toBeLessThanOrEqual(us.build.bendsBetweenPullsDeg.value)
  })

  test('a saddle without room goes to the raceway it crosses', () => {
    const short: RacewayRoute = {
      ...raceways[0]!,
      id: 'short',
      pointsMm: [
        [1000, 94, 1000],
        [1000, 94, 1600],
        [1600, 94, 1600],
      ],
      bends: [
        { kind: 'saddle', atMm: 560, sumDeg: 90, riseMm: 30.4 },
        { kind: 'quarter', atMm: 600, sumDeg: 90, riseMm: 0 },
      ],
    }
    const crossed: RacewayRoute = {
      ...raceways[0]!,
      id: 'crossed',
      pointsMm: [
        [100, 94, 1560],
        [2600, 94, 1560],
      ],
      bends: [],
    }
    const [b, a] = sheets([short, crossed])
    expect(a!.bends.map((x) => [x.kind, x.made])).toEqual([['quarter', 'bent']])
    expect(b!.bends).toMatchObject([{ kind: 'saddle', atMm: 900, riseMm: 30.4 }])
  })

  test('beside a deep box a saddle steps down only once: the raceway leaves the box farther off the wall', () => {
    const near: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 94, 0],
        [900, 94, 0],
      ],
      bends: [{ kind: 'saddle', atMm: 60, sumDeg: 90, riseMm: 30 }],
    }
    // It wants its own diameter, the rise and 10 mm: 17.9 + 30 + 10.
    expect(sheets([near], 57)[0]!.bends.map((b) => b.kind)).toEqual(['saddle'])
    const [s] = sheets([near], 58)
    expect(s!.bends).toMatchObject([{ kind: 'offset', made: 'bent', raised: 'before', riseMm: 30, angleDeg: 22.5 }])
    expect(s!.short).toBeNull()
    const run = 30 / Math.tan((22.5 * Math.PI) / 180)
    // 60 + 15 mm over what it crosses would do; the 50 mm of straight at the box hold it longer.
    const t = Math.max(25, s!.radiusMm * Math.tan((11.25 * Math.PI) / 180))
    const chords = chordsMm(
      [
        [0, 30],
        [50 + t, 30],
        [50 + t + run, 0],
        [900, 0],
      ],
      s!.radiusMm,
    )
    expect(s!.developedMm).toBeCloseTo(chords, 3)
  })

  test('a crossing beside a corner: a box in the corner, and one step down behind it', () => {
    const corner: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 94, 0],
        [800, 94, 0],
        [800, 94, 900],
      ],
      bends: [
        { kind: 'quarter', atMm: 800, sumDeg: 90, riseMm: 0 },
        { kind: 'saddle', atMm: 850, sumDeg: 90, riseMm: 30 },
      ],
    }
    const [s] = sheets([corner])
    expect(s!.bends.map((b) => [b.kind, b.made, b.raised])).toEqual([
      ['quarter', 'corner box', null],
      ['offset', 'bent', 'before'],
    ])
    expect(s!.short).toBeNull()
    expect(s!.fittings).toMatchObject({ connectors: 4, elbows: 0, pullBoxes: 1 })
    expect(s!.pieces.map((p) => [p.from, p.to])).toEqual([
      ['box', 'corner box'],
      ['corner box', 'box'],
    ])
  })

  test('a step into a box without room to bend it is bought', () => {
    // Out of the wall: no kick can make it.
    const step: RacewayRoute = {
      ...raceways[0]!,
      pointsMm: [
        [0, 94, 0],
        [900, 94, 0],
        [900, 294, 0],
      ],
      bends: [
        { kind: 'offset', atMm: 930, sumDeg: 20, riseMm: 13 },
        { kind: 'quarter', atMm: 900, sumDeg: 90, riseMm: 0 },
      ],
    }
    const [s] = sheets([step])
    expect(s!.bends.find((b) => b.kind === 'offset')).toMatchObject({ made: 'offset connector', atMm: 1100 })
    expect(s!.fittings).toMatchObject({ connectors: 1, offsetConnectors: 1 })
    expect(s!.short).toBeNull()
  })

  const level = (lengthMm: number, saddlesMm: readonly number[], over: Partial<RacewayRoute> = {}): RacewayRoute => ({
    ...raceways[0]!,
    pointsMm: [
      [0, 94, 0],
      [lengthMm, 94, 0],
    ],
    bends: saddlesMm.map((atMm) => ({ kind: 'saddle', atMm, sumDeg: 90, riseMm: 30 })),
    ...over,
  })

  test('two corners keep 25 mm of straight pipe between their arcs, or one is an elbow', () => {
    const made = (legMm: number) =>
      sheets([
        {
          ...raceways[0]!,
          pointsMm: [
            [0, 0, 0],
            [500, 0, 0],
            [500, 0, legMm],
            [1000, 0, legMm],
          ],
          bends: [500, 500 + legMm].map((atMm) => ({ kind: 'quarter', atMm, sumDeg: 90, riseMm: 0 })),
        },
      ])[0]!.bends.map((b) => b.made)
    expect(made(2 * 107.95 + 25.1)).toEqual(['bent', 'bent'])
    expect(made(2 * 107.95 + 24.9)).toContain('pull elbow')
  })

  test('raised at a box it stays up over the next crossing where it could not come down before it', () => {
    const [s] = sheets([level(1500, [60, 280])], 100)
    const run = 30 / Math.tan((22.5 * Math.PI) / 180)
    expect(s!.bends).toMatchObject([{ kind: 'offset', raised: 'before' }])
    expect(s!.bends[0]!.atMm).toBeCloseTo(280 + 15 + run / 2, 6)
    expect(sheets([level(1500, [60, 400])], 100)[0]!.bends.map((b) => b.kind)).toEqual(['offset', 'saddle'])
  })

  test('the raceway that steps over rises by its own diameter, and only where it has the room', () => {
    const over: Partial<RacewayRoute> = {
      id: 'b',
      pointsMm: [
        [60, 94, -800],
        [60, 94, 800],
      ],
      bends: [],
    }
    const wide = sheets([level(900, [60], { id: 'a' }), { ...raceways[0]!, ...over, trade: '1-1/4' }])
    expect(wide[0]!.bends).toEqual([])
    // 30 for two of 17.9 mm; (38.4 − 17.9)/2 more for the wider pipe.
    expect(wide[1]!.bends).toMatchObject([{ kind: 'saddle', atMm: 800, riseMm: 30 + (38.4 - 17.9) / 2 }])
    const stub = sheets([
      level(900, [60], { id: 'a' }),
      {
        ...raceways[0]!,
        ...over,
        pointsMm: [
          [60, 94, -40],
          [60, 94, 40],
        ],
      },
    ])
    expect(stub[0]!.bends.map((b) => b.kind)).toEqual(['saddle'])
    expect(stub[1]!.bends).toEqual([])
  })

  test('of several places the one that is short of most is told', () => {
    const [s] = sheets([level(900, [80, 870])])
    expect(s!.short!.between).toEqual(['saddle at 870 mm', 'its end'])
    expect(s!.short!.needMm).toBe(50)
    expect(sheets([level(900, [30, 800])])[0]!.short!.between[0]).toBe('its beginning')
  })

  test('a bender tighter than the rule is not used', () => {
    const strict = {
      build: { ...us.build, bendRadiusM: () => ({ ...us.build.bendRadiusM({ kind: 'EMT', trade: '1/2' }), value: 0.2 }) },
    }
    const [s] = racewaySheets({
      raceways: [level(900, [])],
      rules: strict,
      racewayMm: outsideMm,
      standOff: () => null,
      stickMm: 3048,
    })
    expect(s!.radiusMm).toBe(200)
  })

  test('short of straight pipe, but apart: tight; fittings too near by their assumed size: tight, and to be measured', () => {
    const verdicts = (own: RacewayRoute) => {
      const inputs = yardInputs()
      const [build] = inputs.design.builds
      return answerShop({
        ...inputs,
        design: { ...inputs.design, builds: [{ ...build!, fit: { ...build!.fit, raceways: [own] } }] },
      })
        .findings.filter((f) => f.code === 'shop/bend-too-near')
        .map((f) => [f.verdict, f.said.includes('measure')])
    }
    expect(verdicts(level(900, [120], { from: 'elsewhere' }))).toEqual([['tight', false]])
    const jog: RacewayRoute = {
      ...raceways[0]!,
      trade: '2',
      pointsMm: [
        [0, 94, 0],
        [900, 94, 0],
        [900, 94, 60],
        [1800, 94, 60],
      ],
      bends: [900, 960].map((atMm) => ({ kind: 'quarter', atMm, sumDeg: 90, riseMm: 0 })),
    }
    expect(verdicts(jog)).toEqual([['tight', true]])
  })

  test('what cannot be bent where it is drawn is said with both numbers', () => {
    const near: RacewayRoute = {
      ...raceways[0]!,
      from: 'elsewhere',
      bends: [{ kind: 'saddle', atMm: 60, sumDeg: 90, riseMm: 30.4 }],
      pointsMm: [
        [0, 94, 0],
        [900, 94, 0],
      ],
    }
    const inputs = yardInputs()
    const [build] = inputs.design.builds
    const answer = answerShop({
      ...inputs,
      design: { ...inputs.design, builds: [{ ...build!, fit: { ...build!.fit, raceways: [near] } }] },
    })
    const found = answer.findings.find((f) => f.code === 'shop/bend-too-near')
    const free = 60 - 30.4 / Math.tan((22.5 * Math.PI) / 180) - 107.95 * Math.tan((11.25 * Math.PI) / 180)
    expect(found).toMatchObject({ verdict: 'fails', limit: { value: 50 } })
    expect(found!.demand!.value).toBeCloseTo(free, 6)
    expect(answerShop(inputs).findings.filter((f) => f.code === 'shop/bend-too-near')).toEqual([])
  })
})

describe('any raceway', () => {
  /** Legs at right angles with saddles wherever they fall, near corners and ends too. */
  const anyRaceway = fc
    .record({
      legs: fc.array(fc.record({ axis: fc.nat(1), back: fc.boolean(), mm: fc.integer({ min: 40, max: 4000 }) }), {
        minLength: 1,
        maxLength: 6,
      }),
      saddles: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 8 }),
      trade: fc.constantFrom('1/2', '3/4', '1', '2'),
      deepMm: fc.constantFrom(0, 60, 250),
    })
    .map(({ legs, saddles, trade, deepMm }) => {
      const points: [number, number, number][] = [[0, 0, 0]]
      let axis = 0
      for (const leg of legs) {
        const last = points[points.length - 1]!
        axis = (axis + 1 + leg.axis) % 3
        points.push(last.map((v, k) => (k === axis ? v + (leg.back ? -leg.mm : leg.mm) : v)) as [number, number, number])
      }
      const lengths = legs.map((l) => l.mm)
      const whole = lengths.reduce((a, b) => a + b, 0)
      const quarters = lengths.slice(0, -1).map((_, i) => ({
        kind: 'quarter' as const,
        atMm: lengths.slice(0, i + 1).reduce((a, b) => a + b, 0),
        sumDeg: 90,
        riseMm: 0,
      }))
      const bends = [...quarters, ...saddles.map((s) => ({ kind: 'saddle' as const, atMm: s * whole, sumDeg: 90, riseMm: 30 }))]
      return { route: { ...raceways[0]!, trade, pointsMm: points, bends }, deepMm }
    })

  test('is developed alike by two roads, in pieces that fit a stick and follow one another, with marks in order', () => {
    fc.assert(
      fc.property(anyRaceway, ({ route, deepMm }) => {
        const [s] = sheets([route], deepMm)
        expect(s!.developedMm).toBeCloseTo(s!.checkMm, 6)
        // The line that a person can follow ends at the same length.
        const steps = bendsWorking('yard', s!, benderFor(s!, us).rests).steps
        if (s!.short === null) expect(steps[steps.length - 1]!.result).toBeCloseTo(s!.developedMm, 6)
        s!.pieces.forEach((p, i) => {
          expect(p.developedMm).toBeGreaterThan(0)
          expect(p.axisFromMm).toBeGreaterThanOrEqual((s!.pieces[i - 1]?.axisToMm ?? 0) - 1e-6)
          const starts = p.marks.map((m) => m.startMm)
          if (s!.short === null) {
            expect(p.developedMm).toBeLessThanOrEqual(3048 + 1e-6)
            expect(starts).toEqual(starts.toSorted((a, b) => a - b))
            for (const m of p.marks) expect(m.startMm).toBeGreaterThanOrEqual(49.99)
          }
        })
        if (s!.short !== null) expect(s!.short.needMm).toBeGreaterThan(s!.short.freeMm)
      }),
      { seed: 7, numRuns: 400 },
    )
  })
})

describe('geometry of a bend', () => {
  test('at the ends of its range, and beyond', () => {
    expect(offsetMultiplier(30)).toBeCloseTo(2, 12)
    expect(offsetMultiplier(90)).toBeCloseTo(1, 12)
    expect(offsetShrink(90)).toBeCloseTo(1, 12)
    expect(tangentMm(100, 90)).toBeCloseTo(100, 12)
    for (const wrong of [0, -5, 181, Number.NaN]) expect(() => tangentMm(100, wrong)).toThrow('shop/bend-range')
    for (const wrong of [0, 91, Number.NaN]) {
      expect(() => offsetMultiplier(wrong)).toThrow('shop/bend-range')
      expect(() => offsetShrink(wrong)).toThrow('shop/bend-range')
    }
    expect(() => gainMm(0, 90)).toThrow('shop/bend-range')
  })

  test('both roads agree for any corners', () => {
    for (const angleDeg of [10, 22.5, 45, 60, 90, 120]) {
      const { walkedMm, lessGainsMm } = developed(
        [
          { legMm: 900, angleDeg },
          { legMm: 700, angleDeg: 45 },
        ],
        500,
        120,
      )
      expect(walkedMm).toBeCloseTo(lessGainsMm, 9)
      expect(walkedMm).toBeLessThan(2100)
    }
  })
})
