import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readPrices } from './read-prices.ts'

const TABLE = readFileSync(new URL('../../../../shop/prices/invented-2026.yaml', import.meta.url), 'utf8')
const head = 'currency: USD\nrows:\n'
const good = "- { id: 'rod/2.4 m', money: 29.5, per: each, date: 2026-09-15, source: invented }"

const problemsOf = (text: string) => {
  const read = readPrices(text, 'prices.yaml')
  return read.ok ? [] : read.problems
}

test('the table that comes with the program is read, every row dated and signed as invented', () => {
  const read = readPrices(TABLE)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const rows = Object.values(read.value.rows)
  expect(read.value.currency).toBe('USD')
  expect(rows.length).toBeGreaterThan(900)
  for (const row of rows) expect([row.id, row.date, row.source]).toEqual([row.id, '2026-09-15', 'invented'])
  for (const row of rows) expect(row.money, row.id).toBeGreaterThan(0)
})

test('plain lines mean the same to the fast reader and to the YAML parser', () => {
  const few = TABLE.split('\n').slice(0, 60).join('\n')
  const fast = readPrices(few)
  const byParser = readPrices(`${few}\n- {id: 'x', money: 1, per: m, date: 2026-01-02, source: invented}`)
  if (!fast.ok || !byParser.ok) throw new Error('not read')
  const { x, ...rest } = byParser.value.rows
  expect(x?.money).toBe(1)
  expect(rest).toEqual(fast.value.rows)
})

test('a row without a date or a source is read with nothing in its place', () => {
  const read = readPrices(`${head}- { id: 'rod/2.4 m', money: 29.5, per: each }`)
  if (!read.ok) throw new Error('not read')
  expect(read.value.rows['rod/2.4 m']).toEqual({ id: 'rod/2.4 m', money: 29.5, per: 'each', date: '', source: '' })
})

test.each([
  ['nothing at all', '', ['prices/shape']],
  ['another file', 'hello', ['prices/shape']],
  ['broken YAML', `${head}- { id: 'a', money: 1`, ['prices/yaml']],
  ['a currency of no land', 'currency: dollars\nrows: []', ['prices/currency']],
  ['no rows', 'currency: USD\n', ['prices/rows']],
  ['the same id twice', `${head}${good}\n${good}`, ['prices/twice']],
  ['money that is no number', `${head}- { id: 'a', money: dear, per: m, date: 2026-01-02, source: invented }`, ['prices/money']],
  ['money that is not finite', `${head}- { id: 'a', money: .nan, per: m, date: 2026-01-02, source: invented }`, ['prices/money']],
  ['money below nothing', `${head}- { id: 'a', money: -1, per: m, date: 2026-01-02, source: invented }`, ['prices/money']],
  [
    'a key nobody knows',
    `${head}- { id: 'a', price: 1, money: 1, per: m, date: 2026-01-02, source: invented }`,
    ['prices/unknown-key'],
  ],
  ['a key twice', `${head}- { id: 'a', money: 1, money: 2, per: m, date: 2026-01-02, source: invented }`, ['prices/yaml']],
  ['two rows wrong at once', `${head}- 5\n- { id: 'a', money: x, per: m }`, ['prices/row', 'prices/money']],
])('%s is refused with every problem named', (_said, text, codes) => {
  const found = problemsOf(text)
  expect(found.map((p) => p.code)).toEqual(codes)
  for (const p of found) expect([p.file, p.mend !== '', p.wanted !== '']).toEqual(['prices.yaml', true, true])
})

test('a problem names its line', () => {
  expect(problemsOf(`${head}${good}\n- { id: 'b', money: x, per: m }`)[0]?.line).toBe(4)
})
