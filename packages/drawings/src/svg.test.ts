import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { examples } from '../test/examples.ts'
import { HATCHES } from './hatches.ts'
import { box, line, text } from './scene.ts'
import { mm, svg } from './svg.ts'
import { MARK_PATHS, markSvg } from './verdict-marks.ts'

const FOLDER = join(import.meta.dirname, '..', 'test', 'golden')

describe('golden drawings: looked at when they change (GOLDEN=write writes them anew)', () => {
  for (const [name, make] of Object.entries(examples)) {
    test(`guard: ${name} is as it was when last looked at`, () => {
      const file = join(FOLDER, `${name}.svg`)
      const now = svg.render(make())
      if (process.env.GOLDEN === 'write') {
        mkdirSync(FOLDER, { recursive: true })
        writeFileSync(file, now)
      }
      expect(now).toBe(readFileSync(file, 'utf8'))
    })
  }
})

test('the same scene gives the same bytes', () => {
  for (const make of Object.values(examples)) expect(svg.render(make())).toBe(svg.render(make()))
})

test('places are rounded to a hundredth of a millimetre, and zero has no sign', () => {
  expect(mm(1.23456)).toBe('1.23')
  expect(mm(-0.001)).toBe('0')
})

test('only black and white are drawn', () => {
  for (const make of Object.values(examples)) {
    const colours = new Set(svg.render(make()).match(/#[0-9a-f]{3,6}\b/gi))
    expect([...colours].filter((c) => c !== '#000' && c !== '#fff')).toEqual([])
  }
})

test('every item of every drawing lies on its paper', () => {
  for (const [name, make] of Object.entries(examples)) {
    const scene = make()
    const [w, h] = scene.sizeMm
    for (const item of scene.items) {
      const points = item.kind === 'line' ? [item.pointsMm, ...(item.moreMm ?? [])].flat() : [item.atMm]
      const off = points.filter(([x, y]) => !(x >= -0.01 && x <= w + 0.01 && y >= -0.01 && y <= h + 0.01))
      expect(off, `${name}: ${item.kind} ${item.kind === 'text' ? item.text : ''}`).toEqual([])
    }
  }
})

test('words are escaped, never read as markup', () => {
  const said = svg.render({ sizeMm: [10, 10], said: 'a < b & c', items: [text([1, 1], '<script>')] })
  expect(said).toContain('a &lt; b &amp; c')
  expect(said).toContain('&lt;script&gt;')
})

test('a hatch is defined once, however often it is used', () => {
  const drawn = svg.render({
    sizeMm: [10, 10],
    said: '',
    items: [
      box([0, 0], 2, 2, 'cut', 'dots'),
      box([4, 4], 2, 2, 'none', 'dots'),
      line(
        [
          [0, 0],
          [1, 1],
        ],
        'chalk',
      ),
    ],
  })
  expect(drawn.match(/<pattern /g)?.length).toBe(1)
})

test('no two hatches of one chart look alike: angle and spacing differ', () => {
  const looks = Object.values(HATCHES).map((h) => `${h.dots} ${h.angleDeg} ${h.spacingMm}`)
  expect(new Set(looks).size).toBe(looks.length)
})

test('ink rises from holds over tight to fails', () => {
  // Filled areas of the paths of the look, counted by hand on the grid of 16: a round of radius 2.6; a plate 5 by 10 and a stop 2.6 by 16; two halves of a plate.
  const filled = (which: keyof typeof MARK_PATHS): number => MARK_PATHS[which].filter((p) => p.filled).length
  expect(filled('unknown')).toBe(0)
  expect(Object.keys(MARK_PATHS)).toEqual(['holds', 'tight', 'fails', 'unknown', 'others', 'punch'])
  expect(markSvg('fails')).toContain('M0 0h9.5L5 11H0zM11 5h5v11H6.5z')
  expect(markSvg('unknown')).toContain('M1.5 5.5v-4h4M10.5 1.5h4v4M14.5 10.5v4h-4M5.5 14.5h-4v-4')
})
