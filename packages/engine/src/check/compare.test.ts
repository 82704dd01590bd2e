import { expect, test } from 'vitest'
import { compareValues } from './compare.ts'
import { runCases } from './run.ts'
import type { PublishedCase } from './types.ts'

const exact = { why: 'a count' }
const good = (ours: Record<string, unknown>, theirs: Record<string, unknown>, tolerance = {}) =>
  compareValues(ours, theirs, { ...exact, ...tolerance }).every((value) => value.ok)

test('a number passes within the relative or the absolute tolerance, and not beyond', () => {
  expect(good({ dropV: 101 }, { dropV: 100 }, { relative: 0.01 })).toBe(true)
  expect(good({ dropV: 101.1 }, { dropV: 100 }, { relative: 0.01 })).toBe(false)
  expect(good({ dropV: 101.1 }, { dropV: 100 }, { relative: 0.01, absolute: 1.2 })).toBe(true)
})

test('without a tolerance a number must be the same', () => {
  expect(good({ count: 7 }, { count: 7 })).toBe(true)
  expect(good({ count: 7.0001 }, { count: 7 })).toBe(false)
})

test('words, yes and no, and null must be the same', () => {
  expect(good({ size: '10', fits: false, c: null }, { size: '10', fits: false, c: null }, { relative: 1 })).toBe(true)
  expect(good({ size: '8' }, { size: '10' }, { relative: 1 })).toBe(false)
  expect(good({ fits: true }, { fits: false })).toBe(false)
  expect(good({ c: 0 }, { c: null }, { absolute: 5 })).toBe(false)
  expect(good({ c: null }, { c: 0 }, { absolute: 5 })).toBe(false)
})

test('nested lists are compared value by value, and a list of another length is off', () => {
  const theirs = {
    V: [
      [1, 2],
      [3, null],
    ],
  }
  expect(
    good(
      {
        V: [
          [1, 2],
          [3, null],
        ],
      },
      theirs,
    ),
  ).toBe(true)
  expect(good({ V: [[1, 2], [3]] }, theirs)).toBe(false)
  expect(good({ V: [[1, 2], [3, null], [5]] }, theirs)).toBe(false)
  expect(compareValues({ V: [[1, 9]] }, { V: [[1, 2]] }, exact).map((value) => [value.name, value.ok])).toEqual([
    ['V[0][0]', true],
    ['V[0][1]', false],
  ])
})

test('a value of ours that is missing or not a number is off', () => {
  expect(good({}, { dropV: 100 }, { relative: 1 })).toBe(false)
  expect(good({ dropV: Number.NaN }, { dropV: 100 }, { relative: 1 })).toBe(false)
})

test('a single value may have its own tolerance', () => {
  const tolerance = { relative: 0, values: { pf: { absolute: 0.01, why: 'printed to two digits' } } }
  expect(good({ pf: 0.875, count: 3 }, { pf: 0.87, count: 3 }, tolerance)).toBe(true)
  expect(good({ pf: 0.875, count: 3.005 }, { pf: 0.87, count: 3 }, tolerance)).toBe(false)
})

const one: PublishedCase = {
  ...{ id: 'x-01', topic: 'ohm', given: { V: 12, A: 2 }, expect: { ohm: 6 } },
  ...{ tolerance: exact, source: 'a book', provenance: 'read' },
}

test('a case without an adapter, or whose adapter refuses, stays in the list with its reason and is not ok', () => {
  const [missing] = runCases([one], {})
  expect(missing).toMatchObject({ id: 'x-01', ok: false, values: [] })
  expect(missing?.reason).toMatch(/nothing in the engine/)
  const refuse = () => {
    throw new Error('power/run-range')
  }
  expect(runCases([one], { 'x-01': refuse })[0]).toMatchObject({ ok: false, reason: 'power/run-range' })
})

test('a case that expects nothing cannot pass', () => {
  expect(runCases([{ ...one, expect: {} }], { 'x-01': () => ({}) })[0]?.ok).toBe(false)
})

test('a case is met when every value is', () => {
  const ohm = (given: { V: number; A: number }) => ({ ohm: given.V / given.A })
  expect(runCases([one], { 'x-01': ohm })[0]?.ok).toBe(true)
})

test('a range of theirs holds one number of ours, with grace of its middle outside it', () => {
  const range = { range: true, relative: 0.1 }
  expect(good({ fallK: 5 }, { fallK: [3, 8] }, range)).toBe(true)
  expect(good({ fallK: 8.5 }, { fallK: [3, 8] }, range)).toBe(true)
  expect(good({ fallK: 8.6 }, { fallK: [3, 8] }, range)).toBe(false)
  expect(good({ fallK: 2.4 }, { fallK: [3, 8] }, range)).toBe(false)
  expect(good({}, { fallK: [3, 8] }, range)).toBe(false)
  expect(good({ fallK: Number.NaN }, { fallK: [3, 8] }, range)).toBe(false)
  // Without the word they are two numbers, as ever.
  expect(good({ fallK: 5 }, { fallK: [3, 8] }, { absolute: 9 })).toBe(false)
})
