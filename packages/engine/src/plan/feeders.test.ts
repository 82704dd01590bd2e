/**
 * One service for two boxes against a service for each. Differences of money are checked against plain arithmetic on the job and the
 * price list, currents and powers against sums over the machine list.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { assess, rulesOf, type Shop } from '../assess/index.ts'
import { type Job, readJob } from '../job/index.ts'
import type { Finding } from '../kernel/index.ts'
import { readPrices } from '../parts/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { designOf } from './design.ts'
import { sharedService } from './feeders.ts'
import { NOTHING_GROWN } from './grow.ts'
import { type Option, optionsOf } from './options.ts'
import { bars, plan } from './plan.ts'
import type { PlanResult } from './types.ts'

const root = new URL('../../../../', import.meta.url)
const shop: Shop = (() => {
  const prices = readPrices(readFileSync(new URL('shop/prices/invented-2026.yaml', root), 'utf8'))
  if (!prices.ok) throw new Error(JSON.stringify(prices.problems))
  return { name: 'test', prices: prices.value, overlays: builtInOverlays }
})()

interface Told {
  /** Lines under the box of the mill. */
  readonly mill?: string
  readonly fee?: number
  readonly fixed?: number
  readonly phases?: string
  readonly offer?: string
}

/** Invented: heaters in the yard by night, driers at the mill by day, one service on offer. */
const document = (told: Told = {}) => `
plugstead: 1
title: Yard and mill
invented: true
rules: { set: us }
needs:
  order-placed: 2027-03-01
  needed-by: 2027-11-01
  stay: 12 months
  machines:
    - { tag: H1-3, what: tractor heater, count: 3, kind: heater, use: vehicle-heater, power: 1500 W, voltage: 120 V, outlet: 5-20R, hours: 6 h, window: 20:00 to 06:00, days: 365, cord: 10 m, fed-by: yard }
    - { tag: D1-2, what: drier, count: 2, kind: heater, use: general, power: 1200 W, voltage: 120 V, outlet: 5-20R, hours: 6 h, window: 08:00 to 16:00, days: 365, cord: 10 m, fed-by: mill }
  money: { currency: USD }
facts:
  site: { place: farm yard, elevation: 300 m, latitude: 45 deg, soil: { resistivity: 100 ohm m, frozen: 400 ohm m }, ground: { frost-depth: 1 m } }
  climate: { design-min: -20 C, design-max: 32 C }
  supply:
    system: 120/240 V single-phase 3-wire
    offers:
      - ${told.offer ?? `{ id: pole, kind: utility, what: service from the road, service: [100 A], transformer: { rating: 25 kVA, impedance: 1.7 % }, distance: 20 m, lead-time: 6 weeks, one-off: ${told.fee ?? 2400} USD }`}
    tariff: { fixed: ${told.fixed ?? 30} USD per month, energy: 0.11 USD per kWh, demand-kw: 4 USD per kW month, diesel: 1 USD per L }
boxes:
  - { id: yard, length: 20 ft, height: standard, heated: no, spare-ways: 25 % }
  - { id: mill, length: 20 ft, height: standard, heated: no, spare-ways: 25 %${told.mill === undefined ? '' : `, ${told.mill}`} }
${told.phases ?? ''}
`
const apart = (metres: number) => ({ mill: `distances: [{ box: yard, distance: ${metres} m }]` })

function jobOf(told: Told = {}, pins: Readonly<Record<string, string>> = {}): Job {
  const read = readJob(document(told), { file: 'test.yaml' })
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return { ...read.value, pins: Object.entries(pins).map(([path, value]) => ({ path, value, by: 'the owner', why: 'test' })) }
}

const SHARED = /, mill fed from yard$/
const all = (p: PlanResult) => [p.chosen, ...p.runnersUp]
const costOf = (p: PlanResult, shared: boolean): number => {
  const found = all(p).find((c) => SHARED.test(c.id) === shared && c.id.includes('nothing staged'))
  if (found?.costMoney == null) throw new Error(`none of ${all(p).map((c) => c.id)} (${p.lost.map((l) => `${l.id}: ${l.why}`)})`)
  return found.costMoney
}
/** What a service for each costs more than one for both. */
const moreForEach = (p: PlanResult) => costOf(p, false) - costOf(p, true)
const said = (findings: readonly Finding[]) => findings.filter((f) => f.code === 'supply/several-services')
const plainly = (text: string) => text.replace(/\s/g, ' ')

function optionOf(job: Job, shared: boolean): Option {
  const rules = rulesOf(job, shop)
  const system = rules.systems.find((s) => s.id === job.system)!
  const { options } = optionsOf(job, rules, system, sharedService(job, rules, system))
  return options.find((o) => (o.feeders !== null) === shared && o.control === 'none')!
}
const seen = (job: Job, shared: boolean) => {
  const design = designOf(job, shop, rulesOf(job, shop), optionOf(job, shared), NOTHING_GROWN)
  return { design, assessment: assess(job, design, shop) }
}

const near = jobOf(apart(20))
const nearPlan = plan(near, shop)

describe('one service for two boxes', () => {
  test('is taken where the feeder is short, and what was not taken is told with its price', () => {
    expect(nearPlan.sound).toBe(true)
    expect(nearPlan.chosen.id).toMatch(SHARED)
    const [finding, ...more] = said(nearPlan.assessment.findings)
    expect(more).toEqual([])
    expect(finding).toMatchObject({ verdict: 'holds', subject: 'yard and mill' })
    const each = all(nearPlan).find((c) => !SHARED.test(c.id))!
    const dearer = new Intl.NumberFormat('en', { useGrouping: false }).format(
      Math.round(each.costMoney! - nearPlan.chosen.costMoney!),
    )
    expect(plainly(finding!.said).replace(/(\d) (\d)/g, '$1$2')).toContain(`${dearer} USD dearer`)
  })

  test('saves a fee and a fixed charge: dearer ones are saved to the cent', () => {
    const before = moreForEach(nearPlan)
    expect(moreForEach(plan(jobOf({ ...apart(20), fee: 3400 }), shop)) - before).toBeCloseTo(1000, 6)
    // Twelve months of ten more.
    expect(moreForEach(plan(jobOf({ ...apart(20), fixed: 40 }), shop)) - before).toBeCloseTo(120, 6)
  })

  test('pays a metre of feeder at the prices of its conductors and raceway', () => {
    const [short, long] = [20, 30].map((m) => plan(jobOf(apart(m)), shop))
    const run = short!.design.boxes.find((b) => b.box === 'mill')!.fedFrom!.run
    const wires = [run.line, run.line, run.neutral!, run.protective!].map((w) => `conductor/${w.size}/${w.metal}`)
    const each = [...wires, `raceway/${run.raceway!.kind}/${run.raceway!.trade}`].map((id) => shop.prices.rows[id]!.money)
    const perM = each.reduce((a, b) => a + b, 0)
    const grown = long!.design.boxes.find((b) => b.box === 'mill')!.fedFrom!.run
    expect(grown.line.size).toBe(run.line.size)
    expect(costOf(long!, true) - costOf(short!, true)).toBeGreaterThanOrEqual(10 * perM - 1e-6)
    expect(costOf(long!, true) - costOf(short!, true)).toBeLessThanOrEqual(10 * perM * 1.25)
    expect(costOf(long!, false)).toBeCloseTo(costOf(short!, false), 6)
  })

  test('loses where the feeder eats what the second service costs, and the finding says by how much', () => {
    const far = plan(jobOf({ ...apart(150), fee: 100, fixed: 1 }), shop)
    expect(far.sound).toBe(true)
    expect(far.chosen.id).not.toMatch(SHARED)
    expect(plainly(said(far.assessment.findings)[0]!.said)).toMatch(
      /^2 boxes each have.*One service with a feeder of 150 m from yard to mill, at best .*mill fed from yard: .*USD dearer/,
    )
  })

  test('carries the machines of both, and peaks where their hours add up to most', () => {
    const shared = seen(near, true).assessment.results.needs.boxes
    const each = seen(near, false).assessment.results.needs.boxes
    const of = (boxes: typeof shared, id: string) => boxes.find((b) => b.box === id)!
    // 3 × 1500 W and 2 × 1200 W.
    expect(of(shared, 'yard').machines.powerW).toBe(6900)
    expect(of(shared, 'mill').machines.powerW).toBe(2400)
    const sum = of(each, 'yard').staging.afterW.map((w, i) => w + of(each, 'mill').staging.afterW[i]!)
    expect(of(shared, 'yard').staging.afterW.length).toBe(96)
    for (const [i, w] of sum.entries()) expect(of(shared, 'yard').staging.afterW[i]).toBeCloseTo(w, 6)
    const peak = (id: string) => Math.max(...of(each, id).staging.afterW)
    // One by night, one by day: the common peak is not the sum of the two.
    expect(Math.max(...sum)).toBeLessThan(peak('yard') + peak('mill') - 2000)
    const billed = seen(near, true).assessment.results.supply.boxes.map((b) => b.chosenRow!.bill!.peakKW)
    expect(billed).toEqual([expect.closeTo(Math.max(...sum) / 1000, 6)])
  })

  test('has one run, one device, no second transfer, and its neutral open at the far panel', () => {
    const [yard, mill] = [
      nearPlan.design.boxes.find((b) => b.box === 'yard')!,
      nearPlan.design.boxes.find((b) => b.box === 'mill')!,
    ]
    const feeder = yard.circuits.find((c) => c.id === 'feeder-mill')!
    expect(feeder.run).toEqual(mill.fedFrom!.run)
    expect(feeder.device).toEqual(mill.fedFrom!.device)
    expect(feeder.run.lengthM).toBe(20)
    expect(mill.panel.bond).toBe('neutral not bonded here')
    expect([mill.transfer, mill.transformer, mill.staging.capA]).toEqual(['none', null, null])
    expect(nearPlan.assessment.findings.filter(bars)).toEqual([])
  })

  test('has its transfer where the supply comes in, and nowhere else', () => {
    const { design } = seen(jobOf(apart(20), { transfer: 'neutral switched' }), true)
    expect(design.boxes.map((b) => [b.box, b.transfer])).toEqual([
      ['yard', 'neutral switched'],
      ['mill', 'none'],
    ])
  })

  test('is judged by the design, whatever the job writes', () => {
    const unwritten = assess(near, nearPlan.design, shop)
    const written = jobOf({ mill: 'fed-from: { box: yard, distance: 20 m }' })
    const needs = (of: typeof unwritten) => of.results.needs.boxes.map((b) => [b.box, b.demand.needA])
    expect(needs(unwritten)).toEqual(needs(assess(written, nearPlan.design, shop)))
    expect(unwritten.results.supply.boxes.map((b) => b.box)).toEqual(['yard'])
  })
})

describe('what is not told or not wanted is not weighed', () => {
  test('a distance that nobody told is asked for, never made up', () => {
    const p = plan(jobOf(), shop)
    expect(p.lost).toContainEqual({
      id: 'one service for yard, mill',
      why: 'the distance between yard and mill is not known',
    })
    expect(said(p.assessment.findings)).toEqual([
      expect.objectContaining({
        verdict: 'unknown',
        said: expect.stringContaining('the distance between yard and mill is not known'),
      }),
    ])
    expect([p.chosen.id, ...p.runnersUp.map((r) => r.id)].filter((id) => id.includes('fed from'))).toEqual([])
  })

  test('told at either box, the longer of two', () => {
    const rules = rulesOf(near, shop)
    const system = rules.systems.find((s) => s.id === near.system)!
    const both = jobOf(apart(20))
    const boxes = both.boxes.map((b) => (b.id === 'yard' ? { ...b, distances: [{ box: 'mill', lengthM: 33 }] } : b))
    expect([...sharedService({ ...both, boxes }, rules, system)!.feeders!]).toEqual([['mill', { box: 'yard', lengthM: 33 }]])
  })

  test('the feeding box must stand where the other one does', () => {
    const phases = `phases:
  - { id: first, months: 1 to 6, boxes: [yard, mill] }
  - { id: then, months: 7 to 12, boxes: [mill] }`
    const moved = jobOf({ ...apart(20), phases })
    const plugs = moved.plugs.map((p) => (p.fedBy.first === 'yard' ? { ...p, fedBy: { first: 'yard' } } : p))
    const p = plan({ ...moved, plugs }, shop)
    const found = [p.chosen.id, ...p.runnersUp.map((r) => r.id), ...p.lost.map((l) => l.id)]
    // The mill stands all the time, so it is the one that keeps the service.
    expect(found.filter((id) => id.endsWith('yard fed from mill')).length).toBeGreaterThan(0)
    expect(found.filter((id) => SHARED.test(id))).toEqual([])
  })

  test('a feeder that a person wrote stays, and nothing else is weighed', () => {
    const p = plan(jobOf({ mill: 'fed-from: { box: yard, distance: 20 m }' }), shop)
    expect(p.design.boxes.find((b) => b.box === 'mill')!.fedFrom?.box).toBe('yard')
    expect([...all(p), ...p.lost].map((c) => c.id).filter((id) => /fed from|one service/.test(id))).toEqual([])
    expect(said(p.assessment.findings)).toEqual([])
  })
})

describe('pins', () => {
  const path = 'boxes.mill.fed-from'
  const fed = (p: PlanResult) => p.design.boxes.find((b) => b.box === 'mill')!.fedFrom
  test('to another box: every option has the feeder', () => {
    const p = plan(jobOf({ ...apart(150), fee: 100, fixed: 1 }, { [path]: 'yard' }), shop)
    expect(fed(p)).toMatchObject({ box: 'yard', run: { lengthM: 150 } })
    for (const c of p.runnersUp) expect(c.design.boxes.find((b) => b.box === 'mill')!.fedFrom).not.toBeNull()
    expect(p.assessment.findings.filter((f) => f.code === 'needs/pin-unknown')).toEqual([])
  })

  test('to a supply of its own: no option has one', () => {
    const p = plan(jobOf(apart(20), { [path]: 'none', 'boxes.yard.fed-from': 'none' }), shop)
    expect(fed(p)).toBeNull()
    expect(p.lost).toContainEqual({ id: 'one service for yard, mill', why: 'each is pinned to a supply of its own' })
    expect(plainly(said(p.assessment.findings)[0]!.said)).toMatch(/not weighed: each is pinned to a supply of its own/)
  })

  test('none on a box that a person wrote a feeder for: the pin is the later word', () => {
    expect(fed(plan(jobOf({ mill: 'fed-from: { box: yard, distance: 20 m }' }, { [path]: 'none' }), shop))).toBeNull()
  })

  test.each([
    ['mill', 'yard', {}, /the distance between mill and yard is not known/],
    ['mill', 'barn', apart(20), /no box is called barn/],
    ['barn', 'yard', apart(20), /no box is called barn/],
    ['mill', 'mill', apart(20), /mill would be fed from itself/],
  ] as const)('%s from %s cannot be taken: it is said, and planned as if it were not there', (id, from, told, why) => {
    const p = plan(jobOf(told, { [`boxes.${id}.fed-from`]: from }), shop)
    expect(p.sound).toBe(true)
    const [finding] = p.assessment.findings.filter((f) => f.code === 'needs/pin-unknown')
    expect(finding).toMatchObject({ verdict: 'unknown', said: expect.stringMatching(why) })
  })
})

test('a set that feeds two boxes is brought and hired once', () => {
  const offer =
    '{ id: set, kind: generator, what: hired set, generator: { rated-power: 40 kW, fuel: diesel }, hire: 1000 USD per 28 days, lead-time: 1 weeks, one-off: 500 USD }'
  const rows = seen(jobOf({ ...apart(20), offer }), false).assessment.results.supply.boxes.map((b) => b.chosenRow!)
  const hires = rows.map((r) => r.bill!.lines.find((l) => l.what === 'hire')!.money!.high)
  // 1000 for 28 days, 365/12 days in a month.
  expect(hires).toEqual([expect.closeTo((1000 * 365) / 12 / 28, 6), 0])
  expect(rows.map((r) => r.oneOffMoney)).toEqual([500, 0])
})
