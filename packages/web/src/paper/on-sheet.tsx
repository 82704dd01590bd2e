import type { Inline as Words } from '@plugstead/book/working'
import type { Verdict } from '@plugstead/engine/kernel'
import { Inline } from '../marks/inline.tsx'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import { mm, usePaper } from './on-paper.ts'

/** Words on paper: a working that they rest on is named by its sheet. */
export function On({ of }: { readonly of: Words }) {
  const { page } = usePaper()
  const words = useWords()
  return <Inline of={of} sheetOf={(working) => page.partOf[working] ?? words.paper.wholeBook} />
}

export function Head({
  title,
  note,
  verdict,
  outline = false,
}: {
  readonly title: Words
  readonly note: Words
  readonly verdict: Verdict | 'not built' | null
  readonly outline?: boolean
}) {
  const words = useWords()
  return (
    <div className="block-head">
      <h3>
        <On of={title} />{' '}
        <span>
          <On of={note} />
        </span>
      </h3>
      {verdict === null ? null : verdict === 'not built' ? (
        <span>{words.verdicts[verdict]}</span>
      ) : (
        <b className={verdict === 'fails' && !outline ? 'said-fails' : ''}>
          <Mark of={verdict} /> {words.verdicts[verdict]}
        </b>
      )}
    </div>
  )
}

export function Widths({ of }: { readonly of: readonly number[] }) {
  return (
    <colgroup>
      {of.map((width, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
        <col key={i} style={{ width: mm(width) }} />
      ))}
    </colgroup>
  )
}
