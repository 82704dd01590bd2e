import { useId, useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { RoomFact } from '../worker/protocol.ts'

/** What a question rests on that nobody told: in its edge, with who can tell, and a field to tell it. */
export function RoomFacts({ facts }: { readonly facts: readonly RoomFact[] }) {
  return (
    <ul className="facts-told">
      {facts.map((fact) => (
        <FactLine key={`${fact.path} ${fact.said}`} fact={fact} />
      ))}
    </ul>
  )
}

function FactLine({ fact }: { readonly fact: RoomFact }) {
  const { session } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const id = useId()
  const [open, setOpen] = useState(false)
  const [said, setSaid] = useState('')
  const path = documentSteps(fact.path)
  return (
    <li>
      {fact.firm === 'unknown' ? (
        <span>
          <span className="assumed empty">{'\u2003'}</span> {words.verdicts.unknown}: {sentence(fact.said, units)}
        </span>
      ) : (
        <span>
          <span className="assumed">{sentence(fact.said, units)}</span> <small>{words.firm.assumed}</small>
        </span>
      )}
      <small>
        {fact.source === '' ? '' : `${sentence(fact.source, units)}. `}
        {words.tellers[fact.teller]}
      </small>
      {path === null ? null : open ? (
        <form
          className="why-asked"
          onSubmit={(event) => {
            event.preventDefault()
            if (said.trim() === '') return setOpen(false)
            void session
              .act(words.tag.tellAct(fact.path, said.trim()), [{ path, value: plainOf(said.trim()) }])
              .then((kept) => kept && setOpen(false))
          }}
        >
          <label htmlFor={id}>{words.tag.tellWhat(fact.path)}</label>
          <input id={id} value={said} onChange={(event) => setSaid(event.target.value)} />
          <button type="submit" className="word">
            {words.tag.tell}
          </button>
        </form>
      ) : (
        <button type="button" className="word" aria-label={`${words.tag.tell}: ${fact.path}`} onClick={() => setOpen(true)}>
          {words.tag.tell}
        </button>
      )}
    </li>
  )
}

/** `facts.supply.offers[0].earthing` step by step; null for what is no place in the document. */
function documentSteps(path: string): readonly (string | number)[] | null {
  const steps = path.split('.').flatMap((part): readonly (string | number)[] => {
    const [, name, index] = /^([\w-]+)(?:\[(\d+)\])?$/.exec(part) ?? []
    if (name === undefined) return []
    return index === undefined ? [name] : [name, Number(index)]
  })
  return steps.length < path.split('.').length ? null : steps
}

/** `yes`, `true` and bare numbers are themselves; all else is a text that the document's reader understands or refuses in words. */
function plainOf(said: string): string | number | boolean {
  if (said === 'true' || said === 'yes') return true
  if (said === 'false' || said === 'no') return false
  return /^-?\d+(\.\d+)?$/.test(said) ? Number(said) : said
}
