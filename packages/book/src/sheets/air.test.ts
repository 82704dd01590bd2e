import { HOT } from '@plugstead/drawings/sample-air'
import { type Finding, QUESTION_WORDS } from '@plugstead/engine/kernel'
import { expect, test, vi } from 'vitest'
import { sample } from '../../test/sample.ts'
import { AIR_FINDINGS, airSample } from '../../test/sample-air.ts'
import { bookContent } from '../book-content.ts'
import { bookFiles } from '../book-files.ts'
import { ventsCsv } from '../build-csv.ts'
import type { Block, BookContent, Sheet } from '../content.ts'
import { drawingFiles } from '../drawing-files.ts'
import { jobLists } from '../job-lists.ts'
import { forReader } from '../readers.ts'
import type { BookInput } from '../results.ts'
import { placesOf } from '../typeset.ts'
import { plain } from '../words.ts'
import { airSheets } from './air.ts'
import { fanWords, heaterWords, positionWords, ventRows } from './air-vents.ts'
import { monthsSaid } from './air-words.ts'
import { builtBoxes } from './built.ts'

vi.setConfig({ testTimeout: 60_000 })

const input = airSample()
const sheets = airSheets(input, builtBoxes(input))
const words = (of: unknown): string => JSON.stringify(of)
const headed = (head: string, of: readonly Sheet[] = sheets): Sheet => {
  const found = of.find((s) => s.head === head)
  if (found === undefined) throw new Error(`no sheet: ${head}`)
  return found
}
const contentOf = (of: BookInput): BookContent => bookContent(of)

test('the first sheet asks the question and gives both ends of what nobody measured', () => {
  expect(sheets[0]!.head).toBe(QUESTION_WORDS.air)
  const table = sheets[0]!.blocks.find((b): b is Block & { k: 'table' } => b.k === 'table')!
  expect(table.columns.map((c) => c.title)).toEqual(['in the year', 'leaks least', 'leaks most'])
  expect(table.rows.length).toBeGreaterThan(14)
})

test('every finding of the air stands on one sheet', () => {
  for (const f of AIR_FINDINGS) {
    const on = sheets.filter((s) => s.blocks.some((b) => b.k === 'table' && words(b).includes(plain(f.said))))
    expect(on, f.said).toHaveLength(1)
  }
})

test('a caution stands before what it is about, and isolation before heater and fan are touched', () => {
  const first = sheets[0]!.blocks
  expect(first[0]).toMatchObject({ k: 'strip', text: expect.stringContaining('prove dead') })
  const { blocks } = headed('Vent schedule')
  const at = (part: string): number => blocks.findIndex((b) => words(b).includes(part))
  expect(at('isolate, lock, prove dead')).toBeGreaterThan(-1)
  expect(at('isolate, lock, prove dead')).toBeLessThan(at('Set points'))
  expect(at('fire risk')).toBeLessThan(at('Set points'))
  expect(at('Set the slides')).toBeLessThan(at('slide at'))
})

test('no table and no sheet is empty, and each row has a cell a column', () => {
  for (const sheet of sheets) {
    expect(sheet.blocks.length, sheet.head).toBeGreaterThan(0)
    for (const block of sheet.blocks)
      if (block.k === 'table') {
        expect(block.rows.length, sheet.head).toBeGreaterThan(0)
        for (const row of block.rows) expect(row.length, sheet.head).toBe(block.columns.length)
      }
  }
})

test('a box without a year has no sheet, and one that lacks something says what', () => {
  const none = sample('split', 2)
  expect(airSheets(none, builtBoxes(none))).toEqual([])
  const lacking: BookInput = {
    ...input,
    assessment: {
      ...input.assessment,
      findings: [
        { ...AIR_FINDINGS[0]!, code: 'air/missing', verdict: 'unknown', said: 'Nobody has said the latitude.', mends: [] },
      ],
      results: { ...input.assessment.results, air: null },
    },
  }
  const [only, ...others] = airSheets(lacking, builtBoxes(lacking))
  expect(others).toEqual([])
  expect(words(only)).toContain('Nobody has said the latitude.')
})

test('a year without frost or dew says so, and has no chain of reasons for it', () => {
  const dry = airSample(HOT)
  const year = dry.assessment.results.air!.boxes[0]!.ends
  expect(year.tight.worstNight).toBeNull()
  const night = headed('The wettest hours', airSheets(dry, builtBoxes(dry)))
  expect(words(night)).toContain('Nothing froze or settled')
  expect(night.blocks.some((b) => b.k === 'drawing')).toBe(false)
})

/** A mesh of 6 mm with 1 mm wire is open to (6/7)²; half of that goes with a season of dirt. */
test('the clear area of a vent is what is open through its mesh, clean and dirty', () => {
  const [low] = ventRows(input)
  expect(low!.clearM2.high).toBeCloseTo(0.09 * (6 / 7) ** 2, 12)
  expect(low!.clearM2.low).toBeCloseTo((0.09 * (6 / 7) ** 2) / 2, 12)
  expect(words(headed('Vent schedule'))).toContain('331 … 661')
})

test('summer and winter position stand with their months', () => {
  const vent = { use: 'vent', winterFrac: 0.25, winterMonths: [0, 1, 10, 11] } as const
  expect(positionWords(vent)).toEqual({ summer: 'open', winter: 'slide at 25\u202f%, November to February' })
  expect(positionWords({ ...vent, winterFrac: 0 }).winter).toBe('shut, November to February')
  expect(positionWords({ ...vent, winterFrac: 1 }).winter).toBe('open')
  expect(positionWords({ ...vent, winterMonths: null }).winter).toContain('in the cold months')
  expect(positionWords({ ...vent, winterMonths: [] }).winter).toContain('none is below freezing')
  expect(positionWords({ ...vent, use: 'fan' }).winter).toBe('as the fan runs')
})

test('months in a row are one stretch, over the turn of the year too', () => {
  expect(monthsSaid([11, 0, 1])).toBe('December to February')
  expect(monthsSaid([3])).toBe('April')
  expect(monthsSaid([2, 3, 8])).toBe('March to April, September')
  expect(monthsSaid(Array.from({ length: 12 }, (_, m) => m))).toBe('all year')
})

test('a vent says what it is for: low in, high out, the only one both ways', () => {
  const [low, high] = ventRows(input)
  expect(low!.what).toMatch(/^low: lets cool air in/)
  expect(high!.what).toMatch(/^high: lets warm and damp air out/)
  const one = {
    ...input,
    design: {
      ...input.design,
      builds: input.design.builds.map((b) => ({
        ...b,
        skin: { ...b.skin, openings: b.skin.openings.filter((o) => o.id !== 'vent high') },
      })),
    },
  }
  expect(ventRows(one)[0]!.what).toContain('the only one')
})

test('set points are said with their limits: a solar fan never runs at night', () => {
  const { air } = input.design.builds[0]!
  expect(heaterWords(air)).toBe(
    '500\u202fW, in the cabinet of the gear; on below 0\u202f°C; humidistat: on too while the gear is near the dew point',
  )
  const fan = { powerW: 45, solar: true, onAboveC: 28, byHumidity: true }
  expect(fanWords({ ...air, fan })).toMatch(/on above 28.*drier.*never runs at night/)
  expect(fanWords(air)).toBe('none')
})

test('welder and electrician get the vent schedule, the customer the year, and the licensed person all of it', () => {
  const book = contentOf(input)
  const heads = (reader: Parameters<typeof forReader>[1]): readonly string[] =>
    forReader(book, reader)
      .sheets.filter((s) => s.part === 'air')
      .map((s) => s.head)
  expect(heads('welder')).toEqual(['Vent schedule'])
  expect(heads('electrician')).toEqual([QUESTION_WORDS.air, 'The hottest hour', 'Vent schedule'])
  expect(heads('customer')).toContain('The year, hour by hour')
  expect(heads('licensed')).toEqual(book.sheets.filter((s) => s.part === 'air').map((s) => s.head))
  expect(heads('rigger')).toEqual([])
})

const NOT_ASKED = 'Not asked here:'

test('what measures buy stands where it was asked, with the design in its last row; elsewhere the book says how to ask', () => {
  const sheet = words(headed('What each measure buys'))
  expect(sheet).toContain('410\u202fUSD')
  for (const figure of [101, 707, 202, 315]) expect(sheet).toContain(String(figure))
  expect(sheet).toContain('As designed: Nothing of the air fails in 26 of 30 made years; the goal is 27')
  const of = (one: BookInput) => airSheets(one, builtBoxes(one))
  const { airRemedies: _none, ...without } = input
  expect(of(without).map((s) => s.head)).not.toContain('What each measure buys')
  expect(words(of(without)[0])).toMatch(/Not asked here: what each measure .*, and in how many of thirty made years .*--remedies/)
  // The years alone were asked.
  const years: Finding = { ...AIR_FINDINGS[0]!, code: 'air/thirty-years', subject: 'B1' }
  const asked = { ...without.assessment, findings: [...without.assessment.findings, years] }
  expect(words(of({ ...without, assessment: asked })[0])).not.toContain('thirty made years')
  expect(words(of({ ...input, assessment: asked })[0])).not.toContain(NOT_ASKED)
})

test('a table that was stopped before its stacks shows none, and no figure of the design', () => {
  const made = { ...input.airRemedies!.B1!, aloneYearsCount: 4, stackedYearsCount: 0 }
  const stopped = { ...input, airRemedies: { B1: made } }
  const sheet = airSheets(stopped, builtBoxes(stopped)).find((s) => s.head === 'What each measure buys')
  expect(sheet?.sub).toContain('mean of 4 years')
  expect(words(sheet)).not.toMatch(/707|on top of the other|As designed/)
})

test('workings carry the hand check beside the run', () => {
  const workings = contentOf(input).sheets.find((s) => s.part === 'air' && s.head.startsWith('Workings'))
  expect(words(workings)).toContain('crossCheck')
  expect(words(workings)).toContain('0.34')
})

test('the vent list holds one record a vent, numbers without unit', () => {
  const [head, ...rows] = ventsCsv(input).trim().split('\r\n')
  expect(rows).toHaveLength(2)
  expect(head).toContain('clear dirty cm2,clear clean cm2')
  expect(rows[0]).toContain('B1,vent low,vent,right,5430,612.5')
  expect(rows[0]).toContain(',331,661,6,yes,open,')
  expect(jobLists(input, []).map((f) => f.kind)).toContain('vents.csv')
  expect(jobLists(sample('split', 2), []).map((f) => f.kind)).not.toContain('vents.csv')
})

test('pictures of the year are among the drawings of the box, each with its title', () => {
  const files = drawingFiles(input, 'letter').filter((f) => f.drawing.startsWith('air-'))
  const names = files.map((f) => f.drawing)
  for (const name of [
    'air-year-map',
    'air-worst-night-reasons',
    'air-worst-night-week',
    'air-worst-night-faces',
    'air-worst-night-section',
  ])
    expect(names).toContain(name)
  expect(new Set(names).size).toBe(names.length)
  for (const file of files) expect(String(file.make()), file.drawing).toMatch(/^<svg /)
  expect(drawingFiles(sample('split', 2), 'letter').filter((f) => f.drawing.startsWith('air-'))).toEqual([])
})

test('on Letter and on A4 the sheets break at the same places, each picture on its sheet', () => {
  const book = contentOf(input)
  const own = { ...book, sheets: book.sheets.filter((s) => s.part === 'air') }
  const letter = placesOf(bookFiles(own, { paper: 'letter' }))
  expect(placesOf(bookFiles(own, { paper: 'a4' }))).toEqual(letter)
  expect(letter.length).toBeGreaterThan(own.sheets.length - 1)
})
