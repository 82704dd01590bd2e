import { expect, test } from 'vitest'
import { type Dimension, examplesOf, parseQuantity, patternOf } from '../../kernel/index.ts'
import { fieldRows, jobJsonSchema } from './json-schema.ts'

test('every field says what it is, in which unit and range, what happens when it is absent, and whether it must, is bounded or assumed', () => {
  const rows = fieldRows()
  expect(rows.length).toBeGreaterThan(250)
  for (const row of rows) {
    expect(row.said, row.path).toMatch(/\.$/)
    expect(row.unit, row.path).not.toBe('')
    expect(row.range, row.path).not.toBe('')
    expect(row.absent, row.path).not.toBe('')
    expect(['must', 'bounded', 'assumed'], row.path).toContain(row.need)
  }
})

test('every key is plain lower-case words with hyphens', () => {
  for (const row of fieldRows())
    for (const key of row.path.split('.'))
      expect(key.replace('[]', '')).toMatch(/^([a-z][a-z0-9-]*|“path of the choice”|“name”)$/)
})

test('the schema is of the 2020-12 draft and closed: no key passes that the reader would refuse', () => {
  const schema = jobJsonSchema()
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
  const open: string[] = []
  const look = (at: unknown, path: string): void => {
    if (at === null || typeof at !== 'object') return
    if ('properties' in at && !('additionalProperties' in at && at.additionalProperties === false)) open.push(path)
    for (const [key, child] of Object.entries(at)) look(child, `${path}/${key}`)
  }
  look(schema, '')
  expect(open).toEqual([])
})

const DIMENSIONS: readonly Dimension[] = [
  'length',
  'area',
  'power',
  'apparent power',
  'voltage',
  'current',
  'temperature',
  'difference',
  'share',
  'mass',
  'pressure',
  'time',
  'stay',
  'energy',
  'resistivity',
  'resistance',
  'volume',
  'flow',
  'angle',
  'speed',
  'frequency',
  'irradiation',
  'loudness',
]

test.each(DIMENSIONS)('pattern and reader agree on %s', (dimension) => {
  const pattern = new RegExp(patternOf(dimension), 'u')
  for (const text of examplesOf(dimension))
    expect([pattern.test(text), parseQuantity(text, dimension).ok], text).toEqual([true, true])
  for (const text of ['12', '', '12 parsec', '1,5 m', '1e3 m', '.nan'])
    expect([pattern.test(text), parseQuantity(text, dimension).ok], text).toEqual([false, false])
})
