import type { BookOptions, Reader } from '@plugstead/book'
import { useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import { Engine, EngineFault, Stopped, startTypesetter } from '../engine/client.ts'
import { saveAsFile } from '../files.ts'
import { useWords } from '../words/index.ts'

export type ReaderWord = Reader | 'all'

/** What is to be printed, and how. */
export interface Print {
  readonly reader: ReaderWord
  readonly paper: 'letter' | 'a4'
  readonly check: boolean
}

export const printOptions = ({ reader, paper, check }: Print): BookOptions => ({
  paper,
  checkPrint: check,
  ...(reader === 'all' ? {} : { reader }),
})

/** One for the tab: what was loaded once stays. */
const typesetter = new Engine(startTypesetter)

/** `make` sets what `read` gives and saves it under its name; `said`: what came of it. */
export function useTypesetter(
  kind: string,
  read: (engine: Engine) => Promise<ReadonlyMap<string, string> | null>,
): { readonly make: () => Promise<void>; readonly said: string } {
  const { engine } = useBench()
  const { session, now } = useJob()
  const words = useWords()
  const [said, setSaid] = useState('')
  const make = async (): Promise<void> => {
    setSaid('')
    try {
      const pdf = await session.beside(
        async (watch) => {
          const files = await read(engine)
          return files === null ? null : typesetter.call('typeset', files, watch)
        },
        () => typesetter.stop(),
      )
      if (pdf === null) return setSaid(words.paper.absent)
      const name = `${now.file.replace(/\.(ya?ml|json)$/i, '')}.${kind}.pdf`
      saveAsFile(name, new Uint8Array(pdf), 'application/pdf')
      setSaid(words.paper.made(name, pagesOf(pdf)))
    } catch (thrown) {
      setSaid(
        thrown instanceof Stopped
          ? words.paper.stopped
          : words.states.fault(thrown instanceof EngineFault ? thrown.code : String(thrown)),
      )
    }
  }
  return { make, said }
}

/** Of the document's page tree, whose root counts all pages. */
function pagesOf(pdf: Uint8Array): number {
  const text = new TextDecoder('latin1').decode(pdf)
  return Math.max(0, ...[...text.matchAll(/\/Type \/Pages[^>]*?\/Count (\d+)/g)].map((m) => Number(m[1])))
}
