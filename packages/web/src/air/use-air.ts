import { useEffect, useRef, useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import type { Calls } from '../worker/protocol.ts'

type AirCall = 'airRoom' | 'airMap' | 'airHour' | 'airReasons'

export interface Heard<T> {
  readonly answer: T
  /** It is of what was asked before: what is asked now is still being worked out. */
  readonly old: boolean
}

/**
 * What the engine says of the air of the job that is open. The last answer stands until the next one is there. One call of a kind runs at a
 * time: whoever runs through the hours asks only for the one where he stops. `n`: counts trials, so that what was tried is asked for anew.
 */
export function useAir<K extends AirCall>(
  call: K,
  asked: Calls[K]['asked'] | null,
  n = 0,
): Heard<Calls[K]['answer']> | undefined {
  const { engine } = useBench()
  const { now } = useJob()
  const [heard, setHeard] = useState<{ readonly key: string; readonly answer: Calls[K]['answer'] }>()
  const key = asked === null || now.round === 0 ? '' : JSON.stringify([asked, n, now.round])
  const wanted = useRef(key)
  const running = useRef(false)
  wanted.current = key
  useEffect(() => {
    const next = (): void => {
      const own = wanted.current
      if (own === '' || running.current) return
      running.current = true
      engine.call(call, JSON.parse(own)[0]).then(
        (answer) => {
          running.current = false
          if (wanted.current !== '') setHeard({ key: own, answer })
          if (wanted.current !== own) next()
        },
        () => {
          // A stop or a fault is said where the job's own answer stands.
          running.current = false
        },
      )
    }
    if (key !== heard?.key) next()
  }, [engine, call, key, heard?.key])
  useEffect(
    () => () => {
      wanted.current = ''
    },
    [],
  )
  return heard === undefined ? undefined : { answer: heard.answer, old: heard.key !== key }
}
