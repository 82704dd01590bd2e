import { expect, test } from 'vitest'
import { allNormals, normalNamed } from '../normals.ts'
import { saturationOverLiquidPa, saturationPa } from '../saturation.ts'
import { climateFrom, toldOfNormal } from './climate.ts'
import { type DesignRun, designRuns, RUNS, type RunName } from './runs.ts'

function runsOf(id: string): Readonly<Record<RunName, DesignRun>> {
  const answer = climateFrom(toldOfNormal(normalNamed(id)!))
  if (!answer.ok) throw new Error(answer.missing.join('; '))
  return Object.fromEntries(designRuns(answer.climate).map((run) => [run.name, run])) as Record<RunName, DesignRun>
}
const fairbanks = runsOf('702610')
const judged = (run: DesignRun, column: 'airC' | 'vapourPa' | 'windMPerS' | 'globalWPerM2' | 'cloudFrac') =>
  run.hours.columns[column]!.subarray(run.leadInH)

test('every place has the five runs, whole and within what air can hold', () => {
  for (const normal of allNormals()) {
    const runs = runsOf(normal.id)
    expect(Object.keys(runs)).toEqual([...RUNS])
    for (const run of Object.values(runs)) {
      const { hours } = run
      expect(run.leadInH).toBeLessThan(hours.hoursCount)
      for (const name of [
        'airC',
        'vapourPa',
        'pressurePa',
        'windMPerS',
        'cloudFrac',
        'globalWPerM2',
        'beamWPerM2',
        'diffuseWPerM2',
      ] as const) {
        expect(hours.columns[name]).toHaveLength(hours.hoursCount)
        expect(hours.columns[name]!.every(Number.isFinite), `${normal.name}, ${run.name}, ${name}`).toBe(true)
      }
      hours.columns.airC!.forEach((t, h) => {
        expect(hours.columns.vapourPa![h]! / saturationPa(t), `${normal.name}, ${run.name}, hour ${h}`).toBeLessThanOrEqual(
          1 + 1e-9,
        )
      })
    }
  }
})

test('the cold spell: five clear days about the design cold, range 4 K, 1 m/s, saturated over ice in its coldest hour', () => {
  const air = judged(fairbanks['cold spell'], 'airC')
  expect(air).toHaveLength(120)
  expect(Math.max(...air) - Math.min(...air)).toBeGreaterThan(3.8)
  expect((Math.max(...air) + Math.min(...air)) / 2).toBeCloseTo(-41.9, 1)
  expect([...judged(fairbanks['cold spell'], 'windMPerS')].every((v) => v === 1)).toBe(true)
  expect([...judged(fairbanks['cold spell'], 'cloudFrac')].every((n) => n === 0)).toBe(true)
  expect(judged(fairbanks['cold spell'], 'vapourPa')[0]! / saturationPa(-43.9)).toBeCloseTo(1, 9)
})

test('the first warm wind begins where the cold spell ends, rises 15 K in 12 h, dew point 1 K under the air', () => {
  const run = fairbanks['first warm wind']
  expect(run.leadInH).toBe(120)
  const [air, vapour] = [judged(run, 'airC'), judged(run, 'vapourPa')]
  const before = run.hours.columns.airC![run.leadInH - 1]!
  expect(Math.abs(air[0]! - before)).toBeLessThan(1.5)
  expect(air[12]! - before).toBeGreaterThan(13.5)
  expect(air[12]! - before).toBeLessThan(16.5)
  // Bismarck thaws nowhere near; Miami's wind is above freezing, and there the dew point is the one told.
  const warm = runsOf('12839')['first warm wind']
  const at = warm.hours.hoursCount - 1
  const t = warm.hours.columns.airC![at]!
  expect(warm.hours.columns.vapourPa![at]! / saturationOverLiquidPa(t - 1)).toBeCloseTo(1, 9)
  expect(vapour[40]! / saturationPa(air[40]!)).toBeCloseTo(1, 9)
})

test('the hot week touches the design heat each day under a sky without cloud', () => {
  const run = runsOf('722780')['hot week']
  const air = judged(run, 'airC')
  for (let d = 0; d < 7; d++) expect(Math.max(...air.subarray(24 * d, 24 * d + 24))).toBeCloseTo(43.4, 0)
  expect(Math.max(...judged(run, 'globalWPerM2'))).toBeGreaterThan(850)
})

test('the foggy fortnight stands at 2 °C and 98 %, or at the coldest month where it is never that cold', () => {
  const air = judged(fairbanks['foggy fortnight'], 'airC')
  expect(air).toHaveLength(336)
  expect([...air].every((t) => t === 2)).toBe(true)
  expect(judged(fairbanks['foggy fortnight'], 'vapourPa')[0]! / saturationOverLiquidPa(2)).toBeCloseTo(0.98, 12)
  const singapore = runsOf('singapore')['foggy fortnight']
  expect(judged(singapore, 'airC')[0]).toBeCloseTo(27.4, 6)
  expect(singapore.said).toContain('never colder here')
})

test('clear calm nights keep the mean of their month and are saturated before dawn', () => {
  const run = runsOf('727640')['clear calm nights']
  const air = judged(run, 'airC')
  expect(air.reduce((a, b) => a + b, 0) / air.length).toBeCloseTo(-0.5, 0)
  const low = air.indexOf(Math.min(...air))
  expect(judged(run, 'vapourPa')[low]! / saturationPa(air[low]!)).toBeGreaterThan(0.98)
  expect([...judged(run, 'windMPerS')].every((v) => v === 0.5)).toBe(true)
})
