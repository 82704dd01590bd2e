import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { readShop } from '@plugstead/engine/assess'
import { readJob } from '@plugstead/engine/job'
import type { MoneyResult } from '@plugstead/engine/money'
import { plan } from '@plugstead/engine/plan'
import FormulaParser from 'fast-formula-parser'
import { strFromU8, unzipSync } from 'fflate'
import readXlsxFile from 'read-excel-file/universal'
import { expect, test } from 'vitest'
import { moneyWorkbook, workbook } from './index.ts'

const root = join(import.meta.dirname, '../../..')
const text = (path: string) => readFileSync(join(root, path), 'utf8')
const shop = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
const job = readJob(text('examples/two-machines.yaml'))
if (!shop.ok || !job.ok) throw new Error('the example cannot be read')
const money: MoneyResult = plan(job.value, shop.value).assessment.results.money

interface Held {
  readonly formula: string | null
  readonly value: number | string | null
}

/** Cells as they stand in the file, read from its XML and not by our own writer. */
function cellsOf(bytes: Uint8Array): ReadonlyMap<string, ReadonlyMap<string, Held>> {
  const files = unzipSync(bytes)
  const names = [...strFromU8(files['xl/workbook.xml']!).matchAll(/<sheet name="([^"]+)"/g)].map((m) => m[1]!)
  return new Map(
    names.map((name, i) => {
      const xml = strFromU8(files[`xl/worksheets/sheet${i + 1}.xml`]!)
      const cells = [...xml.matchAll(/<c r="([A-Z]+\d+)"[^>]*>(.*?)<\/c>/gs)].map(([, at, inside]): [string, Held] => {
        const words = /<t[^>]*>(.*?)<\/t>/s.exec(inside!)?.[1]
        const value = /<v>(.*?)<\/v>/.exec(inside!)?.[1]
        const formula = /<f>(.*?)<\/f>/.exec(inside!)?.[1]?.replaceAll('&quot;', '"') ?? null
        return [at!, { formula, value: words ?? (value === undefined ? null : Number(value)) }]
      })
      return [name, new Map(cells)]
    }),
  )
}

/** Every formula worked out again by another program, following references, with no value of ours but what was put in. */
function recomputed(
  bytes: Uint8Array,
  changed: Readonly<Record<string, number>> = {},
): { readonly at: string; readonly ours: number; readonly theirs: unknown }[] {
  const sheets = cellsOf(bytes)
  const known = new Map<string, unknown>()
  const letters = (column: number): string =>
    (column > 26 ? String.fromCharCode(64 + Math.floor((column - 1) / 26)) : '') + String.fromCharCode(65 + ((column - 1) % 26))
  const valueAt = (sheet: string, row: number, col: number): unknown => {
    const at = `${letters(col)}${row}`
    const key = `${sheet}!${at}`
    const cell = sheets.get(sheet)?.get(at)
    if (cell === undefined) return null
    if (changed[key] !== undefined) return changed[key]
    if (cell.formula === null) return cell.value
    if (!known.has(key)) known.set(key, parser.parse(cell.formula, { sheet, row, col }))
    return known.get(key)
  }
  const parser = new FormulaParser({
    onCell: ({ sheet, row, col }) => valueAt(sheet, row, col),
    onRange: ({ sheet, from, to }) =>
      Array.from({ length: to.row - from.row + 1 }, (_, r) =>
        Array.from({ length: to.col - from.col + 1 }, (__, c) => valueAt(sheet, from.row + r, from.col + c)),
      ),
  })
  return [...sheets].flatMap(([sheet, cells]) =>
    [...cells].flatMap(([at, cell]) => {
      if (cell.formula === null) return []
      const [, column = '', row = ''] = /^([A-Z]+)(\d+)$/.exec(at) ?? []
      const col = [...column].reduce((n, c) => n * 26 + c.charCodeAt(0) - 64, 0)
      return [{ at: `${sheet}!${at}`, ours: cell.value as number, theirs: valueAt(sheet, Number(row), col) }]
    }),
  )
}

test('every formula of the money workbook comes to the same cent in a second program', () => {
  const all = recomputed(moneyWorkbook(money, 'Two machines'))
  expect(all.length).toBeGreaterThan(70)
  for (const { at, ours, theirs } of all)
    expect(Math.abs(Number(theirs) - ours), `${at}: ${String(theirs)} for ${ours}`).toBeLessThan(0.0049)
})

test('the formulas are live: another margin and another quantity give another price in the second program', () => {
  const bytes = moneyWorkbook(money, 'Two machines')
  const cells = [...cellsOf(bytes).get('cost')!]
  const rowOf = (words: string): string => cells.find(([, c]) => c.value === words)![0].slice(1)
  const [margin, price, total] = ['margin, share of the price', 'price before tax', 'price with tax'].map((w) => `H${rowOf(w)}`)
  const at = (changed: Readonly<Record<string, number>>, cell = price) =>
    Number(recomputed(bytes, changed).find((c) => c.at === `cost!${cell}`)!.theirs)
  const { bearingMoney, passedMoney } = money.price
  // By hand: cost over 0.6, and what is passed through.
  expect(at({ [`cost!${margin}`]: 0.4 })).toBeCloseTo(bearingMoney / 0.6 + passedMoney, 2)
  expect(at({ 'cost!D5': 2 })).toBeGreaterThan(at({}))
  expect(at({ 'cost!D5': 2 }, total)).toBeGreaterThan(at({}, total))
})

test('the cached values are read back by a reader that works nothing out', async () => {
  const [cost] = await readXlsxFile(moneyWorkbook(money, 'Two machines').slice().buffer)
  const total = cost!.data.find((row) => row[2] === 'price with tax')
  expect(total?.[7]).toBe(money.price.totalMoney)
})

test('words that begin like a formula stay words, and what XML cannot hold is left out', async () => {
  const nasty = ['=1+1', '+1', '-1', '@SUM(A1)', 'a & b < c "d"', 'bell\u0007']
  const bytes = workbook([{ name: 'a', widths: [10], rows: nasty.map((w) => [w]) }])
  const [sheet] = await readXlsxFile(bytes.slice().buffer)
  expect(sheet!.data.map((row) => row[0])).toEqual([...nasty.slice(0, 5), 'bell'])
  expect(strFromU8(unzipSync(bytes)['xl/worksheets/sheet1.xml']!)).not.toContain('<f>')
})

test('the same money gives the same bytes', () => {
  expect(moneyWorkbook(money, 'x')).toEqual(moneyWorkbook(money, 'x'))
})
