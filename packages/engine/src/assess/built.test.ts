import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readJob } from '../job/index.ts'
import { BUILT, QUESTIONS } from '../kernel/index.ts'
import { readPrices } from '../parts/index.ts'
import { plan } from '../plan/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { assess } from './index.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')

test('what a question that is not built lacks is not shown as a finding; what a built one lacks is', () => {
  const prices = readPrices(text('shop/prices/invented-2026.yaml'))
  const read = readJob(text('examples/two-machines.yaml'))
  if (!prices.ok || !read.ok) throw new Error('the example or the prices cannot be read')
  const shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }
  const lack = { path: 'facts.x', subject: 'job', said: 'Nobody said.', questions: [...QUESTIONS] }
  const job = { ...read.value, missing: [lack] }
  const { findings, questions } = assess(job, plan(read.value, shop).design, shop)
  const missing = findings.filter((f) => f.code.endsWith('/missing')).map((f) => f.question)
  expect(new Set(missing)).toEqual(BUILT)
  for (const q of questions) expect(q.verdict === 'not built', q.id).toBe(!BUILT.has(q.id))
})
