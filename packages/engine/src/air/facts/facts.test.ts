import { describe, expect, test } from 'vitest'
import { type Job, PAINTS, readJob } from '../../job/index.ts'
import { OUTSIDE_COATS } from '../surface/optics.ts'
import { airAsBuilt, builtAirOf, foamIn, heaterIn, ventsIn } from './built.ts'
import { airSiteOf } from './site.ts'

function job(site: string, boxes = '[{ id: yard }]'): Job {
  const read = readJob(`plugstead: 1\nrules: { set: us }\nfacts:\n  site: ${site}\nboxes: ${boxes}\n`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

describe('words of a box that stands', () => {
  test.each<[string, ReturnType<typeof foamIn>]>([
    ['none', { roofM: 0, wallM: 0 }],
    ['50 mm foam on roof and walls', { roofM: 0.05, wallM: 0.05 }],
    ['2 in spray foam, roof', { roofM: 0.0508, wallM: 0 }],
    ['25 mm foam on the walls', { roofM: 0, wallM: 0.025 }],
    ['foamed, 40 mm', { roofM: 0.04, wallM: 0.04 }],
    ['50 mm foam on the roof, 25 mm on the walls', null],
    ['50 mm mineral wool', null],
    ['some foam', null],
  ])('insulation “%s”', (words, expected) => expect(foamIn(words)).toEqual(expected))

  test.each<[string, ReturnType<typeof heaterIn>]>([
    ['none', 'none'],
    ['500 W on the end wall', { powerW: 500, at: 'room' }],
    ['0.1 kW in the cabinet', { powerW: 100, at: 'cabinet' }],
    ['500 W and 100 W', null],
    ['small', null],
  ])('heater “%s”', (words, expected) => expect(heaterIn(words)).toEqual(expected))

  test('vents: how many low and high, the free area of each, the mesh', () => {
    expect(ventsIn('two low and two high, always open, 180 cm2 free each, 3 mm mesh')).toEqual([
      { id: 'vent low 1', low: true, freeM2: expect.closeTo(0.018, 12), meshMm: 3 },
      { id: 'vent low 2', low: true, freeM2: expect.closeTo(0.018, 12), meshMm: 3 },
      { id: 'vent high 1', low: false, freeM2: expect.closeTo(0.018, 12), meshMm: 3 },
      { id: 'vent high 2', low: false, freeM2: expect.closeTo(0.018, 12), meshMm: 3 },
    ])
    expect(
      ventsIn('2 low, 162 cm2 free each; 2 high, 180 cm2 free each')!.map((v) => [v.id, Math.round(v.freeM2 * 1e4)]),
    ).toEqual([
      ['vent low 1', 162],
      ['vent low 2', 162],
      ['vent high 1', 180],
      ['vent high 2', 180],
    ])
    expect(ventsIn('1 low, 162 cm2 free each; 1 low, 180 cm2 free each')).toBeNull()
    expect(ventsIn('none')).toEqual([])
    for (const words of ['two vents', 'one low, 180 cm2', 'one low 100 cm2 each and one high 200 cm2 each', '1 × vent, low'])
      expect(ventsIn(words), words).toBeNull()
  })

  test('what is not told is missing and what cannot be read is unread, each with its mend', () => {
    const standing = { ...job('{}'), builtBody: { vents: 'many', insulation: 'none' } as never }
    const found = builtAirOf(standing)!
    expect(found.value).toEqual({ roofFoamM: 0, wallFoamM: 0, heater: null, vents: null })
    expect(found.notes.map((n) => [n.kind, n.path, n.mend !== ''])).toEqual([
      ['missing', 'facts.built.heater', true],
      ['unread', 'facts.built.vents', true],
    ])
    expect(builtAirOf(job('{}'))).toBeNull()
    expect(builtAirOf({ ...standing, boxes: [...standing.boxes, ...standing.boxes] })).toBeNull()
  })

  test('what is told of it stands in place of the design’s', () => {
    const air = { roofFoamM: 0, wallFoamM: 0, heater: { at: 'room', powerW: 500, onBelowC: 5, humidistat: false } } as never
    const built = { roofFoamM: 0.05, wallFoamM: null, heater: 'none', vents: null } as const
    expect(airAsBuilt(air, built)).toEqual({ roofFoamM: 0.05, wallFoamM: 0, heater: null })
    // A pin is a change to the box that stands.
    expect(airAsBuilt(air, built, new Set(['heater', 'roof-foam']))).toEqual(air)
    expect(airAsBuilt(air, { ...built, heater: { powerW: 100, at: 'cabinet' } }).heater).toEqual({
      ...{ at: 'cabinet', powerW: 100, onBelowC: 5, humidistat: false },
    })
  })
})

describe('site', () => {
  test('place, terrain and ground are read, and nothing is said of what was told', () => {
    const told = airSiteOf(
      job(
        '{ place: Elk Flat, latitude: 47.5 deg, longitude: -114.6 deg, elevation: 2450 m, time-zone: UTC-7, kind: open hill, ground: { surface: asphalt on till } }',
      ),
    )
    expect(told).toEqual({
      value: {
        place: { name: 'Elk Flat', latitudeDeg: 47.5, longitudeDeg: -114.6, elevationM: 2450, utcOffsetH: -7 },
        terrain: 'open',
        groundSurface: 'asphalt',
      },
      notes: [],
    })
  })

  test('without a place there is no sun; without an offset the longitude gives it', () => {
    expect(airSiteOf(job('{}')).value.place).toBeNull()
    expect(airSiteOf(job('{}')).notes.map((n) => [n.kind, n.path])).toEqual([
      ['missing', 'facts.site.latitude'],
      ['missing', 'facts.site.longitude'],
      ['assumed', 'facts.site.kind'],
      ['assumed', 'facts.site.ground.surface'],
    ])
    const west = airSiteOf(job('{ latitude: 47.5 deg, longitude: -114.6 deg, time-zone: America/Denver }'))
    expect(west.value.place).toMatchObject({ utcOffsetH: -8, elevationM: 0 })
    expect(west.notes.map((n) => n.path)).toContain('facts.site.time-zone')
    expect(west.notes.map((n) => n.path)).toContain('facts.site.elevation')
  })

  test.each([
    ['concrete over rubble fill', 'concrete'],
    ['packed snow on frozen gravel', 'snow (settled)'],
    ['blasted rock and fines', 'bare soil'],
    ['crushed rock', 'bare soil'],
  ])('ground “%s” is %s', (surface, row) => {
    expect(airSiteOf(job(`{ ground: { surface: ${surface} } }`)).value.groundSurface).toBe(row)
  })

  test('a ground nothing here knows is said', () => {
    const { notes } = airSiteOf(job('{ ground: { surface: moss } }'))
    expect(notes.find((n) => n.kind === 'unread')?.said).toContain('“moss”')
  })
})

test('paints that a person can name are the coats that have figures', () => {
  expect([...PAINTS].toSorted()).toEqual([...OUTSIDE_COATS].toSorted())
})
