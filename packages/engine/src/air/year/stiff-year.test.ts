import { afterAll, describe, expect, test } from 'vitest'
import { SIDES, type Side } from '../../job/index.ts'
import { woodMoisturePct } from '../water/index.ts'
import { finer } from './finer.fixture.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { stiffProgram } from './stiff-year.fixture.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxModel } from './types.ts'
import { yearOf } from './year-of.ts'

// Source: CVODE of SUNDIALS (Hindmarsh and others, ACM TOMS 31, 2005), backward differentiation of variable order, relative tolerance 1e-7.
const stiff = stiffProgram()
afterAll(() => stiff?.done())
const skipped = stiff === null ? 'SKIPPED, gcc or libsundials-dev is not installed: ' : ''

const none = new Float64Array(288)
const shut = (box: BoxModel): BoxModel => ({ ...box, doorOpenS: new Float64Array(24) })
const dry = (box: BoxModel): BoxModel => ({ ...box, waterKgS: none, floor: { ...box.floor, dryKgPerM2: 0 } })

/** Root mean square and largest difference after the first day. */
function off(one: Float64Array, other: Float64Array, width = 1): readonly [number, number] {
  let [sum, worst] = [0, 0]
  const from = 24 * width
  for (let i = from; i < one.length; i++) {
    const d = Math.abs(one[i]! - other[i]!)
    sum += d * d
    if (d > worst) worst = d
  }
  return [Math.sqrt(sum / (one.length - from)), worst]
}
/** Hours in which each side carries more than 2 g/m²: here, there, and in one of the two only. */
function wetHours(ours: Float64Array, told: Float64Array) {
  const wet = (of: Float64Array, at: number) => of[at]! > 0.002
  const counts = SIDES.map((side, d) => {
    const count = { ours: 0, told: 0, onlyOne: 0 }
    for (let at = d; at < ours.length; at += SIDES.length) {
      if (wet(ours, at)) count.ours++
      if (wet(told, at)) count.told++
      if (wet(ours, at) !== wet(told, at)) count.onlyOne++
    }
    return [side, count] as const
  })
  return Object.fromEntries(counts) as Record<Side, { ours: number; told: number; onlyOne: number }>
}

function beside(box: BoxModel, days: number, meanC: number, parts: readonly number[]) {
  const plain = sampleHours(24 * days, meanC)
  const isDry = box.floor.dryKgPerM2 === 0
  const vapourPa = isDry ? new Float64Array(24 * days).fill(30) : plain.columns.vapourPa
  const sur = surroundingsOf(box, { ...plain, columns: { ...plain.columns, vapourPa } }, { stepsPerHour: 4 })
  const start = { airC: sur.airC[0]!, vapourPa: sur.vapourPa[0]! }
  const woodFrac = woodMoisturePct(sur.earlierC, Math.min(sur.earlierFrac, 0.97)) / 100
  const told = stiff!.run(box, sur, { ...start, woodFrac }, 1e-7)
  return parts.map((count) => {
    const ours = yearOf(box, finer(sur, count), { firstRunHours: 0, startC: start.airC, startVapourPa: start.vapourPa }).series
    return {
      air: off(ours.airC, told.airC),
      gear: off(ours.gearC, told.gearC),
      face: off(ours.faceC, told.faceC, 6),
      film: off(ours.filmKgPerM2, told.filmKgPerM2, 6),
      wet: wetHours(ours.filmKgPerM2, told.filmKgPerM2),
    }
  })
}

describe.skipIf(stiff === null)(
  `${skipped}beside a stiff solver of the same equations`,
  () => {
    test('in steps of 15 s the kernel goes where the solver goes, with frost, thaw, drips, fog and wood', () => {
      for (const box of [shut(dry(sampleBox(0))), shut(dry(sampleBox(0.05))), shut(sampleBox(0)), shut(sampleBox(0.05))]) {
        const [fine] = beside(box, 7, 6, [60])
        expect(fine!.air[0]).toBeLessThan(0.0005)
        expect(fine!.air[1]).toBeLessThan(0.003)
        expect(fine!.face[0]).toBeLessThan(0.0005)
        expect(fine!.gear[1]).toBeLessThan(0.004)
        expect(fine!.film[1]).toBeLessThan(1e-4)
      }
    })

    test('a year, bare and dry: at 4 steps an hour within 0.02 K, at 16 within 0.005 K rms and 0.03 K at most', () => {
      const [four, sixteen] = beside(shut(dry(sampleBox(0))), 365, -4, [1, 4])
      expect(four!.air[0]).toBeLessThan(0.02)
      expect(four!.air[1]).toBeLessThan(0.2)
      expect(four!.gear[0]).toBeLessThan(0.005)
      expect(sixteen!.air[0]).toBeLessThan(0.005)
      expect(sixteen!.air[1]).toBeLessThan(0.03)
    })

    test('sixty days, foamed and dry: at 4 steps an hour within 0.005 K rms', () => {
      const [four] = beside(shut(dry(sampleBox(0.05))), 60, -4, [1])
      expect(four!.air[0]).toBeLessThan(0.005)
      expect(four!.gear[0]).toBeLessThan(0.005)
      expect(four!.gear[1]).toBeLessThan(0.03)
    })

    test.each([
      ['bare', 0],
      ['foamed', 0.05],
    ])(
      'a wet year, %s, its door in use: hours wet or frosted within 2 in 100 at 4 steps an hour, within 5 in 1000 at 16',
      (_, foamM) => {
        const [four, sixteen] = beside(sampleBox(foamM), 365, 2, [1, 4])
        expect(four!.air[0]).toBeLessThan(0.02)
        expect(sixteen!.air[0]).toBeLessThan(0.01)
        for (const [step, most] of [
          [four!, 0.02],
          [sixteen!, 0.005],
        ] as const)
          for (const side of SIDES) {
            const { ours, told, onlyOne } = step.wet[side]
            expect(told).toBeGreaterThan(1000)
            expect(Math.abs(ours - told), side).toBeLessThanOrEqual(most * told)
            // Within the first or last hour of each time that it is wet.
            expect(onlyOne, side).toBeLessThanOrEqual(1.25 * most * told)
          }
        expect(four!.wet.roof.onlyOne).toBeLessThanOrEqual(0.005 * four!.wet.roof.told)
      },
    )
  },
  600_000,
)
