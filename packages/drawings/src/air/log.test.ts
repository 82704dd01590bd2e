import { expect, test } from 'vitest'
import type { Line, Scene } from '../scene.ts'
import { airLog, type LogCurve } from './log.ts'

const DAYS = 3
const wave = (mid: number): number[] => Array.from({ length: DAYS * 24 }, (_, h) => mid + 10 * Math.sin((h / 24) * 2 * Math.PI))
const curve = (over: Partial<LogCurve> = {}): LogCurve => ({
  ...{ name: 'roof', quantity: 'temperature', logged: wave(5), ours: wave(8), fitted: wave(5.5) },
  ...over,
})
const log = (curves: readonly LogCurve[], units: 'metric' | 'us' = 'metric') =>
  airLog({ widthMm: 180, units, hoursCount: DAYS * 24, firstDay: 95, firstHour: 0, curves })
const texts = (scene: Scene): readonly string[] => scene.items.flatMap((i) => (i.kind === 'text' ? [i.text] : []))
/** Long strokes: those of readings, not of the key or the axis. */
const strokes = (scene: Scene): readonly Line[] =>
  scene.items.filter((i): i is Line => i.kind === 'line' && i.pointsMm.length > 10)

test('measured, worked out and fitted have each a stroke of their own, named in the key', () => {
  const scene = log([curve()])
  const lines = strokes(scene).map((l) => l.line)
  expect([lines.length, new Set(lines).size]).toEqual([3, 3])
  expect(texts(scene).slice(0, 3)).toEqual(['measured', 'worked out', 'with what was found (hidden where it fits)'])
  expect(texts(log([curve({ fitted: null })]))).not.toContain('with what was found (hidden where it fits)')
})

test('what was worked out warmer stands higher by as much as the scale says', () => {
  const [measured, ours] = strokes(log([curve({ fitted: null })]))
  const rises = measured!.pointsMm.map((p, i) => p[1] - ours!.pointsMm[i]![1])
  // 3 K everywhere.
  expect(Math.min(...rises)).toBeGreaterThan(0)
  expect(Math.max(...rises) - Math.min(...rises)).toBeLessThan(1e-9)
})

test('a gap stays a gap: the stroke breaks where nothing was read', () => {
  const gap = wave(5).map((v, h) => (h > 30 && h < 40 ? Number.NaN : v))
  expect(strokes(log([curve({ logged: gap, fitted: null })]))).toHaveLength(3)
})

test('temperatures are told in the units asked for, humidity in percent; an empty log says so', () => {
  expect(log([curve()], 'us').said).toContain('23.0\u2009to'.replace('\u2009', ' '))
  const damp = log([curve({ name: 'humidity', quantity: 'humidity', logged: wave(50), ours: wave(50), fitted: null })], 'us')
  expect(damp.said).toMatch(/humidity: 40\.0 to 60\.0.%/)
  expect(damp.said).toContain('5 Apr to 7 Apr')
  expect(log([]).said).toBe('No readings to draw.')
})
