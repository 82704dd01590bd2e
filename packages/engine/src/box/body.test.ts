import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type BoxSurvey, type BoxWanted, SIDES } from '../job/index.ts'
import { boxBody } from './index.ts'
import { pitchMm, tableProfile } from './profile.ts'
import { tables } from './tables.generated.ts'

const SPAN = { low: 0, high: 0, basis: '', told: true }
const wanted = (lengthFt: number, heightKind: 'standard' | 'high' = 'standard'): BoxWanted => ({
  id: 'yard',
  lengthFt,
  heightKind,
  heatedC: null,
  insideHotC: SPAN,
  insideColdC: SPAN,
  spareWaysFrac: 0.25,
})

const NOTHING: BoxSurvey = {
  box: 'yard',
  by: null,
  on: null,
  lengthMm: null,
  widthMm: null,
  heightMm: null,
  innerLengthMm: null,
  innerWidthMm: null,
  innerHeightMm: null,
  ribPitchMm: null,
  innerFlatMm: null,
  outerFlatMm: null,
  ribDepthMm: null,
  sheetMm: null,
  firstRibMm: {},
  crossmemberPitchMm: null,
  bows: null,
  tareKg: null,
  weighedKg: null,
  plate: null,
  testedKg: null,
  pockets: null,
  dents: [],
}
const survey = (told: Partial<BoxSurvey>): BoxSurvey => ({ ...NOTHING, ...told })

// Table box-sizes: ISO 668 outside, trade data sheets inside.
test.each([
  [20, 'standard', '20 ft standard', [6058, 2438, 2591], [5896, 2350, 2393], 30480],
  [20, 'high', '20 ft high', [6058, 2438, 2896], [5896, 2350, 2697], 30480],
  [40, 'standard', '40 ft standard', [12192, 2438, 2591], [12032, 2350, 2392], 30480],
  [40, 'high', '40 ft high', [12192, 2438, 2896], [12032, 2350, 2697], 30480],
  [45, 'high', '45 ft high', [13716, 2438, 2896], [13556, 2347, 2696], 32500],
  [53, 'high', '53 ft high', [16154, 2591, 2896], [16002, 2515, 2743], 30480],
  [10, 'standard', '10 ft cut', [2991, 2438, 2591], [2831, 2350, 2390], null],
  [8, 'standard', '8 ft cut', [2438, 2438, 2591], [2278, 2350, 2393], null],
  [9, 'high', '9 ft cut, high', [2743, 2438, 2896], [2583, 2350, 2697], null],
] as const)('%s ft %s is of the sizes of the table', (feet, height, type, outside, inside, rating) => {
  const body = boxBody(wanted(feet, height), null)
  expect([body.type, body.outsideMm, body.insideMm, body.ratingKg]).toEqual([type, outside, inside, rating])
})

describe('20 ft standard, figures to hold on to', () => {
  const body = boxBody(wanted(20), null)
  test('inside stands behind the ribs of the blind end, between the inner flats, on the plywood', () => {
    // 6 + 45.6 + 2.0; (2438 − 2350)/2; 12.5 + 122 + 28
    expect(body.insideAtMm).toEqual([53.6, 44, 162.5])
    const wall = body.sides.left.corrugation
    expect((wall?.depthMm ?? 0) + (wall?.thicknessMm ?? 0)).toBeLessThan(44)
  })
  test('21 inner and 20 outer flats on a long side, the first 36 mm behind the post', () => {
    // 5702 mm between the posts: 20 pitches of 278 and one flat of 70 leave 72, half on either side.
    const { flats, sheet } = body.sides.left
    expect(sheet).toEqual({ fromMm: 178, toMm: 5880, lowMm: 172.5, highMm: 2503 })
    expect(flats.filter((f) => f.kind === 'inner')).toHaveLength(21)
    expect(flats.filter((f) => f.kind === 'outer')).toHaveLength(20)
    expect(flats.slice(0, 3)).toEqual([
      { fromMm: 214, toMm: 284, kind: 'inner' },
      { fromMm: 352, toMm: 424, kind: 'outer' },
      { fromMm: 492, toMm: 562, kind: 'inner' },
    ])
    expect(flats.at(-1)).toEqual({ fromMm: 5774, toMm: 5844, kind: 'inner' })
  })
  test('the pattern is assumed and said to lie half a pitch to either side', () => {
    expect(body.sides.left.corrugation?.flatsBandMm).toBe(139)
    expect(body.assumed.map((a) => a.path)).toEqual([
      'facts.surveys.yard.inner-width',
      'facts.surveys.yard.inner-height',
      'facts.surveys.yard.rib-pitch',
      'facts.surveys.yard.first-rib.left',
      'facts.surveys.yard.first-rib.right',
      'facts.surveys.yard.first-rib.blind-end',
      'facts.surveys.yard.first-rib.roof',
      'facts.surveys.yard.crossmember-pitch',
    ])
  })
  test('doors fill the opening and fold back', () => {
    expect(body.doors.map((d) => [d.widthMm, d.heightMm, d.mostDeg, d.hingeMm])).toEqual([
      [1170, 2274, 270, [6058, 49, 162.5]],
      [1170, 2274, 270, [6058, 2389, 162.5]],
    ])
  })
  test('tare within 5 %, its middle 50 to 100 mm toward the doors, fittings 5853 and 2259 mm apart', () => {
    expect([body.tareKg.low, body.tareKg.high, body.tareKg.told]).toEqual([2185, 2415, false])
    expect(body.tareCentreMm[0] - 3029).toBe(75)
    expect(body.tareCentreBandMm).toBe(25)
    expect(body.fittings).toEqual({ lengthCentresMm: 5853, widthCentresMm: 2259 })
  })
  test('pockets of the table are taken and said to be unseen', () => {
    expect(body.pockets).toMatchObject({ spacingMm: { value: 2050, measured: false }, use: 'loaded or empty' })
    expect(body.pocketsKnown).toBe(false)
  })
})

// ISO 1496-1 least inside sizes and door openings (table box-min-inside), for the boxes that are ISO boxes.
test.each([
  [20, 'standard', 5867, 2350, 2261],
  [40, 'standard', 11998, 2350, 2261],
  [40, 'high', 11998, 2655, 2566],
  [45, 'high', 13542, 2655, 2566],
] as const)('%s ft %s is not smaller inside than ISO 1496-1 asks', (feet, height, length, high, door) => {
  const body = boxBody(wanted(feet, height), null)
  expect(body.insideMm[0]).toBeGreaterThanOrEqual(length)
  expect(body.insideMm[1]).toBeGreaterThanOrEqual(2330)
  expect(body.insideMm[2]).toBeGreaterThanOrEqual(high)
  expect(body.doorOpeningMm.widthMm).toBeGreaterThanOrEqual(2286)
  expect(body.doorOpeningMm.heightMm).toBeGreaterThanOrEqual(door)
})

test('the profiles that are used close: flats and slopes make the printed pitch', () => {
  for (const row of tables.corrugation.rows) {
    const [panel, outer, run, inner, , pitch] = row
    if (typeof outer !== 'number' || typeof pitch !== 'number') continue
    expect(outer + inner + 2 * run, panel).toBe(pitch)
    expect(pitchMm(tableProfile(panel as 'side wall'))).toBe(pitch)
  }
})

const lengths = fc.double({ min: 2.4, max: 16.2, noNaN: true })
const heights = fc.constantFrom('standard' as const, 'high' as const)
const pitches = fc.option(fc.integer({ min: 50, max: 600 }))

test('a box of any length from 2.4 to 16.2 m, measured or not, is consistent', () => {
  fc.assert(
    fc.property(
      lengths,
      heights,
      pitches,
      fc.option(fc.integer({ min: 178, max: 700 })),
      (lengthM, height, ribPitchMm, first) => {
        const told = survey({ ribPitchMm, firstRibMm: first === null ? {} : { left: first } })
        const body = boxBody(wanted(lengthM / 0.3048, height), told)
        const [L, W, H] = body.outsideMm
        for (const axis of [0, 1, 2] as const) {
          expect(body.insideAtMm[axis]).toBeGreaterThan(0)
          expect(body.insideAtMm[axis] + body.insideMm[axis]).toBeLessThan(body.outsideMm[axis])
        }
        for (const m of body.members)
          for (const axis of [0, 1, 2] as const) {
            expect(m.toMm[axis], m.id).toBeGreaterThan(m.fromMm[axis])
            expect(m.fromMm[axis], m.id).toBeGreaterThanOrEqual(0)
            expect(m.toMm[axis], m.id).toBeLessThanOrEqual(body.outsideMm[axis])
          }
        expect(new Set(body.members.map((m) => m.id)).size).toBe(body.members.length)
        for (const side of SIDES) {
          const { flats, corrugation, sheet } = body.sides[side]
          if (corrugation === null) {
            expect(flats).toEqual([])
            continue
          }
          const c = corrugation
          expect(c.innerFlatMm + c.outerFlatMm + 2 * c.slopeRunMm).toBeCloseTo(c.pitchMm.value, 9)
          expect(c.developedRatio).toBeGreaterThanOrEqual(1)
          expect(flats.length).toBeGreaterThan(0)
          flats.forEach((flat, i) => {
            expect(flat.toMm - flat.fromMm).toBeCloseTo(flat.kind === 'inner' ? c.innerFlatMm : c.outerFlatMm, 6)
            expect(flat.fromMm).toBeGreaterThanOrEqual(sheet.fromMm - 1e-6)
            expect(flat.toMm).toBeLessThanOrEqual(sheet.toMm + 1e-6)
            const next = flats[i + 1]
            if (next !== undefined) expect(next.fromMm).toBeGreaterThanOrEqual(flat.toMm - 1e-6)
          })
        }
        const posts = body.members.filter((m) => m.kind === 'corner post')
        for (const post of posts)
          for (const flat of body.sides[post.fromMm[1] < W / 2 ? 'left' : 'right'].flats)
            expect(flat.toMm <= post.fromMm[0] + 1e-6 || flat.fromMm >= post.toMm[0] - 1e-6, post.id).toBe(true)
        expect(L * W * H).toBeGreaterThan(0)
        expect(body.tareKg.low).toBeGreaterThan(800)
        expect(body.fittings.lengthCentresMm).toBeLessThan(L)
      },
    ),
    { seed: 20, numRuns: 300 },
  )
})

test('no crossmember stands in a fork pocket, and they stand at their pitch elsewhere', () => {
  const body = boxBody(wanted(20), survey({ crossmemberPitchMm: 290 }))
  const pockets = body.members.filter((m) => m.kind === 'fork pocket')
  const cross = body.members.filter((m) => m.kind === 'crossmember')
  expect(pockets).toHaveLength(2)
  for (const c of cross) for (const p of pockets) expect(c.toMm[0] <= p.fromMm[0] || c.fromMm[0] >= p.toMm[0], c.id).toBe(true)
  const steps = cross.slice(1).map((c, i) => c.fromMm[0] - (cross[i]?.fromMm[0] ?? 0))
  for (const s of steps) expect(s / 290).toBeCloseTo(Math.round(s / 290), 9)
  const whole = boxBody(wanted(20), survey({ crossmemberPitchMm: 290, pockets: 'none' }))
  expect(whole.members.filter((m) => m.kind === 'crossmember').length).toBeGreaterThan(cross.length)
})

test('posts stand at the 40 ft places of a longer box, and no flat of its sides lies on them', () => {
  const body = boxBody(wanted(53, 'high'), null)
  const posts = body.members.filter((m) => m.kind === 'corner post' && m.fromMm[1] === 0)
  expect(posts.map((p) => p.fromMm[0])).toEqual([0, 1981, 13995, 15976])
  const covered = (at: number) => posts.some((p) => at > p.fromMm[0] && at < p.toMm[0])
  for (const side of ['left', 'right'] as const)
    for (const { fromMm, toMm } of body.sides[side].flats)
      expect([fromMm, (fromMm + toMm) / 2, toMm].some(covered), `${side} ${fromMm}`).toBe(false)
  expect(body.sides.left.flats.length).toBeLessThan(2 * Math.ceil(15_798 / 278) - 3)
  expect(body.members.filter((m) => m.kind === 'corner fitting')).toHaveLength(8)
  expect(body.fittings.lengthCentresMm).toBe(11985)
})

describe('what was measured wins over the table, and says so', () => {
  test('sizes, pitch, first flat, crossmembers, tare, pockets, dents', () => {
    const body = boxBody(
      wanted(20),
      survey({
        by: 'a welder with a tape',
        lengthMm: 6055,
        innerWidthMm: 2346,
        innerHeightMm: 2390,
        ribPitchMm: 280,
        innerFlatMm: 72,
        firstRibMm: { left: 196, 'blind end': 180 },
        crossmemberPitchMm: 290,
        tareKg: 2310,
        weighedKg: 3400,
        pockets: { spacingMm: 1720, widthMm: 355, heightMm: 115 },
        dents: [{ side: 'right', fromMm: 900, upMm: 700, widthMm: 300, heightMm: 200, depthMm: 20 }],
      }),
    )
    const { left, right } = body.sides
    expect(body.outsideMm[0]).toBe(6055)
    expect(body.insideMm).toEqual([5893, 2346, 2390])
    expect(body.insideAtMm[1]).toBe(46)
    expect(left.corrugation).toMatchObject({
      pitchMm: { value: 280, measured: true },
      innerFlatMm: 72,
      slopeRunMm: 68,
      flatsBandMm: 0,
    })
    expect(left.corrugation?.pitchMm.rests).toEqual({
      place: 'rib pitch, measured on the box by a welder with a tape',
      provenance: 'told',
    })
    expect(left.corrugation?.firstFlatMm).toMatchObject({ value: 196, measured: true })
    expect(left.flats[0]).toEqual({ fromMm: 196, toMm: 268, kind: 'inner' })
    expect(right.corrugation).toMatchObject({ pitchMm: { value: 280 }, firstFlatMm: { measured: false }, flatsBandMm: 140 })
    expect(body.sides.roof.corrugation?.pitchMm).toMatchObject({ value: 209, measured: false })
    expect(body.sides['blind end'].corrugation?.firstFlatMm).toMatchObject({ value: 180, measured: true })
    expect(body.floor.crossmemberPitchMm).toBe(290)
    expect(body.tareKg).toMatchObject({ low: 2310, high: 2310, told: true })
    expect(body.weighedKg).toBe(3400)
    expect(body.pockets).toMatchObject({ spacingMm: { value: 1720, measured: true }, use: 'empty only' })
    expect(body.pocketsKnown).toBe(true)
    expect(right.dents).toEqual([{ fromMm: 900, toMm: 1200, lowMm: 700, highMm: 900, deepMm: 20 }])
    expect(body.assumed.map((a) => a.path)).toEqual(['facts.surveys.yard.first-rib.right', 'facts.surveys.yard.first-rib.roof'])
  })

  test('a flat measured further along moves the whole pattern, also behind it', () => {
    const near = boxBody(wanted(20), survey({ firstRibMm: { left: 200 } })).sides.left
    const far = boxBody(wanted(20), survey({ firstRibMm: { left: 200 + 3 * 278 } })).sides.left
    expect(far).toEqual(near)
    expect(far.corrugation?.firstFlatMm).toMatchObject({ value: 200, measured: true })
  })

  test('bows stand only where they were seen, under the roof sheet', () => {
    expect(boxBody(wanted(20), null).members.filter((m) => m.kind === 'bow')).toEqual([])
    const bows = boxBody(wanted(20), survey({ bows: { pitchMm: 600, depthMm: 30 } })).members.filter((m) => m.kind === 'bow')
    expect(bows).toHaveLength(9)
    expect(bows[0]?.toMm[2]).toBe(2563)
    expect(bows[0]?.fromMm[2]).toBe(2533)
  })
})

describe('a rating is read, proven or unknown; it is not inherited', () => {
  const rating = (feet: number, told: Partial<BoxSurvey> = {}) => {
    const body = boxBody(wanted(feet), survey(told))
    return [body.ratingKg, body.rating?.measured ?? null, body.plate]
  }
  test.each([8, 9, 10, 12, 16, 24, 30])('%s ft has none until a plate or a test says', (feet) => {
    expect(rating(feet)).toEqual([null, null, 'unknown'])
    expect(rating(feet, { plate: { ratingKg: 10_160, state: 'valid' } })).toEqual([10_160, true, 'valid'])
    expect(rating(feet, { testedKg: 5000 })).toEqual([5000, true, 'unknown'])
  })
  test('a standard box has that of its type until its own plate is read, and none once the plate is off', () => {
    expect(rating(20)).toEqual([30_480, false, 'unknown'])
    expect(rating(20, { plate: { ratingKg: 24_000, state: 'valid' } })).toEqual([24_000, true, 'valid'])
    expect(rating(20, { plate: { ratingKg: 30_480, state: 'removed' } })).toEqual([null, null, 'removed'])
    expect(rating(20, { plate: { ratingKg: null, state: 'removed' }, testedKg: 6000 })).toEqual([6000, true, 'removed'])
  })
  test('the floor of a short box bears as a 20 ft one only with crossmembers seen as close', () => {
    const most = (feet: number, told: Partial<BoxSurvey> = {}) => boxBody(wanted(feet), survey(told)).floor.mostTonnePerM.value
    expect([most(20), most(40), most(10), most(10, { crossmemberPitchMm: 300 }), most(10, { crossmemberPitchMm: 400 })]).toEqual([
      4, 3, 3, 4, 3,
    ])
  })
})

test('a measured 8 ft mini box that is no ISO box is built from what was measured', () => {
  // Table box-sizes, 8 ft mini: 2438 × 2200 × 2260 outside, 2287 × 2112 × 2067 inside.
  const mini = { lengthMm: 2438, widthMm: 2200, heightMm: 2260, innerLengthMm: 2287, innerWidthMm: 2112, innerHeightMm: 2067 }
  const body = boxBody(wanted(8), survey(mini))
  expect([body.outsideMm, body.insideMm, body.insideAtMm[1]]).toEqual([[2438, 2200, 2260], [2287, 2112, 2067], 44])
  expect(body.doorOpeningMm.heightMm).toBe(1943)
})

test('a survey of another box and a length that no box has are faults', () => {
  expect(() => boxBody(wanted(20), survey({ box: 'other' }))).toThrow('box/survey-other')
  expect(() => boxBody(wanted(60), null)).toThrow('box/length-range')
  expect(() => boxBody(wanted(Number.NaN), null)).toThrow('box/length-range')
})
