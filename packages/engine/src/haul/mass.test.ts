import { describe, expect, test } from 'vitest'
import type { AirDesign } from '../job/index.ts'
import { seeded } from '../kernel/index.ts'
import { ruleSets } from '../rules/index.ts'
import { fittedItems } from './contents.ts'
import { centreRange, conduitKgPerM, massCentre, strutKgPerM, tradeAreaMm2 } from './mass.ts'
import type { MassItem } from './result.ts'
import { answered, DOOR, exampleJob, FIT, skinWith } from './yard.fixture.ts'

const random = seeded(11)
const { between } = random

test('the ends of a centre are those of every corner of the masses, tried one by one', () => {
  for (let i = 0; i < 200; i += 1) {
    const points = Array.from({ length: 2 + Math.floor(random.next() * 6) }, () => {
      const low = between(1, 100)
      return { low, high: low + between(0, 100), at: between(-5, 5) }
    })
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
    for (let corner = 0; corner < 2 ** points.length; corner += 1) {
      const masses = points.map((p, k) => ((corner >> k) & 1 ? p.high : p.low))
      const at = points.reduce((sum, p, k) => sum + (masses[k] as number) * p.at, 0) / masses.reduce((a, b) => a + b, 0)
      ;[least, most] = [Math.min(least, at), Math.max(most, at)]
    }
    const range = centreRange(points)
    expect(range.low).toBeCloseTo(least, 9)
    expect(range.high).toBeCloseTo(most, 9)
  }
})

test('told masses have one centre, and moments about it sum to nothing', () => {
  const items: readonly MassItem[] = Array.from({ length: 12 }, (_, i) => {
    const kg = between(1, 400)
    return {
      id: `m${i}`,
      what: '',
      massKg: { low: kg, high: kg, basis: '', told: true },
      atMm: [between(0, 6000), between(0, 2400), between(0, 2500)] as const,
      bandXMm: 0,
    }
  })
  const { value } = massCentre(items, { state: 'fitted', lengthMm: 6058, widthMm: 2438 })
  for (const axis of [0, 1, 2] as const) {
    const moment = items.reduce((sum, i) => sum + i.massKg.low * (i.atMm[axis] - value.centreMm[axis]), 0)
    expect(Math.abs(moment)).toBeLessThan(1e-6)
    expect(value.highMm[axis]).toBeCloseTo(value.lowMm[axis], 6)
  }
})

test('nothing that weighs, or less than nothing, has no centre', () => {
  expect(() => massCentre([], { state: 'empty', lengthMm: 1, widthMm: 1 })).toThrow(/haul\/mass-range/)
  expect(() => centreRange([{ low: -2, high: 1, at: 0 }])).toThrow(/haul\/mass-range/)
})

describe('what is built in', () => {
  const { body, result } = answered(exampleJob('groomer-yard-us'))
  const box = result.boxes[0]
  if (box === undefined) throw new Error('no box')
  const rules = ruleSets.us

  test('mass as fitted is the sum of its items, both ends, and no item is left out', () => {
    const fitted = box.centres.find((one) => one.state === 'fitted')
    const seats = box.items.filter((i) => i.id === 'snow frame seats')
    const items = [...fittedItems({ body, fit: FIT, skin: skinWith([DOOR]), rules }), ...seats]
    expect(seats).toHaveLength(1)
    expect(items.reduce((sum, i) => sum + i.massKg.low, 0)).toBeCloseTo(fitted?.massKg.low ?? 0, 9)
    expect(items.reduce((sum, i) => sum + i.massKg.high, 0)).toBeCloseTo(fitted?.massKg.high ?? 0, 9)
    expect(items.map((i) => i.id)).toEqual(
      expect.arrayContaining(['box', 'panel', 'transformer', 'heater', 'upright 1', 'feed', 'door 1', 'door 1, sheet out']),
    )
  })

  test('the unfavourable end is never kinder than the middle', () => {
    for (const one of box.centres) {
      expect(one.offXMm).toBeGreaterThanOrEqual(Math.abs(one.centreMm[0] - body.outsideMm[0] / 2) - 1e-9)
      for (const axis of [0, 1, 2] as const) {
        expect(one.lowMm[axis]).toBeLessThanOrEqual(one.centreMm[axis] + 1e-9)
        expect(one.highMm[axis]).toBeGreaterThanOrEqual(one.centreMm[axis] - 1e-9)
      }
    }
  })

  test('the bare box is heavier at the door end; gear at the blind end draws it there', () => {
    const at = (state: string): number => box.centres.find((one) => one.state === state)?.centreMm[0] ?? Number.NaN
    expect(at('empty')).toBeGreaterThan(body.outsideMm[0] / 2)
    expect(at('fitted')).toBeLessThan(body.outsideMm[0] / 2)
  })

  test('an upright of 2.25 m weighs 2.25 times the catalogue’s 1.91 lb/ft', () => {
    const items = fittedItems({ body, fit: FIT, skin: skinWith([]), rules })
    expect(items.find((i) => i.id === 'upright 1')?.massKg.low).toBeCloseTo(2.25 * 1.91 * 1.48816, 3)
    expect(strutKgPerM('of no catalogue').known).toBe(false)
    expect(strutKgPerM('of no catalogue').low).toBeLessThan(strutKgPerM('of no catalogue').high)
  })

  test('a raceway weighs as the conduit table says, with its spread; one of a kind not in it is planned', () => {
    const feed = fittedItems({ body, fit: FIT, skin: skinWith([]), rules }).find((i) => i.id === 'feed')
    const kg = 2.6 * (conduitKgPerM('EMT', '1') ?? Number.NaN)
    expect(feed?.massKg.low).toBeCloseTo(kg * 0.95, 9)
    expect(feed?.massKg.high).toBeCloseTo(kg * 1.07, 9)
    expect(conduitKgPerM('PVC', '1')).toBeNull()
  })

  test('a size that the rule set’s table lacks has the area that defines its gauge; those of the table agree with it to 1 %', () => {
    for (const { name, areaMm2 } of [...ruleSets.us.sizes, ...ruleSets.intl.sizes])
      expect(Math.abs(tradeAreaMm2(name) / areaMm2 - 1), name).toBeLessThan(0.01)
    expect(tradeAreaMm2('18 AWG')).toBeCloseTo(0.823, 3)
  })

  test('a conductor of a size that nobody makes is our own mistake, not nothing', () => {
    const feed = { ...FIT.raceways[0], conductors: [{ size: 'thick', insulation: 'THWN-2', count: 3 }] }
    expect(() => fittedItems({ body, fit: { ...FIT, raceways: [feed as never] }, skin: skinWith([]), rules })).toThrow(
      /haul\/size-unknown/,
    )
  })
})

describe('a box that stood on the scale', () => {
  const job = exampleJob('groomer-yard-us')
  const weighed = (kg: number) => {
    const survey = {
      ...{ box: job.boxes[0]?.id ?? '', by: 'the shop', on: null, lengthMm: null, widthMm: null, heightMm: null },
      ...{ innerLengthMm: null, innerWidthMm: null, innerHeightMm: null, ribPitchMm: null, innerFlatMm: null },
      ...{ outerFlatMm: null, ribDepthMm: null, sheetMm: null, firstRibMm: {}, crossmemberPitchMm: null, bows: null },
      ...{ tareKg: null, weighedKg: kg, plate: null, testedKg: null, pockets: null, dents: [] },
    }
    return answered({ ...job, surveys: [survey] })
  }

  test('has that mass where its items can make it', () => {
    const { findings, result } = weighed(2700)
    expect(result.boxes[0]?.centres[1]?.massKg).toMatchObject({ low: 2700, high: 2700 })
    expect(findings.find((f) => f.code === 'haul/mass')?.verdict).toBe('holds')
  })

  test('foam weighs by its thickness and a second roof by the roof; the second roof rides on top', () => {
    const items = (air: Partial<AirDesign>) => answered(job, { air }).result.boxes[0]!.items
    const foam = items({ roofFoamM: 0.025, wallFoamM: 0.05 }).filter((i) => i.id.startsWith('foam'))
    // 5.896 × 2.35 m of roof at half of 1.6 kg/m²; 2·(5.896 + 2.35)·2.393 m² of wall at 1.6 kg/m² (20 ft box, table box-sizes).
    expect(foam.map((i) => [i.id, Math.round(i.massKg.low * 10) / 10])).toEqual([
      ['foam, roof', 11.1],
      ['foam, walls', 63.1],
    ])
    const roof = items({ secondRoof: true }).find((i) => i.id === 'second roof')
    expect(roof!.massKg.low).toBeCloseTo(7 * 6.058 * 2.438, 1)
    expect(items({}).some((i) => /foam|second roof/.test(i.id))).toBe(false)
    const travelM = (air: Partial<AirDesign>) => {
      const { haul, result } = answered(job, { air, haul: { snowFrame: null } })
      return result.boxes[0]!.heightOnDeckM - haul.deckHeightM
    }
    expect(travelM({ secondRoof: true }) - travelM({})).toBeCloseTo(0.1, 9)
  })

  test('counts as weighed where the job tells it of the box that stands, or its tare and fit-out', () => {
    const built = {
      lengthFt: 20,
      heightKind: null,
      transportPlate: 'lost',
      vents: null,
      lowestExitM: null,
      setDown: null,
      airMaxC: null,
    }
    const at = (more: { tareKg: number | null; fitOutKg: number | null; weighedKg: number | null }) =>
      answered({ ...job, builtBody: { ...built, ...more } })
    const mass = (answer: ReturnType<typeof at>) => answer.result.boxes[0]?.centres[1]?.massKg
    expect(mass(at({ tareKg: null, fitOutKg: null, weighedKg: 2700 }))).toMatchObject({ low: 2700, high: 2700 })
    expect(mass(at({ tareKg: 2300, fitOutKg: 420, weighedKg: null }))).toMatchObject({ low: 2720, high: 2720 })
    expect(mass(at({ tareKg: 2300, fitOutKg: null, weighedKg: null }))?.low).toBeLessThan(2600)
    const bare = answered(
      { ...job, builtBody: { ...built, tareKg: null, fitOutKg: null, weighedKg: null } },
      { skin: skinWith([]) },
    )
    expect(bare.findings.find((f) => f.code === 'haul/plate')?.said).toMatch(/“lost”/)
  })

  test('is not believed over its items, nor they over it: heavier when lifted, lighter in the wind', () => {
    const { findings, result } = weighed(3900)
    expect(findings.find((f) => f.code === 'haul/mass')?.verdict).toBe('unknown')
    expect(result.boxes[0]?.centres[1]?.massKg.high).toBe(3900)
    expect(result.boxes[0]?.centres[1]?.massKg.low).toBeLessThan(2700)
    const light = weighed(2000).result.boxes[0]?.centres[1]?.massKg
    expect(light?.low).toBe(2000)
    expect(light?.high).toBeGreaterThan(2900)
  })
})
