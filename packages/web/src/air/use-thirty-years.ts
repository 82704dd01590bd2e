import { useCallback, useEffect, useRef, useState } from 'react'
import { useBench, useJob } from '../bench.ts'
import type { Engine } from '../engine/client.ts'
import type { YearsView } from '../worker/air/types.ts'
import { helpersFor, inPieces } from './pieces.ts'

export type ThirtyYearsNow =
  | { readonly is: 'idle' }
  | { readonly is: 'running'; readonly doneCount: number; readonly ofCount: number; readonly stopping: boolean }
  | { readonly is: 'lacks'; readonly lacks: readonly string[] }
  | { readonly is: 'stopped'; readonly doneCount: number; readonly ofCount: number }
  | { readonly is: 'done'; readonly view: YearsView }

/** One is left for the page and its engine. */
const WORKERS = 1

/**
 * In how many made years the design holds, found in a worker of its own as soon as the room shows its year; kept with the answer, so that it
 * is not run twice and its papers hold it. Another answer of the job begins anew.
 */
export function useThirtyYears(box: string) {
  const { engine, jobs } = useBench()
  const { round } = useJob().now
  const [now, setNow] = useState<ThirtyYearsNow>({ is: 'idle' })
  const stopped = useRef(false)
  const helpers = useRef<readonly Engine[]>([])
  const turn = useRef(0)
  const end = useCallback((): void => {
    turn.current += 1
    for (const helper of helpers.current) helper.stop()
    helpers.current = []
  }, [])
  const run = useCallback(async (): Promise<void> => {
    end()
    const own = turn.current
    const over = (): boolean => turn.current !== own
    stopped.current = false
    setNow({ is: 'idle' })
    const kept = await engine.call('yearsKept', { box })
    if (over()) return
    if (kept !== null) return setNow({ is: 'done', view: kept })
    const task = await engine.call('remedyTask', { box })
    if (over() || task === null) return
    const all = await helpersFor(jobs, WORKERS)
    if (over()) {
      for (const helper of all) helper.stop()
      return
    }
    helpers.current = all
    const [first] = await Promise.all(all.map((helper) => helper.call('yearsBegin', task)))
    if (over() || first === undefined) return
    if (first.is === 'lacks') {
      end()
      return setNow({ is: 'lacks', lacks: first.lacks })
    }
    const ofCount = first.years.length
    let doneCount = 0
    const told = (): void => setNow({ is: 'running', doneCount, ofCount, stopping: stopped.current })
    told()
    const parts = await inPieces({
      ...{ helpers: all, steps: first.years, stopped: () => stopped.current },
      part: (helper, year) => helper.call('yearPart', { year }),
      done: () => {
        doneCount += 1
        if (!over()) told()
      },
    })
    if (over()) return
    const found = parts.length < ofCount ? null : await all[0]!.call('yearsFound', { parts })
    if (over()) return
    end()
    if (found === null) return setNow({ is: 'stopped', doneCount: parts.length, ofCount })
    await engine.call('keepAir', { at: task.at, box, years: found.held })
    setNow({ is: 'done', view: found.view })
  }, [engine, jobs, box, end])
  // biome-ignore lint/correctness/useExhaustiveDependencies: another answer of the job has its own years
  useEffect(() => {
    // Whoever leaves the room ends the worker: nothing is left to say.
    void run().catch(() => {})
    return end
  }, [run, round, end])
  return {
    now,
    run: () => void run().catch(() => {}),
    stop: () => {
      stopped.current = true
      setNow((was) => (was.is === 'running' ? { ...was, stopping: true } : was))
    },
  }
}
