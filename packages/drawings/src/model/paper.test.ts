import { describe, expect, test } from 'vitest'
import type { Item, Line, Scene, Text } from '../scene.ts'
import type { Drawing, Drawn } from './drawing.ts'
import { coverOf } from './lettering.ts'
import { across, plate, rect, round, tag, upward } from './make.ts'
import { arcOf, paperScene, SCALES, sceneAt } from './paper.ts'

const drawing = (items: readonly Drawn[], toScale = true): Drawing => ({ id: 'd', title: 'd', said: 'd', toScale, items })
const lines = (scene: Scene): readonly Line[] => scene.items.filter((i): i is Line => i.kind === 'line')
const said = (scene: Scene): readonly string[] => scene.items.filter((i): i is Text => i.kind === 'text').map((t) => t.text)
const size = (item: Item): readonly [number, number] => {
  const { left, right, top, bottom } = coverOf(item)
  return [right - left, bottom - top]
}

describe('a drawing on paper', () => {
  test('at every scale a true length is itself over the scale, and the scale bar says the same', () => {
    for (const scale of SCALES) {
      const scene = sceneAt(drawing([rect('cut', [0, 0], [1000, 400], 'cut')]), scale)
      const [wide, tall] = size(lines(scene)[0]!)
      expect(wide).toBeCloseTo(1000 / scale, 9)
      expect(tall).toBeCloseTo(400 / scale, 9)
      const bar = lines(scene).find((l) => l.line === 'dimension')!
      const name = said(scene).find((w) => / m+$/.test(w))!
      const [figure, unit] = name.split(' ')
      expect(size(bar)[0] * scale).toBeCloseTo(Number(figure) * (unit === 'm' ? 1000 : 1), 6)
      expect(said(scene)).toContain(`1:${scale}`)
    }
  })

  test('the largest scale that finds room is taken, with letters and dimensions counted in', () => {
    const bare = drawing([rect('cut', [0, 0], [1800, 1000], 'cut')])
    expect(said(paperScene(bare, { widthMm: 185, heightMm: 205 }))).toContain('1:10')
    const measured = drawing([...bare.items, upward([1800, 0], [1800, 1000], 1800, 8)])
    expect(said(paperScene(measured, { widthMm: 185, heightMm: 205 }))).toContain('1:20')
  })

  test('what finds no room at 1:200, or whose lengths do not compare, is shrunk and says so', () => {
    const long = drawing([rect('cut', [0, 0], [60_000, 4000], 'cut')])
    const scene = paperScene(long, { widthMm: 185, heightMm: 205 })
    expect(said(scene)).toContain('not to scale')
    expect(said(scene).some((w) => w.startsWith('1:'))).toBe(false)
    for (const item of scene.items) expect(coverOf(item).right).toBeLessThanOrEqual(185)
    expect(said(paperScene(drawing([rect('cut', [0, 0], [10, 10], 'cut')], false), { widthMm: 100, heightMm: 100 }))).toContain(
      'not to scale',
    )
  })

  test('nothing to draw and no paper are our own mistakes', () => {
    expect(() => paperScene(drawing([]), { widthMm: 185, heightMm: 205 })).toThrow('drawings/paper-range')
    expect(() => paperScene(drawing([rect('cut', [0, 0], [1, 1], 'cut')]), { widthMm: 5, heightMm: 205 })).toThrow(
      'drawings/paper-range',
    )
  })

  test('up on the box is up on paper', () => {
    const scene = sceneAt(drawing([round('cut', [0, 0], 1, 'cut'), round('cut', [0, 100], 2, 'cut')]), 1)
    const [low, high] = scene.items.filter((i) => i.kind === 'circle')
    expect(low!.atMm[1]).toBeGreaterThan(high!.atMm[1])
  })

  test('a dimension says the true length at any scale', () => {
    const of = drawing([rect('cut', [0, 0], [1234.5, 800], 'cut'), across([0, 0], [1234.5, 0], 0, 8)])
    for (const scale of [10, 50]) expect(said(sceneAt(of, scale))).toContain('1234.5')
  })

  test('rounded corners keep their radius: area of the plate on paper is that of the true one', () => {
    const scene = sceneAt(drawing([plate('cut', [0, 0], [120, 61], 25, 'cut')]), 1)
    const points = lines(scene)[0]!.pointsMm
    const area = Math.abs(
      points.reduce(
        (sum, [x, y], i) => sum + x * points[(i + 1) % points.length]![1] - y * points[(i + 1) % points.length]![0],
        0,
      ) / 2,
    )
    // Chords stray from their arcs by at most 0.02 mm, over the four quarters together.
    expect(Math.abs(area - (120 * 61 - (4 - Math.PI) * 25 ** 2))).toBeLessThan(0.02 * 2 * Math.PI * 25)
  })

  test('an arc of bulge 1 is half a circle, to the left of its way', () => {
    const { middle, radius, sweepRad } = arcOf([0, 0], [2, 0], 1)
    expect(middle[0]).toBeCloseTo(1, 12)
    expect(middle[1]).toBeCloseTo(0, 12)
    expect(radius).toBeCloseTo(1, 12)
    expect(sweepRad).toBeCloseTo(Math.PI, 12)
  })
})

describe('letters of many things', () => {
  const row = Array.from({ length: 9 }, (_, i): readonly Drawn[] => [
    rect('item', [i * 80, 0], [i * 80 + 60, 60], 'symbol'),
    tag([i * 80, 0], [i * 80 + 60, 60], `tag ${i}`),
  ]).flat()

  test('no two stand on each other, though the things stand close', () => {
    const letters = sceneAt(drawing(row), 20).items.filter((i): i is Text => i.kind === 'text' && i.text.startsWith('tag'))
    expect(letters.length).toBe(9)
    for (const [i, a] of letters.entries())
      for (const b of letters.slice(i + 1)) {
        const [p, q] = [coverOf(a), coverOf(b)]
        const apart = p.right <= q.left || q.right <= p.left || p.bottom <= q.top || q.bottom <= p.top
        expect(apart, `${a.text} on ${b.text}`).toBe(true)
      }
  })

  test('the order of the things does not matter', () => {
    const places = (items: readonly Drawn[]): readonly string[] =>
      sceneAt(drawing(items), 20)
        .items.filter((i): i is Text => i.kind === 'text')
        .map((t) => `${t.text} ${t.atMm.map((n) => n.toFixed(3))}`)
        .toSorted()
    expect(places(row.toReversed())).toEqual(places(row))
  })
})
