import type { BookContent, Reader, Sheet } from './content.ts'

/** Who gets a set of sheets of their own, in the words of the title block. */
export const READER_WORDS: Readonly<Record<Reader, string>> = {
  licensed: 'licensed person',
  welder: 'welder',
  electrician: 'electrician',
  rigger: 'rigger',
  customer: 'customer',
}
export const READERS = Object.keys(READER_WORDS) as readonly Reader[]
export const isReader = (word: unknown): word is Reader => READERS.some((reader) => reader === word)

/** In every set: who decides and the cautions, what is in it, what it rests on, how its marks read. */
const ALWAYS = ['cover', 'contents', 'assumed', 'confirm', 'symbols']

/** Parts of the book that a reader works from. The licensed person follows all of it but what it costs. */
const PARTS: Readonly<Record<Exclude<Reader, 'licensed'>, readonly string[]>> = {
  welder: ['changes', 'fit', 'skin'],
  electrician: ['answers', 'changes', 'needs', 'supply', 'circuits', 'reach', 'faults', 'fit'],
  rigger: ['haul'],
  customer: ['answers', 'changes', 'needs', 'supply', 'dates', 'fit', 'haul'],
}

/** The sheets of one reader, in the order of the book. Derivations go to whoever checks them. */
export function forReader(book: BookContent, reader: Reader): BookContent {
  return { ...book, sheets: book.sheets.filter((sheet) => isFor(sheet, reader)) }
}

function isFor(sheet: Sheet, reader: Reader): boolean {
  if (reader === 'licensed') return sheet.part !== 'money'
  if (sheet.blocks.length > 0 && sheet.blocks.every((b) => b.k === 'working' || b.k === 'family')) return false
  return sheet.readers?.includes(reader) ?? [...ALWAYS, ...PARTS[reader]].includes(sheet.part)
}
