import { expect, test } from 'vitest'
import type { BuiltBox } from '../../job/index.ts'
import { answerCircuits } from './answer.ts'
import { plugOf, yardOf } from './yards.fixture.ts'

/** An invented box of three years ago, built for 120/240 V, sent to a place of 120/208 V at −40 °C under other rules. */
const BUILT: BuiltBox = {
  rulesWhenBuilt: 'us',
  system: 'split 120/240',
  serviceA: 200,
  interruptingKA: 10,
  ways: 30,
  circuits: [
    { outlet: '5-20R', count: 12, deviceA: 20, poles: 1, conductor: '12 AWG', shock: 'class A' },
    { outlet: '6-20R', count: 4, deviceA: 20, poles: 2, conductor: '12 AWG', shock: 'none' },
    { outlet: 'L14-30R', count: 1, deviceA: 30, poles: 2, conductor: '10 AWG', shock: 'none' },
  ],
  cords: [{ count: 12, size: '12/3', lengthM: 15, jacketMarkedC: -20 }],
  outletDeviceMinC: -35,
  electrodeOhm: 18,
  neutralBond: 'in the main panel',
  approval: 'field label of the old jurisdiction only',
  lastFullTestMonthsAgo: 14,
  defects: ['one door gasket torn'],
}

const PLUGS = [
  ...[1, 2].map((i) => plugOf({ tag: `PW${i}`, powerW: 1500, voltageV: 120 })),
  ...[1, 2].map((i) =>
    plugOf({ tag: `BR${i}`, powerW: 2253, voltageV: 208, outlet: '6-20R', rated: { powerW: 3000, voltageV: 240 } }),
  ),
  plugOf({
    tag: 'GP1',
    powerW: 9000,
    voltageV: 208,
    phases: 3,
    pf: 0.9,
    kind: 'charger',
    use: 'charger',
    outlet: '60 A four-pole pin and sleeve',
  }),
  plugOf({
    tag: 'WC1',
    powerW: 5000,
    voltageV: 208,
    pf: 0.95,
    kind: 'mixed',
    use: 'building',
    outlet: 'L14-30R',
    hoursPerDay: 24,
  }),
]

function answerOf(change: Partial<BuiltBox> = {}, plugs = PLUGS) {
  const yard = yardOf({ set: 'ca', system: 'wye 208/120', plugs })
  const job = { ...yard.job, built: { ...BUILT, ...change }, site: { ...yard.job.site, designMinC: -40 } }
  return answerCircuits({ ...yard.inputs, job }).findings
}
const of = (code: string, change?: Partial<BuiltBox>) => answerOf(change).find((f) => f.code === code)

test('each trap of a moved box is a finding of its own', () => {
  const verdicts = Object.fromEntries(
    answerOf()
      .filter((f) => f.code.startsWith('circuits/built-'))
      .map((f) => [f.code, f.verdict]),
  )
  expect(verdicts).toEqual({
    'circuits/built-phases': 'fails',
    'circuits/built-neutral': 'unknown',
    'circuits/built-volts': 'tight',
    'circuits/built-outlets': 'holds',
    'circuits/built-way': 'fails',
    'circuits/built-ways': 'holds',
    'circuits/built-cords': 'fails',
    'circuits/built-outlet-cold': 'fails',
    'circuits/built-approval': 'unknown',
    'circuits/built-defects': 'fails',
    'circuits/built-test': 'fails',
  })
})

test('25.3 A for a whole day on a 30 A way is over its 80 %', () => {
  expect(of('circuits/built-way')?.said).toMatch(/WC1 keeps 25\.3 A on a 30 A way, over the 24 A/)
})

test('a 3000 W 240 V element keeps three quarters of its heat on 208 V', () => {
  // (208/240)² = 0.7511.
  expect(of('circuits/built-volts')?.said).toMatch(/BR1 keeps 75\.1 % of its heat/)
})

test('on two phases of a wye the neutral carries as much as a leg when both are equal', () => {
  const plugs = [1, 2, 3, 4].map((i) => plugOf({ tag: `PW${i}`, powerW: 1500, voltageV: 120 }))
  const found = answerOf({}, plugs).find((f) => f.code === 'circuits/built-neutral')
  // Two legs of 25 A at 120°: √(25² + 25² − 25·25) = 25 A.
  expect(found?.demand?.value).toBe(25)
})

test('outlets are counted by kind, and one short is named', () => {
  const short = { circuits: BUILT.circuits.map((c) => (c.outlet === '5-20R' ? { ...c, count: 1 } : c)) }
  expect(of('circuits/built-outlets', short)?.verdict).toBe('fails')
  expect(of('circuits/built-outlets', short)?.said).toMatch(/1 × 5-20R missing/)
})

test('what nobody told of a built box is unknown, not well', () => {
  expect(of('circuits/built-test', { lastFullTestMonthsAgo: null })?.verdict).toBe('unknown')
  expect(of('circuits/built-outlet-cold', { outletDeviceMinC: null })?.verdict).toBe('unknown')
  expect(of('circuits/built-cords', { cords: [{ count: 1, size: '12/3', lengthM: 15, jacketMarkedC: null }] })?.verdict).toBe(
    'unknown',
  )
})
