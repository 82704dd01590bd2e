import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { EXIT_WAYS } from '../job/index.ts'
import { type ConductorTask, type RuleSet, readOverlay, rulesFor } from './index.ts'

const folder = new URL('../../../../shop/overlays/', import.meta.url)
const shop = readdirSync(folder)
  .sort()
  .map((name) => {
    const read = readOverlay(readFileSync(new URL(name, folder), 'utf8'))
    if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.problems)}`)
    return read.value
  })

const variants: readonly (readonly [string, RuleSet])[] = [
  ['us', rulesFor('us')],
  ['ca', rulesFor('ca')],
  ['intl', rulesFor('intl')],
  ['intl uk', rulesFor('intl', { overlays: ['uk'] })],
  ['intl au-nz', rulesFor('intl', { overlays: ['au-nz'] })],
  ...shop.map((overlay) => [`${overlay.set} ${overlay.id}`, rulesFor(overlay.set, { overlays: [overlay] })] as const),
]

/** A circuit off every default. */
const circuit = (rules: RuleSet, over: Partial<ConductorTask> = {}): ConductorTask => ({
  metal: 'cu',
  insulation: rules.defaults.insulation,
  continuousA: 13,
  otherA: 2,
  deviceA: 20,
  deviceFamily: rules.defaults.deviceFamily,
  loaded: 2,
  carrying: 5,
  circuits: 2,
  ambientC: 36,
  multiOutlet: false,
  motor: false,
  ...over,
})
const never = (values: readonly number[]): readonly number[] =>
  values.filter((value, i) => i > 0 && value < (values[i - 1] as number))
const AMBIENTS = [-40, -5, 10, 10.5, 25, 30, 31, 35, 40, 46, 55, 61, 80, 120]

describe.each(variants)('%s', (_name, rules) => {
  test('every table names its source, and rows are as wide as its columns', () => {
    const tables = Object.values(rules.tables)
    expect(tables.length).toBeGreaterThan(20)
    for (const table of tables) {
      expect(table.source, table.id).not.toBe('')
      expect(table.provenance, table.id).not.toBe('')
      for (const row of table.rows) expect(row, table.id).toHaveLength(table.columns.length)
    }
  })

  test('standard ratings ascend', () => {
    for (const row of rules.tables['standard-ratings']!.rows) expect(never(row[1] as number[]), String(row[0])).toEqual([])
  })

  test('sizes ascend in area and each has a capacity, an impedance, a k, and a place in a raceway', () => {
    expect(never(rules.sizes.map((s) => s.areaMm2))).toEqual([])
    for (const { name: size } of rules.sizes) {
      const z = rules.impedanceOhmPerM({ size, metal: 'cu', where: rules.defaults.raceway, temperatureC: 50 }).value
      expect(z.r).toBeGreaterThan(0)
      expect(z.x).toBeGreaterThan(0)
      expect(rules.ampacityA(size, circuit(rules)).value).toBeGreaterThan(0)
      expect(
        rules.racewayFor([{ size, insulation: rules.defaults.insulation }], rules.defaults.raceway).steps.length,
      ).toBeGreaterThan(0)
      expect(rules.protectiveFor({ deviceA: 20, line: size, grownFrom: size, metal: 'cu' }).value).not.toBe('')
      expect(rules.electrodeConductorFor({ line: size, metal: 'cu', electrode: 'rods' }).value).not.toBe('')
    }
  })

  test('a heavier conductor never carries less, and never resists more', () => {
    for (const ambientC of AMBIENTS) {
      expect(never(rules.sizes.map((s) => rules.ampacityA(s.name, circuit(rules, { ambientC })).value))).toEqual([])
    }
    expect(
      never(
        rules.sizes.map(
          (s) => -rules.impedanceOhmPerM({ size: s.name, metal: 'cu', where: rules.defaults.raceway, temperatureC: 20 }).value.r,
        ),
      ),
    ).toEqual([])
  })

  test('a heavier cord never carries less, nor resists more', () => {
    const type = rules.defaults.cordType
    for (const loaded of [2, 3] as const) {
      expect(never(rules.cordSizes().map((size) => rules.cordAmpacityA({ size, type, loaded, ambientC: 36 }).value))).toEqual([])
    }
    expect(
      never(
        rules.cordSizes().map((size) => -rules.impedanceOhmPerM({ size, metal: 'cu', where: 'cord', temperatureC: 40 }).value.r),
      ),
    ).toEqual([])
  })

  test('a hotter place never lets a conductor or a cord carry more', () => {
    for (const { name } of rules.sizes) {
      expect(never(AMBIENTS.map((ambientC) => -rules.ampacityA(name, circuit(rules, { ambientC })).value))).toEqual([])
    }
    for (const size of rules.cordSizes()) {
      const type = rules.defaults.cordType
      expect(never(AMBIENTS.map((ambientC) => -rules.cordAmpacityA({ size, type, loaded: 3, ambientC }).value))).toEqual([])
    }
  })

  test('more conductors or circuits together never carry more, and past the table nothing is carried by accident', () => {
    for (let n = 1; n < 60; n++) {
      const one = rules.ampacityA(rules.sizes[4]!.name, circuit(rules, { carrying: n, circuits: n })).value
      const more = rules.ampacityA(rules.sizes[4]!.name, circuit(rules, { carrying: n + 1, circuits: n + 1 })).value
      expect(more).toBeLessThanOrEqual(one)
    }
  })

  test('no ambient beyond the tables is answered with a current', () => {
    expect(rules.ampacityA(rules.sizes[0]!.name, circuit(rules, { ambientC: 120 })).value).toBe(0)
    expect(rules.conductorFor(circuit(rules, { ambientC: 120 })).value).toBeNull()
  })

  test('the conductor chosen passes every check, and the next smaller does not', () => {
    const sizes = rules.sizes.map((s) => s.name)
    let chosen = 0
    for (const deviceA of [15, 16, 20, 32, 50, 63, 100, 125]) {
      for (const ambientC of [-20, 20, 36, 48]) {
        for (const carrying of [2, 3, 6, 12]) {
          const task = circuit(rules, {
            deviceA,
            continuousA: deviceA * 0.7,
            otherA: 1,
            ambientC,
            carrying,
            circuits: Math.ceil(carrying / 3),
            multiOutlet: carrying === 2,
          })
          const size = rules.conductorFor(task).value
          if (size === null) continue
          chosen += 1
          expect(rules.conductorChecks!(size, task).every((c) => c.holds)).toBe(true)
          expect(rules.ampacityA(size, task).value * (1 + 1e-9)).toBeGreaterThanOrEqual(task.continuousA + task.otherA)
          const smaller = sizes[sizes.indexOf(size) - 1]
          if (smaller !== undefined) expect(rules.conductorChecks!(smaller, task).every((c) => c.holds)).toBe(false)
        }
      }
    }
    expect(chosen).toBeGreaterThan(60)
  })

  test('a check that holds has its demand at or below its limit, one that fails above', () => {
    for (const { name } of rules.sizes) {
      for (const c of rules.conductorChecks!(name, circuit(rules, { deviceA: 60, continuousA: 41, otherA: 5 }))) {
        if (c.holds) expect(c.demandA).toBeLessThanOrEqual(c.limitA * (1 + 1e-9))
        else expect(c.demandA).toBeGreaterThan(c.limitA)
        expect(c.steps.length).toBeGreaterThan(0)
      }
    }
  })

  test('a device is at or above what is asked, stands in the list, and holds what it may', () => {
    for (const load of [
      { continuousA: 12.5, otherA: 0 },
      { continuousA: 0, otherA: 37 },
      { continuousA: 61, otherA: 9 },
    ]) {
      const need = rules.deviceNeedA(load).value
      const device = rules.nextDeviceA(need).value!
      expect(device).toBeGreaterThanOrEqual(need)
      expect(rules.deviceHoldsA(device).value).toBeLessThanOrEqual(device)
      if (load.otherA === 0) expect(rules.deviceHoldsA(device).value * (1 + 1e-9)).toBeGreaterThanOrEqual(load.continuousA)
    }
    expect(rules.nextDeviceA(1e6).value).toBeNull()
  })

  test('every band rises in current and falls in time, fast edge never slower than slow edge', () => {
    for (const row of rules.tables['trip-magnetic']!.rows) {
      const deviceA = Math.min(row[2] as number, Math.max((row[1] as number) + 1, 16))
      const band = rules.tripBand(String(row[0]), deviceA)
      for (const edge of [band.thermalSlow, band.thermalFast]) {
        expect(edge.length).toBeGreaterThan(1)
        expect(never(edge.map(([ratio]) => ratio))).toEqual([])
        expect(never(edge.map(([, s]) => -s))).toEqual([])
      }
      expect(band.magneticFromRatio).toBeLessThan(band.magneticSureRatio)
      expect(band.holdsRatio).toBeLessThan(band.thermalSlow[0]![0])
      expect(band.thermalSlow.at(-1)![1]).toBeGreaterThanOrEqual(band.magneticS)
    }
  })

  test('every outlet has shock protection decided, and doubt about temporary never asks for less', () => {
    const system = rules.systems[0]!
    for (const outlet of rules.outlets) {
      for (const use of ['vehicle-heater', 'heat-trace', 'tools', 'building', 'charger', 'pump', 'general'] as const) {
        const ask = (temporary: boolean | null) =>
          rules.shockFor({ outlet, system, use, kind: 'heater', temporary, outdoors: true, hardWired: false }).value
        const order = { none: 0, 'equipment 30 mA': 1, rcd: 2, 'class A': 2 } as const
        expect(order[ask(null).kind]).toBeGreaterThanOrEqual(Math.max(order[ask(true).kind], order[ask(false).kind]))
      }
    }
  })

  test('every value comes with lines that cite a place', () => {
    const system = rules.systems[0]!
    const answers = [
      rules.isContinuous(2, 20),
      rules.deviceNeedA({ continuousA: 10, otherA: 1 }),
      rules.nextDeviceA(13),
      rules.deviceHoldsA(20),
      rules.motorDeviceA({ hp: 3, currentA: 17, voltageV: 230, phases: 1 }),
      rules.motorFeederA([10, 20]),
      rules.motorFeederDeviceA({ largestDeviceA: 50, othersA: [10] }),
      rules.ampacityA(rules.sizes[3]!.name, circuit(rules)),
      rules.conductorFor(circuit(rules)),
      rules.cordAmpacityA({ size: rules.cordSizes()[3]!, type: rules.defaults.cordType, loaded: 2, ambientC: 33 }),
      rules.cordColdC(rules.defaults.cordType),
      rules.cordColdC('nobody knows'),
      rules.impedanceOhmPerM({ size: rules.sizes[0]!.name, metal: 'cu', where: 'cord', temperatureC: 10 }),
      rules.protectiveFor({ deviceA: 20, line: rules.sizes[5]!.name, grownFrom: rules.sizes[2]!.name, metal: 'cu' }),
      rules.electrodeConductorFor({ line: rules.sizes[9]!.name, metal: 'cu', electrode: 'ring' }),
      rules.neutralA({ unbalanceA: 260, nonLinearFrac: 0.1, system, lineA: 300 }),
      rules.neutralCounts({ connection: 'LLN', system, nonLinearFrac: 0 }),
      rules.adiabaticK({ metal: 'cu', insulation: rules.defaults.insulation }),
      rules.adiabaticK({ metal: 'cu', insulation: rules.defaults.cordType }),
      rules.racewayFor([{ size: rules.sizes[1]!.name, insulation: rules.defaults.insulation }], rules.defaults.raceway),
      rules.shockFor({
        outlet: rules.outlets[0]!,
        system,
        use: 'tools',
        kind: 'motor',
        temporary: null,
        outdoors: true,
        hardWired: false,
      }),
      rules.voltageFactor(),
      rules.motorContributionRatio(),
      rules.demandA({ continuousA: 50, otherA: 10, largestMotorA: 12, generalVA: 15000, lineV: 240 }),
      rules.transformerDevice({ primaryA: 30, secondaryProtected: true, dry: true, secondaryA: 75 }),
      rules.transformerDevice({ primaryA: 5, secondaryProtected: false, dry: false }),
      rules.loopLimitOhm({ family: rules.defaults.deviceFamily, deviceA: 20, toEarthV: 120 }),
      rules.earthingOf('TN-C-S', false),
      rules.transferNeed(),
      rules.setBond('neutral solid'),
      rules.setBond('neutral switched'),
      rules.setBond('none'),
      rules.electrodes(),
      rules.build.workingSpace({ voltsToEarthV: 120, condition: 2, equipmentWidthM: 0.4, equipmentTopM: 1.9 }),
    ]
    for (const answer of answers) {
      expect(answer.steps.length).toBeGreaterThan(0)
      for (const line of answer.steps) {
        expect(line.rests.place).not.toBe('')
        expect(line.rests.provenance).not.toBe('')
        expect(typeof line.result === 'number' ? Number.isFinite(line.result) : line.result).not.toBe(false)
      }
    }
  })

  test('working space deepens with volts and with what stands opposite, and is never less than the equipment', () => {
    const VOLTS = [50, 120, 150, 230, 277, 347, 600]
    const ask = (voltsToEarthV: number, condition: 1 | 2 | 3, equipmentWidthM = 0.5, equipmentTopM = 1.8) =>
      rules.build.workingSpace({ voltsToEarthV, condition, equipmentWidthM, equipmentTopM }).value
    for (const condition of [1, 2, 3] as const) expect(never(VOLTS.map((v) => ask(v, condition).depthM))).toEqual([])
    for (const v of VOLTS) expect(never(([1, 2, 3] as const).map((c) => ask(v, c).depthM))).toEqual([])
    for (const v of VOLTS) expect(ask(v, 2).depthM).toBeGreaterThan(0.5)
    expect(ask(120, 2, 1.4, 2.6)).toMatchObject({ widthM: 1.4, heightM: 2.6 })
    expect(ask(120, 2).widthM).toBeGreaterThan(0.5)
    expect(ask(120, 2).heightM).toBeGreaterThanOrEqual(1.98)
    for (const v of [2000, Number.NaN, -1]) expect(() => ask(v, 2)).toThrow('rules/working-space')
  })

  test('every raceway that the set can size has its supports and its bend, and a larger one never bends tighter', () => {
    const [conduit] = ['us-conduit', 'intl-conduit'].flatMap((id) => rules.tables[id] ?? [])
    const trades = conduit!.rows.map((row) =>
      conduit!.columns.includes('kind')
        ? { kind: String(row[0]), trade: String(row[1]) }
        : { kind: rules.defaults.raceway, trade: String(row[0]) },
    )
    expect(trades.length).toBeGreaterThan(5)
    for (const of of trades) {
      const { everyM, fromBoxM } = rules.build.racewaySupport(of).value
      expect(fromBoxM, JSON.stringify(of)).toBeGreaterThan(0.2)
      expect(everyM, JSON.stringify(of)).toBeGreaterThanOrEqual(Math.min(fromBoxM, 0.75))
      expect(everyM, JSON.stringify(of)).toBeLessThanOrEqual(3.1)
    }
    for (const kind of new Set(trades.map((one) => one.kind))) {
      const radii = trades.filter((one) => one.kind === kind).map((of) => rules.build.bendRadiusM(of).value)
      expect(never(radii), kind).toEqual([])
      expect(radii[0], kind).toBeGreaterThan(0.04)
    }
    expect(() => rules.build.racewaySupport({ kind: 'rope', trade: '1/2' })).toThrow('rules/raceway')
    expect(() => rules.build.bendRadiusM({ kind: rules.defaults.raceway, trade: '9' })).toThrow('rules/raceway')
  })

  test('a cord that plugs in outside is always allowed, and a hole is never better than a receptacle', () => {
    const order = { yes: 2, 'with written acceptance': 1, no: 0 } as const
    const ways = EXIT_WAYS.map((way) => rules.build.cordThroughWall(way).value)
    expect(ways[0]!.allowed).toBe('yes')
    expect(never(ways.map((one) => -order[one.allowed]))).toEqual([])
    for (const one of ways) expect(one.said).not.toBe('')
  })

  test('light, handles, gaps, ways out, securing and the road are all cited and in range', () => {
    const b = rules.build
    for (const one of [
      b.handleAtMostM,
      b.airGapM,
      b.bendsBetweenPullsDeg,
      b.panelLux,
      b.sensorAloneAllowed,
      b.egress,
      b.securing,
      b.routeHeightM,
      b.axleGroupKg,
    ])
      expect(one.rests.place).not.toBe('')
    expect(b.sensorAloneAllowed.value).toBe(false)
    expect(b.handleAtMostM.value).toBeLessThanOrEqual(2.05)
    expect(b.airGapM.value).toBeGreaterThan(0.005)
    expect(b.panelLux.value).toBeGreaterThanOrEqual(200)
    expect(b.egress.value.doorWidthM).toBeGreaterThan(0.6)
    expect(b.egress.value.doorHeightM).toBeGreaterThan(1.95)
    expect(b.securing.value.forwardG).toBeGreaterThan(b.securing.value.sideG)
    expect(b.securing.value.sideTipG).toBeGreaterThanOrEqual(b.securing.value.sideG)
    expect(b.axleGroupKg.value.tandem).toBeGreaterThan(b.axleGroupKg.value.single)
    expect(b.axleGroupKg.value.tandem).toBeLessThan(2 * b.axleGroupKg.value.single)
    expect(b.routeHeightM.value).toBeGreaterThan(3.9)
    expect(b.routeHeightM.value).toBeLessThan(4.5)
  })

  test('the same question is answered alike, whoever asked before', () => {
    const twin = rules.overlays.map((overlay) => ({ ...overlay, title: `${overlay.title} ` }))
    const fresh = twin.length === 0 ? rules : rulesFor(rules.id, { overlays: twin })
    expect(rulesFor(rules.id, { overlays: rules.overlays })).toBe(rules)
    const task = circuit(rules, { deviceA: 40, continuousA: 29 })
    rules.conductorFor(circuit(rules))
    expect(rules.conductorFor(task).value).toEqual(fresh.conductorFor(task).value)
    expect(rules.conductorFor(task)).toEqual(rules.conductorFor({ ...task }))
  })
})
