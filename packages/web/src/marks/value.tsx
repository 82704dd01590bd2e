import { usePreferences } from '../hands/preferences.ts'
import { shown, shownSpan } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { Fact } from '../worker/protocol.ts'
import { Mark } from './mark.tsx'

/** A value in the edge that tells how firm it is, and the word for it. */
export function Value({ fact }: { readonly fact: Fact }) {
  const { units } = usePreferences()
  const words = useWords()
  const value = shown(fact.value, fact.unit, units)
  switch (fact.firm) {
    case 'bounded':
      return (
        <>
          <span className="bounded">{shownSpan(fact.low ?? Number.NaN, Number(fact.value), fact.unit, units)}</span>{' '}
          <small>{words.firm.bounded}</small>
        </>
      )
    case 'told':
      return (
        <>
          <span className="told">{value}</span> <small>{words.firm.told}</small>
        </>
      )
    case 'assumed':
      return (
        <>
          <span className="assumed">{value}</span> <small>{words.firm.assumed}</small>
        </>
      )
    case 'pinned':
      return (
        <>
          <Mark of="punch" /> {value}
        </>
      )
    case 'worked out':
      return <>{value}</>
  }
}
