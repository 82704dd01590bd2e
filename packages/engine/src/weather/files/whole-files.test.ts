import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { PHYSICS } from '../constants.ts'
import { normalsNear } from '../normals.ts'
import { saturationOverIcePa as icePa, saturationOverLiquidPa as liquidPa } from '../saturation.ts'
import { clarkAllenWPerM2, skyC } from '../sky.ts'
import { planeNormal } from '../sun.ts'
import { fillBrightness, perezWPerM2 } from '../tilt.ts'
import type { WeatherHours } from '../types.ts'
import { sunPathOf } from './acceptance.ts'
import { readColumnMapping, readWeather, type WeatherFile, weatherSummary } from './index.ts'

const folder = fileURLToPath(new URL('../../../../../../shared/data/weather/', import.meta.url))
const examples = fileURLToPath(new URL('../../../../../examples/weather/', import.meta.url))

const FILES = {
  denver: 'denver-co_725650TYCST.epw.gz',
  phoenix: 'phoenix-az_722780TYA.csv.gz',
  bismarck: 'bismarck-nd_727640TYA.csv.gz',
  fairbanks: 'fairbanks-ak_702610TYA.csv.gz',
  sandPoint: 'sand-point-ak_703165TY.csv.gz',
  miami: 'miami-fl_12839.tm2.gz',
  poValley: 'po-valley-it_pvgis_tmy_45.000_8.000_2005_2023.csv.gz',
  montreal: 'montreal-qc_2012_hourly.csv.gz',
  sodankyla: 'sodankyla-fi_2013-10_2014-09_met.txt.gz',
  beijing: 'beijing-cn_2010-2014_hourly.csv.gz',
} as const
type Name = keyof typeof FILES
const MAPPINGS: Partial<Record<Name, string>> = {
  montreal: 'montreal-qc-2012.columns.yaml',
  sodankyla: 'sodankyla-fi-2013.columns.yaml',
  beijing: 'beijing-cn-2010.columns.yaml',
}

const kept = new Map<string, WeatherFile>()
function fileOf(name: Name, fillFromNormals = false): WeatherFile {
  const key = `${name} ${fillFromNormals}`
  const before = kept.get(key)
  if (before !== undefined) return before
  const text = new TextDecoder('latin1').decode(gunzipSync(readFileSync(folder + FILES[name])))
  const map = MAPPINGS[name] === undefined ? null : readColumnMapping(readFileSync(examples + MAPPINGS[name], 'utf8'))
  if (map !== null && !map.ok) throw new Error(JSON.stringify(map.problems))
  const read = readWeather(text, { ...(map === null ? {} : { columns: map.value }), fillFromNormals })
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)))
  kept.set(key, read.value)
  return read.value
}
const runOf = (name: Name): WeatherHours => fileOf(name).runs[0]!
const sum = (values: Float64Array) => values.reduce((a, b) => a + b, 0)
const mean = (values: Float64Array) => sum(values) / values.length
const has = (name: Name) => existsSync(folder + FILES[name])
const codes = (name: Name) => fileOf(name).findings.map((f) => f.code)

test('the three mappings that come as examples are read', () => {
  for (const name of Object.values(MAPPINGS)) {
    const map = readColumnMapping(readFileSync(examples + name, 'utf8'))
    expect(map.ok ? [] : map.problems).toEqual([])
  }
})

describe.skipIf(!has('denver'))(
  'the validation climate, Denver (skipped by name where the file is not beside the project)',
  () => {
    // Case file-01: the file itself, github.com/NREL/BESTEST-GSR, shared_resources.
    test('file-01: rows, yearly sums, extremes and the first row', () => {
      const { columns, hoursCount, readingAtH } = runOf('denver')
      expect([hoursCount, readingAtH]).toEqual([8760, 1])
      expect(mean(columns.airC!)).toBeCloseTo(10.875, 3)
      expect([Math.min(...columns.airC!), Math.max(...columns.airC!)]).toEqual([-19.4, 40])
      expect(Math.abs(sum(columns.globalWPerM2!) / 1000 - 1670.2)).toBeLessThan(0.1)
      expect(Math.abs(sum(columns.diffuseWPerM2!) / 1000 - 556.5)).toBeLessThan(0.1)
      const first = (['airC', 'pressurePa', 'infraredWPerM2', 'windMPerS', 'cloudFrac'] as const).map((name) => columns[name]![0])
      expect(first).toEqual([-18, 83_700, 181, 0, 0.2])
      expect(columns.windFromDeg![0]).toBeNaN()
      expect(fileOf('denver').findings).toEqual([])
    })

    // ANSI/ASHRAE 140-2020 example results, as published in github.com/JasonGlazer/ashrae-140-automation: range of six programs, 2 % grace.
    test('tilt-05: a year of sun on walls and roof lies within the published programs', () => {
      const ranges = { south: [180, 1291, 1387], east: [90, 1017, 1068], west: [270, 903, 997], north: [0, 399, 477] } as const
      const ours = Object.fromEntries(
        Object.entries(ranges).map(([side, [facesDeg]]) => [side, sunOnPlaneKWhPerM2(runOf('denver'), 90, facesDeg)]),
      )
      for (const [side, [, least, most]] of Object.entries(ranges)) {
        expect(ours[side], side).toBeGreaterThan(0.98 * least)
        expect(ours[side], side).toBeLessThan(1.02 * most)
      }
      const roof = sunOnPlaneKWhPerM2(runOf('denver'), 0, 0)
      expect(roof).toBeGreaterThan(0.98 * 1663)
      expect(roof).toBeLessThan(1.02 * 1671)
    })

    // The same source: range of five programs.
    test('sky-03: a year of sky temperature lies within the published programs', () => {
      const sky = Float64Array.from(runOf('denver').columns.infraredWPerM2!, skyC)
      const [least, most] = [Math.min(...sky), Math.max(...sky)]
      expect(mean(sky)).toBeGreaterThan(-5.9)
      expect(mean(sky)).toBeLessThan(-2)
      expect(least).toBeGreaterThan(-46.9)
      expect(least).toBeLessThan(-38)
      expect(most).toBeGreaterThan(24.6)
      expect(most).toBeLessThan(30.1)
    })

    test('its infrared was not measured: the sky of Clark and Allen gives it back to a watt', () => {
      const { columns } = runOf('denver')
      let off = 0
      for (let i = 0; i < 8760; i++) {
        // The file’s own dew point, back from the vapour over ice below freezing.
        const dewC = dewOverFileC(columns.vapourPa![i]!)
        off += Math.abs(
          clarkAllenWPerM2({ airC: columns.airC![i]!, dewC, cloudFrac: columns.cloudFrac![i]! }) - columns.infraredWPerM2![i]!,
        )
      }
      expect(off / 8760).toBeLessThan(1)
    })
  },
)

describe.skipIf(!has('phoenix') || !has('bismarck'))(
  'typical years of Phoenix and Bismarck (skipped by name where the files are not beside the project)',
  () => {
    test('file-02: row 12 and yearly sums', () => {
      const { columns } = runOf('phoenix')
      const row = (
        ['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2', 'airC', 'pressurePa', 'windFromDeg', 'windMPerS'] as const
      ).map((n) => columns[n]![11])
      expect(row).toEqual([537, 867, 81, 16.7, 98_000, 90, 2.1])
      expect(fileOf('phoenix').hoursCount).toBe(8760)
      expect(mean(columns.airC!)).toBeCloseTo(23.803, 3)
      expect(Math.abs(sum(columns.globalWPerM2!) / 1000 - 2094.2)).toBeLessThan(0.1)
    })

    // By the file's own relative humidity, in whole per cent; by its dew point, in tenths of a degree, they are a little more.
    test('file-03: wet hours of ISO 9223, within the rounding of the humidity', () => {
      const wet = (name: Name) => weatherSummary(fileOf(name), null).wetH!
      expect(Math.abs(wet('phoenix') - 304)).toBeLessThan(0.06 * 304)
      expect(Math.abs(wet('bismarck') - 1506)).toBeLessThan(0.06 * 1506)
    })

    test('months whose years kept another clock are found one by one: Bismarck’s come from before and after a change of zone', () => {
      const said = fileOf('bismarck').findings.find((f) => f.code === 'weather/stamps-shifted')?.said
      expect(said).toContain('In January, April, June, October, December')
      expect(said).toContain('1 h earlier than stamped')
      expect(codes('phoenix')).not.toContain('weather/stamps-shifted')
    })
  },
)

describe.skipIf(!has('fairbanks') || !has('sandPoint'))(
  'typical years of Fairbanks and Sand Point (skipped by name where the files are not beside the project)',
  () => {
    test('file-06: the cold rows of Fairbanks speak of liquid water', () => {
      const { cold, hoursCount } = fileOf('fairbanks')
      expect(hoursCount).toBe(8760)
      expect(cold).toMatchObject({ rowsCount: 3264, over: 'liquid' })
      expect(cold!.liquidPct).toBeCloseTo(0.96, 1)
      expect(Math.abs(cold!.liquidPct - 0.96)).toBeLessThan(0.02)
      expect(Math.abs(cold!.icePct - 2.09)).toBeLessThan(0.02)
    })

    test.skipIf(!has('denver'))('file-06: those of the validation climate speak of ice', () => {
      const { cold } = fileOf('denver')
      expect(cold).toMatchObject({ rowsCount: 218, over: 'ice' })
      expect(Math.abs(cold!.liquidPct - 2.39)).toBeLessThan(0.02)
      expect(Math.abs(cold!.icePct - 0.24)).toBeLessThan(0.02)
    })

    test('a name in quotes and a missing code of −9900 are read', () => {
      expect([fileOf('sandPoint').hoursCount, fileOf('sandPoint').place.name]).toEqual([8760, 'SAND POINT, AK'])
    })
  },
)

describe.skipIf(!has('miami') || !has('poValley'))(
  'Miami and the Po valley (skipped by name where the files are not beside the project)',
  () => {
    test('file-04: fixed columns, hour ending 12 on 1 January', () => {
      const { columns, place } = runOf('miami')
      const row = (
        ['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2', 'cloudFrac', 'airC', 'pressurePa', 'windFromDeg', 'windMPerS'] as const
      ).map((n) => columns[n]![11])
      expect(row).toEqual([134, 0, 128, 1, 19.4, 101_600, 203, 5.7])
      expect([fileOf('miami').hoursCount, place.latitudeDeg, place.utcOffsetH]).toEqual([8760, 25.8, -5])
    })

    test('file-05: count, first row (by the local clock an hour later) and yearly sums', () => {
      const { columns } = runOf('poValley')
      expect(fileOf('poValley').hoursCount).toBe(8760)
      expect([columns.airC![1], columns.infraredWPerM2![1], columns.windMPerS![1], columns.pressurePa![1]]).toEqual([
        2.04, 283.58, 0.75, 99_870,
      ])
      expect(mean(columns.airC!)).toBeCloseTo(13.564, 3)
      expect(Math.abs(sum(columns.globalWPerM2!) / 1000 - 1435.9)).toBeLessThan(0.1)
      expect(codes('poValley')).toEqual([])
    })
  },
)

describe.skipIf(!has('montreal') || !has('beijing') || !has('sodankyla'))(
  'three observed records (skipped by name where the files are not beside the project)',
  () => {
    test('a leap year is kept whole; a record without sun and cloud is refused for the air inside a box unless it is filled', () => {
      expect([fileOf('montreal').hoursCount, fileOf('montreal').years, fileOf('montreal').refusedForAir.length]).toEqual([
        8784,
        [2012],
        1,
      ])
      expect(fileOf('montreal', true).refusedForAir).toEqual([])
    })

    test('five years become five runs', () => {
      expect(fileOf('beijing').hoursCount).toBe(43_824)
      expect(fileOf('beijing').runs.map((r) => [r.year, r.hoursCount])).toEqual(
        [2010, 2011, 2012, 2013, 2014].map((y) => [y, y === 2012 ? 8784 : 8760]),
      )
      // 1.79 m/s is the first step of its running sum, and the least that it knows.
      expect(Math.min(...fileOf('beijing').runs[0]!.columns.windMPerS!)).toBeCloseTo(0.45, 2)
    })

    test('a year from October to September, stamped at the end of the hour in UTC, has its noon with the sun', () => {
      const file = fileOf('sodankyla')
      expect([file.hoursCount, file.years, codes('sodankyla')]).toEqual([8760, [2013, 2014], []])
      const run = file.runs[0]!
      // 30 September at 24:00 UTC is 1 October, 2:00 by the clock there, less the hour that the row covers.
      expect([run.firstDay, run.firstHour, run.lightSplit]).toEqual([274, 2, true])
    })

    test('their months agree with the normals that were drawn from the same records', () => {
      for (const name of ['montreal', 'sodankyla', 'beijing', 'poValley'] as const) {
        const file = fileOf(name)
        for (const m of weatherSummary(file, normalsNear(file.place)).months)
          if (m.airC !== null && m.normalAirC !== null)
            expect(Math.abs(m.airC - m.normalAirC), `${name} ${m.month}`).toBeLessThan(0.15)
      }
    })
  },
)

/** Perez on the sky, ground of 0.2, the sun at the middle of the lit part of each hour. */
function sunOnPlaneKWhPerM2(run: WeatherHours, slopeDeg: number, facesDeg: number): number {
  const path = sunPathOf(run)
  const normal = planeNormal({ slopeDeg, facesDeg })
  const { globalWPerM2, beamWPerM2, diffuseWPerM2 } = run.columns as Record<string, Float64Array>
  const brightness = { sunRatio: 0, horizonRatio: 0 }
  const [cosSlope, sinSlope] = [slopeDeg === 0 ? 1 : 0, slopeDeg === 0 ? 0 : 1]
  let all = 0
  for (let i = 0; i < run.hoursCount; i++) {
    const up = path.upRatio[i]!
    const [beam, diffuse, global] = [beamWPerM2![i]!, diffuseWPerM2![i]!, globalWPerM2![i]!]
    all += 0.2 * global * 0.5 * (1 - cosSlope)
    if (path.litFrac[i]! === 0) {
      all += diffuse * 0.5 * (1 + cosSlope)
      continue
    }
    const cosIn = path.eastRatio[i]! * normal.eastRatio + path.northRatio[i]! * normal.northRatio + up * normal.upRatio
    const zenith = Math.acos(Math.min(1, up))
    const mass = 1 / (up + 0.50572 * (96.07995 - (zenith * 180) / Math.PI) ** -1.6364)
    fillBrightness(brightness, beam, diffuse, PHYSICS.solarWPerM2 * path.distanceRatio[i]!, zenith, Math.max(1, mass))
    all += perezWPerM2(brightness, diffuse, cosIn, up, cosSlope, sinSlope) + path.litFrac[i]! * beam * Math.max(0, cosIn)
  }
  return all / 1000
}

/** Dew point over ice below freezing, as this file prints it: bisection on the published saturation pressures. */
function dewOverFileC(vapourPa: number): number {
  let [low, high] = [-60, 40]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    const p = middle < 0 ? icePa(middle) : liquidPa(middle)
    if (p < vapourPa) low = middle
    else high = middle
  }
  return (low + high) / 2
}
