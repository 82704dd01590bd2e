import { expect, test } from 'vitest'
import { consistency, consistencyFindings, type Job, readJob } from './index.ts'

const PLACE = `facts:
  site:
    elevation: 100 m
    temporary: no
    access: { road-grade: 2 %, straight-run: 30 m, width: 5 m, overhead-line: none }
    ground: { bearing: 150 kPa, slope: 1 % }
    snow: { ground-load: 1 kPa, depth: 0.4 m }
    wind: { pressure: 0.5 kPa }
    corrosivity: C2
  supply:
    system: 120/208 V three-phase 4-wire
    offers: [{ kind: utility, service: [200 A], distance: 20 m, earthing: service bond }]
`

function job(machines: string, more = ''): Job {
  const read = readJob(
    `plugstead: 1\nrules: { set: us }\nneeds:\n  stay: 22 months\n  machines:\n${machines
      .split('\n')
      .map((m) => `    - { ${m} }`)
      .join('\n')}\n${PLACE}${more}`,
  )
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return read.value
}
const found = (of: Job) => consistencyFindings(of).map((f) => `${f.code} ${f.subject} ${f.verdict}`)
const heater = 'kind: heater, outlet: 5-20R, hours: 3 h, window: 19:00 to 07:00'

// A list is questioned when W, V and A of a row differ by more than 5 %: acceptance of a machine list, common practice.
test.each([
  ['1500 W', '12.5 A', []],
  ['1500 W', '13.1 A', []],
  ['1500 W', '13.2 A', ['needs/plate-mismatch A unknown']],
  ['1500 W', '12 A', []],
  ['1500 W', '11.8 A', ['needs/plate-mismatch A unknown']],
] as const)('%s at 120 V with %s', (power, current, expected) => {
  expect(found(job(`tag: A, ${heater}, power: ${power}, voltage: 120 V, current: ${current}`))).toEqual(expected)
})

test('an absent power factor explains what lies between its ends, and no more', () => {
  const charger = (current: string) =>
    found(
      job(
        `tag: A, kind: charger, outlet: 5-20R, hours: 3 h, window: all day, power: 1000 W, voltage: 120 V, current: ${current}`,
      ),
    )
  // 1000/(120·0.98) = 8.50 A to 1000/(120·0.6) = 13.89 A, and 5 % on either side
  expect(charger('8.6 A')).toEqual([])
  expect(charger('13.8 A')).toEqual([])
  expect(charger('8.0 A')).toEqual(['needs/plate-mismatch A unknown'])
  expect(charger('15 A')).toEqual(['needs/plate-mismatch A unknown'])
})

test('three phases count √3', () => {
  const pump = (current: string) =>
    found(
      job(
        `tag: A, kind: motor, outlet: hard-wired, hours: 3 h, window: all day, power: 4400 W, voltage: 208 V, phases: 3, power-factor: 0.82, current: ${current}`,
      ),
    )
  expect(pump('14.9 A')).toEqual([])
  expect(pump('25.8 A')).toEqual(['needs/plate-mismatch A unknown'])
})

test('shaft power is held against the input through the efficiency', () => {
  const pump = (power: string, efficiency = '') =>
    found(
      job(
        `tag: A, kind: motor, outlet: hard-wired, hours: 3 h, window: all day, voltage: 208 V, phases: 3, power: ${power}, motor: { shaft: 5 hp${efficiency} }`,
      ),
    )
  // 5 hp are 3728 W: at 85 % they take 4386 W.
  expect(pump('4400 W', ', efficiency: 85 %')).toEqual([])
  expect(pump('3900 W', ', efficiency: 85 %')).toEqual(['needs/shaft-mismatch A unknown'])
  expect(pump('4400 W')).toEqual([])
  expect(pump('3000 W')).toEqual(['needs/shaft-mismatch A unknown'])
  expect(pump('11 kW')).toEqual(['needs/shaft-mismatch A unknown'])
})

test('an element fed at another voltage gives P0·(V/V0)², and a written figure must agree', () => {
  const element = (power: string) =>
    job(`tag: A, ${heater}, voltage: 208 V, ${power} element-plate: { power: 3000 W, voltage: 240 V }`)
  // 3000 W at 240 V on 208 V: 2253 W, 10.8 A.
  expect(element('').plugs[0]?.powerW).toBeCloseTo(2253.33, 2)
  expect(element('').plugs[0]?.currentA).toBeCloseTo(10.83, 2)
  expect(found(element('power: 2250 W,'))).toEqual([])
  expect(found(element('power: 3000 W,'))).toEqual(['needs/element-mismatch A unknown'])
})

test('a window shorter than the hours wanted fails; one that crosses midnight is measured past it', () => {
  const hours = (h: string, window: string) =>
    found(job(`tag: A, kind: heater, outlet: 5-20R, power: 1500 W, voltage: 120 V, hours: ${h}, window: ${window}`))
  expect(hours('6 h', '23:00 to 05:00')).toEqual([])
  expect(hours('6.5 h', '23:00 to 05:00')).toEqual(['needs/window-short A fails'])
  expect(hours('24 h', 'all day')).toEqual([])
  expect(hours('6 h', '18:00 to 24:00')).toEqual([])
  expect(hours('7 h', '18:00 to 00:00')).toEqual(['needs/window-short A fails'])
})

test('a range that disagrees with its count is said', () => {
  expect(found(job(`tag: TK1-4, ${heater}, power: 750 W, voltage: 120 V`))).toEqual(['needs/count-doubtful TK1-4 unknown'])
  expect(found(job(`tag: TK1-4, count: 4, ${heater}, power: 750 W, voltage: 120 V`))).toEqual([])
})

test('two voltages on one plug are said', () => {
  expect(
    found(
      job(`tag: A, ${heater}, power: 1500 W, voltage: 120 V\ntag: B, ${heater}, power: 100 W, voltage: 208 V, shares-plug-of: A`),
    ),
  ).toEqual(['needs/shared-plug A unknown'])
})

const TWO =
  'boxes: [{ id: a }, { id: b }]\nphases: [{ id: one, months: 1 to 12, boxes: [a, b] }, { id: two, months: 13 to 22, boxes: [a] }]\n'

test('with several boxes a machine must say what feeds it', () => {
  expect(
    found(
      job(`tag: A, ${heater}, power: 750 W, voltage: 120 V\ntag: B, ${heater}, power: 750 W, voltage: 120 V, fed-by: a`, TWO),
    ),
  ).toEqual(['needs/machine-unfed A unknown'])
})

test('a phase in which no box feeds a machine, and a box that does not stand there then', () => {
  expect(found(job(`tag: A, ${heater}, power: 750 W, voltage: 120 V, fed-by: { one: b, two: nothing }`, TWO))).toEqual([
    'needs/phase-without-box two unknown',
  ])
  expect(found(job(`tag: A, ${heater}, power: 750 W, voltage: 120 V, fed-by: b`, TWO))).toEqual(['needs/box-absent A unknown'])
  expect(found(job(`tag: A, ${heater}, power: 750 W, voltage: 120 V, fed-by: { one: b, two: a }`, TWO))).toEqual([])
})

test('months of the stay that belong to no phase are said', () => {
  const phases = (text: string) => found(job(`tag: A, ${heater}, power: 750 W, voltage: 120 V`, `phases: [${text}]\n`))
  expect(phases('{ id: a, months: 1 to 22 }')).toEqual([])
  expect(phases('{ id: a, months: 1 to 10 }, { id: b, months: 12 to 22 }')).toEqual(['needs/phase-gap job unknown'])
  expect(phases('{ id: a, months: 1 to 10 }')).toEqual(['needs/phase-gap job unknown'])
})

test('a pin that the program does not know is said, not passed over', () => {
  const pinned = (path: string) =>
    found(job(`tag: A, ${heater}, power: 750 W, voltage: 120 V`, `choices: { ${path}: { value: 12 AWG, by: me, why: stock } }\n`))
  expect(pinned('cords.A.size')).toEqual([])
  expect(pinned('cord.A.size')).toEqual(['needs/pin-unknown cord.A.size unknown'])
  expect(pinned('cords.B.size')).toEqual(['needs/pin-unknown cords.B.size unknown'])
})

test('what must be told and is not leaves each of its questions unknown', () => {
  const all = found(job(`tag: A, ${heater}, voltage: 120 V\ntag: B, ${heater}, power: 750 W, voltage: 120 V`))
  expect(all).toEqual(['needs', 'supply', 'circuits', 'reach', 'faults'].map((q) => `${q}/missing A unknown`))
})

test('every finding with numbers has its working', () => {
  const { findings, workings } = consistency(
    job(`tag: A, kind: heater, outlet: 5-20R, power: 1500 W, voltage: 120 V, current: 20 A, hours: 9 h, window: 01:00 to 07:00`),
  )
  expect(findings.map((f) => f.code)).toEqual(['needs/plate-mismatch', 'needs/window-short'])
  expect(workings.map((w) => w.id)).toEqual(findings.flatMap((f) => f.workings))
  for (const w of workings) expect(w.steps.length).toBeGreaterThan(0)
})
