import { expect, test } from 'vitest'
import type { Drawn } from '../model/drawing.ts'
import { areaOf, overlapMm2 } from '../model/lettering.ts'
import { bareScene } from '../model/paper.ts'
import type { Point } from '../scene.ts'
import { yardAround } from './around.ts'
import { cordName, machineKind, type YardMachine } from './machine.ts'
import { machinePlaces, wayOf } from './places.ts'

const machine = (i: number, changes: Partial<YardMachine> = {}): YardMachine => ({
  ...{
    id: `M${i}`,
    kind: 'wheels',
    bearingDeg: null,
    lines: [`${8 + i} m`, '115.2 V'],
    verdict: i % 3 === 0 ? 'fails' : 'holds',
  },
  cords: [
    {
      plug: `M${i}`,
      item: `receptacle M${i}`,
      side: i % 4 === 3 ? 'right' : 'left',
      fromMm: [1500 + 90 * i, i % 4 === 3 ? 2438 : 0],
      lengthM: 8 + i,
    },
  ],
  ...changes,
})
const many = (count: number): readonly YardMachine[] => Array.from({ length: count }, (_, i) => machine(i))

test('a told bearing is clockwise from the way the door end looks, and the cord is as long as told', () => {
  const [place] = machinePlaces([machine(0, { bearingDeg: 90 })])
  expect(place?.told).toBe(true)
  // A quarter turn clockwise, seen from above with the right long side up the page: down the page.
  expect(place!.atMm[0]).toBeCloseTo(1500, 6)
  expect(place!.atMm[1]).toBeCloseTo(-8000, 6)
  expect(wayOf(0)).toEqual([1, -0])
})

test('spread machines lie before the side their cords leave, each as far as its cord is long, and no two in one place', () => {
  const places = machinePlaces(many(24))
  for (const { machine: m, fromMm, atMm } of places) {
    expect(Math.hypot(atMm[0] - fromMm[0], atMm[1] - fromMm[1])).toBeCloseTo(m.cords[0]!.lengthM * 1000, 3)
    expect(Math.sign(atMm[1] - fromMm[1])).toBe(m.cords[0]!.side === 'right' ? 1 : -1)
  }
  const keys = places.map((p) => p.atMm.map(Math.round).join(' '))
  expect(new Set(keys).size).toBe(24)
})

const AREA = { low: [-2591, -2591] as Point, high: [14740, 5029] as Point }
const around = (count: number) => yardAround(many(count), AREA, (_side, x) => x)

test.each([5, 17, 40])('beside the net no letters of %i machines stand on others', (count) => {
  const { cords, signs } = around(count)
  const drawing = { id: 'a', title: '', said: '', toScale: true, items: [...cords, ...signs] }
  const texts = bareScene(drawing, 76).scene.items.flatMap((item) => (item.kind === 'text' ? [item] : []))
  expect(texts.length).toBe(3 * count)
  const areas = texts.map(areaOf)
  const over = areas.flatMap((a, i) =>
    areas.slice(i + 1).flatMap((b, k) => (overlapMm2(a, b) > 0.3 ? [`${texts[i]!.text} on ${texts[i + 1 + k]!.text}`] : [])),
  )
  expect(over).toEqual([])
})

test('no cord of a row crosses another between the box and the bend', () => {
  const first = (item: Drawn): readonly [Point, Point] | null =>
    item.kind === 'outline' && item.line === 'cord' ? [item.pointsMm[0]!, item.pointsMm[1]!] : null
  const legs = around(12).cords.flatMap((item) => first(item) ?? []) as unknown as Point[]
  const pairs = Array.from({ length: legs.length / 2 }, (_, i) => [legs[2 * i]!, legs[2 * i + 1]!] as const)
  for (const [a, b] of pairs)
    for (const [c, d] of pairs) {
      if (Math.sign(b[1]) !== Math.sign(d[1]) || a === c) continue
      expect((a[0] - c[0]) * (b[0] - d[0])).toBeGreaterThanOrEqual(0)
    }
  expect(around(12).cords.some((item) => 'of' in item && item.of === cordName('M0'))).toBe(true)
})

test('a machine is drawn by its owner’s words, else as a plain block', () => {
  expect(machineKind('groomer, coolant element', 'vehicle-heater')).toBe('tracks')
  expect(machineKind('crew truck', 'vehicle-heater')).toBe('wheels')
  expect(machineKind('sleeper trailer', 'general')).toBe('trailer')
  expect(machineKind('tool-shed convector', 'building')).toBe('building')
  expect(machineKind('fuel transfer pump', 'pump')).toBe('pump')
  expect(machineKind('radio repeater', 'general')).toBe('block')
})
