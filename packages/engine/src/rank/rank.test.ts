import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Job } from '../job/index.ts'
import { NO_STOCK, type YardBox } from '../parts/index.ts'
import { choicesOf, plan } from '../plan/index.ts'
import { byRank, type Ranked, rankModels } from './index.ts'
import { callAt, jobAt, shopAt, YARD } from './shops.fixture.ts'

const yardShop = shopAt(YARD)
const CALLS = ['CL1', 'CL2', 'CL3', 'CL4', 'CL5'] as const
const stripped = (job: Job): Job => ({ ...job, built: null, builtBody: null })

const made = new Map(
  CALLS.map((call) => {
    const job = callAt(call)
    const fresh = plan(stripped(job), yardShop)
    return [call, { job, fresh, ranked: rankModels(job, yardShop, { call, fresh }).ranked }] as const
  }),
)
const of = (call: (typeof CALLS)[number]) => made.get(call)!
const words = (row: Ranked | undefined) => row?.reasons.map((r) => r.reason)

/** What each caller asks, worked out by hand from machines, offers and room: the numbers of the invented scenario. */
const ASKED = {
  CL1: { needA: 150, faultKA: 14.2 },
  CL2: { needA: 320, faultKA: 19.5 },
  CL3: { needA: 70, faultKA: 6.1 },
  CL4: { needA: 600, faultKA: 31 },
  CL5: { needA: 90, faultKA: 12.4 },
}

/** By hand, from the rule of the yard: same system, service, outlets, interrupting, cold, heat, length, way to set down, test, booking. */
const AGAINST: Readonly<Record<(typeof CALLS)[number], Readonly<Record<string, readonly string[]>>>> = {
  CL1: {
    BX1: [],
    BX2: ['system', 'cold'],
    BX3: ['service', 'outlets', 'interrupting'],
    BX4: ['system', 'cold', 'length', 'unload', 'test', 'booked'],
  },
  CL2: {
    BX1: ['system', 'service', 'outlets'],
    BX2: [],
    BX3: ['system', 'service', 'outlets', 'interrupting', 'heat'],
    BX4: ['length', 'test', 'booked'],
  },
  CL3: {
    BX1: ['cold', 'length'],
    BX2: ['system', 'cold', 'length'],
    BX3: [],
    BX4: ['system', 'cold', 'length', 'test', 'booked'],
  },
  CL4: {
    BX1: ['system', 'service', 'outlets', 'interrupting', 'heat'],
    BX2: ['service', 'outlets', 'interrupting'],
    BX3: ['system', 'service', 'outlets', 'interrupting', 'heat'],
    BX4: ['test'],
  },
  CL5: {
    BX1: ['outlets'],
    BX2: ['system', 'cold', 'unload'],
    BX3: ['interrupting'],
    BX4: ['system', 'length', 'unload', 'test', 'booked'],
  },
}

describe('four boxes in the yard, five calls', () => {
  test.each(CALLS)('%s: which box does as it stands, after a test, or not and why', (call) => {
    const { ranked } = of(call)
    for (const [id, against] of Object.entries(AGAINST[call])) {
      const row = ranked.find((r) => r.id === id)
      expect(words(row), `${call} ${id}`).toEqual(against)
      expect(row?.does === 'as it stands', `${call} ${id}`).toBe(against.length === 0)
      expect(row?.does === 'after a test', `${call} ${id}`).toBe(against.join() === 'test')
    }
  })

  test('every reason rests on findings with words, and none of them is typed', () => {
    for (const call of CALLS)
      for (const row of of(call).ranked)
        for (const reason of row.reasons) {
          expect(reason.codes.length, `${call} ${row.id} ${reason.reason}`).toBeGreaterThan(0)
          expect(reason.said.join(' ').length).toBeGreaterThan(20)
        }
  })

  test.each(CALLS)('%s asks the service and the fault level that the caller named', (call) => {
    const { fresh, job } = of(call)
    const demand = fresh.assessment.findings.find((f) => f.code === 'needs/service-demand')?.demand?.value as number
    expect(demand * (1 + job.needs.growthFrac)).toBeGreaterThan(0.95 * ASKED[call].needA)
    expect(demand * (1 + job.needs.growthFrac)).toBeLessThan(1.05 * ASKED[call].needA)
    expect(job.offers[0]?.faultA?.value).toBe(ASKED[call].faultKA * 1000)
  })

  test('the dearest mistake of the yard: a 400 A box is no stand-in for a single-phase call', () => {
    const box = of('CL1').ranked.find((r) => r.id === 'BX2')
    expect(box?.does).toBe('with changes')
    expect(box?.changes?.parts.map((p) => `${p.action} ${p.what}`)).toContain('replace panel')
  })
})

test('the box that moves: changed, it ranks before a new plan, and its list is that of the plan', () => {
  const job = jobAt('examples/moved-box-airstrip-ca.yaml')
  const shop = shopAt('shop')
  const { ranked } = rankModels(job, shop)
  expect(ranked[0]).toMatchObject({ kind: 'box of the job', id: 'orchard-box', does: 'with changes' })
  expect(words(ranked[0])).toEqual(
    expect.arrayContaining(['system', 'outlets', 'interrupting', 'cold', 'snow', 'test', 'defects']),
  )
  // A ranking runs no year of hours: what the air asks for stands on the list of the plan alone.
  const isAir = (l: { readonly keys: readonly string[] }) => l.keys.some((key) => key.startsWith('air/'))
  const all = plan(job, shop).changeList[0]!.lines
  expect(all.filter(isAir).length).toBeGreaterThan(0)
  const planned = all.filter((l) => l.action !== 'keep' && !isAir(l))
  const line = (p: { readonly action: string; readonly tag: string }) => `${p.action} ${p.tag}`
  expect(ranked[0]?.changes?.parts.map(line)).toEqual(planned.map(line))
  expect(ranked[0]?.changes?.hoursAreFloor).toBe(true)
  expect(ranked[0]?.unknown).toContain('circuits/built-approval')
  for (const row of ranked.filter((r) => r.kind === 'model' && r.id !== 'north-20')) expect(words(row)).toContain('rules')
})

const WYE = 'wye 208/120'
const SPLIT = 'split 120/240'
const OUTLETS = ['5-20R', '6-20R', 'L14-30R', '60 A four-pole pin and sleeve'] as const
const template = yardShop.stock!.yard.find((b) => b.id === 'BX4')!

/** A random box, of values that lie clear of the edges where motors, X/R or growth decide. */
const anyBox = fc
  .record({
    wye: fc.boolean(),
    serviceA: fc.constantFrom(60, 200, 400, 800),
    interruptingKA: fc.constantFrom(5, 10, 22, 42),
    counts: fc.tuple(
      fc.integer({ min: 0, max: 24 }),
      fc.integer({ min: 0, max: 6 }),
      fc.integer({ min: 0, max: 4 }),
      fc.integer({ min: 0, max: 6 }),
    ),
    minC: fc.constantFrom(-45, -30, -20, -5),
    maxC: fc.constantFrom(12, 30, 45),
    lengthFt: fc.constantFrom(10, 20, 40),
    setDown: fc.subarray(['tilt-bed', 'crane', 'forks'] as const, { minLength: 1 }),
    tested: fc.constantFrom('2023-01-15', '2023-12-20', '2024-08-01', null),
    booked: fc.constantFrom<[string, string] | null>(
      null,
      ['2024-09-01', '2024-09-20'],
      ['2024-12-20', '2025-02-01'],
      ['2025-06-01', '2025-07-01'],
    ),
    rent: fc.integer({ min: 300, max: 3000 }),
  })
  .map((r): { readonly box: Omit<YardBox, 'id'>; readonly r: typeof r } => {
    const rows = template.built.circuits.map((c) => ({
      ...c,
      count: r.counts[OUTLETS.indexOf(c.outlet as (typeof OUTLETS)[number])]!,
    }))
    const circuits = rows.filter((c) => c.count > 0 && (r.wye || c.poles < 3))
    return {
      r,
      box: {
        ...template,
        testedOn: r.tested,
        rentPer28Days: { amount: r.rent, currency: 'USD' },
        bookings: r.booked === null ? [] : [{ from: r.booked[0], to: r.booked[1], for: 'somebody' }],
        built: {
          ...template.built,
          ...{ system: r.wye ? WYE : SPLIT, serviceA: r.serviceA, interruptingKA: r.interruptingKA, ways: 100 },
          circuits,
          outletDeviceMinC: r.minC,
        },
        body: { ...template.body, lengthFt: r.lengthFt, setDown: r.setDown, airMaxC: r.maxC },
      },
    }
  })
type Any = typeof anyBox extends fc.Arbitrary<infer T> ? T : never

const withYard = (boxes: readonly Any[]) => ({
  ...yardShop,
  stock: { ...NO_STOCK, hire: yardShop.stock!.hire, yard: boxes.map((b, i): YardBox => ({ ...b.box, id: `B${i}` })) },
})

interface Plain {
  readonly system: string
  readonly needA: number
  readonly faultKA: number
  readonly outlets: readonly number[]
  readonly minC: number
  readonly maxC: number
  readonly roomFt: number
  readonly unload: 'tilt-bed' | 'crane' | 'forks'
  readonly from: string
  readonly to: string
}

/** The calls as the caller told them, beside their documents. */
const PLAIN: Readonly<Record<'CL2' | 'CL5', Plain>> = {
  CL2: {
    ...{ system: WYE, needA: 287, faultKA: 19.5, outlets: [10, 0, 2, 3], minC: -14, maxC: 36, roomFt: 20, unload: 'crane' },
    ...{ from: '2024-10-07', to: '2025-03-30' },
  },
  CL5: {
    ...{ system: SPLIT, needA: 92, faultKA: 12.4, outlets: [8, 0, 1, 0], minC: -21, maxC: 18, roomFt: 20, unload: 'forks' },
    ...{ from: '2024-11-10', to: '2024-12-27' },
  },
}

/** The match rule of the yard by plain comparison, with nothing of the engine in it. */
function againstByHand({ box, r }: Any, call: Plain): readonly string[] {
  const has = OUTLETS.map((o) => box.built.circuits.find((c) => c.outlet === o)?.count ?? 0)
  const yearBefore = `${Number(call.from.slice(0, 4)) - 1}${call.from.slice(4)}`
  const out: string[] = []
  if (box.built.system !== call.system) out.push('system')
  if (r.serviceA < call.needA) out.push('service')
  if (call.outlets.some((n, i) => has[i]! < n)) out.push('outlets')
  if (r.interruptingKA < call.faultKA) out.push('interrupting')
  if (r.minC > call.minC) out.push('cold')
  if (r.maxC < call.maxC) out.push('heat')
  if (r.lengthFt > call.roomFt) out.push('length')
  if (!r.setDown.includes(call.unload)) out.push('unload')
  if (r.tested !== null && r.tested < yearBefore) out.push('test')
  if (r.booked !== null && r.booked[0] <= call.to && call.from <= r.booked[1]) out.push('booked')
  return out
}

test.each(['CL2', 'CL5'] as const)(
  '%s over random yards: the reasons are those of plain comparison, and the order that of every pair',
  { timeout: 240_000 },
  (call) => {
    const { job, fresh } = of(call)
    fc.assert(
      fc.property(fc.array(anyBox, { minLength: 1, maxLength: 4 }), (boxes) => {
        const { ranked } = rankModels(job, withYard(boxes), { call, fresh })
        boxes.forEach((box, i) => {
          const row = ranked.find((one) => one.id === `B${i}`)!
          const named = ['system', 'service', 'outlets', 'interrupting', 'cold', 'heat', 'length', 'unload', 'test', 'booked']
          // A service below what is fed may hold where outlets are missing: then it is not asked of it.
          const hand = againstByHand(box, PLAIN[call])
          const ours = (words(row) ?? []).filter((w) => named.includes(w))
          const spared = hand.includes('outlets') ? ['service'] : []
          expect(
            ours.filter((w) => !spared.includes(w)),
            JSON.stringify(box.r),
          ).toEqual(hand.filter((w) => !spared.includes(w)))
          if (box.r.tested === null) expect(row.unknown.length + row.reasons.length).toBeGreaterThan(0)
        })
        // Every pair: stands, test, what must be built or changed, does not; then in time; then money; then name.
        const tier = (r: Ranked) => ({ 'as it stands': 0, 'after a test': 1, not: 3 })[r.does as 'not'] ?? 2
        const late = (r: Ranked) => (r.inTime === null ? 1 : r.inTime ? 0 : 2)
        for (const [i, a] of ranked.entries())
          for (const b of ranked.slice(i + 1)) {
            expect(tier(a)).toBeLessThanOrEqual(tier(b))
            if (tier(a) === tier(b)) expect(late(a)).toBeLessThanOrEqual(late(b))
            // One kind of price for all, and what nobody priced behind what somebody did.
            expect(a.price.is).toBe(b.price.is)
            if (tier(a) === tier(b) && late(a) === late(b) && tier(a) < 3)
              expect(Number(!a.price.isPriced)).toBeLessThanOrEqual(Number(!b.price.isPriced))
            if (tier(a) === tier(b) && late(a) === late(b) && tier(a) < 3 && a.price.isPriced === b.price.isPriced)
              expect(a.price.totalMoney).toBeLessThanOrEqual(b.price.totalMoney)
          }
        expect(ranked.map((r) => r.rankCount)).toEqual(ranked.map((_, i) => i + 1))
      }),
      { seed: 20_241_110, numRuns: 25 },
    )
  },
)

test('a box more never worsens the best, and moves no other box against another', { timeout: 240_000 }, () => {
  const { job, fresh } = of('CL5')
  fc.assert(
    fc.property(fc.array(anyBox, { minLength: 1, maxLength: 3 }), anyBox, (boxes, more) => {
      const before = rankModels(job, withYard(boxes), { fresh }).ranked
      const after = rankModels(job, withYard([...boxes, more]), { fresh }).ranked
      expect(byRank(after[0]!, before[0]!)).toBeLessThanOrEqual(0)
      const added = `B${boxes.length}`
      expect(after.filter((r) => r.id !== added).map((r) => r.id)).toEqual(before.map((r) => r.id))
    }),
    { seed: 7, numRuns: 15 },
  )
})

describe('a pin is never changed', () => {
  const pin = (path: string, value: string | number) => ({ path, value, by: 'the shop', why: 'told' })

  test('a box with another main than the pinned one does not do, and says who pinned it', () => {
    const job = { ...callAt('CL5'), pins: [pin('service.rating', 200)] }
    const { ranked } = rankModels(job, yardShop, { call: 'CL5' })
    const [bx1, bx3] = ['BX1', 'BX3'].map((id) => ranked.find((r) => r.id === id)!)
    expect(words(bx3)).toContain('pinned')
    expect(bx3?.does).toBe('not')
    expect(bx3?.reasons.find((r) => r.reason === 'pinned')?.said.join()).toMatch(/pinned to 200 by the shop; here it is 100/)
    expect(words(bx1)).toEqual(['outlets'])
  })

  test('whatever is pinned stands in every design that is said to do', { timeout: 240_000 }, () => {
    const job = callAt('CL5')
    const free = choicesOf(of('CL5').fresh.design)
    for (const [path, value] of [
      free.find(([p]) => p === 'cords.NB1.size')!,
      ['cords.NB1.size', '6 AWG'] as const,
      ['service.rating', 200] as const,
    ]) {
      const { ranked } = rankModels({ ...job, pins: [pin(path, value as string | number)] }, yardShop, { call: 'CL5' })
      for (const row of ranked.filter((r) => r.does !== 'not'))
        for (const [p, v] of choicesOf(row.design!)) if (p === path) expect(v, `${row.id} ${path}`).toBe(value)
    }
  })
})

test('the same call twice gives the same bytes, and neither job nor shop is touched', () => {
  const { job, fresh } = of('CL5')
  const before = JSON.stringify([job, yardShop])
  const twice = [1, 2].map(() => JSON.stringify(rankModels(job, yardShop, { call: 'CL5', fresh })))
  expect(twice[0]).toBe(twice[1])
  expect(JSON.stringify([job, yardShop])).toBe(before)
})

test('rent over the call, haul and test by hand', () => {
  const bx4 = of('CL4').ranked.find((r) => r.id === 'BX4')!
  const line = (what: string) => bx4.price.lines.find((l) => l.what.startsWith(what))?.money
  // 41 days of 2480 USD per 28 days; 2 x 410 km at 4.60; a crane twice at 780; turn-round 340; test 420.
  expect(line('rent')).toBeCloseTo((41 / 28) * 2480, 6)
  expect(line('haul')).toBeCloseTo(3772, 6)
  expect(line('crane')).toBe(1560)
  expect(line('turn-round')).toBe(340)
  expect(line('full test')).toBe(420)
  expect(bx4.price.totalMoney).toBeCloseTo(
    bx4.price.lines.reduce((sum, l) => sum + (l.money ?? 0), 0),
    2,
  )
})

test('without a shop’s stock there is a new plan, and nothing else', () => {
  const { stock: _stock, ...bare } = yardShop
  const { job, fresh } = of('CL5')
  expect(rankModels(job, bare, { fresh }).ranked.map((r) => r.kind)).toEqual(['new plan'])
})

test('a fault level written as the highest of any kind is that at the supply; between lines it is higher to a centre tap', () => {
  const { job, fresh } = of('CL5')
  const between: Job = { ...job, offers: job.offers.map((o) => ({ ...o, faultA: { value: o.faultA!.value, by: o.faultA!.by } })) }
  const at = (of: Job) => {
    const row = rankModels(of, yardShop, { call: 'CL5', fresh }).ranked.find((r) => r.id === 'BX3')!
    return Number(row.findings.find((f) => f.code === 'faults/built-interrupting')?.demand?.value)
  }
  // Half a winding of a centre tap: |1.5 R + j 1.2 X| at X/R 3 is 1.238 |Z|, so 2/1.238 = 1.615 times what flows between lines.
  expect(at(between) / at(job)).toBeCloseTo(1.615, 1)
  expect(at(job)).toBeGreaterThan(12_400)
  expect(at(job)).toBeLessThan(12_400 * 1.03)
})
