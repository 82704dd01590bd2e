import { expect, test } from 'vitest'
import type { GlassView } from '../worker/protocol.ts'
import { fitted } from './fitted.ts'

const view: GlassView = {
  ...{ widthPx: 1000, heightPx: 400, pxPerMm: 4, said: '', items: [] },
  things: [{ id: 'panel', side: 'left', x: 100, y: 40, w: 20, h: 30 }],
  sides: [{ side: 'left', x: 0, y: 0, w: 500, h: 200, zero: [0, 200], along: [80, 0], up: [0, -80], flatsM: [1.2] }],
  machines: [
    { id: 'G4', x: 900, y: 10, w: 40, h: 20, from: [500, 100], cordsFrom: [[490, 90]], bearingDeg: null, out: [1, 0], pxPerM: 6 },
  ],
}
const asked = { box: 'yard', side: null, units: 'metric', letterPx: 13 } as const

test('a kept drawing fills the room that is there, all of it by the same factor, and no length in metres or direction changes', () => {
  const half = fitted(view, { ...asked, widthPx: 500, heightPx: 400 })
  expect([half.widthPx, half.heightPx, half.pxPerMm]).toEqual([500, 200, 2])
  expect(half.things[0]).toMatchObject({ x: 50, y: 20, w: 10, h: 15 })
  expect(half.sides[0]).toMatchObject({ zero: [0, 100], along: [40, 0], up: [0, -40], flatsM: [1.2] })
  expect(half.machines[0]).toMatchObject({ from: [250, 50], cordsFrom: [[245, 45]], out: [1, 0], pxPerM: 3 })
})

test('in the room it was laid out for it stays as it is', () => {
  expect(fitted(view, { ...asked, widthPx: 1000, heightPx: 500 })).toBe(view)
})
