import type { Span, Inline as Words } from '@plugstead/book/working'
import { Fragment } from 'react'
import { Mark } from './mark.tsx'

/** Words in their edges and types, as the book sets them. `unfold`: called with the id of another working that a line rests on. */
export function Inline({
  of,
  unfold,
  sheetOf,
}: {
  readonly of: Words
  readonly unfold?: (working: string) => void
  /** On paper: the sheet on which a working stands, in place of its name. */
  readonly sheetOf?: (working: string) => string
}) {
  if (typeof of === 'string') return <>{of}</>
  return of.map((span, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: spans of one text never change places
    <Fragment key={i}>
      <One span={span} {...(unfold === undefined ? {} : { unfold })} {...(sheetOf === undefined ? {} : { sheetOf })} />
    </Fragment>
  ))
}

function One({
  span,
  unfold,
  sheetOf,
}: {
  readonly span: Span
  readonly unfold?: (working: string) => void
  readonly sheetOf?: (working: string) => string
}) {
  if (typeof span === 'string') return <>{span}</>
  const [kind, words] = span
  switch (kind) {
    case 'i':
      return <i>{words}</i>
    case 'sub':
      return <sub>{words}</sub>
    case 'sup':
      return <sup>{words}</sup>
    case 'b':
      return <b>{words}</b>
    case 'told':
    case 'assumed':
    case 'bounded':
      return <span className={kind}>{words}</span>
    case 'pinned':
      return (
        <>
          <Mark of="punch" /> {words}
        </>
      )
    case 'mark':
      return words === 'holds' || words === 'tight' || words === 'fails' || words === 'unknown' ? <Mark of={words} /> : null
    case 'sheet':
      return unfold === undefined ? (
        (sheetOf?.(words) ?? words)
      ) : (
        <button type="button" className="unfolds" onClick={() => unfold(words)}>
          {words}
        </button>
      )
    case 'fails':
      return <span className="said-fails">{words}</span>
    case 'boxed':
      return <span className="said-outline">{words}</span>
    case 'sign':
    case 'quiet':
      return <span className="quiet">{words}</span>
    case 'br':
      return <br />
  }
}
