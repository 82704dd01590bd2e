import fc from 'fast-check'
import { expect, test } from 'vitest'
import { csvText } from './csv.ts'
import { table } from './table.ts'
import { charCount, labelled, wrapped } from './wrap.ts'

const widest = (text: string) => Math.max(...text.split('\n').map(charCount))

test('no wrapped line is wider than asked, and no character is lost', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'grapheme', maxLength: 200 }),
      fc.integer({ min: 20, max: 80 }),
      fc.integer({ min: 0, max: 8 }),
      (text, width, hang) => {
        const lines = wrapped(text, { width, hang })
        expect(widest(lines)).toBeLessThanOrEqual(width)
        const bare = (words: string) => words.replace(/[ \t\n\r]/g, '')
        expect(bare(lines)).toBe(bare(text))
      },
    ),
    { seed: 7, numRuns: 300 },
  )
})

test('a word longer than the line is cut, not let over the edge', () => {
  expect(wrapped('x'.repeat(25), { width: 10 })).toBe(`${'x'.repeat(10)}\n${'x'.repeat(10)}\n${'x'.repeat(5)}`)
})

test('a label too long for its column stands above its text', () => {
  expect(labelled('found', 'words', 8, 2)).toBe('  found   words')
  expect(labelled('--a-long-label', 'words', 8)).toBe('--a-long-label\n        words')
})

test('a table that is too wide gives way in its wrapping column', () => {
  const text = table(
    [{ head: 'tag' }, { head: 'said', wraps: true }, { head: 'A', side: 'right' }],
    [['G1', 'words '.repeat(40), '12.5']],
  )
  expect(widest(text)).toBeLessThanOrEqual(80)
  expect(text).toContain('12.5')
  expect(text.match(/words/g)).toHaveLength(40)
})

test('a list is quoted where a comma, quote or line break stands in it (RFC 4180)', () => {
  expect(
    csvText(
      ['a', 'b'],
      [
        ['1,2', 'say "x"'],
        [3, 'two\nlines'],
      ],
    ),
  ).toBe('a,b\r\n"1,2","say ""x"""\r\n3,"two\nlines"\r\n')
})
