import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { editDocument, valueIn } from './edit-document.ts'
import { readJob } from './read.ts'

const groomers = readFileSync(join(import.meta.dirname, '../../../../examples/groomer-yard-us.yaml'), 'utf8')
const edited = (text: string, ...edits: Parameters<typeof editDocument>[1]) => {
  const result = editDocument(text, edits)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result.value
}
const changedLines = (before: string, after: string) => {
  const [a, b] = [before.split('\n'), after.split('\n')]
  return { gone: a.filter((line) => !b.includes(line)), come: b.filter((line) => !a.includes(line)) }
}

test('a value is replaced in its place, and nothing else changes', () => {
  const after = edited(groomers, { path: ['needs', 'machines', 4, 'cord'], value: '41 m' })
  expect(changedLines(groomers, after)).toEqual({ gone: ['      cord: 38 m'], come: ['      cord: 41 m'] })
  expect(valueIn(after, ['needs', 'machines', 4, 'cord'])).toBe('41 m')
})

test('one of a row of values is replaced', () => {
  const after = edited(groomers, { path: ['needs', 'machines', 0, 'cord', 3], value: '36 m' })
  expect(changedLines(groomers, after).come).toEqual(['      cord: [12 m, 18 m, 24 m, 36 m]'])
})

test('a value that was not there is written at the end of its group, behind the comment that ends it', () => {
  const text = 'plugstead: 1\nneeds:\n  stay: 3 months # as told\n\n# the box\nboxes: []\n'
  expect(edited(text, { path: ['needs', 'growth'], value: '10 %' })).toBe(
    'plugstead: 1\nneeds:\n  stay: 3 months # as told\n  growth: 10 %\n\n# the box\nboxes: []\n',
  )
})

test('a pin in a group that is not there yet makes the group, and the job still reads', () => {
  const pin = { value: '8 AWG', by: 'the desk', why: 'room to grow' }
  const after = edited(groomers, { path: ['choices', 'cords.G4C.size'], value: pin })
  const read = readJob(after)
  expect(read.ok && read.value.pins).toEqual([{ path: 'cords.G4C.size', ...pin }])
  expect(after.startsWith(groomers.trimEnd())).toBe(true)
})

test('set and taken away again, the document is byte for byte what it was', () => {
  const set = edited(groomers, { path: ['needs', 'growth'], value: '10 %' })
  expect(edited(set, { path: ['needs', 'growth'] })).toBe(groomers)
})

test('a group written over several lines gives way to one value', () => {
  const text = 'a:\n  b: 1\n  c: 2\nd: 3\n'
  expect(edited(text, { path: ['a'], value: 7 })).toBe('a: 7\nd: 3\n')
})

test('the first line behind a dash can be taken away', () => {
  expect(edited('a:\n  - x: 1\n    y: 2\n', { path: ['a', 0, 'x'] })).toBe('a:\n  - y: 2\n')
})

test('within braces a value is set, added and taken away', () => {
  const text = 'a: { x: 1, y: 2 }\n'
  expect(edited(text, { path: ['a', 'x'] })).toBe('a: { y: 2 }\n')
  expect(edited(text, { path: ['a', 'y'] })).toBe('a: { x: 1 }\n')
  expect(edited(text, { path: ['a', 'z'], value: 'three words here' })).toBe('a: { x: 1, y: 2, "z": three words here }\n')
})

test('a word that YAML would read as something else keeps its quotes', () => {
  for (const value of ['yes: no', '# x', 'null', '1e3', 'a, b', '{', "it's", 'true', ''])
    expect(valueIn(edited('a: 1\n', { path: ['a'], value }), ['a'])).toBe(value)
})

test('a place behind a plain value is refused', () => {
  const result = editDocument('a: 1\n', [{ path: ['a', 'b'], value: 2 }])
  expect(result.ok).toBe(false)
})
