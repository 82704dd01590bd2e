import { useCallback, useEffect, useRef, useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import { type Engine, Stopped } from '../engine/client.ts'
import type { LoggerAnswer, LoggerAsked } from '../worker/air/logger-types.ts'
import type { GlassAsked, WeatherFileAsked } from '../worker/air/types.ts'
import { helpersFor } from './pieces.ts'

/** What was given to be laid beside the box. */
export interface LoggerGiven extends Pick<LoggerAsked, 'log' | 'mapping'> {
  /** Of those days; null: the weather that stands for this job. */
  readonly weather: WeatherFileAsked | null
}

export type LoggerNow =
  | { readonly is: 'idle' | 'failed' }
  | { readonly is: 'running'; readonly doneCount: number; readonly ofCount: number }
  | { readonly is: 'stopped'; readonly doneCount: number; readonly ofCount: number }
  /** `round`: the answer of the job that it is of. */
  | { readonly is: 'heard'; readonly answer: LoggerAnswer; readonly round: number }

/** Lays a logger’s list beside the box in a worker of its own, counted. Stopping ends the worker: half a fit says nothing. */
export function useLogger(box: string | null, glass: GlassAsked) {
  const { engine, jobs } = useBench()
  const { round } = useJob().now
  const [now, setNow] = useState<LoggerNow>({ is: 'idle' })
  const helper = useRef<Engine | null>(null)
  const turn = useRef(0)
  const counted = useRef({ doneCount: 0, ofCount: 0 })
  const end = useCallback((): void => {
    turn.current += 1
    helper.current?.stop()
    helper.current = null
  }, [])
  useEffect(() => end, [end])
  const run = async ({ log, mapping, weather }: LoggerGiven): Promise<void> => {
    end()
    const own = turn.current
    const over = (): boolean => turn.current !== own
    counted.current = { doneCount: 0, ofCount: 0 }
    setNow({ is: 'running', ...counted.current })
    try {
      const task = await engine.call('remedyTask', { box })
      const standing = weather ?? (await engine.call('weatherGiven', null))
      const [first] = await helpersFor(jobs, 1)
      if (over() || task === null || first === undefined) {
        first?.stop()
        if (!over()) setNow({ is: 'idle' })
        return
      }
      helper.current = first
      const asked = { ...glass, task, log, mapping, weather: standing }
      const answer = await first.call('loggerBeside', asked, (doneCount, ofCount) => {
        if (over()) return
        counted.current = { doneCount, ofCount }
        setNow({ is: 'running', doneCount, ofCount })
      })
      if (over()) return
      end()
      setNow({ is: 'heard', answer, round })
    } catch (thrown) {
      if (over() || thrown instanceof Stopped) return
      end()
      setNow({ is: 'failed' })
    }
  }
  const stop = (): void => {
    end()
    setNow({ is: 'stopped', ...counted.current })
  }
  return { now, run: (given: LoggerGiven) => void run(given), stop }
}
