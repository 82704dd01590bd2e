import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { globe } from 'astronomia'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { allNormals, normalNamed, normalsByDistance, normalsNear, overGroundM } from './normals.ts'

const fault = (code: string) => expect.objectContaining({ code })

test('there are 44 places, each with twelve highest and lowest temperatures, a source and a provenance', () => {
  expect(allNormals()).toHaveLength(44)
  for (const n of allNormals()) {
    expect(n.highestC, n.name).toHaveLength(12)
    expect(n.lowestC, n.name).toHaveLength(12)
    for (let m = 0; m < 12; m++) expect(n.highestC[m], `${n.name}, month ${m + 1}`).toBeGreaterThan(n.lowestC[m]!)
    expect(n.rests.place, n.name).not.toBe('')
    expect(['read', 'memory'], n.name).toContain(n.rests.provenance)
  }
  expect(new Set(allNormals().map((n) => n.id)).size).toBe(44)
})

test('what a source does not give is null, never a number', () => {
  expect(normalNamed('montreal-2012')?.sunKWhPerM2).toBeNull()
  expect(normalNamed('beijing')?.windMPerS).toBeNull()
  expect(normalNamed('kiruna')?.relativePct).toBeNull()
  expect(normalNamed('703165')?.design.heating_99_6_C).toBeUndefined()
})

test('a place is found by its id or its name in any case, and not by a part of it', () => {
  expect(normalNamed(' BEIJING ')?.id).toBe('beijing')
  expect(normalNamed('kiruna, sweden')?.id).toBe('kiruna')
  expect(normalNamed('kiru')).toBeUndefined()
})

test('a recalled handbook figure stays memory beside means that were read', () => {
  const fairbanks = normalNamed('702610')!
  expect(fairbanks.rests.provenance).toBe('read')
  expect(fairbanks.design.heating_99_6_C?.rests.provenance).toBe('memory')
  expect(fairbanks.design.file_min_C?.rests.provenance).toBe('read')
  expect(normalNamed('yellowknife')?.rests.provenance).toBe('memory')
})

test('the nearest place is told with its distance and how much higher the site is', () => {
  const near = normalsNear({ latitudeDeg: 46.0, longitudeDeg: -100.75, elevationM: 700 })
  expect(near.normal.id).toBe('727640')
  expect(near.said).toBe('Bismarck Municipal Arpt [Isis], ND, USA, 86 km away; the site is 198 m higher')
  const at = normalsNear(normalNamed('kuwait')!)
  expect(at.said).toBe('Kuwait International Airport, Kuwait, at the site; the site is at the same height')
  expect(normalsNear({ ...normalNamed('kuwait')!, elevationM: 5 }).said).toContain('the site is 50 m lower')
})

test('over the date line the short way round is taken', () => {
  const a = { latitudeDeg: 10, longitudeDeg: 179.5, elevationM: 0 }
  const b = { latitudeDeg: 10, longitudeDeg: -179.5, elevationM: 0 }
  expect(overGroundM(a, b)).toBeCloseTo(109_505, -2)
})

test('distance agrees with an ellipsoid’s within 0.6 % (astronomia, Meeus, Astronomical Algorithms, ch. 11)', () => {
  const rad = Math.PI / 180
  const at = fc.record({
    latitudeDeg: fc.double({ min: -89, max: 89, noNaN: true }),
    longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
    elevationM: fc.constant(0),
  })
  fc.assert(
    fc.property(at, at, (a, b) => {
      const coord = (s: typeof a) => new globe.Coord(s.latitudeDeg * rad, s.longitudeDeg * rad)
      const theirs = globe.Earth76.distance(coord(a), coord(b)) * 1000
      fc.pre(theirs > 1000 && theirs < 19_000_000)
      expect(Math.abs(overGroundM(a, b) / theirs - 1)).toBeLessThan(0.006)
    }),
    { seed: 44, numRuns: 500 },
  )
})

test('all places come in order of distance, and a spot off the Earth is refused', () => {
  const all = normalsByDistance({ latitudeDeg: 60, longitudeDeg: 25, elevationM: 20 })
  for (let i = 1; i < all.length; i++) expect(all[i]!.distanceM).toBeGreaterThanOrEqual(all[i - 1]!.distanceM)
  expect(() => normalsNear({ latitudeDeg: 91, longitudeDeg: 0, elevationM: 0 })).toThrow(fault('weather/spot-range'))
  expect(() => normalsNear({ latitudeDeg: Number.NaN, longitudeDeg: 0, elevationM: 0 })).toThrow(fault('weather/spot-range'))
})

const reference = fileURLToPath(new URL('../../../../../shared/reference/climate-normals.yaml', import.meta.url))

describe.skipIf(!existsSync(reference))(
  'carried over from the reference normals (skipped by name where they are not beside the project)',
  () => {
    type Printed = Record<string, unknown> & { id: string; design: Record<string, unknown> }
    const printed = existsSync(reference) ? (parse(readFileSync(reference, 'utf8')) as { places: Printed[] }).places : []
    test('there is something to compare', () => expect(printed).toHaveLength(44))
    test.each(printed.map((p) => [p.id, p] as const))('%s: every monthly value, place and design figure', (id, p) => {
      const ours = normalNamed(id)!
      const list = (key: string) => {
        const value = p[key] as (number | null)[] | undefined
        return value === undefined || value.every((v) => v === null) ? null : value.map((v) => (v === 0 ? 0 : v))
      }
      expect([ours.latitudeDeg, ours.longitudeDeg, ours.elevationM, ours.utcOffsetH, ours.name, ours.period]).toEqual(
        ['lat_deg', 'lon_deg', 'elevation_m', 'utc_offset_h', 'name', 'period'].map((key) => p[key]),
      )
      expect([ours.highestC, ours.lowestC, ours.meanC, ours.relativePct, ours.dewPointC]).toEqual(
        ['t_max_C', 't_min_C', 't_mean_C', 'rh_pct', 'dew_point_C'].map(list),
      )
      expect([ours.windMPerS, ours.sunKWhPerM2, ours.dailyMeanSpreadK]).toEqual(
        ['wind_m_s', 'ghi_kwh_m2_day', 'sd_of_daily_mean_K'].map(list),
      )
      expect(ours.snowLies.map(Number)).toEqual(p.snow_cover)
      expect([ours.yearWindMPerS, ours.yearRelativePct, ours.address]).toEqual(
        ['wind_annual_m_s', 'rh_annual_pct', 'address'].map((key) => p[key] ?? null),
      )
      const theirs = Object.entries(p.design).filter(([, v]) => typeof v === 'number')
      expect(Object.fromEntries(Object.entries(ours.design).map(([k, v]) => [k, v.value]))).toEqual(Object.fromEntries(theirs))
      if (String(p.provenance).includes('memory')) expect(ours.rests.provenance).toBe('memory')
      else expect(ours.rests.provenance).toBe('read')
    })
  },
)
