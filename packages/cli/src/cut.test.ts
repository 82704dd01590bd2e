import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead } from './spawned.ts'

const EXAMPLE = 'examples/cut/strut-rack.json'
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-cut-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function written(name: string, value: unknown): string {
  const path = join(folder, name)
  writeFileSync(path, typeof value === 'string' ? value : JSON.stringify(value))
  return path
}

test('the documented JSON holds count, cost, bound, proof and patterns', () => {
  const { code, out, err } = plugstead(['cut', EXAMPLE, '--json'])
  expect([code, err]).toEqual([0, ''])
  const { result, questions, problems, findings } = JSON.parse(out)
  expect([questions.length, problems, findings]).toEqual([16, [], []])
  expect(result).toMatchObject({ count: 9, cost: 272.9, bound: 272.9, proven: true, gap: 0, goal: 'money' })
  let bars = 0
  for (const { stock, times, pieces, remnantMm, sawn } of result.patterns) {
    bars += times
    const length = pieces.reduce((sum: number, one: { size: number; count: number }) => sum + one.size * one.count, 0)
    expect(length + sawn + remnantMm).toBe(stock)
  }
  expect(bars).toBe(9)
})

test('a person reads it within 80 columns, with the derivation where asked, and gets the marks as a list', () => {
  const { code, out } = plugstead(['cut', EXAMPLE, '--working', '--out', folder])
  expect(code).toBe(0)
  expect(out).toContain('272.9 in money, 9 bars, proven')
  expect(out).toContain('B₂ = Σ (n · v) − Σ (N · r)')
  for (const line of out.split('\n').filter((text) => !text.includes(folder)))
    expect(charCount(line), line).toBeLessThanOrEqual(80)
  expect(readFileSync(join(folder, 'strut-rack.cut.csv'), 'utf8')).toMatch(/^set-up,times,stock,pieces/)
})

test('the exit code says impossible, unreadable, noted', () => {
  const list = { stock_length: 3048, kerf: 3, items: [{ size: 4000, demand: 1 }] }
  const long = plugstead(['cut', written('long.json', list)])
  expect(long.code).toBe(1)
  expect(long.out).toContain('fails: A piece of 4000 mm is longer than the longest stock, 3048 mm')
  const json = JSON.parse(plugstead(['cut', written('long.json', list), '--json']).out)
  expect([json.result.count, json.result.cost, json.result.patterns]).toEqual([null, null, []])
  expect(json.findings[0].code).toBe('shop/cut-too-long')

  const bad = plugstead(['cut', written('bad.json', { ...list, stock_length: -1, kerf: 'x' })])
  expect([bad.code, bad.out]).toEqual([2, ''])
  expect(bad.err).toContain('2 places')
  expect(plugstead(['cut', written('text.json', 'strut: 5')]).code).toBe(2)
  expect(plugstead(['cut', folder]).code).toBe(2)
  expect(plugstead(['cut', join(folder, 'absent.json')]).code).toBe(2)
  expect(plugstead(['cut']).code).toBe(2)

  const noKerf = plugstead(['cut', written('zero.json', { ...list, kerf: 0, items: [{ size: 1016, demand: 3 }] })])
  expect(noKerf.code).toBe(0)
  expect(noKerf.out).toContain('The kerf is 0')
})
