import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { boxBody } from '../../box/index.ts'
import { type Job, readJob, SIDES } from '../../job/index.ts'
import { readPrices } from '../../parts/index.ts'
import { plan } from '../../plan/index.ts'
import { builtInOverlays, rulesFor } from '../../rules/index.ts'
import { climateFrom, designYear, toldOfJob } from '../../weather/index.ts'
import { withMeasured } from '../answer/measured.ts'
import { changesOfClass } from '../facts/leak.ts'
import { skySeenRatios } from '../year/sun-on-faces.ts'
import { surroundingsOf } from '../year/surroundings.ts'
import type { BoxModel } from '../year/types.ts'
import { yearOf } from '../year/year-of.ts'
import { boxModelOf } from './box-model.ts'
import { MODEL_ENDS, type ModelEnd } from './ends.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error('prices')
const shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }

function jobOf(document: string): Job {
  const read = readJob(document)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
const EXAMPLE = text('examples/two-machines.yaml')
const BASE = jobOf(EXAMPLE)
const { design, assessment } = plan(BASE, shop)

/** The example's design for the same job with something more told of its box and place. */
function made(more: Partial<Pick<Job, 'boxes' | 'surveys' | 'climate'>> = {}, end: ModelEnd = MODEL_ENDS.middle) {
  const job = { ...BASE, ...more }
  const build = design.builds[0]!
  return boxModelOf({
    ...{ job, design, build, rules: rulesFor('us', {}), end },
    body: boxBody(job.boxes[0]!, null),
    reach: assessment.results.reach.boxes,
    weighed: assessment.results.haul.boxes[0]!.items,
  })
}
/** As a document would say it, read like any other. */
const toldOf = (lines: string) => jobOf(EXAMPLE.replace('heated: 0 C', `heated: 0 C, ${lines}`)).boxes
const surveyed = (lines: string) =>
  jobOf(`${EXAMPLE.replace('facts:', `facts:\n  surveys:\n    - { box: yard, ${lines} }`)}`).surveys
const n50 = (m: BoxModel) => (3600 * m.leakM3SAt1Pa * 50 ** m.leakExponent) / m.volumeM3

const climate = climateFrom({
  ...toldOfJob(
    {
      ...BASE.climate!,
      ...{ latitudeDeg: 47.5, longitudeDeg: -110, elevationM: 1000 },
      meanCByMonth: [-6, -4, 1, 6, 11, 16, 20, 19, 13, 7, 0, -5],
    },
    'a place',
  ),
  ...{ utcOffsetH: -7, winterFromDeg: 270 },
})
if (!climate.ok) throw new Error('climate')
const hours = designYear(climate.climate)
const run = (model: BoxModel) => yearOf(model, surroundingsOf(model, hours, { stepsPerHour: 4 }))
const most = (values: Float64Array) => values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
const sum = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0)
const plain = made().model
const plainRun = run(plain)

describe('what is told of a box changes its year', () => {
  test('visits: how often, how long the door stands open, how much water comes in', () => {
    const often = made({ boxes: toldOf('visits: { per-day: 6, door-open: 5 min, water: 0.5 kg }') })
    expect(sum(often.model.doorOpenS)).toBeCloseTo(6 * 300, 9)
    expect(often.notes.some((n) => n.path.endsWith('visits'))).toBe(false)
    expect(made().notes.some((n) => n.path.endsWith('visits'))).toBe(true)
    // 6 × 0.5 kg over a day in January, with what six people breathe out in a quarter of an hour each: 50 g/h.
    expect(sum(often.model.waterKgS.subarray(0, 24)) * 3600).toBeCloseTo(6 * (0.5 + 0.05 * 0.25), 9)
    const third = made({ boxes: toldOf('visits: { per-day: 0.333 }') }).model
    expect(sum(third.doorOpenS)).toBeCloseTo(0.333 * 60, 9)
    expect(sum(made({ boxes: toldOf('visits: { per-day: 0 }') }).model.waterKgS)).toBe(0)
    expect(run(often.model).waterInKg).toBeGreaterThan(plainRun.waterInKg * 1.05)
  })

  test('leakage: a class of the table at both its ends, or the figure of a test at one', () => {
    expect(changesOfClass('cut')).toEqual([15, 40])
    expect(changesOfClass('fumigation tight')).toEqual([0.21, 0.21])
    const at = (lines: string, leak: ModelEnd['leak']) =>
      n50(made({ boxes: toldOf(lines) }, { ...MODEL_ENDS.middle, leak }).model)
    expect([at('leakage: cut', 'tight'), at('leakage: cut', 'leaky')].map((n) => Math.round(n * 1e6) / 1e6)).toEqual([15, 40])
    expect(at('leakage: 6 an hour', 'tight')).toBeCloseTo(6, 9)
    expect(at('leakage: 6 an hour', 'leaky')).toBeCloseTo(6, 9)
    expect(made({ boxes: toldOf('leakage: 6 an hour') }).notes.some((n) => n.path.endsWith('leakage'))).toBe(false)
    const cut = run(made({ boxes: toldOf('leakage: cut') }, MODEL_ENDS.cold).model)
    expect(sum(cut.series.inflowKg)).toBeGreaterThan(sum(run(made({}, MODEL_ENDS.cold).model).series.inflowKg) * 1.1)
  })

  test('skirted: the ground lies under the floor and not the air', () => {
    const model = made({ boxes: toldOf('skirted: yes') }).model
    expect(model.skirted).toBe(true)
    expect(model.faces[SIDES.indexOf('floor')]!.sees).toBe('ground')
    expect(model.parts!.every((p) => p.sees === 'ground')).toBe(true)
    const least = (r: typeof plainRun) => -most(r.series.airC.map((c) => -c))
    expect(least(run(model))).toBeGreaterThan(least(plainRun) + 0.3)
  })

  test('a skyline cuts the sun of the morning, and an even hill all round cuts the sky by the square of its cosine', () => {
    const rise = (fromDeg: number, toDeg: number, heightDeg: number) => ({
      climate: { ...BASE.climate!, horizon: [{ fromDeg, toDeg, heightDeg }] },
    })
    const east = made(rise(45, 135, 30)).model
    const left = SIDES.indexOf('left')
    const right = SIDES.indexOf('right')
    // Doors look north, so that the left, seen from the doors, looks east.
    const onSide = (m: BoxModel, side: number) =>
      surroundingsOf(m, hours, { stepsPerHour: 4 }).sunWPerM2.reduce((s, w, i) => (i % 6 === side ? s + w : s), 0)
    expect(onSide(east, left) / onSide(plain, left)).toBeLessThan(0.75)
    expect(onSide(east, right) / onSide(plain, right)).toBeGreaterThan(0.9)
    const even = Array.from({ length: 6 }, () => Array.from({ length: 180 }, () => 30))
    const seen = skySeenRatios(even, 17)
    // View factors: level plate cos²α; wall (π − 2α − sin 2α)/π of its half.
    expect(seen[4]).toBeCloseTo(0.75, 9)
    expect(seen[0]).toBeCloseTo((Math.PI - Math.PI / 3 - Math.sin(Math.PI / 3)) / Math.PI, 9)
    expect(
      skySeenRatios(
        Array.from({ length: 6 }, () => [0, 0, 0, 0]),
        0,
      ).every((r) => r === 1),
    ).toBe(true)
    const valley = made(rise(0, 360, 40)).model
    expect(onSide(valley, SIDES.indexOf('roof'))).toBeLessThan(0.9 * onSide(plain, SIDES.indexOf('roof')))
    const january = (of: typeof plainRun) => sum(of.series.airC.subarray(0, 31 * 24)) / (31 * 24)
    expect(january(run(valley))).not.toBeCloseTo(january(plainRun), 1)
  })

  test('a box that stands beside shades the wall that looks at it and hardly the roof', () => {
    const model = made({ boxes: toldOf('beside: [{ side: left, distance: 1 m }]') }).model
    const [left, , , , roof] = skySeenRatios(model.skylinesDeg!, model.doorFacesDeg)
    expect(left).toBeLessThan(0.7)
    expect(roof).toBe(1)
    // Seen from half its height over pads, 1.3 m below its neighbour's roof: atan(1.25/1) over the whole of its middle.
    const middleM = model.faces[0]!.middleM
    expect(Math.max(...model.skylinesDeg![0]!)).toBeCloseTo((Math.atan((2.591 - middleM) / 1) * 180) / Math.PI, 1)
    const onSide = (m: BoxModel, side: number) =>
      surroundingsOf(m, hours, { stepsPerHour: 4 }).sunWPerM2.reduce((s, w, i) => (i % 6 === side ? s + w : s), 0)
    expect(onSide(model, 0) / onSide(plain, 0)).toBeLessThan(0.8)
    expect(onSide(model, 4)).toBeCloseTo(onSide(plain, 4), -2)
    expect(sum(run(model).series.airC)).not.toBeCloseTo(sum(plainRun.series.airC), 0)
  })
})

describe('what was measured of a box', () => {
  const words = 'by: the logger of May, on: 2027-05-30'
  const figure = (found: string, low: string, high: string) => `{ found: ${found}, low: ${low}, high: ${high}, ${words} }`

  test('leakage at the ends of its band, with no assumption left', () => {
    const surveys = surveyed(`leakage: ${figure('200 m3/h', '150 m3/h', '260 m3/h')}`)
    const at = (end: ModelEnd) => made({ surveys }, end)
    const m3PerH = (m: BoxModel) => Math.round(m.leakM3SAt1Pa * 50 ** m.leakExponent * 3600 * 1e6) / 1e6
    expect([MODEL_ENDS.damp, MODEL_ENDS.middle, MODEL_ENDS.cold].map((end) => m3PerH(at(end).model))).toEqual([150, 200, 260])
    expect(at(MODEL_ENDS.damp).notes.some((n) => n.path.endsWith('leakage'))).toBe(false)
    expect(sum(run(at(MODEL_ENDS.middle).model).series.inflowKg)).not.toBeCloseTo(sum(plainRun.series.inflowKg), 0)
  })

  test('what its roof takes of the sun, as long as it keeps its coat', () => {
    const surveys = surveyed(`roof-absorptance: ${figure('30 %', '25 %', '36 %')}`)
    const roof = (m: BoxModel) => m.faces[SIDES.indexOf('roof')]!.absorptanceFrac
    const ends = [MODEL_ENDS.cold, MODEL_ENDS.middle, MODEL_ENDS.hot].map((end) => roof(made({ surveys }, end).model))
    expect(ends.map((a) => Math.round(a * 1000) / 1000)).toEqual([0.25, 0.3, 0.36])
    expect(most(run(made({ surveys }).model).series.airC)).toBeLessThan(most(plainRun.series.airC))
  })

  test('gear as one mass', () => {
    const surveys = surveyed(`gear-mass: ${figure('900 kg', '700 kg', '1200 kg')}`)
    // 0.48 kJ/kgK.
    expect(made({ surveys }).model.gear.heatJPerK).toBeCloseTo(900 * 480, 6)
    expect(made({ surveys }, MODEL_ENDS.hot).model.gear.heatJPerK).toBeCloseTo(700 * 480, 6)
    expect(made({ surveys }, MODEL_ENDS.damp).model.gear.heatJPerK).toBeCloseTo(1200 * 480, 6)
    expect(most(run(made({ surveys }).model).series.gearC)).not.toBeCloseTo(most(plainRun.series.gearC), 2)
  })

  test('stands behind the findings that it decides, by whom and when', () => {
    const { measured } = made({ surveys: surveyed(`leakage: ${figure('200 m3/h', '150 m3/h', '260 m3/h')}`) })
    const finding = { code: 'air/drip', said: 'Said.', provenance: 'computed', workings: [] } as never
    const one = { finding, working: { id: 'a', title: 'b', steps: [] } }
    const now = withMeasured(one, measured)
    expect(now.finding.said).toContain('measured by the logger of May on 2027-05-30: 200 m³/h, from 150 to 260.')
    expect(now.finding.provenance).toBe('measured')
    expect(now.working.steps.map((s) => s.rests.provenance)).toEqual(['measured'])
    expect(withMeasured({ ...one, finding: { ...(finding as object), code: 'air/hot' } as never }, measured).finding.said).toBe(
      'Said.',
    )
  })
})

test('a place for each of them is in the schema, and words that say nothing are refused', () => {
  for (const wrong of [
    'leakage: some',
    'leakage: 500 an hour',
    'visits: { per-day: -1 }',
    'beside: [{ side: roof, distance: 1 m }]',
    'skirted: perhaps',
  ])
    expect(readJob(EXAMPLE.replace('heated: 0 C', `heated: 0 C, ${wrong}`)).ok, wrong).toBe(false)
  const hill = jobOf(
    EXAMPLE.replace('place: farm yard', 'place: farm yard, horizon: [{ from: 200 deg, to: 250 deg, height: 12 deg }]'),
  )
  expect(hill.climate?.horizon).toEqual([
    { fromDeg: expect.closeTo(200, 9), toDeg: expect.closeTo(250, 9), heightDeg: expect.closeTo(12, 9) },
  ])
})
