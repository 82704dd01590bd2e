import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { axisLengthMm, type PlacedItem, type PointMm, type RacewayRoute } from '../../job/index.ts'
import { mostBetweenPullsDeg, pullsFor, quarterBends } from './bends.ts'
import { type Leg, meeting } from './ground.ts'
import { runLengths } from './lengths.ts'
import { designRoutes } from './routes.ts'
import { strapsAlong } from './straps.ts'
import { circuit, item, room, rules, run, yard } from './yard.fixture.ts'

const somewhere = fc.record({ count: fc.integer({ min: 1, max: 11 }), panelAtMm: fc.integer({ min: 400, max: 2700 }) })

/** Legs as upright boxes around their axis, in the axes of the box: a road of its own to what is clear of what. */
function legsOf(r: RacewayRoute, halfMm: number): readonly (readonly [PointMm, PointMm])[] {
  return r.pointsMm.slice(1).map((b, i) => {
    const a = r.pointsMm[i]!
    const low = [0, 1, 2].map((k) => Math.min(a[k]!, b[k]!) - halfMm) as unknown as PointMm
    const high = [0, 1, 2].map((k) => Math.max(a[k]!, b[k]!) + halfMm) as unknown as PointMm
    return [low, high]
  })
}

const meets = ([al, ah]: readonly [PointMm, PointMm], [bl, bh]: readonly [PointMm, PointMm]) =>
  [0, 1, 2].every((k) => Math.min(ah[k]!, bh[k]!) - Math.max(al[k]!, bl[k]!) > 1e-6)

const solid = (i: PlacedItem): readonly [PointMm, PointMm] => [
  i.atMm,
  i.atMm.map((v, k) => v + i.sizeMm[k]!) as unknown as PointMm,
]

describe('raceways of a box', () => {
  test('every leg runs along one axis', () => {
    fc.assert(
      fc.property(somewhere, ({ count, panelAtMm }) => {
        for (const r of designRoutes(yard(count, panelAtMm)).raceways)
          for (let i = 1; i < r.pointsMm.length; i++)
            expect([0, 1, 2].filter((k) => Math.abs(r.pointsMm[i]![k]! - r.pointsMm[i - 1]![k]!) > 1e-6)).toHaveLength(1)
      }),
      { numRuns: 40 },
    )
  })

  test('no raceway passes through a thing it does not end at', () => {
    fc.assert(
      fc.property(somewhere, ({ count, panelAtMm }) => {
        const asked = yard(count, panelAtMm)
        for (const r of designRoutes(asked).raceways)
          for (const leg of legsOf(r, 8.95))
            for (const i of asked.items)
              if (i.id !== r.from && i.id !== r.to && meets(leg, solid(i))) throw new Error(`${r.id} passes through ${i.id}`)
      }),
      { numRuns: 40 },
    )
  })

  test('two raceways lie clear of each other but where one is bent over the other', () => {
    fc.assert(
      fc.property(somewhere, ({ count, panelAtMm }) => {
        const { raceways } = designRoutes(yard(count, panelAtMm))
        let meetings = 0
        raceways.forEach((a, i) => {
          for (const b of raceways.slice(i + 1))
            for (const p of legsOf(a, 8.95)) for (const q of legsOf(b, 8.95)) if (meets(p, q)) meetings += 1
        })
        expect(meetings).toBe(raceways.flatMap((r) => r.bends).filter((b) => b.kind === 'saddle').length)
      }),
      { numRuns: 40 },
    )
  })

  test('every circuit is led, and no stretch between pulls turns more than a full turn', () => {
    fc.assert(
      fc.property(somewhere, ({ count, panelAtMm }) => {
        const made = designRoutes(yard(count, panelAtMm))
        expect(made.unrouted).toEqual([])
        expect(made.raceways).toHaveLength(2 * count + 1)
        for (const r of made.raceways) expect(mostBetweenPullsDeg(r)).toBeLessThanOrEqual(360)
      }),
      { numRuns: 40 },
    )
  })

  test('none is shorter than the way of a spider along the walls allows, nor than the bends need', () => {
    const asked = yard(8)
    for (const r of designRoutes(asked).raceways) {
      const [a, b] = [r.from, r.to].map((id) => asked.items.find((i) => i.id === id)!)
      const apart = [0, 1, 2].map((k) =>
        Math.max(0, Math.max(a!.atMm[k]!, b!.atMm[k]!) - Math.min(a!.atMm[k]! + a!.sizeMm[k]!, b!.atMm[k]! + b!.sizeMm[k]!)),
      )
      expect(axisLengthMm(r.pointsMm)).toBeGreaterThanOrEqual(Math.hypot(...apart) - 1e-6)
    }
  })

  test('the order of things in the list changes nothing', () => {
    const asked = yard(6)
    const turned = { ...asked, items: asked.items.toReversed() }
    expect(designRoutes(turned)).toEqual(designRoutes(asked))
  })

  test('a thing on the door end cannot be led to, and it says so', () => {
    const asked = yard(1)
    const lamp = { ...item('lamp', 'receptacle', 'left', [3000, 800], [100, 100, 50], ['L9']), side: 'door end' as const }
    const design = { ...(asked.design as object), circuits: [circuit('L9')] } as never
    expect(designRoutes({ ...asked, items: [...asked.items, lamp], design }).unrouted).toEqual([
      { circuit: 'L9', from: 'panel', to: 'lamp', by: 'the door end', byMm: 0 },
    ])
  })

  test('what stands in the way is named with its millimetres', () => {
    const walled = [
      item('panel', 'panel', 'left', [3000, 1200], [370, 2300, 150], ['C1']),
      item('left wall', 'transformer', 'left', [2500, 1200], [300, 2380, 300], []),
      item('right wall', 'transformer', 'left', [3500, 1200], [300, 2380, 300], []),
      item('receptacle C1', 'receptacle', 'left', [5000, 800], [120, 120, 54], ['C1']),
    ]
    const design = { ...(yard(1).design as object), circuits: [circuit('C1')] } as never
    const [first] = designRoutes({ body: room, items: walled, openings: [], design, rules }).unrouted
    expect(first).toMatchObject({ circuit: 'C1', from: 'panel', to: 'receptacle C1' })
    expect(first!.byMm).toBeGreaterThan(0)
  })

  test('circuits that share a raceway lead from box to box, each stretch with the wires that still lie in it', () => {
    const items = [
      item('panel', 'panel', 'left', [1000, 1400], [370, 900, 150], ['A', 'B']),
      item('first', 'receptacle', 'left', [2000, 800], [120, 120, 54], ['A']),
      item('second', 'receptacle', 'left', [3000, 800], [120, 120, 54], ['B']),
    ]
    const shared = { ...run('3/4'), raceway: { kind: 'EMT', trade: '3/4', shared: 'G' } }
    const circuits = [circuit('A', { run: shared }), circuit('B', { run: shared })]
    const { raceways } = designRoutes({
      body: room,
      items,
      openings: [],
      design: { ...(yard(1).design as object), circuits } as never,
      rules,
    })
    expect(raceways.map((r) => [r.id, r.from, r.to, r.circuits, r.conductors[0]!.count])).toEqual([
      ['G/1', 'panel', 'first', ['A', 'B'], 6],
      ['G/2', 'first', 'second', ['B'], 3],
    ])
    const lengths = Object.fromEntries(runLengths({ items, raceways }).map((l) => [l.circuit, l]))
    const metres = raceways.map((r) => axisLengthMm(r.pointsMm) / 1000)
    expect(lengths.A!.electricalM).toBeCloseTo(metres[0]! + 0.6, 9)
    expect(lengths.B!.electricalM).toBeCloseTo(metres[0]! + metres[1]! + 1.2, 9)
    expect(lengths.B!.cutM).toBeCloseTo(1.05 * (metres[0]! + metres[1]!) + 1.2, 9)
  })
})

describe('bends, pulls and straps', () => {
  test('a corner that does not turn is no bend', () => {
    expect(
      quarterBends([
        [0, 0, 0],
        [100, 0, 0],
        [200, 0, 0],
        [200, 0, 300],
      ]),
    ).toEqual([{ kind: 'quarter', atMm: 200, sumDeg: 90, riseMm: 0 }])
  })

  test('five quarter bends need one pull box, nine need two', () => {
    const bends = (n: number) =>
      Array.from({ length: n }, (_, i) => ({ kind: 'quarter' as const, atMm: 500 * (i + 1), sumDeg: 90, riseMm: 0 }))
    expect(pullsFor(bends(4), 360)).toEqual([])
    expect(pullsFor(bends(5), 360)).toEqual([2250])
    expect(pullsFor(bends(9), 360)).toEqual([2250, 4250])
  })

  test('straps keep within the rule at both ends and between, for any length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 460, max: 30000 }), (lengthMm) => {
        const straps = strapsAlong({ lengthMm, bends: [], radiusMm: 100, pullsMm: [], everyMm: 3048, fromBoxMm: 914 })
        const at = [...straps]
        expect(at[0]!).toBeLessThanOrEqual(914)
        expect(lengthMm - at[at.length - 1]!).toBeLessThanOrEqual(914)
        for (let i = 1; i < at.length; i++) expect(at[i]! - at[i - 1]!).toBeLessThanOrEqual(3048)
      }),
    )
  })
})

describe('where walls are full', () => {
  const far = (a: PointMm, b: PointMm) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

  test('every saddle has the straight pipe for its slopes and outer bends, clear of corners and ends', () => {
    // A three-bend saddle of 22.5°/45°: slope h/tan 22.5° to each side and the tangent r·tan 11.25° of its outer bend (geometry; hand-bender practice).
    fc.assert(
      fc.property(somewhere, ({ count, panelAtMm }) => {
        for (const r of designRoutes(yard(count, panelAtMm)).raceways)
          for (const saddle of r.bends.filter((b) => b.kind === 'saddle')) {
            const reach = saddle.riseMm / Math.tan(Math.PI / 8) + 101.6 * Math.tan(Math.PI / 16)
            const length = axisLengthMm(r.pointsMm)
            expect(Math.min(saddle.atMm, length - saddle.atMm)).toBeGreaterThanOrEqual(reach)
            for (const q of r.bends.filter((b) => b.kind === 'quarter'))
              expect(Math.abs(q.atMm - saddle.atMm)).toBeGreaterThanOrEqual(reach + 101.6 - 1e-6)
          }
      }),
      { numRuns: 40 },
    )
  })

  test('two legs cross only where one has the straight pipe for a saddle, and either may step over', () => {
    const leg = (fromMm: readonly [number, number], toMm: readonly [number, number], bent: readonly [boolean, boolean]): Leg => ({
      route: 'x',
      fromMm,
      toMm,
      halfMm: 8.95,
      radiusMm: 101.6,
      bent,
    })
    // h = 17.9 + 12.5, slope h/tan 22.5° = 73.4, level h/2, tangent r·tan 11.25° = 20.2: 108.8 mm, and 126.6 mm more to a bend's corner.
    const upright = leg([1000, 0], [1000, 400], [true, true])
    const level = (apartMm: number, bent: boolean) => leg([1000 - apartMm, 200], [1000 + apartMm, 200], [bent, bent])
    expect(meeting(level(240, true), upright, 25)).toBe('crossing')
    expect(meeting(level(230, true), upright, 25)).toBe('overlap')
    expect(meeting(level(165, false), upright, 25)).toBe('crossing')
    expect(meeting(level(150, false), upright, 25)).toBe('overlap')
    expect(meeting(level(150, false), leg([1000, 0], [1000, 600], [true, true]), 25)).toBe('overlap')
    expect(meeting(level(150, false), leg([1000, -200], [1000, 600], [true, true]), 25)).toBe('crossing')
  })

  test('a meter and a disconnect side by side outside are joined by a straight nipple outside', () => {
    const outside = (id: string, kind: PlacedItem['kind'], atMm: number): PlacedItem => ({
      ...item(id, kind, 'left', [atMm, 1300], [300, 500, 200], []),
      face: 'outside',
      atMm: [room.insideAtMm[0] + atMm, -241, 1200],
    })
    const items = [outside('meter', 'meter', 600), outside('service disconnect', 'service disconnect', 1000)]
    const panel = { main: { poles: 2 }, feed: run('3/4') }
    const design = { ...(yard(1).design as object), circuits: [], panel, transformer: null, fedFrom: null } as never
    const [feed] = designRoutes({ body: room, items, openings: [], design, rules }).raceways
    expect([feed!.from, feed!.to, feed!.bends]).toEqual(['meter', 'service disconnect', []])
    expect(far(feed!.pointsMm[0]!, feed!.pointsMm[1]!)).toBeCloseTo(100, 9)
    for (const [, y] of feed!.pointsMm) expect(y).toBeLessThan(0)
  })
})

test('where only the wires in them differ, raceways laid before keep their ways; where a thing has moved, they are laid anew', () => {
  const asked = yard(6)
  const { raceways } = designRoutes(asked)
  const earlier = {
    items: asked.items,
    openings: asked.openings,
    raceways: raceways.map((r) => ({ ...r, conductors: [], strapsMm: [1] })),
  }
  const kept = designRoutes({ ...asked, earlier }).raceways
  expect(kept.map((r) => r.strapsMm)).toEqual(raceways.map(() => [1]))
  expect(kept.map((r) => r.conductors)).toEqual(raceways.map((r) => r.conductors))
  const moved = asked.items.map((i) => (i.kind === 'panel' ? { ...i, atMm: [i.atMm[0] + 50, i.atMm[1], i.atMm[2]] as const } : i))
  expect(designRoutes({ ...asked, items: moved, earlier }).raceways).toEqual(designRoutes({ ...asked, items: moved }).raceways)
})
