import type { ChangeLine, ChangeList } from '@plugstead/engine/plan'
import { CHANGE_CAUTIONS } from '@plugstead/engine/plan'
import { expect, test } from 'vitest'
import { sample } from '../../test/sample.ts'
import { changesCsv } from '../csv.ts'
import { changesSheets } from './changes.ts'

const row = {
  id: 'main/200 A/3',
  for: 'main',
  quantity: 1,
  per: 'each',
  unitMoney: 469,
  money: 469,
  date: '2026-09-15',
  source: 'invented',
}
const MAIN: ChangeLine = {
  ...{ tag: 'main', component: 'main', asBuilt: '200 A, 2 poles', needed: '200 A, 3 poles', why: 'poles', action: 'replace' },
  ...{ codes: ['circuits/built-phases'], quantity: 1, per: 'each', priceUnknown: false, keys: ['main'] },
  ...{ without: ['circuits/built-phases', 'faults/built-interrupting'], must: true },
  material: { currency: 'USD', lines: [row], totalMoney: 469, missing: [] },
}
const TEST: ChangeLine = {
  ...MAIN,
  tag: 'full test',
  component: 'the whole box',
  action: 'test or measure',
  codes: [],
  material: null,
  priceUnknown: true,
  without: [],
  must: false,
}
const KEPT: ChangeLine = {
  ...MAIN,
  tag: 'C1',
  component: 'conductors',
  action: 'keep',
  codes: [],
  keys: [],
  material: null,
  without: [],
  must: false,
}
const { job, design } = sample('split', 3)
const LIST: ChangeList = {
  ...{
    box: 'B1',
    lines: [MAIN, TEST, KEPT],
    money: 469,
    moneyIsFloor: true,
    lacking: ['price of the main'],
    hours: { low: 6, middle: 8, high: 12, uncounted: ['defect/1'] },
    freshMoney: 5000,
    freshIsFloor: false,
    currency: 'USD',
  },
  ...{
    builtAfter: job.built!,
    bodyAfter: null,
    designAfter: design,
    pinsAfter: [],
    stillFails: ['reach/drop G1C'],
    staysUnknown: ['circuits/built-approval'],
    tried: 1,
  },
}
const shown = JSON.stringify(changesSheets([LIST]))

test('cautions stand before anything else, and no box that stands means no sheet', () => {
  expect(changesSheets([])).toEqual([])
  expect(changesSheets([LIST])[0]!.blocks.slice(0, 2)).toEqual(CHANGE_CAUTIONS.map((text) => ({ k: 'strip', text })))
  expect(CHANGE_CAUTIONS[0]).toMatch(/isolate.*prove dead/)
})

test('both sums, what is in neither, what still fails and what stays unknown are said', () => {
  for (const words of [
    'at least 469',
    '5000',
    'steel, labour and haul',
    'reach/drop G1C',
    'circuits/built-approval',
    'price not known',
  ])
    expect(shown).toContain(words)
})

test('a must says what else fails without it; what is kept stands apart', () => {
  expect(shown).toContain('must: faults/built-interrupting')
  const tables = changesSheets([LIST])[0]!.blocks.filter((b) => b.k === 'table')
  expect(tables.map((t) => t.rows.length)).toEqual([2, 1])
})

test('changes as CSV: a record for each line, no price said in words and never as nought', () => {
  const records = changesCsv([LIST]).trimEnd().split('\r\n')
  expect(records).toHaveLength(4)
  expect(records[1]).toContain('circuits/built-phases faults/built-interrupting,469,USD,')
  expect(records[2]).toMatch(/,,USD,price not known$/)
})
