import { worst } from '@plugstead/engine/kernel'
import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { usePreferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import type { ThingLine } from '../worker/protocol.ts'
import type { Hand } from './hand.ts'
import { handWords, mendWords } from './in-words.ts'

/** Under the drawing: what is in the hand and what it comes to; else what the chosen thing clashes with. */
export function Foot({
  hand,
  chosen,
  acting,
  put,
  leave,
}: {
  readonly hand: Hand
  readonly chosen: ThingLine | null
  /** It was taken by a word or a key: a touch or enter puts it down. */
  readonly acting: boolean
  readonly put: () => void
  readonly leave: () => void
}) {
  const words = useWords()
  const { units } = usePreferences()
  const now = useSyncExternalStore(hand.subscribe, hand.now)
  const verdict = now === null || now.reach === null || now.reach.length === 0 ? null : worst(now.reach.map((r) => r.verdict))
  const clashes = chosen?.clashes ?? []
  return (
    <div className="sheet-foot">
      {now === null ? (
        clashes.length === 0 ? null : (
          <p>
            <Mark of="fails" />{' '}
            {clashes
              .map(({ against, byMm }) => words.move.clash(chosen?.letters ?? '', against, shown(Math.ceil(byMm), 'mm', units)))
              .join(' ')}
          </p>
        )
      ) : (
        <p className={now.fresh && !now.put ? 'reading' : 'reading quiet'}>
          {verdict === null ? null : <Mark of={verdict} />} <b>{handWords(now, words, units).join(', ')}</b>{' '}
          <span>{mendWords(now, words, units)}</span>
        </p>
      )}
      {acting && now !== null && !now.put ? (
        <span className="foot-acts">
          <span className="quiet">{now.moving.kind === 'thing' ? words.move.how : words.move.howMachine}</span>
          <button type="button" className="one-act" onClick={put}>
            {words.move.put}
          </button>
          <button type="button" className="word" onClick={leave}>
            {words.move.leave}
          </button>
        </span>
      ) : null}
      <Told hand={hand} />
    </div>
  )
}

const QUIET_MS = 400

/** For whoever does not see it: where it is once the hand rests, and at once when the verdict turns. */
function Told({ hand }: { readonly hand: Hand }) {
  const words = useWords()
  const { units } = usePreferences()
  const now = useSyncExternalStore(hand.subscribe, hand.now)
  const [said, setSaid] = useState('')
  const last = useRef<string | null>(null)
  const line = now === null ? '' : handWords(now, words, units).join(', ')
  const verdict = now === null || now.reach === null || now.reach.length === 0 ? null : worst(now.reach.map((r) => r.verdict))
  useEffect(() => {
    if (verdict !== null && last.current !== null && verdict !== last.current) setSaid(line)
    last.current = verdict
    const timer = setTimeout(() => setSaid(line), QUIET_MS)
    return () => clearTimeout(timer)
  }, [line, verdict])
  return (
    <p className="spoken" role="status">
      {said}
    </p>
  )
}
