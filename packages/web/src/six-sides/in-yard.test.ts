import { expect, test } from 'vitest'
import type { MachineLine, MachineView } from '../worker/protocol.ts'
import { pointOfStand, standAt, stoodFurther } from './in-yard.ts'

const line: MachineLine = {
  ...{ id: 'G1', phase: 'stay', what: 'groomer', things: [], lengthM: { G1C: 12, G1H: 10 }, voltageV: 118 },
  ...{ bearingDeg: null, verdict: 'holds', drawnAs: { sign: '', words: '', cords: [] } },
}
const yard: MachineView = {
  id: 'G1',
  x: 290,
  y: 190,
  w: 20,
  h: 20,
  from: [180, 200],
  cordsFrom: [],
  bearingDeg: 0,
  out: [0, 0],
  pxPerM: 10,
}
const beside: MachineView = { ...yard, bearingDeg: null, out: [0, 1], pxPerM: 6 }

test('in the folded yard both bearing and length follow the finger, to scale, and cords keep their difference', () => {
  // 200 px straight down at 10 px a metre: 20 m, a quarter turn clockwise.
  expect(standAt(line, yard, 180, 400)).toEqual({ machine: 'G1', lengthM: { G1C: 20, G1H: 18 }, bearingDeg: 90 })
})

test('beside the net only the way out counts', () => {
  const stand = standAt(line, beside, 500, 200 + 60)
  expect(stand).toEqual({ machine: 'G1', lengthM: { G1C: 22, G1H: 20 }, bearingDeg: null })
  expect(pointOfStand(line, beside, stand)).toEqual([300, 260])
})

test('a cord is never shorter than a metre', () => expect(standAt(line, yard, 180, 200).lengthM.G1C).toBe(1))

test('keys lengthen along the bearing and turn around the box', () => {
  const stand = { machine: 'G1', lengthM: line.lengthM, bearingDeg: null }
  expect(stoodFurther(line, yard, stand, 'up', false).lengthM.G1C).toBe(13)
  expect(stoodFurther(line, yard, stand, 'down', true).lengthM.G1C).toBe(11.9)
  expect(stoodFurther(line, yard, stand, 'left', false).bearingDeg).toBe(355)
  expect(stoodFurther(line, beside, stand, 'left', false).bearingDeg).toBe(null)
})
