import { expect, test } from 'vitest'
import { nearestThatWay, touched } from './nearest.ts'

const at = (id: string, x: number, y: number, size = 10) => ({ id, x: x - size / 2, y: y - size / 2, w: size, h: size })

test('a touch means what lies under it, the smaller of two', () => {
  expect(touched([at('panel', 50, 50, 80), at('switch', 50, 50)], 52, 52, 22)?.id).toBe('switch')
})

test('a touch beside everything means the nearest within reach, and nothing beyond', () => {
  const things = [at('a', 0, 0), at('b', 40, 0)]
  expect(touched(things, 24, 0, 22)?.id).toBe('b')
  expect(touched(things, 20, 60, 22)).toBeNull()
})

test('an arrow goes straight before it goes aside', () => {
  const grid = [at('a', 0, 0), at('b', 30, 2), at('c', 15, 40), at('d', 0, 60)]
  const [a] = grid
  expect(nearestThatWay(grid, a!, 'right')?.id).toBe('b')
  expect(nearestThatWay(grid, a!, 'down')?.id).toBe('d')
  expect(nearestThatWay(grid, a!, 'left')).toBeNull()
  expect(nearestThatWay(grid, a!, 'up')).toBeNull()
})

test('arrows reach every thing of a wall from every other', () => {
  const wall = Array.from({ length: 24 }, (_, i) => at(`t${i}`, (i % 8) * 17 + (i % 3), Math.floor(i / 8) * 21))
  for (const start of wall) {
    const seen = new Set([start.id])
    const open = [start]
    for (const one of open)
      for (const way of ['left', 'right', 'up', 'down'] as const) {
        const next = nearestThatWay(wall, one, way)
        if (next === null || seen.has(next.id)) continue
        seen.add(next.id)
        open.push(next)
      }
    expect(seen.size, start.id).toBe(wall.length)
  }
})
