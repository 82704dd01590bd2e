import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { normalsNear } from '../normals.ts'
import { saturationOverIcePa, saturationOverLiquidPa } from '../saturation.ts'
import { clarkAllenWPerM2 } from '../sky.ts'
import type { WeatherHours } from '../types.ts'
import { readColumnMapping, readWeather, type WeatherFile, weatherSummary } from './index.ts'

const own = fileURLToPath(new URL('../../../data/weather/', import.meta.url))
const shared = fileURLToPath(new URL('../../../../../../shared/data/weather/', import.meta.url))
const examples = fileURLToPath(new URL('../../../../../examples/weather/', import.meta.url))

/** The first six come with the project; the others are read where they lie beside it. */
const FILES = {
  denver: 'denver-co_725650TYCST.epw.gz',
  phoenix: 'phoenix-az_722780TYA.csv.gz',
  bismarck: 'bismarck-nd_727640TYA.csv.gz',
  fairbanks: 'fairbanks-ak_702610TYA.csv.gz',
  miami: 'miami-fl_12839.tm2.gz',
  poValley: 'po-valley-it_pvgis_tmy_45.000_8.000_2005_2023.csv.gz',
  sandPoint: 'sand-point-ak_703165TY.csv.gz',
  montreal: 'montreal-qc_2012_hourly.csv.gz',
  sodankyla: 'sodankyla-fi_2013-10_2014-09_met.txt.gz',
  beijing: 'beijing-cn_2010-2014_hourly.csv.gz',
} as const
type Name = keyof typeof FILES
const MAPPINGS: Partial<Record<Name, string>> = {
  montreal: 'montreal-qc_2012_hourly.columns.yaml',
  sodankyla: 'sodankyla-fi_2013-10_2014-09_met.columns.yaml',
  beijing: 'beijing-cn_2010-2014_hourly.columns.yaml',
}

const pathOf = (name: Name) => (existsSync(own + FILES[name]) ? own : shared) + FILES[name]
const has = (name: Name) => existsSync(pathOf(name))
const kept = new Map<string, WeatherFile>()
function fileOf(name: Name, fillFromNormals = false): WeatherFile {
  const key = `${name} ${fillFromNormals}`
  const before = kept.get(key)
  if (before !== undefined) return before
  const text = new TextDecoder('latin1').decode(gunzipSync(readFileSync(pathOf(name))))
  const map = MAPPINGS[name] === undefined ? null : readColumnMapping(readFileSync(examples + MAPPINGS[name], 'utf8'))
  if (map !== null && !map.ok) throw new Error(JSON.stringify(map.problems))
  const read = readWeather(text, { ...(map === null ? {} : { columns: map.value }), fillFromNormals })
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)))
  kept.set(key, read.value)
  return read.value
}
const runOf = (name: Name): WeatherHours => fileOf(name).runs[0]!
const codes = (name: Name) => fileOf(name).findings.map((f) => f.code)

test('the three mappings that come as examples are read', () => {
  for (const name of Object.values(MAPPINGS)) {
    const map = readColumnMapping(readFileSync(examples + name, 'utf8'))
    expect(map.ok ? [] : map.problems).toEqual([])
  }
})

describe('six typical years, each in whole (their figures are the published cases file-01 to file-06)', () => {
  test.each(['denver', 'phoenix', 'bismarck', 'fairbanks', 'miami', 'poValley'] as const)(
    '%s: 8760 hours from 1 January, with all that a box asks for',
    (name) => {
      const file = fileOf(name)
      const run = file.runs[0]!
      expect([file.hoursCount, file.typical, run.firstDay, run.firstHour, file.refusedForAir]).toEqual([8760, true, 1, 0, []])
      for (const column of [
        'airC',
        'vapourPa',
        'pressurePa',
        'windMPerS',
        'globalWPerM2',
        'beamWPerM2',
        'diffuseWPerM2',
      ] as const)
        expect(
          run.columns[column]!.some((v) => Number.isNaN(v)),
          column,
        ).toBe(false)
      expect(file.findings.filter((f) => f.verdict === 'fails')).toEqual([])
    },
  )

  test('nothing speaks against the validation climate and the Po valley', () => {
    expect([codes('denver'), codes('poValley')]).toEqual([[], []])
  })

  test('the validation climate was given its infrared by dew point and cloud: Clark and Allen give it back to a watt', () => {
    const { columns } = runOf('denver')
    let off = 0
    for (let i = 0; i < 8760; i++) {
      const dewC = dewOverFileC(columns.vapourPa![i]!)
      off += Math.abs(
        clarkAllenWPerM2({ airC: columns.airC![i]!, dewC, cloudFrac: columns.cloudFrac![i]! }) - columns.infraredWPerM2![i]!,
      )
    }
    expect(off / 8760).toBeLessThan(1)
  })

  test('months whose years kept another clock are found one by one', () => {
    const said = (name: Name) => fileOf(name).findings.find((f) => f.code === 'weather/stamps-shifted')?.said
    expect(said('bismarck')).toContain('In January, April, June, October, December')
    expect(said('bismarck')).toContain('1 h earlier than stamped')
    expect(said('fairbanks')).toContain('In February, March, May, June, July, August, September, October')
    expect(said('fairbanks')).toContain('1 h later than stamped')
    expect([said('phoenix'), said('miami'), said('denver')]).toEqual([undefined, undefined, undefined])
  })

  // Phoenix has about 200 mm of rain a year (common knowledge of its climate); read as printed it would have over 1100.
  test('rain of the third set is tenths of a millimetre by its own depths, whatever its heading says', () => {
    const rainMm = (name: Name) => runOf(name).columns.rainMm!.reduce((n, v) => n + (Number.isNaN(v) ? 0 : v), 0)
    for (const [name, least, most] of [
      ['phoenix', 80, 350],
      ['bismarck', 150, 650],
      ['fairbanks', 80, 400],
      ['denver', 200, 600],
    ] as const) {
      expect(rainMm(name), name).toBeGreaterThan(least)
      expect(rainMm(name), name).toBeLessThan(most)
    }
  })

  test('the first hour by the clock of the Po valley is the last of December by UTC', () => {
    const { columns } = runOf('poValley')
    expect([columns.airC![0], columns.airC![1]]).toEqual([2.1, 2.04])
  })
})

describe.skipIf(!has('sandPoint'))('Sand Point (skipped by name where the file is not beside the project)', () => {
  test('a name in quotes and a missing code of −9900 are read; depths of 250 mm in an hour are not taken', () => {
    expect([fileOf('sandPoint').hoursCount, fileOf('sandPoint').place.name, codes('sandPoint')]).toEqual([
      8760,
      'SAND POINT, AK',
      ['weather/out-of-range'],
    ])
  })
})

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
      // The least step of its running sum.
      expect(Math.min(...fileOf('beijing').runs[0]!.columns.windMPerS!)).toBeCloseTo(0.45, 2)
    })

    test('a year from October to September, stamped at the end of the hour in UTC, has its noon with the sun', () => {
      const file = fileOf('sodankyla')
      expect([file.hoursCount, file.years, codes('sodankyla')]).toEqual([8760, [2013, 2014], []])
      const run = file.runs[0]!
      // 1:00 UTC ends the first row: it begins at 0:00 UTC, 2:00 by the clock there.
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

/** Dew point over ice below freezing, as this file prints it: bisection on the saturation pressures. */
function dewOverFileC(vapourPa: number): number {
  let [low, high] = [-60, 40]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    const p = middle < 0 ? saturationOverIcePa(middle) : saturationOverLiquidPa(middle)
    if (p < vapourPa) low = middle
    else high = middle
  }
  return (low + high) / 2
}
