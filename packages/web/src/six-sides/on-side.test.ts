import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { SideView } from '../worker/protocol.ts'
import { pinText, placeAt, pointOf, stepped } from './on-side.ts'

/** The left long side as it lies below the floor: along to the right, up is down the page, 50 px a metre. */
const left: SideView = {
  side: 'left',
  ...{ x: 100, y: 300, w: 300, h: 120, zero: [100, 306], along: [50, 0], up: [0, 50] },
  flatsM: [0.2, 0.478, 0.756],
}
/** The blind end, lying on its side: along it runs up the page, up is to the left. */
const end: SideView = { ...left, side: 'blind end', x: 0, y: 180, w: 98, h: 120, zero: [94, 300], along: [0, -50], up: [-50, 0] }

test('a point of the drawing is a place of its side, and back, however the side is turned', () => {
  for (const side of [left, end]) {
    const place = placeAt(side, side.x + 40, side.y + 60)
    const [x, y] = pointOf(side, place)
    expect([Math.abs(x - side.x - 40) < 0.5, Math.abs(y - side.y - 60) < 0.5]).toEqual([true, true])
  }
  expect(placeAt(end, 44, 250)).toMatchObject({ side: 'blind end', alongM: 1, upM: 1 })
})

test('beyond the edge is at the edge', () => expect(placeAt(left, 900, 306).alongM).toBeCloseTo(6, 6))

test('arrows step to the next flat, 10 mm with shift, 1 mm with ctrl, the way they point on the drawing', () => {
  const at = { side: 'left' as const, alongM: 0.3, upM: 1 }
  expect(stepped(left, at, 'right', 'rib').alongM).toBeCloseTo(0.478, 6)
  expect(stepped(left, at, 'left', 'rib').alongM).toBeCloseTo(0.2, 6)
  expect(stepped(left, at, 'down', '10 mm').upM).toBeCloseTo(1.01, 6)
  expect(stepped(left, at, 'up', '1 mm').upM).toBeCloseTo(0.999, 6)
  expect(stepped(end, { ...at, side: 'blind end' }, 'left', '10 mm').upM).toBeCloseTo(1.01, 6)
})

// The form of docs/fit.md, Pins.
test('written as a pin is written', () => {
  expect(pinText({ side: 'left', alongM: 1.2, upM: 1.555 }, 'inside')).toBe('left 1.20 m 1.555 m')
  expect(pinText({ side: 'blind end', alongM: 0.004, upM: 2 }, 'outside')).toBe('blind end outside 0.004 m 2.00 m')
  expect(readFileSync(new URL('../../../../docs/fit.md', import.meta.url), 'utf8')).toContain('left 1.20 m 1.55 m')
})
