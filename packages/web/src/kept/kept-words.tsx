import { useWords } from '../words/index.ts'
import { useKeptApp } from './kept.ts'

/** A quiet word of the header: the server did not answer, all that is here is of this device. */
export function AwayWord() {
  const words = useWords()
  return useKeptApp().away ? <p className="away">{words.states.offline}</p> : null
}

/** The strip of a page whose build is no longer the one that is kept. */
export function OlderStrip() {
  const words = useWords()
  if (!useKeptApp().older) return null
  return (
    <p className="strip" role="alert">
      {words.states.older}
      <button type="button" onClick={() => window.location.reload()}>
        {words.states.openAnew}
      </button>
    </p>
  )
}
