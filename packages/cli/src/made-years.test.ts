import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { remediesStepwise } from '@plugstead/engine/air'
import type { Answer } from '@plugstead/engine/answer'
import { assess, rulesOf } from '@plugstead/engine/assess'
import { readJob } from '@plugstead/engine/job'
import { remediesFor } from '@plugstead/engine/plan'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readDesign } from './design-file.ts'
import { charCount } from './print/wrap.ts'
import { shopFolder } from './shop-folder.ts'
import { ROOT, started } from './spawned.ts'

const YARD = 'examples/groomer-yard-us.yaml'

/** Run to its end, however long: a table of measures takes its time. */
async function ended(...words: readonly string[]) {
  const run = started(words)
  let [out, err] = ['', '']
  run.stdout?.on('data', (piece) => {
    out += piece
  })
  run.stderr?.on('data', (piece) => {
    err += piece
  })
  const [code] = await once(run, 'close')
  return { code, out, err }
}

let folder = ''
let design = ''
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-years-'))
  design = join(folder, 'groomer-yard-us.design.json')
  await ended('plan', YARD, '--out', folder)
}, 240_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const assessed = async (...more: readonly string[]) => {
  const { out } = await ended('assess', YARD, '--design', design, '--json', ...more)
  return JSON.parse(out) as Answer & { readonly result: { readonly years: readonly { readonly yearsCount: number }[] | null } }
}

test('made years that are asked are a finding and a working more, and count in the verdict; not asked, the answer says null', async () => {
  const [without, with1] = [await assessed(), await assessed('--years', '1')]
  const codes = (of: Answer) => of.findings.map((f) => f.code)
  expect(codes(without)).not.toContain('air/thirty-years')
  expect(without.result.years).toBeNull()
  expect(codes(with1).filter((code) => !codes(without).includes(code))).toEqual(['air/thirty-years'])
  expect(with1.result.years).toMatchObject([{ box: 'yard', yearsCount: 1 }])
  const air = with1.questions.find((q) => q.id === 'air')
  expect(air?.findings).toContain('air/thirty-years')
}, 240_000)

test('without the option one line says how to ask; a count that is none is refused', async () => {
  const { out } = await ended('assess', YARD, '--design', design)
  expect(out.replace(/\s+/g, ' ')).toContain(
    'Made years: not asked. In how many of thirty made years the air holds is said with --years 30.',
  )
  for (const line of out.split('\n').filter((one) => !one.includes(folder))) expect(charCount(line), line).toBeLessThanOrEqual(80)
  const refused = await ended('assess', YARD, '--years', '31')
  expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('a whole number from 1 to 30')])
}, 240_000)

test('years are counted on standard error, and an interrupt ends them alone: the judgement is still printed', async () => {
  const run = started(['assess', YARD, '--design', design, '--years', '30'])
  let [out, err, asked] = ['', '', false]
  run.stdout?.on('data', (piece) => {
    out += piece
  })
  run.stderr?.on('data', (piece) => {
    err += piece
    // A second one would end the program, as it should.
    if (!asked && /made years: \d+ of 30/.test(err)) asked = run.kill('SIGINT')
  })
  const [code] = await once(run, 'close')
  expect(err).toMatch(/made years: \d+ of 30\n[\s\S]*made years: stopped after \d+ of 30/)
  expect(out).toContain('Made years: stopped before the last of them')
  expect(out).toContain('Will it stay dry, and cool enough?')
  expect([1, 3]).toContain(code)
}, 240_000)

test('the table of measures shared by threads is that of one worker, to the byte; an interrupt ends it', async () => {
  const { out } = await ended('remedies', YARD, '--design', design, '--json', '--years', '2')
  const { table } = (JSON.parse(out) as Answer & { readonly result: { readonly table: unknown } }).result
  const file = join(ROOT, YARD)
  const read = readJob(readFileSync(file), { file })
  if (!read.ok) throw new Error('the example cannot be read')
  const shop = shopFolder()
  const laid = readDesign(design, read.value, rulesOf(read.value, shop)).design
  const { results } = assess(read.value, laid, shop)
  const remedies = remediesFor({ job: read.value, shop, design: laid, results, box: 'yard', yearsCount: 2 })
  if ('lacks' in remedies) throw new Error(remedies.lacks.join(' '))
  const steps = remediesStepwise(remedies)
  let next = steps.next()
  while (next.done !== true) next = steps.next()
  expect(JSON.stringify(table)).toBe(JSON.stringify(next.value))

  const run = started(['remedies', YARD, '--design', design])
  let [said, err, asked] = ['', '', false]
  run.stdout?.on('data', (piece) => {
    said += piece
  })
  run.stderr?.on('data', (piece) => {
    err += piece
    if (!asked && /years of remedies: \d+ of 60/.test(err)) asked = run.kill('SIGINT')
  })
  const [code] = await once(run, 'close')
  expect([code, said]).toEqual([3, 'Stopped before the last year: there is no table.\n'])
  expect(err).toMatch(/years of remedies: stopped after \d+ of 60/)
}, 480_000)

test('the book has the table of measures where it is asked, and says where not', async () => {
  const book = async (...more: readonly string[]) => {
    const { out } = await ended('book', YARD, '--design', design, '--out', folder, '--for', 'customer', '--json', ...more)
    const pdf = readFileSync(join(folder, 'groomer-yard-us.customer.pdf'))
    const pages = Math.max(...[...pdf.toString('latin1').matchAll(/\/Count (\d+)/g)].map((m) => Number(m[1])))
    return { answer: JSON.parse(out) as Answer & { readonly result: { readonly remedies: unknown } }, pages }
  }
  const [without, asked] = [await book(), await book('--remedies', '--years', '1')]
  expect(without.answer.result.remedies).toBeNull()
  expect(asked.answer.result.remedies).toEqual({ boxes: ['yard'], lacks: [] })
  expect(asked.answer.findings.map((f) => f.code)).toContain('air/thirty-years')
  expect(asked.pages).toBeGreaterThan(without.pages)
}, 480_000)
