import { expect, test } from 'vitest'
import type { Result } from '../kernel/index.ts'
import { readShop } from './index.ts'

const table = (currency: string, money: number) =>
  `currency: ${currency}\nrows:\n- { id: 'conductor/12 AWG/cu', money: ${money}, per: m, date: 2026-09-15, source: invented }\n`

const folder =
  (files: Readonly<Record<string, string>>) =>
  (path: string): Result<string> =>
    path in files
      ? { ok: true, value: files[path]! }
      : {
          ok: false,
          problems: [{ code: 'file/absent', found: 'no file of this name', wanted: 'a file', mend: 'Check the name.' }],
        }

test('a later price table wins where both name a row', () => {
  const shop = readShop(
    folder({
      'shop.yaml': 'name: Test\nprices: [prices/a.yaml, prices/b.yaml]\nsaw: { kerf: 2.5 mm }\n',
      'prices/a.yaml': table('USD', 1),
      'prices/b.yaml': table('USD', 2),
    }),
  )
  if (!shop.ok) throw new Error(JSON.stringify(shop.problems))
  expect(shop.value.prices.rows['conductor/12 AWG/cu']?.money).toBe(2)
  expect(shop.value.factors).toEqual({ kerfMm: 2.5 })
})

test('every problem of every file is named at once, each with its file', () => {
  const shop = readShop(
    folder({
      'shop.yaml': 'name: Test\nprices: [prices/a.yaml, prices/gone.yaml]\noverlays: [overlays/bad.yaml]\n',
      'prices/a.yaml': 'currency: usd\nrows: []\n',
      'overlays/bad.yaml': '[]\n',
    }),
  )
  expect(shop.ok).toBe(false)
  if (shop.ok) return
  expect(new Set(shop.problems.map((p) => p.file))).toEqual(new Set(['prices/a.yaml', 'prices/gone.yaml', 'overlays/bad.yaml']))
})

test('tables of two currencies are refused: nothing adds them', () => {
  const shop = readShop(
    folder({
      'shop.yaml': 'name: Test\nprices: [a.yaml, b.yaml]\n',
      'a.yaml': table('USD', 1),
      'b.yaml': table('CAD', 1),
    }),
  )
  expect(shop.ok ? [] : shop.problems.map((p) => `${p.code} ${p.found}`)).toEqual(['shop-page/currencies USD and CAD'])
})
