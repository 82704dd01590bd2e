import { useEffect, useRef, useState } from 'react'
import { useWords } from '../words/index.ts'
import type { ThingLine } from '../worker/protocol.ts'

/** Find a thing by its letters: enter chooses the first that fits, esc leaves. */
export function Find({
  things,
  choose,
  done,
}: {
  readonly things: readonly ThingLine[]
  readonly choose: (id: string) => void
  readonly done: () => void
}) {
  const words = useWords()
  const [typed, setTyped] = useState('')
  const [asked, setAsked] = useState(false)
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => field.current?.focus(), [])
  const found = foundBy(things, typed)
  return (
    <form
      className="find"
      onSubmit={(event) => {
        event.preventDefault()
        const [first] = found
        if (first === undefined) return setAsked(true)
        choose(first.id)
        done()
      }}
    >
      <label>
        {words.sheet.find}
        <input
          ref={field}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return
            event.stopPropagation()
            done()
          }}
        />
      </label>
      <span className="quiet" role="status">
        {typed === ''
          ? ''
          : found.length === 0
            ? asked
              ? words.sheet.noSuch(typed)
              : ''
            : found
                .slice(0, 6)
                .map((t) => t.letters)
                .join(', ')}
      </span>
    </form>
  )
}

/** Letters that begin so first, then those that hold it. */
export function foundBy(things: readonly ThingLine[], typed: string): readonly ThingLine[] {
  const word = typed.trim().toLowerCase()
  if (word === '') return []
  const begins = things.filter((t) => t.letters.toLowerCase().startsWith(word))
  return [...begins, ...things.filter((t) => !begins.includes(t) && t.letters.toLowerCase().includes(word))]
}
