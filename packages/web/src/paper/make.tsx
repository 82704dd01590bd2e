import { useJob } from '../bench.ts'
import { useWords } from '../words/index.ts'

/** The one act of a page of paper, and what became of it. Nothing is made of an answer that is old or only tried. */
export function MakePdf({ make, said }: { readonly make: () => Promise<void>; readonly said: string }) {
  const { now } = useJob()
  const words = useWords()
  return (
    <p className="make">
      <button type="button" className="one-act" disabled={now.stale || now.beside !== null} onClick={() => void make()}>
        {words.paper.make}
      </button>
      <span role="status">{said}</span>
    </p>
  )
}
