import { QUESTION_WORDS, type Verdict } from '@plugstead/engine/kernel'
import { expect, test } from 'vitest'
import { sample } from '../../test/sample.ts'
import { bookContent } from '../book-content.ts'
import { bookFiles } from '../book-files.ts'
import type { Block, BookContent, Sheet } from '../content.ts'
import { plain } from '../words.ts'
import { pieceWords } from './build-words.ts'

const PARTS = ['fit', 'skin', 'haul', 'shop'] as const
const input = sample('split', 4)
const contentOf = (of: typeof input): BookContent => bookContent(of)
const book = contentOf(input)
const sheetsOf = (content: BookContent, part: string): readonly Sheet[] => content.sheets.filter((s) => s.part === part)
const words = (of: Sheet | Block | undefined): string => JSON.stringify(of)
const headed = (part: string, head: string): Sheet => {
  const found = sheetsOf(book, part).find((s) => s.head === head)
  if (found === undefined) throw new Error(`no sheet ${part}: ${head}`)
  return found
}

test('the first sheet of each question asks it in words', () => {
  for (const part of PARTS) expect(sheetsOf(book, part)[0]?.head).toBe(QUESTION_WORDS[part])
})

test('what a working assumed stands in words, never as a place in the document', () => {
  const notes = JSON.stringify(book.sheets.flatMap((s) => s.blocks.filter((b) => b.k === 'working' || b.k === 'family')))
  const said = [...notes.matchAll(/\["assumed","([^"]+)"\]/g)].map(([, words]) => words ?? '')
  expect(said.length).toBeGreaterThan(0)
  for (const words of said) expect(words).not.toMatch(/^(facts|needs|boxes|choices|shop)\b|\[\d+\]/)
})

test('a box that is not built has none of these sheets', () => {
  const none = contentOf(sample('wye', 4))
  for (const part of PARTS) expect(sheetsOf(none, part)).toEqual([])
})

test('no table is empty, and no sheet', () => {
  for (const sheet of book.sheets.filter((s) => (PARTS as readonly string[]).includes(s.part))) {
    expect(sheet.blocks.length, sheet.head).toBeGreaterThan(0)
    for (const block of sheet.blocks) if (block.k === 'table') expect(block.rows.length, sheet.head).toBeGreaterThan(0)
  }
})

test('every finding stands on one sheet of its question, or is counted beside its like', () => {
  const own = input.assessment.findings.filter((f) => (PARTS as readonly string[]).includes(f.question))
  expect(own.length).toBeGreaterThan(6)
  for (const f of own) {
    const on = sheetsOf(book, f.question).filter((s) => s.blocks.some((b) => b.k === 'table' && words(b).includes(plain(f.said))))
    expect(on.length, f.said).toBe(f.subject === 'B1 raceway C2' ? 0 : 1)
  }
  expect(words(headed('fit', 'Raceways and bonds'))).toContain('So do 1 more')
})

test('what one subject lacks stands in one row', () => {
  const rows = sheetsOf(book, 'haul')[0]!.blocks.flatMap((b) => (b.k === 'table' ? b.rows : []))
  const lacking = rows.filter((r) => JSON.stringify(r).includes('is not said'))
  expect(lacking).toHaveLength(1)
  expect(JSON.stringify(lacking[0])).toMatch(/wind pressure.*slope of the ground/)
})

test('a caution stands once, on the sheet of what it is about, before it', () => {
  const caution = 'Weigh what hangs before it is hung; nobody climbs on the channel.'
  const standing = sheetsOf(book, 'fit').flatMap((s) =>
    s.blocks.flatMap((b, at) => (b.k === 'strip' && b.text === caution ? [{ head: s.head, at }] : [])),
  )
  expect(standing).toEqual([{ head: 'Channel, and what holds it', at: 0 }])
  const steps = headed('shop', 'Order of the work').blocks
  expect(steps[0]).toMatchObject({ k: 'strip', text: 'Nothing is live in the wall: prove it before the first cut.' })
  expect(words(steps[1])).toMatch(/Scribe the openings.*hold point.*the shop's welding supervisor has signed/)
})

test('who lifts decides, and the limits are never said to hold while something is unknown or fails', () => {
  const said = (verdict: Verdict): string => {
    const findings = input.assessment.findings.map((f) => (f.question === 'haul' ? { ...f, verdict } : f))
    const [sheet] = sheetsOf(contentOf({ ...input, assessment: { ...input.assessment, findings } }), 'haul')
    return words(sheet!.blocks.find((b) => b.k === 'para'))
  }
  expect(said('holds')).toContain('Within the limits computed; not yet decided by the appointed lifting person.')
  expect(said('tight')).toContain('Within the limits computed')
  expect(said('unknown')).toMatch(/^(?!.*Within the limits).*counts as not held; not yet decided by the appointed/)
  expect(said('fails')).toMatch(/Not within the limits computed.*not yet decided by the appointed lifting person/)
})

test('a sheet of walls hatches its sides in the key net, and says the scale of its drawings', () => {
  expect(headed('fit', 'Wall: left long side').sides).toEqual(['left'])
  expect(headed('fit', 'Walls: the ends').sides).toEqual(['blind end'])
  expect(headed('shop', 'Holes, cuts and pads').sides).toEqual(['right'])
  expect(headed('fit', 'Wall: left long side').scale).toMatch(/^1:\d+$/)
  const files = bookFiles(book, { paper: 'letter' })
  expect([...files.keys()].filter((f) => f.startsWith('k/')).sort()).toEqual(['k/blind end.svg', 'k/left.svg', 'k/right.svg'])
})

test('a price that is not known makes the sum a floor', () => {
  const text = sheetsOf(book, 'shop')[0]!.blocks.map(words).join('')
  expect(text).toContain('at least 56.08 USD')
  expect(text).toContain('and 1 without a price')
})

test('a plan that cannot be cut says both lengths; a proven one says so', () => {
  const text = headed('shop', 'Cutting')
    .blocks.filter((b) => b.k !== 'drawing')
    .map(words)
    .join('')
  expect(text).toContain('jamb: 6500 mm, the longest stock is 6096 mm')
  expect(text).toContain('frame: no plan, kerf')
  expect(text).not.toContain('not proven')
  expect(text).toMatch(/"proven: no plan needs less than 1 bar/)
})

test('values that no lines could hold beside their expression stand over the whole width', () => {
  const { sheets } = JSON.parse(bookFiles(book, { paper: 'letter' }).get('book.json')!.toString())
  const blocks = sheets.flatMap((s: { blocks: object[] }) => s.blocks).filter((b: { k: string }) => b.k === 'working')
  const wide = blocks.filter((b: { rows: { many?: boolean }[] }) => b.rows.some((r) => r.many))
  expect(wide.map((b: { ids: string[] }) => b.ids[0])).toEqual(['B1/haul-mass'])
  expect(wide[0].breaks).toBe(true)
})

test('names that differ only in their last number are run together', () => {
  expect(pieceWords(['rail left 3 at 1289', 'rail left 3 at 811', 'upright left 1'])).toBe(
    'rail left 3 at 811, 1289, upright left 1',
  )
  expect(pieceWords(['panel', 'C-H1'])).toBe('panel, C-H1')
})

test('a title too long for the tag is cut there, and stands whole on the cover', () => {
  const title = 'A yard with a very long name that nobody would give it, '.repeat(4)
  const long = contentOf({ ...input, job: { ...input.job, title } })
  const { foot } = JSON.parse(bookFiles(long, { paper: 'letter' }).get('book.json')!.toString())
  expect(foot.sizePt).toBe(10)
  expect(foot.words.length).toBeLessThan(110)
  expect(foot.words).toMatch(/…$/)
  expect(long.sheets[0]!.head).toBe(title)
  expect(long.tag[0]).toMatch(/^invented data/)
})

test('a length in feet stands in the tag as it was told, without what the way through metres leaves behind', () => {
  const boxes = [20, 53.00000000000001, 8.5].map((lengthFt) => ({ ...input.job.boxes[0]!, lengthFt }))
  expect(contentOf({ ...input, job: { ...input.job, boxes } }).tag[0]).toBe('invented data; 3 boxes, 20 ft and 53 ft and 8.5 ft')
})

test('where a box is named like another and more, each finding stands with its own box, what is of none with the first', () => {
  const { results } = input.assessment
  const twice = <T extends { readonly box: string }>({ boxes }: { readonly boxes: readonly T[] }) => ({
    boxes: [...boxes, ...boxes.map((b) => ({ ...b, box: 'B1 annex' }))],
  })
  const both = contentOf({
    ...input,
    design: { ...input.design, builds: [...input.design.builds, { ...input.design.builds[0]!, box: 'B1 annex' }] },
    assessment: {
      ...input.assessment,
      findings: [
        ...input.assessment.findings,
        {
          ...input.assessment.findings.find((f) => f.code === 'haul/mass')!,
          subject: 'B1 annex',
          said: 'The annex weighs 3000 kg.',
        },
      ],
      results: {
        ...results,
        fit: twice(results.fit),
        skin: twice(results.skin),
        haul: twice(results.haul),
        shop: twice(results.shop),
      },
    },
  })
  const [own, annex] = sheetsOf(both, 'haul').filter((s) => s.head === QUESTION_WORDS.haul)
  expect([own!.sub, annex!.sub]).toEqual([expect.stringMatching(/^box B1:/), expect.stringMatching(/^box B1 annex:/)])
  expect(words(annex)).toContain('The annex weighs')
  expect(words(own)).not.toContain('The annex weighs')
  expect(words(own)).toContain('wind pressure')
  expect(words(annex)).not.toContain('wind pressure')
})
