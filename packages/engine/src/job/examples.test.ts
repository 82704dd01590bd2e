import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { consistencyFindings, type Job, readJob } from './index.ts'

/**
 * Plain sums of each invented job, stated when it was invented, before the reader existed: no design choice is in them.
 * They check that rows are expanded, defaults taken and units converted as written; nothing here is copied from the reader's output.
 */
const EXPECTED = {
  'groomer-yard-us': { plugs: 28, connectedKW: 35.7, connectedKVA: 39.19, yearKWh: 18_762, fullDayKWh: 117.6 },
  'winter-road-camp-ca': { plugs: 28, connectedKW: 78.61, connectedKVA: 80.65, yearKWh: 60_774, fullDayKWh: 676.8 },
  'fish-farm-shore-intl': { plugs: 16, connectedKW: 117.42, connectedKVA: 127.13, yearKWh: 183_025, fullDayKWh: 626.3 },
  'desert-quarry-intl': { plugs: 24, connectedKW: 110.7, connectedKVA: 128.36, yearKWh: 298_278, fullDayKWh: 924.8 },
  'waterworks-extension-us': { plugs: 60, connectedKW: 193.7, connectedKVA: 222.29, yearKWh: 279_046, fullDayKWh: 1211 },
  'bus-pool-lot-ca': { plugs: 73, connectedKW: 56.53, connectedKVA: 59.19, yearKWh: 32_158, fullDayKWh: 259.3 },
  'moved-box-airstrip-ca': { plugs: 14, connectedKW: 29.46, connectedKVA: 30.76, yearKWh: 38_252, fullDayKWh: 194.1 },
} as const

/** Sums of the invented jobs are stated to 0.5 %. */
const WITHIN_FRAC = 0.005

function exampleText(name: string): string {
  return readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8')
}

function example(name: string): Job {
  const read = readJob(exampleText(name), { file: `examples/${name}.yaml` })
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return read.value
}

const sum = (job: Job, of: (p: Job['plugs'][number]) => number): number => job.plugs.reduce((total, p) => total + of(p), 0)
const near = (ours: number, theirs: number) =>
  expect(Math.abs(ours / theirs - 1), `${ours} against ${theirs}`).toBeLessThanOrEqual(WITHIN_FRAC)

describe.each(Object.entries(EXPECTED))('%s', (name, expected) => {
  const job = example(name)

  test('has the plugs, watts, volt-amperes and energy of its machine list', () => {
    expect(job.plugs).toHaveLength(expected.plugs)
    near(sum(job, (p) => p.powerW) / 1000, expected.connectedKW)
    near(sum(job, (p) => p.powerW / p.powerFactorFrac.low) / 1000, expected.connectedKVA)
    near(sum(job, (p) => p.powerW * p.hoursPerDay * p.dutyFrac * p.daysPerYear) / 1000, expected.yearKWh)
    near(sum(job, (p) => p.powerW * p.hoursPerDay * p.dutyFrac) / 1000, expected.fullDayKWh)
  })

  test('has currents that make its volt-amperes again', () => {
    near(sum(job, (p) => p.currentA * p.voltageV * (p.phases === 3 ? Math.sqrt(3) : 1)) / 1000, expected.connectedKVA)
  })

  test('is invented, says so, and is complete: nothing that must be told is missing', () => {
    expect(job.invented).toBe(true)
    expect(job.missing).toEqual([])
  })

  test('holds together', () => {
    expect(consistencyFindings(job)).toEqual([])
  })

  test('keeps what later questions need, and lists it as unused', () => {
    expect(job.unused).toEqual(expect.arrayContaining(['facts.site.flood', 'needs.shifts']))
  })

  test('carries snow, wind, ground and the way to it, and lists none of it as unused', () => {
    expect(job.unused.filter((key) => /^facts\.site\.(access|snow|wind|ground)$|^needs\.forbidden$/.test(key))).toEqual([])
    const { snow, wind, ground, access, corrosivity } = job.yard
    for (const told of [snow.groundLoadPa, wind.pressurePa, ground.bearingPa, ground.slopeFrac, access.straightRunM, corrosivity])
      expect(told).not.toBeNull()
  })
})

test('elements made for 240 V give 75 % on 208 V', () => {
  const sweepers = example('moved-box-airstrip-ca').plugs.filter((p) => p.row === 'BR1-2')
  expect(sweepers.map((p) => Math.round(p.powerW))).toEqual([2253, 2253])
  expect((sweepers[0] as { powerW: number }).powerW / 3000).toBeCloseTo(0.7511, 4)
})

test('both elements of a groomer belong to one machine, on two plugs', () => {
  const g4 = example('groomer-yard-us').plugs.filter((p) => p.machine === 'G4')
  expect(g4.map((p) => [p.tag, p.cordM, p.plugShared])).toEqual([
    ['G4C', 30, undefined],
    ['G4H', 30, undefined],
  ])
})

test('twenty-eight maintainers hang on the cords of the coolant elements, four on their own', () => {
  const job = example('bus-pool-lot-ca')
  const shared = job.plugs.filter((p) => p.plugShared === 'BW1.1')
  expect(shared.map((p) => p.tag)).toEqual(['BW1.1', 'BB1'])
  expect(shared.reduce((a, p) => a + p.powerW, 0)).toBe(1620)
  expect(job.plugs.filter((p) => p.row === 'BB29-32' && p.plugShared === undefined)).toHaveLength(4)
})

test('two boxes and two phases: every machine is fed by one of them in both', () => {
  const job = example('waterworks-extension-us')
  expect(job.boxes.map((b) => b.id)).toEqual(['tower', 'yard'])
  expect(job.phases.map((p) => [p.id, p.fromMonth, p.toMonth])).toEqual([
    ['first', 1, 12],
    ['second', 13, 22],
  ])
  for (const p of job.plugs) expect(Object.keys(p.fedBy)).toEqual(['first', 'second'])
  expect(job.needs.daysToNeed).toBe(98)
})

test('dates with a year give days from order to need', () => {
  // 10 July to 1 November: 21 + 31 + 30 + 31 + 1 days by the calendar.
  expect(example('groomer-yard-us').needs.daysToNeed).toBe(114)
})

test('a box that stands is facts, with what it is rated for', () => {
  const built = example('moved-box-airstrip-ca').built
  expect(built).toMatchObject({
    rulesWhenBuilt: 'us',
    system: 'split 120/240',
    serviceA: 200,
    interruptingKA: 10,
    ways: 30,
    outletDeviceMinC: -35,
    lastFullTestMonthsAgo: 14,
  })
  expect(built?.circuits.reduce((ways, c) => ways + c.count * c.poles, 0)).toBe(22)
})

test('the place and the steel of the box that stands are carried with their units', () => {
  const job = example('moved-box-airstrip-ca')
  expect(job.yard).toMatchObject({
    snow: { groundLoadPa: 2900, depthM: 1.1, drifting: 'light' },
    wind: { pressurePa: 350, pressureIs: null, winterFromDeg: 290 },
    ground: { bearingPa: 110_000, slopeFrac: 0.01 },
    access: { roadGradeFrac: 0.04, straightRunM: 48, widthM: 7, unload: 'tilt-bed' },
    corrosivity: 'C2',
    heightLimit: { heightM: 4, said: 'within 60 m of the edge of the strip' },
  })
  expect(job.builtBody).toMatchObject({
    heightKind: 'standard',
    tareKg: 2280,
    fitOutKg: 1120,
    weighedKg: 3400,
    transportPlate: 'taken off when the side was cut',
    lowestExitM: 0.45,
  })
  expect(job.builtBody?.lengthFt).toBeCloseTo(20, 9)
  expect(example('winter-road-camp-ca').boxes[0]).toMatchObject({ paint: 'white', onSkids: true, moves: 'three each season' })
})

test('the smallest job reads: two heaters on one circuit', () => {
  const job = example('two-machines')
  expect(job.plugs.map((p) => [p.tag, p.currentA])).toEqual([
    ['H1', 7.5],
    ['H2', 7.5],
  ])
  expect(consistencyFindings(job).filter((f) => !['skin', 'haul'].includes(f.question))).toEqual([])
})
