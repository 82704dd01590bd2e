import { expect, test } from 'vitest'
import { UNTOLD_CLIMATE } from '../../job/index.ts'
import { allNormals, normalNamed } from '../normals.ts'
import { type ClimatePart, type ClimateTold, climateFrom, toldOfNormal } from './climate.ts'
import { designYear } from './many.ts'
import { toldOfJob } from './told-of-job.ts'

const fault = (code: string) => expect.objectContaining({ code })
const bismarck = toldOfNormal(normalNamed('727640')!)
const untold: ClimateTold = toldOfJob(UNTOLD_CLIMATE, 'a site')
function climateOf(told: ClimateTold) {
  const answer = climateFrom(told)
  if (!answer.ok) throw new Error(answer.missing.join('; '))
  return answer.climate
}
const partsOf = (told: ClimateTold): ClimatePart[] => climateOf(told).filled.map((f) => f.part)

test('a place of the table that has everything is filled with nothing', () => {
  expect(climateOf(bismarck).filled).toEqual([])
})

test('a job that tells nothing gets no year, and is told what is missing', () => {
  expect(climateFrom(untold)).toEqual({ ok: false, missing: ['the latitude of the site'] })
  expect(climateFrom({ ...untold, latitudeDeg: 46 })).toEqual({
    ok: false,
    missing: ['the longitude of the site, or its hours from universal time'],
  })
})

test('a site near a place is filled from it, each thing said with the distance, its temperature with the height', () => {
  const told = { ...untold, latitudeDeg: 46.5, longitudeDeg: -100.5, elevationM: 802 }
  const climate = climateOf(told)
  expect(climate.filled.map((f) => f.part).sort()).toEqual(
    ['clock', 'cold', 'heat', 'humidity', 'range', 'snow', 'spread', 'sun', 'temperature', 'wind'].sort(),
  )
  const words = climate.filled.find((f) => f.part === 'temperature')!.said
  // 300 m at 6.5 K/km is 1.95 K (standard atmosphere).
  expect(words).toContain('Bismarck')
  expect(words).toContain('km away')
  expect(climate.meanC[0]! - normalNamed('727640')!.meanC![0]!).toBeCloseTo(-1.95, 6)
  expect(climate.filled.every((f) => f.rests.place !== '')).toBe(true)
  expect(designYear(climate).origins.airC?.how).toContain('Bismarck')
})

test('far from every place no temperature is made up', () => {
  const answer = climateFrom({ ...untold, latitudeDeg: -45, longitudeDeg: 170, elevationM: 10 })
  expect(answer.ok).toBe(false)
  if (!answer.ok) {
    expect(answer.missing.join(' ')).toContain('how warm each month is')
    expect(answer.missing.join(' ')).toContain('daily range')
  }
})

test('far from every place, told temperatures and ranges make a year, its sun, wind and humidity by rules that are said', () => {
  const told = {
    ...untold,
    latitudeDeg: -45,
    longitudeDeg: 170,
    elevationM: 10,
    meanC: bismarck.meanC!.map((t) => 10 - t / 4),
    rangeK: Array<number>(12).fill(9),
  }
  const climate = climateOf(told)
  const said = (part: ClimatePart) => climate.filled.find((f) => f.part === part)?.said
  expect(said('sun')).toContain('±15 %')
  expect(said('wind')).toContain('none is known')
  expect(said('humidity')).toContain('misses by 3 K')
  // Hargreaves & Samani as in FAO 56, eq. 50: 0.16·√9 of what arrives outside the air.
  expect(climate.clearnessFrac.every((k) => Math.abs(k - 0.48) < 1e-9)).toBe(true)
})

test('what is told is taken as told: humidity over ice, design temperatures, an offset of the clock', () => {
  const climate = climateOf(
    toldOfJob(
      {
        ...UNTOLD_CLIMATE,
        latitudeDeg: 46.8,
        longitudeDeg: -100.8,
        elevationM: 500,
        timeZone: 'UTC-7',
        designMinC: -31,
        designMaxC: 36,
        humidityFracByMonth: Array<number>(12).fill(0.7),
        humidityOver: 'ice',
      },
      'a yard',
    ),
  )
  expect(climate.place.utcOffsetH).toBe(-7)
  expect([climate.coldC, climate.hotC]).toEqual([-31, 36])
  expect(climate.humidity).toEqual({ is: 'relative', frac: Array<number>(12).fill(0.7), over: 'ice' })
  expect(climate.filled.map((f) => f.part)).not.toContain('humidity')
})

test('humidity told over ice holds less water in the cold than the same over liquid', () => {
  const told = { ...bismarck, relativeFrac: Array<number>(12).fill(0.7) }
  const january = (over: 'ice' | 'liquid') =>
    designYear(climateOf({ ...told, over }))
      .columns.vapourPa!.subarray(0, 744)
      .reduce((a, b) => a + b, 0)
  expect(january('ice') / january('liquid')).toBeLessThan(0.92)
  expect(january('ice') / january('liquid')).toBeGreaterThan(0.8)
})

test('more sun than arrives outside the air is not believed', () => {
  const answer = climateFrom({ ...bismarck, sunKWhPerM2: Array<number>(12).fill(9) })
  expect(answer.ok).toBe(false)
  if (!answer.ok) expect(answer.missing[0]).toContain('month 1')
})

test('numbers that no weather has are refused', () => {
  for (const wrong of [
    { latitudeDeg: 91 },
    { meanC: [1, 2] },
    { windMPerS: Array<number>(12).fill(-1) },
    { relativeFrac: Array<number>(12).fill(70) },
    { elevationM: Number.NaN },
  ])
    expect(() => climateFrom({ ...bismarck, ...wrong })).toThrow(fault('weather/climate-range'))
})

test('design cold and heat by rule lie within 12 K and 2 K of those of the places that have them', () => {
  for (const normal of allNormals()) {
    const told = toldOfNormal(normal)
    const climate = climateOf({ ...told, coldC: null, hotC: null })
    if (told.coldC !== null) expect(Math.abs(climate.coldC - told.coldC), normal.name).toBeLessThan(12)
    if (told.hotC !== null) expect(Math.abs(climate.hotC - told.hotC), normal.name).toBeLessThan(2)
  }
})

test('a climate in the north turned to the south has its sun in the other half of the year', () => {
  const turn = <T>(of: readonly T[]): T[] => of.map((_, m) => of[(m + 6) % 12] as T)
  const south = climateOf({
    ...bismarck,
    latitudeDeg: -46.77,
    meanC: turn(bismarck.meanC!),
    rangeK: turn(bismarck.rangeK!),
    relativeFrac: turn(bismarck.relativeFrac!),
    windMPerS: turn(bismarck.windMPerS!),
    sunKWhPerM2: turn(bismarck.sunKWhPerM2!),
    spreadK: turn(bismarck.spreadK!),
    snowLies: turn(bismarck.snowLies!),
  })
  const { columns } = designYear(south)
  expect(columns.snowM!.slice(24 * 180, 24 * 190).every((m) => m > 0)).toBe(true)
  expect(columns.snowM!.slice(0, 240).every((m) => m === 0)).toBe(true)
})

test('parts filled by a rule are as soft as the rule', () => {
  expect(partsOf({ ...bismarck, hotC: null })).toEqual(['heat'])
  expect(climateOf({ ...bismarck, hotC: null }).filled[0]?.rests.provenance).toBe('common practice')
})
