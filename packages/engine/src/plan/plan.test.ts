import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { assess, rulesOf, type Shop } from '../assess/index.ts'
import { type Design, type Job, readJob } from '../job/index.ts'
import { type Finding, type Mend, QUESTIONS } from '../kernel/index.ts'
import { readPrices } from '../parts/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { choiceAt, type Growth, grownBy, NOTHING_GROWN } from './grow.ts'
import { applied, withMendsTried } from './mends.ts'
import { bars, plan } from './plan.ts'
import type { PlanResult } from './types.ts'

const root = new URL('../../../../', import.meta.url)
const shop: Shop = (() => {
  const prices = readPrices(readFileSync(new URL('shop/prices/invented-2026.yaml', root), 'utf8'))
  if (!prices.ok) throw new Error(JSON.stringify(prices.problems))
  return { name: 'test', prices: prices.value, overlays: builtInOverlays }
})()

function jobOf(text: string): Job {
  const read = readJob(text, { file: 'test.yaml' })
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return read.value
}

/** Invented: a yard with two heaters and a fan, and three who would feed it. Small, so that it can be planned often. */
const YARD = (more: { readonly needs?: string; readonly tariff?: string } = {}) => `
plugstead: 1
title: Two heaters and a fan
invented: true
rules: { set: us }
needs:
  order-placed: 2027-03-01
  needed-by: 2027-11-01
  stay: 12 months
  ${more.needs ?? ''}
  machines:
    - { tag: H1, what: tractor heater, kind: heater, use: vehicle-heater, power: 900 W, voltage: 120 V, outlet: 5-20R, hours: 3 h, window: 19:00 to 07:00, days: 100, cord: 15 m }
    - { tag: H2, what: loader heater, kind: heater, use: vehicle-heater, power: 1500 W, voltage: 120 V, outlet: 5-20R, hours: 3 h, window: 19:00 to 07:00, days: 100, cord: 20 m }
    - { tag: F.1, what: grain fan, kind: heater, use: general, power: 2000 W, voltage: 240 V, outlet: 6-20R, hours: 6 h, window: 19:00 to 07:00, days: 100, cord: 10 m }
  money: { currency: USD }
facts:
  site: { place: farm yard, elevation: 300 m, latitude: 45 deg, soil: { resistivity: 100 ohm m, frozen: 400 ohm m }, ground: { frost-depth: 1 m } }
  climate: { design-min: -20 C, design-max: 32 C }
  supply:
    system: 120/240 V single-phase 3-wire
    offers:
      - { id: pole, kind: utility, what: service from the road, service: [100 A, 200 A], transformer: { rating: 25 kVA, impedance: 1.7 % }, distance: 20 m, overhead: yes, lead-time: 6 weeks, one-off: 2400 USD }
      - { id: lane, kind: utility, what: service from the lane, service: [100 A], transformer: { rating: 25 kVA, impedance: 1.7 % }, distance: 20 m, overhead: yes, lead-time: 2 weeks, one-off: 9000 USD }
      - { id: mill, kind: neighbour, what: panel of the mill, spare: 15 A, distance: 20 m, lead-time: 1 weeks, transformer: { rating: 25 kVA, impedance: 1.7 % }, energy: 0.15 USD per kWh }
    tariff: { fixed: 30 USD per month, energy: 0.11 USD per kWh${more.tariff ?? ', demand-kw: 4 USD per kW month'} }
boxes:
  - { id: yard, length: 20 ft, height: standard, heated: 0 C, spare-ways: 25 % }
`

const yard = jobOf(YARD())
const free = plan(yard, shop)

const withPins = (job: Job, pins: Readonly<Record<string, string | number | boolean>>): Job => ({
  ...job,
  pins: Object.entries(pins).map(([path, value]) => ({ path, value, by: 'the owner', why: 'test' })),
})
const pinned = (pins: Readonly<Record<string, string | number | boolean>>): PlanResult => plan(withPins(yard, pins), shop)
const boxOf = (design: Design) => design.boxes[0]!
const cordOf = (design: Design, plug: string) =>
  boxOf(design)
    .circuits.flatMap((c) => c.cords)
    .find((c) => c.plug === plug)
const circuitOf = (design: Design, plug: string) => boxOf(design).circuits.find((c) => c.plugs.includes(plug))!

/** The design with other cords, devices or gear, as a person would write it by hand. */
function byHand(
  design: Design,
  change: (circuit: Design['boxes'][number]['circuits'][number]) => Design['boxes'][number]['circuits'][number],
): Design {
  return { ...design, boxes: design.boxes.map((b) => ({ ...b, circuits: b.circuits.map(change) })) }
}
const withCord = (design: Design, plug: string, size: string) =>
  byHand(design, (c) => ({ ...c, cords: c.cords.map((cord) => (cord.plug === plug ? { ...cord, size } : cord)) }))

describe('a free plan', () => {
  test('takes the cheapest in which nothing fails, and says of every other why it lost', () => {
    expect(free.sound).toBe(true)
    expect(free.assessment.findings.filter(bars)).toEqual([])
    expect(free.runnersUp.length).toBeGreaterThan(0)
    for (const next of free.runnersUp) {
      expect(next.fails).toEqual([])
      expect(next.costMoney!).toBeGreaterThanOrEqual(free.chosen.costMoney!)
    }
    expect(free.tried).toBeGreaterThan(free.runnersUp.length)
    expect(free.lost.length).toBeGreaterThan(0)
    for (const { id, why } of free.lost) expect(why.trim(), id).not.toBe('')
    const all = [free.chosen.id, ...free.runnersUp.map((r) => r.id), ...free.lost.map((l) => l.id)]
    expect(new Set(all).size).toBe(all.length)
  })

  test('a neighbour who spares less than the machines draw loses by its ampere', () => {
    expect(free.lost.find((l) => l.id.startsWith('mill 15 A, nothing staged'))?.why).toMatch(/asked of 15\sA/)
  })

  test('goes by the goal: the dear service is taken when only the date counts', () => {
    expect(boxOf(free.design).offer).toBe('pole')
    const soonest = plan({ ...yard, needs: { ...yard.needs, goal: 'earliest date' } }, shop)
    expect(boxOf(soonest.design).offer).toBe('lane')
    expect(soonest.chosen.ready).toBe('2027-03-15')
    const first = plan({ ...yard, needs: { ...yard.needs, goal: 'least first cost' } }, shop)
    expect(boxOf(first.design).offer).toBe('pole')
    expect(first.chosen.costMoney!).toBeLessThan(free.chosen.costMoney!)
  })

  test('takes no interlock where a person asked for a hand switch that puts everything on', () => {
    const asked = plan(jobOf(YARD({ needs: 'manual-all-on: yes' })), shop)
    const interlocks = asked.lost.filter((l) => l.id.endsWith('behind an interlock'))
    expect(interlocks.length).toBeGreaterThan(0)
    for (const { why } of interlocks) expect(why).toMatch(/hand switch/)
  })

  test('the same job twice gives the same bytes', () => {
    expect(JSON.stringify(plan(jobOf(YARD()), shop))).toBe(JSON.stringify(free))
  })

  test('the job is not touched by planning it', () => {
    const job = jobOf(YARD())
    const before = JSON.stringify(job)
    plan(job, shop)
    expect(JSON.stringify(job)).toBe(before)
  })

  test('without an offer to plan with it is a fault that says so', () => {
    const nobody = { ...yard, offers: yard.offers.map((o) => ({ ...o, available: false })) }
    expect(() => plan(nobody, shop)).toThrow('plan/no-offer')
  })
})

describe('order of rows', () => {
  /** The same document with machines, offers and boxes the other way round. */
  const turned = (text: string) => {
    const doc = parse(text)
    doc.needs.machines.reverse()
    doc.facts.supply.offers.reverse()
    doc.boxes.reverse()
    return stringify(doc)
  }
  const sorted = (design: Design) =>
    design.boxes
      .map((b) => ({
        ...b,
        circuits: b.circuits.map((c) => ({ ...c, plugs: c.plugs.toSorted() })).toSorted((a, c) => (a.id < c.id ? -1 : 1)),
      }))
      .toSorted((a, b) => (`${a.box} ${a.phase}` < `${b.box} ${b.phase}` ? -1 : 1))
  /** Words of a sentence in the order of the alphabet: “PW1 and PW1H” is “PW1H and PW1”. */
  const lines = (found: PlanResult) =>
    found.assessment.findings
      .map(
        (f) =>
          `${f.code} ${f.subject} ${f.verdict} ${f.said
            .split(/[\s;:,]+/)
            .toSorted()
            .join(' ')}`,
      )
      .toSorted()

  test.each([
    ['two heaters and a fan', YARD()],
    ['a moved box', readFileSync(new URL('examples/moved-box-airstrip-ca.yaml', root), 'utf8')],
  ])(
    'in the document changes no choice and no verdict of %s',
    (_name, text) => {
      const [one, other] = [plan(jobOf(text), shop), plan(jobOf(turned(text)), shop)]
      expect(other.chosen.id).toBe(one.chosen.id)
      expect(other.sound).toBe(one.sound)
      expect(other.chosen.costMoney).toBeCloseTo(one.chosen.costMoney!, 6)
      expect(other.runnersUp.map((r) => r.id)).toEqual(one.runnersUp.map((r) => r.id))
      expect(other.lost.map((l) => l.id).toSorted()).toEqual(one.lost.map((l) => l.id).toSorted())
      expect(sorted(other.design)).toEqual(sorted(one.design))
      expect(lines(other)).toEqual(lines(one))
      // A box that stands is planned twice, its changes proven one by one through their years.
    },
    300_000,
  )
})

describe('pins', () => {
  test('the offer that a person pinned is taken, and the others lost to the pin', () => {
    const found = pinned({ 'supply.offer': 'lane' })
    expect(boxOf(found.design).offer).toBe('lane')
    expect(found.sound).toBe(true)
    expect(found.pinsInTheWay).toEqual([])
    expect(found.lost.find((l) => l.id === 'pole')?.why).toMatch(/pinned to lane/)
    expect(found.design.pinned).toEqual(['supply.offer'])
  })

  test.each(['200 A', 200])('the service that a person pinned is kept, written as %s', (value) => {
    const found = pinned({ 'service.rating': value })
    expect(boxOf(found.design).serviceA).toBe(200)
    expect(boxOf(found.design).panel.main.ratingA).toBe(200)
    expect(boxOf(free.design).serviceA).toBe(100)
  })

  test('the staging that a person pinned is kept in every candidate', () => {
    const found = pinned({ 'staging.control': 'timers' })
    expect([found.chosen, ...found.runnersUp].map((c) => boxOf(c.design).staging.control)).toSatisfy((all: string[]) =>
      all.every((c) => c === 'timers'),
    )
  })

  test('a cord that a person pinned keeps its size, and no other cord changes', () => {
    expect(cordOf(free.design, 'H1')?.size).not.toBe('8 AWG')
    const found = pinned({ 'cords.H1.size': '8 AWG' })
    expect(found.sound).toBe(true)
    expect(cordOf(found.design, 'H1')?.size).toBe('8 AWG')
    for (const plug of ['H2', 'F.1']) expect(cordOf(found.design, plug)?.size).toBe(cordOf(free.design, plug)?.size)
  })

  test('gear, ways and the kind of residual protection stay as pinned', () => {
    const h2 = circuitOf(free.design, 'H2').id
    const found = pinned({ 'panel.interruptingKA': 42, 'panel.ways': 42, [`circuits.${h2}.shock`]: 'equipment 30 mA' })
    const box = boxOf(found.design)
    expect([box.panel.interruptingKA, box.panel.ways]).toEqual([42, 42])
    expect(box.circuits.find((c) => c.id === h2)?.shock.kind).toBe('equipment 30 mA')
    expect(boxOf(free.design).circuits.find((c) => c.id === h2)?.shock.kind).toBe('class A')
  })

  test('a tag with a point in it can be pinned', () => {
    expect(cordOf(pinned({ 'cords.F.1.size': '8 AWG' }).design, 'F.1')?.size).toBe('8 AWG')
  })

  test('a cord pinned too thin for its current is kept, fails, and is named as what stands in the way', () => {
    // 1500 W on 120 V is 12.5 A; 18 AWG of two loaded conductors carries 10 A in 30 °C (NEC 400.5(A)(1), column B).
    const found = pinned({ 'cords.H2.size': '18 AWG' })
    expect(cordOf(found.design, 'H2')?.size).toBe('18 AWG')
    expect(found.sound).toBe(false)
    expect(found.chosen.fails).toContain('reach/cord-ampacity H2')
    expect(found.pinsInTheWay).toEqual(['cords.H2.size'])
  })

  test('of two pins only the one that is the cause is named', () => {
    expect(pinned({ 'supply.offer': 'pole', 'cords.H2.size': '18 AWG' }).pinsInTheWay).toEqual(['cords.H2.size'])
  })

  test('an offer pinned that cannot carry the machines is the cause', () => {
    const found = pinned({ 'supply.offer': 'mill', 'staging.control': 'none' })
    expect(found.sound).toBe(false)
    expect(boxOf(found.design).offer).toBe('mill')
    expect(found.pinsInTheWay).toEqual(['supply.offer'])
  })

  test.each([
    ['service.rating', '60 A'],
    ['supply.offer', 'nobody'],
  ])('%s pinned to %s, which nobody offers, is named; what is shown then is not called sound', (path, value) => {
    const found = pinned({ [path]: value })
    expect(found.sound).toBe(false)
    expect(found.pinsInTheWay).toEqual([path])
  })
})

describe('cost', () => {
  test('is a floor, and says so, when a part of the tariff is not stated', () => {
    const unstated = plan(jobOf(YARD({ tariff: '' })), shop)
    const none = plan(jobOf(YARD({ tariff: ', demand-kw: 0 USD per kW month' })), shop)
    expect([free.chosen.costIsFloor, unstated.chosen.costIsFloor]).toEqual([false, true])
    expect(unstated.chosen.costMoney!).toBeLessThan(free.chosen.costMoney!)
    // A floor is never above what the whole would be; it may leave out what idle months cost, never the fee.
    expect(unstated.chosen.costMoney!).toBeLessThanOrEqual(none.chosen.costMoney!)
    expect(unstated.chosen.costMoney!).toBeGreaterThan(2400)
  })

  test('holds the fee, the bills of the stay and the material', () => {
    const bill = free.assessment.results.supply.boxes[0]?.chosenRow?.bill
    // Twelve months of full days and the fee of 2400; energy alone is (0.9·3 + 1.5·3 + 2·6) kWh a day of machines at 0.11 for 30 days.
    expect(bill?.totalMoney.high).toBeGreaterThan(30 + 19.2 * 30 * 0.11)
    const material = free.chosen.costMoney! - 2400 - 12 * bill!.totalMoney.high
    expect(material).toBeGreaterThan(0)
    const dearer = pinned({ 'cords.H1.size': '4 AWG' })
    expect(dearer.chosen.costMoney!).toBeGreaterThan(free.chosen.costMoney!)
  })

  test('leaves material out where the price table is in another currency', () => {
    const elsewhere: Shop = { ...shop, prices: { ...shop.prices, currency: 'EUR' } }
    const row = plan(yard, elsewhere)
    expect(row.currency).toBe('USD')
    expect(row.chosen.costMoney!).toBeLessThan(free.chosen.costMoney!)
  })
})

const rules = rulesOf(yard, shop)

/** A failing finding with these mends. */
const failing = (...mends: readonly (readonly [string, string | number])[]): Finding => ({
  code: 'reach/drop',
  question: 'reach',
  subject: 'X',
  verdict: 'fails',
  basis: 'code',
  said: '',
  provenance: 'computed',
  assumed: [],
  workings: [],
  mends: mends.map(([path, value]) => ({ path, value, words: '' })),
})
const NO_PINS: ReadonlySet<string> = new Set()

describe('growth', () => {
  test.each([
    ['cords.BW1.1.size', { head: 'cords', id: 'BW1.1', what: 'size' }],
    ['circuits.C-G4C.line', { head: 'circuits', id: 'C-G4C', what: 'line' }],
    ['circuits.C-BW1.1.residualForm', { head: 'circuits', id: 'C-BW1.1', what: 'residualForm' }],
    ['panel.interruptingKA', { head: 'panel', id: 'interruptingKA' }],
    ['supply.offer', { head: 'supply', id: 'offer' }],
    ['transfer', { head: 'transfer' }],
  ])('%s is taken apart at its first and last point', (path, parts) => {
    expect(choiceAt(path)).toEqual(parts)
  })

  test('takes exactly what is asked for in three rounds, then strides one, four and sixteen sizes further', () => {
    const order = rules.cordSizes()
    const asked = (round: number) =>
      grownBy(NOTHING_GROWN, [failing(['cords.BW1.1.size', order[1]!])], NO_PINS, rules, round)?.cords
    for (const round of [1, 2, 3]) expect(asked(round)).toEqual({ 'BW1.1': order[1] })
    expect([4, 5, 6].map((round) => asked(round)?.['BW1.1'])).toEqual([order[2], order[5], order[Math.min(17, order.length - 1)]])
  })

  test('takes the first mend for three rounds and then every mend of what fails, so that feed, line and cord grow together', () => {
    const order = rules.sizes.map((s) => s.name)
    const both = failing(['feed.line', order[3]!], ['circuits.C-1.line', order[2]!])
    expect(Object.keys(grownBy(NOTHING_GROWN, [both], NO_PINS, rules, 3)?.lines ?? {})).toEqual(['feed'])
    expect(Object.keys(grownBy(NOTHING_GROWN, [both], NO_PINS, rules, 4)?.lines ?? {}).sort()).toEqual(['C-1', 'feed'])
  })

  test('stops at the end of the list and then has nothing to add', () => {
    const order = rules.sizes.map((s) => s.name)
    const last = order.at(-1)!
    const end = grownBy(NOTHING_GROWN, [failing(['circuits.C-1.line', order.at(-2)!])], NO_PINS, rules, 8)
    expect(end?.lines).toEqual({ 'C-1': last })
    expect(grownBy(end as Growth, [failing(['circuits.C-1.line', last])], NO_PINS, rules, 8)).toBeNull()
  })

  test('only ever adds: a lighter size, a weaker rating, a size nobody makes or what holds already changes nothing', () => {
    const order = rules.cordSizes()
    const had: Growth = { ...NOTHING_GROWN, interruptingKA: 22, cords: { X: order[4]! }, devices: { C: 30 } }
    const nothing = [
      failing(['cords.X.size', order[3]!]),
      failing(['cords.X.size', 'as thick as an arm']),
      failing(['panel.interruptingKA', 14]),
      failing(['circuits.C.device', 30]),
      failing(['service.rating', 400]),
      { ...failing(['cords.X.size', order[6]!]), verdict: 'tight' as const },
      { ...failing(['cords.X.size', order[6]!]), verdict: 'unknown' as const },
      failing(),
    ]
    expect(grownBy(had, nothing, NO_PINS, rules)).toBeNull()
    expect(grownBy(had, [failing(['panel.interruptingKA', 42]), failing(['circuits.C.device', 40])], NO_PINS, rules)).toEqual({
      ...had,
      interruptingKA: 42,
      devices: { C: 40 },
    })
  })

  test('leaves a pinned choice alone and takes the next mend of the same finding', () => {
    const finding = failing(['cords.X.size', '8 AWG'], ['circuits.C-X.line', '6 AWG'])
    expect(grownBy(NOTHING_GROWN, [finding], new Set(['cords.X.size']), rules)).toEqual({
      ...NOTHING_GROWN,
      lines: { 'C-X': '6 AWG' },
    })
    expect(grownBy(NOTHING_GROWN, [finding], new Set(['cords.X.size', 'circuits.C-X.line']), rules)).toBeNull()
  })

  test('puts in residual protection by its kind, and a form that sees smooth d.c. keeps the rest', () => {
    const kind = grownBy(NOTHING_GROWN, [failing(['circuits.C-X.shock', 'class A'])], NO_PINS, rules)
    expect(kind?.shock['C-X']).toMatchObject({ kind: 'class A' })
    const form = grownBy(kind as Growth, [failing(['circuits.C-X.residualForm', 'B'])], NO_PINS, rules)
    expect(form?.shock['C-X']).toMatchObject({ kind: 'class A', form: 'B' })
  })
})

/** Paths at which two plain values differ. */
function differences(a: unknown, b: unknown, path = ''): string[] {
  if (a === b) return []
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return [path]
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  return [...keys].flatMap((k) =>
    differences((a as Record<string, unknown>)[k], (b as Record<string, unknown>)[k], `${path}.${k}`),
  )
}

describe('a mend applied to a design', () => {
  const { design } = free
  const h2 = circuitOf(design, 'H2').id
  const mend = (path: string, value: string | number): Mend => ({ path, value, words: '' })
  const changed = (path: string, value: string | number) => {
    const next = applied(design, mend(path, value))
    return next === null ? null : differences(design, next)
  }
  const at = boxOf(design).circuits.findIndex((c) => c.id === h2)

  test('changes that one choice and nothing else', () => {
    expect(changed('cords.H2.size', '4 AWG')).toEqual([`.boxes.0.circuits.${at}.cords.0.size`])
    expect(changed(`circuits.${h2}.line`, '4 AWG')).toEqual([
      `.boxes.0.circuits.${at}.run.line.size`,
      `.boxes.0.circuits.${at}.run.neutral.size`,
    ])
    expect(changed(`circuits.${h2}.protective`, '4 AWG')).toEqual([`.boxes.0.circuits.${at}.run.protective.size`])
    expect(changed(`circuits.${h2}.device`, 25)).toEqual([`.boxes.0.circuits.${at}.device.ratingA`])
    expect(changed(`circuits.${h2}.family`, 'gG')).toEqual([`.boxes.0.circuits.${at}.device.family`])
    expect(changed(`circuits.${h2}.shock`, 'equipment 30 mA')?.every((p) => p.startsWith(`.boxes.0.circuits.${at}.shock`))).toBe(
      true,
    )
    expect(changed('panel.interruptingKA', 65)?.every((p) => p.endsWith('.interruptingKA'))).toBe(true)
  })

  test('leaves the first design as it was', () => {
    const before = JSON.stringify(design)
    applied(design, mend('panel.interruptingKA', 65))
    applied(design, mend('cords.H2.size', '4 AWG'))
    expect(JSON.stringify(design)).toBe(before)
  })

  test('is not applied where it asks for a new plan or for what is not there', () => {
    for (const [path, value] of [
      ['service.rating', 400],
      ['supply.offer', 'lane'],
      ['staging.control', 'interlock'],
      ['cords.nobody.size', '4 AWG'],
      ['circuits.C-nobody.line', '4 AWG'],
      [`circuits.${h2}.shock`, 'a wish'],
    ] as const)
      expect(changed(path, value), path).toBeNull()
  })
})

describe('mends tried', () => {
  const thin = withCord(free.design, 'H2', '18 AWG')
  const found = assess(yard, thin, shop)
  const tried = withMendsTried(yard, thin, shop, found)
  const of = (findings: readonly Finding[]) => findings.find((f) => f.code === 'reach/cord-ampacity' && f.subject === 'H2')

  test('say what a heavier cord would make of the verdict, what else moves, and the money', () => {
    expect(of(found.findings)?.verdict).toBe('fails')
    const mend = of(tried.findings)?.mends[0]
    expect(mend?.path).toBe('cords.H2.size')
    expect(['holds', 'tight']).toContain(mend?.tried?.verdict)
    expect(mend?.tried?.moneyDelta).toBeGreaterThan(0)
  })

  test('say the same as the change made by hand and judged again', () => {
    for (const finding of tried.findings)
      for (const mend of finding.mends) {
        if (mend.tried === undefined) continue
        const again = assess(yard, applied(thin, mend)!, shop)
        const same = again.findings.find((f) => f.code === finding.code && f.subject === finding.subject)
        if (same !== undefined) expect(mend.tried.verdict, `${finding.code} ${mend.path}`).toBe(same.verdict)
        const moved = QUESTIONS.filter((_, i) => again.questions[i]?.verdict !== found.questions[i]?.verdict)
        expect(mend.tried.moved.map((m) => m.split(' ')[0])).toEqual(moved)
      }
  })

  test('change nothing but the mends', () => {
    expect({ ...tried, findings: tried.findings.map((f) => ({ ...f, mends: [] })) }).toEqual({
      ...found,
      findings: found.findings.map((f) => ({ ...f, mends: [] })),
    })
    expect(
      tried.findings.filter((f) => f.verdict !== 'fails').flatMap((f) => f.mends.filter((m) => m.tried !== undefined)),
    ).toEqual([])
  })

  test('a mend that is too small is not called a cure, even where the finding then goes by another name', () => {
    const weak: Design = {
      ...free.design,
      boxes: free.design.boxes.map((b) => ({
        ...b,
        panel: { ...b.panel, interruptingKA: 1, main: { ...b.panel.main, interruptingKA: 1 } },
        circuits: b.circuits.map((c) => ({ ...c, device: { ...c.device, interruptingKA: 1 } })),
      })),
    }
    const judged = assess(yard, weak, shop)
    const all = judged.findings.filter((f) => f.code === 'faults/interrupting' && f.verdict === 'fails')
    expect(all.length).toBeGreaterThan(0)
    const little = {
      ...judged,
      findings: all.map((f) => ({ ...f, mends: [{ path: 'panel.interruptingKA', value: 1.5, words: '' }] })),
    }
    for (const f of withMendsTried(yard, weak, shop, little).findings) expect(f.mends[0]?.tried?.verdict, f.subject).toBe('fails')
  })
})
