import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { NodeCompiler, type NodeTypstDocument } from '@myriaddreamin/typst-ts-node-compiler'
import { Fault } from '@plugstead/engine/kernel'
import { bookFiles } from './book-files.ts'
import type { BookContent, BookOptions } from './content.ts'
import { fontFiles } from './fonts.ts'

const FOLDER = join(dirname(fileURLToPath(import.meta.url)), '..', 'template')
const MAIN = readFileSync(join(FOLDER, 'book.typ'), 'utf8')

const KEPT_BOOKS = 4

let compiler: NodeCompiler | undefined

/**
 * The job book as PDF: tagged, fonts inside, no date unless given. Same content and options, same bytes.
 * @throws Fault `book/typeset` when the type setter has anything to say
 */
export function bookPdf(book: BookContent, options: BookOptions): Uint8Array {
  return typeset(bookFiles(book, options))
}

/**
 * Sets the template with these files (by their path from the template's root) and gives the PDF.
 * Any warning is a fault: an unknown font family is only a warning to the type setter, and would print in another face.
 * @throws Fault `book/typeset`
 */
export function typeset(files: ReadonlyMap<string, string>): Uint8Array {
  return withCompiler(files, MAIN, (c, document) => c.pdf(document))
}

/** Where a sheet begins or a working stands. */
export interface Place {
  /** Head of the sheet, or id of the working. */
  readonly of: string
  readonly page: number
  readonly yPt: number
}

/** Places of the sheets and workings on paper, for tests: what moved between two prints. */
export function placesOf(files: ReadonlyMap<string, string>): readonly Place[] {
  const main = `${MAIN}
#context [#metadata(query(metadata).filter(m => type(m.value) == dictionary).map(m => (
  of: m.value.at("working", default: m.value.at("head", default: "")), page: m.location().page(), yPt: m.location().position().y.pt())))<places>]`
  return withCompiler(
    files,
    main,
    (c, document) => c.query(document, { selector: '<places>', field: 'value' })[0] as readonly Place[],
  )
}

function withCompiler<T>(
  files: ReadonlyMap<string, string>,
  main: string,
  use: (c: NodeCompiler, document: NodeTypstDocument) => T,
): T {
  compiler ??= NodeCompiler.create({ workspace: FOLDER, fontArgs: [{ fontBlobs: [...fontFiles()] }] })
  compiler.resetShadow()
  for (const [path, words] of files) compiler.mapShadow(join(FOLDER, path), Buffer.from(words))
  const run = compiler.compile({ mainFileContent: main, resetRead: true })
  const messages = [...messagesOf(run.takeDiagnostics()), ...messagesOf(run.takeWarnings())]
  if (messages.length > 0 || run.result === null) throw new Fault('book/typeset', messages.join('; ') || 'no document')
  const made = use(compiler, run.result)
  // What this book shares with the last few is kept; the rest would only grow in a program that stays up.
  compiler.evictCache(KEPT_BOOKS)
  return made
}

function messagesOf(said: { readonly shortDiagnostics: readonly unknown[] } | null | undefined): readonly string[] {
  return (said?.shortDiagnostics ?? []).map((d) => String((d as { message?: unknown }).message ?? d))
}
