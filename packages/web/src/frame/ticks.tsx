import { useEffect, useState } from 'react'
import { useJob } from '../bench.ts'
import { useWords } from '../words/index.ts'

const QUIET_MS = 500

/** Work over half a second: ticks along the rule's lower edge that fill by counted work, and *Stop*. */
export function Ticks() {
  const { session, now } = useJob()
  const words = useWords()
  const [shown, setShown] = useState(false)
  const work = now.work ?? now.beside
  const working = work !== null
  useEffect(() => {
    if (!working) return setShown(false)
    const timer = setTimeout(() => setShown(true), QUIET_MS)
    return () => clearTimeout(timer)
  }, [working])
  if (now.stopped && now.beside === null)
    return (
      <p className="ticks">
        <span>{words.rule.stopped}</span>
        <button type="button" onClick={() => session.again()}>
          {words.rule.again}
        </button>
      </p>
    )
  if (work === null || !shown) return null
  const { begunCount, knownCount } = work
  return (
    <p className="ticks" role="status">
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        {Array.from({ length: 50 }, (_, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: ticks of a rule never change places
            key={i}
            className={i < (knownCount === 0 ? 0 : (begunCount / knownCount) * 50) ? 'full' : ''}
            d={`M${i * 2 + 1} 0V6`}
          />
        ))}
      </svg>
      <span>{now.work === null ? words.paper.work(begunCount, knownCount) : words.rule.work(begunCount, knownCount)}</span>
      <button type="button" onClick={() => session.stop()}>
        {words.rule.stop}
      </button>
    </p>
  )
}
