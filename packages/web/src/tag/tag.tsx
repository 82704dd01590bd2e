import type { ReactNode } from 'react'
import { useWords } from '../words/index.ts'

/** Manila, two corners cut, an eyelet for the wire. `wired`: it hangs on a thing. */
export function Tag({
  name,
  of,
  at,
  children,
  wired = true,
}: {
  readonly name: string
  readonly of?: string
  readonly at?: string
  readonly children: ReactNode
  readonly wired?: boolean
}) {
  const words = useWords()
  return (
    <section className={wired ? 'tag wired' : 'tag'} aria-label={words.tag.of(name)} tabIndex={-1}>
      <div className="manila">
        <h2>{name}</h2>
        {of === undefined && at === undefined ? null : (
          <p className="at">
            {of}
            {of !== undefined && at !== undefined ? ', ' : ''}
            {at}
          </p>
        )}
        {children}
      </div>
      {wired ? (
        <svg className="eyelet" width="60" height="60" aria-hidden="true">
          <path d="M44 0 0 44" />
          <circle cx="37" cy="36" r="10" />
          <circle cx="37" cy="36" r="4.5" />
        </svg>
      ) : null}
    </section>
  )
}
