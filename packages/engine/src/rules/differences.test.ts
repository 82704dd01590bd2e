import { describe, expect, test } from 'vitest'
import { type ConductorTask, type Outlet, type RuleSet, readOverlay, ruleSets, rulesFor } from './index.ts'

/** What sets apart us, ca and intl. Each test would fail if one set were another's under a new label. */
const { us, ca, intl } = ruleSets
const uk = rulesFor('intl', { overlays: ['uk'] })
const auNz = rulesFor('intl', { overlays: ['au-nz'] })

const task = (over: Partial<ConductorTask>): ConductorTask => ({
  metal: 'cu',
  insulation: 'THWN-2',
  continuousA: 0,
  otherA: 16,
  deviceA: 20,
  deviceFamily: 'us thermal-magnetic',
  loaded: 2,
  carrying: 2,
  circuits: 1,
  ambientC: 30,
  multiOutlet: false,
  motor: false,
  ...over,
})
const rw90 = (over: Partial<ConductorTask>) => task({ insulation: 'RW90', ...over })
const pvc = (over: Partial<ConductorTask>) => task({ insulation: 'PVC', deviceFamily: 'IEC 60898 C', ...over })
const system = (rules: RuleSet, id: string) => rules.systems.find((s) => s.id === id)!
const outlet = (rules: RuleSet, id: string) => rules.outlets.find((o) => o.id === id)!
const shock = (rules: RuleSet, at: Outlet, over: Partial<Parameters<RuleSet['shockFor']>[0]> = {}) =>
  rules.shockFor({
    outlet: at,
    system: rules.systems[0]!,
    use: 'general',
    kind: 'heater',
    temporary: false,
    outdoors: true,
    hardWired: false,
    ...over,
  }).value

describe('1 ampacity: base, terminals, and In ≤ Iz', () => {
  test('us and ca hold a 90 °C conductor to the 60 °C column up to 100 A without a marking, and to 75 °C above', () => {
    expect(us.ampacityA('3 AWG', task({ deviceA: 90 })).value).toBe(85)
    expect(us.ampacityA('1 AWG', task({ deviceA: 110 })).value).toBe(130)
    expect(ca.ampacityA('3 AWG', rw90({ deviceA: 90 })).value).toBe(85)
  })
  test('intl holds a 90 °C conductor to the 70 °C column at any rating, and asks the whole device of the conductor', () => {
    const xlpe = pvc({ insulation: 'XLPE', deviceA: 63, otherA: 40 })
    expect(intl.ampacityA('10 mm2', xlpe).value).toBe(57)
    expect(intl.conductorFor(xlpe).value).toBe('16 mm2')
  })
  test('in a hot place the terminals of intl are hot too, though grouping is not theirs', () => {
    const hot = pvc({ insulation: 'XLPE', deviceA: 32, ambientC: 50, circuits: 2 })
    expect(intl.ampacityA('10 mm2', hot).value).toBeCloseTo(57 * 0.71, 9)
    expect(intl.ampacityA('10 mm2', { ...hot, circuits: 6 }).value).toBeCloseTo(75 * 0.82 * 0.57, 9)
    expect(intl.ampacityA('10 mm2', { ...hot, terminalC: 90 }).value).toBeCloseTo(75 * 0.82 * 0.8, 9)
  })
  test('between two rows the hotter one counts', () => {
    for (const rules of [us, ca]) {
      const t = task({ insulation: rules.defaults.insulation, deviceA: 400, carrying: 9 })
      const at = (ambientC: number) => rules.ampacityA('8 AWG', { ...t, ambientC }).value
      expect(at(30.5)).toBe(at(35))
      expect(at(35)).toBeLessThan(at(30))
    }
    const at = (ambientC: number) => intl.ampacityA('6 mm2', pvc({ ambientC })).value
    expect(at(41)).toBe(at(45))
  })
  test('us lets a next standard size up stand over the ampacity, intl never lets the device exceed Iz', () => {
    expect(
      us
        .conductorFor(task({ deviceA: 45, otherA: 38, terminalC: 75, ambientC: 50 }))
        .steps.some((s) => s.symbol === 'In ≤ next(Iz)' && s.result === 'holds'),
    ).toBe(false)
    const us70 = us.conductorFor(task({ deviceA: 70, otherA: 60, terminalC: 75 }))
    expect(us70.value).toBe('6 AWG')
    expect(us.ampacityA('6 AWG', task({ deviceA: 70, terminalC: 75 })).value).toBe(65)
    const intl63 = intl.conductorFor(pvc({ deviceA: 63, otherA: 55 })).value!
    expect(intl.ampacityA(intl63, pvc({ deviceA: 63 })).value).toBeGreaterThanOrEqual(63)
    expect(intl.ampacityA('10 mm2', pvc({ deviceA: 63 })).value).toBe(57)
  })
  test('cold raises the capacity in us and intl, but not in ca; in us not below its 10 °C row', () => {
    const cold = { ambientC: -30, deviceA: 110, carrying: 7, circuits: 3 }
    const mild = { ...cold, ambientC: 30 }
    expect(us.ampacityA('8 AWG', task(cold)).value).toBeCloseTo(55 * 1.15 * 0.7, 9)
    expect(us.ampacityA('8 AWG', task({ ...cold, ambientC: 10 })).value).toBe(us.ampacityA('8 AWG', task(cold)).value)
    expect(ca.ampacityA('8 AWG', rw90(cold)).value).toBe(ca.ampacityA('8 AWG', rw90(mild)).value)
    expect(intl.ampacityA('6 mm2', pvc(cold)).value).toBeCloseTo(41 * 1.22 * 0.7, 9)
  })
  test('grouping counts conductors in us and ca by different steps, circuits in intl', () => {
    const hot = { ambientC: 30, deviceA: 400, carrying: 12, circuits: 4 }
    expect(us.ampacityA('8 AWG', task(hot)).value).toBeCloseTo(55 * 0.5, 9)
    expect(ca.ampacityA('8 AWG', rw90(hot)).value).toBeCloseTo(55 * 0.7, 9)
    expect(intl.ampacityA('6 mm2', pvc(hot)).value).toBeCloseTo(41 * 0.65, 9)
  })
})

describe('2 continuous load', () => {
  test('three hours in us, over one hour in ca up to 225 A, always in intl', () => {
    const said = (rules: RuleSet, hours: number, deviceA: number) => rules.isContinuous(hours, deviceA).value
    expect([said(us, 2, 20), said(us, 3, 20), said(us, 2.5, 400)]).toEqual([false, true, false])
    expect([said(ca, 1, 20), said(ca, 2, 20), said(ca, 3, 400), said(ca, 3.5, 400)]).toEqual([false, true, false, true])
    expect(said(intl, 0.1, 20)).toBe(true)
  })
  test('16 A for hours asks 20 A in us and ca, 16 A in intl; a 20 A device keeps 16 A there and 20 A here', () => {
    const load = { continuousA: 16, otherA: 0 }
    expect([us, ca, intl].map((r) => r.nextDeviceA(r.deviceNeedA(load).value).value)).toEqual([20, 20, 16])
    expect([us, ca, intl].map((r) => r.deviceHoldsA(20).value)).toEqual([16, 16, 20])
  })
  test('ca asks the continuous load over 80 % of the conductor as installed, us the load itself', () => {
    const grouped = { continuousA: 40, otherA: 0, deviceA: 50, carrying: 4, terminalC: 75 } as const
    const holds = (rules: RuleSet, t: ConductorTask) => rules.conductorChecks!('8 AWG', t).find((c) => c.what === 'conditions')!
    expect(holds(us, task(grouped))).toMatchObject({ demandA: 40, limitA: 44, holds: true })
    expect(holds(ca, rw90(grouped))).toMatchObject({ demandA: 50, limitA: 44, holds: false })
  })
})

describe('3 small-conductor cap', () => {
  test('12 AWG may not stand behind 25 A in us and ca whatever it carries; 2.5 mm² behind 25 A is judged by Iz alone', () => {
    const of = (rules: RuleSet, t: ConductorTask) => rules.conductorFor(t).value
    expect(of(us, task({ deviceA: 25, otherA: 18, terminalC: 75 }))).toBe('10 AWG')
    expect(of(ca, rw90({ deviceA: 25, otherA: 18, terminalC: 75 }))).toBe('10 AWG')
    expect(of(us, task({ deviceA: 25, otherA: 18, terminalC: 75, motor: true }))).toBe('14 AWG')
    expect(of(intl, pvc({ deviceA: 25, otherA: 18, ambientC: 25 }))).toBe('2.5 mm2')
    expect(intl.conductorChecks!('2.5 mm2', pvc({})).some((c) => c.what === 'small-conductor')).toBe(false)
  })
})

describe('4 next size up', () => {
  const allowed = (rules: RuleSet, t: ConductorTask) =>
    rules.conductorChecks!('500 kcmil', t).find((c) => c.what === 'protected')!.holds
  test('up to 800 A in us, up to 600 A in ca, with the same conductors', () => {
    const two = { deviceA: 800, otherA: 700, sets: 2, terminalC: 75 } as const
    expect(us.ampacityA('500 kcmil', task(two)).value).toBe(760)
    expect(allowed(us, task(two))).toBe(true)
    expect(allowed(ca, rw90(two))).toBe(false)
    expect(allowed(ca, rw90({ ...two, sets: 1, deviceA: 400, otherA: 300 }))).toBe(true)
  })
  test('never on a branch circuit with more than one receptacle', () => {
    const branch = { deviceA: 70, otherA: 50, terminalC: 75 } as const
    expect(us.conductorFor(task(branch)).value).toBe('6 AWG')
    expect(us.conductorFor(task({ ...branch, multiOutlet: true })).value).toBe('4 AWG')
  })
})

describe('5 vehicle-heater demand', () => {
  test('ca has tiers in its text, 74 000 W for 70 open spaces; us and intl have none and the plates rule', () => {
    const open = { count: 70, circuitA: 15, restricted: false, nameplateW: 750 }
    expect(ca.vehicleHeaterDemandW(open)?.value).toBe(74_000)
    expect(ca.vehicleHeaterDemandW({ ...open, circuitA: 20 })?.value).toBe(111_000)
    expect(ca.vehicleHeaterDemandW({ ...open, restricted: true, nameplateW: 0 })?.value).toBe(30 * 650 + 30 * 550 + 10 * 450)
    expect(ca.vehicleHeaterDemandW({ ...open, nameplateW: 1500 })?.value).toBe(105_000)
    expect(us.vehicleHeaterDemandW(open)).toBeNull()
    expect(intl.vehicleHeaterDemandW(open)).toBeNull()
  })
  test('general receptacles: us takes half of what is above 10 kVA, ca and intl all of it', () => {
    const load = { continuousA: 0, otherA: 0, largestMotorA: 0, generalVA: 14_400, lineV: 240 }
    expect(us.demandA(load).value).toBeCloseTo(12_200 / 240, 9)
    expect(ca.demandA(load).value).toBe(60)
    expect(intl.demandA(load).value).toBe(60)
  })
  test('the largest motor counts a quarter more in us and ca, not in intl', () => {
    const load = { continuousA: 0, otherA: 50, largestMotorA: 20, generalVA: 0, lineV: 240 }
    expect([us, ca, intl].map((r) => r.demandA(load).value)).toEqual([55, 55, 50])
  })
})

describe('6 shock protection by outlet and use', () => {
  test('a vehicle heater on 5-20R outdoors: class A in us, excepted in ca', () => {
    expect(shock(us, outlet(us, '5-20R'), { use: 'vehicle-heater' })).toEqual({ kind: 'class A', sensitivityMA: 5, form: null })
    expect(shock(ca, outlet(ca, '5-20R'), { use: 'vehicle-heater' }).kind).toBe('none')
    expect(shock(ca, outlet(ca, '5-20R'), { use: 'tools' }).kind).toBe('class A')
    expect(shock(ca, outlet(ca, '5-20R'), { use: 'vehicle-heater', temporary: null }).kind).toBe('class A')
  })
  test('6-20R and 6-50R outdoors: class A in us, not named in ca; above 50 A one-phase not asked in us', () => {
    expect(shock(us, outlet(us, '6-20R')).kind).toBe('class A')
    expect(shock(us, outlet(us, '6-50R')).kind).toBe('class A')
    expect(shock(ca, outlet(ca, '6-20R')).kind).toBe('none')
    expect(shock(us, outlet(us, '14-60R')).kind).toBe('none')
    expect(shock(us, outlet(us, '60 A four-pole pin and sleeve'), { system: system(us, 'wye 208/120') }).kind).toBe('class A')
    expect(shock(us, outlet(us, '60 A four-pole pin and sleeve'), { system: system(us, 'wye 480/277') }).kind).toBe('none')
  })
  test('intl: 30 mA to 32 A, 500 mA above on a site of works, form by the load; heat trace protected in all', () => {
    expect(shock(intl, outlet(intl, '32 A 5-pin'), { kind: 'drive' })).toEqual({ kind: 'rcd', sensitivityMA: 30, form: 'B' })
    expect(shock(intl, outlet(intl, '16 A 3-pin'), { kind: 'drive' }).form).toBe('F')
    expect(shock(intl, outlet(intl, '16 A 3-pin'), { kind: 'heater' }).form).toBe('A')
    expect(shock(intl, outlet(intl, '63 A 5-pin'), { temporary: true }).sensitivityMA).toBe(500)
    expect(shock(intl, outlet(intl, '63 A 5-pin')).kind).toBe('none')
    const wired = (rules: RuleSet) =>
      rules.outletNamed('hard-wired', { ratingA: 20, phases: 1, connection: 'LN', voltageV: 120 })!
    const trace = { use: 'heat-trace', hardWired: true } as const
    expect([us, ca, intl].map((r) => shock(r, wired(r), trace).kind)).toEqual(['equipment 30 mA', 'equipment 30 mA', 'rcd'])
    expect([us, ca, intl, auNz].map((r) => shock(r, wired(r), { hardWired: true }).kind)).toEqual(['none', 'none', 'none', 'rcd'])
  })
})

describe('7 protective conductor', () => {
  test('20 A: 12 AWG in us, 14 AWG in ca, the line’s size in intl', () => {
    const on = { deviceA: 20, metal: 'cu' } as const
    expect(us.protectiveFor({ ...on, line: '12 AWG', grownFrom: '12 AWG' }).value).toBe('12 AWG')
    expect(ca.protectiveFor({ ...on, line: '12 AWG', grownFrom: '12 AWG' }).value).toBe('14 AWG')
    expect(intl.protectiveFor({ ...on, line: '4 mm2', grownFrom: '2.5 mm2' }).value).toBe('4 mm2')
    expect(intl.protectiveFor({ ...on, line: '35 mm2', grownFrom: '35 mm2' }).value).toBe('16 mm2')
    expect(intl.protectiveFor({ ...on, line: '95 mm2', grownFrom: '95 mm2' }).value).toBe('50 mm2')
  })
  test('a line grown from 12 to 8 AWG for drop: us grows the conductor by circular mils, ca by the ampacity of the larger', () => {
    const grown = { deviceA: 20, metal: 'cu', line: '8 AWG', grownFrom: '12 AWG' } as const
    expect(us.protectiveFor(grown).value).toBe('8 AWG')
    expect(ca.protectiveFor(grown).value).toBe('10 AWG')
  })
  test('the electrode conductor: by the service to 6 AWG in us, 6 AWG at least in ca, by ground in intl', () => {
    const rods = { metal: 'cu', electrode: 'rods' } as const
    expect(us.electrodeConductorFor({ ...rods, line: '2 AWG' }).value).toBe('8 AWG')
    expect(us.electrodeConductorFor({ ...rods, line: '500 kcmil' }).value).toBe('6 AWG')
    expect(us.electrodeConductorFor({ ...rods, line: '500 kcmil', electrode: 'ring' }).value).toBe('2 AWG')
    expect(ca.electrodeConductorFor({ ...rods, line: '2 AWG' }).value).toBe('6 AWG')
    expect(intl.electrodeConductorFor({ ...rods, line: '10 mm2' }).value).toBe('16 mm2')
    expect(intl.electrodeConductorFor({ ...rods, line: '10 mm2', electrode: 'ring' }).value).toBe('25 mm2')
  })
})

describe('8 neutral: counting and reduction', () => {
  test('300 A unbalance: 270 A in us and ca on split phase, all of it in intl', () => {
    expect(us.neutralA({ unbalanceA: 300, nonLinearFrac: 0, system: system(us, 'split 120/240'), lineA: 300 }).value).toBeCloseTo(
      270,
      9,
    )
    expect(ca.neutralA({ unbalanceA: 300, nonLinearFrac: 0, system: system(ca, 'split 120/240'), lineA: 300 }).value).toBeCloseTo(
      270,
      9,
    )
    expect(intl.neutralA({ unbalanceA: 300, nonLinearFrac: 0, system: system(intl, 'TN/TT 400/230'), lineA: 300 }).value).toBe(
      300,
    )
  })
  test('partly non-linear load on a wye: only the linear part above 200 A is let off', () => {
    const load = { unbalanceA: 400, nonLinearFrac: 0.4, system: system(us, 'wye 208/120'), lineA: 300 }
    expect(us.neutralA(load).value).toBeCloseTo(400 - 0.3 * (240 - 200), 9)
    expect(us.neutralA({ ...load, system: system(us, 'split 120/240') }).value).toBeCloseTo(400 - 0.3 * 200, 9)
  })
  test('mostly non-linear load on a wye: nothing let off in us, more than the line in intl', () => {
    expect(us.neutralA({ unbalanceA: 300, nonLinearFrac: 1, system: system(us, 'wye 208/120'), lineA: 300 }).value).toBe(300)
    expect(intl.neutralA({ unbalanceA: 100, nonLinearFrac: 0.5, system: system(intl, 'TN/TT 400/230'), lineA: 100 }).value).toBe(
      145,
    )
  })
  test('the shared neutral counts from half non-linear in us, from 15 % harmonics in intl; on two lines of a wye always', () => {
    const wye = (rules: RuleSet, id: string, nonLinearFrac: number) =>
      rules.neutralCounts({ connection: 'LLLN', system: system(rules, id), nonLinearFrac }).value
    expect([wye(us, 'wye 208/120', 0.3), wye(us, 'wye 208/120', 0.6)]).toEqual([false, true])
    expect([wye(intl, 'TN/TT 400/230', 0.1), wye(intl, 'TN/TT 400/230', 0.3)]).toEqual([false, true])
    const two = (rules: RuleSet, id: string) =>
      rules.neutralCounts({ connection: 'LLN', system: system(rules, id), nonLinearFrac: 0 }).value
    expect([two(us, 'split 120/240'), two(us, 'wye 208/120'), two(ca, 'wye 208/120'), two(intl, 'TN/TT 400/230')]).toEqual([
      false,
      true,
      true,
      true,
    ])
  })
})

describe('9 disconnection', () => {
  test('us and ca ask whether the magnetic part trips, intl a time by volts, earthing and circuit', () => {
    const ask = (rules: RuleSet, id: string, earthing: string, deviceA = 16, distribution = false) =>
      rules.tripDemand({ system: system(rules, id), earthing, deviceA, distribution })
    expect(ask(us, 'split 120/240', 'service bond').kind).toBe('magnetic')
    expect(ask(ca, 'split 120/240', 'service bond').kind).toBe('magnetic')
    expect(ask(intl, 'TN/TT 400/230', 'TN-S')).toMatchObject({ kind: 'time', timeS: 0.4 })
    expect(ask(intl, 'TN/TT 400/230', 'TT')).toMatchObject({ kind: 'time', timeS: 0.2 })
    expect(ask(intl, 'TN/TT 400/230', 'TN-S', 125)).toMatchObject({ timeS: 5 })
    expect(ask(intl, 'TN/TT 400/230', 'TT', 32, true)).toMatchObject({ timeS: 1 })
    expect(ask(uk, 'reduced 110 CTE', 'TN-S')).toMatchObject({ timeS: 0.8 })
  })
  test('the loop of a C32: 0.68 Ω with the lower factor of the uk, and what a cold reading may show differs', () => {
    const loop = (rules: RuleSet) => rules.loopLimitOhm({ family: 'IEC 60898 C', deviceA: 32, toEarthV: 230 }).value
    expect(loop(uk)).toBeCloseTo(0.683, 3)
    expect(loop(intl)).toBeCloseTo(0.647, 3)
    expect([us.coldLoopFrac(), ca.coldLoopFrac()]).toEqual([null, null])
    expect([intl.coldLoopFrac()?.value, uk.coldLoopFrac()?.value]).toEqual([0.667, 0.8])
  })
})

describe('10 voltage: bands, drop, factors', () => {
  test('bands of the same nominal volts differ', () => {
    const band = (rules: RuleSet, id: string) => [system(rules, id).bandLowFrac, system(rules, id).bandHighFrac]
    expect(band(us, 'split 120/240')).toEqual([-0.05, 0.05])
    expect(band(ca, 'split 120/240')).toEqual([-0.083, 0.042])
    expect(band(intl, 'TN/TT 400/230')).toEqual([-0.1, 0.1])
    expect(band(uk, 'TN/TT 400/230')).toEqual([-0.06, 0.1])
    expect(band(auNz, 'single 230')).toEqual([-0.06, 0.1])
    expect(ca.systems.map((s) => s.id)).toContain('wye 600/347')
    expect(us.systems.map((s) => s.id)).not.toContain('wye 600/347')
  })
  test('the same 5 % is advice in us, a rule in ca and au-nz; intl tells lighting and own sources apart', () => {
    const drop = (rules: RuleSet, over: object = {}) =>
      rules.dropLimit({ kind: 'heater', privateSource: false, lengthM: 50, ...over })
    expect(drop(us)).toMatchObject({ branchFrac: 0.03, totalFrac: 0.05, basis: 'house' })
    expect(drop(ca)).toMatchObject({ branchFrac: 0.03, totalFrac: 0.05, basis: 'code' })
    expect(drop(auNz)).toMatchObject({ totalFrac: 0.05, basis: 'code' })
    expect(drop(intl, { lighting: true }).totalFrac).toBeCloseTo(0.03, 9)
    expect(drop(intl, { privateSource: true }).totalFrac).toBeCloseTo(0.08, 9)
    expect(drop(intl, { lengthM: 160 }).totalFrac).toBeCloseTo(0.053, 9)
    expect(drop(intl, { lengthM: 900 }).totalFrac).toBeCloseTo(0.055, 9)
    expect(drop(auNz, { lengthM: 900 }).totalFrac).toBeCloseTo(0.05, 9)
  })
  test('fault voltage factors', () => {
    expect([us, ca, intl, uk].map((r) => r.voltageFactor().value)).toEqual([
      { max: 1, min: 0.95 },
      { max: 1, min: 0.95 },
      { max: 1.1, min: 0.9 },
      { max: 1.1, min: 0.95 },
    ])
    expect([us, ca, intl].map((r) => r.motorContributionRatio().value)).toEqual([4, 4, 5])
  })
})

describe('11 the generator’s neutral and the earth', () => {
  test('a solid neutral is one of two ways in us and ca, not for this box in intl', () => {
    expect([us, ca, intl].map((r) => r.transferNeed().value)).toEqual(['either', 'either', 'neutral switched'])
    for (const rules of [us, ca, intl]) {
      expect(rules.setBond('neutral switched').value).toBe('at the set')
      expect(rules.setBond('neutral solid').value).toBe('none')
    }
  })
  test('a PEN earth offered: service bond in us, TN-C-S with a question in intl, TT in the uk; forbidden or unknown is TT', () => {
    expect(us.earthingOf('TN-C-S', false).value).toBe('service bond')
    expect(intl.earthingOf('TN-C-S', false).value).toBe('TN-C-S')
    expect(uk.earthingOf('TN-C-S', false).value).toBe('TT')
    expect([
      intl.earthingOf('TN-S', true).value,
      intl.earthingOf(null, false).value,
      intl.earthingOf('TN-S', false).value,
    ]).toEqual(['TT', 'TT', 'TN-S'])
  })
  test('rods: 2.44 m at 1.8 m in us, 3 m at 3 m in ca, a value to hold in intl only', () => {
    expect(us.electrodes().value).toMatchObject({ rods: 2, rodM: 2.44, spacingM: 1.8, valueOhm: null })
    expect(ca.electrodes().value).toMatchObject({ rods: 2, rodM: 3, spacingM: 3, valueOhm: null })
    expect(intl.electrodes().value.valueOhm).toBe(200)
  })
})

describe('12 transformer and motor protection', () => {
  test('primary of 40 A with a protected secondary of 90 A', () => {
    const both = { primaryA: 40, secondaryProtected: true, dry: true, secondaryA: 90 }
    expect(us.transformerDevice(both).value).toEqual({ primaryMaxA: 100, secondaryMaxA: 125 })
    expect(ca.transformerDevice(both).value).toEqual({ primaryMaxA: 110, secondaryMaxA: 110 })
    expect(intl.transformerDevice(both).value).toEqual({ primaryMaxA: 64, secondaryMaxA: 90 })
  })
  test('primary only: 125 % next up in us and ca dry, 150 % in ca otherwise, small ones more', () => {
    const only = { primaryA: 40, secondaryProtected: false, dry: true }
    expect([us, ca].map((r) => r.transformerDevice(only).value.primaryMaxA)).toEqual([50, 50])
    expect(ca.transformerDevice({ ...only, dry: false }).value.primaryMaxA).toBe(60)
    expect(us.transformerDevice({ ...only, primaryA: 5 }).value.primaryMaxA).toBeCloseTo(8.35, 9)
    expect(us.transformerDevice({ ...only, primaryA: 1 }).value.primaryMaxA).toBeCloseTo(3, 9)
  })
  test('3 hp at 230 V: the device rounds up in us and down in ca; intl goes by the start', () => {
    const motor = { hp: 3, currentA: 15, voltageV: 230, phases: 1 } as const
    expect(us.motorDeviceA(motor).value).toEqual({ tableA: 17, conductorA: 21.25, deviceMaxA: 45 })
    expect(ca.motorDeviceA(motor).value).toEqual({ tableA: 17, conductorA: 21.25, deviceMaxA: 40 })
    expect(us.motorDeviceA({ ...motor, hardStart: true }).value.deviceMaxA).toBe(60)
    expect(intl.motorDeviceA(motor).value).toEqual({ tableA: 15, conductorA: 15, deviceMaxA: 25 })
    expect(us.motorDeviceA({ shaftW: 2200, currentA: 15, voltageV: 240, phases: 1 }).value.tableA).toBe(17)
    expect(us.motorDeviceA({ currentA: 15, voltageV: 240, phases: 1 }).value.tableA).toBe(15)
  })
})

describe('13 colours, symbols, sizes, lists', () => {
  test('each set its own', () => {
    expect([us, ca, intl, auNz].map((r) => r.colours.A)).toEqual(['black', 'red', 'brown', 'red'])
    expect([us, ca, intl, auNz].map((r) => r.colours.N)).toEqual(['white or grey', 'white or grey', 'blue', 'black'])
    expect([us, ca, intl].map((r) => r.symbols)).toEqual(['IEEE 315', 'IEEE 315', 'IEC 60617'])
    expect([us, ca, intl].map((r) => r.frequencyHz)).toEqual([60, 60, 50])
    expect([us, ca, intl].map((r) => r.sizes[0]!.name)).toEqual(['14 AWG', '14 AWG', '1.5 mm2'])
    expect([us, ca, intl].map((r) => r.nextDeviceA(281).value)).toEqual([300, 300, 315])
    expect([us, ca, intl].map((r) => r.nextDeviceA(1201).value)).toEqual([1600, null, 1250])
    expect([us, ca, intl].map((r) => r.nextDeviceA(1.2).value)).toEqual([15, 15, 6])
    expect([us, ca, intl].map((r) => r.defaults.insulation)).toEqual(['THWN-2', 'RW90', 'XLPE'])
  })
  test('a raceway of three 12 AWG and a 12 AWG: by each set’s own conductor sizes', () => {
    const four = (insulation: string, size: string) => Array(4).fill({ size, insulation })
    expect(us.racewayFor(four('THWN-2', '6 AWG'), 'EMT').value).toBe('3/4')
    expect(ca.racewayFor(four('RW90', '6 AWG'), 'EMT').value).toBe('1')
    expect(intl.racewayFor(four('PVC', '4 mm2'), 'conduit').value).toBe('20 mm')
  })
  test('the share of a raceway depends on the count: 53, 31, 40 %', () => {
    const wires = (n: number, size: string) => us.racewayFor(Array(n).fill({ size, insulation: 'THWN-2' }), 'EMT').value
    expect([wires(1, '1 AWG'), wires(2, '6 AWG'), wires(3, '6 AWG')]).toEqual(['1/2', '3/4', '3/4'])
    expect([wires(2, '8 AWG'), wires(60, '500 kcmil')]).toEqual(['1/2', null])
  })
  test('box fill: clamps and bonding conductors count in us, not in ca', () => {
    const box = {
      conductors: Array(4).fill('14 AWG'),
      devices: 1,
      deviceWire: '14 AWG',
      clamps: true,
      grounds: 2,
      connectorPairs: 1,
    }
    expect(us.boxFill?.(box).value).toBeCloseTo(16 * 16.387064, 6)
    expect(ca.boxFill?.(box).value).toBeCloseTo(7 * 24.6, 9)
    expect(intl.boxFill).toBeUndefined()
  })
  test('interrupting steps by volts in us and ca, by place in intl', () => {
    expect(us.interruptingStepsKA(system(us, 'split 120/240'), false)[0]).toBe(10)
    expect(us.interruptingStepsKA(system(us, 'wye 480/277'), false)[0]).toBe(14)
    expect(intl.interruptingStepsKA(system(intl, 'TN/TT 400/230'), false)).toEqual([3, 4.5, 6, 10, 15, 25])
    expect(intl.interruptingStepsKA(system(intl, 'TN/TT 400/230'), true)[0]).toBe(16)
  })
})

describe('14 hanging, lighting, hauling', () => {
  const each = <T>(of: (rules: RuleSet) => T): readonly T[] => [us, ca, intl].map(of)
  const emt = (trade: string) => ({ kind: 'EMT', trade })
  const deep = (volts: number, condition: 1 | 2 | 3) =>
    each((r) => r.build.workingSpace({ voltsToEarthV: volts, condition, equipmentWidthM: 0.4, equipmentTopM: 1.8 })).map(
      (w) => w.value,
    )
  test('depth before a panel: 3, 3.5 or 4 ft by volts and condition in us, 1 m in ca, 0.7 m in intl', () => {
    expect(deep(277, 2).map((w) => Math.round(w.depthM * 1000))).toEqual([1067, 1000, 700])
    expect(deep(277, 3).map((w) => Math.round(w.depthM * 1000))).toEqual([1219, 1000, 700])
    expect(deep(120, 3).map((w) => Math.round(w.depthM * 1000))).toEqual([914, 1000, 700])
    expect(deep(120, 1).map((w) => Math.round(w.widthM * 1000))).toEqual([762, 1000, 700])
    expect(deep(120, 1).map((w) => Math.round(w.heightM * 1000))).toEqual([1981, 2200, 2000])
  })
  test('supports: 10 ft and 3 ft of EMT in us, by size in ca, by size and closer in intl', () => {
    expect(us.build.racewaySupport(emt('1/2')).value).toEqual({ everyM: 10 * 0.3048, fromBoxM: 3 * 0.3048 })
    expect(['1/2', '1', '1-1/2'].map((t) => ca.build.racewaySupport(emt(t)).value.everyM)).toEqual([1.5, 2, 3])
    expect(intl.build.racewaySupport({ kind: 'conduit', trade: '20 mm' }).value).toEqual({ everyM: 1.75, fromBoxM: 0.3 })
    expect(us.build.racewaySupport({ kind: 'PVC 40', trade: '1-1/4' }).value.everyM).toBeCloseTo(1.524, 9)
  })
  test('bends: four quarters between pulls in us and ca, two in intl; radius by inches, millimetres, three diameters', () => {
    expect(each((r) => r.build.bendsBetweenPullsDeg.value)).toEqual([360, 360, 180])
    expect(us.build.bendRadiusM(emt('3/4')).value).toBeCloseTo(0.1143, 9)
    expect(ca.build.bendRadiusM(emt('3/4')).value).toBeCloseTo(0.114, 9)
    expect(intl.build.bendRadiusM({ kind: 'conduit', trade: '25 mm' }).value).toBeCloseTo(0.075, 9)
    expect(us.build.bendRadiusM({ kind: 'PVC 40', trade: '2' }).value).toBeCloseTo(0.3048, 9)
  })
  test('cords through the wall: by written acceptance in us and ca, as an entry in intl', () => {
    expect(each((r) => r.build.cordThroughWall('gland plate').value.allowed)).toEqual([
      'with written acceptance',
      'with written acceptance',
      'yes',
    ])
    expect(each((r) => r.build.cordThroughWall('gland plate').rests.place.split(' ')[0])).toEqual(['NEC', 'CE', 'IEC'])
  })
  test('ways out: 24 in by 6.5 ft, 0.75 m by 2 m, 0.7 m by 2 m and a second above 10 m', () => {
    expect(each((r) => Math.round(r.build.egress.value.doorWidthM * 1000))).toEqual([610, 750, 700])
    expect(each((r) => r.build.egress.value.secondAboveM)).toEqual([null, null, 10])
  })
  test('the road: securing, height, axles, wind and snow', () => {
    expect(each((r) => r.build.securing.value.method)).toEqual(['aggregate working load', 'aggregate working load', 'EN 12195-1'])
    expect(each((r) => r.build.securing.value.sideTipG)).toEqual([0.5, 0.5, 0.6])
    expect(each((r) => r.build.securing.rests.place.split(' ')[0])).toEqual(['49', 'NSC', 'EN'])
    expect(each((r) => Math.round(r.build.routeHeightM.value * 100))).toEqual([411, 415, 400])
    expect(each((r) => Math.round(r.build.axleGroupKg.value.tandem))).toEqual([15422, 17000, 18000])
    expect(each((r) => [r.build.windBy, r.build.snowBy])).toEqual([
      ['ASCE 7-16', 'ASCE 7-16'],
      ['NBC', 'NBC'],
      ['EN 1991-1-4', 'EN 1991-1-3'],
    ])
  })
  test('an overlay changes a row of hanging like any other, and only to a word that the set knows', () => {
    const county = (row: string, column: string, value: string | number, table = 'us-build') =>
      readOverlay(
        [
          'plugstead-overlay: 1',
          'id: handles',
          'title: Handles (invented)',
          'kind: local amendment',
          'set: us',
          'invented: true',
          'source: ordinance (invented)',
          'date: "2026-01-31"',
          `changes: [{ table: ${table}, row: ${row}, column: ${column}, value: ${value}, why: invented }]`,
        ].join('\n'),
      )
    const read = county('handle-at-most', 'value', 1.7)
    if (!read.ok) throw new Error(JSON.stringify(read.problems))
    const handle = rulesFor('us', { overlays: [read.value] }).build.handleAtMostM
    expect(handle.value).toBe(1.7)
    expect(handle.rests).toMatchObject({ provenance: 'told', edition: 'Handles (invented), 2026-01-31' })
    const no = county('gland plate', 'allowed', 'no', 'us-cord-exit')
    if (!no.ok) throw new Error(JSON.stringify(no.problems))
    expect(rulesFor('us', { overlays: [no.value] }).build.cordThroughWall('gland plate').value.allowed).toBe('no')
    for (const wrong of [county('gland plate', 'allowed', 'perhaps', 'us-cord-exit'), county('wind-by', 'value', 'a vane')])
      expect(wrong.ok ? [] : wrong.problems.map((p) => p.code)).toEqual(['overlay/value'])
  })
})

describe('rows of another edition say so', () => {
  const editions = (worked: { readonly steps: readonly { readonly rests: { readonly edition?: string } }[] }) =>
    worked.steps.map((s) => s.rests.edition).filter((e) => e !== undefined)
  test('ca shows the 2024 text it was read in, and whose table it borrows', () => {
    expect(editions(ca.vehicleHeaterDemandW({ count: 2, circuitA: 15, restricted: true, nameplateW: 0 })!)).toContain(
      'CE Code 2024',
    )
    expect(editions(ca.ampacityA('8 AWG', rw90({ carrying: 5 })))).toEqual(
      expect.arrayContaining(["NFPA 70-2023, another set's table", 'CE Code 2024']),
    )
    expect(editions(ca.racewayFor([{ size: '8 AWG', insulation: 'RW90' }], 'EMT'))).toContain("NFPA 70-2023, another set's table")
  })
  test('us shows the 2017 text where only that was read, and nothing where the row is its own', () => {
    expect(editions(us.cordAmpacityA({ size: '12 AWG', type: 'SOOW', loaded: 2, ambientC: 20 }))).toContain('NFPA 70-2017 text')
    expect(editions(us.protectiveFor({ deviceA: 20, line: '12 AWG', grownFrom: '12 AWG', metal: 'cu' }))).toEqual([])
  })
  test('an overlay shows its name and date where its rows are used', () => {
    expect(editions(uk.loopLimitOhm({ family: 'IEC 60898 B', deviceA: 16, toEarthV: 230 }))).toEqual([])
    expect(editions(uk.coldLoopFrac()!)).toEqual(['United Kingdom, BS 7671, 2022-03-28'])
    expect(system(auNz, 'TN/TT 400/230').source.edition).toBe('Australia and New Zealand, AS/NZS 3000, 2018-06-26')
  })
})
