import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asked, type Wish } from '../../../test/laid-yard.ts'
import { consistencyFindings, type FitDesign, type Job, type PlacedItem, type PointMm, type RuleSetId } from '../../job/index.ts'
import { boundMoney } from './bound.ts'
import { clearEdge } from './clear.ts'
import { layoutFor } from './design.ts'
import { pieceMm, routeMm } from './money.ts'
import { pinPath } from './pins.ts'
import type { Task } from './plan-of.ts'
import { uprightsFor } from './strut.ts'
import type { Wall } from './wall.ts'

const wish: fc.Arbitrary<Wish> = fc.record({
  machines: fc.integer({ min: 1, max: 22 }),
  set: fc.constantFrom<RuleSetId>('us', 'ca', 'intl'),
  lengthFt: fc.constantFrom(10, 13, 20, 27, 40, 53),
  high: fc.boolean(),
  skin: fc.boolean(),
  control: fc.constantFrom<'none' | 'timers'>('none', 'timers'),
})
const RUNS = { numRuns: 30 }

/** A road of its own to what stands in what: every axis must part them, by less than nothing. */
const gapMm = (a: PlacedItem, b: PlacedItem): number =>
  Math.max(...[0, 1, 2].map((k) => Math.max(b.atMm[k]! - a.atMm[k]! - a.sizeMm[k]!, a.atMm[k]! - b.atMm[k]! - b.sizeMm[k]!)))

const touches = (item: PlacedItem, from: PointMm, to: PointMm, reach: number): boolean =>
  [0, 1, 2].every(
    (k) =>
      Math.min(from[k]!, to[k]!) - reach <= item.atMm[k]! + item.sizeMm[k]! &&
      Math.max(from[k]!, to[k]!) + reach >= item.atMm[k]!,
  )

describe('a layout, over box lengths, machine counts and rule sets', () => {
  test('nothing overlaps: any two things are at least 5 mm apart', () => {
    fc.assert(
      fc.property(wish, (w) => {
        const { items } = layoutFor(asked(w))
        for (const [i, a] of items.entries())
          for (const b of items.slice(i + 1)) expect(gapMm(a, b), `${a.id} and ${b.id}`).toBeGreaterThanOrEqual(5 - 1e-6)
      }),
      RUNS,
    )
  })

  test('nothing floats: every thing touches channel that it names, every piece is held at both ends', () => {
    fc.assert(
      fc.property(wish, (w) => {
        const { items, strut } = layoutFor(asked(w))
        const byId = new Map(strut.map((p) => [p.id, p]))
        expect(byId.size).toBe(strut.length)
        for (const item of items) {
          expect(item.hangsOn.length, item.id).toBeGreaterThan(0)
          for (const id of item.hangsOn) {
            const piece = byId.get(id)
            expect(piece, id).toBeDefined()
            // The channel is 41 mm deep, a bearer 82: its far face meets the thing.
            expect(touches(item, piece!.fromMm, piece!.toMm, 83), `${item.id} on ${id}`).toBe(true)
          }
        }
        for (const p of strut) expect(p.fixings.length, p.id).toBeGreaterThanOrEqual(2)
      }),
      RUNS,
    )
  })

  test('everything stands in its box, and what the design asks for is placed or named in a clash', () => {
    fc.assert(
      fc.property(wish, (w) => {
        const request = asked(w)
        const fit = layoutFor(request)
        const { insideAtMm, insideMm } = request.body
        for (const i of fit.items.filter((x) => x.face === 'inside'))
          for (const k of [0, 1, 2]) {
            expect(i.atMm[k]!, i.id).toBeGreaterThanOrEqual(insideAtMm[k]! - 1e-6)
            expect(i.atMm[k]! + i.sizeMm[k]!, i.id).toBeLessThanOrEqual(insideAtMm[k]! + insideMm[k]! + 1e-6)
          }
        const seen = new Set([...fit.items.map((i) => i.id), ...fit.clashes.map((c) => c.what)])
        for (let m = 1; m <= w.machines; m++) expect(seen.has(`receptacle M${m}`), `M${m}`).toBe(true)
      }),
      RUNS,
    )
  })

  test('uprights stand on inner flats, 0.4 to 0.6 m apart in whole pitches where nothing is in the way', () => {
    fc.assert(
      fc.property(wish, (w) => {
        const request = asked({ ...w, skin: false })
        const pitch = request.body.sides.left.corrugation!.pitchMm.value
        const inner = request.body.sides.left.flats.filter((f) => f.kind === 'inner')
        const at = layoutFor(request)
          .strut.filter((p) => p.use === 'upright' && p.side === 'left')
          .map((p) => p.fromMm[0])
          .toSorted((a, b) => a - b)
        for (const u of at) expect(inner.some((f) => u >= f.fromMm && u <= f.toMm)).toBe(true)
        at.slice(1).forEach((u, i) => {
          const pitches = (u - at[i]!) / pitch
          expect(Math.abs(pitches - Math.round(pitches))).toBeLessThan(1e-6)
        })
      }),
      RUNS,
    )
  })

  test('never dearer than the plain left-to-right rule, never cheaper than the bound', () => {
    fc.assert(
      fc.property(wish, (w) => {
        const { search, clashes } = layoutFor(asked(w))
        expect(clashes.length).toBeLessThanOrEqual(search!.plainClashesCount)
        if (clashes.length === search!.plainClashesCount) expect(search!.money).toBeLessThanOrEqual(search!.plainMoney + 1e-9)
        if (clashes.length === 0 && search!.boundMoney !== null) {
          expect(search!.boundMoney).toBeGreaterThan(0)
          expect(search!.boundMoney).toBeLessThanOrEqual(search!.money)
        }
        expect(search!.triedCount).toBeLessThanOrEqual(160)
      }),
      RUNS,
    )
  })

  test('the order of circuits and of phases in the design changes nothing', () => {
    fc.assert(
      fc.property(wish, fc.nat(), (w, by) => {
        const request = asked(w)
        const turned = request.designs.map((d) => {
          const n = by % d.circuits.length
          return { ...d, circuits: [...d.circuits.slice(n), ...d.circuits.slice(0, n)].toReversed() }
        })
        expect(layoutFor({ ...request, designs: turned })).toEqual(layoutFor(request))
      }),
      RUNS,
    )
  })
})

const by = 'an electrician'
const pin = (item: string, value: string) => ({ path: pinPath('BX1', item), value, by, why: '' })
const middle = (i: PlacedItem, k: 0 | 1 | 2) => i.atMm[k] + i.sizeMm[k] / 2
const thing = (fit: FitDesign, id: string) => fit.items.find((i) => i.id === id)!

describe('pins', () => {
  test('a pinned thing hangs where it was pinned, and the rest moves about it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 900, max: 5000 }), (mm) => {
        const request = asked({ machines: 6, pins: [pin('panel', `right ${(mm / 1000).toFixed(3)} m 1.450 m`)] })
        const fit = layoutFor(request)
        const panel = thing(fit, 'panel')
        expect(panel.side).toBe('right')
        expect(middle(panel, 0)).toBeCloseTo(mm, 6)
        expect(middle(panel, 2) - request.body.floor.topMm).toBeCloseTo(1450, 6)
        for (const other of fit.items) if (other.id !== 'panel') expect(gapMm(panel, other)).toBeGreaterThanOrEqual(5 - 1e-6)
      }),
      { numRuns: 20 },
    )
  })

  test('two pins that stand in each other are named with the millimetres, the tolerance counted', () => {
    const fit = layoutFor(
      asked({ machines: 4, pins: [pin('panel', 'left 2.00 m 1.40 m'), pin('controls', 'left 2.20 m 1.40 m')] }),
    )
    // They stand in each other by the least of: along, half of both widths less the 200 mm between the middles; out from the wall, the
    // depth of the shallower; plus 5 mm of tolerance.
    const [panel, controls] = [thing(fit, 'panel').sizeMm, thing(fit, 'controls').sizeMm]
    const byMm = Math.min((panel[0] + controls[0]) / 2 - 200, panel[1], controls[1]) + 5
    expect(fit.clashes).toContainEqual({ what: 'controls', against: 'panel', byMm })
  })

  test('a pin on a dent or past the end of the wall is kept, and clashes', () => {
    const dent = { side: 'left' as const, fromMm: 2500, upMm: 1400, widthMm: 200, heightMm: 300, depthMm: 30 }
    const fit = layoutFor(
      asked({
        machines: 4,
        survey: { dents: [dent] },
        pins: [pin('panel', 'left 2.60 m 1.45 m'), pin('controls', 'left 6.00 m 1.45 m')],
      }),
    )
    expect(fit.clashes.some((c) => c.what === 'panel' && c.against.startsWith('dent'))).toBe(true)
    expect(fit.clashes.some((c) => c.what === 'controls' && c.against === 'end of the left wall')).toBe(true)
    expect(middle(thing(fit, 'panel'), 0)).toBeCloseTo(2600, 6)
  })

  test('outside, under the roof and on a tag with a point: each where its pin says', () => {
    const pins = [
      pin('meter', 'right outside 3.20 m 1.30 m'),
      pin('light 1', 'roof 2.00 m 0.90 m'),
      pin('receptacle M2', 'blind end 1.60 m 1.05 m'),
    ]
    const request = asked({ machines: 3, pins })
    const fit = layoutFor(request)
    const meter = thing(fit, 'meter')
    expect([meter.side, meter.face]).toEqual(['right', 'outside'])
    expect(meter.atMm[1]).toBeGreaterThanOrEqual(request.body.outsideMm[1])
    expect([middle(thing(fit, 'light 1'), 0), middle(thing(fit, 'light 1'), 1)]).toEqual([2000, 900])
    const receptacle = thing(fit, 'receptacle M2')
    expect([middle(receptacle, 1), middle(receptacle, 2) - request.body.floor.topMm]).toEqual([1600, 1050])
    for (const i of [meter, receptacle, thing(fit, 'light 1')]) expect(i.hangsOn.length, i.id).toBeGreaterThan(0)
    expect(pinPath('lot', 'receptacle BW6.4')).toBe('items.lot.receptacle-BW6.4.at')
    // The document takes such a path; of a thing that no choice has it says so.
    const said = consistencyFindings({ ...(request.job as Job), pins: [...pins, { ...pins[0]!, path: 'itms.BX1.meter.at' }] })
    expect(said.filter((f) => f.code === 'needs/pin-unknown').map((f) => f.subject)).toEqual(['itms.BX1.meter.at'])
  })

  test('what cannot be read as a place moves nothing', () => {
    const free = layoutFor(asked({ machines: 4 }))
    const fit = layoutFor(asked({ machines: 4, pins: [pin('panel', 'by the window')] }))
    expect(fit.items).toEqual(free.items)
  })
})

describe('what cannot exist', () => {
  test('more boxes than an 8 ft box has wall for: each one left over is named, with what is wanting', () => {
    const fit = layoutFor(asked({ machines: 22, lengthFt: 8, control: 'timers' }))
    expect(fit.clashes.length).toBeGreaterThan(0)
    for (const c of fit.clashes) {
      expect(c.byMm).toBeGreaterThan(0)
      expect(c.against).not.toBe('')
    }
  })

  test('walls without a flat, or with ribs 3 m apart: nothing hangs in the air unnamed', () => {
    const plain = asked({ machines: 4 })
    const bare = { ...plain.body.sides.left, flats: [] }
    const sides = { ...plain.body.sides, left: bare, right: { ...plain.body.sides.right, flats: [] } }
    for (const request of [{ ...plain, body: { ...plain.body, sides } }, asked({ machines: 4, survey: { ribPitchMm: 3000 } })]) {
      const fit = layoutFor(request)
      const wanting = new Set(fit.clashes.map((c) => c.what))
      for (const i of fit.items) if (i.hangsOn.length === 0) expect(wanting.has(i.id), i.id).toBe(true)
      for (let m = 1; m <= 4; m++)
        expect(wanting.has(`receptacle M${m}`) || fit.items.some((i) => i.id === `receptacle M${m}`), `M${m}`).toBe(true)
    }
    expect(layoutFor({ ...plain, body: { ...plain.body, sides } }).clashes).toContainEqual(
      expect.objectContaining({ what: 'panel', against: 'left wall without a flat' }),
    )
  })

  test('nothing that was not pinned hangs on a dent', () => {
    const dents = [800, 2200, 3600].map((fromMm) => ({
      side: 'left' as const,
      fromMm,
      upMm: 900,
      widthMm: 250,
      heightMm: 600,
      depthMm: 25,
    }))
    const request = asked({ machines: 10, survey: { dents } })
    for (const i of layoutFor(request).items.filter((x) => x.side === 'left' && x.face === 'inside'))
      for (const d of request.body.sides.left.dents)
        expect(
          i.atMm[0] + i.sizeMm[0] <= d.fromMm + 1e-6 ||
            i.atMm[0] >= d.toMm - 1e-6 ||
            i.atMm[2] + i.sizeMm[2] <= d.lowMm + 1e-6 ||
            i.atMm[2] >= d.highMm - 1e-6,
          i.id,
        ).toBe(true)
  })
})

describe('pieces of the objective, by hand', () => {
  test('a route rises to the middle of the high band, runs along the wall and comes down', () => {
    const { body } = asked({ machines: 1 })
    const part = {
      id: '',
      widthMm: 100,
      heightMm: 200,
      depthMm: 100,
      massKg: { low: 1, high: 1, basis: '', told: true },
      workedOnLive: false,
      doorMm: 0,
      provenance: 'computed' as const,
      source: '',
    }
    const spot = (id: string, uMm: number, upMm: number) => ({
      item: { id, kind: 'receptacle' as const, what: id, part, circuits: [], plug: null },
      side: 'left' as const,
      face: 'inside' as const,
      uMm,
      zMm: body.floor.topMm + upMm,
      pinned: false,
    })
    // Inside 2393 high: the band's middle is 2243 above the floor. 1000 along, 2243 − 1100 up, 2243 − 700 down.
    const up = body.insideMm[2] + body.insideAtMm[2] - body.floor.topMm - 150
    expect(routeMm(body, spot('a', 1000, 1000), spot('b', 2000, 600))).toBeCloseTo(1000 + up - 1100 + up - 700, 6)
  })

  test('uprights of 278 mm ribs stand two pitches apart, and on both sides of an opening', () => {
    const flatsMm = Array.from({ length: 20 }, (_, i) => 100 + 278 * i)
    expect(uprightsFor({ flatsMm, blocked: [] }, [[150, 1500]])).toEqual([100, 656, 1212, 1768])
    const door = { id: 'door', fromMm: 656, toMm: 1768, lowMm: 200, highMm: 2200 }
    const open = flatsMm.filter((u) => u <= 656 || u >= 1768)
    expect(uprightsFor({ flatsMm: open, blocked: [door] }, [[150, 2300]])).toEqual([100, 656, 1768, 2324])
  })

  test('the bound of a panel and four receptacles', () => {
    const { body } = asked({ machines: 1 })
    const part = (widthMm: number, heightMm: number) => ({
      id: '',
      widthMm,
      heightMm,
      depthMm: 100,
      massKg: { low: 1, high: 1, basis: '', told: true },
      workedOnLive: false,
      doorMm: 0,
      provenance: 'computed' as const,
      source: '',
    })
    const thing = (id: string, kind: 'panel' | 'receptacle') => ({
      id,
      kind,
      what: id,
      part: kind === 'panel' ? part(400, 1000) : part(100, 120),
      circuits: [],
      plug: null,
    })
    const items = [thing('panel', 'panel'), ...['a', 'b', 'c', 'd'].map((id) => thing(id, 'receptacle'))]
    const joins = ['a', 'b', 'c', 'd'].map((to, i) => ({ from: 'panel', to, moneyPerM: i + 1 }))
    const money = boundMoney({ body, skin: null, items, pinned: [], handleAtMostMm: 2000 } as unknown as Task, {
      joins,
      strutMoneyPerM: () => 0,
      missing: [],
    })
    // The panel's top reaches the band's lower edge, 150 below its middle; a receptacle's at most 1200 + 60 above the floor.
    const middle = body.insideAtMm[2] + body.insideMm[2] - 150
    const rise = 150 + (middle - body.floor.topMm - 1260)
    // Three rows at (400 + 100) / 2 + 90 from the panel's middle take the dearest three; the cheapest stands one box and gap farther.
    const level = (4 + 3 + 2) * 340 + 1 * (340 + 190)
    expect(money).toBeCloseTo(((1 + 2 + 3 + 4) * rise + level) / 1000, 9)
  })

  test('gear keeps the width asked on either hand, nothing deeper in it', () => {
    const { body } = asked({ machines: 1 })
    const gear = (depthMm: number, widthMm: number) => ({
      id: '',
      widthMm,
      heightMm: 600,
      depthMm,
      massKg: { low: 1, high: 1, basis: '', told: true },
      workedOnLive: true,
      doorMm: 0,
      provenance: 'computed' as const,
      source: '',
    })
    const spot = (uMm: number, part: ReturnType<typeof gear>) => ({
      item: { id: 'x', kind: 'panel' as const, what: '', part, circuits: [], plug: null },
      side: 'left' as const,
      face: 'inside' as const,
      uMm,
      zMm: 1500,
      pinned: false,
    })
    const wall = { fromMm: 100, toMm: 5000 } as Wall
    const task = { body, leastWidthMm: 762 } as unknown as Task
    // 370 wide from 200 to 570: 100 free to the end of the wall; of 762 mm 292 are wanting after it, where something deeper follows.
    expect(clearEdge(task, [spot(385, gear(100, 370))], 150, wall, 1, 600)).toBe(570 + 762 - 370 - 100)
    expect(clearEdge(task, [spot(385, gear(100, 370))], 100, wall, 1, 600)).toBe(600)
    // Read the other way the same, mirrored.
    expect(clearEdge(task, [spot(4715, gear(100, 370))], 150, wall, -1, 4500)).toBe(4530 - (762 - 370 - 100))
  })

  test('the length of a piece is that of its axis', () => {
    expect(pieceMm({ fromMm: [0, 0, 0], toMm: [300, 0, 400] } as never)).toBe(500)
  })
})
