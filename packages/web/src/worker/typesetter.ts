import './no-eval.ts'
import './functions-by-name.ts'
import plate400 from '@expo-google-fonts/barlow-semi-condensed/400Regular/BarlowSemiCondensed_400Regular.ttf?url'
import plate600 from '@expo-google-fonts/barlow-semi-condensed/600SemiBold/BarlowSemiCondensed_600SemiBold.ttf?url'
import math400 from '@expo-google-fonts/noto-sans-math/400Regular/NotoSansMath_400Regular.ttf?url'
import text400 from '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf?url'
import italic400 from '@expo-google-fonts/source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf?url'
import text600 from '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf?url'
import init, { type TypstCompiler, TypstCompilerBuilder, TypstFontResolverBuilder } from '@myriaddreamin/typst-ts-web-compiler'
import wasm from '@myriaddreamin/typst-ts-web-compiler/wasm?url'
import template from '@plugstead/book/book.typ?raw'
import { Fault } from '@plugstead/engine/kernel'
import type { FromWorker, ToWorker } from './protocol.ts'
import { Absent, keepOnly, kept } from './typesetter-store.ts'

/** The order in which the terminal gives them. */
const FONTS = [text400, italic400, text600, plate400, plate600, math400]
const PIECES = FONTS.length + 3

const post = (message: FromWorker): void => self.postMessage(message)

let compiler: Promise<TypstCompiler> | null = null

/** Loads the typesetter and the faces it sets in, once for a worker: from the device where it is there, else from our own address. */
async function load(begun: () => void): Promise<TypstCompiler> {
  begun()
  await init({ module_or_path: await kept(wasm) })
  const fonts = new TypstFontResolverBuilder()
  for (const font of FONTS) {
    begun()
    fonts.add_raw_font(new Uint8Array(await (await kept(font)).arrayBuffer()))
  }
  await keepOnly([wasm, ...FONTS])
  const builder = new TypstCompilerBuilder()
  builder.set_dummy_access_model()
  const made = await builder.build()
  made.set_fonts(await fonts.build())
  return made
}

/** Numbers by which the compiler is told what to answer. */
const PAGED = 0
const PDF = 1
const WORDS_OF_FAULTS = 3

interface Said {
  readonly diagnostics?: readonly { readonly message: string }[]
  readonly result?: Uint8Array
}

/** As in the terminal, any warning is a fault: an unknown face is only a warning to the compiler. */
function pdfOf(made: TypstCompiler, files: ReadonlyMap<string, string>, begun: () => void): Uint8Array {
  made.reset_shadow()
  const bytes = new TextEncoder()
  for (const [path, words] of files) made.map_shadow(`/${path}`, bytes.encode(words))
  made.add_source('/book.typ', template)
  const world = made.snapshot('/', '/book.typ', null)
  try {
    begun()
    const compiled = world.compile(PAGED, WORDS_OF_FAULTS) as Said
    begun()
    const faulty = (said: Said): boolean => (said.diagnostics ?? []).length > 0
    const pdf = faulty(compiled) ? compiled : (world.get_artifact(PDF, WORDS_OF_FAULTS) as Said)
    if (faulty(pdf) || pdf.result === undefined)
      throw new Fault('book/typeset', (pdf.diagnostics ?? []).map((d) => d.message).join('; ') || 'no document')
    return pdf.result
  } finally {
    world.free()
  }
}

self.addEventListener('message', async ({ data }: MessageEvent<ToWorker>) => {
  const { id } = data
  if (data.call !== 'typeset') return
  let begunCount = 0
  const begun = () => post({ id, kind: 'work', begunCount: ++begunCount, knownCount: PIECES })
  try {
    compiler ??= load(begun)
    const made = await compiler
    begunCount = FONTS.length + 1
    post({ id, kind: 'answer', answer: pdfOf(made, data.asked, begun) })
  } catch (thrown) {
    // What did not come is asked for again the next time.
    compiler = null
    if (thrown instanceof Absent) return post({ id, kind: 'answer', answer: null })
    const code = thrown instanceof Fault ? thrown.code : 'web/typesetter'
    post({ id, kind: 'fault', code, said: thrown instanceof Error ? thrown.message : String(thrown) })
  }
})
