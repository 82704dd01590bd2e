import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { editDocument } from '@plugstead/engine/job'
import { beforeAll, expect, test } from 'vitest'
import { type AtWork, worked } from '../at-work.ts'
import { fileAnswer, pageAnswer, sheetsAnswer } from '../papers.ts'
import { shopNow } from '../shop.ts'
import { keepAir, keptAir } from './kept.ts'
import { remediesBegin, remedyPart, remedyTask, remedyView } from './remedies.ts'
import type { RemedyTask } from './types.ts'
import { yearPart, yearsBegin, yearsFound, yearsKept } from './years.ts'

const file = 'two-machines.yaml'
const BOX = 'yard'
let at: AtWork
let task: RemedyTask

beforeAll(() => {
  const text = readFileSync(join(import.meta.dirname, '../../../../../examples', file), 'utf8')
  const edited = editDocument(text, [
    { path: ['facts', 'site', 'longitude'], value: '-93 deg' },
    { path: ['facts', 'climate', 'mean-by-month'], value: '-9 -7 -1 7 13 18 21 20 15 8 0 -6 C' },
  ])
  const shop = shopNow()
  if (!edited.ok || !shop.ok) throw new Error('document or shop')
  const result = worked({ file, text: edited.value }, shop.value)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  at = result.value
  task = remedyTask(at, BOX)
}, 240_000)

const heads = (): readonly string[] => sheetsAnswer(at, { reader: null })!.sheets.map((s) => s.head)
const findings = (): string => String(fileAnswer(at, 'findings.json'))
const airPage = (): string => JSON.stringify(pageAnswer(at, { sheet: 'air-1', paper: 'letter' }))

test('thirty years are pieces; short of the last nothing is said of them', () => {
  const begun = yearsBegin(task)
  if (begun.is !== 'begun') throw new Error(JSON.stringify(begun))
  expect(begun.years).toEqual(Array.from({ length: 30 }, (_, i) => i + 1))
  const first = yearPart(1)!
  expect(first.year).toBe(1)
  expect(yearsFound([first])).toBeNull()
  // As if every year came out as this one.
  const found = yearsFound(begun.years.map((year) => ({ ...first, year })))!
  expect(found.held.design.heldYearsCount).toBe(first.fails.length === 0 ? 30 : 0)
  expect(found.view.said).toContain('of 30 made years; the goal is 27')
}, 240_000)

test('what is kept with the answer stands in its papers from then on; of another answer nothing is kept', () => {
  expect(airPage()).toContain('in how many of thirty made years')
  expect(findings()).not.toContain('air/thirty-years')
  const years = { box: BOX, yearsCount: 30, design: { heldYearsCount: 11, failed: [{ year: 2, kinds: ['drip' as const] }] } }
  expect(keepAir(at, { at: task.at + 1, box: BOX, years })).toBe(false)
  expect(yearsKept(at, BOX)).toBeNull()
  expect(keepAir(at, { at: task.at, box: BOX, years })).toBe(true)
  expect(yearsKept(at, BOX)).toMatchObject({ verdict: 'tight' })
  expect(findings()).toContain('Nothing of the air fails in 11 of 30 made years')
  expect(airPage()).not.toContain('in how many of thirty made years')
  expect(airPage()).toContain('what each measure against heat and damp buys')
})

test('a table that was computed in the room stands in the printed book, of as many years as were run', () => {
  expect(heads()).not.toContain('What each measure buys')
  const begun = remediesBegin(task)
  if (begun.is !== 'begun') throw new Error(JSON.stringify(begun))
  const alone = [remedyPart(begun.alone[0]!, [])!]
  const view = remedyView({ alone, stacked: [], units: 'metric', widthPx: 800, letterPx: 14 })!
  const remedies = { table: view.table, aloneYearsCount: view.aloneCount, stackedYearsCount: view.stackedCount }
  expect(keepAir(at, { at: task.at, box: BOX, remedies })).toBe(true)
  expect(Object.keys(keptAir(at).years)).toEqual([BOX])
  const line = sheetsAnswer(at, { reader: null })!.sheets.find((s) => s.head === 'What each measure buys')!
  expect(line.sub).toContain('mean of one year')
  const page = JSON.stringify(pageAnswer(at, { sheet: line.id, paper: 'letter' }))
  for (const row of view.table.alone) expect(page).toContain(row.name)
}, 240_000)
