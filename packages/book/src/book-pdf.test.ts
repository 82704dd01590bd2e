import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { formatQuantity } from '@plugstead/engine/kernel'
import { expect, test, vi } from 'vitest'
import { sample } from '../test/sample.ts'
import { bookContent } from './book-content.ts'
import { bookFiles } from './book-files.ts'
import type { Block, BookContent, BookOptions, Sheet } from './content.ts'
import { bookPdf, placesOf, typeset } from './typeset.ts'
import { plain } from './words.ts'

/** Setting a book takes a second or more on a busy machine. */
vi.setConfig({ testTimeout: 60_000 })

const contentOf = (kind: 'split' | 'wye', machines = 9): BookContent => {
  const s = sample(kind, machines)
  return bookContent(s)
}

const latin = (pdf: Uint8Array): string => Buffer.from(pdf).toString('latin1')

test('the same book gives the same bytes, twice', () => {
  const book = contentOf('split')
  const first = bookPdf(book, { paper: 'letter' })
  const other = bookPdf(contentOf('wye'), { paper: 'a4' })
  expect(other.length).toBeGreaterThan(10_000)
  expect(Buffer.compare(first, bookPdf(book, { paper: 'letter' }))).toBe(0)
})

test('the book is tagged, carries its own fonts and no date', () => {
  const pdf = latin(bookPdf(contentOf('split'), { paper: 'letter' }))
  expect(pdf).toMatch(/\/StructTreeRoot/)
  expect(pdf).toMatch(/SourceSans3/)
  expect(pdf).toMatch(/BarlowSemiCondensed/)
  expect(pdf).not.toMatch(/CreationDate|ModDate/)
  const families = new Set([...pdf.matchAll(/\/BaseFont ?\/[A-Z]{6}\+([A-Za-z0-9]+)/g)].map((m) => m[1]))
  expect([...families].filter((f) => !/^(SourceSans3|BarlowSemiCondensed|NotoSansMath)/.test(f!))).toEqual([])
})

test('Letter and A4 have their own size', () => {
  const letter = latin(bookPdf(contentOf('split', 2), { paper: 'letter' }))
  const a4 = latin(bookPdf(contentOf('split', 2), { paper: 'a4' }))
  expect(letter).toMatch(/\/MediaBox ?\[0 0 612(\.\d+)? 792/)
  expect(a4).toMatch(/\/MediaBox ?\[0 0 595\.\d+ 841\.\d+/)
})

test('Letter and A4 break over the same sheets at the same heights', () => {
  const book = contentOf('split')
  expect(placesOf(bookFiles(book, { paper: 'a4' }))).toEqual(placesOf(bookFiles(book, { paper: 'letter' })))
})

test('a check print moves nothing', () => {
  const book = contentOf('split')
  const reader = placesOf(bookFiles(book, { paper: 'letter' }))
  const check = placesOf(bookFiles(book, { paper: 'letter', checkPrint: true }))
  expect(reader.length).toBeGreaterThan(20)
  expect(check).toEqual(reader)
})

test('a warning of the type setter is a fault, an unknown font family too', () => {
  const files = new Map(bookFiles(contentOf('split', 2), { paper: 'letter' }))
  files.delete('frame.svg')
  expect(() => typeset(files)).toThrow(/book\/typeset/)
})

const words = (block: Block): string => JSON.stringify(block)
const partOf = (book: BookContent, part: string): readonly Sheet[] => book.sheets.filter((s) => s.part === part)

test('every working of the assessment stands in the book once', () => {
  const s = sample('split', 9)
  const book = bookContent(s)
  const ids = book.sheets.flatMap((sheet) => sheet.blocks.flatMap((b) => (b.k === 'working' || b.k === 'family' ? b.ids : [])))
  expect([...ids].sort()).toEqual(s.assessment.workings.map((w) => w.id).sort())
})

test('every value put in and every result of every working stands in the block of that working', () => {
  const s = sample('split', 9)
  const blocks = bookContent(s).sheets.flatMap((sheet) => sheet.blocks)
  expect(blocks.filter((b) => b.k === 'family').length).toBeGreaterThan(0)
  const missing = s.assessment.workings.flatMap((w) => {
    const own = blocks.find((b) => (b.k === 'working' || b.k === 'family') && b.ids.includes(w.id))
    const text = own === undefined ? '' : words(own)
    const shown = [...w.steps, ...(w.crossCheck ?? [])].flatMap((step) => [
      ...step.values.map((p) => [
        formatQuantity(p.value, p.unit, { digits: 4, shortest: true }),
        formatQuantity(p.value, p.unit, { digits: 4 }),
      ]),
      [formatQuantity(step.result, step.unit, { digits: 4 })],
    ])
    return shown
      .filter((either) => !either.some((words) => text.includes(JSON.stringify(plain(words)).slice(1, -1))))
      .map((either) => `${w.id}: ${either[0]}`)
  })
  expect(missing).toEqual([])
})

test('all sixteen questions are answered, those not built in words', () => {
  const text = partOf(contentOf('split'), 'answers')
    .flatMap((s) => s.blocks.map(words))
    .join('')
  for (const id of [
    'needs',
    'place',
    'supply',
    'papers',
    'dates',
    'circuits',
    'reach',
    'faults',
    'fit',
    'skin',
    'air',
    'haul',
    'shop',
    'money',
    'energise',
    'keep',
  ])
    expect(text).toContain(`["b","${id}"]`)
  expect(text.match(/not built/g)?.length).toBe(7)
})

test('rows from memory that decide are listed to be confirmed, and only those', () => {
  const text = partOf(contentOf('split'), 'confirm')
    .flatMap((s) => s.blocks.map(words))
    .join('')
  expect(text).toContain('IEC 60909-0, clause 6')
  expect(text).not.toContain('Ohm’s law')
})

test('nothing in the book says that something is safe or permitted', () => {
  for (const kind of ['split', 'wye'] as const) {
    const text = JSON.stringify(contentOf(kind).sheets.map((s) => ({ ...s, blocks: s.blocks.filter((b) => b.k !== 'drawing') })))
    expect(text).not.toMatch(/\bapproved\b|\bsafe to\b|\bpermitted\b|\bcertified\b|\bOK\b/i)
  }
})

test('an empty job still gives a book', () => {
  const s = sample('split', 2)
  const none = {
    needs: { ...s.assessment.results.needs, boxes: [] },
    supply: { boxes: [] },
    circuits: { boxes: [] },
    reach: { boxes: [] },
    faults: { boxes: [] },
    fit: { boxes: [] },
    skin: { boxes: [] },
    haul: { boxes: [] },
    shop: { boxes: [] },
    dates: s.assessment.results.dates,
    money: s.assessment.results.money,
  }
  const empty = { ...s.assessment, findings: [], workings: [], assumed: [], results: none as never }
  const book = bookContent({
    ...{ job: { ...s.job, plugs: [] }, design: { boxes: [], builds: [], pinned: [] } },
    ...{ assessment: empty, rules: s.rules },
  })
  expect(bookPdf(book, { paper: 'a4' }).length).toBeGreaterThan(10_000)
})

/** Looked at when it changes: set GOLDEN=write, run, and view the sheets that are named as changed. */
const GOLDEN = join(import.meta.dirname, '..', 'test', 'sheets.golden.json')

/** Of a drawing its words count here: its lines have golden files of their own beside the drawings. Whose set a sheet is in is not printed on it. */
const asPrinted = (key: string, value: unknown): unknown =>
  key === 'scene' ? (value as { readonly said: string }).said : key === 'readers' ? undefined : value

test('guard: sheets are as they were when last looked at', () => {
  const now = (['split', 'wye'] as const).flatMap((kind) => {
    const options: BookOptions = { paper: kind === 'split' ? 'letter' : 'a4' }
    const book = contentOf(kind)
    const places = placesOf(bookFiles(book, options))
    return book.sheets.map((s) => ({
      sheet: `${kind}, ${s.part}: ${s.head}`,
      page: places.find((p) => p.of === s.head)?.page,
      digest: createHash('sha256').update(JSON.stringify(s, asPrinted)).digest('hex').slice(0, 12),
    }))
  })
  if (process.env.GOLDEN === 'write') writeFileSync(GOLDEN, `${JSON.stringify(now, null, 1)}\n`)
  expect(now).toEqual(JSON.parse(readFileSync(GOLDEN, 'utf8')))
})

test('a derivation that is the same for several things stands once and names them all', () => {
  const s = sample('split', 9)
  const one = s.assessment.workings[0]!
  const twin = { ...one, id: one.id.replace('G1C', 'Z9C'), title: one.title.replace('G1C', 'Z9C') }
  const finding = s.assessment.findings[0]!
  const findings = [...s.assessment.findings, { ...finding, subject: 'Z9C', workings: [twin.id] }]
  const book = bookContent({ ...s, assessment: { ...s.assessment, findings, workings: [...s.assessment.workings, twin] } })
  const both = book.sheets
    .flatMap((sheet) => sheet.blocks)
    .filter((b) => (b.k === 'working' || b.k === 'family') && b.ids.includes(twin.id))
  expect(both).toHaveLength(1)
  expect(both[0]).toMatchObject({ ids: expect.arrayContaining([one.id, twin.id]) })
  expect(JSON.stringify(both[0])).toContain('Z9C')
})
