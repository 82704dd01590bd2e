import fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatHour, formatNumber, formatPair, formatQuantity, THIN } from './format.ts'

test('three significant digits, the whole part never cut', () => {
  expect(formatNumber(12.0345)).toBe('12.0')
  expect(formatNumber(0.37519)).toBe('0.375')
  expect(formatNumber(1523.4)).toBe('1523')
  expect(formatNumber(75000)).toBe(`75${THIN}000`)
  expect(formatNumber(75000, { grouping: ',' })).toBe('75,000')
})

test('a minus is a minus, and nothing is minus zero', () => {
  expect(formatNumber(-31)).toBe('−31')
  expect(formatNumber(-1e-12, { digits: 3 })).not.toMatch(/^−0(\.0*)?$/)
})

test('what was put in keeps its own digits', () => {
  expect(formatNumber(0.05, { shortest: true })).toBe('0.05')
  expect(formatNumber(0.1 + 0.2, { shortest: true })).toBe('0.3')
})

test('the unit stands in the prefix a person expects, behind a thin space', () => {
  expect(formatQuantity(17400, 'A')).toBe(`17.4${THIN}kA`)
  expect(formatQuantity(0.005211, 'ohm/m', { digits: 4 })).toBe(`5.211${THIN}mΩ/m`)
  expect(formatQuantity(1500, 'W')).toBe(`1500${THIN}W`)
  expect(formatQuantity(Number.NaN, 'A')).toBe('unknown')
  expect(formatQuantity(Infinity, 's')).toBe(`∞${THIN}s`)
})

test('a limit and its demand carry the same decimals', () => {
  expect(formatPair(4.51, 6, 'V')).toEqual({ demand: `4.51${THIN}V`, limit: `6.00${THIN}V`, difference: `1.49${THIN}V` })
  expect(formatPair(17400, 10000, 'A')).toEqual({ demand: `17.4${THIN}kA`, limit: `10.0${THIN}kA`, difference: `7.4${THIN}kA` })
})

test('rounding never hides a breach', () => {
  const pair = formatPair(20.004, 20, 'A')
  expect(pair.demand).toBe(`20.004${THIN}A`)
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 1e6, noNaN: true }),
      fc.double({ min: 1.000001, max: 1.2, noNaN: true }),
      (limit, over) => {
        const { demand, limit: shown } = formatPair(limit * over, limit, 'A')
        expect(demand).not.toBe(shown)
      },
    ),
    { seed: 7, numRuns: 300 },
  )
})

test('hours are shown as a clock does, past midnight too', () => {
  expect(formatHour(6.25)).toBe('06:15')
  expect(formatHour(25.5)).toBe('01:30')
  expect(formatHour(-1)).toBe('23:00')
})
