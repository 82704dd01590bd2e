import type { Assessment } from '@plugstead/engine/assess'
import type { Design } from '@plugstead/engine/job'
import type { Finding, Verdict } from '@plugstead/engine/kernel'
import { expect, test } from 'vitest'
import { buildText } from './build.ts'
import { WIDTH } from './wrap.ts'

const design = { boxes: [], pinned: [], builds: [{ box: 'yard' }, { box: 'yard annex' }] } as unknown as Design
const box = (name: string) => ({
  box: name,
  centres: [{ state: 'fitted', massKg: { low: 2448, high: 2801 }, offXMm: 169, offYMm: 30 }],
  design: { lift: 'forks, wide pockets', unload: 'tilt-bed' },
})
const shop = (money: number | null) => ({
  box: 'yard',
  cuts: [{ section: 'tube 50 x 50 x 3', plan: { count: 2, proven: money !== null } }],
  bill: { currency: 'USD', lines: [{ money: 12 }, { money }], totalMoney: 12 + (money ?? 0) },
  hours: {
    total: { low: 80, middle: 116, high: 167 },
    byTrade: { welder: { low: 80, middle: 116, high: 167 } },
  },
})
const finding = (subject: string, verdict: Verdict) => ({ question: 'haul', subject, verdict }) as Finding
const textOf = (findings: readonly Finding[], money: number | null = 8): string =>
  buildText(design, {
    findings,
    results: {
      fit: { boxes: [] },
      skin: { boxes: [] },
      haul: { boxes: [box('yard'), box('yard annex')] },
      shop: { boxes: [shop(money)] },
    },
  } as unknown as Assessment)

test('each box says who decides on its lift, by the findings that are about it', () => {
  const [yard, annex] = textOf([finding('yard', 'holds'), finding('yard annex', 'fails')]).split('\n\n')
  expect(yard?.replace(/\s+/g, ' ')).toContain('Within the limits computed; not yet decided by the appointed lifting person.')
  expect(annex?.replace(/\s+/g, ' ')).toContain('is not within the limits computed; not yet decided by the appointed')
  expect(textOf([finding('yard', 'unknown')]).replace(/\s+/g, ' ')).toContain('Not all of it could be computed; not yet')
})

test('without any finding nothing is said to be within limits', () => {
  expect(textOf([])).not.toContain('Within')
})

test('a price or a proof that is missing is said', () => {
  expect(textOf([], null)).toMatch(/2 lines, at least 12 USD; 1 without a price/)
  expect(textOf([], null).replace(/\s+/g, ' ')).toContain('2 of tube 50 x 50 x 3 (not proven)')
  expect(textOf([]).replace(/\s+/g, ' ')).toContain('no plan does better: 2 of tube 50 x 50 x 3.')
})

test('every line keeps within the width, and a design without a box says nothing', () => {
  for (const line of textOf([finding('yard', 'tight')]).split('\n')) expect(line.length).toBeLessThanOrEqual(WIDTH)
  expect(buildText({ ...design, builds: [] }, {} as Assessment)).toBe('')
})
