import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { RoomFact } from '../worker/protocol.ts'
import { Tell } from './tell.tsx'

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
  const words = useWords()
  const { units } = usePreferences()
  return (
    <li>
      {fact.firm === 'unknown' ? (
        <span>
          <span className="assumed unsaid">{'\u2003'}</span> {words.verdicts.unknown}: {sentence(fact.said, units)}
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
      <Tell path={fact.path} what={words.tag.insteadOf(sentence(fact.said, units))} />
    </li>
  )
}
