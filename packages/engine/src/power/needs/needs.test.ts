import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { seeded, type Verdict } from '../../kernel/index.ts'
import { rulesFor } from '../../rules/index.ts'
import { boxLoads } from '../staging/index.ts'
import { answerNeeds } from './answer.ts'
import { needsCases } from './cases.ts'
import { demandFor } from './demand.ts'
import { elementOn } from './element.ts'
import { legPhasorA } from './legs.ts'
import { motorStart } from './motor-start.ts'
import { reactiveVar, vectorSum } from './reactive.ts'
import { sampleBox, sampleDesign, sampleJob, samplePlug } from './sample.ts'
import { sumsOf } from './sums.ts'

const us = rulesFor('us')
const ca = rulesFor('ca')
const intl = rulesFor('intl')

interface Case {
  readonly id: string
  readonly given: never
  readonly expect: Record<string, number>
  readonly tolerance: { readonly relative?: number; readonly absolute?: number }
  readonly source: string
}
const published: readonly Case[] = parse(readFileSync(new URL('../../../check/supply.yaml', import.meta.url), 'utf8'))
for (const c of published.filter((one) => one.id in needsCases)) {
  test(`${c.id}: ${c.source}`, () => {
    const ours = needsCases[c.id]?.(c.given) ?? {}
    for (const [key, theirs] of Object.entries(c.expect)) {
      const allowed = Math.max(c.tolerance.absolute ?? 0, (c.tolerance.relative ?? 0) * Math.abs(theirs))
      expect(Math.abs((ours[key] as number) - theirs), key).toBeLessThanOrEqual(allowed + 1e-9)
    }
  })
}

const heaters = (n: number, more: Partial<Parameters<typeof samplePlug>[0]> = {}) =>
  Array.from({ length: n }, (_, i) => samplePlug({ tag: `H${i + 1}`, powerW: 1500, ...more }))
const verdictOf = (answer: ReturnType<typeof answerNeeds>, code: string, subject?: string): Verdict | undefined =>
  answer.findings.find((f) => f.code === code && (subject === undefined || f.subject === subject))?.verdict
const answered = (job: ReturnType<typeof sampleJob>, box = {}, control: 'none' | 'timers' | 'interlock' = 'none', rules = us) =>
  answerNeeds({ job, design: sampleDesign(job, rules, box, control), rules, prices: { currency: 'USD', rows: {} } })

describe('sums', () => {
  test('the vector sum of VA is never above the plain sum, and equal where all power factors are one', () => {
    const r = seeded(5)
    for (let k = 0; k < 200; k++) {
      const loads = Array.from({ length: 1 + r.below(8) }, () => ({
        powerW: 100 + r.below(9000),
        powerFactorFrac: 0.4 + r.next() * 0.6,
      }))
      const sum = vectorSum(loads)
      expect(sum.vectorVA).toBeLessThanOrEqual(sum.plainVA * (1 + 1e-12))
    }
    const one = vectorSum([
      { powerW: 1500, powerFactorFrac: 1 },
      { powerW: 900, powerFactorFrac: 1 },
    ])
    expect(one.vectorVA).toBeCloseTo(one.plainVA, 9)
  })

  test('hourly energy of a full day adds up to Σ P·h·duty, staged or not', () => {
    const job = sampleJob({
      plugs: [
        ...heaters(5, { hoursPerDay: 4 }),
        samplePlug({ tag: 'P1', powerW: 900, kind: 'motor', use: 'pump', hoursPerDay: 1, fromH: 6, readyH: 18, dutyFrac: 0.7 }),
      ],
    })
    for (const control of ['none', 'timers'] as const) {
      const box = answered(job, {}, control).result.boxes[0]
      expect(box?.hourlyKWh.reduce((a, b) => a + b, 0)).toBeCloseTo(box?.all.energyPerDayKWh ?? 0, 9)
      expect(box?.machines.energyPerDayKWh).toBeCloseTo(5 * 1.5 * 4 + 0.9 * 0.7, 9)
    }
  })

  test('energy of a year is the day times the days of each machine, and a month holds at most 31 full days', () => {
    const sums = sumsOf(
      boxLoads({ job: sampleJob({ plugs: heaters(2, { daysPerYear: 10 }) }), boxId: 'B1', phaseId: 'season', rules: us }).filter(
        (l) => l.own === null,
      ),
    )
    expect(sums.energyPerYearKWh).toBeCloseTo(2 * 1.5 * 3 * 10, 9)
    expect(sums.energyFullMonthKWh).toBeCloseTo(2 * 1.5 * 3 * 10, 9)
  })

  test('a power factor nobody told is judged at both ends', () => {
    const span = { low: 0.6, high: 0.9, basis: 'usual range', told: false }
    const sums = sumsOf(
      boxLoads({
        job: sampleJob({ plugs: [samplePlug({ tag: 'C', powerW: 1000, kind: 'charger', powerFactorFrac: span })] }),
        boxId: 'B1',
        phaseId: 'season',
        rules: us,
      }).filter((l) => l.own === null),
    )
    expect(sums.vectorVA.low).toBeCloseTo(1000 / 0.9, 6)
    expect(sums.vectorVA.high).toBeCloseTo(1000 / 0.6, 6)
  })

  test('a power factor of nought or over one is our own mistake', () => {
    expect(() => reactiveVar(100, 0)).toThrowError(/needs\/power-factor-range/)
    expect(() => reactiveVar(100, 1.01)).toThrowError(/needs\/power-factor-range/)
  })
})

describe('elements on another voltage', () => {
  test('3000 W marked for 240 V leaves 2253 W on 208 V: a finding that is tight, with the watts left', () => {
    const job = sampleJob({
      system: 'wye 208/120',
      plugs: [samplePlug({ tag: 'GR1', powerW: 2253, voltageV: 208, outlet: '6-20R', rated: { powerW: 3000, voltageV: 240 } })],
    })
    const finding = answered(job).findings.find((f) => f.code === 'needs/element-voltage')
    expect(finding?.verdict).toBe('tight')
    expect(finding?.said).toContain('2253 W')
  })

  test('counted at its mark instead, the row fails; fed above its mark, it fails', () => {
    const wrong = sampleJob({
      system: 'wye 208/120',
      plugs: [samplePlug({ tag: 'X', powerW: 3000, voltageV: 208, rated: { powerW: 3000, voltageV: 240 } })],
    })
    expect(verdictOf(answered(wrong), 'needs/element-voltage')).toBe('fails')
    const over = sampleJob({
      plugs: [samplePlug({ tag: 'Y', powerW: 3994, voltageV: 240, rated: { powerW: 3000, voltageV: 208 } })],
    })
    expect(verdictOf(answered(over), 'needs/element-voltage')).toBe('fails')
  })

  test('watts that are no number are our own mistake', () =>
    expect(() => elementOn({ ratedW: Number.NaN, ratedV: 240, actualV: 208 })).toThrowError(/needs\/element-range/))
})

describe('plugs', () => {
  const rated = (plug: Partial<Parameters<typeof samplePlug>[0]> & { powerW: number }, rules = us) => {
    const job = sampleJob({ rules: { set: rules.id, edition: null, overlays: [] }, plugs: [samplePlug({ tag: 'M', ...plug })] })
    return verdictOf(answered(job, {}, 'none', rules), 'needs/plug-rating')
  }

  test('1900 W on a 15 A plug is over its rating; on a 20 A plug it has no spare', () => {
    expect(rated({ powerW: 1900, outlet: '5-15R' })).toBe('fails')
    expect(rated({ powerW: 1900, outlet: '5-20R' })).toBe('tight')
  })

  test('a hard 2400 W at 120 V is not a 20 A outlet', () =>
    expect(rated({ powerW: 2400, kind: 'motor', use: 'general', hoursPerDay: 20, fromH: 0, readyH: 0 })).toBe('fails'))

  test('25.3 A for a whole day is over what a 30 A way holds in us and ca', () => {
    const plug = {
      powerW: 5000,
      voltageV: 208,
      powerFactorFrac: { low: 0.95, high: 0.95, basis: 'told', told: true },
      kind: 'mixed',
      use: 'general',
      outlet: 'L14-30R',
      hoursPerDay: 24,
      fromH: 0,
      readyH: 0,
    } as const
    const job = sampleJob({ system: 'wye 208/120', plugs: [samplePlug({ tag: 'WC1', ...plug })] })
    for (const rules of [us, ca]) expect(verdictOf(answered(job, {}, 'none', rules), 'needs/plug-rating')).toBe('fails')
  })

  test('heater and maintainer on one plug: 14.2 A together, over what a 15 A plug holds for hours', () => {
    const pf = { low: 0.6, high: 0.6, basis: 'told', told: true }
    const shared = { plugShared: 'bus 1', outlet: '5-15R', machine: 'bus 1' }
    const job = sampleJob({
      plugs: [
        samplePlug({ tag: 'BW1', powerW: 1500, ...shared }),
        samplePlug({ tag: 'BB1', powerW: 120, powerFactorFrac: pf, kind: 'charger', use: 'charger', ...shared }),
      ],
    })
    const answer = answered(job)
    const finding = answer.findings.find((f) => f.code === 'needs/shared-plug')
    expect(finding?.demand?.value).toBeCloseTo(12.5 + 120 / (120 * 0.6), 6)
    expect(finding?.verdict).toBe('fails')
    expect(answer.result.boxes[0]?.sharedPlugs).toMatchObject([{ plug: 'bus 1', tags: ['BW1', 'BB1'] }])
  })

  test('two elements of one groomer may not share a 20 A way', () => {
    const job = sampleJob({
      plugs: [samplePlug({ tag: 'G1C', powerW: 1500, machine: 'G1' }), samplePlug({ tag: 'G1H', powerW: 1000, machine: 'G1' })],
    })
    expect(verdictOf(answered(job), 'needs/two-elements', 'G1')).toBe('holds')
    const design = sampleDesign(job, us)
    const box = design.boxes[0]!
    const both = { ...box, circuits: [{ ...box.circuits[0]!, plugs: ['G1C', 'G1H'] }, ...box.circuits.slice(2)] }
    expect(
      verdictOf(
        answerNeeds({ job, design: { ...design, boxes: [both] }, rules: us, prices: { currency: 'USD', rows: {} } }),
        'needs/two-elements',
        'G1',
      ),
    ).toBe('fails')
  })

  test('a plug on no circuit, or fed in no phase, is said to fail', () => {
    const job = sampleJob({ plugs: [...heaters(1), samplePlug({ tag: 'LOST', powerW: 100, fedBy: {} })] })
    expect(verdictOf(answered(job), 'needs/not-fed', 'LOST')).toBe('fails')
    expect(verdictOf(answered(job, { circuits: [] }), 'needs/not-fed', 'H1')).toBe('fails')
  })
})

describe('demand', () => {
  test('own light, heater, fan and controls are always on the list, and a box without their circuits fails', () => {
    const job = sampleJob({ plugs: heaters(1) })
    const answer = answered(job)
    expect(answer.result.boxes[0]?.rows.filter((r) => r.own).map((r) => r.tag)).toEqual([
      'B1/light',
      'B1/heater',
      'B1/fan',
      'B1/control',
      'B1/receptacle',
    ])
    expect(verdictOf(answer, 'needs/own-loads')).toBe('holds')
    expect(verdictOf(answered(job, { circuits: [] }), 'needs/own-loads')).toBe('fails')
  })

  test('a heater is continuous: 1.25 times its current in us and ca, its current in intl', () => {
    const need = (rules: typeof us, system: string) => {
      const job = sampleJob({ system, plugs: [samplePlug({ tag: 'H', powerW: 12000, voltageV: rules === intl ? 230 : 120 })] })
      const demand = demandFor({ job, boxId: 'B1', phaseId: 'season', rules, staging: { control: 'none', capA: null } }).demand
      const leg = demand.legs.find((l) => l.leg === demand.worstLeg)!
      return { need: demand.needA, continuous: leg.continuousA, rest: leg.otherA }
    }
    for (const rules of [us, ca]) {
      const { need: asked, continuous, rest } = need(rules, 'split 120/240')
      expect(asked).toBeGreaterThanOrEqual(1.25 * continuous + rest - 1e-9)
      expect(continuous).toBeGreaterThanOrEqual(100)
    }
    const { need: asked, continuous, rest } = need(intl, 'TN/TT 400/230')
    expect(asked).toBeCloseTo(continuous + rest, 6)
  })

  test('timers lower the staged peak and not the size; an interlock that fails off lowers it, and a hand switch undoes that', () => {
    const job = sampleJob({ plugs: heaters(24) })
    const need = (control: 'none' | 'timers' | 'interlock', capA: number | null, manualAllOn = false) =>
      demandFor({
        job: { ...job, needs: { ...job.needs, manualAllOn } },
        boxId: 'B1',
        phaseId: 'season',
        rules: us,
        staging: { control, capA },
      }).demand
    const all = need('none', null)
    expect(need('timers', 80).needA).toBe(all.needA)
    expect(need('interlock', 80).needA).toBeCloseTo(100, 9)
    expect(need('interlock', 80).basis).toBe('held by an interlock that fails off')
    expect(need('interlock', 80, true).needA).toBe(all.needA)
    expect(need('interlock', null).needA).toBe(all.needA)
  })

  test('the cap cannot go below what the interlock may not shed', () => {
    const job = sampleJob({ plugs: heaters(10, { essential: true }) })
    const held = demandFor({ job, boxId: 'B1', phaseId: 'season', rules: us, staging: { control: 'interlock', capA: 10 } }).demand
    const fixedA = Math.max(...held.legs.map((l) => l.allOnA))
    expect(held.needA).toBeGreaterThanOrEqual(fixedA)
  })

  test('growth is added on top and a service that only holds today is tight, not failing', () => {
    const job = sampleJob({ plugs: heaters(18) })
    const grown = { ...job, needs: { ...job.needs, growthFrac: 0.5 } }
    const demand = demandFor({
      job: grown,
      boxId: 'B1',
      phaseId: 'season',
      rules: us,
      staging: { control: 'none', capA: null },
    }).demand
    expect(demand.needWithGrowthA).toBeCloseTo(demand.needA * 1.5, 9)
    expect(verdictOf(answered(grown), 'needs/growth')).toBe('tight')
  })

  test('a box fed from another is in the demand of the box that feeds it', () => {
    const plugs = [...heaters(4), samplePlug({ tag: 'FAR', powerW: 1500, fedBy: { season: 'B2' } })]
    const job = sampleJob({ plugs, boxes: [sampleBox('B1'), sampleBox('B2', { fedFrom: { box: 'B1', lengthM: 40 } })] })
    const near = answered(job).result.boxes.find((b) => b.box === 'B1')
    expect(near?.rows.map((r) => r.tag)).toContain('FAR')
    expect(near?.machines.powerW).toBe(7500)
    expect(answered(job).result.machines.powerW).toBe(7500)
  })

  test('everything on after an outage is its own finding: it fails over the service, and an interlock locks it out', () => {
    const job = sampleJob({ plugs: heaters(40) })
    expect(verdictOf(answered(job, {}, 'timers'), 'needs/cold-restart')).toBe('fails')
    const staging = { control: 'interlock' as const, startH: {}, capA: 150 }
    expect(verdictOf(answered(job, { staging }, 'interlock'), 'needs/cold-restart')).toBe('holds')
  })

  test('ca: plates count where they are more than the text for vehicle heaters, the text where it is more', () => {
    const heavy = demandFor({
      job: sampleJob({ plugs: heaters(10, { powerW: 1900 }) }),
      boxId: 'B1',
      phaseId: 'season',
      rules: ca,
      staging: { control: 'none', capA: null },
    })
    expect(heavy.vehicleHeaters).toMatchObject({ platesW: 19000, ruleW: 19000 })
    const light = demandFor({
      job: sampleJob({ plugs: heaters(10, { powerW: 400 }) }),
      boxId: 'B1',
      phaseId: 'season',
      rules: ca,
      staging: { control: 'none', capA: null },
    })
    expect(light.vehicleHeaters).toMatchObject({ platesW: 4000, ruleW: 12000 })
    const plain = demandFor({
      job: sampleJob({ plugs: heaters(10, { powerW: 400, use: 'general' }) }),
      boxId: 'B1',
      phaseId: 'season',
      rules: ca,
      staging: { control: 'none', capA: null },
    })
    expect(light.demand.needA).toBeGreaterThan(2 * plain.demand.needA)
  })
})

describe('legs', () => {
  const on = (job: ReturnType<typeof sampleJob>) =>
    boxLoads({ job, boxId: 'B1', phaseId: 'season', rules: us }).filter((l) => l.own === null)
  const wye = { kind: 'wye', lineLineV: 208, lineNeutralV: 120 } as const

  test('a 208 V load between two phases and a 120 V load on one add as phasors, 30 degrees apart', () => {
    const job = sampleJob({
      system: 'wye 208/120',
      plugs: [samplePlug({ tag: 'LL', powerW: 2080, voltageV: 208 }), samplePlug({ tag: 'LN', powerW: 1200 })],
    })
    const loads = on(job).map((l) => ({ ...l, legs: l.tag === 'LL' ? (['A', 'B'] as const) : (['A'] as const) }))
    expect(legPhasorA(loads, wye).A).toBeCloseTo(Math.sqrt(100 + 100 + 200 * Math.cos(Math.PI / 6)), 9)
    expect(legPhasorA(loads, wye).B).toBeCloseTo(10, 9)
  })

  test('phasor sums never exceed plain sums, in split phase, wye and delta', () => {
    const r = seeded(8)
    for (const system of [
      wye,
      { kind: 'split', lineLineV: 240, lineNeutralV: 120 },
      { kind: 'delta', lineLineV: 240, lineNeutralV: 120 },
    ] as const) {
      for (let k = 0; k < 40; k++) {
        const sets =
          system.kind === 'split'
            ? [['A'], ['B'], ['A', 'B']]
            : [['A'], ['B'], ['C'], ['A', 'B'], ['B', 'C'], ['A', 'C'], ['A', 'B', 'C']]
        const loads = on(
          sampleJob({ plugs: heaters(6, { powerFactorFrac: { low: 0.7, high: 0.9, basis: 'x', told: false } }) }),
        ).map((l) => ({ ...l, legs: r.pick(sets) as ('A' | 'B' | 'C')[] }))
        const phasor = legPhasorA(loads, system)
        for (const leg of ['A', 'B', 'C'] as const)
          expect(phasor[leg]).toBeLessThanOrEqual(
            loads.filter((l) => l.legs.includes(leg)).reduce((s, l) => s + l.currentA, 0) * (1 + 1e-9),
          )
      }
    }
  })
})

describe('motor start', () => {
  const plug = samplePlug({ tag: 'P', powerW: 4400, kind: 'motor', voltageV: 208, phases: 3 })
  const codes = us.tables['motor-code']

  test('a locked-rotor current told stands; a code letter gives both ends by kVA per hp; else the usual ratio', () => {
    expect(motorStart({ ...plug, motor: { start: 'direct', lockedRotorA: 92 } }, codes)?.currentA).toEqual({ low: 92, high: 92 })
    const letter = motorStart({ ...plug, phases: 1, voltageV: 115, motor: { start: 'direct', hp: 0.75, codeLetter: 'K' } }, codes)
    expect(letter?.apparentVA).toEqual({ low: 8000 * 0.75, high: 9000 * 0.75 })
    expect(motorStart({ ...plug, currentA: 10, motor: { start: 'direct' } }, codes)?.currentA).toEqual({ low: 50, high: 70 })
    expect(motorStart(samplePlug({ tag: 'H', powerW: 100 }), codes)).toBeNull()
  })
})

test('the order of the rows changes no figure', () => {
  const job = sampleJob({ plugs: [...heaters(7), samplePlug({ tag: 'L', powerW: 2250, voltageV: 240, outlet: '6-20R' })] })
  const one = answered(job, {}, 'timers').result.boxes[0]!
  const other = answered({ ...job, plugs: [...job.plugs].reverse() }, {}, 'timers').result.boxes[0]!
  expect(other.demand).toEqual(one.demand)
  expect(other.staging.worst).toEqual(one.staging.worst)
})

test('every finding names workings that exist, and no working has the id of another', () => {
  const job = sampleJob({
    plugs: [...heaters(3), samplePlug({ tag: 'GR1', powerW: 2253, voltageV: 240, rated: { powerW: 2253, voltageV: 240 } })],
    needs: { ...sampleJob({ plugs: [] }).needs, growthFrac: 0.2 },
  })
  const answer = answered(job, {}, 'timers')
  const ids = answer.workings.map((w) => w.id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const id of answer.findings.flatMap((f) => f.workings)) expect(ids).toContain(id)
})
