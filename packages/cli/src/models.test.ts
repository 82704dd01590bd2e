import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead } from './spawned.ts'

const YARD = 'examples/shops/four-box-yard-us'
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-models-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('a call is ranked against the yard of --shop; the JSON has every row, and the exit code is that of the first', {
  timeout: 240_000,
}, () => {
  const { code, out } = plugstead(['models', `${YARD}/calls/CL3.yaml`, '--shop', YARD, '--json'])
  const { result, questions, problems } = JSON.parse(out)
  expect([code, problems, questions.length]).toEqual([0, [], 16])
  expect(result.call).toBe('CL3')
  expect(result.ranked.map((r: { rankCount: number }) => r.rankCount)).toEqual([1, 2, 3, 4, 5])
  expect(result.ranked[0]).toMatchObject({ id: 'BX3', does: 'as it stands', whyNotBetter: '' })
  for (const row of result.ranked) {
    for (const key of ['verdict', 'reasons', 'changes', 'earliest', 'price', 'whyNotBetter', 'unknown'])
      expect(row).toHaveProperty(key)
    expect(row).not.toHaveProperty('design')
    if (row.rankCount > 1) expect(row.whyNotBetter).not.toBe('')
  }
})

test('printed: within the width, with the cautions, and no word that gives leave', { timeout: 240_000 }, () => {
  const { out } = plugstead(['models', `${YARD}/calls/CL5.yaml`, '--shop', YARD])
  expect(out.split('\n').filter((line) => charCount(line) > 80)).toEqual([])
  expect(out).toMatch(/isolate every source, lock, prove dead/)
  expect(out).toMatch(/the authority\s+having jurisdiction decide/)
  expect(out).not.toMatch(/\b(safe to|approved for use|go ahead|may be switched on)\b/i)
})

test('modules: the list names who uses each; a sheet of an unknown module is refused with the near name', {
  timeout: 240_000,
}, () => {
  const list = plugstead(['modules'])
  expect(list.code).toBe(0)
  expect(list.out).toMatch(/board-400-wye .* works-20/)
  const sheet = join(folder, 'vent.yaml')
  writeFileSync(sheet, readFileSync('shop/modules/vent-low.yaml', 'utf8').replace('id: vent-low', 'id: vent-lo'))
  const wrong = plugstead(['modules', sheet])
  expect(wrong.code).toBe(2)
  expect(wrong.err).toMatch(/Did you mean vent-low\?/)
})

test('a shop with a broken sheet is refused with file, line and mend, and nothing is ranked', () => {
  writeFileSync(join(folder, 'shop.yaml'), 'name: x\nprices: [p.yaml]\nyard: [b.yaml]\n')
  writeFileSync(join(folder, 'p.yaml'), 'currency: USD\nrows: []\n')
  writeFileSync(join(folder, 'b.yaml'), readFileSync(`${YARD}/yard/BX1.yaml`, 'utf8').replace('service: 200 A', 'service: 200'))
  const { code, out } = plugstead(['models', `${YARD}/calls/CL1.yaml`, '--shop', folder, '--json'])
  const [problem] = JSON.parse(out).problems
  expect(code).toBe(2)
  expect(problem.file).toMatch(/b\.yaml$/)
  expect(problem.line).toBeGreaterThan(5)
  expect(problem.mend.length).toBeGreaterThan(10)
})
