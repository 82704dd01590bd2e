import { expect, test } from 'vitest'
import { assumedWords } from './assumed-words.ts'

const growth = { path: 'needs.growth', said: 'growth of 25 %', source: 'trade custom' }

test('what was taken stands in its own words, once, with the place that would tell it', () => {
  expect(assumedWords(['needs.growth', 'needs.growth'], [growth])).toEqual([{ said: 'growth of 25 %', path: 'needs.growth' }])
})

test('places judged at both ends or by a table have trade words', () => {
  for (const [path, said] of [
    ['needs.machines.G1-4C.powerFactor', 'power factor of G1-4C, both ends of what its kind has'],
    ['boxes[0].heater', 'the box’s own heater: what it takes'],
    ['facts.tasks.utility-set', 'how long it takes: utility set'],
    ['facts.site.wind.level', 'whether the wind figure is for service or for strength'],
  ] as const)
    expect(assumedWords([path], [])).toEqual([{ said, path }])
})

test('a place with no words stands as it is', () => {
  expect(assumedWords(['needs.odd[0].thing'], [])).toEqual([{ said: 'needs.odd[0].thing', path: 'needs.odd[0].thing' }])
})
