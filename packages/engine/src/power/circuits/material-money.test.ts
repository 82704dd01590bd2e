import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { materialMoney, materialsOf, readPrices } from '../../parts/index.ts'
import { yardOf } from './yards.fixture.ts'

const read = readPrices(readFileSync(new URL('../../../../../shop/prices/invented-2026.yaml', import.meta.url), 'utf8'))
if (!read.ok) throw new Error('price table not read')
const prices = read.value
const box = yardOf().box

test('the lines sum to the total to the cent, and each is quantity times price', () => {
  const money = materialMoney(box, prices)
  const cents = money.lines.reduce((s, l) => s + Math.round(l.money * 100), 0)
  expect(cents / 100).toBe(money.totalMoney)
  for (const line of money.lines) expect(Math.abs(line.money - line.quantity * line.unitMoney)).toBeLessThanOrEqual(0.005 + 1e-9)
  expect(money.currency).toBe('USD')
})

test('the table that comes with the program prices a whole groomer yard', () => {
  expect(materialMoney(box, prices).missing).toEqual([])
})

test('a price that is missing is named and in no line, never nothing in silence', () => {
  const { 'heater/room 500 W': _gone, ...rows } = prices.rows
  const money = materialMoney(box, { ...prices, rows })
  expect(money.missing).toEqual([{ id: 'heater/room 500 W', for: 'the box itself', quantity: 1, why: 'no price in the table' }])
  expect(money.totalMoney).toBeCloseTo(materialMoney(box, prices).totalMoney - prices.rows['heater/room 500 W']!.money, 2)
})

test('a price without a date or a source counts, and is flagged', () => {
  const heater = prices.rows['heater/room 500 W']!
  const flagged = (change: object) =>
    materialMoney(box, { ...prices, rows: { ...prices.rows, 'heater/room 500 W': { ...heater, ...change } } }).missing.map(
      (m) => m.why,
    )
  expect(flagged({ date: '' })).toEqual(['its price has no date'])
  expect(flagged({ source: '' })).toEqual(['its price has no source'])
  expect(flagged({ per: 'm' })).toEqual(['priced per m, needed per each'])
})

test('wire is counted by conductors and metres: a line–neutral run of 8.1 m takes two wires and a protective one', () => {
  const only = { ...box, circuits: box.circuits.filter((c) => c.id === 'C-G1C') }
  const branch = materialsOf(only).filter((m) => m.for === 'branch circuits' && m.id.startsWith('conductor/'))
  // 20 ft box: 20 × 0.3048 + 2 = 8.096 m; three wires of 12 AWG.
  expect(branch).toEqual([{ id: 'conductor/12 AWG/cu', for: 'branch circuits', quantity: 24.3, per: 'm' }])
})

test('a heavier cord costs more, and two rows on one plug buy one cord', () => {
  const heavier = {
    ...box,
    circuits: box.circuits.map((c) => (c.id === 'C-G4C' ? { ...c, cords: c.cords.map((k) => ({ ...k, size: '6 AWG' })) } : c)),
  }
  expect(materialMoney(heavier, prices).totalMoney).toBeGreaterThan(materialMoney(box, prices).totalMoney)
  const shared = {
    ...box,
    circuits: box.circuits.map((c) =>
      c.id === 'C-G4C'
        ? { ...c, plugs: [...c.plugs, 'X'], cords: [...c.cords, { ...c.cords[0]!, plug: 'X', sharedWith: 'G4C' }] }
        : c,
    ),
  }
  expect(materialMoney(shared, prices).totalMoney).toBe(materialMoney(box, prices).totalMoney)
})
