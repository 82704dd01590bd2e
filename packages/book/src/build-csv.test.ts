import { expect, test } from 'vitest'
import { sample } from '../test/sample.ts'
import { billCsv, cutsCsv, hoursCsv, openingsCsv, racewaysCsv, strutCsv, wiresCsv } from './build-csv.ts'

const { assessment, design } = sample('split', 4)
const shop = assessment.results.shop.boxes[0]!
const build = design.builds[0]!

/** Enough of RFC 4180 for one record a line. */
const cellsOf = (record: string): readonly string[] =>
  [...record.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map((m) => m[1] ?? m[2] ?? '')

test('the lists of the steel have a record for each thing, all of one length', () => {
  for (const [text, count] of [
    [openingsCsv(assessment, design), build.skin.openings.length],
    [strutCsv(design), build.fit.strut.length],
    [racewaysCsv(assessment, design), build.fit.raceways.length],
    [wiresCsv(assessment), shop.wires.length],
    [cutsCsv(assessment), shop.cuts.flatMap((c) => c.plan.bars.flatMap((b) => b.pieces)).length],
    [billCsv(assessment), shop.bill.lines.length],
    [hoursCsv(assessment), shop.hours.lines.length],
  ] as const) {
    const records = text.trimEnd().split('\r\n')
    expect(records.length).toBe(count + 1)
    expect(new Set(records.map((r) => cellsOf(r).length)).size).toBe(1)
  }
})

test('a price that is not known is an empty cell, and every line names all that needs it', () => {
  const [head, channel, mesh] = billCsv(assessment)
    .trimEnd()
    .split('\r\n')
    .map((r) => cellsOf(r))
  const at = (name: string): number => head!.indexOf(name)
  expect(channel![at('needed by')]).toBe('upright left 1; upright left 2; rail left 1 at 1111')
  expect(mesh![at('price')]).toBe('')
  expect(mesh![at('quantity')]).toBe('0.18')
})

test('piece, saw cuts and what is left add up to the bar', () => {
  const bar = shop.cuts[0]!.plan.bars[0]!
  const [head, ...rows] = cutsCsv(assessment)
    .trimEnd()
    .split('\r\n')
    .map((r) => cellsOf(r))
  const number = (row: readonly string[], name: string): number => Number(row[head!.indexOf(name)])
  const together = rows.reduce((sum, row) => sum + number(row, 'length mm'), 0)
  expect(together + number(rows[0]!, 'left over mm') + bar.sawnOffMm + bar.trimMm).toBe(number(rows[0]!, 'bar mm'))
})

test('what binary arithmetic leaves behind is not printed', () => {
  const noisy = { ...shop, wires: [{ ...shop.wires[0]!, cutM: 0.1 + 0.2 }] }
  const text = wiresCsv({ ...assessment, results: { ...assessment.results, shop: { boxes: [noisy] } } })
  expect(text).toContain(',0.3,')
})
