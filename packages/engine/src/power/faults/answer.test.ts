import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { rulesFor } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'
import { answerFaults } from './index.ts'
import type { BusFault } from './result.ts'
import { between, circuit, plug, set, told, utility, type YardTask, yard } from './yard.fixture.ts'

const find = (inputs: Inputs, code: string, subject?: string) =>
  answerFaults(inputs).findings.filter((f) => f.code === code && (subject === undefined || f.subject === subject))
const one = (inputs: Inputs, code: string, subject?: string) => {
  const all = find(inputs, code, subject)
  expect(all.length, `${code} ${subject ?? ''}`).toBeGreaterThan(0)
  return all[0]!
}
const buses = (inputs: Inputs): readonly BusFault[] =>
  answerFaults(inputs).result.boxes.flatMap((b) => b.sources.flatMap((s) => s.buses))
const panelOf = (ratingKA: number): YardTask['box'] => ({
  panel: {
    ...yard().design.boxes[0]!.panel,
    interruptingKA: ratingKA,
    main: { ...yard().design.boxes[0]!.panel.main, interruptingKA: ratingKA },
  },
})
const wye = (id: 'us' | 'ca' | 'intl', lineLineV: number) =>
  rulesFor(id).systems.find((s) => s.kind === 'wye' && s.lineLineV === lineLineV)!.id

test('75 kVA at 1.8 % stands above a 10 kA panel, and the next step is offered and holds', () => {
  const low = yard({ box: { ...panelOf(10)! } })
  const finding = one(low, 'faults/bus-withstand')
  expect(finding).toMatchObject({ verdict: 'fails', basis: 'code', confirm: true })
  expect(finding.mends[0]).toMatchObject({ path: 'panel.interruptingKA', value: 22 })
  expect(one(yard({ box: panelOf(22)! }), 'faults/bus-withstand').verdict).toBe('holds')
})

test('a fault level that was told wins over the transformer: 7 kA in writing holds at 10 kA', () => {
  const told7 = yard({ offers: [utility({ faultA: { value: 7000, by: 'the utility' } })], box: panelOf(10)! })
  expect(one(told7, 'faults/bus-withstand').verdict).toBe('holds')
  expect(answerFaults(told7).result.boxes[0]!.sources[0]!.told).toBe(true)
})

test('without transformer data the verdict is unknown where the ends disagree, and says who can tell', () => {
  const { transformer: _none, ...rest } = utility()
  const finding = one(yard({ offers: [rest], box: panelOf(10)! }), 'faults/bus-withstand')
  expect(finding.verdict).toBe('unknown')
  expect(finding.said).toContain('the utility can tell in writing')
  expect(finding.assumed).toContain('facts.supply.line.transformer')
})

test('an impedance told only as a range is judged at both ends', () => {
  const range = utility({ transformer: { kVA: 75, impedancePct: between(1.5, 9), xOverR: told(1.5), phases: 1 } })
  expect(one(yard({ offers: [range], box: panelOf(10)! }), 'faults/bus-withstand').verdict).toBe('unknown')
})

test('a long thin cord: no sure magnetic trip, the time is said, and a heavier cord that mends it is named and mends it', () => {
  const thin = (size: string) => yard({ circuits: [circuit({ id: 'C1', plug: 'H1', cordM: 30, cordSize: size })] })
  const finding = one(thin('14 AWG'), 'faults/clearing', 'C1')
  expect(finding.verdict).toBe('tight')
  expect(finding.said).toMatch(/thermal part within/)
  const mend = finding.mends.find((m) => m.path === 'cords.H1.size')!
  expect(one(thin(String(mend.value)), 'faults/clearing', 'C1').said).toMatch(/at once by its magnetic part/)
})

test('line–neutral current at the end of a cord: by hand from table resistances', () => {
  // 0.95·120 V over source + feed + run + cord, out and back, all at 75 °C; reactances from the tables.
  const kft = 304.8
  const source = { r: 0.002876, x: 0.003451 }
  const r = source.r + (2 * (15 * 0.077 + 5 * 1.98 + 20 * 1.98)) / kft
  const x = source.x + (2 * (15 * 0.042 + 5 * 0.068 + 20 * 0.03)) / kft
  const end = buses(yard()).find((b) => b.id === 'H1')!
  expect(end.lowest!.lineNeutralA!).toBeCloseTo((0.95 * 120) / Math.hypot(r, x), 0)
})

test('intl: a circuit without residual device whose loop is too long fails by code; a residual device mends it', () => {
  const wire = { size: '2.5 mm2', metal: 'cu' as const, insulation: 'PVC' }
  const make = (shock: 'none' | 'rcd', earthing: 'TN-S' | 'TT' = 'TN-S') =>
    yard({
      set: 'intl',
      system: wye('intl', 400),
      offers: [
        utility({ system: wye('intl', 400), transformer: { kVA: 200, impedancePct: told(4.5), xOverR: told(2.5), phases: 3 } }),
      ],
      circuits: [
        circuit({
          id: 'C1',
          plug: 'H1',
          more: {
            device: { ratingA: 16, poles: 2, family: 'IEC 60898 C', interruptingKA: 10 },
            shock:
              shock === 'none'
                ? { kind: 'none', sensitivityMA: null, form: null }
                : { kind: 'rcd', sensitivityMA: 30, form: 'A' },
            run: { lengthM: 5, line: wire, neutral: wire, protective: wire, raceway: { kind: 'conduit', trade: '20' }, sets: 1 },
            cords: [{ plug: 'H1', type: 'H07RN-F', size: '2.5 mm2', lengthM: 80, jacketMinC: -25 }],
          },
        }),
      ],
      box: intlBox(earthing),
      site: { soilOhmM: told(100), frostDepthM: told(0) },
    })
  const bare = one(make('none'), 'faults/clearing', 'C1')
  expect(bare).toMatchObject({ verdict: 'fails', basis: 'code' })
  expect(bare.mends.some((m) => m.value === 'rcd')).toBe(true)
  expect(one(make('rcd'), 'faults/clearing', 'C1').said).toMatch(/the residual device opens in 40.ms/)
  // TT: nothing of metal brings it home.
  expect(one(make('none', 'TT'), 'faults/clearing', 'C1')).toMatchObject({ verdict: 'fails', basis: 'code' })
  expect(one(make('rcd', 'TT'), 'faults/tt-touch')).toMatchObject({ verdict: 'holds', basis: 'code' })
})

function intlBox(earthing: 'TN-S' | 'TT'): NonNullable<YardTask['box']> {
  const feed = { size: '35 mm2', metal: 'cu' as const, insulation: 'PVC' }
  return {
    earthing,
    panel: {
      busA: 125,
      ways: 36,
      main: { ratingA: 100, poles: 4, family: 'IEC 60947-2', interruptingKA: 16 },
      interruptingKA: 16,
      feed: {
        lengthM: 15,
        line: feed,
        neutral: feed,
        protective: { ...feed, size: '16 mm2' },
        raceway: { kind: 'conduit', trade: '50' },
        sets: 1,
      },
      bond: 'neutral not bonded here',
    },
  }
}

test('TT in rock: 3000 Ω·m keeps 30 mA below 50 V, 1 A would not; frozen ground is a finding, no breach, in us', () => {
  const ground = one(yard(), 'faults/electrode')
  expect(ground).toMatchObject({ verdict: 'tight', basis: 'physics' })
  expect(ground.said).toContain('clears no fault')
  expect(ground.said).toContain('frozen')
  expect(one(yard({ box: { electrode: { ...yard().design.boxes[0]!.electrode, count: 1 } } }), 'faults/electrode').verdict).toBe(
    'fails',
  )
})

test('a set whose excitation nobody knows: unknown, who can tell, and the circuits that open at once anyway', () => {
  const camp = (boost: boolean | null) => {
    const system = wye('ca', 208)
    return yard({
      set: 'ca',
      system,
      offers: [set({ ratedKW: 100, ratedKVA: 125, subtransientPct: told(12), boostExcitation: boost }, { system })],
      circuits: [circuit({ id: 'C1', plug: 'H1', cordM: 30, cordSize: '14 AWG' })],
    })
  }
  const unknown = one(camp(null), 'faults/set-current')
  expect(unknown.verdict).toBe('unknown')
  expect(unknown.said).toMatch(/2891.A/)
  expect(unknown.said).toContain('the maker or hirer')
  expect(one(camp(true), 'faults/set-current').verdict).toBe('holds')
  expect(one(camp(false), 'faults/set-current').verdict).toBe('tight')
  const { decrement } = answerFaults(camp(null)).result.boxes[0]!.sources[0]!
  expect(decrement!.belowRatedS!).toBeGreaterThan(0.05)
  expect(decrement!.belowRatedS!).toBeLessThan(0.2)
})

test('a box already built: 10 kA gear at 14.87 kA bound fails, its old electrode reading proves nothing, cold devices are named', () => {
  const system = wye('ca', 208)
  const built = {
    rulesWhenBuilt: 'us' as const,
    system,
    serviceA: 200,
    interruptingKA: 10,
    ways: 30,
    circuits: [],
    cords: [],
    outletDeviceMinC: -35,
    electrodeOhm: 18,
    neutralBond: 'in the main panel',
    approval: 'field label',
    lastFullTestMonthsAgo: 14,
    defects: ['one outlet trips on its test button only at the second push'],
  }
  const moved = yard({
    set: 'ca',
    system,
    offers: [utility({ system, transformer: { kVA: 112.5, impedancePct: told(2.1), xOverR: told(1.7), phases: 3 } })],
    box: panelOf(10)!,
    job: { built },
    site: { designMinC: -40, extremeMinC: -46, frozenSoilOhmM: told(6000) },
  })
  expect(one(moved, 'faults/built-interrupting')).toMatchObject({ verdict: 'fails', basis: 'code' })
  expect(one(moved, 'faults/old-electrode').said).toContain('prove nothing')
  expect(one(moved, 'faults/residual-cold').verdict).toBe('tight')
  expect(one(moved, 'faults/open-defects').verdict).toBe('unknown')
})

test('drives and chargers need residual devices that see what they leak', () => {
  const make = (kind: 'drive' | 'charger', phases: 1 | 3, form: 'AC' | 'A' | 'F' | 'B') =>
    one(
      yard({
        plugs: [plug('H1', { kind, phases })],
        circuits: [circuit({ id: 'C1', plug: 'H1', more: { shock: { kind: 'rcd', sensitivityMA: 30, form } } })],
      }),
      'faults/residual-form',
    ).verdict
  expect(make('drive', 3, 'A')).toBe('fails')
  expect(make('drive', 3, 'F')).toBe('fails')
  expect(make('drive', 3, 'B')).toBe('holds')
  expect(make('drive', 1, 'F')).toBe('holds')
  expect(make('charger', 1, 'A')).toBe('unknown')
  expect(make('charger', 1, 'AC')).toBe('fails')
})

test('arc flash is a caution: no number at 120/240 V, a bound and no category on three phases', () => {
  expect(answerFaults(yard()).result.boxes[0]!.arcFlash.leeJPerCm2).toBeNull()
  const system = wye('us', 208)
  const three = answerFaults(
    yard({
      system,
      offers: [utility({ system, transformer: { kVA: 300, impedancePct: told(2.2), xOverR: told(2.7), phases: 3 } })],
    }),
  )
  expect(three.result.boxes[0]!.arcFlash.leeJPerCm2).toBeGreaterThan(0)
  expect(three.result.boxes[0]!.arcFlash.said).toContain('not a category')
})

test('nothing ever reads as a permission, every decision is left to a role, and every figure has its derivation', () => {
  const answer = answerFaults(yard({ offers: [utility(), set()], interim: 'set' }))
  const ids = new Set(answer.workings.map((w) => w.id))
  expect(ids.size).toBe(answer.workings.length)
  for (const f of answer.findings) {
    expect(f.said).not.toMatch(/\b(safe|OK|approved|may be (energi[sz]ed|switched on))\b/i)
    expect(f.decides, f.code).toBeTruthy()
    expect(f.said.endsWith('.')).toBe(true)
    for (const id of f.workings) expect(ids.has(id), id).toBe(true)
    if (f.provenance === 'memory') expect(f.confirm, f.code).toBe(true)
  }
  for (const w of answer.workings) {
    expect(w.steps.length, w.id).toBeGreaterThan(0)
    for (const s of w.steps) expect(s.rests.place, `${w.id} ${s.symbol}`).not.toBe('')
  }
})

test('charts stay on the paper and rise and fall as bands do', () => {
  const { charts } = answerFaults(yard({ offers: [utility(), set()], interim: 'set' })).result.boxes[0]!
  expect(charts.length).toBe(2)
  for (const chart of charts) {
    expect(chart.curves.some((c) => c.what === 'cable damage')).toBe(true)
    for (const curve of chart.curves) {
      expect(curve.points.length).toBeGreaterThan(1)
      for (const [a, t] of curve.points) expect(a > 0 && t >= 0.01 && Number.isFinite(t), curve.id).toBe(true)
    }
    const slow = chart.curves.find((c) => c.what === 'device slow')!
    for (let i = 1; i < slow.points.length; i++) expect(slow.points[i]![1]).toBeLessThanOrEqual(slow.points[i - 1]![1])
  }
})

const SIZES = ['14 AWG', '12 AWG', '10 AWG', '8 AWG'] as const
const anyCircuit = fc.record({
  cordSize: fc.constantFrom(...SIZES),
  cordM: fc.integer({ min: 2, max: 60 }),
  runM: fc.integer({ min: 1, max: 12 }),
  motor: fc.boolean(),
})
const inputsOf = (
  rows: readonly { readonly cordSize: string; readonly cordM: number; readonly runM: number; readonly motor: boolean }[],
  turned = false,
) => {
  const order = rows.map((row, i) => ({ row, i }))
  if (turned) order.reverse()
  return yard({
    offers: [utility(), set()],
    interim: 'set',
    plugs: order.map(({ row, i }) => plug(`H${i}`, row.motor ? { kind: 'motor' } : {})),
    circuits: order.map(({ row, i }) =>
      circuit({ id: `C${i}`, plug: `H${i}`, cordSize: row.cordSize, cordM: row.cordM, runM: row.runM }),
    ),
  })
}
const run = { numRuns: 25, seed: 20261125 }

test('property: highest is never below lowest, anywhere, on any source', () => {
  fc.assert(
    fc.property(fc.array(anyCircuit, { minLength: 1, maxLength: 4 }), (rows) => {
      for (const bus of buses(inputsOf(rows))) {
        if (bus.highest === null || bus.lowest === null) continue
        expect(bus.highest.currentA).toBeGreaterThanOrEqual(bus.lowest.leastA)
        expect(bus.highest.peakA).toBeGreaterThanOrEqual(bus.highest.currentA * Math.SQRT2)
      }
    }),
    run,
  )
})

test('property: a heavier cord never lowers any fault level', () => {
  fc.assert(
    fc.property(fc.array(anyCircuit, { minLength: 1, maxLength: 3 }), (rows) => {
      const heavier = rows.map((row, i) =>
        i === 0 ? { ...row, cordSize: SIZES[Math.min(SIZES.indexOf(row.cordSize) + 1, 3)]! } : row,
      )
      const before = buses(inputsOf(rows))
      const after = buses(inputsOf(heavier))
      before.forEach((bus, i) => {
        expect(after[i]!.highest!.currentA).toBeGreaterThanOrEqual(bus.highest!.currentA * (1 - 1e-12))
        expect(after[i]!.lowest!.leastA).toBeGreaterThanOrEqual(bus.lowest!.leastA * (1 - 1e-12))
      })
    }),
    run,
  )
})

test('property: adding a motor never lowers any highest fault', () => {
  fc.assert(
    fc.property(fc.array(anyCircuit, { minLength: 1, maxLength: 3 }), (rows) => {
      const still = rows.map((row) => ({ ...row, motor: false }))
      const before = buses(inputsOf(still))
      const after = buses(inputsOf(still.map((row, i) => ({ ...row, motor: i === 0 }))))
      for (const [i, bus] of before.entries()) expect(after[i]!.highest!.currentA).toBeGreaterThan(bus.highest!.currentA)
    }),
    run,
  )
})

test('property: the order of rows changes no fault and no verdict', () => {
  fc.assert(
    fc.property(fc.array(anyCircuit, { minLength: 2, maxLength: 4 }), (rows) => {
      const byId = (inputs: Inputs) =>
        new Map(
          buses(inputs).map((b, i) => [
            `${b.id} ${i < 0 ? i : b.kind} ${b.lowest?.at}`,
            [b.highest?.currentA, b.lowest?.leastA] as const,
          ]),
        )
      const a = byId(inputsOf(rows))
      const b = byId(inputsOf(rows, true))
      expect([...b.keys()].sort()).toEqual([...a.keys()].sort())
      for (const [id, [high, low]] of a) {
        expect(b.get(id)![0]).toBeCloseTo(high!, 6)
        expect(b.get(id)![1]).toBeCloseTo(low!, 6)
      }
      const verdicts = (inputs: Inputs) =>
        answerFaults(inputs)
          .findings.filter((f) => f.code !== 'faults/touch-voltage')
          .map((f) => `${f.code} ${f.subject} ${f.verdict}`)
          .sort()
      expect(verdicts(inputsOf(rows, true))).toEqual(verdicts(inputsOf(rows)))
    }),
    run,
  )
})

test('the same question gives the same answer, to the byte', () => {
  const inputs = yard({ offers: [utility(), set()], interim: 'set' })
  expect(JSON.stringify(answerFaults(inputs))).toBe(JSON.stringify(answerFaults(inputs)))
})

const findingsPage = join(import.meta.dirname, '../../../../../docs/faults.md')
test.skipIf(!existsSync(findingsPage))('every finding code of this question stands on its page', () => {
  const page = readFileSync(findingsPage, 'utf8')
  for (const code of [
    'interrupting',
    'bus-withstand',
    'clearing',
    'conductor-heat',
    'coordination',
    'set-current',
    'electrode',
    'tt-touch',
    'touch-voltage',
    'old-electrode',
    'residual-form',
    'residual-cold',
    'built-interrupting',
    'open-defects',
    'no-source',
  ]) {
    expect(page, code).toContain(`faults/${code}`)
  }
})

test('a box fed from another: the feeder device sees its panel fault, and opens within the time of a distribution circuit', () => {
  const own = yard()
  const first = own.design.boxes[0]!
  const wire = { size: '2 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
  const second = {
    ...first,
    box: 'Q',
    circuits: first.circuits.map((c) => ({ ...c, id: `Q-${c.id}` })),
    fedFrom: {
      box: 'P',
      run: { ...first.panel.feed, lengthM: 40, line: wire, neutral: wire, protective: { ...wire, size: '8 AWG' } },
      device: { ratingA: 100, poles: 2 as const, family: 'us thermal-magnetic', interruptingKA: 10 },
    },
    panel: { ...first.panel, bond: 'neutral not bonded here' as const },
  }
  const both: Inputs = { ...own, design: { ...own.design, boxes: [first, second] } }
  const answer = answerFaults(both)
  const [p, q] = answer.result.boxes
  const highestOf = (b: typeof p) => b!.sources[0]!.buses.find((bus) => bus.id === 'panel')!.highest!.currentA
  expect(highestOf(q)).toBeLessThan(highestOf(p))
  const feeder = answer.findings.find((f) => f.code === 'faults/clearing' && f.subject === 'Q feeder')!
  expect(feeder.said).toContain('device of its feeder')
  // It stands in the first box, so it must break that box's fault: 12.9 kA against 10 kA.
  expect(answer.findings.find((f) => f.code === 'faults/interrupting' && f.subject === 'Q feeder')!.verdict).toBe('fails')
  expect(new Set(answer.workings.map((w) => w.id)).size).toBe(answer.workings.length)
})
