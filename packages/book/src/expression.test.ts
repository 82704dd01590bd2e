import { put } from '@plugstead/engine/kernel'
import { expect, test } from 'vitest'
import { expressionOf, valuesOf } from './expression.ts'

const symbols = new Set(['R', 'r', 'L', 'I', 'U_0', 'Ieff', 'duty', 'In', 'line'])

test('symbols are italic, subscripts and words upright', () => {
  expect(expressionOf('2·r·L', symbols)).toEqual(['2 · ', ['i', 'r'], ' · ', ['i', 'L']])
  expect(expressionOf('U_0²/R', symbols)).toEqual([['i', 'U'], ['sub', '0'], '² ÷ ', ['i', 'R']])
  expect(expressionOf('I·√duty', symbols)).toEqual([['i', 'I'], ' · √duty'])
  expect(expressionOf('Ieff', symbols)).toEqual([
    ['i', 'I'],
    ['sub', 'eff'],
  ])
})

test('a sentence is not a formula', () => {
  expect(expressionOf('as written on a plate', new Set())).toBe('as written on a plate')
})

test('values stand where their symbols stood, when all were given', () => {
  expect(valuesOf('U_0²/R', [put('U_0', 120, 'V'), put('R', 9.6, 'Ω')], symbols)).toBe('(120\u202fV)² ÷ 9.6\u202fΩ')
  expect(valuesOf('2·r·L', [put('r', 0.005211, 'Ω/m'), put('L', 36, 'm')], symbols)).toBe('2 × 5.211\u202fmΩ/m × 36\u202fm')
})

test('values are listed, when the expression is in words or lacks one', () => {
  expect(valuesOf('by the largest line conductor', [put('line', '12 AWG')], symbols)).toEqual('line = 12 AWG')
  expect(valuesOf('2·r·L', [put('r', 1, 'Ω/m')], symbols)).toEqual([['i', 'r'], ' = 1\u202fΩ/m'])
})

test('a trade size and a stroke between words are names, not divisions', () => {
  expect(expressionOf('1/0 AWG, 90 °C column', new Set())).toBe('1/0 AWG, 90 °C column')
  expect(expressionOf('3/0\u202fAWG cu, ohm per 1000 ft', new Set())).toBe('3/0\u202fAWG cu, ohm per 1000 ft')
  expect(expressionOf('line/neutral', new Set())).toBe('line/neutral')
  expect(expressionOf('continuous/0.8 + other', new Set())).toBe('continuous ÷ 0.8 + other')
})
