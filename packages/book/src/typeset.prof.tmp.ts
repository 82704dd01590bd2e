import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler'
import { Fault } from '@plugstead/engine/kernel'
import { fontFiles } from './fonts.ts'

const FOLDER = join(dirname(fileURLToPath(import.meta.url)), '..', 'template')
const MAIN = readFileSync(join(FOLDER, 'book.typ'), 'utf8')

let compiler: NodeCompiler | undefined

/**
 * Sets the template with these files (by their path from the template's root) and gives the PDF.
 * Any warning is a fault: an unknown font family is only a warning to the type setter, and would print in another face.
 * @throws Fault `book/typeset`
 */
export function typeset(files: ReadonlyMap<string, Buffer>): Uint8Array {
  compiler ??= NodeCompiler.create({ workspace: FOLDER, fontArgs: [{ fontBlobs: [...fontFiles()] }] })
  compiler.resetShadow()
  for (const [path, bytes] of files) compiler.mapShadow(join(FOLDER, path), bytes)
  const t0 = performance.now()
  const run = compiler.compile({ mainFileContent: MAIN, resetRead: true })
  const messages = [...messagesOf(run.takeDiagnostics()), ...messagesOf(run.takeWarnings())]
  if (messages.length > 0 || run.result === null) throw new Fault('book/typeset', messages.join('; ') || 'no document')
  const t1 = performance.now()
  const out = compiler.pdf(run.result)
  console.log('compile', (t1-t0).toFixed(0), 'pdf', (performance.now()-t1).toFixed(0))
  return out
}

function messagesOf(said: { readonly shortDiagnostics: readonly unknown[] } | null | undefined): readonly string[] {
  return (said?.shortDiagnostics ?? []).map((d) => String((d as { message?: unknown }).message ?? d))
}
