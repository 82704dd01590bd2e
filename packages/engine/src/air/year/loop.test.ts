import { describe, expect, test } from 'vitest'
import type { WeatherHours } from '../../weather/index.ts'
import { engineOf, runKernel } from './engine.ts'
import { layoutOf } from './layout.ts'
import { compiledLoop, type Loop, plainLoop } from './loop.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxFan, BoxHeater, BoxModel, YearRun } from './types.ts'

/** The two ways to run the loop, the text itself and the module compiled from it, through one suite. */

const compiled = compiledLoop()!
const LOOPS: Readonly<Record<string, Loop>> = { plain: plainLoop, compiled }
const OPTIONS = { firstRunHours: 48, startC: null, startVapourPa: null }
const HOURS = 24 * 60

const winter = sampleHours(HOURS, -2)
const wet: WeatherHours = {
  ...winter,
  columns: {
    ...winter.columns,
    snowM: Float64Array.from({ length: HOURS }, (_, h) => Math.max(0, 0.3 - Math.abs(h - 300) / 1000)),
    rainMm: Float64Array.from({ length: HOURS }, (_, h) => (h % 50 < 5 ? 1 : 0)),
  },
}
const FAN: BoxFan = {
  side: 'right',
  heightM: 2,
  blows: 'out',
  freeFlowM3S: 0.1,
  shutPressurePa: 60,
  powerW: 40,
  onAboveC: 5,
  drierKgPerKg: 0.0005,
  solar: null,
}
const HEATER: BoxHeater = { at: 'room', powerW: 800, onBelowC: 4, deadBandK: 2, dewMarginK: null }
const bareBox = sampleBox(0)
const soaked = new Float64Array(288).fill(0.5 / 3600)
const roofed: BoxModel = {
  ...bareBox,
  faces: bareBox.faces.map((face) =>
    face.side === 'roof' ? { ...face, shade: { coversFrac: 0.9, absorptanceFrac: 0.5 } } : face,
  ),
}

const BOXES: Readonly<Record<string, readonly [box: BoxModel, hours: WeatherHours]>> = {
  bare: [bareBox, winter],
  foamed: [sampleBox(0.05), winter],
  'warm and dry, no floor wood': [{ ...bareBox, floor: { ...bareBox.floor, dryKgPerM2: 0 } }, sampleHours(HOURS, 18)],
  'fan out': [{ ...bareBox, fan: FAN }, winter],
  'fan in, driven by the sun': [
    { ...bareBox, fan: { ...FAN, blows: 'in', solar: { ratedWPerM2: 750, startsAtFrac: 0.15 } } },
    winter,
  ],
  'heater in the room': [{ ...sampleBox(0.05), heater: HEATER }, winter],
  'humidistat in the cabinet': [{ ...bareBox, heater: { ...HEATER, at: 'cabinet', powerW: 120, dewMarginK: 3 } }, winter],
  'second roof, rain, snow and much water': [{ ...roofed, waterKgS: soaked, fan: FAN }, wet],
  'drips and a painted floor': [
    { ...bareBox, waterKgS: soaked, floor: { ...bareBox.floor, paintedRatio: 20 } },
    sampleHours(HOURS, -15),
  ],
  'doors open all day': [{ ...bareBox, doorOpenS: new Float64Array(24).fill(600) }, winter],
  'held between two temperatures': [{ ...bareBox, holds: { fromC: 20, toC: 24 } }, winter],
  'a told inflow, no openings': [{ ...bareBox, openings: [], toldInflowM3S: 0.01 }, winter],
  'buried and skirted': [{ ...bareBox, faces: bareBox.faces.map((face) => ({ ...face, sees: 'ground' as const })) }, winter],
}

const runOf = (loop: Loop, box: BoxModel, hours: WeatherHours, stepsPerHour = 4): YearRun =>
  runKernel(box, layoutOf(box), surroundingsOf(box, hours, { stepsPerHour }), OPTIONS, loop)

/** Bits as text, so that −0 is not 0 and no number is NaN unseen. */
function bitsOf(run: YearRun): Record<string, unknown> {
  const { series, ...rest } = run
  const lists = Object.entries(series).map(([name, list]) => [name, Buffer.from((list as Float64Array).buffer).toString('hex')])
  return { ...rest, ...Object.fromEntries(lists) }
}

test('where WebAssembly is, the loop is compiled; where it is not, or is forbidden, it is not', () => {
  expect(compiledLoop()).not.toBeNull()
  expect(compiledLoop(null)).toBeNull()
  const forbidden = class {
    readonly exports = {}
    constructor() {
      throw new Error('violates the policy of the page')
    }
  }
  const Memory = class {
    readonly buffer = new ArrayBuffer(0)
    readonly grow = () => 0
  }
  expect(compiledLoop({ Memory, Module: forbidden, Instance: forbidden })).toBeNull()
})

for (const [name, [box, hours]] of Object.entries(BOXES))
  test(`the compiled loop gives the bits of the plain one: ${name}`, () => {
    const plain = runOf(plainLoop, box, hours)
    expect(bitsOf(runOf(compiled, box, hours))).toEqual(bitsOf(plain))
    expect(Math.max(...plain.series.outsideFaceC) - Math.min(...plain.series.outsideFaceC)).toBeGreaterThan(0.5)
  })

test('and at 2 and 12 steps an hour', () => {
  for (const steps of [2, 12])
    expect(bitsOf(runOf(compiled, bareBox, winter, steps))).toEqual(bitsOf(runOf(plainLoop, bareBox, winter, steps)))
})

test('the boxes differ in what they show', () => {
  const seen = new Set(Object.values(BOXES).map(([box, hours]) => runOf(compiled, box, hours).series.airC.join()))
  expect(seen.size).toBe(Object.keys(BOXES).length)
})

for (const [name, loop] of Object.entries(LOOPS))
  describe(`the ${name} loop`, () => {
    test('leaves what an earlier run gave as it was', () => {
      const first = runOf(loop, bareBox, winter)
      const kept = bitsOf(first)
      runOf(loop, sampleBox(0.05), sampleHours(24 * 90, 9))
      expect(bitsOf(first)).toEqual(kept)
      expect(bitsOf(runOf(loop, bareBox, winter))).toEqual(kept)
    })

    test('runs several engines alive at once, a part of each in turn', () => {
      const made = (box: BoxModel) => engineOf(box, layoutOf(box), surroundingsOf(box, winter, { stepsPerHour: 4 }), OPTIONS)
      const engines = [made(bareBox), made(sampleBox(0.05))]
      const count = engines[0]!.stepsCount
      for (let from = 0; from < count; from += 700) for (const engine of engines) loop(engine, from, Math.min(from + 700, count))
      engines.forEach((engine, i) => {
        const alone = made([bareBox, sampleBox(0.05)][i]!)
        loop(alone, 0, count)
        expect(engine.series.airC).toEqual(alone.series.airC)
        expect(engine.state).toEqual(alone.state)
      })
    })

    test('says in which hour and node a number is none', () => {
      const engine = engineOf(bareBox, layoutOf(bareBox), surroundingsOf(bareBox, winter, { stepsPerHour: 4 }), OPTIONS)
      engine.sunWPerM2.fill(Number.NaN, 6 * 402)
      expect(() => loop(engine, 0, engine.stepsCount)).toThrow(
        expect.objectContaining({ code: 'air/not-a-number', detail: expect.objectContaining({ hour: 100, node: 0 }) }),
      )
    })

    test('says in which hour and node a face is hotter than any table', () => {
      const around = surroundingsOf(bareBox, winter, { stepsPerHour: 4 })
      const engine = engineOf(bareBox, layoutOf(bareBox), around, { ...OPTIONS, startC: 400 })
      expect(() => loop(engine, 8, engine.stepsCount)).toThrow(
        expect.objectContaining({ code: 'air/not-a-number', detail: { hour: 2, node: 0, airC: 400 } }),
      )
    })
  })
