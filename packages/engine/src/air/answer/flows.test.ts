import { describe, expect, test } from 'vitest'
import { stackFlowM3s } from '../flow/index.ts'
import { surroundingsOf, yearOf } from '../year/index.ts'
import { sampleBox } from '../year/sample-boxes.ts'
import { heldHours, sampleHours } from '../year/sample-hours.ts'
import type { BoxModel } from '../year/types.ts'
import { openingFlows } from './flows.ts'
import { modelOf, runOf, weatherOf } from './runs.fixture.ts'

const vent = (id: string, side: 'left' | 'right', heightM: number): BoxModel['openings'][number] => ({
  ...{ id, side, areaM2: 0.09, heightM, dischargeRatio: 0.6, winterFrac: 1 },
})
const PAIR = [vent('low', 'right', 0.4), vent('high', 'left', 2)]
const HOURS = 48
/** No wind, no cracks worth the name: what is left is the weight of the air. */
const still = weatherOf({ hoursCount: HOURS, airC: () => 5 })
still.columns.windMPerS!.fill(0)
const flowsOf = (model: Partial<BoxModel>, airC = 20, weather = still) =>
  openingFlows({
    model: modelOf({ leakM3SAt1Pa: 1e-9, openings: PAIR, ...model }),
    run: runOf((s) => {
      s.airC.fill(airC)
      // As much vapour inside as outside, so that temperature alone makes the weight.
      s.vapourPa.fill(weather.columns.vapourPa![0]!)
    }, HOURS),
    ...{ weather, fromH: 10, toH: 34 },
  })

test('two vents without wind draw as the stack formula says, in low and out high', () => {
  const [low, high] = flowsOf({})
  const stackM3s = stackFlowM3s({ lowM2: 0.09, highM2: 0.09, heightM: 1.6, dischargeRatio: 0.6, insideC: 20, outsideC: 5 })
  expect(low!.id).toBe('low')
  expect(low!.flowM3S).toHaveLength(24)
  for (const flow of low!.flowM3S) expect(Math.abs(flow / stackM3s - 1)).toBeLessThan(0.04)
  for (const flow of high!.flowM3S) expect(flow).toBeLessThan(0)
  // Cold air in, warm air out: the same mass, more room.
  expect(-high!.flowM3S[0]! / low!.flowM3S[0]!).toBeCloseTo((20 + 273.15) / (5 + 273.15), 2)
})

test('colder inside than outside turns both ways round; as warm, nothing passes', () => {
  const [low, high] = flowsOf({}, -5)
  expect(low!.flowM3S[0]).toBeLessThan(0)
  expect(high!.flowM3S[0]).toBeGreaterThan(0)
  expect(Math.abs(flowsOf({}, 5)[0]!.flowM3S[0]!)).toBeLessThan(1e-4)
})

test('in the months of their winter position vents pass less, by the share that stays open', () => {
  const half = PAIR.map((v) => ({ ...v, winterFrac: 0.5 }))
  const [summer, winter] = [flowsOf({ openings: half })[0]!, flowsOf({ openings: half, winterMonths: [0] })[0]!]
  expect(winter.flowM3S[0]! / summer.flowM3S[0]!).toBeCloseTo(0.5, 2)
})

test('a fan that runs blows out under its own name and draws through the vents; one that stands still passes nothing', () => {
  const fan: NonNullable<BoxModel['fan']> = {
    ...{
      side: 'left',
      heightM: 2,
      blows: 'out',
      freeFlowM3S: 0.1,
      shutPressurePa: 40,
      powerW: 45,
      onAboveC: 25,
      drierKgPerKg: null,
      solar: null,
    },
  }
  const model = modelOf({ leakM3SAt1Pa: 1e-9, openings: PAIR.slice(0, 1), fan })
  const at = (wh: number) =>
    openingFlows({
      ...{ model, weather: still, fromH: 0, toH: 3 },
      run: runOf((s) => {
        s.fanWh.fill(wh)
        s.airC.fill(5)
      }, HOURS),
    })
  const [low, out] = at(45)
  expect(out!.id).toBe('fan')
  expect(out!.flowM3S[0]).toBeLessThan(-0.05)
  expect(low!.flowM3S[0]).toBeGreaterThan(0.05)
  expect(at(0)[1]!.flowM3S).toEqual([0, 0, 0])
})

test('without an opening, or with a single hour, nothing is told', () => {
  expect(flowsOf({ openings: [] })).toEqual([])
  const run = runOf(() => {}, HOURS)
  expect(openingFlows({ model: modelOf({ openings: PAIR }), run, weather: still, fromH: 3, toH: 4 })).toEqual([])
})

describe('two larger vents', () => {
  const sized = (areaM2: number) => PAIR.map((v) => ({ ...v, areaM2 }))
  const passes = (flows: ReturnType<typeof openingFlows>, h: number) => Math.max(...flows.map((f) => Math.abs(f.flowM3S[h]!)))

  test('pass more at the same hour of the same room, in any wind and cold', () => {
    const blown = weatherOf({ hoursCount: HOURS, airC: (h) => 5 - h / 4 })
    blown.columns.windMPerS!.forEach((_, h, wind) => {
      wind[h] = (h * 7) % 11
    })
    blown.columns.windFromDeg?.forEach((_, h, from) => {
      from[h] = (h * 53) % 360
    })
    const [small, large] = [0.09, 0.25].map((areaM2) => flowsOf({ openings: sized(areaM2), leakM3SAt1Pa: 0.01 }, 12, blown))
    for (let h = 0; h < 24; h++) expect(passes(large!, h)).toBeGreaterThan(passes(small!, h))
  })

  test('may show less at an hour of their own year in which warmth and wind all but cancel; the room gets more air in every hour', () => {
    // Seen with 500 mm for 300 mm: an arrow tells one way through a vent at the end of an hour, by the room that those vents made.
    const hours = sampleHours(24 * 30, 10)
    const [small, large] = [0.3, 0.5].map((widthM) => {
      const box = { ...sampleBox(0), winterMonths: [] }
      const model = { ...box, openings: box.openings.map((o) => ({ ...o, areaM2: 0.6 * widthM * widthM })) }
      const run = yearOf(model, surroundingsOf(model, hours, { stepsPerHour: 4 }))
      return { run, flows: openingFlows({ model, run, weather: hours, fromH: 0, toH: hours.hoursCount }) }
    })
    const all = Array.from({ length: hours.hoursCount }, (_, h) => h)
    const less = all.filter((h) => passes(large!.flows, h) < passes(small!.flows, h))
    expect(less.length).toBeLessThan(0.01 * all.length)
    for (const h of all) expect(large!.run.series.inflowKg[h]!).toBeGreaterThan(small!.run.series.inflowKg[h]!)
    const usual = all.reduce((sum, h) => sum + passes(small!.flows, h), 0) / all.length
    for (const h of less) expect(passes(small!.flows, h)).toBeLessThan(usual / 2)
  })
})

test('what it tells of a vent is what the run took for the whole room', () => {
  const hours = heldHours(24, { airC: 5 })
  const box = {
    ...sampleBox(0),
    winterMonths: [],
    doorOpenS: new Float64Array(24),
    leakM3SAt1Pa: 1e-9,
    holds: { fromC: 20, toC: 20 },
  }
  const model = { ...box, openings: PAIR, waterKgS: new Float64Array(288), floor: { ...box.floor, dryKgPerM2: 0 } }
  const run = yearOf(model, surroundingsOf(model, hours, { stepsPerHour: 4 }))
  const [low] = openingFlows({ model, run, weather: hours, fromH: 0, toH: 24 })
  const kgPerM3 = surroundingsOf(model, hours, { stepsPerHour: 4 }).pressurePa[0]! / (287.042 * 278.15)
  expect((low!.flowM3S[20]! * 3600 * kgPerM3) / run.series.inflowKg[20]!).toBeCloseTo(1, 2)
})
