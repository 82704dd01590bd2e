import { expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { networkAnswer } from './network-answer.ts'
import { publishedNetworks } from './published.generated.ts'
import { readNetwork } from './read-network.ts'

const four = publishedNetworks['ieee-4-node.yaml']!
const problemsOf = (text: string) => {
  const read = readNetwork(text)
  return read.ok ? [] : read.problems
}

test('the eight connections of the four-node feeder are eight named cases', () => {
  const read = readNetwork(four)
  expect(read.ok && Object.keys(read.value.cases)).toEqual(
    ['YY', 'DY', 'YD', 'DD'].flatMap((c) => [`${c} balanced`, `${c} unbalanced`]),
  )
})

test('an answer holds volts against earth and between wires, with base and reference', () => {
  const read = readNetwork(four)
  if (!read.ok) throw new Error('unread')
  const answer = networkAnswer(read.value, 'YY unbalanced')
  expect(Object.keys(answer.cases)).toEqual(['YY unbalanced'])
  expect(Object.keys(answer.cases['YY unbalanced']!.nodes['4']!)).toEqual(['a', 'b', 'c', 'ab', 'bc', 'ca'])
  expect(answer.base).toContain('12.47 kV')
  expect(answer.cases['YY unbalanced']!.residualA).toBeLessThan(1e-6)
})

test('all problems are said at once, each with its line and a mend', () => {
  const found = problemsOf(
    four.replace('length: 2000 ft', 'length: 2000').replace('model: P', 'model: Q').replace('frequency:', 'frequenzy:'),
  )
  expect(found.map((p) => p.code)).toEqual(
    expect.arrayContaining(['quantity/unit-missing', 'network/choice', 'network/unknown-key', 'network/missing']),
  )
  for (const p of found) {
    expect(p.line, p.code).toBeGreaterThan(0)
    expect(p.mend, p.code).not.toBe('')
  }
  expect(found.find((p) => p.code === 'network/unknown-key')?.mend).toContain('frequency')
})

test.each([
  ['', 'network/not-a-network'],
  ['hello', 'network/not-a-network'],
  ['- 1\n- 2', 'network/not-a-network'],
  ['plugstead: 1\nneeds: {}', 'network/not-a-network'],
  ['a: [1', 'network/yaml'],
  ['a: 1\na: 2', 'network/yaml'],
  ['\u0000\u0001', 'network/'],
  ['[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[', 'network/too-deep'],
  ['x: &a [1, 2]\ny: *a\n', 'network/'],
  [four.replace('plugstead-network: 1', 'plugstead-network: 9'), 'network/version'],
  [four.replaceAll('[0.4576, 1.078]', '[.nan, 1.078]'), 'network/kind'],
  [four.replaceAll('configuration: four-wire', 'configuration: five-wire'), 'network/configuration'],
  [four.replaceAll('from: "1"', 'from: "9"'), 'network/not-fed'],
])('a file that cannot be read is refused with its reason (%#)', (text, code) => {
  const found = problemsOf(text)
  expect(found.length).toBeGreaterThan(0)
  expect(found.map((p) => p.code).some((c) => c.startsWith(code))).toBe(true)
})

test('three hundred seeded manglings never throw', () => {
  const r = seeded(5)
  for (let k = 0; k < 300; k++) {
    const at = r.below(four.length)
    const text =
      r.next() < 0.5
        ? four.slice(0, at) +
          r.pick(['', ':', '[', '}', '-', '*x', '&y ', '\t', '9e999', 'null', '"']) +
          four.slice(at + r.below(8))
        : four.slice(0, at)
    expect(() => readNetwork(text)).not.toThrow()
  }
})

test('a load that no volts can feed makes the case impossible, and names it', () => {
  const read = readNetwork(four.replaceAll('power: 2375 kW', 'power: 9375 kW'))
  if (!read.ok) throw new Error('unread')
  const one = networkAnswer(read.value, 'YY unbalanced').cases['YY unbalanced']!
  expect(one.outcome).toBe('none')
  expect(one.culprits[0]).toContain('4 c')
  expect(one.turnsAtFrac).toBeLessThan(1)
  expect(one.nodes).toEqual({})
})
