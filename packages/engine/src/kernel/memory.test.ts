import fc from 'fast-check'
import { expect, test, vi } from 'vitest'
import { newMemory, noMemory } from './index.ts'

test('an answer is given again while its reads hold the same values, whichever objects hold them', () => {
  const memory = newMemory()
  const answer = vi.fn(({ a }: { readonly a: readonly number[] }) => a.length)
  expect([memory.recall('n', { a: [1, 2] }, answer), memory.recall('n', { a: [1, 2] }, answer)]).toEqual([2, 2])
  expect(answer).toHaveBeenCalledTimes(1)
  expect(memory.recall('n', { a: [1, 2, 3] }, answer)).toBe(3)
  expect(memory.recall('n', { a: [1, 2] }, answer)).toBe(2)
  expect(answer).toHaveBeenCalledTimes(3)
})

test('two names do not share an answer, and no memory answers every time', () => {
  const memory = newMemory()
  expect(memory.recall('one', { a: 1 }, () => 'one')).toBe('one')
  expect(memory.recall('two', { a: 1 }, () => 'two')).toBe('two')
  const answer = vi.fn(() => 0)
  noMemory.recall('n', { a: 1 }, answer)
  noMemory.recall('n', { a: 1 }, answer)
  expect(answer).toHaveBeenCalledTimes(2)
})

test('what settles is equal to what was given, and the same thing where nothing changed', () => {
  fc.assert(
    fc.property(fc.array(fc.jsonValue(), { minLength: 2, maxLength: 6 }), (values) => {
      const memory = newMemory()
      for (const value of values) {
        const kept = memory.settle('v', value)
        expect(kept).toEqual(value)
        expect(memory.settle('v', structuredClone(value))).toBe(kept)
      }
    }),
  )
})

test('a key that went away, or one more, is a change', () => {
  const memory = newMemory()
  const answer = (reads: object) => Object.keys(reads).join()
  expect(memory.recall('n', { a: 1, b: undefined }, answer)).toBe('a,b')
  expect(memory.recall('n', { a: 1 }, answer)).toBe('a')
  expect(memory.recall('n', { a: 1, c: undefined }, answer)).toBe('a,c')
})
