import { describe, expect, test } from 'vitest'
import { type AirChoice, airPath, airPinsOf, ventPlacesSaid } from './air-pins.ts'
import { consistencyFindings, type Job } from './index.ts'
import { PAINTS, paintsSaid } from './paint.ts'
import { readJob } from './read.ts'

const pin = (choice: AirChoice, value: string | number | boolean) => ({
  path: airPath('yard', choice),
  value,
  by: 'me',
  why: 'a test',
})
const read = (choice: AirChoice, value: string | number | boolean) => airPinsOf([pin(choice, value)], 'yard')

describe('what a person pins of air', () => {
  test('each choice is read in its own words', () => {
    expect(read('roof-paint', 'white').roofPaint).toBe('white epoxy, clean')
    expect(read('wall-paint', 'black').wallPaint).toBe('black')
    expect(read('roof-foam', '50 mm').roofFoamM).toBeCloseTo(0.05, 12)
    expect(read('roof-foam', '2 in').roofFoamM).toBeCloseTo(0.0508, 12)
    expect(read('wall-foam', 'no').wallFoamM).toBe(0)
    expect(read('bridges-foamed', true).bridgesFoamed).toBe(true)
    expect(read('second-roof', 'yes').secondRoof).toBe(true)
    expect(read('vents', '400 x 250 mm').vents).toEqual({ widthMm: 400, heightMm: 250 })
    expect(read('vents', '12 x 10.5 in').vents).toEqual({ widthMm: expect.closeTo(304.8, 9), heightMm: expect.closeTo(266.7, 9) })
    expect(read('vents', 'no').vents).toBe('no')
    expect(read('vent-places', 'low right 450 mm, high left 1.9 m').ventPlaces).toEqual({
      low: { side: 'right', upMm: 450 },
      high: { side: 'left', upMm: 1900 },
    })
    expect(read('vent-places', 'high 70 in').ventPlaces).toEqual({
      low: { side: null, upMm: null },
      high: { side: null, upMm: expect.closeTo(1778, 6) },
    })
    expect(read('vent-places', 'low blind end').ventPlaces?.low).toEqual({ side: 'blind end', upMm: null })
    expect(read('winter-open', '30 %').winterOpenFrac).toBeCloseTo(0.3, 12)
    expect(read('winter-open', 0).winterOpenFrac).toBe(0)
    expect(read('fan', '12 W solar').fan).toEqual({ powerW: 12, solar: true, onAboveC: null, byHumidity: false })
    expect(read('fan', '60 W above 28 C by humidity').fan).toEqual({ powerW: 60, solar: false, onAboveC: 28, byHumidity: true })
    expect(read('heater', '0.15 kW cabinet below 36 F').heater).toEqual({
      powerW: 150,
      at: 'cabinet',
      onBelowC: expect.closeTo(2.22, 2),
    })
    expect(read('heater', false).heater).toBe('no')
    expect(read('humidistat', 'no').humidistat).toBe(false)
    expect(read('drip-hood', true).dripHood).toBe(true)
    expect(read('floor-painted', 'yes').floorPainted).toBe(true)
  })

  test.each([
    ['roof-paint', 'lovely'],
    ['wall-paint', 'white and black'],
    ['roof-foam', '50'],
    ['wall-foam', '2 m'],
    ['vents', '300 mm'],
    ['vents', '20 x 20 mm'],
    ['vents', '12 x 12 ft'],
    ['vent-places', 'low'],
    ['vent-places', 'middle 900 mm'],
    ['vent-places', 'low right 20 mm'],
    ['vent-places', 'low right 450'],
    ['vent-places', 'low roof 450 mm'],
    ['vent-places', 'low 450 mm, low 500 mm'],
    ['winter-open', '130 %'],
    ['winter-open', ''],
    ['fan', 'a big one'],
    ['fan', '60 W sometimes'],
    ['heater', '1500 W'],
    ['heater', '1500 W attic'],
    ['humidistat', 'perhaps'],
  ] as const)('%s “%s” cannot be read, and is kept apart with what is wanted', (choice, value) => {
    const { unread, ...rest } = read(choice, value)
    expect(unread.map((u) => u.pin.path)).toEqual([`air.yard.${choice}`])
    expect(unread[0]?.wanted.length).toBeGreaterThan(5)
    expect(Object.values(rest).every((v) => v === null)).toBe(true)
  })

  test('one that cannot be read, or that no box answers to, is said as unknown; one that can is not', () => {
    const text = 'plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard }\nchoices:\n'
    const job = (path: string, value: string): Job => {
      const found = readJob(`${text}  ${path}: { value: "${value}", by: me, why: a test }\n`)
      if (!found.ok) throw new Error(JSON.stringify(found.problems))
      return found.value
    }
    const said = (path: string, value: string) =>
      consistencyFindings(job(path, value))
        .filter((f) => f.code === 'needs/pin-unknown')
        .map((f) => [f.verdict, f.said])
    expect(said('air.yard.roof-foam', '50 mm')).toEqual([])
    expect(said('air.yard.roof-foam', 'thick')).toEqual([
      ['unknown', expect.stringContaining('“thick” cannot be read; wanted is')],
    ])
    expect(said('air.yrd.roof-foam', '50 mm')).toEqual([['unknown', expect.stringContaining('Did you mean “yard”?')]])
    expect(said('air.yard.windows', 'yes')).toEqual([['unknown', expect.stringContaining('was not taken')]])
  })
})

test('a pin of the skin that is taken was said not to be', () => {
  const said = (value: string) => {
    const read = readJob(
      `plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard }\nchoices:\n  skin.yard.${value}, by: me, why: a test }\n`,
    )
    if (!read.ok) throw new Error(JSON.stringify(read.problems))
    return consistencyFindings(read.value).filter((f) => f.code === 'needs/pin-unknown')
  }
  expect(said('door: { value: no')).toEqual([])
  expect(said('way: { value: gland plate')).toEqual([])
  expect(said('ploughed: { value: true')).toEqual([])
  expect(said('way: { value: through the roof').map((f) => f.said)).toEqual([
    expect.stringContaining('cannot be read; wanted is one of'),
  ])
})

test('places of vents that are written as words are read back as they were', () => {
  const vents = [
    { low: true, side: 'right', upMm: 450 },
    { low: false, side: 'blind end', upMm: 1937 },
  ] as const
  expect(read('vent-places', ventPlacesSaid(vents)).ventPlaces).toEqual({
    low: { side: 'right', upMm: 450 },
    high: { side: 'blind end', upMm: 1937 },
  })
})

describe('paint in words', () => {
  test.each([
    ['white', 'white epoxy, clean', 'white epoxy, clean'],
    ['white, roof reflecting', 'white TiO2 coating, clean', 'white epoxy, clean'],
    ['pale grey, marine system', 'light grey, beige', 'light grey, beige'],
    ['light grey', 'light grey, beige', 'light grey, beige'],
    ['dark green, as the hill demands', 'dark blue', 'dark blue'],
    ['dark red', 'dark blue', 'dark blue'],
    ['grey, white roof', 'white epoxy, clean', 'green, orange, mid blue'],
    ['rusty', 'weathering steel, rust coat', 'weathering steel, rust coat'],
  ])('“%s”', (words, roof, walls) => expect(paintsSaid(words)).toEqual({ roof, walls }))

  test('words without a colour, or with two for one place, are not read', () => {
    for (const words of ['nice', 'white, black', 'red walls, roof cool', 'white, white roof, black roof', 'whitewater'])
      expect(paintsSaid(words), words).toBeNull()
  })

  test('every row of the table reads as itself', () => {
    for (const row of PAINTS) expect(paintsSaid(row)).toEqual({ roof: row, walls: row })
  })
})
