import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { readShop, rulesOf } from '@plugstead/engine/assess'
import { readJob } from '@plugstead/engine/job'
import { plan } from '@plugstead/engine/plan'
import { expect, test } from 'vitest'
import { moneySheets, toCent } from './money.ts'

const root = join(import.meta.dirname, '../../../..')
const text = (path: string) => readFileSync(join(root, path), 'utf8')
const shop = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
const read = readJob(text('examples/two-machines.yaml'))
if (!shop.ok || !read.ok) throw new Error('the example cannot be read')
const job = read.value
const input = { job, ...plan(job, shop.value), rules: rulesOf(job, shop.value) }
const { money } = input.assessment.results

const blocksOf = (glass?: { readonly widthMm: number }) =>
  moneySheets(glass === undefined ? input : { ...input, glass })[0]!.blocks
const cells = (block: ReturnType<typeof blocksOf>[number] | undefined): readonly (readonly string[])[] =>
  block?.k !== 'table'
    ? []
    : block.rows.map((row) =>
        row.map((c) => (typeof c === 'string' ? c : c.map((s) => (typeof s === 'string' ? s : s[1])).join(''))),
      )

test('the picture of the price comes first on glass and in the price part on paper, the same figures as a table right under it', () => {
  expect(blocksOf({ widthMm: 110 })[1]!.k).toBe('drawing')
  for (const blocks of [blocksOf(), blocksOf({ widthMm: 110 })]) {
    const at = blocks.findIndex((b) => b.k === 'drawing')
    const picture = blocks[at]
    if (picture?.k !== 'drawing') throw new Error('no picture')
    const rows = cells(blocks[at + 1])
    const drawn = picture.scene.items.flatMap((i) => (i.kind === 'text' && i.anchor === 'end' ? [i.text] : []))
    expect(rows.map((r) => r[0])).toEqual(expect.arrayContaining(drawn.filter((name) => !/^price\s|draws/.test(name))))
    expect(rows.find((r) => r[0] === 'price before tax')?.[1]).toBe(toCent(money.price.priceMoney!, ''))
    expect(rows.find((r) => r[0] === 'cost, one draw in ten above')?.[1]).toBe(toCent(money.spread!.highMoney, ''))
  }
})

test('rows of the table sum to the price, the price with tax to what is paid', () => {
  const rows = cells(blocksOf()[blocksOf().findIndex((b) => b.k === 'drawing') + 1])
  const cents = (name: string | RegExp): number => {
    const row = rows.find((r) => (typeof name === 'string' ? r[0] === name : name.test(r[0]!)))
    return Math.round(Number(row![1]!.replace(/[^\d.]/g, '')) * 100)
  }
  expect(money.groups.reduce((sum, g) => sum + cents(g.group), 0)).toBe(cents('cost'))
  expect(cents('cost') + cents(/^margin/)).toBe(cents('price before tax'))
  expect(cents('price before tax') + cents(/^sales tax/)).toBe(cents('price with tax'))
})
