import { expect, test } from 'vitest'
import { allNormals, normalNamed } from '../normals.ts'
import { saturationOverLiquidPa, saturationPa } from '../saturation.ts'
import { climateFrom, toldOfNormal } from './climate.ts'
import { designYear } from './many.ts'
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

const turn = <T>(of: readonly T[] | null): T[] | null => of?.map((_, m) => of[(m + 6) % 12] as T) ?? null

test('south of the line the cold spell comes in June to August and the hot week in December to February, under the sun of that half', () => {
  const bismarck = toldOfNormal(normalNamed('727640')!)
  const south = climateFrom({
    ...bismarck,
    latitudeDeg: -bismarck.latitudeDeg!,
    ...{ meanC: turn(bismarck.meanC), rangeK: turn(bismarck.rangeK), relativeFrac: turn(bismarck.relativeFrac) },
    ...{ windMPerS: turn(bismarck.windMPerS), sunKWhPerM2: turn(bismarck.sunKWhPerM2) },
    ...{ spreadK: turn(bismarck.spreadK), snowLies: turn(bismarck.snowLies) },
  })
  if (!south.ok) throw new Error(south.missing.join('; '))
  const north = runsOf('727640')
  const monthOf = ({ hours, leadInH }: DesignRun) => new Date(Date.UTC(2027, 0, hours.firstDay, leadInH)).getUTCMonth()
  const sum = (run: DesignRun) => judged(run, 'globalWPerM2').reduce((a, b) => a + b, 0)
  for (const run of designRuns(south.climate)) {
    expect((monthOf(run) + 6) % 12, run.name).toBe(monthOf(north[run.name]))
    // The earth is nearer the sun in January by 3.4 %: 7 % of light; the days of the months differ by one or two.
    expect(Math.abs(sum(run) / sum(north[run.name]) - 1), run.name).toBeLessThan(0.1)
    judged(run, 'airC').forEach((t, h) => {
      expect(t, run.name).toBeCloseTo(judged(north[run.name], 'airC')[h]!, 6)
    })
  }
})

test.each([90, 78, 66.6, 23.4, 0, -23.4, -66.6, -78, -90])(
  'at %s degrees year and runs are whole: no sun, no end of it, or sun overhead',
  (latitudeDeg) => {
    const answer = climateFrom({
      ...toldOfNormal(normalNamed('727640')!),
      ...{ latitudeDeg, longitudeDeg: 15, utcOffsetH: 1, sunKWhPerM2: null, relativeFrac: null, windMPerS: null },
      meanC: Array.from({ length: 12 }, (_, m) => 5 - Math.sign(latitudeDeg) * 12 * Math.cos((2 * Math.PI * (m - 0.5)) / 12)),
    })
    if (!answer.ok) throw new Error(answer.missing.join('; '))
    const all = [designYear(answer.climate), ...designRuns(answer.climate).map(({ hours }) => hours)]
    for (const { columns } of all)
      for (const name of ['airC', 'vapourPa', 'windMPerS', 'globalWPerM2', 'beamWPerM2', 'diffuseWPerM2', 'cloudFrac'] as const)
        expect(
          columns[name]!.every((v) => Number.isFinite(v) && (name === 'airC' || v >= 0)),
          name,
        ).toBe(true)
    const light = all[0]!.columns.globalWPerM2!
    const dark = (day: number) => light.subarray(24 * day, 24 * day + 24).every((w) => w === 0)
    // Day 172: 21 June; day 355: 21 December.
    if (latitudeDeg >= 78) expect([dark(171), dark(354)]).toEqual([false, true])
    else if (latitudeDeg <= -78) expect([dark(171), dark(354)]).toEqual([true, false])
    else if (Math.abs(latitudeDeg) < 60) expect([dark(171), dark(354)]).toEqual([false, false])
  },
)
