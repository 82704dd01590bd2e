import { expect, test } from 'vitest'
import { stackFlowM3s } from '../flow/index.ts'
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
