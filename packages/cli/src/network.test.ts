import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead, ROOT } from './spawned.ts'

const FEEDER = 'packages/engine/data/network/ieee-4-node.yaml'
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-network-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

// IEEE PES distribution test feeders, 4-node (2006), step-down, grounded wye to grounded wye, unbalanced load. Provenance: read.
test('the published volts of the four-node feeder come back in the documented JSON', () => {
  const { code, out, err } = plugstead(['network', FEEDER, '--case', 'YY unbalanced', '--json'])
  expect([code, err]).toEqual([0, ''])
  const answer = JSON.parse(out)
  expect(Object.keys(answer.result.cases)).toEqual(['YY unbalanced'])
  const volts = (node: string, keys: readonly string[]) =>
    keys.map((key) => Math.round(answer.result.cases['YY unbalanced'].nodes[node][key].voltageV))
  expect(volts('2', ['a', 'b', 'c'])).toEqual([7164, 7110, 7082])
  expect(volts('4', ['a', 'b', 'c'])).toEqual([2175, 1930, 1833])
  expect(answer.result.cases['YY unbalanced'].nodes['4'].a.angleDeg).toBeCloseTo(-4.1, 1)
  expect(typeof answer.result.base).toBe('string')
  expect(typeof answer.result.reference).toBe('string')
  expect(answer.questions).toHaveLength(16)
})

test('all cases are printed within 80 columns, and --out writes them as a list', () => {
  const { code, out } = plugstead(['network', FEEDER, '--out', folder])
  expect(code).toBe(0)
  for (const name of ['YY balanced', 'DY unbalanced', 'YD balanced', 'DD unbalanced'])
    expect(out).toContain(`Case ${name}: solved`)
  for (const line of out.split('\n').filter((text) => !text.includes(folder)))
    expect(charCount(line), line).toBeLessThanOrEqual(80)
  expect(readFileSync(join(folder, 'ieee-4-node.volts.csv'), 'utf8')).toMatch(
    /^case,node,wire,voltageV,angleDeg\r\nYY balanced,1,a,7199\.5/,
  )
})

test('a load that no volts can carry fails, and the place where it breaks is named', () => {
  const path = join(folder, 'too-much.yaml')
  const text = readFileSync(join(ROOT, FEEDER), 'utf8')
  const heavy = text.replaceAll(/(\d+) kW/g, (_, kW) => `${Number(kW) * 40} kW`)
  expect(heavy).not.toBe(text)
  writeFileSync(path, heavy)
  const { code, out } = plugstead(['network', path, '--case', 'YY balanced'])
  expect(code).toBe(1)
  expect(out).toMatch(/fails: proven to have no solution/)
  expect(out).not.toMatch(/NaN/)
})

test('a case that the file has not, and a file that is no network, are refused', () => {
  expect(plugstead(['network', FEEDER, '--case', 'YY balancd']).err).toContain('Did you mean --case YY balanced?')
  const { code, out } = plugstead(['network', 'package.json', '--json'])
  expect([code, JSON.parse(out).result]).toEqual([2, null])
  expect(JSON.parse(out).problems[0].file).toBe('package.json')
})
