import { expect, test } from 'vitest'
import type { Circuit, Job } from '../../job/index.ts'
import type { Finding } from '../../kernel/index.ts'
import { answerCircuits } from './answer.ts'
import { designCircuits } from './design.ts'
import { boxOf, designOf, GROOMER_PLUGS, jobOf, plugOf, told, type YardChanges, yardOf } from './yards.fixture.ts'

const answerOf = (yard: ReturnType<typeof yardOf>) => answerCircuits(yard.inputs)
const codes = (findings: readonly Finding[], verdict: Finding['verdict']) => [
  ...new Set(findings.filter((f) => f.verdict === verdict).map((f) => f.code)),
]
const circuitOf = (yard: ReturnType<typeof yardOf>, id: string): Circuit => {
  const found = yard.box.circuits.find((c) => c.id === id)
  if (found === undefined) throw new Error(`no circuit ${id} among ${yard.box.circuits.map((c) => c.id).join(' ')}`)
  return found
}
/** The same yard with one circuit edited by hand. */
const edited = (yard: ReturnType<typeof yardOf>, id: string, change: (c: Circuit) => Circuit) => {
  circuitOf(yard, id)
  const box = { ...yard.box, circuits: yard.box.circuits.map((c) => (c.id === id ? change(c) : c)) }
  return answerCircuits({ ...yard.inputs, design: designOf(box) })
}
const find = (findings: readonly Finding[], code: string, subject?: string) =>
  findings.find((f) => f.code === code && (subject === undefined || f.subject === subject))

test('a groomer yard is designed so that no check of circuits fails', () => {
  const answer = answerOf(yardOf())
  expect(codes(answer.findings, 'fails')).toEqual([])
  expect(codes(answer.findings, 'unknown')).toEqual([])
})

test('the two elements of one groomer, 12.5 + 8.33 A, never share a 20 A way; put there by hand they fail', () => {
  const yard = yardOf()
  for (const c of yard.box.circuits) expect(c.plugs.filter((p) => p === 'G1C' || p === 'G1H').length).toBeLessThan(2)
  const heater = circuitOf(yard, 'C-G1H')
  const box = {
    ...yard.box,
    circuits: yard.box.circuits
      .filter((c) => c.id !== 'C-G1H')
      .map((c) => (c.id === 'C-G1C' ? { ...c, plugs: [...c.plugs, 'G1H'], cords: [...c.cords, ...heater.cords] } : c)),
  }
  const { findings } = answerCircuits({ ...yard.inputs, design: designOf(box) })
  const found = find(findings, 'circuits/element-sharing', 'C-G1C')
  expect(found?.verdict).toBe('fails')
  // 1500 W and 1000 W on 120 V: 12.5 + 8.33 = 20.83 A; 80 % of 20 A is 16 A.
  expect(found?.demand?.value).toBeCloseTo(20.833, 3)
  expect(found?.limit?.value).toBeCloseTo(16, 6)
})

test('every plug hangs on exactly one circuit, and the legs sum to the watts of machines and box', () => {
  for (const changes of YARDS) {
    const yard = yardOf(changes)
    const on = yard.box.circuits.flatMap((c) => c.plugs).sort()
    expect(on).toEqual(yard.job.plugs.map((p) => p.tag).sort())
    const { result } = answerOf(yard)
    const wanted =
      yard.job.plugs.reduce((s, p) => s + p.powerW, 0) + yard.box.circuits.reduce((s, c) => s + (c.ownLoad?.powerW ?? 0), 0)
    expect(result.boxes[0]!.legs.reduce((s, l) => s + l.powerW, 0)).toBeCloseTo(wanted, 6)
  }
})

const YARDS: readonly YardChanges[] = [
  {},
  { set: 'ca' },
  {
    set: 'ca',
    system: 'wye 208/120',
    plugs: [
      ...GROOMER_PLUGS.filter((p) => p.voltageV === 120),
      plugOf({
        tag: 'KT1',
        powerW: 12000,
        voltageV: 208,
        phases: 3,
        outlet: '60 A four-pole pin and sleeve',
        kind: 'mixed',
        use: 'general',
        hoursPerDay: 10,
      }),
    ],
  },
  {
    set: 'intl',
    system: 'TN/TT 400/230',
    offer: { earthing: 'TN-S' },
    plugs: [
      plugOf({
        tag: 'BL1',
        powerW: 24200,
        voltageV: 400,
        phases: 3,
        pf: 0.96,
        kind: 'drive',
        use: 'general',
        outlet: '63 A 5-pin',
        hoursPerDay: 12,
      }),
      plugOf({
        tag: 'SP1',
        powerW: 12400,
        voltageV: 400,
        phases: 3,
        pf: 0.85,
        kind: 'motor',
        use: 'pump',
        outlet: '32 A 5-pin',
        hoursPerDay: 20,
        motor: { shaftW: 11000, start: 'direct', startRatio: 6.8 },
      }),
      ...[1, 2, 3].map((i) =>
        plugOf({
          tag: `BC${i}`,
          powerW: 3680,
          voltageV: 230,
          pf: 0.98,
          kind: 'charger',
          use: 'charger',
          outlet: '32 A 3-pin',
          hoursPerDay: 9,
        }),
      ),
      ...[1, 2, 3].map((i) => plugOf({ tag: `ST${i}`, powerW: 1000, voltageV: 230, outlet: '16 A 3-pin', hoursPerDay: 2 })),
    ],
  },
]

test('no set leaves a circuit over its device, or a position of the panel on another leg than counted', () => {
  for (const changes of YARDS) {
    const { findings } = answerOf(yardOf(changes))
    const bad = findings.filter((f) => f.verdict === 'fails' || f.verdict === 'unknown')
    expect(
      bad.map((f) => `${f.code} ${f.said}`),
      changes.set ?? 'us',
    ).toEqual([])
  }
})

test('poles of one device stand one under another, odd left and even right, each on its own leg', () => {
  for (const changes of YARDS) {
    const { box, job } = yardOf(changes)
    const legs = job.system.startsWith('split') ? ['A', 'B'] : ['A', 'B', 'C']
    const seen = new Set<number>()
    for (const c of box.circuits) {
      expect(c.ways.length).toBe(c.legs.length)
      c.ways.forEach((way, i) => {
        expect(seen.has(way)).toBe(false)
        seen.add(way)
        if (i > 0) expect(way).toBe(c.ways[i - 1]! + 2)
      })
      expect(new Set(c.ways.map((way) => legs[(Math.ceil(way / 2) - 1) % legs.length]))).toEqual(new Set(c.legs))
    }
  }
})

const plainFigures = (yard: ReturnType<typeof yardOf>) => {
  const { findings, result } = answerOf(yard)
  const b = result.boxes[0]!
  return {
    findings: findings.map((f) => `${f.code} ${f.verdict}`).sort(),
    balance: b.balance,
    legs: b.legs.map((l) => [l.leg, Math.round(l.allOnA * 1e6), Math.round(l.peakA * 1e6)]),
    circuits: b.circuits.map((c) => [
      c.deviceA,
      c.line,
      c.legs.join(''),
      c.ways.join(),
      Math.round(c.currentA * 1e6),
      c.outlet,
      c.raceway,
    ]),
    cords: b.cords.map((c) => [c.size, c.type, c.lengthM]),
    waysCount: b.panel.waysCount,
  }
}

test('the order of rows changes nothing', () => {
  for (const changes of YARDS) {
    const straight = yardOf(changes)
    const turned = yardOf({ ...changes, plugs: [...straight.job.plugs].reverse() })
    expect(plainFigures(turned)).toEqual(plainFigures(straight))
    expect(turned.box.circuits).toEqual(straight.box.circuits)
  }
})

test('renaming tags changes nothing but names', () => {
  for (const changes of YARDS) {
    const straight = yardOf(changes)
    const plugs = straight.job.plugs.map((p, i) => ({
      ...p,
      tag: `Z${straight.job.plugs.length - i}`,
      machine: `M-${p.machine}`,
    }))
    expect(plainFigures(yardOf({ ...changes, plugs }))).toEqual(plainFigures(straight))
  }
})

test('grown sizes only grow: a heavier line, cord, device and family asked for are kept', () => {
  const yard = yardOf({
    request: {
      grown: { lines: { 'C-G4C': '8 AWG', feed: '500 kcmil' }, cords: { G4C: '8 AWG', TK1: '16 AWG' }, devices: { 'C-FP1': 30 } },
    },
  })
  expect(circuitOf(yard, 'C-G4C').run.line.size).toBe('8 AWG')
  // Grown for drop: the protective conductor grows with it in circular mils: 12 AWG × 16510/6530 asks 8 AWG.
  expect(circuitOf(yard, 'C-G4C').run.protective?.size).toBe('8 AWG')
  expect(circuitOf(yard, 'C-G4C').cords[0]?.size).toBe('8 AWG')
  expect(circuitOf(yard, 'C-TK1').cords[0]?.size).toBe(circuitOf(yardOf(), 'C-TK1').cords[0]?.size)
  expect(circuitOf(yard, 'C-FP1').device.ratingA).toBe(30)
})

test('the same request gives the same design, twice', () => {
  const { request } = yardOf()
  expect(designCircuits(request)).toEqual(designCircuits(request))
})

test('spare ways are left as asked, and counted by position', () => {
  const none = yardOf({ box: { spareWaysFrac: 0 } }).box.panel.ways
  const { box, inputs } = yardOf({ box: { spareWaysFrac: 0.5 } })
  const used = box.circuits.reduce((n, c) => n + c.ways.length, 0)
  expect(box.panel.ways).toBeGreaterThanOrEqual(used * 1.5)
  expect(none).toBeLessThan(box.panel.ways)
  const short = answerCircuits({ ...inputs, design: designOf({ ...box, panel: { ...box.panel, ways: used } }) })
  expect(find(short.findings, 'circuits/spare')?.verdict).toBe('tight')
})

test('the box’s own light is sensor and plain switch, and says so where it hangs', () => {
  const { result } = answerOf(yardOf())
  const light = result.boxes[0]!.labels.find((l) => l.place === 'light switch')
  expect(light?.text).toMatch(/sensor and plain switch/)
  expect(
    yardOf()
      .box.circuits.filter((c) => c.own !== null)
      .map((c) => c.own),
  ).toEqual(['light', 'heater', 'fan', 'control', 'receptacle'])
})

test.each<[string, string, (c: Circuit) => Circuit, string]>([
  [
    'a 15 A device under a 12.5 A heater that runs for hours',
    'C-G1C',
    (c) => ({ ...c, device: { ...c.device, ratingA: 15 } }),
    'circuits/device-need',
  ],
  ['a device of no standard rating', 'C-G1C', (c) => ({ ...c, device: { ...c.device, ratingA: 23 } }), 'circuits/device-rating'],
  [
    '14 AWG behind 20 A',
    'C-G1C',
    (c) => ({ ...c, run: { ...c.run, line: { ...c.run.line, size: '14 AWG' } } }),
    'circuits/small-conductor',
  ],
  ['no protective conductor', 'C-G1C', (c) => ({ ...c, run: { ...c.run, protective: null } }), 'circuits/protective'],
  [
    'a thin protective conductor',
    'C-WR1',
    (c) => ({ ...c, run: { ...c.run, protective: { ...c.run.protective!, size: '14 AWG' } } }),
    'circuits/protective',
  ],
  ['no neutral under a line–neutral load', 'C-G1C', (c) => ({ ...c, run: { ...c.run, neutral: null } }), 'circuits/neutral'],
  [
    '6 AWG in half-inch tubing',
    'C-WR1',
    (c) => ({ ...c, run: { ...c.run, raceway: { kind: 'EMT', trade: '1/2' } } }),
    'circuits/fill',
  ],
  [
    'no shock protection outdoors',
    'C-G1C',
    (c) => ({ ...c, shock: { kind: 'none', sensitivityMA: null, form: null } }),
    'circuits/shock',
  ],
  [
    'a cord of 18 AWG under 12.5 A',
    'C-G1C',
    (c) => ({ ...c, cords: c.cords.map((k) => ({ ...k, size: '18 AWG' })) }),
    'circuits/cord-ampacity',
  ],
  [
    'a jacket marked −20 °C at −31 °C',
    'C-G1C',
    (c) => ({ ...c, cords: c.cords.map((k) => ({ ...k, jacketMinC: -20 })) }),
    'circuits/cord-cold',
  ],
  ['a cord too short', 'C-G1C', (c) => ({ ...c, cords: c.cords.map((k) => ({ ...k, lengthM: 5 })) }), 'circuits/cord-length'],
  ['a 15 A outlet on 20 A', 'C-G1C', (c) => ({ ...c, outlet: '5-15R' }), 'circuits/outlet-kind'],
  ['one pole under a line–line load', 'C-LD1', (c) => ({ ...c, device: { ...c.device, poles: 1 } }), 'circuits/poles'],
  [
    'a 240 V loader on 120 V',
    'C-LD1',
    (c) => ({ ...c, connection: 'LN', legs: ['A'], ways: [c.ways[0]!], run: { ...c.run, neutral: c.run.line } }),
    'circuits/voltage',
  ],
  ['a motor device over the largest', 'C-FP1', (c) => ({ ...c, device: { ...c.device, ratingA: 60 } }), 'circuits/device-need'],
  ['a way taken twice', 'C-G1C', (c) => ({ ...c, ways: [1] }), 'circuits/ways'],
  ['a plug of another box', 'C-G1C', (c) => ({ ...c, plugs: [...c.plugs, 'stranger'] }), 'circuits/plugs-fed'],
])('%s is a finding of its own that fails', (_said, id, change, code) => {
  const { findings, workings } = edited(yardOf(), id, change)
  const found = findings.find((f) => f.code === code && f.verdict === 'fails')
  expect(found?.verdict, JSON.stringify(codes(findings, 'fails'))).toBe('fails')
  for (const working of found!.workings) expect(workings.some((w) => w.id === working)).toBe(true)
})

test('a size that no table of the set holds is unknown, not a crash', () => {
  const { findings } = edited(yardOf(), 'C-G1C', (c) => ({ ...c, run: { ...c.run, line: { ...c.run.line, size: '2.5 mm2' } } }))
  expect(codes(findings, 'unknown').length).toBeGreaterThan(0)
  expect(codes(findings, 'fails')).toEqual([])
})

test('1900 W on 120 V is 15.83 A: over a 15 A plug, tight on a 20 A one', () => {
  const on = (outlet: string) =>
    answerOf(yardOf({ plugs: [plugOf({ tag: 'PL1', powerW: 1900, voltageV: 120, outlet })] })).findings
  expect(find(on('5-15R'), 'circuits/plug-overloaded')?.verdict).toBe('fails')
  expect(find(on('5-20R'), 'circuits/device-holds')?.verdict).toBe('tight')
  expect(find(on('5-20R'), 'circuits/plug-overloaded')?.verdict).not.toBe('fails')
})

test('a heater and a maintainer on one plug add to 14.2 A: over 80 % of a 15 A plug, and one cord carries both', () => {
  const plugs = [
    plugOf({ tag: 'BW1', machine: 'bus 1', plugShared: 'bus 1', powerW: 1500, voltageV: 120, outlet: '5-15R' }),
    plugOf({
      tag: 'BB1',
      machine: 'bus 1',
      plugShared: 'bus 1',
      powerW: 120,
      voltageV: 120,
      pf: 0.6,
      kind: 'charger',
      use: 'charger',
      outlet: '5-15R',
    }),
  ]
  const yard = yardOf({ plugs })
  expect(yard.box.circuits.filter((c) => c.own === null).map((c) => c.plugs)).toEqual([['BW1', 'BB1']])
  const { findings, result } = answerOf(yard)
  const found = find(findings, 'circuits/plug-overloaded')
  expect(found?.demand?.value).toBeCloseTo(14.17, 2)
  expect(found?.verdict).toBe('tight')
  expect(result.boxes[0]!.cords.map((c) => [c.plugs, Number(c.currentA.toFixed(2))])).toEqual([[['BW1', 'BB1'], 14.17]])
})

test('a three-phase machine on a single-phase panel has no circuit and is told', () => {
  const yard = yardOf({
    plugs: [
      plugOf({ tag: 'GP1', powerW: 9000, voltageV: 208, phases: 3, outlet: '60 A four-pole pin and sleeve', kind: 'charger' }),
    ],
  })
  expect(designCircuits(yard.request).warnings.some((w) => w.said.includes('GP1'))).toBe(true)
  const found = find(answerOf(yard).findings, 'circuits/plugs-fed')
  expect(found?.verdict).toBe('fails')
  expect(found?.said).toMatch(/GP1 \(three-phase/)
})

test('a 2400 W dehumidifier at 23.5 A is not put on a 20 A outlet', () => {
  const yard = yardOf({
    plugs: [
      plugOf({
        tag: 'DH1',
        powerW: 2400,
        voltageV: 120,
        pf: 0.85,
        kind: 'mixed',
        use: 'general',
        outlet: '5-20R',
        hoursPerDay: 20,
      }),
    ],
  })
  expect(circuitOf(yard, 'C-DH1').outlet).toBe('5-30R')
  const { findings } = answerOf(yard)
  expect(find(findings, 'circuits/outlet-changed')?.verdict).toBe('tight')
  expect(find(findings, 'circuits/plug-overloaded')?.verdict).toBe('fails')
})

test('four heaters in one raceway hold in mild air, not in hot: unknown while bounded, fails when told', () => {
  const yard = yardOf()
  const together = new Set(['C-G1C', 'C-G2C', 'C-G3C', 'C-G4C'])
  const circuits = yard.box.circuits.map((c) =>
    together.has(c.id) ? { ...c, run: { ...c.run, raceway: { kind: 'EMT', trade: '3/4', shared: 'R1' } } } : c,
  )
  const at = (insideHotC: Job['boxes'][number]['insideHotC']) => {
    const job: Job = { ...yard.job, boxes: [{ ...yard.job.boxes[0]!, insideHotC }] }
    return find(
      answerCircuits({ ...yard.inputs, job, design: designOf({ ...yard.box, circuits }) }).findings,
      'circuits/protected',
      'C-G1C',
    )
  }
  // Eight current-carrying conductors: 0.7 (NEC Table 310.15(C)(1)). 12 AWG 90 °C 30 A: 21 A at 30 °C; 30 × 0.71 × 0.7 = 14.9 A at 60 °C, next rating 15 A.
  expect(at(told(30))).toBeUndefined()
  const bounded = at({ low: 20, high: 58, basis: 'bounded', told: false })
  expect(bounded?.verdict).toBe('unknown')
  expect(bounded?.assumed).toEqual(['boxes.BX1.inside-hot'])
  expect(at(told(58))?.verdict).toBe('fails')
})

test('a box that may pass 60 °C inside is one finding, not one a circuit', () => {
  const { findings } = answerOf(yardOf({ box: { insideHotC: { low: 47, high: 77, basis: 'bounded', told: false } } }))
  expect(findings.filter((f) => f.code === 'circuits/inside-hot').map((f) => f.verdict)).toEqual(['unknown'])
  expect(findings.filter((f) => f.code === 'circuits/protected')).toEqual([])
})

test('an interlock that fails off holds the main; timers do not', () => {
  const small = { serviceA: 150, interruptingKA: 22 }
  const by = (control: 'timers' | 'interlock') =>
    find(
      answerOf(yardOf({ request: { ...small }, staging: { control, capA: control === 'interlock' ? 120 : null } })).findings,
      'circuits/main-holds',
    )
  expect(by('timers')?.verdict).toBe('fails')
  expect(by('interlock')?.verdict).toBe('holds')
})

test('a second box hangs on a feeder of the first, and the first counts its load', () => {
  const plugs = GROOMER_PLUGS.map((p) => (p.tag.startsWith('TK') ? { ...p, fedBy: { P1: 'BX2' } } : p))
  const base = jobOf({ plugs })
  const second = { ...base.boxes[0]!, id: 'BX2', fedFrom: { box: 'BX1', lengthM: 25 } }
  const yard = yardOf({ plugs, job: { boxes: [base.boxes[0]!, second] } })
  const two = boxOf({ ...yard.request, box: second }, yard.box.staging)
  expect(two.fedFrom?.box).toBe('BX1')
  expect(two.panel.bond).toBe('neutral not bonded here')
  expect(two.panel.feed.protective).not.toBeNull()
  const feeder = yard.box.circuits.find((c) => c.id === 'feeder-BX2')!
  expect(feeder.legs).toEqual(['A', 'B'])
  const { findings, result, workings } = answerCircuits({ ...yard.inputs, design: designOf(yard.box, two) })
  expect(findings.filter((f) => f.verdict === 'fails').map((f) => f.said)).toEqual([])
  const [one, other] = result.boxes
  const all =
    yard.job.plugs.reduce((s, p) => s + p.powerW, 0) +
    [...yard.box.circuits, ...two.circuits].reduce((s, c) => s + (c.ownLoad?.powerW ?? 0), 0)
  expect(one!.legs.reduce((s, l) => s + l.powerW, 0)).toBeCloseTo(all, 6)
  expect(other!.legs.reduce((s, l) => s + l.powerW, 0)).toBeLessThan(all)
  expect(new Set(workings.map((w) => w.id)).size).toBe(workings.length)
})

test('every finding names workings that exist, and every working has steps or a judgement', () => {
  const { findings, workings } = answerOf(yardOf())
  const ids = new Set(workings.map((w) => w.id))
  expect(ids.size).toBe(workings.length)
  for (const f of findings) for (const id of f.workings) expect(ids.has(id), `${f.code} ${id}`).toBe(true)
  for (const w of workings) expect(w.steps.length + (w.judgement === undefined ? 0 : 1)).toBeGreaterThan(0)
})
