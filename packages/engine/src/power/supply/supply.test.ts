import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import type { BoxDesign, Job, Offer, SourceMode } from '../../job/index.ts'
import { plusDays } from '../../kernel/index.ts'
import { rulesFor } from '../../rules/index.ts'
import { answerNeeds } from '../needs/index.ts'
import { sampleBox, sampleDesign, sampleJob, sampleOffer, samplePlug } from '../needs/sample.ts'
import { answerSupply } from './answer.ts'
import { billFor, energyMoney } from './bill.ts'
import { type BondFacts, bondPosition } from './bonds.ts'
import { supplyCases } from './cases.ts'
import { deratedSet } from './derate.ts'
import { fuelLPerH } from './fuel.ts'
import { startDipFrac } from './generator.ts'
import { windowPeakKW } from './offers.ts'

const us = rulesFor('us')
const ca = rulesFor('ca')
const SEED = 20270710

interface Case {
  readonly id: string
  readonly given: never
  readonly expect: Record<string, number | number[]>
  readonly tolerance: { readonly relative?: number; readonly absolute?: number }
  readonly source: string
}
const published: readonly Case[] = parse(readFileSync(new URL('../../../check/supply.yaml', import.meta.url), 'utf8'))
for (const c of published.filter((one) => one.id in supplyCases)) {
  test(`${c.id}: ${c.source}`, () => {
    const ours = supplyCases[c.id]?.(c.given) ?? {}
    for (const [key, value] of Object.entries(c.expect)) {
      const theirs = [value].flat()
      const mine = [ours[key] as number | number[]].flat()
      theirs.forEach((t, i) => {
        const allowed = Math.max(c.tolerance.absolute ?? 0, (c.tolerance.relative ?? 0) * Math.abs(t))
        expect(Math.abs((mine[i] as number) - t), key).toBeLessThanOrEqual(allowed + 1e-9)
      })
    }
  })
}

describe('fuel', () => {
  const chart = us.tables['generator-fuel']!

  test('every printed value of the chart is given back', () => {
    for (const row of chart.rows) {
      const [kW, ...litres] = row.map(Number) as [number, ...number[]]
      litres.forEach((l, i) => {
        expect(fuelLPerH(chart, kW, (kW * (i + 1)) / 4)).toBeCloseTo(l, 9)
      })
    }
  })

  test('between sizes and shares it is linear, and it never falls as the load rises', () => {
    expect(fuelLPerH(chart, 80, 40)).toBeCloseTo((11 + 15.5) / 2, 9)
    expect(fuelLPerH(chart, 60, 60 * 0.625)).toBeCloseTo((11 + 14.4) / 2, 9)
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (kW, a, b) => fuelLPerH(chart, kW, kW * Math.min(a, b)) <= fuelLPerH(chart, kW, kW * Math.max(a, b)) + 1e-9,
      ),
      { seed: SEED },
    )
  })

  test('a load over the rating is outside the chart', () =>
    expect(() => fuelLPerH(chart, 60, 61)).toThrowError(/supply\/fuel-range/))
})

describe('a set where it stands', () => {
  test('a turbocharged set loses nothing at 900 m and 25 °C, and both kinds are judged where nobody said which', () => {
    const set = { ratedKW: 100, ratedKVA: 125 }
    expect(deratedSet({ ...set, turbo: true }, { elevationM: 900, hottestC: 25 }).kW).toEqual({ low: 100, high: 100 })
    const both = deratedSet({ ...set, turbo: null }, { elevationM: 900, hottestC: 25 }).kW
    expect(both.low).toBeCloseTo(100 * (1 - (0.035 * 750) / 300), 9)
    expect(both.high).toBe(100)
  })

  test('heat takes 1 to 2 % per 5.5 K over 40 °C from a turbocharged engine', () => {
    const kW = deratedSet({ ratedKW: 160, ratedKVA: 200, turbo: true }, { elevationM: 310, hottestC: 47 }).kW
    expect(kW.low).toBeCloseTo(160 * (1 - (0.02 * 7) / 5.5), 9)
    expect(kW.high).toBeCloseTo(160 * (1 - (0.01 * 7) / 5.5), 9)
  })

  test('the dip of a start is x/(1 + x): half of what an equal start would take from a source of its own reactance one', () => {
    expect(startDipFrac(33144, 125000, 0.17)).toBeCloseTo(0.04313, 4)
    expect(startDipFrac(1, 1, 1)).toBe(0.5)
  })
})

describe('bill', () => {
  const tariff = sampleJob({ plugs: [] }).tariff
  const peak = { low: 10, high: 10 }
  const metered = {
    energyKWh: 1000,
    peakKW: peak,
    peakKVA: { low: 11, high: 12 },
    powerFactorFrac: { low: 0.8, high: 0.9 },
    highest11: null,
  }

  test('the lines sum to the total, for any tariff', () => {
    const money = fc.option(fc.double({ min: 0, max: 50, noNaN: true }))
    fc.assert(
      fc.property(
        money,
        money,
        money,
        fc.option(fc.double({ min: 0.85, max: 1, noNaN: true })),
        fc.double({ min: 0, max: 9000, noNaN: true }),
        (fixed, kW, kVA, floor, kWh) => {
          const bill = billFor(
            { ...metered, energyKWh: kWh },
            { ...tariff, fixedMoneyPerMonth: fixed, demandMoneyPerKW: kW, demandMoneyPerKVA: kVA, powerFactorFloorFrac: floor },
          )
          const sum = (end: 'low' | 'high') => bill.lines.reduce((s, l) => s + (l.money?.[end] ?? 0), 0)
          return (
            Math.abs(sum('low') - bill.totalMoney.low) < 1e-9 &&
            Math.abs(sum('high') - bill.totalMoney.high) < 1e-9 &&
            bill.totalMoney.low <= bill.totalMoney.high + 1e-9
          )
        },
      ),
      { seed: SEED },
    )
  })

  test('a part that the tariff does not state leaves the bill incomplete, and the rest stands', () => {
    const bill = billFor(metered, { ...tariff, fixedMoneyPerMonth: null })
    expect(bill.complete).toBe(false)
    expect(bill.totalMoney.high).toBe(1000 * 0.1 + 10 * 10)
    expect(billFor(metered, { ...tariff, demandMoneyPerKW: null }).complete).toBe(false)
    expect(billFor(metered, { ...tariff, blocks: [] }).complete).toBe(false)
  })

  test('a kVA charge is billed at both ends of the power factor', () => {
    const line = billFor(metered, { ...tariff, demandMoneyPerKW: null, demandMoneyPerKVA: 14 }).lines.find(
      (l) => l.what === 'demand',
    )
    expect(line?.money).toEqual({ low: 154, high: 168 })
  })

  test('kW are raised by floor over power factor below the floor only', () => {
    const line = (pf: number) =>
      billFor({ ...metered, powerFactorFrac: { low: pf, high: pf } }, { ...tariff, powerFactorFloorFrac: 0.95 }).lines.find(
        (l) => l.what === 'power factor',
      )?.money?.high
    expect(line(0.95)).toBe(0)
    expect(line(0.76)).toBeCloseTo(10 * 10 * (0.95 / 0.76 - 1), 9)
  })

  test('energy beyond the last block has no price', () => {
    expect(energyMoney(500, [{ upToKWh: 400, moneyPerKWh: 1 }])).toBeNull()
    expect(energyMoney(400, [{ upToKWh: 400, moneyPerKWh: 1 }])?.money).toBe(400)
  })

  test('twenty minutes on and ten off inside a window of thirty bill the mean', () => {
    const profile = Array.from({ length: 96 }, (_, s) => (s === 4 ? 3000 : s === 5 ? 1000 : 0))
    expect(windowPeakKW(profile, 15)).toBe(3)
    expect(windowPeakKW(profile, 30)).toBe(2)
  })
})

describe('one neutral–earth bond in every position of the switch', () => {
  const base: BondFacts = {
    earthing: 'service bond',
    panelBonded: false,
    transfer: 'neutral switched',
    hasSet: true,
    hasNetwork: true,
    setBond: 'at the set',
    factoryBond: false,
    ownTransformer: false,
  }
  const table: readonly (readonly [string, Partial<BondFacts>, SourceMode, string])[] = [
    ['network with its service bond', {}, 'network', 'holds'],
    ['own set, neutral switched, bonded at the set', {}, 'own set', 'holds'],
    ['own set, bonded at the first disconnect instead', { setBond: 'at the first disconnect' }, 'own set', 'holds'],
    ['own set, never both', { setBond: 'at the first disconnect', factoryBond: true }, 'own set', 'fails'],
    ['own set, neutral switched and bonded nowhere', { setBond: 'none' }, 'own set', 'fails'],
    ['solid neutral, bond at the service only, on the set', { transfer: 'neutral solid', setBond: 'none' }, 'own set', 'holds'],
    [
      'solid neutral, bond at the service only, on the network',
      { transfer: 'neutral solid', setBond: 'none' },
      'network',
      'holds',
    ],
    [
      'portable set with a factory bond and a solid neutral makes two bonds',
      { transfer: 'neutral solid', setBond: 'none', factoryBond: true },
      'own set',
      'fails',
    ],
    [
      'and they stay two while the network feeds',
      { transfer: 'neutral solid', setBond: 'none', factoryBond: true },
      'network',
      'fails',
    ],
    [
      'a set whose frame bond nobody told, behind a solid neutral',
      { transfer: 'neutral solid', setBond: 'none', factoryBond: null },
      'own set',
      'unknown',
    ],
    ['a bond left in the panel beside that of the set', { panelBonded: true }, 'own set', 'fails'],
    ['panel as the service, network', { panelBonded: true }, 'network', 'holds'],
    ['TT: none added', { earthing: 'TT' }, 'network', 'holds'],
    ['TT: a bond in the panel', { earthing: 'TT', panelBonded: true }, 'network', 'fails'],
    ['TN-C-S from the network: a bond in the panel', { earthing: 'TN-C-S', panelBonded: true }, 'network', 'fails'],
    ['TN-S own set alone, one link', { hasNetwork: false, transfer: 'none' }, 'own set', 'holds'],
    ['own set floating (IT): not for this box', { hasNetwork: false, transfer: 'none', setBond: 'none' }, 'own set', 'fails'],
    [
      'TN from the network with a solid neutral and a bonded set',
      { earthing: 'TN-S', transfer: 'neutral solid' },
      'own set',
      'fails',
    ],
    ['neighbour: his bond, none of ours', {}, 'neighbour', 'holds'],
    ['neighbour and a bonded panel', { panelBonded: true }, 'neighbour', 'fails'],
    ['own transformer, bonded in the panel', { ownTransformer: true, panelBonded: true, hasSet: false }, 'network', 'holds'],
    ['own transformer, bonded nowhere', { ownTransformer: true, hasSet: false }, 'network', 'fails'],
  ]
  for (const [name, facts, position, verdict] of table)
    test(`${name}: ${verdict}`, () => expect(bondPosition(position, { ...base, ...facts }).verdict).toBe(verdict))

  const anyFacts: fc.Arbitrary<BondFacts> = fc.record({
    earthing: fc.constantFrom('TN-S', 'TN-C-S', 'TT', 'service bond'),
    panelBonded: fc.boolean(),
    transfer: fc.constantFrom('none', 'neutral switched', 'neutral solid'),
    hasSet: fc.boolean(),
    hasNetwork: fc.boolean(),
    setBond: fc.constantFrom('at the set', 'at the first disconnect', 'none'),
    factoryBond: fc.constantFrom(true, false, null),
    ownTransformer: fc.boolean(),
  })

  test('it holds exactly when the bonds that count are the number wanted, whatever the choices', () => {
    fc.assert(
      fc.property(anyFacts, fc.constantFrom<SourceMode>('network', 'own set', 'neighbour'), (facts, position) => {
        const at = bondPosition(position, facts)
        const count = (position === 'own set' ? at.bonds : at.bonds.filter((b) => b.ours)).length
        if (at.verdict === 'unknown') return facts.factoryBond === null && facts.hasSet
        return (at.verdict === 'holds') === (count === at.wanted)
      }),
      { seed: SEED, numRuns: 2000 },
    )
  })

  test('a factory bond never mends a solid neutral: with one, no choice that holds on the network holds on the set too', () => {
    fc.assert(
      fc.property(anyFacts, (facts) => {
        const solid: BondFacts = {
          ...facts,
          transfer: 'neutral solid',
          factoryBond: true,
          hasSet: true,
          hasNetwork: true,
          ownTransformer: false,
        }
        return bondPosition('network', solid).verdict === 'fails' || bondPosition('own set', solid).verdict === 'fails'
      }),
      { seed: SEED, numRuns: 2000 },
    )
  })
})

const heaters = (n: number) => Array.from({ length: n }, (_, i) => samplePlug({ tag: `H${i + 1}`, powerW: 1500 }))

function ask(job: Job, box: Partial<BoxDesign> = {}, rules = us, rows = {}) {
  const inputs = { job, design: sampleDesign(job, rules, box), rules, prices: { currency: job.money.currency, rows } }
  const needs = answerNeeds(inputs).result
  const answer = answerSupply(inputs, needs)
  const verdict = (code: string, subject?: string) =>
    answer.findings.find((f) => f.code === code && (subject === undefined || f.subject === subject))?.verdict
  return { answer, verdict, result: answer.result.boxes[0]!, needs: needs.boxes[0]! }
}

const span = (value: number) => ({ low: value, high: value, basis: 'told', told: true })
const set = (ratedKW: number, more: Partial<NonNullable<Offer['generator']>> = {}) => ({
  ratedKW,
  ratedKVA: ratedKW / 0.8,
  sets: 1,
  subtransientPct: span(12),
  turbo: true,
  boostExcitation: true,
  neutralBondFactory: false,
  ...more,
})

describe('offers', () => {
  test('each size of a service is a row, the smallest that works ranks by money, and one too small fails', () => {
    const job = sampleJob({
      plugs: heaters(16),
      offers: [sampleOffer({ id: 'street', kind: 'utility', serviceA: [60, 200, 400] })],
    })
    const { result } = ask(job)
    expect(result.offers.map((o) => [o.sizeA, o.verdict === 'fails'])).toEqual([
      [200, false],
      [400, false],
      [60, true],
    ])
    expect(result.offers.map((o) => o.rank)).toEqual([1, 2, 3])
  })

  test('refused and unavailable offers say so, come last, and fail only a design that rests on them', () => {
    const offers = [
      sampleOffer({
        id: 'pumps',
        kind: 'neighbour',
        spareA: 0,
        available: false,
        note: 'refused: the pump supply must not be touched',
      }),
      sampleOffer({ id: 'street', kind: 'utility', serviceA: [200] }),
    ]
    const resting = ask(sampleJob({ plugs: heaters(4), offers }), { offer: 'pumps' })
    expect(resting.verdict('supply/not-available')).toBe('fails')
    const beside = ask(sampleJob({ plugs: heaters(4), offers }), { offer: 'street' })
    expect(beside.verdict('supply/offer-refused', 'pumps')).toBe('holds')
    expect(beside.result.offers.at(-1)?.offer).toBe('pumps')
    expect(beside.result.offers.at(-1)?.why).toContain('refused')
  })

  test('16 weeks against 14 needed: late by 14 days, fails with nothing for the gap, tight with an interim', () => {
    const needs = { ...sampleJob({ plugs: [] }).needs, orderDate: '2027-03-01', neededBy: plusDays('2027-03-01', 14 * 7) }
    const offers = [
      sampleOffer({ id: 'street', kind: 'utility', serviceA: [200], leadDays: 16 * 7 }),
      sampleOffer({ id: 'set', kind: 'generator', generator: set(60), hirePer28DaysMoney: 2800, leadDays: 7, oneOffMoney: null }),
    ]
    const job = sampleJob({ plugs: heaters(4), needs, offers })
    const bare = ask(job)
    expect(bare.result.chosenRow?.lateDays).toBe(14)
    expect(bare.verdict('supply/ready')).toBe('fails')
    expect(bare.answer.findings.find((f) => f.code === 'supply/ready')?.mends[0]).toMatchObject({
      path: 'supply.interim',
      value: 'set',
    })
    const fed = ask(job, {
      interim: 'set',
      transfer: 'neutral switched',
      setBond: 'at the set',
      panel: { ...sampleDesign(job, us).boxes[0]!.panel, bond: 'neutral not bonded here' },
    })
    expect(fed.verdict('supply/ready')).toBe('tight')
    expect(fed.result.interim).toMatchObject({ days: 14, offer: 'set', fromDate: '2027-06-07', toDate: '2027-06-21' })
    expect(fed.result.interim?.money?.low).toBeGreaterThan((14 / 31) * ((2800 * 365) / 12 / 28) - 1e-6)
    expect(fed.verdict('supply/interim')).toBe('holds')
    expect(fed.result.bonds.map((b) => [b.position, b.verdict])).toEqual([
      ['network', 'holds'],
      ['own set', 'holds'],
    ])
  })

  test('without dates whether it comes in time is unknown', () => {
    const job = sampleJob({ plugs: heaters(2), needs: { ...sampleJob({ plugs: [] }).needs, orderDate: null } })
    expect(ask(job).verdict('supply/ready')).toBe('unknown')
  })

  test('without a price the bill is unknown and the known part is a floor', () => {
    const job = sampleJob({ plugs: heaters(2) })
    const blind = ask({ ...job, tariff: { ...job.tariff, demandMoneyPerKW: null } })
    expect(blind.verdict('supply/bill')).toBe('unknown')
    expect(blind.result.chosenRow?.overStayMoney).toBeNull()
    expect(ask(job).verdict('supply/bill')).toBe('holds')
  })

  test('an operator who forbids his earth wants the box TT', () => {
    const job = sampleJob({
      plugs: heaters(2),
      offers: [sampleOffer({ id: 'street', kind: 'utility', serviceA: [200], earthingForbidden: true, earthing: 'TN-C-S' })],
    })
    expect(ask(job, { earthing: 'TN-C-S' }).verdict('supply/earthing-forbidden')).toBe('fails')
    expect(
      ask(job, { earthing: 'TT', panel: { ...sampleDesign(job, us).boxes[0]!.panel, bond: 'neutral not bonded here' } }).verdict(
        'supply/earthing-forbidden',
      ),
    ).toBe('holds')
  })

  test('a neighbour with 70 A to spare, 140 m away, lacks current, agreement and meter, and the run is worked out', () => {
    const job = sampleJob({
      plugs: heaters(20),
      offers: [sampleOffer({ id: 'pump house', kind: 'neighbour', spareA: 70, distanceM: 140, energyMoneyPerKWh: 0.18 })],
    })
    const { result, verdict } = ask(job)
    expect(verdict('supply/neighbour-cap')).toBe('fails')
    expect(result.offers[0]?.lacks.join()).toMatch(/A more.*agreement.*sub-meter/)
    expect(result.offers[0]?.dropFrac?.high).toBeGreaterThan(0.03)
    expect(result.offers[0]?.monthlyMoney?.high).toBeCloseTo(0.18 * (result.offers[0]?.bill?.energyKWh ?? 0), 6)
  })

  test('600 V at the street: every own transformer is an offer, and all-on must not overload it', () => {
    const own = (kVA: number) => ({
      kVA,
      impedancePct: span(4.5),
      xOverR: span(1.3),
      phases: 3 as const,
      noLoadLossW: 260,
      fullLoadLossW: 1600,
      massKg: 330,
    })
    const offers = [sampleOffer({ id: 'street 600', kind: 'utility', system: 'wye 600/347', serviceA: [100] })]
    const plugs = heaters(40)
    const job = sampleJob({
      rules: { set: 'ca', edition: null, overlays: [] },
      system: 'wye 208/120',
      plugs,
      offers,
      ownTransformers: [own(30), own(75), own(112.5)],
      needs: { ...sampleJob({ plugs: [] }).needs, manualAllOn: true },
    })
    const rows = {
      'transformer/75 kVA/3': { id: 'transformer/75 kVA/3', money: 4510, per: 'each', date: '2026-09-15', source: 'invented' },
    }
    const { result } = ask(job, {}, ca, rows)
    expect(result.offers).toHaveLength(3)
    const of = (kVA: number) => result.offers.find((o) => o.ownTransformerKVA === kVA)
    expect(of(30)?.transformer?.verdict).toBe('fails')
    expect(of(75)?.transformer?.verdict).toBe('holds')
    expect(of(75)?.transformer?.loadFrac).toBeGreaterThan(60 / 75)
    expect(of(75)?.oneOffMoney).toBe(1000 + 4510)
    expect(of(112.5)?.lacks.join()).toContain('price of the own transformer')
    expect(of(75)?.needA).toBeCloseTo((ask(job, {}, ca).needs.demand.needA * 208) / 600, 6)
  })

  test('two boxes with services of their own share the transformer of the one offer they rest on', () => {
    const transformer = { kVA: 75, impedancePct: span(1.8), xOverR: span(1.5), phases: 1 as const }
    const plugs = [
      ...heaters(25),
      ...heaters(25).map((p) => ({ ...p, tag: `${p.tag} far`, machine: `${p.tag} far`, fedBy: { season: 'B2' } })),
    ]
    const offers = [sampleOffer({ id: 'street', kind: 'utility', serviceA: [400], transformer })]
    const one = ask(sampleJob({ plugs: plugs.slice(0, 25), offers }))
    expect(one.verdict('supply/transformer')).toBe('holds')
    const both = ask(sampleJob({ plugs, offers, boxes: [sampleBox('B1'), sampleBox('B2')] }))
    expect(both.result.chosenRow?.sharedKVA).toBeGreaterThan(37)
    expect(both.verdict('supply/transformer')).toBe('fails')
  })

  test('another voltage and no own transformer fails', () => {
    const job = sampleJob({
      system: 'wye 208/120',
      plugs: heaters(2),
      offers: [sampleOffer({ id: 'street 600', kind: 'utility', system: 'wye 600/347', serviceA: [100] })],
    })
    expect(ask(job).result.offers[0]?.verdict).toBe('fails')
  })
})

describe('own set', () => {
  const camp = (kW: number, more: Partial<Offer> = {}) =>
    sampleJob({
      plugs: heaters(12),
      offers: [
        sampleOffer({ id: 'set', kind: 'generator', generator: set(kW), hirePer28DaysMoney: 5000, oneOffMoney: null, ...more }),
      ],
    })
  const onSet = { setBond: 'at the set', earthing: 'TN-S' } as const
  const askSet = (job: Job) =>
    ask(job, { ...onSet, panel: { ...sampleDesign(job, us).boxes[0]!.panel, bond: 'neutral not bonded here' } })

  test('a set far too large runs below 30 % of its rating: a finding of its own', () => {
    expect(askSet(camp(200)).verdict('supply/set-mean-load')).toBe('tight')
    expect(askSet(camp(200)).verdict('supply/set-size')).toBe('holds')
  })

  test('a set that cannot carry everything on fails, whatever the clocks say', () => {
    const small = askSet(camp(15))
    expect(small.verdict('supply/set-size')).toBe('fails')
    expect(small.result.offers[0]?.verdict).toBe('fails')
  })

  test('fuel of a month is the chart summed over the day as it runs, both ends of its accuracy', () => {
    const { result, needs } = askSet(camp(60))
    const chart = us.tables['generator-fuel']!
    const litres = needs.meanW.reduce((sum, w) => sum + fuelLPerH(chart, 60, w / 1000) / 4, 0) * 31
    expect(result.offers[0]?.generator?.fuelLPerMonth.low).toBeCloseTo(0.85 * litres, 6)
    expect(result.offers[0]?.generator?.fuelLPerMonth.high).toBeCloseTo(1.15 * litres, 6)
  })

  test('quiet hours in which machines are on are not kept', () => {
    expect(askSet(camp(60, { quietHours: { fromH: 22, toH: 6 } })).verdict('supply/quiet-hours')).toBe('fails')
  })

  test('a direct start of 92 A on a 100 kW set is judged by its dip', () => {
    const pump = samplePlug({
      tag: 'LP1',
      powerW: 4400,
      voltageV: 208,
      phases: 3,
      kind: 'motor',
      use: 'pump',
      motor: { start: 'direct', hp: 5, lockedRotorA: 92 },
    })
    const job = { ...camp(100), system: 'wye 208/120', plugs: [...heaters(12), pump] }
    const start = askSet(job).result.offers[0]?.generator?.largestStart
    expect(start?.plug).toBe('LP1')
    expect(start?.startKVA.high).toBeCloseTo((Math.sqrt(3) * 208 * 92) / 1000, 6)
    expect(start?.dipFrac.high).toBeCloseTo(startDipFrac(33144, 125000, 0.17), 3)
    expect(start?.verdict).toBe('holds')
  })
})

test('every finding names workings that exist, and no working has the id of another', () => {
  const job = sampleJob({ plugs: heaters(3) })
  const { answer } = ask(job)
  const ids = answer.workings.map((w) => w.id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const id of answer.findings.flatMap((f) => f.workings)) expect(ids).toContain(id)
})
