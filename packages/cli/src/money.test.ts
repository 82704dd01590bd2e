import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readPrices } from '@plugstead/engine/parts'
import { afterAll, expect, test } from 'vitest'

const folder = mkdtempSync(join(tmpdir(), 'plugstead-money-'))
afterAll(() => rmSync(folder, { recursive: true }))
const root = join(import.meta.dirname, '../../..')
const run = (...words: readonly string[]) =>
  spawnSync(process.execPath, [join(root, 'packages/cli/bin/plugstead.mjs'), ...words], { cwd: root, encoding: 'utf8' })

test('offer writes the offer, the workbook and the list, and the same bytes again', () => {
  const out = (name: string) => join(folder, name)
  const args = (name: string) => ['offer', 'examples/two-machines.yaml', '--out', out(name), '--date', '2026-10-01', '--rent']
  const first = run(...args('a'))
  expect(first.status).toBe(3)
  expect(first.stdout).toMatch(/margin of 24 % of the price, which is a\s+mark-up of 31\.6 % on the cost/)
  run(...args('b'))
  for (const kind of ['offer.pdf', 'money.xlsx', 'cost.csv'])
    expect(
      readFileSync(join(out('a'), `two-machines.${kind}`)).equals(readFileSync(join(out('b'), `two-machines.${kind}`))),
      kind,
    ).toBe(true)
})

test('offer without a folder, or on a day that is none, is refused in words', () => {
  expect(run('offer', 'examples/two-machines.yaml').status).toBe(2)
  const never = run('offer', 'examples/two-machines.yaml', '--out', folder, '--date', '2027-02-30')
  expect([never.status, never.stderr]).toEqual([2, expect.stringContaining('a day with its year')])
})

test('prices turns a list into a table that the engine reads, and flags what is old', () => {
  const list = join(folder, 'wire.csv')
  writeFileSync(list, 'id,price,per,date,source\nconductor/12 AWG/cu,0.61,m,2026-01-05,quote 7\n')
  const done = run('prices', list, '--currency', 'USD', '--date', '2026-10-01', '--out', folder)
  expect([done.status, done.stderr]).toEqual([0, ''])
  expect(done.stdout).toMatch(/Older than 120 days on 2026-10-01: conductor\/12 AWG\/cu/)
  const table = readPrices(readFileSync(join(folder, 'wire.prices.yaml'), 'utf8'))
  expect(table.ok && table.value.rows['conductor/12 AWG/cu']?.money).toBe(0.61)
})

test('prices names every problem with its row and cell, and writes nothing', () => {
  const list = join(folder, 'bad.csv')
  writeFileSync(list, 'id,price,per,date,source\na,x,m,2026-01-05,q\nb,1,yd,2026-01-05,q\n')
  const done = run('prices', list, '--currency', 'USD', '--out', folder)
  expect(done.status).toBe(2)
  expect(done.stderr).toMatch(/B2[\s\S]*C3/)
})
