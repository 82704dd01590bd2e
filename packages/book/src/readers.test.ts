import { expect, test, vi } from 'vitest'
import { sample } from '../test/sample.ts'
import { bookContent } from './book-content.ts'
import { bookFiles } from './book-files.ts'
import type { Reader } from './content.ts'
import { forReader, READER_WORDS, READERS } from './readers.ts'
import { bookPdf, placesOf } from './typeset.ts'

vi.setConfig({ testTimeout: 60_000 })

const s = sample('split', 4)
const book = bookContent(s)
const heads = (reader: Reader): readonly string[] => forReader(book, reader).sheets.map((sheet) => sheet.head)

test('each reader has what the trade works from, and the cautions', () => {
  for (const reader of READERS) {
    expect(heads(reader)).toContain(book.title)
    expect(heads(reader)).toContain('Confirm in the book')
  }
  expect(heads('welder')).toContain('Cutting')
  expect(heads('welder')).not.toContain('Wires to cut and pull')
  expect(heads('electrician')).toContain('Wires to cut and pull')
  expect(heads('electrician')).toContain('Fault levels, and what trips')
  expect(heads('rigger')).not.toContain('Fault levels, and what trips')
  expect(heads('licensed')).toEqual(book.sheets.map((sheet) => sheet.head))
})

test('every sheet but the derivations is in the set of somebody who works from it, or is the desk’s', () => {
  const works = new Set(READERS.filter((r) => r !== 'licensed').flatMap(heads))
  const left = book.sheets.map((sheet) => sheet.head).filter((head) => !works.has(head) && !/^(Further w|W)orkings/.test(head))
  expect(left).toEqual(['What do we buy, cut and do?', 'Hours by trade'])
})

test('a set is set: its reader stands in the title block, its sheets are counted, nothing else moves', () => {
  for (const reader of READERS) {
    const files = bookFiles(book, { paper: 'letter', reader })
    expect(files.get('book.json')).toContain(`for the ${READER_WORDS[reader]}`)
    expect(placesOf(files).filter(({ of }) => heads(reader).includes(of)).length).toBeGreaterThanOrEqual(heads(reader).length)
  }
  expect(bookPdf(book, { paper: 'a4', reader: 'rigger' }).length).toBeLessThan(bookPdf(book, { paper: 'a4' }).length)
})
