import { useEffect, useState } from 'react'
import { useBench, useJob } from './bench.ts'
import type { Calls, EngineCall } from './worker/protocol.ts'

/**
 * What the engine answers about the job that is open. Asked again when the job was answered anew or something else is asked; until then the
 * old answer stays. `null`: nothing is asked.
 */
export function useAsked<K extends Exclude<EngineCall, 'open' | 'heed' | 'judge' | 'standing'>>(
  call: K,
  asked: Calls[K]['asked'] | null,
): Calls[K]['answer'] | undefined {
  const { engine } = useBench()
  const { now } = useJob()
  const [answer, setAnswer] = useState<{ readonly key: string; readonly answer: Calls[K]['answer'] }>()
  const key = asked === null ? '' : JSON.stringify([call, asked])
  useEffect(() => {
    if (key === '' || now.round === 0) return
    let left = false
    engine
      .call(call, JSON.parse(key)[1])
      .then((found) => {
        if (!left && found !== null) setAnswer({ key, answer: found })
      })
      // A stop or a fault is said where the job's own answer stands.
      .catch(() => {})
    return () => {
      left = true
    }
  }, [engine, call, key, now.round])
  return answer !== undefined && sameSubject(answer.key, key) ? answer.answer : undefined
}

/** An old drawing may stand while the new size is drawn; the facts of another thing may not. */
const sameSubject = (had: string, key: string): boolean =>
  had === key || (/^\["(sheet|room|pair)"/.test(key) && subject(had) === subject(key))

/** What is asked, without the room there is for it. */
function subject(key: string): string {
  const [call, asked] = JSON.parse(key) as [string, object]
  return JSON.stringify([call, { ...asked, widthPx: 0, heightPx: 0 }])
}
