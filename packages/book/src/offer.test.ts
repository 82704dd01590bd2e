import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type Assessment, assess, readShop, rulesOf } from '@plugstead/engine/assess'
import { readJob } from '@plugstead/engine/job'
import { plan } from '@plugstead/engine/plan'
import { expect, test } from 'vitest'
import { bookFiles } from './book-files.ts'
import { notTold, offerContent } from './offer.ts'
import { toCent } from './sheets/money.ts'
import { placesOf } from './typeset.ts'

const root = join(import.meta.dirname, '../../..')
const text = (path: string) => readFileSync(join(root, path), 'utf8')
const shop = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
const read = readJob(text('examples/two-machines.yaml'))
if (!shop.ok || !read.ok) throw new Error('the example cannot be read')
const job = read.value
const { design, assessment } = plan(job, shop.value)

const input = {
  job,
  design,
  assessment,
  rules: rulesOf(job, shop.value),
  shopName: 'Example shop',
  day: '2026-10-01',
  rent: false,
}
const content = (over: { readonly day?: string | null; readonly rent?: boolean; readonly assessment?: Assessment } = {}) =>
  offerContent({ ...input, ...over })
const words = (of: unknown): string => JSON.stringify(of)

test('what is asked sums to the total that stands below it, to the cent', () => {
  const table = content().sheets[0]!.blocks.find((b) => b.k === 'table')!
  const cents = table.rows.map((row) => Math.round(Number(words(row[1]).replace(/[^\d.]/g, '')) * 100))
  const [box, haul, fee, together, tax, total] = cents as [number, number, number, number, number, number]
  expect(box + haul + fee).toBe(together)
  expect(together + tax).toBe(total)
  expect(total).toBe(Math.round(assessment.results.money.price.totalMoney! * 100))
})

test('is one sheet; with the schedule of rent two, whatever the stay', () => {
  const pages = (of: ReturnType<typeof content>) => placesOf(bookFiles(of, { paper: 'letter' })).map((p) => p.page)
  expect(pages(content())).toEqual([1])
  const long = { ...job, needs: { ...job.needs, stayMonths: 36 } }
  expect(pages(content({ rent: true, assessment: assess(long, design, shop.value) }))).toEqual([1, 2])
  const files = bookFiles(content({ rent: true, assessment: assess(long, design, shop.value) }), { paper: 'letter' })
  expect(files.size).toBeGreaterThan(0)
})

test('says nothing of what it costs the shop', () => {
  const { price, lines } = assessment.results.money
  const said = words(content({ rent: true }).sheets)
  for (const money of [price.costMoney, price.marginMoney!, price.bearingMoney, lines[0]!.money!])
    expect(said).not.toContain(toCent(money, ''))
  expect(said).not.toMatch(/margin|mark-up/)
})

test('is valid so many days from its day; undated it binds nobody', () => {
  expect(words(content())).toContain('until 2026-10-31')
  expect(words(content())).not.toContain('binds nobody')
  expect(words(content({ day: null }))).toContain('binds nobody')
})

test('a price that is a floor is not to be sent', () => {
  const { 'service/engineer': _, ...rows } = shop.value.prices.rows
  const poor = assess(job, design, { ...shop.value, prices: { ...shop.value.prices, rows } })
  expect(words(content())).not.toContain('Not to be sent')
  expect(words(content({ assessment: poor }))).toContain('Not to be sent')
  expect(words(content({ assessment: poor }))).toContain('service/engineer')
})

test('the schedule lists every period with its day, and its sum', () => {
  const sheet = content({ rent: true }).sheets[1]!
  const { rent, currency } = assessment.results.money
  const said = words(sheet)
  expect(said).toContain('2026-10-29') // 28 days after 1 October
  expect(said).toContain(toCent(rent!.stayMoney, currency))
  const table = sheet.blocks.find((b) => b.k === 'table')!
  expect(table.rows.flat().filter((c) => c === String(rent!.periodsAskedCount))).toHaveLength(1)
})

test('a customer, validity or deposit that nobody told is said to be so on the sheet and leads to where it is told', () => {
  const { policy, ...others } = { policy: shop.value.money!, ...shop.value }
  const silent = { ...policy, depositFrac: null, tax: null, assumed: [...policy.assumed, 'shop.money.validity'] }
  const bare = assess(job, design, { ...others, money: silent })
  const sheet = words(content({ assessment: bare }))
  expect(sheet).toContain('"to",[["assumed","not told"]')
  expect(sheet).toContain('"paid",[["assumed","not told"]')
  expect(sheet).toContain('["assumed","until 2026-10-31')
  expect(notTold({ job, assessment: bare }).map((n) => n.path ?? n.shop)).toEqual(
    expect.arrayContaining(['needs.customer', 'money.tax', 'money.validity', 'money.deposit']),
  )
  const told = { ...job, needs: { ...job.needs, customer: 'Alder Flats camp' } }
  expect(words(offerContent({ ...input, job: told }))).toContain('"to",[["b","Alder Flats camp"]]')
  expect(notTold({ job: told, assessment }).map((n) => n.path)).not.toContain('needs.customer')
})

test('a design that fails is not to be sent as it stands; what nobody can answer yet is said to be open', () => {
  const as = (verdict: 'fails' | 'unknown' | 'holds') => ({
    ...assessment,
    questions: assessment.questions.map((q) => ({ ...q, verdict: q.id === 'reach' ? verdict : ('holds' as const) })),
  })
  expect(words(content({ assessment: as('fails') }))).toContain('Not to be sent as it stands: reach fails.')
  expect(words(content({ assessment: as('unknown') }))).toContain('"still open","reach: not all of it is known yet')
  expect(words(content({ assessment: as('holds') }))).not.toMatch(/Not to be sent|still open/)
})

test('prices that are old on its day hold it back until the suppliers were asked', () => {
  expect(words(content())).not.toContain('Ask the suppliers')
  expect(words(content({ day: '2027-09-01' }))).toMatch(/Ask the suppliers before this is sent: \d+ of \d+ prices are old/)
})
