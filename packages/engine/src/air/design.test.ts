import { describe, expect, test } from 'vitest'
import { boxBody } from '../box/index.ts'
import type { AirDesign, BoxDesign, Job } from '../job/index.ts'
import { airPinsOf, readJob } from '../job/index.ts'
import { airAsCut, airWith, designAir } from './design.ts'
import { paintsOf } from './facts/paint.ts'

function jobWith(more = ''): Job {
  const read = readJob(`plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard, length: 20 ft, heated: no }\n${more}`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
const pinned = (choice: string, value: string) =>
  jobWith(`choices:\n  air.yard.${choice}: { value: "${value}", by: me, why: a test }\n`)

/** A design with no more of it than air reads. */
const wiredFor = (...own: readonly (readonly ['fan' | 'heater', number])[]) =>
  [{ box: 'yard', circuits: own.map(([kind, powerW]) => ({ own: kind, ownLoad: { powerW } })) }] as unknown as BoxDesign[]

function designed(job: Job, designs = wiredFor(['heater', 500], ['fan', 60])): AirDesign {
  return designAir({ job, body: boxBody(job.boxes[0]!, null), designs })
}

describe('what a box is built with against heat and damp', () => {
  const plain = designed(jobWith())

  test('nobody said: a low vent and a fan across the box from it, 300 mm square, and the heater that it is wired for', () => {
    expect(plain.vents.map((v) => [v.id, v.side, v.widthMm, v.heightMm, v.fan])).toEqual([
      ['vent low', 'right', 300, 300, false],
      ['fan', 'left', 300, 300, true],
    ])
    expect(plain.fan).toEqual({ powerW: 60, solar: false, onAboveC: 30, byHumidity: false })
    expect(plain.heater).toEqual({ at: 'room', powerW: 500, onBelowC: 5, humidistat: false })
    expect([plain.roofFoamM, plain.wallFoamM, plain.winterOpenFrac]).toEqual([0, 0, 1])
    expect([plain.bridgesFoamed, plain.secondRoof, plain.dripHood, plain.floorPainted]).toEqual([false, false, false, false])
  })

  test('a box that is wired for neither has two vents and no heater', () => {
    const bare = designed(jobWith(), wiredFor())
    expect(bare.vents.map((v) => [v.id, v.fan])).toEqual([
      ['vent low', false],
      ['vent high', false],
    ])
    expect([bare.fan, bare.heater]).toEqual([null, null])
  })

  test('what the box is to be kept at is where its heater comes on', () => {
    const read = readJob('plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard, heated: -10 C }\n')
    if (!read.ok) throw new Error('job')
    expect(designed(read.value).heater?.onBelowC).toBe(-10)
  })

  test.each<[string, string, Partial<AirDesign>]>([
    ['roof-paint', 'white', { roofPaint: 'white epoxy, clean' }],
    ['wall-paint', 'light grey', { wallPaint: 'light grey, beige' }],
    ['roof-foam', '50 mm', { roofFoamM: 0.05 }],
    ['wall-foam', '25 mm', { wallFoamM: 0.025 }],
    ['bridges-foamed', 'yes', { bridgesFoamed: true }],
    ['second-roof', 'yes', { secondRoof: true }],
    ['winter-open', '20 %', { winterOpenFrac: 0.2 }],
    ['drip-hood', 'yes', { dripHood: true }],
    ['floor-painted', 'yes', { floorPainted: true }],
    ['humidistat', 'yes', { heater: { at: 'room', powerW: 500, onBelowC: 5, humidistat: true } }],
    ['heater', '150 W cabinet below 2 C', { heater: { at: 'cabinet', powerW: 150, onBelowC: 2, humidistat: false } }],
    ['heater', 'no', { heater: null }],
  ])('a pin on %s, “%s”, changes that and nothing else', (choice, value, change) => {
    expect(designed(pinned(choice, value))).toEqual({ ...plain, ...change })
  })

  test('pinned vents take their size, keep the low one’s sill and the high one’s head, and “no” leaves the hole of a fan', () => {
    const { vents } = designed(pinned('vents', '500 x 400 mm'))
    expect(vents.map((v) => [v.widthMm, v.heightMm])).toEqual([
      [500, 400],
      [500, 400],
    ])
    const ends = (v: AirDesign['vents'][number]) => [v.upMm - v.heightMm / 2, v.upMm + v.heightMm / 2]
    expect(ends(vents[0]!)[0]).toBeCloseTo(ends(plain.vents[0]!)[0]!, 9)
    expect(ends(vents[1]!)[1]).toBeCloseTo(ends(plain.vents[1]!)[1]!, 9)
    expect(designed(pinned('vents', 'no')).vents.map((v) => v.id)).toEqual(['fan'])
    expect(designed(pinned('vents', 'no'), wiredFor()).vents).toEqual([])
  })

  test('pinned places move the vents and leave their size; a place that is half told keeps the rest', () => {
    const { vents } = designed(pinned('vent-places', 'low left 700 mm, high 1500 mm'))
    expect(vents.map((v) => [v.id, v.side, Math.round(v.upMm), v.widthMm])).toEqual([
      ['vent low', 'left', 700, 300],
      ['fan', 'left', 1500, 300],
    ])
    const [low, high] = designed(pinned('vent-places', 'low blind end')).vents
    expect([low!.side, low!.upMm]).toEqual(['blind end', plain.vents[0]!.upMm])
    expect(high).toEqual(plain.vents[1])
  })

  test('tried on a design, places and size go together', () => {
    const job = jobWith()
    const body = boxBody(job.boxes[0]!, null)
    const pin = (choice: string, value: string) => ({ path: `air.yard.${choice}`, value, by: 'me', why: '' })
    const read = airPinsOf([pin('vents', '500 x 500 mm'), pin('vent-places', 'low right 800 mm, high left 1600 mm')], 'yard')
    expect(airWith(plain, read, body).vents.map((v) => [v.heightMm, v.upMm])).toEqual([
      [500, 800],
      [500, 1600],
    ])
  })

  test('a fan in the sun has its hole though no circuit feeds it', () => {
    const { fan, vents } = designed(pinned('fan', '12 W solar'), wiredFor())
    expect(fan).toEqual({ powerW: 12, solar: true, onAboveC: 30, byHumidity: false })
    expect(vents.map((v) => v.fan)).toEqual([false, true])
    expect(designed(pinned('fan', 'no')).vents.map((v) => v.id)).toEqual(['vent low', 'vent high'])
  })

  test('a box that is cut keeps its vents as they are', () => {
    const job = jobWith()
    const body = boxBody(job.boxes[0]!, null)
    const hole = { id: 'vent A', use: 'vent', side: 'left', atMm: [900, 0, 1000], widthMm: 200, heightMm: 150 }
    const skin = { openings: [hole, { ...hole, id: 'door 1', use: 'personnel door' }] } as never
    const { vents } = airAsCut({ job, body, designs: [], skin })
    expect(vents).toEqual([
      { id: 'vent A', side: 'left', widthMm: 200, heightMm: 150, upMm: 1000 - body.insideAtMm[2], fan: false },
    ])
  })
})

describe('paint', () => {
  const of = (paint: string) => {
    const read = readJob(`plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard, paint: "${paint}" }\n`)
    if (!read.ok) throw new Error('job')
    return paintsOf(read.value, 'yard')
  }

  test('told paint is read; untold it is assumed and said; unreadable it is unknown with the mend', () => {
    expect(of('white, roof reflecting')).toEqual({
      value: { roof: 'white TiO2 coating, clean', walls: 'white epoxy, clean' },
      notes: [],
    })
    expect(paintsOf(jobWith(), 'yard').notes.map((n) => [n.kind, n.path])).toEqual([['assumed', 'boxes[0].paint']])
    const odd = of('sunset dreams')
    expect(odd.notes.map((n) => [n.kind, n.path])).toEqual([['unread', 'boxes[0].paint']])
    expect(odd.notes[0]!.said).toContain('“sunset dreams”')
    expect(odd.notes[0]!.mend).not.toBe('')
  })
})
